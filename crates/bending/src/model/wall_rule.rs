//! The rules by which the wall of a bend is estimated.

use super::ground::Ground;

/// A rule by which the wall of a bend is estimated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum WallRule {
    /// TEMA RCB-2.31: the wall before bending that leaves `t` is `t (1 + D/4R)` (W01).
    TubeExchanger,
    /// ASME B31.1 table 102.4.5: the wall to order for a minimum wall after bending (W03).
    PowerPiping,
    /// Outer wall thinned in the ratio of centreline radius to outside radius, a tool-maker's rule of
    /// thumb (W07): no strain round the hoop, an upper bound.
    RadiusRatio,
    /// Isotropic wall free to strain round the hoop, a plasticity text-book result from memory (W09).
    FreeHoop,
}

impl WallRule {
    /// Every rule, the one that leaves most wall first at usual radii.
    pub const ALL: [Self; 4] = [Self::FreeHoop, Self::TubeExchanger, Self::PowerPiping, Self::RadiusRatio];

    /// The rule's name on screen and paper.
    pub const fn name(self) -> &'static str {
        match self {
            Self::TubeExchanger => "TEMA RCB-2.31",
            Self::PowerPiping => "ASME B31.1 table 102.4.5",
            Self::RadiusRatio => "radius ratio",
            Self::FreeHoop => "free hoop",
        }
    }

    /// Where the rule comes from and what its percentage is based on.
    pub const fn source(self) -> &'static str {
        match self {
            Self::TubeExchanger => "TEMA RCB-2.31, t0 = t1 (1 + D/4R); percentage of the wall before bending",
            Self::PowerPiping => {
                "ASME B31.1 table 102.4.5, guide for ordering; interpolated between 3 and 6 diameters, held \
                 at 3 diameters below; percentage of the wall before bending"
            }
            Self::RadiusRatio => {
                "tool-maker's rule of thumb, outer wall = t R/Ro; percentage of the wall before bending"
            }
            Self::FreeHoop => "plasticity text-book, from memory, t sqrt(R/Ro) and t sqrt(R/Ri)",
        }
    }
}

impl From<WallRule> for Ground {
    fn from(rule: WallRule) -> Self {
        match rule {
            WallRule::TubeExchanger | WallRule::PowerPiping => Self::Published,
            WallRule::RadiusRatio => Self::CommonPractice,
            WallRule::FreeHoop => Self::Memory,
        }
    }
}
