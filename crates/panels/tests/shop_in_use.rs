//! Shop, tube, die set and clamp are named below the verdict, and each is changed by two clicks.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::one_panel::{Window, parts, shown};
use egui_kittest::kittest::Queryable as _;
use elbowroom_bending::{Edit, Seam};
use elbowroom_geometry::Length;
use elbowroom_panels::shop_in_use::Model;
use elbowroom_workbench::Command;

fn line() -> Window {
    shown("shop in use", parts::sound(), [400.0, 500.0])
}

#[test]
fn all_four_are_named() {
    let expected = "\
Shop: Test shop, built in
Tube: 50.8 × 1.5 mm, 304 stainless
Die: 51 on 76, left to the shop
Clamp: the longest, 125.0 mm
";
    assert_eq!(Model::of(&parts::sound()).to_string(), expected);
    let mut workbench = parts::sound();
    workbench.perform(Command::Edit(Edit::ChooseDie(Some("gone".into()))));
    assert!(Model::of(&workbench).to_string().contains("Die: gone, not in this shop"));
}

#[test]
fn each_is_changed_by_two_clicks() {
    let mut window = line();
    window.click("Die: 51 on 76");
    window.click("51 on 102: fits the tube, not the radius");
    assert_eq!(window.asked(), [Command::Edit(Edit::ChooseDie(Some("51 on 102".into())))]);
    window.click("Die: 51 on 102");
    window.click("Left to the shop");
    assert_eq!(window.asked(), [Command::Edit(Edit::ChooseDie(None))]);
    // The die set with its radius for every bend is one step.
    window.click("Die: 51 on 76");
    window.click("51 on 102, and every bend at CLR 101.6 mm");
    let label = "take die set 51 on 102 and bend everything at CLR 101.6 mm".to_owned();
    let both = vec![Edit::ChooseDie(Some("51 on 102".into())), Edit::SetEveryClr(Length::from_mm(101.6))];
    assert_eq!(window.asked(), [Command::Edit(Edit::Together(label, both))]);
    window.click("Die: 51 on 102");
    window.click("51 on 76, and every bend at CLR 76.2 mm");
    assert_eq!(window.asked().len(), 1);
    window.click("Die: 51 on 76");
    window.click("Left to the shop");
    assert_eq!(window.asked(), [Command::Edit(Edit::ChooseDie(None))]);
    window.click("Clamp: the longest, 125.0 mm");
    window.click("80.0 mm, proved to 60°");
    assert_eq!(window.asked(), [Command::Edit(Edit::ChooseClamp(Some(Length::from_mm(80.0))))]);
    assert!(window.harness.query_by_label("Clamp: 80.0 mm").is_some());
    window.click("Shop: Test shop, built in");
    window.click("Set up the shop");
    assert_eq!(window.asked(), [Command::ToggleShop]);
    // Tubes and die sets of other diameters are folded away, and are no further than that fold.
    window.click("Tube: 50.8 × 1.5 mm, 304 stainless");
    let other = "60.3 × 2 mm, 304 stainless, seamless";
    assert!(window.harness.query_by_label(other).is_none());
    window.harness.get_by_label_contains("Other diameters (2)").click();
    window.harness.run_steps(3);
    window.click(other);
    assert_eq!(window.asked(), [Command::Edit(Edit::SetTube(parts::tube(60.3, 2.0, Seam::Seamless)))]);
}
