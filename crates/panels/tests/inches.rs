//! A designer who works in inches reads inches on every panel.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::parts;
use elbowroom_bending::{Edit, Part};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_panels::panel::REGISTRY;
use elbowroom_workbench::{Command, SelectMode, Sheet, Target, Workbench};

/// What tells what files hold, and what is written once for everybody, may speak of millimetres.
const OF_FILES_AND_BOOKS: [&str; 3] = ["help", "manual", "command list"];

fn said_in_millimetres(workbench: &Workbench) -> Vec<String> {
    let is_metric = |line: &&str| line.split([' ', ',', ';', '(', ')', '.']).any(|word| word == "mm");
    let panels = REGISTRY.iter().filter(|panel| !OF_FILES_AND_BOOKS.contains(&panel.name));
    let lines = |text: String, name: &str| {
        text.lines().filter(is_metric).map(|line| format!("{name}: {line}")).collect::<Vec<_>>()
    };
    panels.flat_map(|panel| lines((panel.snapshot)(workbench), panel.name)).collect()
}

/// Every kind of part, in inches, with a bend chosen and something to take back.
fn workbenches() -> Vec<Workbench> {
    let rows = [(90.0, 0.0, 45.0), (115.0, 60.0, 60.0), (60.0, 180.0, 90.0), (180.0, 30.0, 20.0)];
    let parts = [
        parts::part(&rows, 100.0),
        parts::part(&[(200.0, 0.0, 90.0), (-25.0, 90.0, 60.0)], 200.0),
        parts::part(&[(20.0, 0.0, 90.0), (300.0, 90.0, 160.0), (50.0, 0.0, 160.0)], 20.0),
        Part { tube: parts::tube(60.3, 2.0, elbowroom_bending::Seam::Welded), ..parts::part(&rows, 100.0) },
    ];
    let bench = |part: Part| {
        let mut bench = Workbench::new(Part { units: LengthUnit::Inch, ..part }, parts::shop());
        bench.perform(Command::Select(bench.named(Target::Bend(1)), SelectMode::Only));
        bench.perform(Command::Edit(Edit::SetStraight(
            elbowroom_bending::NodeId::new(2),
            elbowroom_geometry::Length::from_mm(50.0),
        )));
        bench
    };
    parts.into_iter().map(bench).collect()
}

#[test]
fn no_panel_of_a_part_in_inches_speaks_of_millimetres() {
    for bench in &mut workbenches() {
        for sheet in Sheet::ALL {
            bench.perform(Command::ShowSheet(*sheet));
            let said = said_in_millimetres(bench);
            assert!(said.is_empty(), "{said:#?}");
        }
        assert_eq!(bench.undo_label(), Some("set straight 2 to 1.969 in"));
    }
}
