//! What bending does to the tube: walls, stretch, springback, seam and mass of a solved part.

use elbowroom_geometry::{Angle, Length};

use crate::forming::difficulty::{USUAL_RIGIDITY, bend_diameters, difficulty, wall_factor};
use crate::forming::growth::{Growth, LegSpacing};
use crate::forming::mandrel;
use crate::forming::springback::{SpringbackBasis, SpringbackLine};
use crate::forming::wall::{WallFigure, WallRule, outer_stretch};
use crate::model::material::Certainty;

/// What bending does to the tube at one bend. Every figure is an estimate; its rule goes with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Formed {
    /// What is bent to what: what follows from that is worked out when it is read.
    pub(super) bent: Bent,
    /// What happens when the tube is let go; `None` where no die set bends it.
    pub released: Option<Released>,
    /// Clock position of the seam from the outside of this bend, radians in (-π, π]; `None` for tube
    /// without a seam.
    pub seam_at_rad: Option<f64>,
}

/// What is bent to what: enough for walls, stretch and mandrel, which would take ten times the room.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bent {
    pub od: Length,
    pub wall: Length,
    pub clr: Length,
    pub angle: Angle,
}

/// A bend that is let go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Released {
    /// The springback line.
    pub line: SpringbackLine,
    /// Where it comes from.
    pub basis: SpringbackBasis,
    /// Whether the theory had no material to start from, so that no springback at all is assumed.
    pub material_unknown: bool,
    /// Angle to set, radians.
    pub set_angle_rad: f64,
    /// Angle that is left: the drawn one, radians.
    pub free_angle_rad: f64,
    /// Radius that is left, mm (S01).
    pub free_clr_mm: f64,
    /// The straight that the grown radius takes on either side, mm.
    pub takes_mm: f64,
    /// Radius as drawn, mm.
    pub drawn_clr_mm: f64,
    /// Blank that the bend takes up, mm.
    pub takes_up_mm: f64,
    /// The straight ahead of the bend that is left when both its ends are let go, mm; negative where
    /// nothing is.
    pub straight_ahead_mm: f64,
}

/// The blank to cut, with springback and stretch counted: that of the bend program from the lead end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// Its length, trims and all, mm.
    pub blank_mm: f64,
    /// Extra blank at the start of the drawing, mm.
    pub lead_trim_mm: f64,
    /// Extra blank at its finish, mm.
    pub tail_trim_mm: f64,
    /// The weakest ground that the springback of its bends rests on.
    pub basis: SpringbackBasis,
}

/// Mass, kg, by the density of the material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mass {
    /// Of one metre of tube (Z08).
    pub per_metre_kg: f64,
    /// Of the part as drawn.
    pub part_kg: f64,
    /// Of the blank, trims and all.
    pub blank_kg: f64,
    /// How sure the density is.
    pub certainty: Certainty,
}

impl Released {
    /// The spacing of a U's legs, drawn and bent; `None` where the bend is no U.
    pub fn leg_spacing(&self) -> Option<LegSpacing> {
        let [drawn, free] = [self.drawn_clr_mm, self.free_clr_mm].map(Length::from_mm);
        Growth { drawn, free, angle: Angle::from_radians(self.free_angle_rad) }.leg_spacing()
    }

    /// Between which angles the bend usually opens, where theory alone says by how much; radians.
    pub fn usually_opens_rad(&self) -> Option<[f64; 2]> {
        let by_theory = Angle::from_radians(self.set_angle_rad - self.free_angle_rad);
        let is_known = self.basis == SpringbackBasis::Theory && !self.material_unknown;
        is_known.then(|| SpringbackLine::usually_opens(by_theory).map(Angle::radians))
    }
}

impl Formed {
    /// Stretch of the outer fibre OD/2R, as a share (W08).
    pub fn outer_stretch(&self) -> f64 {
        outer_stretch(self.bent.od, self.bent.clr)
    }

    /// Wall factor OD/t (M01).
    pub fn wall_factor(&self) -> f64 {
        wall_factor(self.bent.od, self.bent.wall)
    }

    /// D of bend CLR/OD (M01).
    pub fn bend_diameters(&self) -> f64 {
        bend_diameters(self.bent.od, self.bent.clr)
    }

    /// Difficulty by the tool-maker's rule, with the usual rigidity (M03).
    pub fn difficulty(&self) -> f64 {
        let Bent { od, wall, clr, angle } = self.bent;
        difficulty(od, wall, clr, angle, USUAL_RIGIDITY)
    }

    /// Nose diameter of the mandrel, mm (M04); `None` where no mandrel fits the bore.
    pub fn mandrel_nose_mm(&self) -> Option<f64> {
        mandrel::nose(self.bent.od, self.bent.wall).map(Length::mm)
    }

    /// Walls by every rule, in the order of [`WallRule::ALL`].
    pub fn walls(&self) -> impl Iterator<Item = WallFigure> {
        WallRule::ALL.into_iter().filter_map(|rule| self.wall(rule))
    }

    /// Walls by one rule.
    pub fn wall(&self, rule: WallRule) -> Option<WallFigure> {
        rule.figure(self.bent.od, self.bent.wall, self.bent.clr)
    }
}
