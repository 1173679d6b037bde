//! Verdicts on two levels against known truth, and what would settle those that are open.

use super::support::{Q, analysis, burn, close, comparison, contrast, exact, request, set, share};
use calefact_analysis::Quantity;
use calefact_analysis::fact::ErrorSource;
use calefact_analysis::result::{
    Advice, Contrast, ContrastKind, ErrorOrigin, RepeatBenefit, SampleSizeAdvice, Subject, TrialResult, VerdictKind,
};
use calefact_analysis::settings::Combine;
use calefact_stats::UncertainValue;

fn stoves(box_mean: f64, rocket_mean: f64, sd: f64, n: usize) -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, mean) in [("box", box_mean), ("rocket", rocket_mean)] {
        for (i, x) in exact(n, mean, sd).into_iter().enumerate() {
            trials.push(burn(&format!("{stove}{i}"), x, &[("stove", stove)]));
        }
    }
    trials
}

fn judged(trials: Vec<TrialResult>, kind: ContrastKind) -> Contrast {
    let mut asked = request("stove");
    asked.equivalence_margin = Some(0.1);
    contrast(&comparison(asked, trials), "box", "rocket", kind).clone()
}

/// t = difference / (sd sqrt(2 / n)) against Student's t with 2 (n - 1) degrees of freedom at 5 %: 10.6 of 26, 1.41 of 6,
/// 0.26 of 58, 0.01 of 4. The third has two one-sided tests at 0.042 / 0.0077 > 1.67, the fourth a scatter too large for them.
#[test]
fn four_verdicts() {
    let kind = ContrastKind::Difference;
    let clear = judged(stoves(0.33, 0.49, 0.04, 14), kind);
    assert_eq!((clear.verdict, clear.n, &clear.sample_size), (VerdictKind::Below, (14, 14), &None));
    close(clear.means.0, 0.33, 1e-12);
    close(clear.means.1, 0.49, 1e-12);
    assert_eq!(judged(stoves(0.49, 0.33, 0.04, 14), kind).verdict, VerdictKind::Above);
    let open = judged(stoves(0.40, 0.43, 0.03, 4), kind);
    assert_eq!(
        (open.verdict, open.sample_size),
        (VerdictKind::NoConclusion, Some(SampleSizeAdvice::Further { trials: 13, fewest: 1 }))
    );
    let alike = judged(stoves(0.40, 0.402, 0.03, 30), kind);
    assert_eq!((alike.verdict, alike.margin, alike.sample_size), (VerdictKind::Equivalent, Some(0.1), None));
    let hopeless = judged(stoves(0.40, 0.401, 0.10, 3), kind);
    assert_eq!(
        (hopeless.verdict, hopeless.sample_size),
        (VerdictKind::NoConclusion, Some(SampleSizeAdvice::MoreThan(60)))
    );
}

/// The margins of a ratio are 0.9 and 1 / 0.9 = 1.111. The ratio here is 1.05 with a relative uncertainty of sd / 0.4 x
/// sqrt(2 / 30), t = 1.67: the one-sided 95 % limit is 1.099 for the smaller scatter, 1.117 for the larger, and the mirror
/// images of both below one.
#[test]
fn a_ratio_is_alike_within_its_margin_only() {
    for (sd, verdict) in [(0.046, VerdictKind::Equivalent), (0.062, VerdictKind::NoConclusion)] {
        assert_eq!(judged(stoves(0.42, 0.40, sd, 30), ContrastKind::Ratio).verdict, verdict, "above one, sd {sd}");
        assert_eq!(judged(stoves(0.40, 0.42, sd, 30), ContrastKind::Ratio).verdict, verdict, "below one, sd {sd}");
    }
}

/// The margin of a difference is 0.1 of the larger mean, 0.042: 0.02 + 1.67 u is 0.039 for the smaller scatter, 0.046 for the
/// larger.
#[test]
fn a_difference_is_alike_within_its_margin_only() {
    for (sd, verdict) in [(0.044, VerdictKind::Equivalent), (0.060, VerdictKind::NoConclusion)] {
        assert_eq!(judged(stoves(0.42, 0.40, sd, 30), ContrastKind::Difference).verdict, verdict, "sd {sd}");
        assert_eq!(judged(stoves(0.40, 0.42, sd, 30), ContrastKind::Difference).verdict, verdict, "turned, sd {sd}");
    }
}

#[test]
fn costs_have_the_unit_of_the_quantity_where_no_fuel_has_a_price() {
    let mut trials = stoves(0.62, 0.43, 0.05, 6);
    for trial in &mut trials {
        let value = trial.get(Q).unwrap().traced.value;
        set(trial, Quantity::CostPerHeat, UncertainValue::new(value, format!("own:{}", trial.row.trial), 0.01));
    }
    let mut asked = request("stove");
    asked.quantities = vec![Quantity::CostPerHeat];
    let result = comparison(asked, trials);
    assert_eq!(result.groups[0].mean.unit, "1/kWh");
    let units: Vec<&str> = result.contrasts.iter().map(|c| c.estimate.unit.as_ref()).collect();
    assert_eq!(units, ["1/kWh", "1"]);
}

/// Two fuels, each with a calorific value of its own: that error does not cancel. u(pine) = 0.06 x 0.43 = 0.0258 and u(oak) =
/// 0.05 x 0.40 = 0.0200; the scatter of a mean is 0.01 / sqrt(6) and the scale 0.002 of the mean.
#[test]
fn an_error_that_more_burns_cannot_reduce_is_named() {
    let mut trials: Vec<TrialResult> = Vec::new();
    for (fuel, mean) in [("oak", 0.40), ("pine", 0.43)] {
        for (i, x) in exact(6, mean, 0.01).into_iter().enumerate() {
            trials.push(burn(&format!("{fuel}{i}"), x, &[("fuel", fuel)]));
        }
    }
    let (oak, pine) = trials.split_at_mut(6);
    share(oak, "fuel:oak:net-calorific-value", |x| 0.05 * x);
    share(pine, "fuel:pine:net-calorific-value", |x| 0.06 * x);
    share(&mut trials, "instrument:scale:gain", |x| 0.002 * x);
    let result = analysis(request("fuel"), Combine::Mean, trials);
    let pine = ErrorOrigin::Input(ErrorSource::CalorificValue { fuel: "pine".into() });
    assert_eq!(result.comparisons[0].contrasts[0].sample_size, Some(SampleSizeAdvice::Never(pine.clone())));
    let [Advice::Narrow(narrow), negligible] = &result.advice[..] else { panic!("{:?}", result.advice) };
    assert_eq!((narrow.factor.as_str(), narrow.quantity, narrow.repeats), ("fuel", Q, RepeatBenefit::Little));
    // Of the difference: the scale's gain counts with the difference of the means only.
    let variance = 0.02 * 0.02 + 0.0258 * 0.0258 + 2e-4 / 6.0 + (0.002 * 0.03_f64).powi(2);
    assert_eq!(narrow.subject, Subject::Difference);
    close(narrow.scatter.unwrap(), 2e-4 / 6.0 / variance, 1e-9);
    let largest = narrow.largest.as_ref().unwrap();
    let share = 0.0258 * 0.0258 / variance;
    assert_eq!(largest.origin, pine);
    close(largest.share, share, 1e-9);
    close(largest.narrower, 1.0 - (1.0 - 0.75 * share).sqrt(), 1e-9);
    let instruments = vec![ErrorOrigin::Instrument("scale".into())];
    assert_eq!(negligible, &Advice::Negligible { quantity: Q, subject: Subject::Difference, instruments });
}

/// Scatter holds 2 x 0.01^2 / 6 of the variance of the difference, the error of one fuel the rest.
#[test]
fn advice_on_more_burns_follows_the_share_of_their_scatter() {
    let scatter = 2e-4_f64 / 6.0;
    let wanted = [
        (0.99, RepeatBenefit::Only),
        (0.8, RepeatBenefit::Most),
        (0.4, RepeatBenefit::Some),
        (0.1, RepeatBenefit::Little),
    ];
    for (scatter_share, repeats) in wanted {
        let mut trials = Vec::new();
        for (fuel, mean) in [("oak", 0.40), ("pine", 0.43)] {
            let values = exact(6, mean, 0.01).into_iter().enumerate();
            trials.extend(values.map(|(i, x)| burn(&format!("{fuel}{i}"), x, &[("fuel", fuel)])));
        }
        let error = (scatter * (1.0 / scatter_share - 1.0)).sqrt();
        share(&mut trials[..6], "fuel:oak:net-calorific-value", |_| error);
        let result = analysis(request("fuel"), Combine::Mean, trials);
        let Some(Advice::Narrow(narrow)) = result.advice.first() else { panic!("{:?}", result.advice) };
        close(narrow.scatter.unwrap(), scatter_share, 1e-9);
        assert_eq!(narrow.repeats, repeats, "{scatter_share}");
    }
}

/// Four burns of each stove and 6 degrees of freedom: t = 2.8 has p = 0.031. A quantity beside the main one is judged at the whole
/// level where the main one is settled, else at a part of it.
#[test]
fn a_settled_main_quantity_leaves_its_level_to_the_others() {
    for (main, wanted) in [(0.30, VerdictKind::Below), (0.40, VerdictKind::NoConclusion)] {
        let mut trials = stoves(main, 0.40, 0.01, 4);
        let second = [5.0, 5.0 + 2.8 * (2.0_f64 / 4.0).sqrt()].into_iter().flat_map(|mean| exact(4, mean, 1.0));
        for (trial, value) in trials.iter_mut().zip(second) {
            let own = format!("own:{}", trial.row.trial);
            set(trial, Quantity::HeatInput, UncertainValue::new(value, own, 1e-6));
        }
        let mut asked = request("stove");
        asked.quantities = vec![Q, Quantity::HeatInput];
        let result = comparison(asked, trials);
        let is_second = |c: &&Contrast| c.quantity == Quantity::HeatInput && c.kind == ContrastKind::Difference;
        let second = result.contrasts.iter().find(is_second).unwrap();
        close(second.p_value, 0.0311, 2e-4);
        assert_eq!(second.verdict, wanted, "main quantity {main} and 0.40");
    }
}
