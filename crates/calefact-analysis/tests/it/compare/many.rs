//! Thousands of burns and many levels: comparing them takes a moment, not minutes, and what is not done is told.

use super::support::{Q, analysis, burn, comparison, request, set, share};
use calefact_analysis::Quantity;
use calefact_analysis::result::{Remark, TrialResult};
use calefact_analysis::settings::Combine;
use calefact_stats::UncertainValue;

/// 4000 burns on 40 days with three levels of each factor and four quantities, adjusted and blocked: a dense covariance matrix
/// would need minutes.
#[test]
fn four_thousand_burns_are_compared() {
    let mut trials: Vec<TrialResult> = (0..4000_usize)
        .map(|i| {
            let (stove, fuel, day) = (["a", "b", "c"][i % 3], ["oak", "pine"][i / 3 % 2], (i / 100).to_string());
            let noise = ((i * 7919 % 1009) as f64 / 1009.0 - 0.5) * 0.1;
            burn(
                &format!("b{i}"),
                0.4 + 0.01 * (i % 3) as f64 + noise,
                &[("stove", stove), ("fuel", fuel), ("block", &day)],
            )
        })
        .collect();
    share(&mut trials, "scale", |x| 0.01 * x);
    let quantities = [Q, Quantity::FuelPerHeat, Quantity::HeatInput, Quantity::ReferenceTime];
    for trial in &mut trials {
        let traced = trial.get(Q).unwrap().traced.clone();
        for q in &quantities[1..] {
            set(trial, *q, UncertainValue { value: 2.0 * traced.value, parts: traced.parts.clone() });
        }
    }
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    asked.block = Some("block".into());
    asked.quantities = quantities.to_vec();
    let result = analysis(asked, Combine::Mean, trials);
    assert_eq!(result.comparisons[0].contrasts.len(), 24);
    assert!(result.comparisons[0].contrasts.iter().all(|c| c.estimate.dof > 100.0));
}

/// Two stoves and 76 crews make 152 combinations, more than a model takes; with 75 crews the interaction is tested.
#[test]
fn an_interaction_of_too_many_combinations_is_told() {
    let untested = |crews: usize| {
        let trials = (0..320_usize).map(|i| {
            let (stove, crew) = (["a", "b"][i % 2], (i / 2 % crews).to_string());
            burn(&format!("b{i}"), 0.4 + 0.001 * (i * 7919 % 101) as f64, &[("stove", stove), ("crew", &crew)])
        });
        let mut asked = request("stove");
        asked.adjust = vec!["crew".into()];
        let result = comparison(asked, trials.collect());
        let shown = result.remarks.iter().filter(|r| matches!(r, Remark::Interaction(_))).count();
        let tests = result.reassurances.len() + shown;
        let told = result.remarks.into_iter().filter(|r| matches!(r, Remark::InteractionUntested { .. }));
        (told.collect::<Vec<_>>(), tests)
    };
    let wanted = Remark::InteractionUntested {
        quantity: Q,
        factor: "stove".into(),
        other: "crew".into(),
        combinations: 152,
        most: 150,
    };
    assert_eq!(untested(76), (vec![wanted], 0));
    assert_eq!(untested(75), (Vec::new(), 1));
}
