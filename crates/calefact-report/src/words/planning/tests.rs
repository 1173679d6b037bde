//! Each answer of a plan in words.

use super::*;
use crate::fixture;
use calefact_analysis::Quantity;
use calefact_analysis::result::{Floor, PlannedScatter};
use calefact_data::TrialKind;
use std::collections::BTreeMap;

fn plan(answer: PlanAnswer) -> TargetPlan {
    let level = |level: &str, done, further| LevelBurns { level: level.into(), done, further };
    let aim = Aim::Difference { size: 0.04, power: 0.8, source: AimSource::Stated };
    TargetPlan {
        factor: "stove".into(),
        only: BTreeMap::new(),
        kind: TrialKind::Burn,
        quantity: Quantity::ThermalEfficiency,
        relative: false,
        levels: vec![level("box", 3, 3), level("rocket", 6, 0)],
        answer,
        aims: vec![AimPlan { aim, reach: BurnsNeeded::Each { trials: 6, cautious: Some(8) } }],
        scatter: Some(PlannedScatter { sd: 0.02, dof: Some(7.0) }),
        floor: Some(Floor {
            difference: 0.01,
            width: 0.013,
            largest: Some((ErrorOrigin::Instrument("scale".into()), 0.6)),
        }),
        savings: Vec::new(),
        after_a_look: true,
    }
}

fn words(answer: PlanAnswer) -> TargetWords {
    let analysis = fixture::analysis();
    targets(&Wording::plain(), &analysis, &Apparatus::default(), &[plan(answer)]).remove(0)
}

#[test]
fn each_answer_in_words() {
    let answers = [
        PlanAnswer::Settled,
        PlanAnswer::Enough,
        PlanAnswer::GoOn { planned: 6 },
        PlanAnswer::Burns { each: 6, fresh: false },
        PlanAnswer::Burns { each: 6, fresh: true },
        PlanAnswer::OutOfReach,
        PlanAnswer::TooSmall,
        PlanAnswer::FewLevels { level: Some("box".into()) },
        PlanAnswer::NoGuess { keys: vec!["difference", "scatter"] },
        PlanAnswer::Trend { settled: true },
        PlanAnswer::Trend { settled: false },
    ];
    let lines: Vec<String> = answers.into_iter().map(|answer| words(answer).answer).collect();
    insta::assert_snapshot!(lines.join("\n"));
}

#[test]
fn grounds_are_given_only_where_there_is_something_to_do() {
    insta::assert_snapshot!(words(PlanAnswer::Burns { each: 6, fresh: false }).grounds.join("\n"));
    for answer in [PlanAnswer::Settled, PlanAnswer::Enough, PlanAnswer::Trend { settled: true }] {
        assert!(words(answer).grounds.is_empty());
    }
}
