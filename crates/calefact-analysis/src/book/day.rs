//! Dates of burns and the seasons that they lie in.

use crate::result::Period;
use jiff::civil::Date;

/// First month of a season: nobody heats in July north of the tropics. Common practice, no source.
const FIRST_MONTH: i8 = 7;

/// A date as 2025-03-31 and the year in which its season begins; none where the text is no date of the years 1900 to 2199.
pub fn season(text: &str) -> Option<(i16, String)> {
    let date: Date = text.trim().get(..10)?.parse().ok()?;
    let year = date.year();
    let begun = if date.month() < FIRST_MONTH { year - 1 } else { year };
    (1900..2200).contains(&year).then(|| (begun, date.to_string()))
}

/// When burns of these dates were.
pub(super) fn period<'d>(dates: impl Iterator<Item = Option<&'d str>>) -> Period {
    let mut period = Period::default();
    for date in dates {
        match date.and_then(season) {
            Some((begun, day)) => {
                period.seasons.insert(begun);
                period.last = period.last.take().max(Some(day));
            }
            None => period.undated += 1,
        }
    }
    period
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_season_runs_from_july_to_june() {
        let dates = ["2024-06-30", "2024-07-01", "2025-06-30", "2025-02-29", "spring", ""];
        let found = period(dates.iter().map(|d| Some(*d)).chain([None]));
        assert_eq!(found.seasons.iter().copied().collect::<Vec<_>>(), [2023, 2024]);
        assert_eq!((found.last.as_deref(), found.undated), (Some("2025-06-30"), 4));
    }
}
