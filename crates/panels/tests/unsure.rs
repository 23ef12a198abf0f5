//! Unsure figures look unsure on every panel, and the mark goes when the shop's own figures take their place.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel;
use elbowroom_bending::setup::UNSURE_MARK;
use elbowroom_bending::{Edit, End, specimen};
use elbowroom_panels::panel::{Panel, REGISTRY};
use elbowroom_workbench::{Command, SelectMode, Target, Workbench};

/// Short straights and ends on a shop that has proved nothing, or everything it can.
fn bench(is_proved: bool, from: End) -> Workbench {
    let rows = [(90.0, 0.0, 45.0), (115.0, 60.0, 60.0), (60.0, 180.0, 90.0), (108.5, 30.0, 20.0)];
    let rows = rows.map(|(straight, rotation, angle)| specimen::row(straight, rotation, angle)).to_vec();
    let shop = if is_proved { specimen::proved(specimen::shop()) } else { specimen::shop() };
    let mut bench = Workbench::new(specimen::part(rows, 40.0).unwrap(), shop);
    bench.perform(Command::Select(bench.named(Target::Bend(2)), SelectMode::Only));
    bench.perform(Command::Edit(Edit::BendFrom(from)));
    bench
}

fn panel(name: &str) -> &'static Panel {
    REGISTRY.iter().find(|panel| panel.name == name).unwrap()
}

fn marked(text: &str) -> Vec<&str> {
    text.lines().filter(|line| line.contains(UNSURE_MARK) && !line.starts_with("~ rests on")).collect()
}

#[test]
fn every_panel_marks_what_nobody_has_proved_and_no_longer_when_the_shop_has() {
    for from in [End::Start, End::Finish] {
        let (default, own) = (bench(false, from), bench(true, from));
        for name in ["verdict", "findings", "why", "forming", "program", "tooling", "springback", "strip", "bench"] {
            let text = (panel(name).snapshot)(&default);
            assert!(!marked(&text).is_empty(), "{name} marks nothing:\n{text}");
            let text = (panel(name).snapshot)(&own);
            let left = marked(&text);
            let may_stay = |line: &&str| match name {
                // Rules of thumb that no figure of a shop can take the place of, each named as such.
                "forming" => [
                    "Outside, ",
                    "Inside, ",
                    "Mandrel",
                    "Wiper",
                    "Pressure die",
                    "Roundness",
                    "ASME",
                    "BS",
                    "EN",
                    "PFI",
                    "It may be",
                ]
                .iter()
                .any(|rule| line.trim_start().starts_with(rule)),
                "program" => {
                    ["Pressure die", "Mandrel balls", "Wiper", "Lubricant", "Weld seam", "Clean and", "First piece"]
                        .iter()
                        .any(|rule| line.trim_start_matches(UNSURE_MARK).starts_with(rule))
                }
                // Standard sizes that are not the shop's own stock.
                "bench" => line.contains("size"),
                _ => false,
            };
            let left: Vec<&&str> = left.iter().filter(|line| !may_stay(line)).collect();
            assert!(left.is_empty(), "{name} still marks {left:?}");
        }
    }
}

#[test]
fn what_is_drawn_has_the_mark_and_its_legend() {
    for (name, words) in [
        ("findings", "needs ~107.6 mm"),
        ("why", "rests on theory, common practice or memory"),
        ("findings", "rests on theory, common practice or memory"),
        ("tooling", "rests on theory, common practice or memory"),
        ("springback", "rests on theory, common practice or memory"),
        ("program", "rests on theory, common practice or memory"),
        ("bench", "rests on theory, common practice or memory"),
    ] {
        use egui_kittest::kittest::Queryable as _;
        let shown = |is_proved| one_panel::shown(name, bench(is_proved, End::Start), [400.0, 3000.0]);
        let count = |is_proved| shown(is_proved).harness.query_all_by_label_contains(words).count();
        assert!(count(false) > 0, "{name}: {words}");
        // The setup list keeps advice that no figure of a shop can take the place of.
        assert_eq!(count(true) > 0, name == "program", "{name}: {words}");
    }
}
