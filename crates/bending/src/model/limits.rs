//! The limits that a shop sets itself.

use elbowroom_geometry::Angle;

use super::basis::Basis;
use super::wall_rule::WallRule;

/// Limits that the shop sets itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limits {
    /// The rule by which the outside wall is judged.
    pub wall_rule: WallRule,
    /// The wall that must be left at the outside of a bend, as a share of the wall before bending.
    pub least_wall: f64,
    /// How near the seam may come to the outside of a bend before it is cautioned.
    pub seam_from_outside: Angle,
    /// Where these figures come from.
    pub basis: Basis,
}

impl Default for Limits {
    /// Common practice, no source: three quarters of the wall, the seam at least 45° from the outside.
    fn default() -> Self {
        Self {
            wall_rule: WallRule::RadiusRatio,
            least_wall: 0.75,
            seam_from_outside: Angle::from_degrees(45.0),
            basis: Basis::CommonPractice,
        }
    }
}
