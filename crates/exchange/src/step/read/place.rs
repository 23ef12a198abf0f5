//! Points, directions and places, in mm, and how one place is carried to another.

use elbowroom_geometry::{LARGEST_MM, Point3, Vector3};

use super::exchange::Exchange;
use super::value::{Record, Value};
use crate::error::TextError;

/// A place with three axes at right angles; also the motion that carries the origin of the world there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    /// Where it is, mm.
    pub origin: Point3<f64>,
    /// Its axes, x, y and z.
    pub axes: [Vector3<f64>; 3],
}

impl Place {
    /// The origin of the world.
    pub fn world() -> Self {
        Self { origin: Point3::origin(), axes: [Vector3::x(), Vector3::y(), Vector3::z()] }
    }

    /// Its third axis, about which things turn.
    pub fn axis(&self) -> Vector3<f64> {
        self.axes[2]
    }

    /// A direction that is said in its axes.
    pub fn turned(&self, direction: &Vector3<f64>) -> Vector3<f64> {
        self.axes[0] * direction.x + self.axes[1] * direction.y + self.axes[2] * direction.z
    }

    /// A point that is said from here.
    pub fn carried(&self, point: &Point3<f64>) -> Point3<f64> {
        self.origin + self.turned(&point.coords)
    }

    /// Another place that is said from here.
    pub fn then(&self, inner: &Self) -> Self {
        Self { origin: self.carried(&inner.origin), axes: inner.axes.map(|axis| self.turned(&axis)) }
    }

    /// The motion back.
    pub fn undone(&self) -> Self {
        let row = |index: usize| Vector3::new(self.axes[0][index], self.axes[1][index], self.axes[2][index]);
        let axes = [row(0), row(1), row(2)];
        let away = -self.origin.coords;
        let origin = axes[0] * away.x + axes[1] * away.y + axes[2] * away.z;
        Self { origin: Point3::from(origin), axes }
    }
}

impl Exchange<'_> {
    /// A point, of a unit of so many mm.
    pub fn point(&self, number: u64, unit_mm: f64) -> Result<Point3<f64>, TextError> {
        let record = self.record(number)?;
        let [x, y, z] = self.triple(&record, "CARTESIAN_POINT")?.map(|value| value * unit_mm);
        if [x, y, z].iter().any(|value| value.abs() > LARGEST_MM) {
            return Err(self.wrong(number, "lies too far off", "a point must lie within 10 km of the origin"));
        }
        Ok(Point3::new(x, y, z))
    }

    /// A direction of length 1.
    pub fn direction(&self, number: u64) -> Result<Vector3<f64>, TextError> {
        let record = self.record(number)?;
        let [x, y, z] = self.triple(&record, "DIRECTION")?;
        let largest = x.abs().max(y.abs()).max(z.abs());
        let unit =
            (Vector3::new(x, y, z) / largest).try_normalize(0.0).filter(|unit| unit.iter().all(|c| c.is_finite()));
        unit.ok_or_else(|| self.wrong(number, "is a direction to nowhere", "one of its numbers must not be 0"))
    }

    fn triple(&self, record: &Record<'_>, kind: &str) -> Result<[f64; 3], TextError> {
        let values = record.of(kind).and_then(|values| values.get(1)).map(Value::list).unwrap_or_default();
        let numbers: Vec<f64> = values.iter().filter_map(Value::number).collect();
        match numbers.as_slice() {
            [x, y, z] if values.len() == 3 => Ok([*x, *y, *z]),
            _ => Err(self.wrong(record.number, &format!("is no {kind} of three numbers"), "it must be one")),
        }
    }

    /// A place (AXIS2_PLACEMENT_3D); an axis that is not said is z, a direction of reference x as far as it can be.
    pub fn axis_placement(&self, number: u64, unit_mm: f64) -> Result<Place, TextError> {
        let record = self.record(number)?;
        let Some([_, location, axis, reference]) = record.of("AXIS2_PLACEMENT_3D") else {
            return Err(self.wrong(number, "is no place with axes", "it must be an AXIS2_PLACEMENT_3D of four values"));
        };
        let location =
            location.reference().ok_or_else(|| self.wrong(number, "has no location", "it must name a point"))?;
        let along = |value: &Value<'_>| value.reference().map(|number| self.direction(number)).transpose();
        let z = along(axis)?.unwrap_or_else(Vector3::z);
        let hint = along(reference)?.unwrap_or_else(Vector3::x);
        let square = |hint: &Vector3<f64>| (hint - z * z.dot(hint)).try_normalize(1e-9);
        let x = square(&hint).or_else(|| square(&Vector3::x())).or_else(|| square(&Vector3::y()));
        let x = x.ok_or_else(|| self.wrong(number, "has no direction of reference", "its axes must differ"))?;
        Ok(Place { origin: self.point(location, unit_mm)?, axes: [x, z.cross(&x), z] })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_motion_and_its_undoing_are_nothing() {
        // A quarter turn about z and a shift, worked out by hand: x goes to y, y to -x.
        let turned = Place { origin: Point3::new(10.0, 20.0, 30.0), axes: [Vector3::y(), -Vector3::x(), Vector3::z()] };
        assert_eq!(turned.carried(&Point3::new(1.0, 2.0, 3.0)), Point3::new(8.0, 21.0, 33.0));
        assert_eq!(turned.undone().carried(&Point3::new(8.0, 21.0, 33.0)), Point3::new(1.0, 2.0, 3.0));
        assert_eq!(turned.then(&turned.undone()), Place::world());
        assert_eq!(turned.undone().then(&turned), Place::world());
        assert_eq!(turned.then(&turned).carried(&Point3::origin()), Point3::new(-10.0, 30.0, 60.0));
    }
}
