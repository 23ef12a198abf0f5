//! What the shop owns: tube stock, die sets with their clamps, and the machine.

use elbowroom_geometry::{Angle, Length};

use super::basis::Basis;
use super::limits::Limits;
use super::material::Material;
use super::springback::SpringbackRecord;
use super::tube::Tube;

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

    /// The material of that name.
    pub fn material(&self, name: &str) -> Option<&Material> {
        self.materials.iter().find(|material| material.is_called(name))
    }

    /// What the shop knows of a die set in a material.
    pub fn springback_record(&self, die: &str, material: &str) -> Option<&SpringbackRecord> {
        self.springback_index(die, material).map(|index| &self.springback[index])
    }

    /// Where that stands among the shop's records. A material goes by any of its names.
    pub fn springback_index(&self, die: &str, material: &str) -> Option<usize> {
        let called = |name: &str| {
            name.eq_ignore_ascii_case(material) || self.material(material).is_some_and(|known| known.is_called(name))
        };
        self.springback.iter().position(|record| record.die == die && called(&record.material))
    }
}
