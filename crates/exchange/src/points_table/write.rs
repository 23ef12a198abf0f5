//! Writing a points table.

use elbowroom_bending::{Part, Path};
use elbowroom_geometry::{BendPath, NoVertexForm, Refusal, VertexPath};
use thiserror::Error;

use super::HEADER;

/// Why a part has no points table.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum CannotBeTable {
    /// A bend is too large for its straights to meet in a vertex.
    #[error(
        "bend {} turns {:.3}°, and a points table holds bends up to {}° only, because beyond that the \
         straights meet in no vertex",
        .0.bend + 1, .0.angle.degrees(), BendPath::LARGEST_VERTEX_ANGLE.degrees()
    )]
    BendTooLarge(NoVertexForm),
    /// A vertex lies further off than a table holds.
    #[error(transparent)]
    TooFar(Refusal),
    /// There are fewer than two points.
    #[error("the part has {0} points, and a points table needs at least two")]
    TooFewPoints(usize),
}

impl CannotBeTable {
    /// What would be right.
    pub fn right(&self) -> &'static str {
        match self {
            Self::BendTooLarge(_) => "keep it as a part file, or make that bend shallower",
            Self::TooFar(_) => "keep it as a part file, or draw it nearer to the origin",
            Self::TooFewPoints(_) => "draw a tube first",
        }
    }
}

/// The vertices of a part: its own where it is held in vertex form, to the bit.
///
/// # Errors
/// A part in bend form with a bend beyond 179.999° has no vertices, and those of others can lie too far off.
pub fn of_part(part: &Part) -> Result<VertexPath, CannotBeTable> {
    of_path(&part.path)
}

/// The vertices of a path, likewise.
///
/// # Errors
/// Those of [`of_part`].
pub fn of_path(path: &Path) -> Result<VertexPath, CannotBeTable> {
    let path = match path {
        Path::Vertices(path) => path.clone(),
        Path::Bends(path) => path.to_vertex_form().map_err(CannotBeTable::BendTooLarge)?,
    };
    path.check().map_err(CannotBeTable::TooFar)?;
    match path.points().len() {
        few @ (0 | 1) => Err(CannotBeTable::TooFewPoints(few)),
        _ => Ok(path),
    }
}

/// The points table of a centreline. Reading it back gives the same numbers to the bit.
pub fn write(path: &VertexPath) -> String {
    let mut text = String::with_capacity(64 * (path.points().len() + 1));
    text.push_str(HEADER);
    text.push('\n');
    let last = path.points().len().saturating_sub(1);
    for (index, point) in path.points().iter().enumerate() {
        for value in point.iter() {
            text.push_str(&exact(*value));
            text.push(',');
        }
        if index > 0 && index < last {
            text.push_str(&exact(path.clr()[index - 1].mm()));
        }
        text.push('\n');
    }
    text
}

/// The shortest text that reads back as the same double: plain decimals where they are short.
fn exact(value: f64) -> String {
    let size = value.abs();
    if value == 0.0 || (1e-7..1e15).contains(&size) { format!("{value}") } else { format!("{value:e}") }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use elbowroom_geometry::{Length, Point3};

    use super::*;
    use crate::points_table::read;

    #[test]
    fn numbers_come_back_to_the_bit() {
        let awkward = [0.1 + 0.2, 1.0 / 3.0, -0.0, 5e-324, 1e7, -123_456.789_012_345_67, 1e-17, std::f64::consts::PI];
        let points: Vec<_> = awkward.iter().map(|&x| Point3::new(x, -x, x / 7.0)).collect();
        let clr = awkward[1..7].iter().map(|x| Length::from_mm(x.abs())).collect();
        let path = VertexPath::new(points, clr).unwrap();
        let back = read(&write(&path), "a.csv").unwrap();
        let bits = |path: &VertexPath| -> Vec<u64> {
            let points = path.points().iter().flat_map(|p| [p.x, p.y, p.z]);
            points.chain(path.clr().iter().map(|c| c.mm())).map(f64::to_bits).collect()
        };
        assert_eq!(bits(&back), bits(&path));
    }

    #[test]
    fn the_text_is_plain() {
        let points = vec![Point3::new(0.0, 0.0, 0.0), Point3::new(250.0, 0.5, 0.0), Point3::new(250.0, 310.0, 1e-9)];
        let path = VertexPath::new(points, vec![Length::from_mm(90.5)]).unwrap();
        assert_eq!(write(&path), "x_mm,y_mm,z_mm,clr_mm\n0,0,0,\n250,0.5,0,90.5\n250,310,1e-9,\n");
    }
}
