//! What went wrong stays in sight with its ways out, the verdict does not look sound beside it, and the shop
//! in use is named.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::support::{Desk, window, write_picture};
use egui_kittest::kittest::Queryable;
use elbowroom_bending::Severity;
use elbowroom_panels::{shop_in_use, troubles, verdict};
use elbowroom_workbench::{Command, Home, Workbench};

/// A workbench on the built-in shop, since the person's own is broken, with broken settings and no place for
/// recovery; a part is opened on it, as where one is named on the command line.
fn troubled(folder: &std::path::Path) -> Workbench {
    let home = Home::at(folder);
    std::fs::write(home.own_shop(), "(format: \"elbowroom-shop/1\", name: 60,3)").unwrap();
    std::fs::write(home.settings(), "(dark: perhaps)").unwrap();
    std::fs::write(home.recovery(), "").unwrap();
    let mut workbench = Workbench::at_home(home);
    workbench.perform(Command::OpenDemo("cross-link".into()));
    workbench
}

/// What the screen calls the shop in use.
fn shop(workbench: &Workbench) -> String {
    shop_in_use::Model::of(workbench).to_string().lines().next().unwrap().to_owned()
}

#[test]
fn a_verdict_on_another_shop_than_was_asked_for_never_looks_sound() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = troubled(folder.path());
    assert_eq!(workbench.solved().worst(), None, "the part itself is sound");
    let model = verdict::Model::of(&workbench);
    assert_eq!(model.severity, Some(Severity::Caution));
    assert!(model.to_string().starts_with("[caution] Not on your shop: "), "{model}");
    assert_eq!(shop(&workbench), "Shop: Common practice, built in; not the one asked for");
    let about = workbench.troubles()[0].about.clone();
    workbench.perform(Command::Deal(about, elbowroom_workbench::Deal::Accept));
    assert_eq!(verdict::Model::of(&workbench).to_string(), "[sound] Bends as drawn.");
    assert_eq!(shop(&workbench), "Shop: Common practice, built in");
}

#[test]
fn a_shop_from_a_file_is_named_with_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbench = Workbench::at_home(Home::at(folder.path()));
    workbench.perform(Command::MakeOwnShop);
    assert_eq!(shop(&workbench), "Shop: Common practice, shop.ron");
}

#[test]
fn troubles_stay_in_sight_in_any_window_and_their_buttons_deal_with_them() {
    for (size, scale) in [([1440.0, 900.0], 1.0), ([800.0, 560.0], 1.0), ([720.0, 450.0], 2.0)] {
        let folder = tempfile::tempdir().unwrap();
        let mut desk = Desk::new(troubled(folder.path()));
        desk.scale = scale;
        let mut harness = window(desk, size[0], size[1]);
        harness.run_steps(4);
        assert_eq!(troubles::Model::of(&harness.state().workbench).items.len(), 3);
        assert!(harness.query_by_label_contains("shop.ron").is_some());
        assert!(harness.query_by_label_contains("Shop: Common practice, built in").is_some());
        let scene = harness.state().shown.as_ref().unwrap().scene;
        assert!(scene.height() > 0.25 * size[1], "the scene keeps its room: {scene:?}");
        write_picture(&harness, egui::vec2(size[0], size[1]), &format!("troubles-{}", size[0]));
        if size[1] > 600.0 {
            let last = harness.get_by_label("Go on without").rect();
            assert!(last.bottom() < scene.top(), "the last of them is in sight: {last:?}, {scene:?}");
        }
        harness.get_by_label("Use this shop knowingly").click();
        harness.run_steps(4);
        assert_eq!(troubles::Model::of(&harness.state().workbench).items.len(), 2);
        assert!(harness.query_by_label_contains("Use this shop knowingly").is_none());
    }
}

/// A full system, the words of whose verdict are long, in the smallest window that is usual.
#[test]
fn what_stands_is_one_line_each_and_the_whole_text_is_folded_away() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window(Desk::new(troubled(folder.path())), 1280.0, 800.0);
    harness.run_steps(4);
    let lines = ["The shop file shop.ron cannot be used", "The settings cannot be read", "No recovery copy"];
    let tops: Vec<_> = lines.iter().map(|line| harness.get_by_label_contains(line).rect()).collect();
    let scene = harness.state().shown.as_ref().unwrap().scene;
    assert!(tops.windows(2).all(|pair| pair[1].top() - pair[0].top() < 36.0), "{tops:?}");
    assert!(scene.top() < 150.0 && scene.height() > 400.0, "{scene:?}");
    assert!(harness.query_by_label_contains("line 1").is_none(), "the whole text is folded away");
    harness.get_all_by_label("show the whole text").next().unwrap().click();
    harness.run_steps(4);
    assert!(harness.query_by_label_contains("line 1").is_some(), "{:?}", harness.state().workbench.troubles());
    harness.get_by_label("fold this up").click();
    harness.run_steps(4);
    assert!(harness.query_by_label_contains("line 1").is_none());
    write_picture(&harness, egui::vec2(1280.0, 800.0), "troubles-1280");
}

#[test]
fn troubles_as_text() {
    let folder = tempfile::tempdir().unwrap();
    let text = troubles::Model::of(&troubled(folder.path())).to_string();
    assert_eq!(text.lines().count(), 3, "{text}");
    for ways in [
        "(Try again) (Use this shop knowingly)",
        "(Try again) (Start afresh, keep a copy)",
        "(Try again) (Go on without)",
    ] {
        assert!(text.contains(ways), "{text}");
    }
}
