//! The limits that a shop sets itself.

use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Angle, Refusal};

use super::ground::Basis;
use super::guarded::{Guard, Guarded, degrees};
use super::wall_rule::WallRule;

/// Limits that the shop sets itself, behind their guard.
pub type Limits = Guarded<LimitFigures>;

/// Limits that a shop can set itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitFigures {
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
        Self::known(LimitFigures {
            wall_rule: WallRule::RadiusRatio,
            least_wall: 0.75,
            seam_from_outside: Angle::from_degrees(45.0),
            basis: Basis::CommonPractice,
        })
    }
}

impl Guard for LimitFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        if !(self.least_wall > 0.0 && self.least_wall < 1.0) {
            let may_be = "a share between 0 and 1, such as 0.75";
            return Err(Refusal::new("the least wall (least_wall)", format_any(self.least_wall), may_be));
        }
        if !(0.0..=90.0).contains(&self.seam_from_outside.degrees_exact()) {
            let was = degrees(self.seam_from_outside);
            return Err(Refusal::new(
                "how near the seam may come to the outside (seam_from_outside_deg)",
                was,
                "from 0° to 90°",
            ));
        }
        self.seam_from_outside = self.seam_from_outside.storable();
        Ok(())
    }
}
