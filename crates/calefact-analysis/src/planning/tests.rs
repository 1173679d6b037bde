//! Plans from guesses, before the first burn: numbers, order, names, and what cannot be planned.

use super::{Past, PlanRequest, Size, plan};
use crate::result::{Aim, Analysis, BurnsNeeded, CampaignPlan, PlanAnswer};
use crate::settings::{ComparisonRequest, Settings};
use crate::{AnalysisHeader, Quantity, TrialAccumulator, compare};
use calefact_data::apparatus::{Apparatus, Exchanger, Stove};
use calefact_data::{RegisterRow, TrialKind, Water};
use calefact_stats::ErrorSources;
use std::collections::{BTreeMap, BTreeSet};

const MAIN: Quantity = Quantity::ThermalEfficiency;

fn described(stoves: &[&str]) -> Apparatus {
    let stoves = stoves.iter().map(|id| ((*id).to_owned(), Stove::default())).collect();
    let exchangers = [("single".to_owned(), Exchanger::default())].into();
    Apparatus { stoves, exchangers, ..Apparatus::default() }
}

/// One comparison of stoves in one quantity.
fn comparison() -> ComparisonRequest {
    ComparisonRequest { quantities: vec![MAIN], ..ComparisonRequest::new("stove", TrialKind::Burn) }
}

fn nothing_yet(apparatus: &Apparatus) -> Analysis {
    let settings = Settings::default();
    let none = TrialAccumulator::new(&settings, &ErrorSources::new());
    compare(AnalysisHeader::default(), &settings, apparatus, none, Vec::new(), Vec::new())
}

fn planned(stoves: &[&str], rows: &[RegisterRow], request: &PlanRequest) -> CampaignPlan {
    let apparatus = described(stoves);
    let analysis = nothing_yet(&apparatus);
    let requests = [comparison()];
    plan(&Past { analysis: &analysis, requests: &requests, apparatus: &apparatus, rows }, request)
}

/// Guesses as shares of an unknown mean.
fn guess(difference: f64, scatter: f64) -> PlanRequest {
    PlanRequest {
        difference: BTreeMap::from([(MAIN, Size::Share(difference))]),
        scatter: BTreeMap::from([(MAIN, Size::Share(scatter))]),
        ..PlanRequest::default()
    }
}

/// Two-sided level 0.04, since a fifth of the error is kept for looks before: `TTestIndPower` of statsmodels 0.15.0 asks for 68.13,
/// 17.88 and 5.45 a group for d = 0.5, 1 and 2 at a power of 0.8.
#[test]
fn numbers_before_the_first_burn() {
    for (d, each) in [(0.5, 69), (1.0, 18), (2.0, 6)] {
        let plan = planned(&["box", "rocket"], &[], &guess(0.05 * d, 0.05));
        assert_eq!(plan.targets[0].answer, PlanAnswer::Burns { each, fresh: false }, "{d}");
        assert!(plan.targets[0].relative && plan.targets[0].floor.is_none());
        assert_eq!(plan.burns, 2 * u64::from(each));
    }
}

/// With three levels there are three pairs, each judged at a third of the level.
#[test]
fn more_levels_take_more_burns_of_each() {
    let each = |stoves: &[&str]| match planned(stoves, &[], &guess(0.1, 0.05)).targets[0].answer {
        PlanAnswer::Burns { each, .. } => each,
        ref other => panic!("{other:?}"),
    };
    assert!(each(&["a", "b", "c"]) > each(&["a", "b"]));
}

#[test]
fn days_and_places_are_balanced_and_a_seed_fixes_the_order() {
    for (stoves, per_day, seed) in [
        (&["a", "b"][..], 2, 1),
        (&["a", "b"], 3, 2),
        (&["a", "b", "c"], 3, 3),
        (&["a", "b", "c"], 2, 4),
        (&["a", "b", "c", "d"], 4, 5),
        (&["a", "b"], 1, 6),
    ] {
        let request = PlanRequest { burns_per_day: per_day, seed, ..guess(0.08, 0.05) };
        let order = planned(stoves, &[], &request).order.expect("an order");
        assert_eq!(Some(&order), planned(stoves, &[], &request).order.as_ref(), "the same again");
        let stove = |i: usize| order.burns[i].levels[0].1.as_str();
        let counts = |burns: &mut dyn Iterator<Item = usize>| {
            let mut counts: BTreeMap<&str, i64> = stoves.iter().map(|s| (*s, 0)).collect();
            burns.for_each(|i| *counts.entry(stove(i)).or_insert(0) += 1);
            let (most, least) = (counts.values().max().copied(), counts.values().min().copied());
            most.unwrap_or(0) - least.unwrap_or(0)
        };
        for end in (0..=order.burns.len()).step_by(per_day) {
            assert!(counts(&mut (0..end)) <= 1, "any number of first days is balanced: {stoves:?} {per_day} {end}");
        }
        for day in 1..=order.days() {
            let of_day: Vec<usize> = (0..order.burns.len()).filter(|&i| order.burns[i].day == day).collect();
            assert!(counts(&mut of_day.iter().copied()) <= 1, "day {day} of {stoves:?} by {per_day}");
        }
        let firsts: Vec<usize> = (0..order.burns.len()).filter(|&i| order.burns[i].position == 1).collect();
        let apart = if stoves.len() == per_day { 1 } else { 2 };
        assert!(counts(&mut firsts.iter().copied()) <= apart, "first burns of {stoves:?} by {per_day}");
        let ids: BTreeSet<&str> = order.burns.iter().map(|b| b.trial.as_str()).collect();
        assert_eq!(ids.len(), order.burns.len());
    }
}

/// Of two stoves twice a day every second day mirrors the one before, so eight days have sixteen orders; a rule without lot has one.
#[test]
fn the_rest_is_drawn_by_lot() {
    let first = |seed| {
        let order = planned(&["a", "b"], &[], &PlanRequest { seed, ..guess(0.08, 0.05) }).order.expect("an order");
        order.burns.iter().take(16).map(|b| b.levels[0].1.clone()).collect::<String>()
    };
    let orders: BTreeSet<String> = (0..40).map(first).collect();
    assert!(orders.len() > 10, "{}", orders.len());
}

#[test]
fn dates_follow_the_first_day_and_ids_those_of_the_register() {
    let row = |id: &str| RegisterRow {
        block: Some("d09".into()),
        ..RegisterRow::bare(id, TrialKind::Burn, "l.csv", "tank", Water::Mass(100.0))
    };
    let first_day = "2028-02-28".parse().ok();
    let request = PlanRequest { first_day, ..guess(0.1, 0.05) };
    let order = planned(&["a", "b"], &[row("b07"), row("b08")], &request).order.expect("an order");
    let days: Vec<&str> = order.burns.iter().filter_map(|b| b.date.as_deref()).step_by(2).take(3).collect();
    assert_eq!(days, ["2028-02-28", "2028-02-29", "2028-03-01"]);
    assert_eq!((order.burns[0].trial.as_str(), order.burns[2].block.as_str()), ("b09", "d11"));
}

#[test]
fn what_cannot_be_planned_is_said() {
    let answer = |stoves: &[&str], request: &PlanRequest| planned(stoves, &[], request).targets[0].answer.clone();
    assert_eq!(answer(&[], &guess(0.1, 0.05)), PlanAnswer::FewLevels { level: None });
    assert_eq!(answer(&["box"], &guess(0.1, 0.05)), PlanAnswer::FewLevels { level: Some("box".into()) });
    let two = ["box", "rocket"];
    assert_eq!(answer(&two, &PlanRequest::default()), PlanAnswer::NoGuess { keys: vec!["difference", "scatter"] });
    let mixed = PlanRequest { difference: BTreeMap::from([(MAIN, Size::Amount(0.04))]), ..guess(0.1, 0.05) };
    assert_eq!(answer(&two, &mixed), PlanAnswer::NoGuess { keys: vec!["mean"] });
    let named = PlanRequest { levels: vec!["rocket".into()], ..guess(0.1, 0.05) };
    assert!(matches!(answer(&["box"], &named), PlanAnswer::Burns { .. }));
    assert_eq!(answer(&["30", "50", "70"], &guess(0.1, 0.05)), PlanAnswer::Trend { settled: false });
}

#[test]
fn a_tiny_difference_gives_a_number_and_no_list() {
    let plan = planned(&["box", "rocket"], &[], &guess(0.0005, 0.05));
    assert!(plan.burns > 100_000 && plan.order.is_none(), "{}", plan.burns);
    let plan = planned(&["box", "rocket"], &[], &guess(0.00001, 0.05));
    assert_eq!((plan.targets[0].aims[0].reach, plan.burns), (BurnsNeeded::Beyond, 0));
    assert_eq!(plan.targets[0].answer, PlanAnswer::OutOfReach);
}

/// 2 t(.975; 2n - 2) s sqrt(2/n) <= w: 32 of each for w = s, as in the closed form.
#[test]
fn a_width_is_planned_by_its_closed_form() {
    let width = BTreeMap::from([(MAIN, Size::Share(0.05))]);
    let plan =
        planned(&["box", "rocket"], &[], &PlanRequest { width, difference: BTreeMap::new(), ..guess(0.1, 0.05) });
    assert_eq!(plan.targets[0].answer, PlanAnswer::Burns { each: 32, fresh: false });
    assert!(matches!(plan.targets[0].aims[..], [a] if matches!(a.aim, Aim::Width { .. })));
}
