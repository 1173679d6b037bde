//! Numbers a comparison can follow or hold constant: numeric register columns and conditions of the trial.

use crate::result::{Step, TrialSummary};

/// Value of a covariate for a trial: a condition of the reduction, or a register column that holds a number.
pub(crate) fn number(trial: &TrialSummary, name: &str) -> Option<f64> {
    trial.conditions.get(name).or_else(|| trial.level(name).and_then(parse))
}

/// A number as a register holds it: "12.5", "12,5", "40 %".
pub(crate) fn parse(text: &str) -> Option<f64> {
    let bare = text.trim().trim_end_matches('%').trim_end();
    bare.parse().or_else(|_| bare.replace(',', ".").parse()).ok().filter(|x: &f64| x.is_finite())
}

/// One step of a covariate, and its size in the covariate's own unit: a fraction is followed by percentage points.
pub(crate) fn step(name: &str) -> (Step, f64) {
    match name {
        "start_temperature" | "air_temperature" => (Step::Kelvin, 1.0),
        "fuel_moisture" => (Step::Point, 0.01),
        _ => (Step::Unit, 1.0),
    }
}

#[cfg(test)]
mod tests {
    use super::parse;

    #[test]
    fn registers_write_numbers_in_several_ways() {
        assert_eq!(
            [parse("12.5"), parse(" 12,5"), parse("40 %"), parse("half"), parse("")],
            [Some(12.5), Some(12.5), Some(40.0), None, None]
        );
    }
}
