//! Snapping with Ctrl held: to a grid, to round lengths of the legs beside the handle, and at the ends of the
//! tube to round angles. A round angle wins where it is near; else whatever is nearest to where the pointer leads.

use elbowroom_geometry::{Point3, Vector3};

use super::Constraint;
use super::constraint::unit;

/// Angles snap to multiples of this.
const ROUND_ANGLE_RAD: f64 = 5.0 * std::f64::consts::PI / 180.0;
/// A round angle catches the point from this many steps away. A leg of round length alone is always nearer.
const NEAR_STEPS: f64 = 0.8;
/// A coordinate is left alone where its axis points this straight at the eye (cosine).
const END_ON: f64 = 0.999;

/// What the dragged point hangs on: the vertices beside it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Neighbours {
    /// The vertices at the other ends of the legs that meet in the point.
    pub beside: [Option<Point3<f64>>; 2],
    /// For a point at an end of the tube: the vertex beyond its neighbour, so that the leg makes an angle there.
    pub beyond: Option<Point3<f64>>,
}

/// How a drag is held at the moment of snapping.
#[derive(Clone, Copy, Debug)]
pub struct Hold {
    /// Where the point was.
    pub start: Point3<f64>,
    /// Where it may go.
    pub constraint: Constraint,
    /// The unit direction to the eye.
    pub back: Vector3<f64>,
    /// The round step for coordinates and lengths, mm.
    pub step_mm: f64,
}

/// A snapped point and what it snapped to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Snapped {
    /// The point.
    pub at: Point3<f64>,
    /// What it snapped to.
    pub to: SnappedTo,
}

/// What a point snapped to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SnappedTo {
    /// A grid of so many millimetres.
    Grid(f64),
    /// A leg of so many millimetres.
    Leg(f64),
    /// A turn of so many radians, in a leg of so many millimetres.
    Turn(f64, f64),
}

/// The grid step (mm) for a view in which a pixel covers `pixel_mm`: 1, 2 or 5 times a power of ten, at least
/// eight pixels wide.
pub fn grid_step_mm(pixel_mm: f64) -> f64 {
    let least = (8.0 * pixel_mm).clamp(1e-3, 1e9);
    let decade = 10.0_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0].into_iter().map(|step| step * decade).find(|step| *step >= least).unwrap_or(10.0 * decade)
}

impl Hold {
    /// Snaps `raw`, which the pointer leads to.
    pub fn snapped(&self, raw: &Point3<f64>, neighbours: &Neighbours) -> Snapped {
        let turn = match (neighbours.beside, neighbours.beyond, self.constraint) {
            ([Some(corner), None], Some(beyond), Constraint::Facing) => self.with_round_turn(&corner, &beyond, raw),
            _ => None,
        };
        if let Some(turn) = turn.filter(|turn| (turn.at - raw).norm() <= NEAR_STEPS * self.step_mm) {
            return turn;
        }
        let mut best = Snapped { at: self.on_grid(raw), to: SnappedTo::Grid(self.step_mm) };
        let legs = neighbours.beside.iter().flatten().filter_map(|centre| self.with_round_leg(centre, raw));
        for candidate in legs {
            if (candidate.at - raw).norm_squared() < (best.at - raw).norm_squared() {
                best = candidate;
            }
        }
        best
    }

    fn on_grid(&self, raw: &Point3<f64>) -> Point3<f64> {
        if let Constraint::Sliding(along) = self.constraint {
            return self.start + along * self.rounded(along.dot(&(raw - self.start)));
        }
        let mut at = *raw;
        for axis in 0..3 {
            let free = match self.constraint {
                Constraint::Facing => self.back.dot(&unit(axis)).abs() < END_ON,
                Constraint::Along(held) => held == axis,
                Constraint::Across(held) => held != axis,
                Constraint::Sliding(_) => true,
            };
            at[axis] = if free { self.rounded(raw[axis]) } else { self.start[axis] };
        }
        at
    }

    /// The nearest point within the constraint at a round distance from `centre`.
    fn with_round_leg(&self, centre: &Point3<f64>, raw: &Point3<f64>) -> Option<Snapped> {
        // The foot of the centre in the plane or line of the drag; from there the point moves out or in.
        let foot = self.start + self.constraint.allowed(&(centre - self.start), &self.back);
        let outward = raw - foot;
        let (height2, reach) = ((centre - foot).norm_squared(), outward.norm());
        let leg_mm = self.rounded((height2 + reach * reach).sqrt());
        let wanted2 = leg_mm * leg_mm - height2;
        (reach > 0.0 && leg_mm > 0.0 && wanted2 > 0.0)
            .then(|| Snapped { at: foot + outward * (wanted2.sqrt() / reach), to: SnappedTo::Leg(leg_mm) })
    }

    /// The nearest point at a round turn and a round distance from the corner.
    fn with_round_turn(&self, corner: &Point3<f64>, beyond: &Point3<f64>, raw: &Point3<f64>) -> Option<Snapped> {
        let onward = (corner - beyond).try_normalize(0.0)?;
        let leg = raw - corner;
        let side = (leg - onward * onward.dot(&leg)).try_normalize(1e-9)?;
        let turn_rad = (leg.dot(&side).atan2(leg.dot(&onward)) / ROUND_ANGLE_RAD).round() * ROUND_ANGLE_RAD;
        let leg_mm = self.rounded(leg.norm());
        let (sin, cos) = turn_rad.sin_cos();
        let at = corner + (onward * cos + side * sin) * leg_mm;
        (leg_mm > 0.0).then_some(Snapped { at, to: SnappedTo::Turn(turn_rad, leg_mm) })
    }

    fn rounded(&self, value_mm: f64) -> f64 {
        (value_mm / self.step_mm).round() * self.step_mm
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic)]
    use super::*;

    fn hold(start: Point3<f64>, constraint: Constraint, step_mm: f64) -> Hold {
        Hold { start, constraint, back: Vector3::z(), step_mm }
    }

    #[test]
    fn grid_steps_are_round_and_wide_enough_to_hit() {
        for (pixel_mm, step_mm) in [(1.0, 10.0), (0.12, 1.0), (0.13, 2.0), (0.5, 5.0), (7.0, 100.0)] {
            assert!((grid_step_mm(pixel_mm) - step_mm).abs() < 1e-9, "{pixel_mm}: {}", grid_step_mm(pixel_mm));
        }
        assert!(grid_step_mm(f64::MAX).is_finite());
    }

    #[test]
    fn a_held_axis_snaps_its_own_coordinate_and_keeps_the_others() {
        let hold = hold(Point3::new(1.3, 2.7, 3.1), Constraint::Along(1), 5.0);
        let snapped = hold.snapped(&Point3::new(1.3, 18.2, 3.1), &Neighbours::default());
        assert_eq!(snapped, Snapped { at: Point3::new(1.3, 20.0, 3.1), to: SnappedTo::Grid(5.0) });
    }

    #[test]
    fn seen_from_above_the_height_is_kept() {
        let hold = hold(Point3::new(0.4, 0.0, 3.3), Constraint::Facing, 10.0);
        let snapped = hold.snapped(&Point3::new(41.0, 18.0, 3.3), &Neighbours::default());
        assert_eq!(snapped.at, Point3::new(40.0, 20.0, 3.3));
    }

    #[test]
    fn a_leg_snaps_to_a_round_length_within_the_plane() {
        let neighbours = Neighbours { beside: [Some(Point3::new(0.0, 0.0, 30.0)), None], beyond: None };
        // 3-4-5: in the plane z = 0 a leg of 50 from a height of 30 lies 40 away.
        let hold = hold(Point3::new(7.0, 0.0, 0.0), Constraint::Across(2), 50.0);
        let snapped = hold.snapped(&Point3::new(40.4, 0.0, 0.0), &neighbours);
        assert_eq!(snapped.to, SnappedTo::Leg(50.0));
        assert!((snapped.at - Point3::new(40.0, 0.0, 0.0)).norm() < 1e-9, "{snapped:?}");
    }

    #[test]
    fn an_end_snaps_to_a_round_turn_and_length() {
        let beside = [Some(Point3::new(100.0, 0.0, 0.0)), None];
        let neighbours = Neighbours { beside, beyond: Some(Point3::origin()) };
        let turn = 31.0_f64.to_radians();
        let raw = Point3::new(100.0 + 203.0 * turn.cos(), 203.0 * turn.sin(), 0.0);
        let snapped = hold(raw, Constraint::Facing, 100.0).snapped(&raw, &neighbours);
        let SnappedTo::Turn(angle, leg) = snapped.to else { panic!("{snapped:?}") };
        assert!((angle.to_degrees() - 30.0).abs() < 1e-9 && leg == 200.0);
    }
}
