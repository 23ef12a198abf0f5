//! The page of the shop: every figure changed where it stands, judged at once, refused by its name, undone.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::fs;

use crate::one_panel::{Window, parts, shown};
use crate::support::{Desk, window, write_picture};
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::{Basis, Hand, ProvedOn, RotationSetting};
use elbowroom_geometry::Length;
use elbowroom_panels::shop::Model;
use elbowroom_workbench::file::{BUILT_IN_SHOP_TEXT, read_shop};
use elbowroom_workbench::{Command, Home, Workbench};

const SIZE: [f32; 2] = [860.0, 760.0];

fn page() -> Window {
    let mut workbench = parts::sound();
    workbench.perform(Command::ToggleShop);
    shown("shop", workbench, SIZE)
}

fn said(window: &Window, what: &str) -> bool {
    window.harness.query_all_by_label_contains(what).next().is_some()
}

#[test]
fn the_page_says_all_that_the_shop_has() {
    let text = Model::of(&parts::sound()).to_string();
    let expected = "\
shop: Test shop (built in)
machine: Test bender, blank ~4000.0 mm, holds ~150.0 mm, to ~190.0°, bends to the right, set by turns, square end ~0.5 × OD
die set 38 on 57: 38.1 mm on 57.2 mm, to ~190.0°, bites ~0.3 mm and ~2.0 mm
  clamp 90.0 mm: proved to ~180.0°
die set 51 on 76: 50.8 mm on 76.2 mm, to ~190.0°, bites ~0.3 mm and ~2.0 mm
  clamp 80.0 mm: proved to 60.0°
  clamp 125.0 mm: proved to ~180.0°
die set 51 on 102: 50.8 mm on 101.6 mm, to ~190.0°, bites ~0.3 mm and ~2.0 mm
  clamp 125.0 mm: proved to ~180.0°
tube: 50.8 × 1.5 mm, 304 stainless, welded
tube: 38.1 × 1.5 mm, 304 stainless, welded
tube: 60.3 × 2 mm, 304 stainless, seamless
limits: ~radius ratio, least wall ~75 %, seam ~45.0° from the outside
Test bender: longest blank, hold, largest angle, square ends: common practice, no source
Limits: wall rule, least wall, seam: common practice, no source
51 on 76: bites and largest angle: common practice, no source
51 on 76: angles that the clamps have proved: common practice, no source
51 on 76: springback in the material in hand: theory, only a start
51 on 102: bites and largest angle: common practice, no source
51 on 102: angles that the clamps have proved: common practice, no source
51 on 102: springback in the material in hand: theory, only a start
38 on 57: bites and largest angle: common practice, no source
38 on 57: angles that the clamps have proved: common practice, no source
";
    assert_eq!(text, expected);
}

#[test]
fn the_machine_is_set_up_and_the_open_tube_is_judged_anew() {
    let mut window = page();
    window.click("Machine");
    assert_eq!(window.workbench().solved().worst(), None);
    window.enter("Longest blank of the machine", "60 cm");
    assert_eq!(window.workbench().shop().machine.longest_blank, Length::from_mm(600.0));
    assert!(window.workbench().solved().worst().is_some(), "the blank is longer than that");
    window.enter("Longest blank of the machine", "3 m");
    assert_eq!(window.workbench().solved().worst(), None);
    window.enter("Name of the machine", "Old faithful");
    window.enter("Largest angle of the machine", "185");
    window.enter("Straight that a square end needs", "1.25");
    window.click("Bends to the left");
    window.click("Rotation is set as a reading of the dial");
    window.click("These figures are of our own machine");
    let machine = &window.workbench().shop().machine;
    assert_eq!((machine.name.as_str(), machine.square_end_diameters), ("Old faithful", 1.25));
    assert_eq!((machine.hand, machine.rotation, machine.basis), (Hand::Left, RotationSetting::Reading, Basis::Shop));
    assert_eq!(machine.largest_angle.degrees().round(), 185.0);
    // Said beneath the field, and nothing is lost.
    window.enter("Largest angle of the machine", "400");
    assert!(said(&window, "The machine's largest angle is 400°; it must be from 0.01° to 359°"));
    window.enter("Hold of the machine", "a hand");
    assert!(said(&window, "Character 1"));
    window.click("Undo on the page of the shop");
    assert_eq!(window.workbench().shop().machine.basis, Basis::CommonPractice);
    window.click("Redo on the page of the shop");
    assert_eq!(window.workbench().shop().machine.basis, Basis::Shop);
}

#[test]
fn a_die_set_is_added_sized_copied_and_removed() {
    let mut window = page();
    window.click("Add a die set");
    let die = |window: &Window, name: &str| window.workbench().shop().die_named(name).cloned();
    assert!(die(&window, "50.8 on 127").is_some(), "the next usual radius for this tube");
    window.enter("CLR of the die set", "120");
    assert!(die(&window, "50.8 on 120").is_some(), "one that is called by its sizes goes on being called so");
    window.enter("Name of the die set", "the wide one");
    window.enter("Largest angle of the die set", "120");
    window.enter("Mark-free bite of the die set", "0.5");
    window.enter("Largest bite of the die set", "0.2");
    assert!(said(
        &window,
        "The largest bite of die set \"the wide one\" is 0.2 mm; it must be the mark-free bite (0.5 mm) or more"
    ));
    window.enter("Largest bite of the die set", "1.5");
    window.click("Angle and bites are our own");
    let wide = die(&window, "the wide one").unwrap();
    assert_eq!((wide.clr.mm(), wide.mark_free_bite.mm(), wide.largest_bite.mm()), (120.0, 0.5, 1.5));
    assert_eq!((wide.largest_angle.degrees().round(), wide.basis), (120.0, Basis::Shop));
    window.enter("CLR of the die set", "110");
    assert_eq!(die(&window, "the wide one").unwrap().clr.mm(), 110.0, "its own name stays");
    window.click("Copy this die set");
    assert_eq!(die(&window, "the wide one (2)").unwrap().clr.mm(), 110.0);
    window.click("Remove this die set");
    assert_eq!((die(&window, "the wide one (2)"), die(&window, "the wide one").is_some()), (None, true));
    window.enter("Name of the shop", " ");
    assert!(said(&window, "The name of the shop is empty"));
}

#[test]
fn clamps_say_what_they_have_proved_and_on_which_tube() {
    let mut window = page();
    window.click("Add a clamp");
    let clamps = |window: &Window| window.workbench().shop().die_named("51 on 76").unwrap().clamps.clone();
    assert_eq!(clamps(&window).iter().map(|clamp| clamp.length.mm()).collect::<Vec<_>>(), [80.0, 125.0, 135.0]);
    window.enter("Length of the 135.0 mm clamp", "100");
    window.enter("Proved angle of the 100.0 mm clamp", "110");
    window.click("Tube of the 100.0 mm clamp");
    window.click("1.5 mm 304 stainless");
    let clamp = clamps(&window)[1].clone();
    assert_eq!((clamp.length.mm(), clamp.proved_angle.degrees().round(), clamp.basis), (100.0, 110.0, Basis::Shop));
    assert_eq!(clamp.proved_on, Some(ProvedOn { wall: Length::from_mm(1.5), material: "304 stainless".into() }));
    window.click("Remove the 125.0 mm clamp");
    assert_eq!(clamps(&window).len(), 2);
    window.enter("Proved angle of the 100.0 mm clamp", "0");
    assert!(said(&window, "The angle the clamp has proved is 0°"));
    window.enter("Length of the 100.0 mm clamp", "80");
    assert!(said(&window, "A length of clamp of die set \"51 on 76\" is given twice"));
}

#[test]
fn what_has_bent_without_a_crack_is_noted() {
    let mut window = shown("shop", parts::sound(), [860.0, 1400.0]);
    window.click("304 stainless");
    assert!(window.workbench().shop().springback_record("51 on 76", "304 stainless").unwrap().uncracked);
    window.click("304 stainless");
    assert!(window.workbench().shop().springback.is_empty());
}

#[test]
fn stock_and_limits_are_kept() {
    let mut window = page();
    window.click("Tubes");
    window.enter("Wall of tube 1", "1.2");
    assert_eq!(window.workbench().shop().tubes[0].wall.mm(), 1.2);
    window.enter("OD of tube 1", "0");
    assert!(said(&window, "The outside diameter is 0 mm"));
    window.click("Remove tube 2");
    assert_eq!(window.workbench().shop().tubes.len(), 2);
    window.harness.get_by_label_contains("Add the tube in hand").click();
    window.harness.run_steps(3);
    assert_eq!(window.workbench().shop().tubes.last(), Some(&window.workbench().part().tube));
    window.click("Limits");
    window.enter("Least wall", "80 %");
    window.enter("Seam from the outside", "30");
    window.click("These limits are our own");
    let limits = window.workbench().shop().limits;
    assert_eq!((limits.least_wall, limits.basis), (0.8, Basis::Shop));
    window.enter("Least wall", "180");
    assert!(said(&window, "The least wall"));
}

#[test]
fn what_is_still_common_practice_leads_to_where_it_is_changed() {
    let mut window = page();
    window.click("Still common practice (10)");
    assert!(said(&window, "0 of 10 are the shop's own"));
    window.click("Go to 38 on 57: bites and largest angle");
    assert!(window.harness.query_by_label("Name of the die set").is_some());
    window.click("Angle and bites are our own");
    assert_eq!(window.workbench().shop().die_named("38 on 57").unwrap().basis, Basis::Shop);
    window.click("Still common practice (9)");
    assert!(said(&window, "1 of 10 are the shop's own"));
}

/// Two die sets and a machine of one's own from the built-in shop, with nothing but the page.
#[test]
fn a_shop_is_set_up_from_the_built_in_one_on_the_page_alone() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let mut workbench = Workbench::at_home(home.clone());
    workbench.perform(Command::ToggleShop);
    let mut window = shown("shop", workbench, SIZE);
    assert!(said(&window, "makes a shop file of your own"));
    let before = window.asked().len();
    window.click("Remove the 20 that came with the program");
    window.enter("Name of the shop", "Shed");
    for clr in ["90", "120"] {
        window.click("Add a die set");
        window.enter("CLR of the die set", clr);
    }
    window.click("Machine");
    window.enter("Name of the machine", "Hand bender");
    window.enter("Longest blank of the machine", "2.4 m");
    let asked = window.asked().len() - before;
    assert!(asked <= 8, "{asked} changes");
    let shop = window.workbench().shop();
    assert_eq!((shop.name.as_str(), shop.die_sets.len(), shop.machine.name.as_str()), ("Shed", 2, "Hand bender"));
    let text = fs::read_to_string(home.own_shop()).unwrap();
    assert_eq!(read_shop(&text, "shop").unwrap(), **shop);
    let comments = |text: &str| text.lines().filter(|line| line.trim().starts_with("//")).count();
    assert_eq!(comments(&text), comments(BUILT_IN_SHOP_TEXT));
}

#[test]
fn the_page_closes_by_its_cross_and_by_escape_and_leaves_the_verdict_in_sight() {
    let mut workbench = parts::short_straights();
    workbench.perform(Command::ToggleShop);
    let mut harness = window(Desk::new(workbench), 1280.0, 800.0);
    harness.run_steps(4);
    let page = harness.get_by_label("Name of the shop").rect();
    let column = harness.state().shown.as_ref().unwrap().scene.right();
    assert!(page.right() < column, "{page:?} {column}");
    write_picture(&harness, egui::vec2(1280.0, 800.0), "shop-dies");
    for leaf in ["Machine", "Tubes", "Limits"] {
        // A menu of the bar is called so too, and drawn before.
        harness.get_all_by_label(leaf).last().unwrap().click();
        harness.run_steps(4);
        write_picture(&harness, egui::vec2(1280.0, 800.0), &format!("shop-{leaf}"));
    }
    harness.state_mut().workbench.perform(Command::Escape);
    harness.run_steps(2);
    assert!(harness.query_by_label("Name of the shop").is_none());
}
