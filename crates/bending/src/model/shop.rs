//! What the shop owns: tube stock, die sets with their clamps, and the machine.

use elbowroom_geometry::{Angle, Length};

use crate::Tube;
use crate::forming::process::{Limits, SpringbackRecord};
use crate::layout::grip;
use crate::material::Material;

/// How much a figure can be trusted. It travels with the figure to screen, paper and JSON.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// What the trade commonly does; no source.
    #[default]
    CommonPractice,
    /// Proved or measured in this very shop.
    Shop,
}

/// The side to which the machine bends, seen from the chuck looking to the die.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Hand {
    /// Bends to the right.
    #[default]
    Right,
    /// Bends to the left.
    Left,
}

/// A clamp of a die set, and what it has proved to hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clamp {
    /// Length of the gripping cavity along the tube.
    pub length: Length,
    /// The largest bend angle it has held without slip.
    pub proved_angle: Angle,
    /// Where `proved_angle` comes from.
    pub basis: Basis,
}

/// A bend die for one outside diameter and radius, with the clamps that fit it.
#[derive(Clone, Debug, PartialEq)]
pub struct DieSet {
    /// The name it goes by in the shop. Unique in a shop.
    pub name: String,
    /// Outside diameter of the tube it takes.
    pub od: Length,
    /// Centreline radius it bends.
    pub clr: Length,
    /// Clamps that fit, in rising length. Never empty in a sound shop.
    pub clamps: Vec<Clamp>,
    /// The largest bite that leaves no mark.
    pub mark_free_bite: Length,
    /// The largest bite on which the clamp still closes; beyond it the tube is dented or the clamp stays open.
    pub largest_bite: Length,
    /// The largest angle this die bends.
    pub largest_angle: Angle,
    /// Where the bites and the largest angle come from.
    pub basis: Basis,
}

/// The bender itself.
#[derive(Clone, Debug, PartialEq)]
pub struct Machine {
    /// The name it goes by in the shop.
    pub name: String,
    /// The longest blank that fits over the mandrel and behind the die.
    pub longest_blank: Length,
    /// The straight behind the last bend that pressure die, mandrel and chuck must hold.
    pub tail_hold: Length,
    /// The largest angle the bend arm reaches.
    pub largest_angle: Angle,
    /// The side to which it bends.
    pub hand: Hand,
    /// The straight between a bend and a free end below which the end face is not square after bending,
    /// as a multiple of the outside diameter.
    pub square_end_diameters: f64,
    /// Where these figures come from.
    pub basis: Basis,
}

/// Everything the shop can bend with.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// The shop's name.
    pub name: String,
    /// Tubes it keeps or can get.
    pub tubes: Vec<Tube>,
    /// Its die sets.
    pub die_sets: Vec<DieSet>,
    /// Its machine.
    pub machine: Machine,
    /// The materials it knows.
    pub materials: Vec<Material>,
    /// What it has found out about springback, by die set and material.
    pub springback: Vec<SpringbackRecord>,
    /// The limits it sets itself.
    pub limits: Limits,
}

impl DieSet {
    /// Two outside diameters or radii this close are the same tooling: a tenth of what a die is cut to.
    /// Common practice, no source.
    pub const SAME_SIZE: Length = Length::from_mm(0.1);

    /// Whether the die is made for this tube.
    pub fn takes(&self, od: Length) -> bool {
        (self.od - od).abs() <= Self::SAME_SIZE
    }

    /// Whether the die is made for this tube and radius.
    pub fn fits(&self, od: Length, clr: Length) -> bool {
        self.takes(od) && (self.clr - clr).abs() <= Self::SAME_SIZE
    }

    /// The largest angle that has proved itself on so much gripped length: the shop's own figures, and a
    /// straight line between them (common practice, no source). No more than the longest clamp's.
    pub fn holds(&self, gripped: Length) -> Angle {
        grip::held(self, gripped.mm())
    }

    /// The gripped length that has proved itself for a bend angle; `None` beyond what any clamp has.
    pub fn grip_needed(&self, angle: Angle) -> Option<Length> {
        grip::needed_mm(self, angle).map(Length::from_mm)
    }

    /// What the proved angles rest on: between clamps a straight line runs from one to the next, so one that
    /// nobody has proved makes all unsure.
    pub fn grip_basis(&self) -> Basis {
        if self.clamps.iter().any(|clamp| clamp.basis.unsure()) { Basis::CommonPractice } else { Basis::Shop }
    }

    /// Its longest clamp.
    pub fn longest_clamp(&self) -> Option<&Clamp> {
        self.clamps.iter().max_by(|a, b| a.length.mm().total_cmp(&b.length.mm()))
    }
}

impl Shop {
    /// The die set of that name.
    pub fn die_named(&self, name: &str) -> Option<&DieSet> {
        self.die_sets.iter().find(|die| die.name == name)
    }

    /// The first die set made for this tube and radius.
    pub fn die_for(&self, od: Length, clr: Length) -> Option<&DieSet> {
        self.die_sets.iter().find(|die| die.fits(od, clr))
    }
}
