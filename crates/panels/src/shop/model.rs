//! What the page shows, as a plain value.

use std::fmt;
use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::text::shown_path;
use elbowroom_bending::{DieSet, Hand, RotationSetting, Shop, ShopEdit, Tube};
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length};
use elbowroom_geometry::{Length, Refusal};
use elbowroom_workbench::Workbench;
use elbowroom_workbench::file::built_in_shop;

use super::leaf::Leaf;
use crate::bench::{materials, tube_text};
use crate::widgets::{FieldError, figure_text};
use elbowroom_bending::text::sentence;

/// Something that figures of the shop are about, and what they rest on.
#[derive(Clone, Debug, PartialEq)]
pub struct Rest {
    /// What it is.
    pub what: String,
    /// What of it.
    pub figures: &'static str,
    /// What these rest on.
    pub ground: Ground,
    /// Where it is changed, and the die set that it is about.
    pub place: (Leaf, Option<String>),
}

/// A change as a field gives it: one that the shop has still to be asked about, or one refused already.
pub(super) trait Attempt {
    /// The change, where it is not refused yet.
    fn attempt(self) -> Result<ShopEdit, Refusal>;
}

impl Attempt for ShopEdit {
    fn attempt(self) -> Result<ShopEdit, Refusal> {
        Ok(self)
    }
}

impl Attempt for Result<ShopEdit, Refusal> {
    fn attempt(self) -> Self {
        self
    }
}

/// What the page shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The shop.
    pub shop: Arc<Shop>,
    /// Its file; none for the one that is built in.
    pub file: Option<PathBuf>,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The tube in hand.
    pub tube: Tube,
    /// The die sets that bend the part, by name.
    pub used: Vec<String>,
    /// Materials, those that the shop has tube of first.
    pub materials: Vec<String>,
    /// Die sets that stand there just as they came with the program, by name.
    pub untouched: Vec<String>,
    /// What of the shop rests on what, the die sets of the tube in hand before others.
    pub rests: Vec<Rest>,
    /// What undo would take back.
    pub undo: Option<String>,
    /// What redo would make again.
    pub redo: Option<String>,
}

impl Model {
    /// The page of a workbench.
    pub fn of(workbench: &Workbench) -> Self {
        let (part, shop, solved) = (workbench.part(), workbench.shop(), workbench.solved());
        let is_used = |index: usize| solved.bends.iter().any(|bend| bend.die == Some(index));
        let used = shop.die_sets.iter().enumerate().filter(|(index, _)| is_used(*index));
        let untouched = shop.die_sets.iter().filter(|die| is_untouched(shop, die));
        Self {
            shop: Arc::clone(shop),
            file: workbench.shop_file().cloned(),
            unit: part.units,
            tube: part.tube.clone(),
            used: used.map(|(_, die)| die.name.clone()).collect(),
            materials: materials(shop),
            untouched: untouched.map(|die| die.name.clone()).collect(),
            rests: rests(shop, &part.tube),
            undo: workbench.undo_label().map(str::to_owned),
            redo: workbench.redo_label().map(str::to_owned),
        }
    }

    /// A change that the shop takes, or what is said beneath the field.
    pub(super) fn tried(&self, edit: impl Attempt) -> Result<ShopEdit, FieldError> {
        let tried = edit.attempt().and_then(|edit| edit.applied_to(&self.shop).map(|_| edit));
        tried.map_err(|refusal| FieldError::Refused(sentence(&refusal.said(self.unit))))
    }

    /// A length with its unit.
    pub(super) fn length(&self, length: Length) -> String {
        format_length(length, self.unit, self.unit.decimals())
    }

    /// How many things rest on what nobody has tried in this shop.
    pub fn unsure_count(&self) -> usize {
        self.rests.iter().filter(|rest| rest.ground.unsure()).count()
    }

    /// The die set that is looked at: the one of that name, else one that bends the part, else one that takes the tube.
    pub(super) fn looked_at(&self, name: Option<&str>) -> Option<&DieSet> {
        let dies = &self.shop.die_sets;
        name.and_then(|name| self.shop.die_named(name))
            .or_else(|| self.used.first().and_then(|name| self.shop.die_named(name)))
            .or_else(|| dies.iter().find(|die| die.takes(self.tube.od)))
            .or_else(|| dies.first())
    }

    /// The tubes of that outside diameter: the one in hand, and those in stock.
    pub(super) fn tubes_of(&self, die: &DieSet) -> Vec<&Tube> {
        let mut tubes: Vec<&Tube> = Vec::new();
        for tube in std::iter::once(&self.tube).chain(&self.shop.tubes).filter(|tube| die.takes(tube.od)) {
            if !tubes.iter().any(|there| there.wall == tube.wall && there.material == tube.material) {
                tubes.push(tube);
            }
        }
        tubes
    }
}

/// Whether a die set came with the program and nobody has said or found out anything of it.
fn is_untouched(shop: &Shop, die: &DieSet) -> bool {
    static BUILT_IN: OnceLock<Shop> = OnceLock::new();
    let built_in = BUILT_IN.get_or_init(built_in_shop);
    built_in.die_sets.contains(die) && !shop.springback.iter().any(|record| record.die == die.name)
}

fn rests(shop: &Shop, tube: &Tube) -> Vec<Rest> {
    let of = |what: &str, figures, ground, leaf, die: Option<&str>| Rest {
        what: what.to_owned(),
        figures,
        ground,
        place: (leaf, die.map(str::to_owned)),
    };
    let machine = &shop.machine;
    let mut rests = vec![
        of(&machine.name, "longest blank, hold, largest angle, square ends", machine.basis.into(), Leaf::Machine, None),
        of("Limits", "wall rule, least wall, seam", shop.limits.basis.into(), Leaf::Limits, None),
    ];
    let mut dies: Vec<&DieSet> = shop.die_sets.iter().collect();
    dies.sort_by_key(|die| !die.takes(tube.od));
    for die in dies {
        let name = Some(die.name.as_str());
        rests.push(of(&die.name, "bites and largest angle", die.basis.into(), Leaf::Dies, name));
        rests.push(of(&die.name, "angles that the clamps have proved", die.grip_basis().into(), Leaf::Dies, name));
        if die.takes(tube.od) {
            let springback = shop.springback_of(die, tube).basis;
            rests.push(of(&die.name, "springback in the material in hand", springback.into(), Leaf::Dies, name));
        }
    }
    rests
}

/// The mark before what rests on common practice.
fn ground_of(unsure: bool) -> Ground {
    if unsure { Ground::CommonPractice } else { Ground::Shop }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let shop = &self.shop;
        let file = self.file.as_ref().map_or("built in".to_owned(), |file| shown_path(file));
        writeln!(out, "shop: {} ({file})", shop.name)?;
        let machine = &shop.machine;
        let figure = |text: &str, unsure: bool| figure_text(text, ground_of(unsure));
        let of_machine = |text: &str| figure(text, machine.basis.unsure());
        let hand = if machine.hand == Hand::Left { "left" } else { "right" };
        let rotation = match machine.rotation {
            RotationSetting::Turn => "turns",
            RotationSetting::Reading => "readings",
        };
        writeln!(
            out,
            "machine: {}, blank {}, holds {}, to {}, bends to the {hand}, set by {rotation}, square end {} × OD",
            machine.name,
            of_machine(&self.length(machine.longest_blank)),
            of_machine(&self.length(machine.tail_hold)),
            of_machine(&format_angle(machine.largest_angle, 1)),
            of_machine(&machine.square_end_diameters.to_string()),
        )?;
        for die in &shop.die_sets {
            let sizes = [die.od, die.clr].map(|length| self.length(length));
            let bites =
                [die.mark_free_bite, die.largest_bite].map(|bite| figure(&self.length(bite), die.basis.unsure()));
            let most = figure(&format_angle(die.largest_angle, 1), die.basis.unsure());
            writeln!(
                out,
                "die set {}: {} on {}, to {most}, bites {}",
                die.name,
                sizes[0],
                sizes[1],
                bites.join(" and ")
            )?;
            for clamp in &die.clamps {
                let proved = figure(&format_angle(clamp.proved_angle, 1), clamp.basis.unsure());
                let on = clamp.proved_on.as_ref();
                let on =
                    on.map_or(String::new(), |tube| format!(" on {} of {}", self.length(tube.wall), tube.material));
                writeln!(out, "  clamp {}: proved to {proved}{on}", self.length(clamp.length))?;
            }
        }
        for tube in &shop.tubes {
            writeln!(out, "tube: {}", tube_text(tube, self.unit))?;
        }
        let limits = &shop.limits;
        let of_limits = |text: &str| figure(text, limits.basis.unsure());
        writeln!(
            out,
            "limits: {}, least wall {}, seam {} from the outside",
            of_limits(limits.wall_rule.name()),
            of_limits(&format!("{} %", limits.least_wall * 100.0)),
            of_limits(&format_angle(limits.seam_from_outside, 1)),
        )?;
        for rest in &self.rests {
            writeln!(out, "{}: {}: {}", rest.what, rest.figures, rest.ground.said())?;
        }
        Ok(())
    }
}
