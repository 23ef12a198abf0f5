//! What the shop owns: tube stock, die sets with their clamps, and the machine.

use std::borrow::Cow;
use std::collections::HashSet;

use elbowroom_geometry::units::format_any;
use elbowroom_geometry::{Angle, LARGEST_MM, Length, Refusal, Told};

use super::ground::Basis;
use super::guarded::{Guard, Guarded, LARGEST_TOOLING, bend_angle, not_negative, positive};
use super::limits::Limits;
use super::material::Material;
use super::springback::SpringbackRecord;
use super::text::harmless;
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

/// How the machine is told a rotation.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RotationSetting {
    /// As the turn from where the tube stands: the dial is put back to nought for each bend.
    #[default]
    Turn,
    /// As the reading of a dial on which the turns of all bends add up.
    Reading,
}

/// A clamp of a die set, and what it has proved to hold, behind its guard.
pub type Clamp = Guarded<ClampFigures>;

/// What is to be known of a clamp.
#[derive(Clone, Debug, PartialEq)]
pub struct ClampFigures {
    /// Length of the gripping cavity along the tube.
    pub length: Length,
    /// The largest bend angle it has held without slip.
    pub proved_angle: Angle,
    /// Where `proved_angle` comes from.
    pub basis: Basis,
    /// The tube on which it has proved it; `None` where nobody noted it.
    pub proved_on: Option<ProvedOn>,
}

/// Of what the tube was on which a clamp proved itself. Its outside diameter is that of the die set.
#[derive(Clone, Debug, PartialEq)]
pub struct ProvedOn {
    /// Its wall.
    pub wall: Length,
    /// Its material, by name.
    pub material: String,
}

/// A bend die for one outside diameter and radius with the clamps that fit it, behind its guard.
pub type DieSet = Guarded<DieSetFigures>;

/// What is to be known of a die set.
#[derive(Clone, Debug, PartialEq)]
pub struct DieSetFigures {
    /// The name it goes by in the shop. Unique in a shop.
    pub name: String,
    /// Outside diameter of the tube it takes.
    pub od: Length,
    /// Centreline radius it bends.
    pub clr: Length,
    /// Clamps that fit, at least one; behind the guard in rising length, each length once.
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

/// The die sets of a shop, no two of one name.
pub type DieSets = Guarded<Vec<DieSet>>;

/// The bender itself, behind its guard.
pub type Machine = Guarded<MachineFigures>;

/// What is to be known of the bender.
#[derive(Clone, Debug, PartialEq)]
pub struct MachineFigures {
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
    /// How it is told a rotation.
    pub rotation: RotationSetting,
    /// Where these figures come from.
    pub basis: Basis,
}

/// The longest blank: a coil. Common practice, no source.
const LONGEST_BLANK: Length = Length::from_mm(LARGEST_MM);

impl Guard for ClampFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        positive(|| "the length of the clamp".into(), self.length, LARGEST_TOOLING)?;
        bend_angle(|| "the angle the clamp has proved".into(), &mut self.proved_angle)?;
        let Some(tube) = &mut self.proved_on else { return Ok(()) };
        if let Cow::Owned(material) = harmless(&tube.material) {
            tube.material = material;
        }
        if tube.material.trim().is_empty() {
            let field = "the material on which the clamp has proved itself";
            return Err(Refusal::new(field, "empty", "named, such as 304 stainless"));
        }
        positive(|| "the wall on which the clamp has proved itself".into(), tube.wall, LARGEST_TOOLING)
    }
}

impl Guard for DieSetFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        if let Cow::Owned(name) = harmless(&self.name) {
            self.name = name;
        }
        let name = &self.name;
        let of = |what: &'static str| move || format!("{what} of die set \"{name}\"");
        self.clamps.sort_by(|a, b| a.length.mm().total_cmp(&b.length.mm()));
        if self.clamps.is_empty() {
            return Err(Refusal::new(of("the number of clamps")(), "0", "at least 1"));
        }
        if self.clamps.windows(2).any(|pair| pair[0].length == pair[1].length) {
            return Err(Refusal::new(of("a length of clamp")(), "given twice", "given once"));
        }
        positive(of("the outside diameter"), self.od, LARGEST_TOOLING)?;
        positive(of("the centreline radius"), self.clr, LARGEST_TOOLING)?;
        if self.clr < self.od / 2.0 {
            let may_be = Told::from("half the outside diameter (").and_length(self.od / 2.0).and(") or more");
            return Err(Refusal::new(of("the centreline radius")(), self.clr, may_be));
        }
        not_negative(of("the mark-free bite"), self.mark_free_bite, LARGEST_TOOLING)?;
        not_negative(of("the largest bite"), self.largest_bite, LARGEST_TOOLING)?;
        if self.largest_bite < self.mark_free_bite {
            let may_be = Told::from("the mark-free bite (").and_length(self.mark_free_bite).and(") or more");
            return Err(Refusal::new(of("the largest bite")(), self.largest_bite, may_be));
        }
        bend_angle(of("the largest angle"), &mut self.largest_angle)
    }
}

impl Guard for Vec<DieSet> {
    fn guard(&mut self) -> Result<(), Refusal> {
        let mut names = HashSet::with_capacity(self.len());
        match self.iter().find(|die| !names.insert(die.name.as_str())) {
            Some(die) => {
                Err(Refusal::new("a die set's name", format!("\"{}\" twice", die.name), "given once in a shop"))
            }
            None => Ok(()),
        }
    }
}

impl Guard for MachineFigures {
    fn guard(&mut self) -> Result<(), Refusal> {
        if let Cow::Owned(name) = harmless(&self.name) {
            self.name = name;
        }
        if !(0.0..=100.0).contains(&self.square_end_diameters) {
            let was = format_any(self.square_end_diameters);
            return Err(Refusal::new(
                "the least straight for a square end (square_end_diameters)",
                was,
                "a number from 0 to 100",
            ));
        }
        positive(|| "the longest blank".into(), self.longest_blank, LONGEST_BLANK)?;
        not_negative(|| "what the machine must hold".into(), self.tail_hold, LARGEST_TOOLING)?;
        bend_angle(|| "the machine's largest angle".into(), &mut self.largest_angle)
    }
}

/// Everything the shop can bend with.
#[derive(Clone, Debug, PartialEq)]
pub struct Shop {
    /// The shop's name.
    pub name: String,
    /// Tubes it keeps or can get.
    pub tubes: Vec<Tube>,
    /// Its die sets.
    pub die_sets: DieSets,
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
        same_size(self.od, od)
    }

    /// Whether the die is made for this tube and radius.
    pub fn fits(&self, od: Length, clr: Length) -> bool {
        self.takes(od) && same_size(self.clr, clr)
    }

    /// What the proved angles rest on: between clamps a straight line runs from one to the next, so one that
    /// nobody has proved makes all unsure.
    pub fn grip_basis(&self) -> Basis {
        if self.clamps.iter().any(|clamp| clamp.basis.unsure()) { Basis::CommonPractice } else { Basis::Shop }
    }

    /// Its longest clamp.
    pub fn longest_clamp(&self) -> Option<&Clamp> {
        self.clamps.last()
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

/// Whether two sizes are the same to [`DieSet::SAME_SIZE`], on either side, whatever their last bits are.
fn same_size(one: Length, other: Length) -> bool {
    /// Rounding of a size of some metres, mm.
    const ROUNDING_MM: f64 = 1e-9;
    (one - other).abs().mm() <= DieSet::SAME_SIZE.mm() + ROUNDING_MM
}
