//! Walls, stretch, difficulty, mandrel, springback and mass against published values, through what the
//! program says of a solved part.

use approx::assert_abs_diff_eq;
use elbowroom_bending::forming::wall::{WallRule, pressure_factors};
use elbowroom_bending::material::mass_per_metre;
use elbowroom_bending::specimen::{change, part, row_at, shop};
use elbowroom_bending::{DieSetFigures, Formed, Seam, Tube, solve};
use elbowroom_geometry::units::{LengthUnit, parse_length};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::file::built_in_shop;

/// A bend of so many diameters and degrees in tube of 50.8 × 1.5 mm.
fn formed(diameters: f64, degrees: f64) -> Formed {
    let part = part(vec![row_at(300.0, 0.0, degrees, 50.8 * diameters)], 300.0).unwrap();
    solve(&part, &shop()).bends[0].formed.unwrap()
}

fn thinning(diameters: f64, rule: WallRule) -> f64 {
    formed(diameters, 90.0).wall(rule).unwrap().thinning * 100.0
}

/// TEMA RCB-2.31, t0 = t1 [1 + D/(4R)]; "max 17% wall thinning" for R ≥ 1.5 da (tps-technitube.com) is the
/// same rule by the finished wall.
#[test]
fn heat_exchanger_walls() {
    for (diameters, factor) in [(1.5, 1.1667), (2.0, 1.1250), (3.0, 1.0833), (4.0, 1.0625), (5.0, 1.0500)] {
        let left = formed(diameters, 90.0).wall(WallRule::TubeExchanger).unwrap().outside.mm();
        assert_abs_diff_eq!(1.5 / left, factor, epsilon = 5e-5);
    }
    let left = formed(1.5, 90.0).wall(WallRule::TubeExchanger).unwrap().outside.mm();
    assert_abs_diff_eq!((1.5 - left) / left * 100.0, 16.67, epsilon = 5e-3);
}

/// ASME B31.1 table 102.4.5 (scribd 437833276; UFGS 4-159-01 table 5-4): 1.06, 1.08, 1.14, 1.25.
#[test]
fn power_piping_walls() {
    for (diameters, percent) in [(6.0, 5.66), (5.0, 7.41), (4.0, 12.28), (3.0, 20.0)] {
        assert_abs_diff_eq!(thinning(diameters, WallRule::PowerPiping), percent, epsilon = 5e-3);
    }
}

/// ASME B31.3 304.2.1: a worked case (scribd 361485902, D 273.2, R 1270) and a table for R = 1.5 nominal
/// (scribd 454414014, printed to two places).
#[test]
fn pressure_factors_of_bends() {
    let factors = |od: f64, clr: f64| pressure_factors(Length::from_mm(od), Length::from_mm(clr)).unwrap();
    let (inside, outside) = factors(273.2, 1270.0);
    assert_abs_diff_eq!(inside, 1.060, epsilon = 5e-4);
    assert_abs_diff_eq!(outside, 0.951, epsilon = 5e-4);
    // Its walls: t = P D / (2 (S E W / I + P Y)) with P 5.82, S 82.68, W 0.975, Y 0.4.
    let wall = |factor: f64| 5.82 * 273.2 / (2.0 * (82.68 * 0.975 / factor + 5.82 * 0.4));
    assert_abs_diff_eq!(wall(inside), 10.14, epsilon = 1e-2);
    assert_abs_diff_eq!(wall(outside), 9.13, epsilon = 1e-2);
    for (od, clr, inside, outside) in [
        (60.3, 76.2, 1.33, 0.86),
        (88.9, 114.3, 1.32, 0.86),
        (114.3, 152.4, 1.30, 0.86),
        (141.3, 190.5, 1.29, 0.86),
        (219.1, 304.8, 1.28, 0.87),
        (355.6, 533.4, 1.25, 0.88),
    ] {
        let found = factors(od, clr);
        assert_abs_diff_eq!(found.0, inside, epsilon = 6e-3);
        assert_abs_diff_eq!(found.1, outside, epsilon = 6e-3);
    }
    assert_eq!(pressure_factors(Length::from_mm(50.0), Length::from_mm(25.0)), None);
}

/// A tool-maker's "Pt = ( Ro - R ) / Ro" and "Pe = ( Ro / R ) - 1" (scribd 434459819).
#[test]
fn tool_makers_walls_and_stretch() {
    for (diameters, thins, stretches) in
        [(1.0, 33.33, 50.0), (1.5, 25.0, 33.33), (2.0, 20.0, 25.0), (3.0, 14.29, 16.67), (5.0, 9.09, 10.0)]
    {
        assert_abs_diff_eq!(thinning(diameters, WallRule::RadiusRatio), thins, epsilon = 5e-3);
        assert_abs_diff_eq!(formed(diameters, 90.0).outer_stretch() * 100.0, stretches, epsilon = 5e-3);
    }
}

/// Wall free to give round the hoop, a plasticity text-book result from memory; arithmetic by hand.
#[test]
fn free_hoop_walls() {
    for (diameters, percent) in [(1.0, 18.35), (1.5, 13.40), (2.0, 10.56), (3.0, 7.42), (4.0, 5.72), (5.0, 4.65)] {
        assert_abs_diff_eq!(thinning(diameters, WallRule::FreeHoop), percent, epsilon = 6e-3);
    }
}

/// Tool-maker's page "Fb = [ 2Kr + .2Fw + ( B / 180 ) ] / [ Fd ]" and "Md = T - ( W x 2.21 )"; the numbers
/// are arithmetic.
#[test]
fn difficulty_and_mandrel() {
    for (diameters, degrees, expected) in [(1.5, 90.0, 7.516), (1.5, 180.0, 7.849), (2.0, 90.0, 5.637)] {
        assert_abs_diff_eq!(formed(diameters, degrees).difficulty(), expected, epsilon = 5e-4);
    }
    assert_abs_diff_eq!(formed(1.5, 90.0).mandrel_nose_mm().expect("a mandrel fits"), 47.485, epsilon = 1e-9);
}

/// Elastic, perfectly plastic tube, from memory of the text-books, worked by hand: yield 300 and E 193 000
/// MPa open 50.8 × 1.5 at R 76.2 by 0.550° in 90°, to a radius of 76.669 mm, where that is the angle *set*;
/// here 90° is what is left, so the set angle is 90/(1 - 0.006114).
#[test]
fn springback_by_theory() {
    let mut shop = shop();
    change(&mut shop.materials[0], |metal| {
        metal.yield_mpa[0].value = 300.0;
        metal.modulus_gpa[0].value = 193.0;
    });
    let part = part(vec![row_at(300.0, 0.0, 90.0, 76.2)], 300.0).unwrap();
    let released = solve(&part, &shop).bends[0].formed.unwrap().released.unwrap();
    assert_abs_diff_eq!(1.0 - released.line.b(), 0.993_886, epsilon = 5e-7);
    assert_abs_diff_eq!(released.set_angle_rad.to_degrees(), 90.0 / 0.993_886, epsilon = 1e-4);
    assert_abs_diff_eq!(released.free_clr_mm, 76.669, epsilon = 5e-4);
}

/// Birmingham and standard wire gauges (engineeringtoolbox.com d_508; home.clara.net), and the mass of
/// gauge-walled tube by an A554 supplier's list (ecer.com; 10.68 (D - t) t lb/ft).
#[test]
fn gauges_and_masses() {
    for (text, mm) in [("16 bwg", 1.651), ("18 bwg", 1.245), ("20 bwg", 0.889), ("16 swg", 1.626), ("18 swg", 1.219)] {
        assert_abs_diff_eq!(parse_length(text, LengthUnit::Millimetre).unwrap().mm(), mm, epsilon = 5e-4);
    }
    let carbon = 10.68 / (12.0 * std::f64::consts::PI) * 27.679_904_7;
    for (od, wall, pounds) in [("2 in", "20 bwg", 0.735), ("2 in", "18 bwg", 1.021), ("2 in", "16 bwg", 1.343)] {
        let [od, wall] = [od, wall].map(|text| parse_length(text, LengthUnit::Millimetre).unwrap());
        let tube = Tube::new(od, wall, "steel", Seam::Welded).unwrap();
        let found = mass_per_metre(&tube, carbon) * 0.3048 / 0.453_592_37;
        assert_abs_diff_eq!(found, pounds, epsilon = 2e-3);
    }
    // 50.8 × 1.5 mm at 7.90 g/cm³, arithmetic: 1.835 kg/m.
    let part = part(vec![row_at(300.0, 0.0, 90.0, 76.2)], 300.0).unwrap();
    let mass = solve(&part, &shop()).mass.unwrap();
    assert_abs_diff_eq!(mass.per_metre_kg, 1.835, epsilon = 5e-4);
    assert_abs_diff_eq!(mass.part_kg, 1.8354 * (600.0 + 76.2 * std::f64::consts::FRAC_PI_2) / 1000.0, epsilon = 1e-4);
}

/// Titanium springs back more than stainless, stainless more than mild steel: what every bender knows (common practice, no
/// source). The yields it starts from are typical ones of data sheets (304 215 to 290 MPa, 316L 290, 409 238 to 240,
/// titanium grade 2 340), of an alloy text of 1998 (321, 31 ksi) and from memory of EN 10346 (DX53D 140 to 260).
#[test]
fn theory_keeps_the_order_that_every_bender_knows() {
    let shop = built_in_shop();
    let opens = |material: &str, od: f64, wall: f64, diameters: f64, degrees: f64| {
        let [od, wall] = [od, wall].map(Length::from_mm);
        let tube = Tube::new(od, wall, material, Seam::Welded).unwrap();
        let other =
            |die: &mut DieSetFigures| (die.name, die.od, die.clr) = ("none of the shop's".into(), od, od * diameters);
        let die = shop.die_sets[0].with(other).unwrap();
        let found = shop.springback_of(&die, &tube);
        assert!(!found.material_unknown && found.yield_stress.is_some(), "{material}");
        found.line.set(Angle::from_degrees(degrees)).degrees() - degrees
    };
    for (od, wall) in [(38.1, 1.5), (50.8, 1.5), (60.3, 2.0), (76.2, 1.5)] {
        for diameters in [1.0, 1.5, 2.0, 3.0] {
            for degrees in [30.0, 45.0, 90.0, 180.0] {
                let of = |material: &str| opens(material, od, wall, diameters, degrees);
                for stainless in ["304 stainless", "316L stainless", "321 stainless", "409 stainless"] {
                    assert!(of("titanium grade 2") > 1.5 * of(stainless), "{stainless}");
                    for mild in ["mild steel", "aluminised steel"] {
                        assert!(of(stainless) > 1.05 * of(mild), "{stainless} and {mild}: {}", of(stainless));
                    }
                }
                // An aged alloy gives more than an annealed one.
                assert!(
                    of("6061-T6 aluminium") > of("6061-T4 aluminium")
                        && of("6061-T4 aluminium") > of("6061-O aluminium")
                );
            }
        }
    }
}
