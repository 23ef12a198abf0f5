//! What gives way when a released bend has grown: the straights beside it, and the legs of a U.
//!
//! A released bend turns by the drawn angle on a larger radius (S01), so it cannot lie where it was drawn. Its
//! middle can only be moved along the line that halves the bend, by c towards the legs; a little geometry (derived
//! here, for a growth g of the radius and half the bend angle φ) gives all the rest:
//!
//! - the crown, the outermost point of the arc, moves by g − c,
//! - the straight on either side loses c sin φ,
//! - each leg moves outwards, square to itself, by g − c cos φ.
//!
//! A shallow bend holds its legs and so its vertex: c = g / cos φ, and the straights lose g tan φ (G06). Towards half a
//! turn that would push the arc metres along its legs for a vertex that is nowhere. A person holds the arc there: how
//! far the U reaches, c = g, and lets the legs lie further apart. Between [`VERTEX_HELD_TO`] and [`CROWN_HELD_FROM`]
//! one goes over into the other.

use elbowroom_geometry::{Angle, Length};

/// Up to this bend angle the vertex is held. It lies 3.9 radii away from the middle of the arc there, and the arc
/// moves 3.9 times as far as its radius grows. Common practice, no source; a first piece is measured by the ends of
/// its arcs from the same angle on.
pub const VERTEX_HELD_TO: Angle = Angle::from_degrees(150.0);
/// From this bend angle on the crown of the arc is held. Common practice, no source.
pub const CROWN_HELD_FROM: Angle = Angle::from_degrees(170.0);
/// Beyond this bend angle the legs cross, and no one speaks of their spacing.
pub const LEGS_CROSS_FROM: Angle = Angle::from_degrees(210.0);

/// A bend as drawn and as it is when released.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// Radius as drawn.
    pub drawn: Length,
    /// Radius of the released bend.
    pub free: Length,
    /// Bend angle, the same for both.
    pub angle: Angle,
}

impl Growth {
    /// By how much the radius has grown.
    pub fn radius(&self) -> Length {
        self.free - self.drawn
    }

    /// How far the middle of the arc moves towards the legs, as a multiple of the growth of the radius.
    fn middle_moves(&self) -> f64 {
        let vertex_held = |angle: Angle| 1.0 / (angle.radians() / 2.0).cos();
        if self.angle <= VERTEX_HELD_TO {
            vertex_held(self.angle)
        } else {
            1.0 + (vertex_held(VERTEX_HELD_TO) - 1.0) * (1.0 - eased(self.angle))
        }
    }

    /// The straight that the bend takes on either side.
    pub fn straight_taken(&self) -> Length {
        self.radius() * (self.middle_moves() * (self.angle.radians() / 2.0).sin())
    }

    /// How far each leg moves outwards, square to itself; nothing where the vertex is held.
    pub fn leg_moves(&self) -> Length {
        if self.angle <= VERTEX_HELD_TO {
            return Length::ZERO;
        }
        self.radius() * (1.0 - self.middle_moves() * (self.angle.radians() / 2.0).cos())
    }

    /// The spacing of the legs as drawn and as bent; `None` for a bend that is no U.
    pub fn leg_spacing(&self) -> Option<LegSpacing> {
        let drawn = leg_spacing(self.drawn, self.angle)?;
        let across = (self.angle.radians() / 2.0).sin();
        Some(LegSpacing { drawn, bent: drawn + self.leg_moves() * (2.0 * across) })
    }
}

/// How far the middles of a U's legs lie apart where its arc begins and ends as drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LegSpacing {
    /// As drawn.
    pub drawn: Length,
    /// When the tube is released.
    pub bent: Length,
}

/// Whether a bend is a U: its legs run back beside each other.
pub fn is_u(angle: Angle) -> bool {
    (VERTEX_HELD_TO..=LEGS_CROSS_FROM).contains(&angle)
}

/// How far the middles of a U's legs lie apart where its arc begins and ends: the chord 2 R sin(θ/2) (G07). `None`
/// for a bend that is no U.
pub fn leg_spacing(clr: Length, angle: Angle) -> Option<Length> {
    is_u(angle).then(|| clr * (2.0 * (angle.radians() / 2.0).sin()))
}

/// The radius on which the legs of a U lie so far apart. `None` for a bend that is no U.
pub fn radius_for_spacing(spacing: Length, angle: Angle) -> Option<Length> {
    is_u(angle).then(|| spacing / (2.0 * (angle.radians() / 2.0).sin()))
}

/// From 0 at [`VERTEX_HELD_TO`] to 1 at [`CROWN_HELD_FROM`], without a corner at either end.
fn eased(angle: Angle) -> f64 {
    let share = ((angle - VERTEX_HELD_TO) / (CROWN_HELD_FROM - VERTEX_HELD_TO)).clamp(0.0, 1.0);
    share * share * (3.0 - 2.0 * share)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use approx::assert_abs_diff_eq;

    fn grown(degrees: f64) -> Growth {
        Growth { drawn: Length::from_mm(90.0), free: Length::from_mm(93.0), angle: Angle::from_degrees(degrees) }
    }

    #[test]
    fn a_shallow_bend_holds_its_vertex() {
        // Tangent length R tan(θ/2) (surveying text FS-5-f): 3 mm more radius take 3, 1.243 and 5.196 mm.
        for (degrees, taken) in [(0.0, 0.0), (45.0, 1.2426), (90.0, 3.0), (120.0, 5.1962)] {
            assert_abs_diff_eq!(grown(degrees).straight_taken().mm(), taken, epsilon = 1e-4);
            assert_eq!(grown(degrees).leg_moves(), Length::ZERO);
        }
    }

    #[test]
    fn a_half_turn_holds_its_crown() {
        let half = grown(180.0);
        assert_abs_diff_eq!(half.straight_taken().mm(), 3.0, epsilon = 1e-12);
        assert_abs_diff_eq!(half.leg_moves().mm(), 3.0, epsilon = 1e-12);
        let spacing = half.leg_spacing().unwrap();
        assert_abs_diff_eq!(spacing.drawn.mm(), 180.0, epsilon = 1e-12);
        assert_abs_diff_eq!(spacing.bent.mm(), 186.0, epsilon = 1e-12);
    }

    #[test]
    fn nothing_jumps_from_angle_to_angle() {
        let step = 0.01;
        let mut before = grown(0.0);
        for tick in 1..35_900 {
            let here = grown(f64::from(tick) * step);
            // A tenth of the growth a degree is what the vertex itself asks for at 150°.
            for (what, change) in [
                ("taken", here.straight_taken() - before.straight_taken()),
                ("moved", here.leg_moves() - before.leg_moves()),
            ] {
                assert!(change.abs().mm() <= 0.25 * 3.0 * step, "{what} at {}°: {change:?}", here.angle.degrees());
            }
            assert!(here.straight_taken().mm() <= 4.0 * 3.0, "{}°", here.angle.degrees());
            before = here;
        }
    }

    #[test]
    fn only_a_u_has_a_leg_spacing() {
        for degrees in [0.0, 90.0, 149.9, 210.1, 359.0] {
            assert_eq!(grown(degrees).leg_spacing(), None, "{degrees}");
        }
        // At 150° the vertex is held still, and so are the legs.
        let spacing = grown(150.0).leg_spacing().unwrap();
        assert_abs_diff_eq!(spacing.drawn.mm(), spacing.bent.mm(), epsilon = 1e-12);
        let clr = radius_for_spacing(Length::from_mm(181.0), Angle::HALF_TURN).unwrap();
        assert_abs_diff_eq!(clr.mm(), 90.5, epsilon = 1e-12);
    }
}
