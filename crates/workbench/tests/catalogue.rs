//! The catalogue of verbs: keys are not shared, and every verb does something.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common;
use std::collections::HashSet;
use std::sync::Arc;

use elbowroom_bending::{Edit, SystemEdit};
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::LengthUnit;
use elbowroom_workbench::catalogue::{Key, Shortcut, VERBS, matching, verb, verb_for};
use elbowroom_workbench::{Command, Exporter, Home, SelectMode, Sheet, Target, Workbench};

/// Everything a person could see change.
fn state(workbench: &mut Workbench) -> String {
    let requests = workbench.take_requests();
    let labels = (workbench.undo_label(), workbench.redo_label());
    let seen = (workbench.selection(), workbench.screen(), workbench.file(), workbench.shop_file());
    format!("{:?} {labels:?} {seen:?} {requests:?}", workbench.system())
}

/// A workbench on which everything can be done: selected, edited, undone, scaled, with findings.
fn busy(folder: &std::path::Path) -> Workbench {
    let exporter = Exporter { name: "nothing", extension: "non", write: Arc::new(|_, _, _| Ok(Vec::new())) };
    let mut workbench = Workbench::at_home(Home::at(folder)).with_exporters(vec![exporter]);
    workbench.perform(Command::Edit(Edit::Rename("busy".into())));
    workbench.perform(Command::Edit(Edit::Rename("busier".into())));
    workbench.perform(Command::Undo);
    workbench.perform(Command::SetScale(1.2));
    workbench.perform(Command::Select(workbench.named(Target::Bend(0)), SelectMode::Only));
    workbench.take_requests();
    workbench
}

#[test]
fn every_verb_does_something() {
    for verb in VERBS {
        let folder = tempfile::tempdir().unwrap();
        if verb.id == "take-back" {
            // What is dropped with unsaved work leaves it behind, as a crash does.
            drop(busy(folder.path()));
        }
        let mut workbench =
            if verb.id == "take-back" { Workbench::at_home(Home::at(folder.path())) } else { busy(folder.path()) };
        if verb.id == "show-millimetres" {
            workbench.perform(Command::Edit(Edit::ShowUnits(LengthUnit::Inch)));
        }
        if verb.id == "bends" {
            workbench.perform(Command::ShowSheet(Sheet::Program));
        }
        if ["remove-tube", "hide-tube", "show-tubes", "next-tube"].contains(&verb.id) {
            workbench.perform(Command::AddTube);
        }
        if verb.id == "show-tubes" {
            let active = workbench.system().active();
            workbench.perform(Command::EditSystem(SystemEdit::HideTube(active)));
        }
        if verb.id == "free-all" {
            let start = workbench.solved().nodes.start();
            workbench.perform(Command::Edit(Edit::Hold(start, elbowroom_bending::Hold::PLACE)));
        }
        if verb.id == "seam-to-best" {
            workbench.perform(Command::Edit(Edit::PinSeam(Some(Angle::from_degrees(30.0)))));
        }
        let before = state(&mut workbench);
        assert!(verb.enabled(&workbench), "{} cannot be used", verb.id);
        let command = verb.command(&workbench);
        workbench.perform(command);
        assert_ne!(state(&mut workbench), before, "{} does nothing", verb.id);
    }
}

#[test]
fn no_two_verbs_share_name_label_or_key() {
    let mut names = HashSet::new();
    let mut keys = HashSet::new();
    for verb in VERBS {
        assert!(names.insert(verb.id) && names.insert(verb.label), "{} is taken", verb.id);
        assert!(verb.tooltip.ends_with('.'), "{}", verb.tooltip);
        if let Some(shortcut) = verb.shortcut {
            assert!(keys.insert(shortcut), "{shortcut} is taken");
            assert_eq!(verb_for(shortcut).unwrap().id, verb.id);
        }
    }
}

#[test]
fn the_keys_that_people_expect_are_there() {
    let expected = [
        ("Ctrl+N", "new"),
        ("Ctrl+O", "open"),
        ("Ctrl+S", "save"),
        ("Ctrl+Shift+S", "save-as"),
        ("Ctrl+Z", "undo"),
        ("Ctrl+Shift+Z", "redo"),
        ("Delete", "delete"),
        ("Escape", "escape"),
        ("F1", "help"),
    ];
    for (key, id) in expected {
        assert_eq!(verb(id).unwrap().shortcut.unwrap().to_string(), key);
    }
}

#[test]
fn text_fields_keep_their_own_keys() {
    let theirs = [Shortcut::ctrl('Z'), Shortcut::ctrl_shift('Z'), Shortcut::ctrl('A'), Shortcut::plain(Key::Delete)];
    assert!(theirs.iter().all(|shortcut| shortcut.belongs_to_text()));
    let ours = [Shortcut::ctrl('S'), Shortcut::plain(Key::Escape), Shortcut::plain(Key::Function(1))];
    assert!(!ours.iter().any(|shortcut| shortcut.belongs_to_text()));
}

#[test]
fn verbs_are_found_by_typing() {
    let found: Vec<_> = matching("undo").iter().map(|verb| verb.id).collect();
    assert_eq!(found.first(), Some(&"undo"));
    assert!(matching("from ABOVE").iter().any(|verb| verb.id == "from-top"));
    assert_eq!(matching("").len(), VERBS.len());
    assert!(matching("nothing is called so").is_empty());
}

#[test]
fn undo_says_what_it_takes_back() {
    let mut workbench = Workbench::new(common::zigzag(), elbowroom_workbench::file::built_in_shop());
    let undo = verb("undo").unwrap();
    assert_eq!((undo.enabled(&workbench), undo.label_now(&workbench).as_str()), (false, "Undo"));
    workbench.perform(Command::Edit(Edit::SwapEnds));
    assert_eq!((undo.enabled(&workbench), undo.label_now(&workbench).as_str()), (true, "Undo: swap ends"));
}
