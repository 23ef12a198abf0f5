//! Everything there is to do, from the catalogue, as plain values.

use std::fmt;

use elbowroom_workbench::catalogue::{VERBS, Verb, matching};
use elbowroom_workbench::{Command, Workbench};

/// A command of the list.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// The catalogue's name for it.
    pub id: &'static str,
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
        let others = VERBS.iter().filter(|verb| verb.command(workbench) != Command::ToggleCommandList);
        Self { entries: others.map(|verb| Entry::of(verb, workbench)).collect() }
    }

    /// What a typed text means, best first.
    pub fn found(&self, typed: &str) -> Vec<&Entry> {
        let by_id = |verb: &Verb| self.entries.iter().find(|entry| entry.id == verb.id);
        matching(typed).into_iter().filter_map(by_id).collect()
    }
}

impl Entry {
    fn of(verb: &Verb, workbench: &Workbench) -> Self {
        Self {
            id: verb.id,
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
            assert_ne!(entry.disabled, Some("Not possible just now"), "{}", entry.id);
        }
    }

    #[test]
    fn typing_finds_and_the_list_leaves_itself_out() {
        let bench = Workbench::new(specimen::part(Vec::new(), 300.0).unwrap(), specimen::shop());
        let model = Model::of(&bench);
        let ids = |typed: &str| model.found(typed).iter().map(|entry| entry.id).collect::<Vec<_>>();
        assert_eq!(ids("undo"), ["undo"]);
        assert_eq!(ids("SAVE as").first(), Some(&"save-as"));
        assert!(ids("no such thing").is_empty());
        assert!(!ids("").contains(&"commands"));
    }
}
