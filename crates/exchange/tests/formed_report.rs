//! The reports of what bending does to the tube: published figures, and what each rests on.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::specimen::{own_line, part, row, shop};
use elbowroom_bending::{Part, Seam, Shop, solve};
use elbowroom_exchange::report::{TextContext, to_json, to_text};
use serde_json::Value;

fn bent() -> Part {
    part(vec![row(200.0, 0.0, 90.0), row(150.0, 40.0, 0.0), row(150.0, 50.0, 180.0)], 300.0).unwrap()
}

fn json(part: &Part, shop: &Shop) -> Value {
    serde_json::from_str(&to_json(part, shop, &solve(part, shop)).unwrap()).unwrap()
}

fn text(part: &Part, shop: &Shop) -> String {
    to_text(part, &solve(part, shop), TextContext { shop, shop_from: "built in" })
}

#[track_caller]
fn close(value: &Value, wanted: f64, tolerance: f64) {
    let found = value.as_f64().unwrap_or_else(|| panic!("{value} is no number"));
    assert!((found - wanted).abs() <= tolerance, "found {found}, wanted {wanted}");
}

/// 50.8 × 1.5 mm on 76.2 mm.
#[test]
fn published_figures_reach_the_report() {
    let report = json(&bent(), &shop());
    let formed = &report["bends"][0]["formed"];
    // "Pe = ( Ro / R ) - 1" (scribd 434459819).
    close(&formed["outer_stretch"], 1.0 / 3.0, 1e-12);
    // "Md = T - ( W x 2.21 )" (scribd 434459819).
    close(&formed["mandrel_nose_mm"], 47.485, 1e-9);
    // Tool-maker's page "Fb = [ 2Kr + .2Fw + ( B / 180 ) ] / [ Fd ]", arithmetic by hand.
    close(&formed["difficulty"], 7.516, 5e-4);
    close(&report["bends"][2]["formed"]["difficulty"], 7.849, 5e-4);
    let wall = |rule: &str| {
        let walls = formed["walls"].as_array().unwrap();
        walls.iter().find(|wall| wall["rule"] == rule).unwrap_or_else(|| panic!("no rule {rule}")).clone()
    };
    // TEMA RCB-2.31 factor 1.1667 at 1.5D.
    close(&wall("TEMA RCB-2.31")["outside_mm"], 1.5 / 1.1667, 1e-4);
    // ASME B31.1 table 102.4.5: 1.25 at 3D, the tightest row, held below it.
    close(&wall("ASME B31.1 table 102.4.5")["thinning"], 0.2, 1e-12);
    // Tool-maker's page "Pt = ( Ro - R ) / Ro": 25 %.
    close(&wall("radius ratio")["outside_mm"], 1.125, 1e-12);
    // Plasticity text-book result, from memory: 13.40 % out, 22.5 % in.
    close(&wall("free hoop")["thinning"], 0.1340, 5e-5);
    close(&wall("free hoop")["inside_mm"], 1.5 * 1.225, 1e-3);
    let bases = ["memory", "published", "published", "common_practice"];
    let found: Vec<_> = formed["walls"].as_array().unwrap().iter().map(|wall| wall["basis"].clone()).collect();
    assert_eq!(found, bases);
    assert_eq!(report["bends"][1]["formed"], Value::Null, "a row that turns nothing");
    // 1.835 kg/m at 7.90 (EN 10088-1), arithmetic.
    close(&report["mass_per_metre_kg"], 1.835, 5e-4);
    let length = report["developed_length_mm"].as_f64().unwrap();
    close(&report["mass_kg"], 1.8354 * length / 1000.0, 1e-3);
    assert_eq!(report["mass_basis"], "published");
}

#[test]
fn the_seam_is_told_at_every_bend() {
    let report = json(&bent(), &shop());
    // Two planes 90° apart, equal bends: 45° from the neutral axis of both.
    let clocks = report["seam"]["at_bends_deg"].as_array().unwrap();
    for bend in [0, 2] {
        close(&Value::from(clocks[bend].as_f64().unwrap().to_radians().cos().abs()), 0.5_f64.sqrt(), 1e-9);
        assert_eq!(report["bends"][bend]["formed"]["seam_at_deg"], clocks[bend]);
    }
    close(&report["seam"]["worst_stretch_at_seam"], 0.5_f64.sqrt() / 3.0, 1e-9);
    let mut seamless = bent();
    seamless.tube = seamless.tube.closed_by(Seam::Seamless);
    assert_eq!(json(&seamless, &shop())["seam"], Value::Null);
    assert!(!text(&seamless, &shop()).contains("Seam at bend 1"));
}

#[test]
fn the_mark_of_doubt_goes_when_the_shop_has_its_own_figure() {
    let mut shop = shop();
    let theory = json(&bent(), &shop);
    let springback = &theory["bends"][0]["formed"]["springback"];
    assert_eq!((&springback["from"], &springback["basis"]), (&"theory".into(), &"theory".into()));
    let said = text(&bent(), &shop);
    let set_angle = |text: &str| {
        let line = text.lines().skip_while(|line| !line.starts_with("Forming")).nth(2).unwrap().to_owned();
        line.split_whitespace().nth(8).unwrap().to_owned()
    };
    assert!(set_angle(&said).starts_with('~'), "{said}");
    shop.springback.push(own_line(&shop.die_sets[0], 2.0, 0.0));
    let report = json(&bent(), &shop);
    let springback = &report["bends"][0]["formed"]["springback"];
    assert_eq!((&springback["from"], &springback["basis"]), (&"shop".into(), &"shop".into()));
    close(&springback["set_angle_deg"], 92.0, 1e-9);
    // Constant arc length, a text-book result: 76.2 at 92° to 90° gives 77.893.
    close(&springback["free_clr_mm"], 77.893, 5e-4);
    assert_eq!(set_angle(&text(&bent(), &shop)), "92.0");
}
