//! The tabs of the right column: in one line at the usual widths, and where they were when the verdict changes.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, workbench, write_picture};
use egui::Rect;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::Edit;
use elbowroom_geometry::Length;
use elbowroom_panels::verdict;
use elbowroom_workbench::{Command, Sheet};

/// Bends as drawn.
const SOUND: [(f64, f64, f64); 2] = [(300.0, 0.0, 45.0), (300.0, 90.0, 60.0)];

fn desk() -> Desk {
    Desk::new(workbench(&SOUND, 400.0))
}

fn tabs(harness: &Harness<'_, Desk>) -> Vec<Rect> {
    let tab = |sheet: &Sheet| {
        let named: Vec<Rect> = harness.query_all_by_label(sheet.name()).map(|node| node.rect()).collect();
        // "Springback" and "First-off" head their own sheet too; the tab comes first.
        named[0]
    };
    Sheet::ALL.iter().map(tab).collect()
}

fn is_one_line(tabs: &[Rect]) -> bool {
    tabs.windows(2)
        .all(|pair| (pair[0].center().y - pair[1].center().y).abs() < 1.0 && pair[0].right() < pair[1].left())
}

#[test]
fn tabs_lie_in_one_line_and_can_be_clicked() {
    for (width, height) in [(1440.0, 900.0), (1280.0, 800.0), (1024.0, 700.0), (815.0, 600.0)] {
        let mut harness = window(desk(), width, height);
        let places = tabs(&harness);
        assert!(is_one_line(&places), "{width}: {places:?}");
        assert!(places.iter().all(|place| place.height() >= 24.0 && place.right() <= width), "{places:?}");
        write_picture(&harness, egui::vec2(width, height), &format!("tabs-{width}"));
        harness.get_by_label("Tooling").click();
        harness.run_steps(2);
        assert_eq!(harness.state().workbench.screen().sheet, Sheet::Tooling);
    }
}

#[test]
fn at_twice_the_scale_every_tab_is_in_the_column() {
    let harness = window(desk(), 720.0, 450.0);
    for place in tabs(&harness) {
        assert!(place.right() <= 720.0 && place.width() > 30.0, "{place:?}");
    }
    write_picture(&harness, egui::vec2(720.0, 450.0), "tabs-twice");
}

#[test]
fn tabs_stay_where_they_are_while_the_verdict_takes_one_line_or_two() {
    let mut harness = window(desk(), 1440.0, 900.0);
    let one = tabs(&harness)[0];
    assert_eq!(verdict::Model::of(&harness.state().workbench).text, "Bends as drawn.");
    harness
        .state_mut()
        .workbench
        .perform(Command::Edit(Edit::SetStraight(elbowroom_bending::NodeId::new(2), Length::from_mm(115.0))));
    harness.run_steps(3);
    assert!(verdict::Model::of(&harness.state().workbench).text.starts_with("Bends, but the clamp of bend"));
    let two = tabs(&harness)[0];
    assert!((one.top() - two.top()).abs() < 0.6, "{one:?} {two:?}");
}
