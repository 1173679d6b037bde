//! An hour missing in the times of a clock whose time zone is not known: clocks may have gone forward.

const HOUR_S: f64 = 3600.0;
const DAY_S: f64 = 86_400.0;
/// Clocks go forward at night: from 00:00 to 03:00, by law or by habit of the country.
const NIGHT_S: f64 = 3.0 * HOUR_S;
/// Readings further apart than this show no missing hour, s.
const WIDEST_STEP_S: f64 = 1200.0;

/// Times of day, s, before and behind a step that is an hour longer than the others, at night and, where the day is known, on
/// a Sunday (clocks go forward on Sundays in Europe, the Americas and Australia).
pub(super) fn find(times: &[f64]) -> Option<(f64, f64)> {
    let pair = times.windows(2).find(|w| is_candidate(w[0], w[1] - w[0]))?;
    let mut steps: Vec<f64> = times.windows(2).map(|w| w[1] - w[0]).collect();
    steps.sort_by(f64::total_cmp);
    let usual = steps[(steps.len() - 1) / 2];
    let fits = usual <= WIDEST_STEP_S && pair[1] - pair[0] <= 2.0f64.mul_add(usual, HOUR_S);
    fits.then(|| (pair[0].rem_euclid(DAY_S), pair[1].rem_euclid(DAY_S)))
}

fn is_candidate(time: f64, step: f64) -> bool {
    let day = (time / DAY_S).floor();
    // Day 0 is 1970-01-01, a Thursday; small numbers count the days of a trial without a date.
    let is_sunday = day < 1000.0 || (day + 4.0).rem_euclid(7.0) == 0.0;
    (HOUR_S..2.0 * HOUR_S).contains(&step) && time.rem_euclid(DAY_S) < NIGHT_S && is_sunday
}

#[cfg(test)]
mod tests {
    use super::find;

    fn minutes(times: &[f64]) -> Option<(f64, f64)> {
        let times: Vec<f64> = times.iter().map(|t| t * 60.0).collect();
        find(&times).map(|(from, to)| (from / 60.0, to / 60.0))
    }

    #[test]
    fn an_hour_is_missing_at_night_only() {
        assert_eq!(minutes(&[100.0, 110.0, 180.0, 190.0]), Some((110.0, 180.0)));
        assert_eq!(minutes(&[700.0, 710.0, 780.0, 790.0]), None, "a pause at noon");
        assert_eq!(minutes(&[50.0, 110.0, 170.0]), None, "hourly readings");
        assert_eq!(minutes(&[100.0, 110.0, 218.0, 228.0]), None, "a longer pause");
        // 2026-03-29, a Sunday, is day 20541; the day before is none.
        let on = |day: f64| minutes(&[100.0, 110.0, 180.0, 190.0].map(|t| t + day * 1440.0)).is_some();
        assert_eq!([on(20541.0), on(20540.0)], [true, false]);
    }
}
