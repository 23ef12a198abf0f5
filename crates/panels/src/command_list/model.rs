//! Everything there is to do, from the catalogue, as plain values.

use std::fmt;

use elbowroom_bending::{Edit, Told};
use elbowroom_geometry::units::format_length;
use elbowroom_workbench::catalogue::{VERBS, Verb, matching};
use elbowroom_workbench::file::demo_parts;
use elbowroom_workbench::{Command, Workbench};

use crate::bench::{clamps_in_use, die_choices, dies_in_use};
use crate::told;

/// So many findings are asked for their cures, as many as the list of findings shows at first.
pub(crate) const MOST_FINDINGS: usize = 30;

/// A command of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The catalogue's name for it; none for what is only to be had now: cures, die sets, clamps and demo parts.
    pub id: Option<&'static str>,
    /// What it does, such as `Undo: move vertex 3`.
    pub label: String,
    /// The same in a sentence.
    pub tooltip: String,
    /// Its key; empty where it has none.
    pub shortcut: String,
    /// Why it cannot be done now; none where it can.
    pub disabled: Option<&'static str>,
    /// What it asks for.
    pub command: Command,
}

/// The list.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// Every command, in the order of the catalogue.
    pub entries: Vec<Entry>,
}

impl Model {
    /// The list of a workbench. The list itself is left out of it.
    pub fn of(workbench: &Workbench) -> Self {
        Self::told(workbench, told::State::default().first(workbench, MOST_FINDINGS))
    }

    /// The same, with the findings in words that are kept: to try their cures at every letter would take too long.
    pub(crate) fn told(workbench: &Workbench, told: &[Told]) -> Self {
        let others = VERBS.iter().filter(|verb| verb.command(workbench) != Command::ToggleCommandList);
        let mut entries: Vec<Entry> = others.map(|verb| Entry::of(verb, workbench)).collect();
        entries.extend(to_be_had_now(workbench, told));
        Self { entries }
    }

    /// What a typed text means, best first.
    pub fn found(&self, typed: &str) -> Vec<&Entry> {
        let by_id = |verb: &Verb| self.entries.iter().find(|entry| entry.id == Some(verb.id));
        let words = typed.trim().to_lowercase();
        let holds = |entry: &&Entry| {
            let label = entry.label.to_lowercase();
            entry.id.is_none() && words.split_whitespace().all(|word| label.contains(word))
        };
        matching(typed).into_iter().filter_map(by_id).chain(self.entries.iter().filter(holds)).collect()
    }
}

/// Cures of what is found, die sets, clamps and demo parts: what would otherwise take a mouse.
fn to_be_had_now(workbench: &Workbench, told: &[Told]) -> Vec<Entry> {
    let (part, shop, solved) = (workbench.part(), workbench.shop(), workbench.solved());
    let mut entries = Vec::new();
    for told in told {
        let of = told.place.bend.map_or_else(|| "whole tube".to_owned(), |bend| format!("bend {}", bend + 1));
        for cure in &told.cures {
            let tooltip = [cure.outcome.as_str(), &*cure.risk].join(" ").trim().to_owned();
            entries.push(Entry::now(
                format!("Cure of {of}: {}", cure.label),
                tooltip,
                Command::Edit(cure.edit.clone()),
            ));
        }
    }
    for die in die_choices(shop, solved, &part.tube, part.units) {
        let label = format!("Die set: {}", die.name);
        let is_now = part.tooling.die.as_ref() == Some(&die.name);
        entries.push(
            Entry::now(label, format!("{}, {}", die.size, die.fit.words()), Command::Edit(die.take())).unless(is_now),
        );
        if let Some(clr) = &die.clr_for_all {
            let label = format!("Die set: {}, and every bend at CLR {clr}", die.name);
            entries.push(Entry::now(label, die.size.clone(), Command::Edit(die.take_with_its_radius(clr))));
        }
    }
    let used = dies_in_use(shop, solved, part.tooling.die.as_deref());
    for clamp in clamps_in_use(&used, part.units) {
        let label = format!("Clamp: {}", format_length(clamp.length, part.units, part.units.decimals()));
        let is_now = part.tooling.clamp.map(|chosen| chosen.length()) == Some(clamp.length);
        let command = Command::Edit(Edit::ChooseClamp(Some(clamp.length)));
        entries.push(Entry::now(label, clamp.proved, command).unless(is_now));
    }
    for demo in demo_parts() {
        let label = format!("Open demo part: {}", demo.name.replace('-', " "));
        entries.push(Entry::now(label, String::new(), Command::OpenDemo(demo.name.to_owned())));
    }
    entries
}

impl Entry {
    /// What is to be had just now.
    fn now(label: String, tooltip: String, command: Command) -> Self {
        Self { id: None, label, tooltip, shortcut: String::new(), disabled: None, command }
    }

    /// The same, barred where it is so already.
    fn unless(mut self, is_now: bool) -> Self {
        self.disabled = is_now.then_some("It is so already");
        self
    }

    fn of(verb: &Verb, workbench: &Workbench) -> Self {
        Self {
            id: Some(verb.id),
            label: verb.label_now(workbench),
            tooltip: verb.tooltip.to_owned(),
            shortcut: verb.shortcut.map_or_else(String::new, |shortcut| shortcut.to_string()),
            disabled: (!verb.enabled(workbench)).then(|| reason(verb.id)),
            command: verb.command(workbench),
        }
    }
}

/// Why a verb cannot be done when its catalogue entry says so.
fn reason(id: &str) -> &'static str {
    match id {
        "take-back" => "No work has been left behind",
        "export" => "No other format can be written here",
        "remove-tube" => "It is the only tube",
        "hide-tube" => "It is the only tube that is shown",
        "show-tubes" => "No tube is hidden",
        "next-tube" => "No other tube is shown",
        "undo" => "Nothing has been changed yet",
        "redo" => "Nothing has been taken back",
        "select-all" => "The tube has no bend",
        "delete" | "frame-selection" => "Nothing is selected",
        "hold" | "hold-direction" => "No end, bend or vertex is selected",
        "hold-ends" => "Both ends are held already",
        "free-all" => "Nothing is held",
        "vertices-or-rows" => "A bend of half a turn or more has no vertex",
        "seam-to-best" => "The seam is not pinned",
        "worst-finding" => "Nothing has been found",
        "make-own-shop" => "There is a shop file of your own already, or no folder to put it in",
        "larger" => "It is as large as it gets",
        "smaller" => "It is as small as it gets",
        "usual-size" | "show-millimetres" | "show-centimetres" | "show-metres" | "show-inches" | "show-feet" => {
            "It is so already"
        }
        _ => "Not possible just now",
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for entry in &self.entries {
            write!(out, "{} [{}]", entry.label, entry.shortcut)?;
            match entry.disabled {
                Some(reason) => writeln!(out, " not now: {reason}")?,
                None => writeln!(out)?,
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use elbowroom_bending::specimen;

    use super::*;

    #[test]
    fn what_cannot_be_done_has_its_own_reason() {
        let bench = Workbench::new(specimen::part(Vec::new(), 300.0).unwrap(), specimen::shop());
        let model = Model::of(&bench);
        let barred: Vec<_> = model.entries.iter().filter(|entry| entry.disabled.is_some()).collect();
        assert!(barred.len() >= 6, "{model}");
        for entry in barred {
            assert_ne!(entry.disabled, Some("Not possible just now"), "{}", entry.label);
        }
    }

    #[test]
    fn typing_finds_and_the_list_leaves_itself_out() {
        let bench = Workbench::new(specimen::part(Vec::new(), 300.0).unwrap(), specimen::shop());
        let model = Model::of(&bench);
        let ids = |typed: &str| {
            model.found(typed).iter().map(|entry| entry.id.unwrap_or(&*entry.label).to_owned()).collect::<Vec<_>>()
        };
        assert_eq!(ids("undo"), ["undo"]);
        assert_eq!(ids("SAVE as").first().map(String::as_str), Some("save-as"));
        assert!(ids("no such thing").is_empty());
        assert!(!ids("").iter().any(|id| id == "commands"));
    }

    #[test]
    fn cures_dies_clamps_and_demo_parts_are_found() {
        let rows = vec![specimen::row(300.0, 0.0, 90.0), specimen::row(20.0, 0.0, 90.0)];
        let bench = Workbench::new(specimen::part(rows, 300.0).unwrap(), specimen::shop());
        let model = Model::of(&bench);
        for (typed, label) in [
            ("lengthen straight", "Cure of bend 2: Lengthen the straight to "),
            ("2d every bend", "Die set: 50.8 at 2D, and every bend at CLR 101.6 mm"),
            ("clamp 80", "Clamp: 80.0 mm"),
            ("demo sump", "Open demo part: sump sweep"),
        ] {
            let found = model.found(typed);
            assert!(found.iter().any(|entry| entry.label.starts_with(label)), "{typed}: {model}");
        }
        let cure = model.found("lengthen straight")[0];
        assert!(cure.tooltip.starts_with("Cures this"), "{}", cure.tooltip);
    }
}
