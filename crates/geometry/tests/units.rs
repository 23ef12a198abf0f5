//! Typed lengths and angles, and what is printed.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_geometry::units::{
    LengthUnit, format_angle, format_angle_exact, format_inch_fraction, format_length, format_length_exact,
    format_number, parse_angle, parse_length,
};
use elbowroom_geometry::{Angle, Length};
use proptest::prelude::*;

/// Reads with millimetres as the default.
fn mm(text: &str) -> f64 {
    parse_length(text, LengthUnit::Millimetre).unwrap_or_else(|error| panic!("{error}\n{}", error.caret())).mm()
}

#[test]
fn lengths_are_read() {
    for (text, expected) in [
        ("12.5", 12.5),
        ("  12.5  ", 12.5),
        (".5", 0.5),
        ("5.", 5.0),
        ("1e3", 1000.0),
        ("12.5mm", 12.5),
        ("3 cm", 30.0),
        ("1.2 m", 1200.0),
        ("1in", 25.4),
        ("1 inch", 25.4),
        ("2 IN", 50.8),
        ("1\"", 25.4),
        ("1″", 25.4),
        ("1''", 25.4),
        ("1 ft", 304.8),
        ("1'", 304.8),
        ("5' 3\"", 63.0 * 25.4),
        ("5'3", 63.0 * 25.4),
        ("5' - 3\"", 57.0 * 25.4),
        ("-5' 3\"", -63.0 * 25.4),
        ("5 ft 3 1/2 in", 63.5 * 25.4),
        ("1 3/4\"", 44.45),
        ("1/2in", 12.7),
        ("1½\"", 38.1),
        ("1 ½ in", 38.1),
        ("¾in", 19.05),
        ("7/8", 0.875),
        ("60+12.5", 72.5),
        ("60 - 12.5", 47.5),
        ("60−12.5", 47.5),
        ("60 + -5", 55.0),
        ("-5", -5.0),
        ("- 5 mm", -5.0),
        ("2*30", 60.0),
        ("2 × 30 mm", 60.0),
        ("1in/2", 12.7),
        ("25.4/2", 12.7),
        ("60 + 12.5 mm", 72.5),
        ("1in + 10mm", 35.4),
        ("0 + 1in", 25.4),
        ("100 - 2*10 - 5", 75.0),
    ] {
        assert!((mm(text) - expected).abs() < 1e-9, "{text} is {} and not {expected}", mm(text));
    }
    for (unit, expected) in [
        (LengthUnit::Millimetre, 2.0),
        (LengthUnit::Centimetre, 20.0),
        (LengthUnit::Metre, 2000.0),
        (LengthUnit::Inch, 50.8),
        (LengthUnit::Foot, 609.6),
    ] {
        assert_eq!(parse_length("2", unit).unwrap().mm(), expected);
        assert_eq!(parse_length(&format!("2 {}", unit.symbol()), LengthUnit::Metre).unwrap().mm(), expected);
    }
}

/// Birmingham gauge: engineeringtoolbox.com d_508 and two more pages (Z15). Standard wire gauge: the
/// wire-gauge page of home.clara.net and popularask.net (Z16). Millimetres as printed there, to 0.001.
#[test]
fn gauges_have_their_published_thickness() {
    let bwg = [3.404, 3.048, 2.769, 2.413, 2.108, 1.829, 1.651, 1.473, 1.245, 1.067, 0.889, 0.813, 0.711];
    let swg = [3.251, 2.946, 2.642, 2.337, 2.032, 1.829, 1.626, 1.422, 1.219, 1.016, 0.914, 0.813, 0.711];
    for index in 0..13 {
        let number = index + 10;
        assert!((mm(&format!("{number} bwg")) - bwg[index]).abs() < 0.00051, "bwg {number}");
        assert!((mm(&format!("{number}SWG")) - swg[index]).abs() < 0.00051, "swg {number}");
    }
}

#[test]
fn angles_are_read() {
    for (text, degrees) in [
        ("45", 45.0),
        ("22.5°", 22.5),
        ("-90 deg", -90.0),
        ("90 - 7.5", 82.5),
        ("180/8", 22.5),
        ("2*45 degrees", 90.0),
        ("1 rad", 1f64.to_degrees()),
        ("90° + 0.5 rad", 90.0 + 0.5f64.to_degrees()),
    ] {
        let read = parse_angle(text).unwrap_or_else(|error| panic!("{error}")).degrees();
        assert!((read - degrees).abs() < 1e-12, "{text} is {read}");
    }
    assert_eq!(parse_angle("180").unwrap(), Angle::HALF_TURN);
}

#[test]
fn errors_point_at_the_character() {
    for (text, at, says) in [
        ("", 0, "nothing is written"),
        ("   ", 0, "nothing is written"),
        ("12 furlongs", 3, "\"furlongs\" is no unit of length"),
        ("1,234", 1, "comma"),
        ("1,234,5", 1, "comma"),
        ("1.5,5", 3, "comma"),
        ("12+", 3, "missing at the end"),
        ("12 + x", 5, "does not begin a number"),
        ("12 13", 3, "two numbers"),
        ("1.5 3/4", 4, "two numbers"),
        ("1-3/4\"", 1, "dash"),
        ("5'-3\"", 2, "dash"),
        ("5'3-1/2\"", 3, "dash"),
        ("3/0", 2, "divided by 0"),
        ("3 mm * 2 mm", 7, "a length times a length"),
        ("12 mm)", 5, "cannot stand here"),
        ("9 swg", 0, "not in the table"),
        ("16.5 bwg", 0, "not in the table"),
        ("16 gauge", 3, "more than one gauge"),
        ("5' 3 mm", 5, "only inches"),
        ("12 + 1in", 0, "no unit"),
        ("1in + 12", 6, "no unit"),
        ("1e10", 0, "too large"),
        ("1e999", 0, "too large"),
        ("(3)", 0, "does not begin a number"),
        ("½ é", 2, "\"é\" is no unit of length"),
        ("NaN", 0, "does not begin a number"),
        ("inf", 0, "does not begin a number"),
    ] {
        let error = parse_length(text, LengthUnit::Millimetre).expect_err(text);
        assert_eq!(error.at, at, "{text}: {error}");
        assert!(error.what.contains(says), "{text}: {error}");
        assert!(!error.would_be_right.is_empty());
        assert_eq!(error.caret(), format!("{text}\n{}^", " ".repeat(at)));
    }
    let error = parse_angle("45 mm").unwrap_err();
    assert_eq!(error.to_string(), "\"mm\" is no unit of angle (character 4): write °, deg or rad");
    assert_eq!(parse_angle("1e9").unwrap_err().at, 0);
}

#[test]
fn lengths_and_angles_are_printed() {
    assert_eq!(format_length(Length::from_mm(12.345), LengthUnit::Millimetre, 1), "12.3 mm");
    assert_eq!(format_length(Length::from_mm(-0.01), LengthUnit::Millimetre, 1), "0.0 mm");
    assert_eq!(format_length(Length::from_mm(-0.06), LengthUnit::Millimetre, 1), "-0.1 mm");
    assert_eq!(format_length(Length::from_mm(50.8), LengthUnit::Inch, 3), "2.000 in");
    assert_eq!(format_length(Length::from_mm(1500.0), LengthUnit::Metre, 2), "1.50 m");
    assert_eq!(format_number(-0.0, 0), "0");
    assert_eq!(format_angle(Angle::from_degrees(22.46), 1), "22.5°");
    for (mm, text) in [
        (44.45, "1 3/4\""),
        (12.7, "1/2\""),
        (25.4, "1\""),
        (0.0, "0\""),
        (-44.45, "-1 3/4\""),
        (25.4 * 2.96, "2 15/16\""),
        (25.4 * 2.98, "3\""),
        (1.5875, "1/16\""),
    ] {
        assert_eq!(format_inch_fraction(Length::from_mm(mm)), text);
    }
}

proptest! {
    #[test]
    fn full_precision_reads_back_to_the_bit(value in -1e6..1e6f64) {
        for unit in LengthUnit::ALL {
            let text = format_length_exact(Length::from_mm(value), unit);
            let back = parse_length(&text, LengthUnit::Metre).unwrap();
            prop_assert_eq!(back.mm().to_bits(), value.to_bits(), "{}", text);
        }
        let angle = Angle::from_radians(value / 1e5);
        let text = format_angle_exact(angle);
        prop_assert_eq!(parse_angle(&text).unwrap().radians().to_bits(), angle.radians().to_bits(), "{}", text);
    }

    #[test]
    fn typed_degrees_and_storable_angles_survive_degrees(degrees in -360.0..360.0f64, radians in -7.0..7.0f64) {
        for angle in [Angle::from_degrees(degrees), Angle::from_radians(radians).storable()] {
            prop_assert_eq!(Angle::from_degrees(angle.degrees_exact()), angle);
            prop_assert_eq!(angle.storable(), angle);
        }
        prop_assert!((Angle::from_radians(radians).storable().radians() - radians).abs() <= 2.0 * f64::EPSILON * radians.abs());
    }

    #[test]
    fn inch_fractions_read_back(sixteenths in -5000i32..5000) {
        let mm = f64::from(sixteenths) / 16.0 * 25.4;
        let back = parse_length(&format_inch_fraction(Length::from_mm(mm)), LengthUnit::Millimetre).unwrap();
        // A minus before a mixed number counts for the whole of it.
        prop_assert!((back.mm() - mm).abs() < 1e-9);
    }

    #[test]
    fn no_text_panics(text in "[0-9./ '\"+*a-z½−×°-]{0,12}") {
        for unit in LengthUnit::ALL {
            if let Err(error) = parse_length(&text, unit) {
                prop_assert!(error.at <= text.chars().count());
            }
        }
        let _ = parse_angle(&text);
    }
}

#[test]
fn lengths_are_shown_and_rounded_up_in_their_unit() {
    use LengthUnit::{Centimetre, Foot, Inch, Metre, Millimetre};
    for (unit, mm, shown, enough, round) in [
        (Millimetre, 107.508, "107.5 mm", "107.6 mm", "107.6 mm"),
        (Centimetre, 107.508, "10.75 cm", "10.76 cm", "10.76 cm"),
        (Metre, 107.508, "0.1075 m", "0.1076 m", "0.1076 m"),
        (Inch, 107.508, "4.233 in", "4.233 in", "4.240 in"),
        (Inch, 107.52, "4.233 in", "4.234 in", "4.240 in"),
        (Foot, 107.508, "0.3527 ft", "0.3528 ft", "0.3530 ft"),
        (Millimetre, 40.000_000_1, "40.0 mm", "40.0 mm", "40.0 mm"),
        (Inch, 76.2, "3.000 in", "3.000 in", "3.000 in"),
        (Millimetre, -0.05, "-0.1 mm", "0.0 mm", "0.0 mm"),
    ] {
        assert_eq!(unit.shown(mm).to_string(), shown);
        assert_eq!(unit.shown(unit.at_least_mm(mm)).to_string(), enough);
        assert_eq!(unit.shown(unit.round_mm(mm)).to_string(), round);
        assert!(unit.round_mm(mm) >= unit.at_least_mm(mm) - 1e-9 && unit.at_least_mm(mm) >= mm - 2e-6);
    }
    assert_eq!(Inch.finely(1.5).to_string(), "0.0591 in");
    assert_eq!(Millimetre.bare(-0.01).to_string(), "0.0");
}

/// A comma is that of decimals where it can be nothing else; three digits behind it could be thousands.
#[test]
fn a_decimal_comma_is_taken_where_nothing_else_can_be_meant() {
    for (text, mm) in
        [("60,3", 60.3), ("12,50 mm", 12.5), ("0,125", 0.125), ("60,3+12,5", 72.8), ("1234,567", 1234.567)]
    {
        let read = parse_length(text, LengthUnit::Millimetre).unwrap();
        assert!((read.mm() - mm).abs() < 1e-9, "{text}: {}", read.mm());
    }
    for text in ["1,234", "12,345,678", "1,2,3", "60,", ",5", "1.234,5", "60, 3"] {
        assert!(parse_length(text, LengthUnit::Millimetre).is_err(), "{text}");
    }
}

#[test]
fn what_a_refusal_quotes_does_nothing_but_be_read() {
    for text in ["5'\u{8} 3 1/8\"", "60\u{1b}]52;c;x\u{7}3 mm", "12 m\u{202e}m", "1\u{0}2", "3\n4"] {
        for refused in [parse_length(text, LengthUnit::Millimetre), parse_angle(text).map(|_| Length::ZERO)] {
            let said = refused.unwrap_err().to_string();
            assert_eq!(said, elbowroom_geometry::units::harmless(&said), "{text:?}");
        }
    }
}
