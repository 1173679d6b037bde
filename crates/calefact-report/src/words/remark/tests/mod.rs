//! Every remark from its fact.

use super::*;
use crate::words::tests::comparison;
use calefact_analysis::Quantity;
use calefact_analysis::result::VerdictKind;

const Q: Quantity = Quantity::ThermalEfficiency;

fn words(fact: &Remark) -> String {
    remark(&Wording::plain(), &comparison("stove", &[]), fact)
}

fn change(to: VerdictKind) -> VerdictChange {
    let (factor, a, b) = ("stove".into(), "box".into(), "rocket".into());
    VerdictChange { quantity: Q, factor, a, b, from: VerdictKind::NoConclusion, to }
}

fn effect(column: &str, level: &str) -> Effect {
    Effect { column: column.into(), level: Some(level.into()) }
}

fn not_adjusted(reason: NoAdjustment) -> Remark {
    Remark::NotAdjusted { factor: "stove".into(), held: vec!["fuel".into()], reason }
}

#[test]
fn what_runs_along_in_part_is_said_with_its_size() {
    let (factor, a, b) = ("stove".to_owned(), "box".to_owned(), "rocket".to_owned());
    let fuel = Uneven {
        factor: factor.clone(),
        a: a.clone(),
        b: b.clone(),
        column: "fuel".into(),
        level: "pine".into(),
        of_a: (12, 16),
        of_b: (3, 15),
        distance: 0.55,
    };
    assert_eq!(
        words(&Remark::Uneven(Box::new(fuel))),
        "Fuel pine was in 12 of 16 burns of box but in 3 of 15 of rocket; 55 % of any effect of fuel is in the difference between \
         them."
    );
    let start = UnevenCondition {
        factor,
        a,
        b,
        condition: "start_temperature".into(),
        means: (11.94, 16.4),
        standardised: 2.13,
    };
    assert_eq!(
        words(&Remark::UnevenCondition(Box::new(start))),
        "Start temperature differs between box (11.9 degC on average) and rocket (16.4 degC) by 2.1 standard deviations; an effect \
         of it is in the difference between them, unless the comparison names it under `covariates`."
    );
}

#[test]
fn remarks_on_the_design() {
    let tried = |levels: &[&str], adjusted| Remark::TriedOnce {
        factor: "stove".into(),
        levels: levels.iter().map(|l| (*l).to_owned()).collect(),
        adjusted,
    };
    let confounded = Confounded { effect: effect("split", "fine"), with: vec![effect("stove", "rocket")] };
    let alone = Confounded { effect: Effect { column: "age".into(), level: None }, with: vec![] };
    let table = [
        (
            Remark::TooFewLevels { factor: "stove".into(), levels: 1 },
            "`stove` has 1 level here, so there is nothing to compare.",
        ),
        (
            Remark::TooFewLevels { factor: "wood_split".into(), levels: 0 },
            "No usable burn says its wood_split, so there is nothing to compare.",
        ),
        (tried(&["box"], true), "Box was tried only once: its scatter is taken from the other levels."),
        (
            tried(&["a", "b"], false),
            "A and b were tried only once each: their scatter is unknown, so no test includes them.",
        ),
        (
            Remark::ColumnEmpty("air_temperature".into()),
            "No burn has a value of `air_temperature`, so nothing is adjusted for it.",
        ),
        (
            Remark::Incomplete { factor: "stove".into(), left_out: 2, of: 9 },
            "2 of 9 burns left out of the comparison of `stove`, because a column it is adjusted for is blank.",
        ),
        (
            not_adjusted(NoAdjustment::TooManyEffects { trials: 4, effects: 5 }),
            "The comparison of `stove` is not adjusted for `fuel`: 4 burns are too few to estimate 5 effects and a scatter.",
        ),
        (
            not_adjusted(NoAdjustment::Confounded(vec![confounded.clone()])),
            "The comparison of `stove` is not adjusted for `fuel`: split fine cannot be told apart from rocket, because they \
             always change together.",
        ),
        (
            not_adjusted(NoAdjustment::NoDesign),
            "The comparison of `stove` is not adjusted for `fuel`: its columns make no valid model.",
        ),
        (
            not_adjusted(NoAdjustment::NotEstimable(Q)),
            "The comparison of `stove` is not adjusted for `fuel`: the model cannot estimate the thermal efficiency of every level.",
        ),
        (
            Remark::Confounded(vec![confounded, alone]),
            "Split fine cannot be told apart from rocket, because they always change together; no trial has `age`.",
        ),
    ];
    for (fact, wanted) in table {
        assert_eq!(words(&fact), wanted);
    }
}

#[test]
fn remarks_on_the_model() {
    let interaction = Interaction {
        quantity: Q,
        factor: "stove".into(),
        other: "fuel".into(),
        f: 9.1234,
        numerator_dof: 1.0,
        denominator_dof: 12.0,
        p_value: 0.0107,
    };
    let figures = "(F = 9.12, 1 and 12 degrees of freedom, p = 0.011)";
    assert_eq!(
        no_interaction(&Wording::plain(), &interaction),
        format!(
            "No sign that the difference in thermal efficiency between levels of `stove` depends on `fuel` {figures}."
        )
    );
    assert_eq!(
        words(&Remark::Interaction(interaction)),
        format!(
            "Caution: the difference in thermal efficiency between levels of `stove` depends on `fuel` {figures}; the comparison \
             averages over `fuel`, so compare within each level of `fuel` too."
        )
    );
    assert_eq!(
        words(&Remark::InteractionUntested {
            quantity: Q,
            factor: "stove".into(),
            other: "operator".into(),
            combinations: 160,
            most: 150
        }),
        "It is not tested whether the difference in thermal efficiency between levels of `stove` depends on `operator`: their levels \
         make 160 combinations, and up to 150 are tested."
    );
    let failed = |reason| words(&Remark::NoFit { quantity: Q, reason });
    assert_eq!(
        [failed(FitFailure::EffectsNotEstimable), failed(FitFailure::NoScatter), failed(FitFailure::NotConverged)],
        [
            "Thermal efficiency is compared without adjustment: these burns cannot tell all effects apart.",
            "Thermal efficiency is compared without adjustment: these burns leave no scatter about the model.",
            "Thermal efficiency is compared without adjustment: the variances of the model did not settle.",
        ]
    );
    assert_eq!(
        words(&Remark::BlockLeftOut { quantity: Q, block: "day".into() }),
        "Thermal efficiency: the variance between levels of `day` did not settle, so `day` is left out of the model."
    );
}

#[test]
fn remarks_on_single_trials() {
    let odd = OddTrial {
        trial: "b17".into(),
        note: Some("door open".into()),
        distances: vec![(Q, -13.21), (Quantity::BurnRate, 4.0)],
        p_value: 1e-6,
        among: 17,
    };
    let brief = brief_remark(&Wording::plain(), &comparison("stove", &[]), &Remark::OddTrial(odd.clone()));
    assert_eq!(brief, "Burn b17 (note: door open) is far from the others in 2 quantities; it is kept.");
    let fragile = |trials: &[&str]| Remark::Fragile {
        trials: trials.iter().map(|t| (*t).to_owned()).collect(),
        change: change(VerdictKind::Below),
    };
    let verdict = "the verdict on thermal efficiency, box against rocket, would change from no conclusion to lower.";
    let table = [
        (
            Remark::OddTrial(odd),
            "Burn b17 (note: door open) is far from the others: thermal efficiency is 13 standard deviations below and burn rate \
             is 4 standard deviations above the value expected from them (p < 0.001, adjusted for 17 burns); it is kept."
                .to_owned(),
        ),
        (fragile(&["b1"]), format!("Without burn b1 {verdict}")),
        (fragile(&["b1", "b2"]), format!("Without either b1 or b2 {verdict}")),
        (fragile(&["b1", "b2", "b3"]), format!("Without any one of b1, b2 and b3 {verdict}")),
        (fragile(&["b"; 7]), format!("Without any one of 7 burns {verdict}")),
        (Remark::NoVerdictChanges("b17".into()), "Without burn b17 no verdict would change.".to_owned()),
        (Remark::MoreOddTrials(2), "2 more burns are far from the others.".to_owned()),
        (Remark::MoreOddTrials(1), "1 more burn is far from the others.".to_owned()),
        (Remark::MoreFragile(1), "1 more verdict depends on single burns.".to_owned()),
        (Remark::MoreFragile(3), "3 more verdicts depend on single burns.".to_owned()),
    ];
    for (fact, wanted) in table {
        assert_eq!(words(&fact), wanted);
    }
}

#[test]
fn excluded_trials_are_named_with_what_they_would_change() {
    let trial = |id: usize| (format!("b{id}"), "door open".to_owned());
    let largest = MeanChange { quantity: Q, factor: "stove".into(), level: "rocket".into(), from: 0.36, to: 0.331 };
    let one = Excluded { trials: vec![trial(1)], changes: vec![change(VerdictKind::Below)], largest: Some(largest) };
    assert_eq!(
        words(&Remark::Excluded(one)),
        "1 burn is left out: b1 (door open). With it put back the verdict on thermal efficiency, box against rocket, would change \
         from no conclusion to lower; the mean that changes most is the thermal efficiency of rocket: 33 % instead of 36 %."
    );
    let many = Excluded { trials: (1..=8).map(trial).collect(), changes: vec![], largest: None };
    let many = words(&Remark::Excluded(many));
    assert!(
        many.starts_with("8 burns are left out: b1 (door open), ") && many.contains("b6 (door open) and 2 more. "),
        "{many}"
    );
    assert!(many.ends_with("With them put back no verdict would change."), "{many}");
}

#[test]
fn logs_of_two_kinds_and_results_left_out_on_one_side() {
    let quantities = vec![Quantity::HeatingRate, Quantity::CoilPower];
    assert_eq!(
        words(&Remark::FewReadings { quantities, few: 1, of: 6 }),
        "1 of 6 burns has few readings, the others a logger's: heating rate and coil power of the few rest on slopes between \
         readings, of the others on fits, and a mean on both; its interval holds what few readings leave open."
    );
    let trials = vec!["b2".to_owned(), "b5".to_owned()];
    assert_eq!(
        words(&Remark::OneSided { quantity: Quantity::ExchangerConductance, trials }),
        "Exchanger conductance cannot be given for burns b2 and b5, where the effectiveness came out as high as it can \
         be: the mean of the others is too low."
    );
}
