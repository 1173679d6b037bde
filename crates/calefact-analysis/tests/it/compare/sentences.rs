//! Verdicts in words.

use super::support::{Q, analysis, burn, comparison, contrast, exact, request, set, share};
use calefact_analysis::Quantity;
use calefact_analysis::result::{ContrastKind, TrialResult};
use calefact_analysis::settings::Combine;
use calefact_stats::UncertainValue;

fn stoves(box_mean: f64, rocket_mean: f64, sd: f64, n: usize) -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, mean) in [("box", box_mean), ("rocket", rocket_mean)] {
        for (i, x) in exact(n, mean, sd).into_iter().enumerate() {
            trials.push(burn(&format!("{stove}{i}"), x, &[("stove", stove), ("split", stove)]));
        }
    }
    trials
}

fn sentence(factor: &str, trials: Vec<TrialResult>, kind: ContrastKind) -> String {
    let mut asked = request(factor);
    asked.equivalence_margin = Some(0.1);
    contrast(&comparison(asked, trials), "box", "rocket", kind).sentence.clone()
}

#[test]
fn the_answer_comes_first() {
    let kind = ContrastKind::Difference;
    insta::assert_snapshot!(sentence("stove", stoves(0.33, 0.49, 0.04, 14), kind), @"The rocket stove turns more of the wood into hot water than the box stove: 49 % against 33 %, 16 points more (95 % interval 13 to 19), from 14 and 14 burns.");
    insta::assert_snapshot!(sentence("stove", stoves(0.33, 0.49, 0.04, 14), ContrastKind::Ratio), @"As a ratio: thermal efficiency of the box stove is 0.67 times that of the rocket stove (95 % interval 0.62 to 0.73), from 14 and 14 burns.");
    insta::assert_snapshot!(sentence("split", stoves(0.49, 0.33, 0.04, 5), kind), @"`split` box turns more of the wood into hot water than `split` rocket: 49 % against 33 %, 16 points more (95 % interval 10 to 22), from 5 and 5 burns.");
    insta::assert_snapshot!(sentence("stove", stoves(0.40, 0.43, 0.03, 4), kind), @"No conclusion on thermal efficiency of the rocket stove and the box stove: 43 % against 40 %, but the difference of 3 points may lie anywhere from -2 to 8 (95 % interval), from 4 and 4 burns; if it is real, about 13 more burns of each would probably show it.");
    insta::assert_snapshot!(sentence("stove", stoves(0.40, 0.402, 0.03, 30), kind), @"The rocket stove and the box stove are alike in thermal efficiency to within 10 % of the larger (two one-sided tests): 40.2 % against 40.0 %, a difference of 0.2 points (95 % interval -1.4 to 1.8), from 30 and 30 burns.");
    insta::assert_snapshot!(sentence("stove", stoves(0.40, 0.401, 0.10, 3), kind), @"No conclusion on thermal efficiency of the rocket stove and the box stove: 40 % against 40 %, but the difference of 0 points may lie anywhere from -23 to 23 (95 % interval), from 3 and 3 burns; a difference of this size would take more than 60 further burns of each.");
}

#[test]
fn less_is_better_where_less_is_wanted() {
    let mut trials = stoves(0.62, 0.43, 0.05, 6);
    for trial in &mut trials {
        let value = trial.get(Q).unwrap().traced.value;
        set(trial, Quantity::FuelPerHeat, UncertainValue::new(value, format!("own:{}", trial.row.trial), 0.01));
    }
    let mut asked = request("stove");
    asked.quantities = vec![Quantity::FuelPerHeat];
    insta::assert_snapshot!(comparison(asked, trials).contrasts[0].sentence, @"The rocket stove needs less wood per kWh of heat than the box stove: 0.43 kg/kWh against 0.62 kg/kWh, 0.19 kg/kWh less (95 % interval 0.13 to 0.25), from 6 and 6 burns.");
}

/// Two fuels, each with a calorific value of its own: that error does not cancel.
#[test]
fn what_more_burns_cannot_settle_is_said() {
    let mut trials: Vec<TrialResult> = Vec::new();
    for (fuel, mean) in [("oak", 0.40), ("pine", 0.43)] {
        for (i, x) in exact(6, mean, 0.01).into_iter().enumerate() {
            trials.push(burn(&format!("{fuel}{i}"), x, &[("fuel", fuel)]));
        }
    }
    let (oak, pine) = trials.split_at_mut(6);
    share(oak, "calorific value of oak", |x| 0.05 * x);
    share(pine, "calorific value of pine", |x| 0.06 * x);
    share(&mut trials, "instrument:scale:gain", |x| 0.002 * x);
    let result = analysis(request("fuel"), Combine::Mean, trials);
    insta::assert_snapshot!(result.comparisons[0].contrasts[0].sentence, @"No conclusion on thermal efficiency of pine and oak: 43 % against 40 %, but the difference of 3 points may lie anywhere from -3 to 9 (95 % interval), from 6 and 6 burns; more burns would not settle it, because the error of the calorific value of pine stays.");
    insta::assert_snapshot!(result.advice.join("\n"), @r"
    Fuel, thermal efficiency: more burns would hardly help, their scatter is 3 % of the variance; half the error of the calorific value of pine (49 % of the variance) would make the intervals of the means 20 % narrower
    A better hanging scale would not help thermal efficiency noticeably
    ");
}
