//! Comparisons by the model: published cases and known truths.

use super::support::{Q, analysis, burn, close, comparison, contrast, group, request};
use calefact_analysis::result::{
    Adjustment, BudgetOwner, Confounded, ContrastKind, Effect, NoAdjustment, Remark, Step, TrialResult, VerdictChange,
    VerdictKind,
};
use calefact_analysis::settings::Combine;
use calefact_stats::power::{Arm, Further, Goal, further_trials};
use calefact_stats::{ErrorSources, Shape, SourceInfo};

/// NIST/SEMATECH e-Handbook 7.4.3 and 7.4.7.1.
const HANDBOOK: [(&str, [f64; 5]); 4] = [
    ("g1", [6.9, 5.4, 5.8, 4.6, 4.0]),
    ("g2", [8.3, 6.8, 7.8, 9.2, 6.5]),
    ("g3", [8.0, 10.5, 8.1, 6.9, 9.3]),
    ("g4", [5.8, 3.8, 6.1, 5.6, 6.2]),
];

/// Pairs of trials with opposite residuals make blocks that do not differ, so that the model is one-way analysis of
/// variance: e-Handbook 7.4.7.1, intervals and p as recomputed with scipy.stats.tukey_hsd to nine digits.
#[test]
fn tukey_of_the_handbook() {
    let mut order: Vec<(f64, &str, f64)> =
        HANDBOOK.iter().flat_map(|(g, v)| v.iter().map(move |x| (x - v.iter().sum::<f64>() / 5.0, *g, *x))).collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut trials: Vec<TrialResult> = Vec::new();
    for (g, _) in HANDBOOK {
        for (i, (_, _, x)) in order.iter().enumerate().filter(|(_, t)| t.1 == g) {
            let day = format!("d{}", i.min(19 - i));
            trials.push(burn(&format!("{g}-{i}"), *x, &[("stove", g), ("block", &day)]));
        }
    }
    let mut asked = request("stove");
    asked.block = Some("block".into());
    let result = comparison(asked, trials);
    for (a, b, value, lower, upper, p) in [
        ("g1", "g2", -2.38, -4.467_368_39, -0.292_631_609, 0.022_793_38),
        ("g1", "g3", -3.22, -5.307_368_39, -1.132_631_61, 0.002_210_821_9),
        ("g1", "g4", -0.16, -2.247_368_39, 1.927_368_39, 0.996_121_08),
        ("g2", "g3", -0.84, -2.927_368_39, 1.247_368_39, 0.664_464_9),
        ("g2", "g4", 2.22, 0.132_631_609, 4.307_368_39, 0.035_154_479),
        ("g3", "g4", 3.06, 0.972_631_609, 5.147_368_39, 0.003_450_556_2),
    ] {
        let c = contrast(&result, a, b, ContrastKind::Difference);
        close(c.estimate.value, value, 1e-12);
        close(c.estimate.interval.lower, lower, 5e-6);
        close(c.estimate.interval.upper, upper, 5e-6);
        close(c.p_adjusted, p, 1e-6);
        close(c.estimate.dof, 16.0, 1e-6);
        assert_eq!(c.adjustment, Adjustment::TukeyKramer);
    }
    close(group(&result, "g1").between_sd.unwrap(), 1.330_75f64.sqrt(), 1e-9);
    // The next trial: mean -/+ t(0.975; 16) s sqrt(1 + 1/5), the usual formula (Montgomery 2013, Design and Analysis of Experiments).
    let next = group(&result, "g1").predict.unwrap();
    let half = 2.119_905_299 * (1.330_75f64 * 1.2).sqrt();
    close(next.lower, 5.34 - half, 1e-6);
    close(next.upper, 5.34 + half, 1e-6);
}

/// Scores by income and method, the ANCOVA example of the pingouin package; R and statsmodels agree: adjusted means with
/// standard errors, F = 29.41943844 and p = 6.36706e-06 of the covariate.
#[test]
fn analysis_of_covariance() {
    let data: [(&str, &[(f64, f64)]); 4] = [
        (
            "A",
            &[
                (12.0, 17.5),
                (39.0, 104.6),
                (36.0, 64.7),
                (17.0, 47.0),
                (25.0, 22.0),
                (15.0, 12.4),
                (8.0, 20.0),
                (31.0, 79.7),
            ],
        ),
        (
            "B",
            &[
                (45.0, 70.8),
                (37.0, 45.9),
                (13.0, 47.5),
                (50.0, 77.8),
                (35.0, 70.9),
                (40.0, 84.8),
                (33.0, 49.8),
                (17.0, 34.6),
            ],
        ),
        (
            "C",
            &[
                (20.0, 71.4),
                (42.0, 55.0),
                (31.0, 54.0),
                (24.0, 27.9),
                (15.0, 40.6),
                (13.0, 33.0),
                (9.0, 22.2),
                (21.0, 80.5),
                (31.0, 80.0),
                (13.0, 41.0),
            ],
        ),
        (
            "D",
            &[
                (12.0, 35.0),
                (10.0, 33.0),
                (19.0, 34.2),
                (18.0, 43.2),
                (14.0, 20.0),
                (8.0, 37.0),
                (7.0, 28.2),
                (19.0, 46.4),
                (25.0, 64.9),
                (26.0, 59.4),
            ],
        ),
    ];
    let mut trials = Vec::new();
    for (method, rows) in data {
        for (i, (score, income)) in rows.iter().enumerate() {
            trials.push(burn(&format!("{method}{i}"), *score, &[("method", method), ("income", &income.to_string())]));
        }
    }
    let mut asked = request("method");
    asked.covariates = vec!["income".into()];
    let result = comparison(asked, trials);
    for (level, mean, se) in [("A", 23.783_025_12, 2.675_661_48), ("D", 18.597_272_85, 2.443_538_89)] {
        let g = group(&result, level);
        close(g.mean.value, mean, 5e-8);
        close(g.mean.std_uncertainty, se, 5e-8);
        close(g.mean.dof, 31.0, 1e-6);
    }
    // Methods B and C scatter more than the others: they keep their own scatter, which is more than the source's common one.
    for (level, mean, se) in [("B", 30.053_840_52, 2.755_995_54), ("C", 21.333_234_64, 2.390_780_09)] {
        let g = group(&result, level);
        close(g.mean.value, mean, 5e-8);
        assert!(g.mean.std_uncertainty > 1.1 * se && g.mean.dof < 31.0, "{g:?}");
    }
    let trend = &result.trends[0];
    close((trend.estimate.value / trend.estimate.std_uncertainty).powi(2), 29.419_438_44, 5e-7);
    close(trend.p_value, 6.367_06e-6, 1e-10);
    assert!(trend.estimate.value > 0.0);
    let (from, to) = (VerdictKind::NoConclusion, VerdictKind::Above);
    let change = VerdictChange { quantity: Q, factor: "method".into(), a: "B".into(), b: "C".into(), from, to };
    let fragile = Remark::Fragile { trials: vec!["B2".into(), "C1".into()], change };
    assert!(result.remarks.contains(&fragile), "{:?}", result.remarks);
}

/// Stove, fuel and day effects crossed without balance: plain means mislead (all good-day burns are of one stove), the
/// model finds the truth, here to the size of the noise.
#[test]
fn an_unbalanced_crossed_design_gives_back_its_effects() {
    let mut trials = Vec::new();
    for i in 0..24_usize {
        let (stove, s) = if i % 3 == 0 { ("rocket", 0.15) } else { ("box", 0.0) };
        let (fuel, f) = if i % 6 < 3 || i % 5 == 0 { ("oak", 0.0) } else { ("pine", -0.10) };
        let (day, d) = [("mon", 0.02), ("tue", -0.01), ("wed", 0.03), ("thu", -0.04)][i % 4];
        let noise = 1e-4 * ((i * 37 % 11) as f64 - 5.0);
        trials.push(burn(
            &format!("b{i}"),
            0.4 + s + f + d + noise,
            &[("stove", stove), ("fuel", fuel), ("block", day)],
        ));
    }
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    asked.block = Some("block".into());
    let result = comparison(asked, trials);
    let c = contrast(&result, "rocket", "box", ContrastKind::Difference);
    close(c.estimate.value, 0.15, 1e-3);
    assert_eq!((c.verdict, c.adjustment), (VerdictKind::Above, Adjustment::TukeyKramer));
    assert!(c.estimate.interval.contains(0.15) && c.estimate.interval.half_width() < 1e-3, "{:?}", c.estimate);
    let [tested] = &result.reassurances[..] else { panic!("{:?}", result.reassurances) };
    assert_eq!((tested.factor.as_str(), tested.other.as_str(), tested.numerator_dof), ("stove", "fuel", 1.0));
    assert!(tested.p_value > 0.05, "{tested:?}");
    assert!(result.groups[0].predict.unwrap().half_width() > 0.03, "the day's scatter is in the next burn");
}

#[test]
fn what_is_confounded_is_said_and_not_adjusted() {
    let level = |i: usize| if i < 4 { ("box", "oak") } else { ("rocket", "pine") };
    let trials = (0..8).map(|i| {
        let (stove, fuel) = level(i);
        burn(&format!("b{i}"), 0.3 + 0.01 * i as f64, &[("stove", stove), ("fuel", fuel)])
    });
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    let result = comparison(asked, trials.collect());
    assert_eq!(result.contrasts[0].adjustment, Adjustment::Holm);
    let effect = |column: &str, level: &str| Effect { column: column.into(), level: Some(level.into()) };
    let confounded = Confounded { effect: effect("fuel", "pine"), with: vec![effect("stove", "rocket")] };
    let reason = NoAdjustment::Confounded(vec![confounded]);
    let remark = Remark::NotAdjusted { factor: "stove".into(), held: vec!["fuel".into()], reason };
    assert!(result.remarks.contains(&remark), "{:?}", result.remarks);
}

#[test]
fn a_factor_that_is_a_number_has_a_slope() {
    let trials = (0..12).map(|i| {
        let damper = [20, 40, 60, 80][i % 4];
        let value = 0.5 - 0.001 * f64::from(damper) + 1e-4 * ((i * 7 % 5) as f64 - 2.0);
        burn(&format!("b{i}"), value, &[("damper", &format!("{damper} %"))])
    });
    let result = comparison(request("damper"), trials.collect());
    assert!(result.contrasts.is_empty() && result.groups.len() == 4);
    let trend = &result.trends[0];
    close(trend.estimate.value, -0.001, 5e-6);
    assert_eq!((trend.quantity, trend.factor.as_str(), trend.n, trend.step), (Q, "damper", 12, Step::Unit));
    assert!(trend.estimate.interval.contains(-0.001) && trend.p_value < 1e-6);
}

#[test]
fn a_stove_that_is_better_with_one_fuel_only_is_pointed_out() {
    let trials = (0..16).map(|i| {
        let (stove, s) = if i % 2 == 0 { ("rocket", 0.0) } else { ("box", 1.0) };
        let (fuel, f) = if i % 4 < 2 { ("oak", 0.0) } else { ("pine", 1.0) };
        let noise = 0.004 * (f64::from(i * 5 % 7) - 3.0);
        burn(&format!("b{i}"), 0.5 - 0.05 * s + 0.12 * s * f + noise, &[("stove", stove), ("fuel", fuel)])
    });
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    let result = comparison(asked, trials.collect());
    let Remark::Interaction(found) = &result.remarks[0] else { panic!("{:?}", result.remarks) };
    assert!(found.other == "fuel" && found.p_value < 0.05, "{found:?}");
}

/// Efficiency falls by 0.8 points for each point of moisture, and the wetter wood went into the box stove: the bare
/// difference is 6.4 points too large, the adjusted one is right.
#[test]
fn a_condition_of_the_trial_can_be_held_constant() {
    let trials = (0..16).map(|i| {
        let (stove, s) = if i % 2 == 0 { ("rocket", 0.10) } else { ("box", 0.0) };
        let moisture = 0.12 + if i % 2 == 0 { 0.0 } else { 0.08 } + 0.005 * f64::from(i / 2);
        let noise = 1e-4 * (f64::from(i * 5 % 7) - 3.0);
        let mut trial = burn(&format!("b{i}"), 0.5 + s - 0.8 * moisture + noise, &[("stove", stove)]);
        trial.conditions.fuel_moisture = Some(moisture);
        trial
    });
    let mut asked = request("stove");
    asked.covariates = vec!["fuel_moisture".into(), "air_temperature".into()];
    let result = comparison(asked, trials.collect());
    let c = contrast(&result, "rocket", "box", ContrastKind::Difference);
    close(c.estimate.value, 0.10, 1e-3);
    close(result.trends[0].estimate.value, -0.008, 1e-4);
    assert_eq!((result.trends.len(), result.trends[0].step), (1, Step::Point));
    assert_eq!(result.remarks[0], Remark::ColumnEmpty("air_temperature".into()));
}

/// A level of one trial has a marginal mean: its budget is that of the mean, scatter of all trials among it, not the trial's.
#[test]
fn the_budget_of_a_level_of_one_trial_is_that_of_its_mean() {
    let trials = (0..12).map(|i| {
        let operator = if i == 5 { "solo" } else { "crew" };
        let stove = if i % 2 == 0 { "rocket" } else { "box" };
        let value = 0.4 + 0.02 * f64::from(i * 5 % 7);
        burn(&format!("b{i}"), value, &[("hand", operator), ("stove", stove)])
    });
    let mut asked = request("hand");
    asked.adjust = vec!["stove".into()];
    let result = analysis(asked, Combine::Mean, trials.collect());
    let solo = group(&result.comparisons[0], "solo");
    assert_eq!(solo.trials.len(), 1);
    let owner = BudgetOwner::Group { comparison: 0, levels: solo.levels.clone() };
    let parts: f64 = result.budget.iter().filter(|r| r.owner == owner).map(|r| r.contribution * r.contribution).sum();
    close(parts.sqrt() / solo.mean.std_uncertainty, 1.0, 1e-9);
}

/// Two stoves, two fuels, three burns of each: the residuals -e, 0, e of each cell have the variance 8 e^2 / (12 - 3).
fn crossed(e: f64) -> Vec<TrialResult> {
    let cells = [("box", "oak", 0.40), ("box", "pine", 0.45), ("rocket", "oak", 0.42), ("rocket", "pine", 0.47)];
    let burns = cells.into_iter().flat_map(|(stove, fuel, mean)| {
        [-e, 0.0, e].into_iter().enumerate().map(move |(i, residual)| {
            let columns = [("stove", stove), ("fuel", fuel), ("damper", "30")];
            burn(&format!("{stove}-{fuel}-{i}"), mean + residual, &columns)
        })
    });
    burns.collect()
}

#[test]
fn further_burns_are_those_of_a_test_with_the_scatter_that_the_model_leaves() {
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    let e = 0.03;
    let result = comparison(asked, crossed(e));
    let arm = Arm { n: 6, sd: (8.0 * e * e / 9.0).sqrt() };
    let wanted = further_trials(arm, arm, 0.0, Goal { difference: 0.02, power: 0.8, alpha: 0.05 });
    let Further::Each(wanted) = wanted else { panic!("{wanted:?}") };
    let advice = contrast(&result, "box", "rocket", ContrastKind::Difference).sample_size.as_ref().unwrap();
    assert_eq!(advice.further_trials().map(|n| n as usize), Some(wanted));
    assert!(wanted > 5);
}

#[test]
fn a_covariate_that_never_varies_holds_nothing_constant() {
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    let plain = comparison(asked.clone(), crossed(0.01));
    asked.covariates = vec!["damper".into()];
    let with = comparison(asked, crossed(0.01));
    assert_eq!(plain.contrasts, with.contrasts);
    assert!(with.trends.is_empty() && with.remarks == plain.remarks, "{:?}", with.remarks);
}

/// The mean, the stoves but one and the fuels but one: 161 effects are too many, and 61 stoves are, whatever the effects.
#[test]
fn a_model_of_very_many_effects_is_not_fitted() {
    for (stoves, fuels, effects) in [(2, 160, 161), (61, 2, 62)] {
        let burns = (0..2 * stoves.max(fuels)).map(|i| {
            let (stove, fuel) = ((i % stoves).to_string() + "s", (i / 2 % fuels).to_string() + "f");
            burn(&format!("b{i}"), 0.4 + 0.001 * f64::from(i * 7 % 11), &[("stove", &stove), ("fuel", &fuel)])
        });
        let mut asked = request("stove");
        asked.adjust = vec!["fuel".into()];
        let result = comparison(asked, burns.collect());
        let reasons: Vec<&NoAdjustment> = result
            .remarks
            .iter()
            .filter_map(|r| if let Remark::NotAdjusted { reason, .. } = r { Some(reason) } else { None })
            .collect();
        assert_eq!(reasons, [&NoAdjustment::TooLarge { effects, most: 150 }]);
    }
}

/// A mean of one burn has the budget of that burn, or its own where there are too many burns to keep theirs.
#[test]
fn a_level_of_one_burn_has_a_budget_among_few_and_many() {
    for others in [1, 230] {
        let mut trials = vec![burn("b", 0.4, &[("stove", "box")]), burn("r", 0.5, &[("stove", "rocket")])];
        trials.extend((0..others).map(|i| burn(&format!("o{i}"), 0.45, &[])));
        for trial in &mut trials {
            let source = format!("own:{}", trial.row.trial);
            let info = SourceInfo { shared: false, dof: f64::INFINITY, shape: Shape::Normal };
            trial.sources.extend(ErrorSources::from([(source.as_str().into(), info)]));
        }
        let result = analysis(request("stove"), Combine::Mean, trials);
        let of_rocket = |owner: &BudgetOwner| matches!(owner, BudgetOwner::Group { levels, .. } if levels.iter().any(|(_, level)| level == "rocket"));
        let rows: Vec<_> = result.budget.iter().filter(|r| of_rocket(&r.owner)).collect();
        assert_eq!(rows.len(), 1, "{others}: {rows:?}");
        close(rows[0].contribution, 0.001, 1e-12);
    }
}
