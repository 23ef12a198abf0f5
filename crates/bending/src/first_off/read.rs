//! A measurement taken at its word, once nothing speaks against it.

use elbowroom_geometry::{Angle, BendPath, BendRow, Length, Point3};

use super::culprit::{doubt_points, doubt_rows};
use super::doubt::{MeasurementDoubt, odd_one_out};
use super::plausible::AsSet;
use super::points::{Layout, path_of, points_of};
use crate::measurement::Measurement;

/// The measured tube, from the lead end of the drawing to its tail.
///
/// `as_set` is what the piece should have come out as; `free_radius` gives the
/// free radius of a bend, by its index, for a measured angle: points have it in their vertices, whatever it is. Bend
/// rows have it nowhere, and what their vertices are depends on it: `radius_as_set` gives it from what the bend was set
/// to ([`radius_by_set_angle`]). Points may be laid out as
/// [`Layout::usual`] says; a bend of less than half a turn may also be given by its vertex.
///
/// `stands_by` says that the person has measured again and stands by it: what can be compared is taken then, and the
/// doubt told beside it.
///
/// # Errors
/// Doubts a measurement that cannot be this piece: see [`MeasurementDoubt`]. Points in it are counted in the
/// order of the measurement.
pub fn read(
    measurement: &Measurement,
    stands_by: bool,
    as_set: AsSet,
    free_radius: impl Fn(usize, Angle) -> Length,
    radius_as_set: impl Fn(usize, Angle) -> Length,
) -> Result<(BendPath, Option<MeasurementDoubt>), MeasurementDoubt> {
    let overruled = |told: Result<(), MeasurementDoubt>| match told {
        Ok(()) => Ok(None),
        Err(doubt) if stands_by && doubt.can_be_overruled() => Ok(Some(doubt)),
        Err(doubt) => Err(doubt),
    };
    let expected = as_set.path;
    let angles: Vec<Angle> = expected.rows().iter().map(|row| row.angle).collect();
    match measurement {
        Measurement::Points(points) => {
            if let Some(index) = points.iter().position(|point| point.iter().any(|value| !value.is_finite())) {
                return Err(MeasurementDoubt::NotANumber(index));
            }
            let usual = Layout::usual(angles.iter().copied());
            let miscounted = || MeasurementDoubt::Count {
                design: usual.points(),
                measured: points.len(),
                by_arc_ends: usual.points() - angles.len() - 2,
                missing: points_of(expected, &usual).and_then(|design| odd_one_out(&design, points)),
            };
            let layout = if points.len() == usual.points() {
                usual.clone()
            } else {
                Layout::holding(points.len(), &angles).ok_or_else(miscounted)?
            };
            let design = points_of(expected, &layout).ok_or(MeasurementDoubt::NoTube)?;
            // Straights as they were fed: on the radii that the set angles left.
            let tube = |points: &[Point3<f64>]| path_of(points, &layout, &radius_as_set);
            let doubt = overruled(doubt_points(as_set, &design, points, &tube)).map_err(|doubt| match doubt {
                MeasurementDoubt::NotThisPart { .. } | MeasurementDoubt::Beyond(_) | MeasurementDoubt::NoTube
                    if layout != usual =>
                {
                    miscounted()
                }
                doubt => doubt,
            })?;
            match path_of(points, &layout, free_radius) {
                Some(path) => Ok((path, doubt)),
                None => Err(doubt.unwrap_or(MeasurementDoubt::NoTube)),
            }
        }
        Measurement::Rows(rows, tail) => {
            if rows.len() != angles.len() {
                return Err(MeasurementDoubt::Bends { design: angles.len(), measured: rows.len() });
            }
            let as_bent = rows.iter().enumerate().map(|(bend, row)| BendRow {
                straight: row.straight,
                rotation: row.rotation,
                angle: row.angle,
                clr: radius_as_set(bend, row.angle),
            });
            let path = BendPath::new(*expected.start(), as_bent.collect(), *tail)?;
            let layout = Layout::usual(rows.iter().zip(&angles).map(|(row, angle)| row.angle.max(*angle)));
            let points = |path| points_of(path, &layout).ok_or(MeasurementDoubt::NoTube);
            let doubt = overruled(doubt_rows(
                as_set,
                (&path, rows.first().map_or(Angle::ZERO, |row| row.rotation)),
                (&points(expected)?, &points(&path)?),
            ))?;
            Ok((path, doubt))
        }
    }
}

/// The radius that a bend came off with: the arc keeps the length that was drawn round the die, so it is die × set
/// angle ÷ measured angle (S01).
pub fn radius_by_set_angle(die: Length, set: Angle, measured: Angle) -> Length {
    /// Released bends open by a share of what was set; a ratio outside of this is no springback.
    const SOUND: std::ops::RangeInclusive<f64> = 0.75..=1.5;
    let ratio = set.radians() / measured.radians();
    if measured > Angle::ZERO && SOUND.contains(&ratio) { die * ratio } else { die }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arc_keeps_its_length() {
        // Published (S01): a radius of 76.2 mm set to 92° and left at 90° is 77.893 mm.
        let of = |set, measured| {
            radius_by_set_angle(Length::from_mm(76.2), Angle::from_degrees(set), Angle::from_degrees(measured)).mm()
        };
        assert!((of(92.0, 90.0) - 77.893).abs() < 5e-4);
        assert_eq!(of(92.0, 0.0), 76.2);
        assert_eq!(of(92.0, 20.0), 76.2);
    }
}
