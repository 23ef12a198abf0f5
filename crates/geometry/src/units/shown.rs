//! A number as it is shown: so many decimals and its sign, printed in one go.

use std::fmt::{self, Write};

/// A number with so many decimals and a sign behind it, such as `12.5 mm`; never a negative zero, and a half
/// is rounded away from zero.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shown {
    before: &'static str,
    value: f64,
    decimals: usize,
    sign: &'static str,
}

/// Ten to the power of the decimals that are printed by way of whole numbers.
const POWERS: [f64; 7] = [1.0, 10.0, 100.0, 1e3, 1e4, 1e5, 1e6];

/// Beyond this whole numbers are no longer exact, and nobody reads the last digit.
const MOST: f64 = 1e15;

/// Room for the digits of a whole number below [`MOST`], the point and a minus.
const ROOM: usize = 24;

impl Shown {
    /// A number with so many decimals; the sign stands right behind it and brings its own space.
    pub const fn new(value: f64, decimals: usize, sign: &'static str) -> Self {
        Self { before: "", value, decimals, sign }
    }

    /// The same with a mark right before it.
    #[must_use]
    pub const fn behind(self, before: &'static str) -> Self {
        Self { before, ..self }
    }

    /// Whole steps of the last decimal, where they can be counted.
    fn steps(&self) -> Option<f64> {
        let steps = (self.value * POWERS.get(self.decimals)?).round();
        (steps.abs() < MOST).then_some(steps)
    }

    /// Written by way of whole numbers: a part with a finding at every bend prints hundreds of lengths on every
    /// step of a drag, and the general way is several times slower.
    fn write(&self, out: &mut impl Write) -> fmt::Result {
        out.write_str(self.before)?;
        let Some(steps) = self.steps() else {
            let text = format!("{:.*}", self.decimals, self.value);
            let is_zero = text.bytes().all(|byte| matches!(byte, b'-' | b'0' | b'.'));
            out.write_str(if is_zero { text.trim_start_matches('-') } else { &text })?;
            return out.write_str(self.sign);
        };
        let mut digits = [0; ROOM];
        let mut at = ROOM;
        let mut push = |byte| {
            at -= 1;
            digits[at] = byte;
        };
        let mut left = steps.abs() as u64;
        let mut written = 0;
        while left > 0 || written <= self.decimals {
            push(b'0' + (left % 10) as u8);
            left /= 10;
            written += 1;
            if written == self.decimals {
                push(b'.');
            }
        }
        if steps < 0.0 {
            push(b'-');
        }
        out.write_str(std::str::from_utf8(&digits[at..]).map_err(|_| fmt::Error)?)?;
        out.write_str(self.sign)
    }
}

impl fmt::Display for Shown {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if out.width().is_none() {
            return self.write(out);
        }
        let mut text = String::new();
        self.write(&mut text)?;
        out.pad(&text)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn numbers_by_hand() {
        for (value, decimals, text) in [
            (0.0, 1, "0.0"),
            (-0.04, 1, "0.0"),
            (-0.06, 1, "-0.1"),
            (38.04, 1, "38.0"),
            (1234.96, 1, "1235.0"),
            (-52.4, 1, "-52.4"),
            (0.05, 3, "0.050"),
            (7.0, 0, "7"),
            (-0.4, 0, "0"),
            (1e15, 1, "1000000000000000.0"),
            (-1e-9, 8, "0.00000000"),
            (f64::NAN, 1, "NaN"),
            (f64::INFINITY, 1, "inf"),
        ] {
            assert_eq!(Shown::new(value, decimals, "").to_string(), text, "{value}");
        }
        assert_eq!(format!("[{:>9}]", Shown::new(1.25, 2, " mm")), "[  1.25 mm]");
    }

    proptest! {
        #[test]
        fn as_the_general_way_prints_it(value in -1e7..1e7f64, decimals in 0..7usize) {
            let general: f64 = format!("{value:.decimals$}").parse().unwrap_or(f64::NAN);
            let text = Shown::new(value, decimals, "").to_string();
            let shown: f64 = text.parse().unwrap_or(f64::NAN);
            // At a half the two may go different ways, which is one step of the last decimal.
            let step = 10.0_f64.powi(-(decimals as i32));
            prop_assert!((shown - general).abs() < step * 1.001, "{text}");
            prop_assert!((shown - value).abs() <= step * 0.500_001 + 1e-9, "{text}");
            prop_assert_eq!(text.split_once('.').map_or(0, |(_, after)| after.len()), decimals);
        }
    }
}
