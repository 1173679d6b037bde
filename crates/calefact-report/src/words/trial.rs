//! Findings about trials in words, and how well the heat-balance model fits.

use super::{Message, Wording, implausible, tolerance};
use calefact_analysis::fact::TrialFact;
use calefact_analysis::fact::trial::{BurnEnd, Closure, ClosureSides, EndPoint, Supply};
use calefact_analysis::result::FitQuality;

/// The words of a fact about a trial.
pub(super) fn message(w: &Wording<'_>, fact: &TrialFact) -> Message {
    Message { text: text(w, fact), action: action(fact).map(Into::into), hint: hint(w, fact) }
}

fn text(w: &Wording<'_>, fact: &TrialFact) -> String {
    match fact {
        TrialFact::NoTankReading => "the log has no tank temperature that can be read".to_owned(),
        TrialFact::WindowNotReached { edge_degc } => {
            format!("the tank never rises through {}, an edge of the window", w.temperature(*edge_degc, 1))
        }
        TrialFact::TargetNotReached { target_degc } => {
            format!("the tank never reaches the target of {}", w.temperature(*target_degc, 1))
        }
        TrialFact::NoFireOut => {
            "no `event` of the log says `fire out`, which the pipeline takes as the end of a burn".to_owned()
        }
        TrialFact::Misfit(fit) => {
            format!("constant heat flow and constant loss do not describe the log: {}", residuals(w, fit))
        }
        TrialFact::Excluded { reason } => format!("the register leaves the trial out of comparisons: {reason}"),
        TrialFact::EndOfTrial { taken, others } => end_of_trial(w, taken, others),
        TrialFact::TankLayered { difference_k, at_s } => format!(
            "the tank probe and the probe at the coil's inlet differ by {} over a quarter of the log around {}; one probe does not show the mean of the tank",
            w.temperature_difference(*difference_k, 1),
            w.minutes(*at_s)
        ),
        TrialFact::ToleranceMissing { columns } => tolerance::missing(w, columns),
        TrialFact::ToleranceAssumed { columns } => tolerance::assumed(w, columns),
        _ => impossible(w, fact),
    }
}

/// Results that nature forbids, and heat flows that do not agree.
fn impossible(w: &Wording<'_>, fact: &TrialFact) -> String {
    match fact {
        TrialFact::AboveBoiling { highest_degc, at_s, boiling_degc, altitude_m } => format!(
            "the tank reads {} at {}, but water boils at {} {}",
            w.temperature(*highest_degc, 1),
            w.minutes(*at_s),
            w.temperature(*boiling_degc, 1),
            w.altitude(*altitude_m)
        ),
        TrialFact::HeatAboveSupply { supply, ratio, .. } => {
            let supply = match supply {
                Supply::Fuel => "the energy of the fuel; no stove makes heat from nothing",
                Supply::Electricity => "the metered electricity",
            };
            format!("the heat found is {} of {supply}", w.percent(*ratio))
        }
        TrialFact::CharShare { share, impossible } => implausible::char_share(w, *share, *impossible),
        TrialFact::Implausible { results, .. } => implausible::text(w, results),
        TrialFact::NoFuelEnergy { energy_mj } => {
            format!("the energy of the fuel less that of what was left comes to {}", w.energy(*energy_mj))
        }
        TrialFact::NotWarmed { stored_mj } => {
            format!("the water did not get warmer: it took up {}", w.energy(*stored_mj))
        }
        TrialFact::BalanceAboveFuel { excess, std_uncertainty } => format!(
            "the energy balance finds {} more energy than the fuel had; two standard uncertainties are {}",
            w.percent(*excess),
            w.percent(2.0 * std_uncertainty)
        ),
        TrialFact::BalanceUnexplained { share } => {
            format!("{} of the fuel's energy is in no term of the energy balance", w.percent(*share))
        }
        TrialFact::Closure(closure) => agreement(w, closure),
        TrialFact::EffectivenessImpossible { value, steady, .. } => format!(
            "the exchanger's effectiveness comes to {}, outside 0 to 1; {}",
            w.typography.fixed(*value, 2),
            w.steady_part(*steady)
        ),
        TrialFact::FlueProbesSwapped { before_degc, after_degc } => format!(
            "the flue gas reads {} before the exchanger and {} after it",
            w.temperature(*before_degc, 0),
            w.temperature(*after_degc, 0)
        ),
        _ => "the vessel does not cool towards the air in this standing-loss trial".to_owned(),
    }
}

fn end_of_trial(w: &Wording<'_>, taken: &EndPoint, others: &[(EndPoint, f64)]) -> String {
    let point = |p: &EndPoint| {
        let name = match p.end {
            BurnEnd::FireOut => "fire out",
            BurnEnd::Peak => "the peak",
            BurnEnd::LastReading => "the last reading",
        };
        format!("{name} ({}, {})", w.temperature(p.tank_degc, 1), w.minutes(p.at_s))
    };
    let other = |(p, change): &(EndPoint, f64)| {
        let verb = if *change < 0.0 { "lower" } else { "raise" };
        let points = w.typography.join(&w.typography.fixed(100.0 * change.abs(), 1), "percentage points");
        format!("ending it at {} would {verb} the efficiency by {points}", point(p))
    };
    let others: Vec<String> = others.iter().map(other).collect();
    format!("the burn ends at {}; {}", point(taken), others.join("; "))
}

/// Two ways to one heat flow.
fn agreement(w: &Wording<'_>, closure: &Closure) -> String {
    let sides = match closure.sides {
        ClosureSides::CoilAndTank => {
            "heat taken in the coil (flow and rise) over heat into the tank (storage and loss)"
        }
        ClosureSides::GasAndWater => {
            "heat given up by the gas (analysis, burn rate and fall) over heat taken by the water"
        }
    };
    let percent = |x: f64| w.typography.join(&w.typography.fixed(100.0 * x, 1), "%");
    let off = closure.ratio - 1.0;
    format!(
        "{}{sides}: {}, {}{} (two standard uncertainties: {}); {}",
        if closure.agrees() { "" } else { "two ways to one heat flow do not agree: " },
        w.typography.fixed(closure.ratio, 2),
        if off < 0.0 { "" } else { "+" },
        percent(off),
        percent(2.0 * closure.std_uncertainty),
        w.steady_part(closure.steady)
    )
}

/// How well the heat-balance model fits, for tables.
pub(crate) fn fit(w: &Wording<'_>, fit: &FitQuality) -> String {
    if fit.residual_sd_k.is_nan() {
        return "as many parameters as readings: the fit cannot be judged".to_owned();
    }
    let verdict = match (fit.fits, fit.wanders) {
        (true, false) => "fits",
        (true, true) => "fits well enough for a mean",
        (false, true) => "does not fit, the heat flow is not constant",
        (false, false) => "fits poorly",
    };
    format!("{verdict}: {}", residuals(w, fit))
}

fn residuals(w: &Wording<'_>, fit: &FitQuality) -> String {
    let share = w.typography.join(&w.typography.fixed(100.0 * fit.share_of_range, 1), "%");
    let pattern = match (fit.fits, fit.wanders) {
        (_, true) => ", which wander",
        (true, false) => ", without pattern",
        (false, false) => "",
    };
    format!("residuals of {}, {share} of the range{pattern}", w.temperature_difference(fit.residual_sd_k, 2))
}

const LEFT_OUT: &str = "trial left out of comparisons";

const fn action(fact: &TrialFact) -> Option<&'static str> {
    match fact {
        TrialFact::NoTankReading
        | TrialFact::WindowNotReached { .. }
        | TrialFact::TargetNotReached { .. }
        | TrialFact::NoFireOut => Some("trial left out"),
        TrialFact::AboveBoiling { .. }
        | TrialFact::HeatAboveSupply { .. }
        | TrialFact::CharShare { impossible: true, .. }
        | TrialFact::NoFuelEnergy { .. }
        | TrialFact::NotWarmed { .. }
        | TrialFact::FlueProbesSwapped { .. }
        | TrialFact::EffectivenessImpossible { beyond_doubt: true, .. } => Some(LEFT_OUT),
        TrialFact::EffectivenessImpossible { .. } => Some("effectiveness and conductance left empty"),
        TrialFact::Implausible { .. } | TrialFact::CharShare { .. } => Some("results kept"),
        TrialFact::LossNotPositive => Some("trial left out of the pooled loss coefficient"),
        TrialFact::Misfit(_) => Some(
            "mean heat flow given instead, with a wider uncertainty; heating rate taken from the readings around its temperature",
        ),
        _ => None,
    }
}

fn hint(w: &Wording<'_>, fact: &TrialFact) -> Option<String> {
    let hint = match fact {
        TrialFact::WindowNotReached { .. } => {
            "choose a window inside the range that all logs cover, or leave this trial out with a reason in `exclude`"
        }
        TrialFact::TargetNotReached { .. } => {
            "choose a target that all burns reach, or end burns at `fire out`, the peak or the last reading"
        }
        TrialFact::NoFireOut => {
            "write `fire out` into the `event` column, or set `end = \"peak\"` or `end = \"last reading\"` in the pipeline"
        }
        TrialFact::AboveBoiling { .. } => {
            "check the unit of the tank column, the probe and the altitude of the site; never heat a closed vessel"
        }
        TrialFact::HeatAboveSupply { slips, .. } | TrialFact::Implausible { slips, .. } if !slips.is_empty() => {
            return implausible::hint(w, slips);
        }
        TrialFact::CharShare { .. } => "check `leftover_char` and `fuel_mass`, their units and decimal marks",
        TrialFact::Implausible { .. } => {
            "check fuel mass, water, times and temperatures, their units and decimal marks"
        }
        TrialFact::HeatAboveSupply { supply: Supply::Fuel, .. } => {
            "check fuel mass and its unit, leftovers, moisture and its basis, and the amount of water"
        }
        TrialFact::HeatAboveSupply { .. } => "check the heater's power and the amount of water",
        TrialFact::NoFuelEnergy { .. } | TrialFact::NotWarmed { .. } => {
            "check the kind of trial, the weighings and the tank column"
        }
        TrialFact::LossNotPositive => "check that no heat was going in and that the air was colder than the tank",
        TrialFact::TankLayered { .. } => {
            "stir the tank before the first and the last reading, or read it at several heights"
        }
        TrialFact::BalanceAboveFuel { .. } => {
            "check the weighings and the moisture, the flue probes, and whether the burn rate can be right"
        }
        TrialFact::BalanceUnexplained { .. } => {
            "possible causes: the stove heats its room much; unburnt gas; air through the stove after the fire; the flue probe reads low"
        }
        TrialFact::Closure(closure) if !closure.agrees() => {
            "check flow, probes and where they sit; careful benches agree within 1 to 12 %"
        }
        TrialFact::EffectivenessImpossible { .. } => {
            "check the flue probes, their units and places: the gas cannot leave colder than the water enters"
        }
        TrialFact::FlueProbesSwapped { .. } => return Some(swapped_hint(w)),
        TrialFact::ToleranceMissing { .. } | TrialFact::ToleranceAssumed { .. } => {
            "add an entry under [instruments] that `reads` the column, with the `tolerance` that its sheet gives"
        }
        _ => return None,
    };
    Some(hint.to_owned())
}

fn swapped_hint(w: &Wording<'_>) -> String {
    format!("check whether {} and {} are swapped in the columns", w.column("flue_before"), w.column("flue_after"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_analysis::phases::SteadyPart;

    const MISFIT: FitQuality = FitQuality {
        n: 5,
        residual_sd_k: 4.078,
        share_of_range: 0.0988,
        lag_one: None,
        pattern_p: None,
        wanders: false,
        fits: false,
    };

    fn words(fact: &TrialFact) -> String {
        message(&Wording::plain(), fact).text
    }

    #[test]
    fn what_is_impossible_is_said_with_its_numbers() {
        let steady = Some(SteadyPart { start_s: 360.0, end_s: 6180.0, certain: true });
        let closure = |sides, ratio| TrialFact::Closure(Closure { sides, ratio, std_uncertainty: 0.0245, steady });
        let table = [
            (
                TrialFact::AboveBoiling {
                    highest_degc: 104.2,
                    at_s: 5280.0,
                    boiling_degc: 97.83,
                    altitude_m: Some(640.0),
                },
                "the tank reads 104.2 degC at 88 min, but water boils at 97.8 degC at 640 m",
            ),
            (
                TrialFact::HeatAboveSupply { supply: Supply::Electricity, ratio: 1.304, slips: Vec::new() },
                "the heat found is 130 % of the metered electricity",
            ),
            (
                TrialFact::CharShare { share: 0.87, impossible: true },
                "the char left is worth 87 % of the energy of the wood burnt; no fire leaves so much",
            ),
            (TrialFact::NotWarmed { stored_mj: -0.5 }, "the water did not get warmer: it took up -0.5 MJ"),
            (
                TrialFact::NoFuelEnergy { energy_mj: -1.25 },
                "the energy of the fuel less that of what was left comes to -1.25 MJ",
            ),
            (
                TrialFact::BalanceAboveFuel { excess: 0.12, std_uncertainty: 0.04 },
                "the energy balance finds 12 % more energy than the fuel had; two standard uncertainties are 8 %",
            ),
            (
                closure(ClosureSides::CoilAndTank, 1.0163),
                "heat taken in the coil (flow and rise) over heat into the tank (storage and loss): 1.02, +1.6 % (two standard uncertainties: 4.9 %); steady part, 6 to 103 min",
            ),
            (
                closure(ClosureSides::GasAndWater, 0.9),
                "two ways to one heat flow do not agree: heat given up by the gas (analysis, burn rate and fall) over heat taken by the water: 0.90, -10.0 % (two standard uncertainties: 4.9 %); steady part, 6 to 103 min",
            ),
            (
                TrialFact::FlueProbesSwapped { before_degc: 200.0, after_degc: 400.0 },
                "the flue gas reads 200 degC before the exchanger and 400 degC after it",
            ),
        ];
        for (fact, text) in table {
            assert_eq!(words(&fact), text);
        }
    }

    #[test]
    fn choices_and_windows_in_words() {
        let point = |end, tank_degc, at_s| EndPoint { end, tank_degc, at_s };
        let others = vec![(point(BurnEnd::FireOut, 51.5, 6420.0), -0.0049)];
        let end = TrialFact::EndOfTrial { taken: point(BurnEnd::LastReading, 51.7, 7440.0), others };
        assert_eq!(
            words(&end),
            "the burn ends at the last reading (51.7 degC, 124 min); ending it at fire out (51.5 degC, 107 min) would lower the efficiency by 0.5 percentage points"
        );
        let window = message(&Wording::plain(), &TrialFact::WindowNotReached { edge_degc: 60.0 });
        assert_eq!(window.text, "the tank never rises through 60.0 degC, an edge of the window");
        assert_eq!(window.action.as_deref(), Some("trial left out"));
    }

    #[test]
    fn fits_in_words() {
        let w = Wording::plain();
        assert_eq!(fit(&w, &MISFIT), "fits poorly: residuals of 4.08 K, 9.9 % of the range");
        assert_eq!(
            words(&TrialFact::Misfit(MISFIT)),
            "constant heat flow and constant loss do not describe the log: residuals of 4.08 K, 9.9 % of the range"
        );
        let good = FitQuality { residual_sd_k: 0.06, share_of_range: 0.001, fits: true, ..MISFIT };
        assert_eq!(fit(&w, &good), "fits: residuals of 0.06 K, 0.1 % of the range, without pattern");
        let wandering = FitQuality { wanders: true, ..good };
        assert_eq!(
            fit(&w, &wandering),
            "fits well enough for a mean: residuals of 0.06 K, 0.1 % of the range, which wander"
        );
        let none = FitQuality { residual_sd_k: f64::NAN, ..MISFIT };
        assert_eq!(fit(&w, &none), "as many parameters as readings: the fit cannot be judged");
    }
}
