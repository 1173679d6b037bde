//! Errors that trials share: they stay in a mean and cancel in a contrast where they should.
//!
//! Closed forms: A = 1.250, s = 0.050, n = 5; B = 1.000, s = 0.040, n = 5; one instrument with gain error u_g = 0.020 and
//! offset u_b = 0.030, reading = true (1 + g) + b.

use super::support::{Q, analysis, burn, close, comparison, contrast, exact, group, request, set, share};
use calefact_analysis::Quantity;
use calefact_analysis::fact::{AssumedInput, Lack};
use calefact_analysis::result::{ContrastKind, Method, Missing, Remark, TrialResult};
use calefact_analysis::settings::Combine;
use calefact_stats::UncertainValue;

fn two_groups() -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, n, mean, sd) in [("a", 5, 1.25, 0.05), ("b", 5, 1.0, 0.04)] {
        for (i, x) in exact(n, mean, sd).into_iter().enumerate() {
            trials.push(burn(&format!("{stove}{i}"), x, &[("stove", stove)]));
        }
    }
    trials
}

#[test]
fn an_offset_cancels_in_a_difference_and_a_gain_in_a_ratio() {
    for (offset, gain, difference, ratio) in [
        (true, false, 0.028_635_642_13, 0.0325),
        (false, true, 0.029_068_883_71, 0.031_622_776_60),
        (true, true, 0.029_068_883_71, 0.0325),
    ] {
        let mut trials = two_groups();
        if offset {
            share(&mut trials, "offset", |_| 0.03);
        }
        if gain {
            share(&mut trials, "gain", |x| 0.02 * x);
        }
        let result = comparison(request("stove"), trials);
        let u = |kind| contrast(&result, "a", "b", kind).estimate.std_uncertainty;
        close(u(ContrastKind::Difference), difference, 1e-11);
        close(u(ContrastKind::Ratio), ratio, 1e-11);
        let square = 0.05f64.powi(2) / 5.0
            + if offset { 0.03f64.powi(2) } else { 0.0 }
            + if gain { (1.25 * 0.02f64).powi(2) } else { 0.0 };
        close(group(&result, "a").mean.std_uncertainty, square.sqrt(), 1e-12);
    }
}

/// By the model the same holds: its weights of a mean add up to one, those of a difference to nothing.
#[test]
fn the_model_keeps_a_shared_error_in_a_mean_and_not_in_a_difference() {
    let make = || -> Vec<TrialResult> {
        (0..16)
            .map(|i| {
                let (stove, s) = if i % 2 == 0 { ("a", 0.1) } else { ("b", 0.0) };
                let day = ["mon", "tue", "wed", "thu", "fri"][i % 5];
                let x = 0.4 + s + 0.01 * ((i * 5 % 7) as f64) + 0.02 * (i % 5) as f64;
                burn(&format!("t{i}"), x, &[("stove", stove), ("block", day)])
            })
            .collect()
    };
    let mut asked = request("stove");
    asked.block = Some("block".into());
    let plain = comparison(asked.clone(), make());
    let mut trials = make();
    share(&mut trials, "offset", |_| 0.03);
    let biased = comparison(asked, trials);
    let kind = ContrastKind::Difference;
    let (x, y) = (contrast(&plain, "a", "b", kind), contrast(&biased, "a", "b", kind));
    close(y.estimate.std_uncertainty, x.estimate.std_uncertainty, 1e-12);
    close(y.estimate.interval.upper, x.estimate.interval.upper, 1e-9);
    let (u, v) = (group(&plain, "a").mean.std_uncertainty, group(&biased, "a").mean.std_uncertainty);
    close(v * v - u * u, 0.0009, 1e-12);
    let part = group(&biased, "a").traced.parts.iter().find(|(s, _)| s.as_ref() == "offset").unwrap().1;
    close(part, 0.03, 1e-12);
    let scatter = group(&biased, "a").traced.parts.iter().find(|(s, _)| s.starts_with("scatter:")).unwrap().1;
    close(scatter, u, 1e-12);
}

/// y = 1.02, .97, 1.05 with own u = .03, .04, .05: the random-effects variance is zero by both estimators (Q = 1.69 on 2),
/// so the mean is 1.01098829649, the inverse-variance mean, where the plain mean is 1.01333.
#[test]
fn random_effects_are_at_hand_for_trials_of_unequal_precision() {
    let make = || -> Vec<TrialResult> {
        [(1.02, 0.03), (0.97, 0.04), (1.05, 0.05)]
            .iter()
            .enumerate()
            .map(|(i, &(y, u))| {
                let mut trial = burn(&format!("t{i}"), y, &[("stove", "a")]);
                set(&mut trial, Q, UncertainValue::new(y, format!("own:t{i}"), u));
                trial
            })
            .collect()
    };
    for combine in [Combine::Reml, Combine::PauleMandel] {
        let mut result = analysis(request("stove"), combine, make());
        let g = result.comparisons.remove(0).groups.remove(0);
        close(g.mean.value, 1.010_988_296_49, 1e-9);
        close(g.between_sd.unwrap(), 0.0, 1e-9);
        assert!(g.between_sd_interval.unwrap().upper > 0.1 && matches!(g.method, Method::Reml | Method::PauleMandel));
    }
    let two = analysis(request("stove"), Combine::Reml, make().drain(..2).collect());
    let g = &two.comparisons[0].groups[0];
    close(g.mean.value, 0.995, 1e-12);
    assert_eq!((g.mean.dof, &g.method), (1.0, &Method::TwoTrials));
}

/// Pooled scatter of a and b: s^2 = (4 x 0.05^2 + 4 x 0.04^2) / 8 with 8 degrees of freedom; t(.975; 8) = 2.3060.
#[test]
fn a_level_of_one_trial_has_the_scatter_of_the_others() {
    let mut trials = two_groups();
    trials.push(burn("c0", 0.5, &[("stove", "c")]));
    let result = comparison(request("stove"), trials);
    let single = group(&result, "c");
    let scatter = (0.0164f64 / 8.0).sqrt();
    close(single.mean.std_uncertainty, libm::hypot(scatter, 0.001), 1e-12);
    assert!((7.99..8.01).contains(&single.mean.dof) && single.method == Method::BorrowedScatter, "{single:?}");
    close(single.mean.interval.upper, 0.5 + 2.3060 * scatter, 2e-4);
    let alone = comparison(request("stove"), vec![burn("c0", 0.5, &[("stove", "c")])]);
    assert!(group(&alone, "c").is_one_trial() && !group(&result, "c").is_one_trial());
    close(group(&alone, "c").mean.std_uncertainty, 0.001, 1e-12);
}

/// Two burns by hand and one by a logger: what few readings leave open is a part of the value of the first two.
#[test]
fn logs_of_two_kinds_in_one_comparison_are_remarked() {
    let made = [(0.30, "a"), (0.31, "b"), (0.33, "a")].into_iter().enumerate();
    let mut trials: Vec<TrialResult> =
        made.map(|(i, (value, stove))| burn(&format!("t{i}"), value, &[("stove", stove)])).collect();
    share(&mut trials[..2], "few-readings:a:course", |_| 0.01);
    let remarks = comparison(request("stove"), trials.clone()).remarks;
    assert!(remarks.contains(&Remark::FewReadings { quantities: vec![Q], few: 2, of: 3 }), "{remarks:?}");
    let alike = comparison(request("stove"), trials.drain(..2).collect()).remarks;
    assert!(!alike.iter().any(|r| matches!(r, Remark::FewReadings { .. })), "{alike:?}");
}

/// A conductance that one burn lacks because its effectiveness is as high as it can be.
#[test]
fn a_quantity_left_out_on_one_side_is_remarked() {
    let mut trials = two_groups();
    let lacks = vec![Lack::Transfer { effectiveness: 1.02 }];
    trials[0].missing.push(Missing { quantity: Quantity::ExchangerConductance, lacks });
    let lacking = trials[0].row.trial.clone();
    let remarks = comparison(request("stove"), trials).remarks;
    let quantity = Quantity::ExchangerConductance;
    assert!(remarks.contains(&Remark::OneSided { quantity, trials: vec![lacking] }), "{remarks:?}");
}

/// Four burns with a scatter of 0.01 of their mean, 0.03 from leftovers and 0.02 from kindling that nobody weighed. Weighed, a tenth
/// of each error is left, so 0.99 of its share of the variance of 14e-4 goes.
#[test]
fn recording_an_input_narrows_a_mean_by_its_share() {
    let values = exact(4, 0.3, 0.02).into_iter().enumerate();
    let mut trials: Vec<TrialResult> = values.map(|(i, x)| burn(&format!("b{i}"), x, &[("stove", "box")])).collect();
    share(&mut trials, "assumed:leftover_fuel:box", |_| 0.03);
    share(&mut trials, "assumed:kindling_mass:yard", |_| 0.02);
    let record = analysis(request("stove"), Combine::Mean, trials).assumptions.record;
    let inputs: Vec<&[AssumedInput]> = record.iter().map(|r| &r.inputs[..]).collect();
    let (fuel, kindling) = (AssumedInput::LeftoverFuel, AssumedInput::KindlingMass);
    assert_eq!(inputs, [&[fuel][..], &[kindling], &[fuel, kindling]]);
    for (recording, share) in record.iter().zip([9.0 / 14.0, 4.0 / 14.0, 13.0 / 14.0]) {
        let left = (1.0_f64 - 0.99 * share).sqrt();
        let (mean, recorded) = (&recording.mean, &recording.recorded);
        close(mean.std_uncertainty, 14e-4_f64.sqrt(), 1e-9);
        close(recorded.value, 0.3, 1e-12);
        close(recorded.std_uncertainty, left * mean.std_uncertainty, 1e-9);
        close(recorded.interval.lower, 0.3 - left * (0.3 - mean.interval.lower), 1e-9);
        close(recorded.interval.upper, 0.3 + left * (mean.interval.upper - 0.3), 1e-9);
    }
}
