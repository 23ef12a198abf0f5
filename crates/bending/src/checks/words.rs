//! Lengths, angles and places in the words of findings.

use std::fmt::Write;

use crate::Cure;

/// A length to a tenth of a millimetre.
pub(crate) fn mm(length_mm: f64) -> String {
    tenths(length_mm, " mm")
}

/// An angle to a tenth of a degree.
pub(crate) fn degrees(angle_rad: f64) -> String {
    tenths(angle_rad.to_degrees(), "°")
}

/// A share in percent, to a tenth.
pub(crate) fn percent(share: f64) -> String {
    tenths(share * 100.0, " %")
}

/// A wall in hundredths of a millimetre, without its unit.
pub(crate) fn hundredths(length_mm: f64) -> String {
    format!("{length_mm:.2}")
}

/// A number to a tenth with its unit, and never the "-0.0" of a rounding error.
///
/// Written by way of whole tenths: a part with a finding at every bend prints hundreds of numbers on
/// every step of a drag, and the general way is several times slower.
fn tenths(number: f64, unit: &str) -> String {
    // Beyond this whole tenths are no longer exact, and nobody reads the last digit.
    const MOST: f64 = 1e14;
    if number.is_nan() || number.abs() >= MOST {
        return format!("{number:.1}{unit}");
    }
    let tenths = (number * 10.0).round() as i64;
    let sign = if tenths < 0 { "-" } else { "" };
    let tenths = tenths.unsigned_abs();
    let mut text = String::with_capacity(16);
    // Writing to a string does not fail.
    let _ = write!(text, "{sign}{}.{}{unit}", tenths / 10, tenths % 10);
    text
}

/// The next tenth of a millimetre upwards, so that what a label says is what its edit does and suffices.
pub(crate) fn tenth_up(length_mm: f64) -> f64 {
    // A hundred-thousandth of a tenth is the rounding allowed between lengths that are the same.
    let tenths = (length_mm * 10.0 - 1e-5).ceil();
    if tenths == 0.0 { 0.0 } else { tenths / 10.0 }
}

/// To which side an offset goes, from its direction about the clamp's axis (0 is the die).
pub(crate) fn direction(direction_rad: f64) -> &'static str {
    use std::f64::consts::FRAC_PI_4;
    let turned = direction_rad.abs();
    if turned <= FRAC_PI_4 {
        "towards the die"
    } else if turned >= 3.0 * FRAC_PI_4 {
        "into the clamp"
    } else {
        "along the parting line"
    }
}

/// The cures as one sentence with a space before it; nothing where there are none.
pub(crate) fn cures_sentence(cures: &[Cure]) -> String {
    let mut sentence = String::new();
    for (index, cure) in cures.iter().enumerate() {
        if index == 0 {
            sentence.push(' ');
            sentence.push_str(&cure.label);
        } else {
            sentence.push_str(", or ");
            let mut rest = cure.label.chars();
            sentence.extend(rest.next().into_iter().flat_map(char::to_lowercase));
            sentence.push_str(rest.as_str());
        }
    }
    if !sentence.is_empty() {
        sentence.push('.');
    }
    sentence
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_written_to_a_tenth() {
        for (number, text) in [
            (0.0, "0.0 mm"),
            (-0.04, "0.0 mm"),
            (-0.06, "-0.1 mm"),
            (38.04, "38.0 mm"),
            (1234.96, "1235.0 mm"),
            (-52.4, "-52.4 mm"),
            (1e15, "1000000000000000.0 mm"),
        ] {
            assert_eq!(mm(number), text);
        }
        assert_eq!(degrees(std::f64::consts::FRAC_PI_4), "45.0°");
    }

    #[test]
    fn rounding_up_suffices_and_keeps_round_numbers() {
        for (number, up) in [(107.508, 107.6), (40.0, 40.0), (40.000_000_1, 40.0), (0.0, 0.0), (-0.05, 0.0)] {
            assert_eq!(tenth_up(number), up);
        }
    }

    #[test]
    fn cures_make_one_sentence() {
        let cure = |label: &str| Cure { label: label.into(), edit: crate::Edit::SwapEnds, risk: String::new() };
        assert_eq!(cures_sentence(&[]), "");
        assert_eq!(cures_sentence(&[cure("Lengthen it"), cure("Take that")]), " Lengthen it, or take that.");
    }
}
