//! Today's date, as a sheet prints it.

use std::time::{SystemTime, UNIX_EPOCH};

/// Today's date in UTC, as ISO 8601 writes it.
pub fn today() -> String {
    let seconds = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs());
    date((seconds / 86_400) as i64)
}

/// The date of a day counted from 1970-01-01, in the Gregorian calendar: 400 years have 146,097 days, and years are counted
/// from March, so that a leap day comes last.
fn date(day: i64) -> String {
    let from_march = day + 719_468;
    let (era, of_era) = (from_march.div_euclid(146_097), from_march.rem_euclid(146_097));
    let year_of_era = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let month_from_march = (5 * of_year + 2) / 153;
    let of_month = of_year - (153 * month_from_march + 2) / 5 + 1;
    let month = if month_from_march < 10 { month_from_march + 3 } else { month_from_march - 9 };
    let year = era * 400 + year_of_era + i64::from(month <= 2);
    format!("{year:04}-{month:02}-{of_month:02}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates_of_the_calendar() {
        // Days since 1970-01-01 as `date -u -d @SECONDS` counts them.
        for (day, wanted) in [(0, "1970-01-01"), (11_016, "2000-02-29"), (11_017, "2000-03-01"), (20_788, "2026-12-01")]
        {
            assert_eq!(date(day), wanted);
        }
    }
}
