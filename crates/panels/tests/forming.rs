//! The forming sheet: every figure with its rule, what is unsure looks unsure, the seam is pinned and left.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui::Key;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::{Edit, Seam, specimen};
use elbowroom_geometry::{Angle, Length};
use elbowroom_panels::forming::Model;
use elbowroom_panels::panel::REGISTRY;
use elbowroom_workbench::{Command, SelectMode, Sheet, Target, Theme, Workbench};

const SIZE: [f32; 2] = [400.0, 1900.0];

fn lines(workbench: &Workbench) -> Vec<String> {
    Model::of(workbench).to_string().lines().map(|line| line.trim().to_owned()).collect()
}

#[track_caller]
fn has(lines: &[String], start: &str) {
    assert!(lines.iter().any(|line| line.starts_with(start)), "no line \u{201c}{start}\u{201d} in {lines:#?}");
}

/// A workbench whose shop has measured the springback of its 76.2 mm die set.
fn measured() -> Workbench {
    let mut shop = parts::shop();
    let record = specimen::own_line(shop.die_named("51 on 76").unwrap(), 2.0, 0.0);
    shop.springback.push(record);
    Workbench::new((**parts::sound().part()).clone(), shop)
}

#[test]
fn the_straight_that_is_left_is_named_as_drawn() {
    let mut bench = parts::sound();
    has(&lines(&bench), "Straight left before: ~199.");
    bench.perform(Command::Edit(Edit::BendFrom(elbowroom_bending::End::Finish)));
    // The straight between bends 1 and 2 comes to the machine before bend 1.
    has(&lines(&bench), "Straight left after: ~159.");
}

#[test]
fn every_rule_speaks_for_itself() {
    let lines = lines(&parts::sound());
    has(&lines, "bend 1 of 3");
    // Factors of TEMA RCB-2.31 and ASME B31.1 table 102.4.5, and a tool-maker's "Pt = ( Ro - R ) / Ro",
    // at 1.5 diameters; the free hoop is a text-book result from memory.
    has(&lines, "Outside, TEMA RCB-2.31: 1.29 mm, 14.3 % less");
    has(&lines, "Outside, ASME B31.1 table 102.4.5: 1.20 mm, 20.0 % less");
    has(&lines, "Outside, radius ratio: ~1.13 mm, 25.0 % less");
    has(&lines, "Outside, free hoop: ~1.30 mm, 13.4 % less");
    has(&lines, "Inside, free hoop: ~1.84 mm, 22.5 % more");
    // ASME B31.3 304.2.1 at R = 1.5 D: 5/4 and 7/8.
    has(&lines, "Wall for pressure: 1.25 inside, 0.88 outside");
    has(&lines, "Outer fibre: 33.3 %");
    has(&lines, "Stretches until it breaks: 40.0 % (ASTM A240, minimum)");
    has(&lines, "Stretches until it breaks: 55.0 %");
    has(&lines, "Wall factor: 33.9");
    has(&lines, "D of bend: 1.50");
    // Tool-maker's "Fb = [ 2Kr + .2Fw + ( B / 180 ) ] / [ Fd ]": 7.516 at 90°.
    has(&lines, "Difficulty: 7.5, not simple");
    // scribd 434459819 "Md = T - ( W x 2.21 )": 47.485 mm.
    has(&lines, "Mandrel nose: 47.49 mm");
    has(&lines, "Mandrel balls: ~2 or 3, regular pitch");
    has(&lines, "Wiper: ~wanted");
    has(&lines, "Mandrel and wiper of: aluminium bronze");
    has(&lines, "TEMA RCB-2.31: 10.0 %, 5.08 mm");
    has(&lines, "ASME B31.3 332.2.1: ~3.0 %, 1.52 mm");
    has(&lines, "Tube: 1.835 kg/m");
    has(&lines, "Density, another source: 8.00 g/cm³");
}

#[test]
fn the_selected_bend_is_shown() {
    let mut window = shown("forming", parts::sound(), SIZE);
    assert!(window.harness.query_by_label("Forming: bend 1").is_some());
    window.click("Bend 2");
    assert_eq!(window.asked(), [Command::Select(window.workbench().named(Target::Bend(1)), SelectMode::Only)]);
    assert!(window.harness.query_by_label("Forming: bend 2").is_some());
}

#[test]
fn the_mark_of_doubt_goes_with_the_shops_own_figure() {
    has(&lines(&parts::sound()), "Set angle: ~90.");
    has(&lines(&measured()), "Set angle: 92.0°");
    // Constant arc length, a text-book result: 76.2 at 92° to 90° gives 77.893.
    has(&lines(&measured()), "CLR left: 77.9 mm");
    let window = shown("forming", measured(), SIZE);
    assert!(window.harness.query_by_label("92.0° for 90.0°").is_some());
    let window = shown("forming", parts::sound(), SIZE);
    assert!(window.harness.query_all_by_label_contains("~90.").count() > 0);
}

#[test]
fn the_seam_is_pinned_and_left() {
    let mut window = shown("forming", parts::sound(), SIZE);
    assert!(window.harness.query_by_label("Leave it to the best start").is_none());
    window.harness.get_by_label("Seam at bend 1").focus();
    window.harness.run_steps(2);
    window.harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
    window.harness.event(egui::Event::Text("12".to_owned()));
    window.harness.run_steps(2);
    window.harness.key_press(Key::Enter);
    window.harness.run_steps(3);
    let pinned = Angle::from_degrees(12.0);
    assert_eq!(window.asked(), [Command::Edit(Edit::PinSeam(Some(pinned)))]);
    assert_eq!(window.workbench().part().tooling.seam_start.unwrap().clock(), pinned);
    assert!(window.harness.query_by_label("Bend 1: 12.0°, stretched by 32.6 %, too near the outside").is_some());
    window.click("Leave it to the best start");
    assert_eq!(window.asked(), [Command::Edit(Edit::PinSeam(None))]);
    assert_eq!(window.workbench().part().tooling.seam_start, None);
}

#[test]
fn what_is_not_known_is_told() {
    let mut part = (**parts::sound().part()).clone();
    part.tube = part.tube.of_material("unobtainium").closed_by(Seam::Seamless);
    let found = lines(&Workbench::new(part, parts::shop()));
    has(&found, "The shop does not know unobtainium, so nothing is checked.");
    has(&found, "The shop does not know unobtainium, so no springback at all is assumed.");
    has(&found, "The shop knows no density of unobtainium.");
    assert!(!found.contains(&"Seam".to_owned()));
    let straight = Workbench::new(parts::part(&[], 500.0), parts::shop());
    has(&lines(&straight), "nothing is bent");
    let window = shown("forming", straight, SIZE);
    assert!(window.harness.query_by_label_contains("Nothing is bent").is_some());
    let mut odd = (**parts::sound().part()).clone();
    odd.tooling.die = Some("lost".into());
    has(&lines(&Workbench::new(odd, parts::shop())), "The shop has no die set for this bend");
}

#[test]
fn hundreds_of_bends_are_chosen_elsewhere() {
    let window = shown("forming", parts::two_hundred(), SIZE);
    assert!(window.harness.query_by_label("Select another bend in the strip or the scene.").is_some());
    assert!(window.harness.query_by_label("and 176 more bends").is_some());
}

#[test]
fn the_sheet_is_shown_by_its_tab_alone() {
    let panel = REGISTRY.iter().find(|panel| panel.name == "forming").unwrap();
    let mut workbench = parts::sound();
    assert!(!(panel.shown)(workbench.screen()));
    workbench.perform(Command::ShowSheet(Sheet::Forming));
    assert!((panel.shown)(workbench.screen()));
}

#[test]
fn pictures() {
    for (theme, scale, suffix) in [(Theme::Light, 1.0, "light"), (Theme::Dark, 1.0, "dark")] {
        let window = Window::new("forming", parts::sound(), SIZE.into(), theme, scale);
        window.keep_picture(&format!("forming-{suffix}"));
        assert!(window.colours() > 20);
    }
}

/// A U on the shop's 76.2 mm die, with a springback line of the shop's own.
fn turned_back(degrees: f64) -> Workbench {
    let rows = vec![specimen::row(300.0, 0.0, 45.0), specimen::row(300.0, 90.0, degrees)];
    let mut bench = Workbench::new(specimen::part(rows, 400.0).unwrap(), (**measured().shop()).clone());
    bench.perform(Command::Select(bench.named(Target::Bend(1)), SelectMode::Only));
    bench
}

#[test]
fn the_spacing_of_the_legs_is_shown_and_typed() {
    has(&lines(&turned_back(180.0)), "drawn apart: 152.4 mm");
    // Set 182°, so the legs come 152.4 × 182/180 = 154.093 mm apart.
    has(&lines(&turned_back(180.0)), "come apart: 154.1 mm");
    assert!(lines(&turned_back(90.0)).iter().all(|line| !line.contains("apart")));
    let mut window = shown("forming", turned_back(180.0), SIZE);
    window.enter("Leg spacing of bend 2", "8 in");
    let clr = |window: &Window| window.workbench().solved().bends[1].clr_mm;
    assert!((clr(&window) - 101.6).abs() < 1e-9);
    assert!(matches!(window.asked()[..], [Command::Edit(Edit::SetClr(..))]));
    assert!(window.harness.query_by_label_contains("no die set of the shop has it").is_none());
    window.enter("Leg spacing of bend 2", "18,0 cm");
    assert!((clr(&window) - 90.0).abs() < 1e-9);
    let said = "That asks for CLR 90.0 mm, and no die set of the shop has it: its own set the legs 152.4 mm (51 on \
                76), 203.2 mm (51 on 102) apart.";
    assert!(window.harness.query_by_label(said).is_some());
    has(&lines(window.workbench()), "That asks for CLR 90.0 mm");
    // One step of undo each.
    let mut bench = turned_back(180.0);
    let edit = Model::of(&bench).legs.unwrap().edit(Length::from_mm(180.0)).unwrap();
    bench.perform(Command::Edit(edit));
    assert!((bench.solved().bends[1].clr_mm - 90.0).abs() < 1e-9);
    bench.perform(Command::Undo);
    assert!((bench.solved().bends[1].clr_mm - 76.2).abs() < 1e-9);
}

#[test]
fn legs_that_lie_in_one_another_are_refused() {
    let mut window = shown("forming", turned_back(180.0), SIZE);
    for typed in ["50", "0", "-152.4"] {
        window.enter("Leg spacing of bend 2", typed);
        assert!(window.harness.query_by_label_contains("at least the outside diameter apart, 50.8 mm").is_some());
    }
    assert_eq!(window.asked(), []);
}

#[test]
fn a_u_off_the_half_turn_keeps_the_spacing_that_was_typed() {
    for degrees in [150.0, 165.0, 175.0, 179.5, 180.0, 185.0, 200.0] {
        let mut bench = turned_back(degrees);
        let edit = Model::of(&bench).legs.unwrap().edit(Length::from_mm(170.0)).unwrap();
        bench.perform(Command::Edit(edit));
        let drawn = Model::of(&bench).legs.unwrap().drawn;
        assert!((drawn.mm() - 170.0).abs() < 1e-9, "{degrees}: {drawn:?}");
    }
}
