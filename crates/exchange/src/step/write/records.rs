//! The records of a STEP file as they are numbered and written (ISO 10303-21, clear text encoding; from memory).

use std::fmt::{self, Display, Write};

use elbowroom_geometry::{Point3, Vector3};

/// The number of a record, by which others name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Id(usize);

impl Display for Id {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "#{}", self.0)
    }
}

/// The records of a file so far.
#[derive(Default)]
pub(super) struct Records {
    text: String,
    last: usize,
}

impl Records {
    /// Writes a record and gives its number.
    pub fn put(&mut self, record: impl Display) -> Id {
        self.last += 1;
        // Writing to a text cannot fail.
        let _ = writeln!(self.text, "#{}={record};", self.last);
        Id(self.last)
    }

    /// The text of all records.
    pub fn into_text(self) -> String {
        self.text
    }

    /// A point, mm.
    pub fn point(&mut self, at: &Point3<f64>) -> Id {
        self.put(format_args!("CARTESIAN_POINT('',{})", triple([at.x, at.y, at.z])))
    }

    /// A direction.
    pub fn direction(&mut self, of: &Vector3<f64>) -> Id {
        self.put(format_args!("DIRECTION('',{})", triple([of.x, of.y, of.z])))
    }

    /// A place with its axis and the direction from which angles about it are counted.
    pub fn placement(&mut self, at: &Point3<f64>, axis: &Vector3<f64>, from: &Vector3<f64>) -> Id {
        let (at, axis, from) = (self.point(at), self.direction(axis), self.direction(from));
        self.put(format_args!("AXIS2_PLACEMENT_3D('',{at},{axis},{from})"))
    }

    /// A circle on a place.
    pub fn circle(&mut self, at: &Point3<f64>, axis: &Vector3<f64>, from: &Vector3<f64>, radius_mm: f64) -> Id {
        let placement = self.placement(at, axis, from);
        self.put(format_args!("CIRCLE('',{placement},{})", real(radius_mm)))
    }

    /// A vertex of a solid.
    pub fn vertex(&mut self, at: &Point3<f64>) -> Id {
        let point = self.point(at);
        self.put(format_args!("VERTEX_POINT('',{point})"))
    }

    /// An edge along a curve, in its direction.
    pub fn edge(&mut self, from: Id, to: Id, curve: Id) -> Id {
        self.put(format_args!("EDGE_CURVE('',{from},{to},{curve},.T.)"))
    }

    /// A loop of edges, each along or against its direction.
    pub fn bound(&mut self, edges: &[(Id, bool)], outer: bool) -> Id {
        let oriented: Vec<String> = edges
            .iter()
            .map(|(edge, along)| self.put(format_args!("ORIENTED_EDGE('',*,*,{edge},{})", truth(*along))).to_string())
            .collect();
        let edges = self.put(format_args!("EDGE_LOOP('',({}))", oriented.join(",")));
        let kind = if outer { "FACE_OUTER_BOUND" } else { "FACE_BOUND" };
        self.put(format_args!("{kind}('',{edges},.T.)"))
    }

    /// A face on a surface, with or against the surface's own normal.
    pub fn face(&mut self, bounds: &[Id], surface: Id, along: bool) -> Id {
        self.put(format_args!("ADVANCED_FACE('',{},{surface},{})", list(bounds), truth(along)))
    }
}

/// A list of records.
pub(super) fn list(ids: &[Id]) -> String {
    let ids: Vec<String> = ids.iter().map(Id::to_string).collect();
    format!("({})", ids.join(","))
}

fn truth(yes: bool) -> &'static str {
    if yes { ".T." } else { ".F." }
}

fn triple(values: [f64; 3]) -> String {
    format!("({})", values.map(real).join(","))
}

/// The shortest number that reads back as the same double; one with a point, as the standard asks of a real.
pub(super) fn real(value: f64) -> String {
    let text = format!("{value:?}");
    match text.split_once('e') {
        Some((mantissa, power)) if mantissa.contains('.') => format!("{mantissa}E{power}"),
        Some((mantissa, power)) => format!("{mantissa}.E{power}"),
        None => text,
    }
}

/// A text between apostrophes. Signs beyond ASCII are written by their numbers, as the standard asks.
pub(super) fn text(of: &str) -> String {
    let mut out = String::from("'");
    for sign in of.chars() {
        match sign {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            ' '..='~' => out.push(sign),
            // Writing to a text cannot fail.
            _ if u32::from(sign) <= 0xffff => drop(write!(out, "\\X2\\{:04X}\\X0\\", u32::from(sign))),
            _ => drop(write!(out, "\\X4\\{:08X}\\X0\\", u32::from(sign))),
        }
    }
    out.push('\'');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_have_a_point_and_come_back() {
        for (value, wanted) in [
            (1.0, "1.0"),
            (-0.5, "-0.5"),
            (1e-7, "1.E-7"),
            (1.5e-9, "1.5E-9"),
            (1e16, "1.E16"),
            (120.6, "120.6"),
            (0.1 + 0.2, "0.30000000000000004"),
        ] {
            assert_eq!(real(value), wanted);
            assert_eq!(wanted.parse(), Ok(value));
        }
    }

    #[test]
    fn texts_are_plain_ascii() {
        assert_eq!(text("Downpipe 2"), "'Downpipe 2'");
        assert_eq!(text("a'b\\c"), "'a''b\\\\c'");
        assert_eq!(text("Rohr ø\u{1f600}"), "'Rohr \\X2\\00F8\\X0\\\\X4\\0001F600\\X0\\'");
    }
}
