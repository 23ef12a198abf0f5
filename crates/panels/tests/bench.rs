//! The bench: every change is one edit, and what cannot be read is told where it stands.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui::Key;
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::{Edit, End, Seam};
use elbowroom_geometry::Length;
use elbowroom_panels::bench::Model;
use elbowroom_workbench::{Command, Theme};

const SIZE: [f32; 2] = [320.0, 1400.0];

fn bench() -> Window {
    shown("bench", parts::sound(), SIZE)
}

#[test]
fn the_bench_says_what_lies_on_it() {
    let text = Model::of(&parts::sound()).to_string();
    let expected = "\
part: Test part / 
tube: 50.8 × 1.5 mm, 304 stainless, welded
die set: left to the shop, 51 on 76
  51 on 76: 50.8 mm at CLR 76.2 mm, fits tube and radius
  51 on 102: 50.8 mm at CLR 101.6 mm, fits the tube, not the radius
  38 on 57: 38.1 mm at CLR 57.2 mm, for another tube
304 stainless bent on 51 on 76 without a crack: not noted
clamp: the longest
  125.0 mm, counted on to ~180°, common practice
  80.0 mm, proved to 60°
extra stock: 0.0 mm, 0.0 mm
cut off: 0.0 mm, 0.0 mm
machine: Test bender, common practice
  Longest blank: ~4000.0 mm
  Holds behind the last bend: ~150.0 mm
  Largest angle: ~190.0°
  Bends: to the right, seen from the chuck
  Square end needs: ~0.5 × OD before a bend
shop: Test shop (built in)
";
    assert_eq!(text, expected);
}

#[test]
fn typed_sizes_become_one_edit_each() {
    let mut window = bench();
    window.enter("Tube OD", "3.81 cm");
    let expected = parts::tube(38.1, 1.5, Seam::Welded);
    assert_eq!(window.asked(), [Command::Edit(Edit::SetTube(expected.clone()))]);
    window.enter("Extra stock at the finish", "60+12.5");
    assert_eq!(window.asked(), [Command::Edit(Edit::SetStock(End::Finish, Length::from_mm(72.5)))]);
    assert_eq!(window.workbench().part().tube, expected);
    assert_eq!(window.workbench().part().stock.tail, Length::from_mm(72.5));
}

#[test]
fn what_cannot_be_read_stays_and_says_why() {
    let mut window = bench();
    window.enter("Tube wall", "1.5 furlong");
    assert_eq!(window.asked(), []);
    assert!(window.harness.query_by_label_contains("Character 5: \"furlong\" is no unit of length").is_some());
    assert_eq!(window.harness.get_by_label("Tube wall").value().as_deref(), Some("1.5 furlong"));
    // What can be read and is not allowed is refused with its reason.
    window.enter("Tube wall", "30");
    assert_eq!(window.asked(), []);
    assert!(window.harness.query_by_label_contains("the wall is 30 mm").is_some());
    // Escape brings back what was there.
    window.harness.get_by_label("Tube wall").focus();
    window.harness.run_steps(2);
    window.harness.key_press(Key::Escape);
    window.harness.run_steps(3);
    assert_eq!(window.harness.get_by_label("Tube wall").value().as_deref(), Some("1.5 mm"));
    assert_eq!(window.asked(), []);
}

#[test]
fn die_and_clamp_are_chosen_and_given_back_to_the_shop() {
    let mut window = bench();
    window.click("51 on 102");
    window.click("Left to the shop");
    window.click("80.0 mm, proved to 60°");
    window.click("The longest of the die set");
    let chosen = |name: &str| Command::Edit(Edit::ChooseDie(Some(name.to_owned())));
    let expected = [
        chosen("51 on 102"),
        Command::Edit(Edit::ChooseDie(None)),
        Command::Edit(Edit::ChooseClamp(Some(Length::from_mm(80.0)))),
        Command::Edit(Edit::ChooseClamp(None)),
    ];
    assert_eq!(window.asked(), expected);
}

#[test]
fn a_die_set_is_taken_with_its_radius_in_one_step() {
    let mut window = bench();
    window.click("51 on 102, and every bend at CLR 101.6 mm");
    let label = "take die set 51 on 102 and bend everything at CLR 101.6 mm".to_owned();
    let both = vec![Edit::ChooseDie(Some("51 on 102".into())), Edit::SetEveryClr(Length::from_mm(101.6))];
    assert_eq!(window.asked(), [Command::Edit(Edit::Together(label, both))]);
}

#[test]
fn a_tube_is_picked_from_the_shops_stock() {
    let mut window = bench();
    window.click("Tube in stock");
    window.click("38.1 × 1.5 mm, 304 stainless, welded");
    assert_eq!(window.asked(), [Command::Edit(Edit::SetTube(parts::tube(38.1, 1.5, Seam::Welded)))]);
    window.click("seamless");
    assert_eq!(window.asked(), [Command::Edit(Edit::SetTube(parts::tube(38.1, 1.5, Seam::Seamless)))]);
}

#[test]
fn a_standard_size_keeps_material_and_seam() {
    let mut window = bench();
    window.click("Standard size");
    // 16 BWG is 0.065 in (engineeringtoolbox.com d_508).
    assert!(window.harness.query_by_label("50.8 × 1.65 mm, inch tube of ASTM A554").is_some());
    // What rests on common practice or memory has its mark.
    window.click("~54 × 1.5 mm, exhaust size");
    assert_eq!(window.asked(), [Command::Edit(Edit::SetTube(parts::tube(54.0, 1.5, Seam::Welded)))]);
}

#[test]
fn name_note_and_shop_file() {
    let mut window = bench();
    window.enter("Part name", "Downpipe");
    window.enter("Part note", "left side");
    window.click("Choose another shop file");
    let expected = [
        Command::Edit(Edit::Rename("Downpipe".to_owned())),
        Command::Edit(Edit::SetNote("left side".to_owned())),
        Command::AskShop,
    ];
    assert_eq!(window.asked(), expected);
    window.enter("Part name", " ");
    assert_eq!(window.asked(), []);
    assert!(window.harness.query_by_label("A part needs a name.").is_some());
}

#[test]
fn pictures() {
    for (theme, scale, suffix) in [(Theme::Light, 1.0, "light"), (Theme::Dark, 2.0, "dark-2x")] {
        let mut window = Window::new("bench", parts::sound(), SIZE.into(), theme, scale);
        window.enter("Tube wall", "1.5 furlong");
        window.keep_picture(&format!("bench-{suffix}"));
        assert!(window.colours() > 20);
    }
}

#[test]
fn what_bent_without_a_crack_is_noted_and_taken_back() {
    let mut window = bench();
    let label = "304 stainless has bent on 51 on 76 without a crack";
    let noted = |window: &Window| window.workbench().shop().springback.iter().any(|record| record.uncracked);
    assert!(
        Model::of(window.workbench()).to_string().contains("304 stainless bent on 51 on 76 without a crack: not noted")
    );
    window.click(label);
    assert!(noted(&window) && Model::of(window.workbench()).to_string().contains("without a crack: yes"));
    window.click(label);
    assert!(!noted(&window));
    assert!(matches!(window.asked()[..], [Command::EditShop(_), Command::EditShop(_)]));
}
