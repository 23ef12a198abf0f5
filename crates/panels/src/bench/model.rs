//! What lies on the bench, as a plain value.

use std::path::PathBuf;

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::sizes::{StandardSize, standard_sizes};
use elbowroom_bending::text::shown_path;
use elbowroom_bending::{Basis, ClampLength, DieSet, Edit, ExtraStock, Hand, Shop, Solved, Tube};
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::Workbench;

use super::describe::{size_text, tube_text};
use crate::widgets::{UNSURE, figure_text};

/// How well a die set suits the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fit {
    /// It takes the tube and has the radius of every bend.
    All,
    /// It takes the tube and has the radius of some bends.
    Some,
    /// It takes the tube; no bend has its radius.
    TubeOnly,
    /// It is made for another tube.
    Nothing,
}

impl Fit {
    /// What it means, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::All => "fits tube and radius",
            Self::Some => "fits the tube and some of the radii",
            Self::TubeOnly => "fits the tube, not the radius",
            Self::Nothing => "for another tube",
        }
    }
}

/// A die set that can be chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct DieChoice {
    /// Its name in the shop.
    pub name: String,
    /// Its size in words.
    pub size: String,
    /// How well it suits.
    pub fit: Fit,
    /// Its radius in words, where it takes the tube and bends have other radii: taking it for every bend means to give them
    /// this one.
    pub clr_for_all: Option<String>,
    /// Its radius.
    pub clr: Length,
}

impl DieChoice {
    /// Takes it, and leaves the drawing as it is.
    pub fn take(&self) -> Edit {
        Edit::ChooseDie(Some(self.name.clone()))
    }

    /// Takes it and gives every bend its radius, as one step.
    pub fn take_with_its_radius(&self, clr: &str) -> Edit {
        let label = format!("take die set {} and bend everything at CLR {clr}", self.name);
        Edit::Together(label, vec![self.take(), Edit::SetEveryClr(self.clr)])
    }
}

/// A clamp that can be chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct ClampChoice {
    /// Its length.
    pub length: Length,
    /// What it has proved to hold, in words.
    pub proved: String,
}

/// A figure of the machine.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// What it is.
    pub name: &'static str,
    /// The figure with its unit.
    pub value: String,
}

/// What the drawer shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The part's name.
    pub name: String,
    /// The part's note.
    pub note: String,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The tube.
    pub tube: Tube,
    /// The shop's tubes.
    pub tubes: Vec<Tube>,
    /// Standard sizes, with the list each comes from.
    pub sizes: Vec<(Tube, String)>,
    /// Materials the shop knows or has tube of.
    pub materials: Vec<String>,
    /// The die set that is chosen; none where it is left to the shop.
    pub die: Option<String>,
    /// The die sets that the shop has taken for the bends, by name.
    pub taken: Vec<String>,
    /// The shop's die sets, those that fit first.
    pub dies: Vec<DieChoice>,
    /// The die sets in use, each with whether the tube's material has been bent there without a crack.
    pub uncracked: Vec<(String, bool)>,
    /// The clamp that is chosen; none where the longest is taken.
    pub clamp: Option<Length>,
    /// The clamps of the die sets in use.
    pub clamps: Vec<ClampChoice>,
    /// The stock put on at the ends by hand.
    pub stock: ExtraStock,
    /// Blank cut off before the tip and behind the tail, mm, whatever it is for.
    pub trims_mm: (f64, f64),
    /// What these rest on, where they could be unsure.
    pub trim_bases: [Option<Ground>; 2],
    /// What the machine is called.
    pub machine: String,
    /// Its figures.
    pub facts: Vec<Fact>,
    /// Where they come from.
    pub machine_basis: Basis,
    /// What the shop is called.
    pub shop: String,
    /// The file it comes from; none for the built-in one.
    pub shop_file: Option<PathBuf>,
    /// Whether a shop file of one's own can be made: there is none yet, and a folder for it.
    pub can_make_shop: bool,
}

impl Model {
    /// The bench of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let (part, shop, solved) = (workbench.part(), workbench.shop(), workbench.solved());
        let used = used_dies(shop, solved, part.tooling.die.as_deref());
        Self {
            name: part.name.clone(),
            note: part.note.clone(),
            unit: part.units,
            tube: part.tube.clone(),
            tubes: shop.tubes.clone(),
            sizes: sizes(&part.tube, part.units),
            materials: materials(shop),
            die: part.tooling.die.clone(),
            taken: used.iter().map(|die| die.name.clone()).collect(),
            uncracked: uncracked(shop, &used, &part.tube.material),
            dies: die_choices(shop, solved, &part.tube, part.units),
            clamp: part.tooling.clamp.map(ClampLength::length),
            clamps: clamp_choices(&used, part.units),
            stock: part.stock,
            trims_mm: (solved.lead_trim_mm, solved.tail_trim_mm),
            trim_bases: solved.trim_bases,
            machine: shop.machine.name.clone(),
            facts: facts(shop, part.units),
            machine_basis: shop.machine.basis,
            shop: shop.name.clone(),
            shop_file: workbench.shop_file().cloned(),
            can_make_shop: workbench.can_make_own_shop(),
        }
    }
}

/// The die sets of the bends in the order of the shop, or the chosen one.
pub(crate) fn used_dies<'a>(shop: &'a Shop, solved: &Solved, chosen: Option<&str>) -> Vec<&'a DieSet> {
    if let Some(name) = chosen {
        return shop.die_named(name).into_iter().collect();
    }
    let used = |index: usize| solved.bends.iter().any(|bend| bend.die == Some(index));
    shop.die_sets.iter().enumerate().filter(|(index, _)| used(*index)).map(|(_, die)| die).collect()
}

/// What the shop has on record of each die set in a material.
fn uncracked(shop: &Shop, dies: &[&DieSet], material: &str) -> Vec<(String, bool)> {
    let of = |die: &&DieSet| {
        let known = shop.springback_record(&die.name, material);
        (die.name.clone(), known.is_some_and(|record| record.uncracked))
    };
    dies.iter().map(of).collect()
}

pub(crate) fn die_choices(shop: &Shop, solved: &Solved, tube: &Tube, unit: LengthUnit) -> Vec<DieChoice> {
    let fit = |die: &DieSet| {
        if !die.takes(tube.od) {
            return Fit::Nothing;
        }
        let bends = || solved.bends.iter().filter(|bend| bend.is_bent());
        let fitting = bends().filter(|bend| die.fits(tube.od, Length::from_mm(bend.clr_mm))).count();
        match fitting {
            0 => Fit::TubeOnly,
            fitting if fitting == bends().count() => Fit::All,
            _ => Fit::Some,
        }
    };
    let mut dies: Vec<DieChoice> = shop
        .die_sets
        .iter()
        .map(|die| {
            let [od, clr] = [die.od, die.clr].map(|length| format_length(length, unit, unit.decimals()));
            let (fit, bent) = (fit(die), solved.bends.iter().any(|bend| bend.is_bent()));
            let size = format!("{od} at CLR {clr}");
            let clr_for_all = (bent && matches!(fit, Fit::Some | Fit::TubeOnly)).then_some(clr);
            DieChoice { name: die.name.clone(), size, fit, clr_for_all, clr: die.clr }
        })
        .collect();
    dies.sort_by_key(|die| die.fit);
    dies
}

/// The clamps, longest first, each length once.
pub(crate) fn clamp_choices(dies: &[&DieSet], unit: LengthUnit) -> Vec<ClampChoice> {
    let mut clamps: Vec<_> = dies.iter().flat_map(|die| &die.clamps).collect();
    clamps.sort_by(|a, b| {
        b.length.mm().total_cmp(&a.length.mm()).then(a.proved_angle.radians().total_cmp(&b.proved_angle.radians()))
    });
    // Where two die sets have the same length, the smaller proved angle is the safe one to tell.
    clamps.dedup_by_key(|clamp| clamp.length);
    let choice = |clamp: &&elbowroom_bending::Clamp| {
        let angle = figure_text(&format_angle(clamp.proved_angle, 0), clamp.basis.into());
        let on = clamp.proved_on.as_ref().map_or(String::new(), |tube| {
            let wall = format_length(tube.wall, unit, unit.decimals() + 1);
            format!(" on {wall} {}", tube.material)
        });
        let how = if clamp.basis == Basis::Shop { "proved" } else { "counted on" };
        ClampChoice { length: clamp.length, proved: format!("{how} to {angle}{on}{}", mark(clamp.basis)) }
    };
    clamps.iter().map(choice).collect()
}

/// The standard sizes as tubes of the same material and seam.
pub(crate) fn sizes(now: &Tube, unit: LengthUnit) -> Vec<(Tube, String)> {
    let size = |size: StandardSize| {
        let tube = Tube::new(size.od, size.wall, &*now.material, now.seam).ok()?;
        let text = format!("{}, {}", figure_text(&size_text(&tube, unit), size.list.ground), size.list.name);
        Some((tube, text))
    };
    standard_sizes().filter_map(size).collect()
}

/// Materials, each once, in the order of the shop.
pub(crate) fn materials(shop: &Shop) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    let known = shop.materials.iter().map(|material| material.name.clone());
    for name in known.chain(shop.tubes.iter().map(|tube| tube.material.clone())) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

fn facts(shop: &Shop, unit: LengthUnit) -> Vec<Fact> {
    let machine = &shop.machine;
    let marked = |text: &str| figure_text(text, machine.basis.into());
    let length = |length: Length| marked(&format_length(length, unit, unit.decimals()));
    let angle = |angle: Angle| marked(&format_angle(angle, 1));
    let hand = match machine.hand {
        Hand::Right => "to the right, seen from the chuck",
        Hand::Left => "to the left, seen from the chuck",
    };
    vec![
        Fact { name: "Longest blank", value: length(machine.longest_blank) },
        Fact { name: "Holds behind the last bend", value: length(machine.tail_hold) },
        Fact { name: "Largest angle", value: angle(machine.largest_angle) },
        Fact { name: "Bends", value: hand.to_owned() },
        Fact {
            name: "Square end needs",
            value: marked(&format!("{} × OD before a bend", machine.square_end_diameters)),
        },
    ]
}

/// The mark of an unsure figure, for the end of a phrase.
pub(super) const fn mark(basis: Basis) -> &'static str {
    match basis {
        Basis::CommonPractice => ", common practice",
        Basis::Shop => "",
    }
}

impl Model {
    /// What is cut off the lead end (0) or the tail (1), with the mark where it must look unsure.
    pub fn trim(&self, end: usize) -> String {
        let mm = if end == 0 { self.trims_mm.0 } else { self.trims_mm.1 };
        let text = self.unit.shown(mm).to_string();
        self.trim_bases.get(end).copied().flatten().map_or(text.clone(), |ground| figure_text(&text, ground))
    }

    /// Whether a figure on the bench must look unsure.
    pub fn unsure(&self) -> bool {
        let trims = self.trim_bases.iter().flatten().any(|ground| ground.unsure());
        trims || self.machine_basis.unsure() || self.clamps.iter().any(|clamp| clamp.proved.contains(UNSURE))
    }
}

impl std::fmt::Display for Model {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let shown = |length_mm: f64| self.unit.shown(length_mm);
        writeln!(out, "part: {} / {}", self.name, self.note)?;
        writeln!(out, "tube: {}", tube_text(&self.tube, self.unit))?;
        let die = self.die.clone().unwrap_or_else(|| format!("left to the shop, {}", self.taken.join(", ")));
        writeln!(out, "die set: {die}")?;
        for die in &self.dies {
            writeln!(out, "  {}: {}, {}", die.name, die.size, die.fit.words())?;
        }
        for (die, uncracked) in &self.uncracked {
            let has = if *uncracked { "yes" } else { "not noted" };
            writeln!(out, "{} bent on {die} without a crack: {has}", self.tube.material)?;
        }
        let clamp = self.clamp.map_or("the longest".to_owned(), |length| shown(length.mm()).to_string());
        writeln!(out, "clamp: {clamp}")?;
        for clamp in &self.clamps {
            writeln!(out, "  {}, {}", shown(clamp.length.mm()), clamp.proved)?;
        }
        writeln!(out, "extra stock: {}, {}", shown(self.stock.lead.mm()), shown(self.stock.tail.mm()))?;
        writeln!(out, "cut off: {}, {}", self.trim(0), self.trim(1))?;
        writeln!(out, "machine: {}{}", self.machine, mark(self.machine_basis))?;
        for fact in &self.facts {
            writeln!(out, "  {}: {}", fact.name, fact.value)?;
        }
        let file = self.shop_file.as_ref().map_or("built in".to_owned(), |file| shown_path(file));
        writeln!(out, "shop: {} ({file})", self.shop)
    }
}
