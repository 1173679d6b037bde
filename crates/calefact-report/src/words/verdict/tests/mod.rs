//! Every verdict from its fact.

use super::*;
use crate::words::Typography;
use crate::words::tests::comparison;
use calefact_analysis::fact::ConfoundedColumn;
use calefact_analysis::fact::ErrorSource;
use calefact_analysis::result::{Adjustment, ErrorOrigin, Method};
use calefact_stats::{Estimate, UncertainValue};

/// The box stove against the rocket stove, with known degrees of freedom: half an interval is 1.96 u.
fn contrast(quantity: Quantity, means: (f64, f64), u: f64, verdict: VerdictKind) -> Contrast {
    Contrast {
        quantity,
        factor: "stove".into(),
        a: "box".into(),
        b: "rocket".into(),
        n: (4, 4),
        means,
        kind: ContrastKind::Difference,
        assumed: Vec::new(),
        estimate: Estimate::student(means.0 - means.1, quantity.unit(), u, f64::INFINITY, 0.95),
        method: Method::Welch,
        p_value: 0.5,
        p_adjusted: 0.5,
        p_pairs: 0.5,
        main: true,
        planned: None,
        adjustment: Adjustment::Holm,
        verdict,
        margin: Some(0.1),
        sample_size: None,
        confounded: vec![],
        traced: UncertainValue::exact(means.0 - means.1),
    }
}

fn words(contrast: &Contrast) -> String {
    verdict(&Wording::plain(), &comparison("stove", &["box", "rocket"]), contrast)
}

#[test]
fn a_settled_difference_names_the_better_level_first() {
    let (q, below) = (Quantity::ThermalEfficiency, VerdictKind::Below);
    assert_eq!(
        words(&contrast(q, (0.33, 0.49), 0.015, below)),
        "Rocket turns more of the wood into hot water than box: 49 % against 33 %, 16 percentage points more \
         (95 % interval 13 to 19), from 4 burns each."
    );
    assert_eq!(
        words(&contrast(q, (0.49, 0.33), 0.015, VerdictKind::Above)),
        "Box turns more of the wood into hot water than rocket: 49 % against 33 %, 16 percentage points more \
         (95 % interval 13 to 19), from 4 burns each."
    );
    assert_eq!(
        words(&contrast(Quantity::FuelPerHeat, (0.62, 0.43), 0.03, VerdictKind::Above)),
        "Rocket needs less wood per kWh of heat than box: 0.43 kg/kWh against 0.62 kg/kWh, 0.19 kg/kWh less \
         (95 % interval 0.13 to 0.25), from 4 burns each."
    );
}

#[test]
fn levels_that_are_alike_name_the_margin() {
    let alike = contrast(Quantity::ThermalEfficiency, (0.40, 0.402), 0.0077, VerdictKind::Equivalent);
    assert_eq!(
        words(&alike),
        "Rocket and box are alike in thermal efficiency to within 10 % of the larger mean (two one-sided tests): \
         40.2 % against 40.0 %, a difference of 0.2 percentage points (95 % interval -1.3 to 1.7), from 4 burns each."
    );
}

#[test]
fn an_open_difference_says_what_would_settle_it() {
    let mut open = contrast(Quantity::ThermalEfficiency, (0.40, 0.43), 0.025, VerdictKind::NoConclusion);
    open.n = (4, 5);
    let start = "No conclusion on the thermal efficiency of rocket and box: 43 % against 40 %, from 5 and 4 burns. The \
                 difference of 3 percentage points may lie anywhere from -2 to 8 (95 % interval)";
    let source = ErrorOrigin::Input(ErrorSource::CalorificValue { fuel: "pine".into() });
    for (advice, end) in [
        (None, "."),
        (
            Some(SampleSizeAdvice::Further { trials: 1, fewest: 1 }),
            ". If the true difference is the one seen, about 1 more burn of each would probably show it: 1 if it is 8 percentage \
             points, and no number if there is none. Fix the number now (`planned = 6`) and wait for it: whoever looks after every \
             burn until something is settled is fooled by chance.",
        ),
        (
            Some(SampleSizeAdvice::Further { trials: 13, fewest: 2 }),
            ". If the true difference is the one seen, about 13 more burns of each would probably show it: 2 if it is 8 percentage \
             points, and no number if there is none. Fix the number now (`planned = 18`) and wait for it: whoever looks after every \
             burn until something is settled is fooled by chance.",
        ),
        (
            Some(SampleSizeAdvice::MoreThan(60)),
            "; a difference of this size would take more than 60 further burns of each.",
        ),
        (
            Some(SampleSizeAdvice::Never(source)),
            "; more burns would not settle it, because the error of the calorific value of pine stays.",
        ),
    ] {
        open.sample_size = advice;
        assert_eq!(words(&open), format!("{start}{end}"));
    }
}

#[test]
fn a_difference_that_may_be_due_to_the_fuel_says_which_burns_would_part_them() {
    let mut together = contrast(Quantity::ThermalEfficiency, (0.33, 0.49), 0.015, VerdictKind::Confounded);
    let fuel = ConfoundedColumn { column: "fuel".into(), a: vec!["pine".into()], b: vec!["birch".into()] };
    together.confounded = vec![fuel];
    let clause = "stove and fuel change together (box always with pine, rocket always with birch)";
    let crossed = "To tell them apart, make two burns each of box with birch and of rocket with pine.";
    assert_eq!(
        words(&together),
        format!(
            "Rocket and box differ in thermal efficiency: 49 % against 33 %, a difference of 16 percentage points (95 % interval 13 \
             to 19), from 4 burns each. But {clause}: the difference belongs to both. {crossed}"
        )
    );
    together.estimate = Estimate::student(-0.02, "1", 0.015, f64::INFINITY, 0.95);
    together.means = (0.33, 0.35);
    assert_eq!(
        words(&together),
        format!(
            "No conclusion on the thermal efficiency of rocket and box: {clause}, so any difference would belong to both. Seen: 35 % \
             against 33 %, a difference of 2 percentage points (95 % interval -1 to 5), from 4 burns each. {crossed}"
        )
    );
}

#[test]
fn a_plan_that_is_done_and_a_secondary_quantity_ask_for_no_further_look() {
    let mut open = contrast(Quantity::ThermalEfficiency, (0.40, 0.43), 0.025, VerdictKind::NoConclusion);
    open.sample_size = Some(SampleSizeAdvice::Further { trials: 13, fewest: 2 });
    open.main = false;
    let end = "; if the true difference is the one seen, about 13 more burns of each would probably show it.";
    assert!(words(&open).ends_with(end), "{}", words(&open));
    open.planned = Some(4);
    let end =
        ". The plan is done; a new study of about 17 new burns of each would probably show a difference of this size.";
    assert!(words(&open).ends_with(end), "{}", words(&open));
}

#[test]
fn before_the_planned_number_nothing_is_decided() {
    let mut early = contrast(Quantity::ThermalEfficiency, (0.40, 0.43), 0.025, VerdictKind::NotYet);
    early.planned = Some(10);
    assert_eq!(
        words(&early),
        "Not yet decided on the thermal efficiency of rocket and box: 43 % against 40 %, a difference of 3 percentage points so far \
         (95 % interval -2 to 8), from 4 burns each. The verdict is due at the planned 10 burns of each."
    );
}

#[test]
fn an_interval_without_zero_that_settles_nothing_says_why() {
    let chance = contrast(Quantity::ThermalEfficiency, (0.40, 0.43), 0.0125, VerdictKind::NoConclusion);
    let end = "anywhere from 1 to 5 (95 % interval); it leaves out zero, but among as many verdicts as on this page one such interval \
               may well come by chance.";
    assert!(words(&chance).ends_with(end), "{}", words(&chance));
}

#[test]
fn an_end_of_an_interval_is_never_shown_as_zero() {
    let near = contrast(Quantity::ThermalEfficiency, (0.40, 0.43), 0.0155, VerdictKind::NoConclusion);
    assert!(words(&near).contains("may lie anywhere from -0.04 to 6 (95 % interval)"), "{}", words(&near));
}

#[test]
fn a_ratio_is_a_sentence_of_its_own() {
    let mut ratio = contrast(Quantity::ThermalEfficiency, (0.33, 0.49), 0.015, VerdictKind::Below);
    ratio.kind = ContrastKind::Ratio;
    ratio.estimate = Estimate::student(0.673, "1", 0.028, f64::INFINITY, 0.95);
    assert_eq!(
        words(&ratio),
        "As a ratio: the thermal efficiency of box is 0.67 times that of rocket (95 % interval 0.62 to 0.73), from 4 and 4 \
         burns."
    );
}

#[test]
fn a_cost_is_in_the_currency_and_a_page_has_its_signs() {
    let cost = contrast(Quantity::CostPerHeat, (0.13, 0.11), 0.01, VerdictKind::NoConclusion);
    let page = Wording { typography: Typography::Page, currency: Some("EUR"), ..Wording::plain() };
    assert_eq!(
        verdict(&page, &comparison("stove", &["box", "rocket"]), &cost),
        "No conclusion on the fuel cost per kWh of heat of rocket and box: 0.11\u{a0}EUR/kWh against 0.13\u{a0}EUR/kWh, \
         from 4 burns each. The difference of 0.02\u{a0}EUR/kWh may lie anywhere from 0.0004 to 0.04 (95\u{a0}% interval); \
         it leaves out zero, but among as many verdicts as on this page one such interval may well come by chance."
    );
}
