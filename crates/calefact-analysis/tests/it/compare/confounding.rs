//! Columns that change together with the factor: wholly, so that nothing is settled, and in part, said with its size.

use super::support::{analysis, burn, close, comparison, exact, request};
use calefact_analysis::fact::ComparisonFact;
use calefact_analysis::finding::Fact;
use calefact_analysis::result::{Advice, Comparison, Remark, TrialResult, VerdictKind};
use calefact_analysis::settings::Combine;

/// Burns of two stoves that differ by 16 points, with the levels of a further column.
fn burns(column: &str, of_box: &[&str], of_rocket: &[&str]) -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, mean, levels) in [("box", 0.33, of_box), ("rocket", 0.49, of_rocket)] {
        for (i, level) in levels.iter().enumerate() {
            let value = mean + 0.01 * ((i * 5 % 3) as f64 - 1.0);
            trials.push(with_column(burn(&format!("{stove}{i}"), value, &[("stove", stove)]), column, level));
        }
    }
    trials
}

fn with_column(mut trial: TrialResult, column: &str, level: &str) -> TrialResult {
    let cell = (!level.is_empty()).then(|| level.to_owned());
    match column {
        "fuel" => trial.row.fuel = cell,
        "exchanger" => trial.row.exchanger = cell,
        "operator" => trial.row.operator = cell,
        "date" => trial.row.date = cell,
        "block" => trial.row.block = cell,
        _ => drop(trial.row.extra.insert(column.to_owned(), level.to_owned())),
    }
    trial
}

fn of_stoves(column: &str, of_box: &[&str], of_rocket: &[&str]) -> Comparison {
    comparison(request("stove"), burns(column, of_box, of_rocket))
}

/// Columns that are confounded with the difference, whose verdict says so.
#[track_caller]
fn confounded(comparison: &Comparison) -> Vec<&str> {
    let contrast = &comparison.contrasts[0];
    assert_eq!(contrast.verdict == VerdictKind::Confounded, !contrast.confounded.is_empty());
    assert!(
        comparison.contrasts.iter().all(|c| (c.verdict == VerdictKind::Confounded) != contrast.confounded.is_empty())
    );
    contrast.confounded.iter().map(|c| c.column.as_str()).collect()
}

#[test]
fn a_column_that_changes_with_the_stove_leaves_nothing_settled() {
    for (column, a, b) in [
        ("fuel", ["pine"; 4], ["birch"; 4]),
        ("exchanger", ["coil"; 4], [""; 4]),
        ("operator", ["Ida"; 4], ["Piet"; 4]),
        ("date", ["2025-03-01"; 4], ["2025-03-02"; 4]),
        ("block", ["d1"; 4], ["d2"; 4]),
        ("split", ["fine"; 4], ["coarse"; 4]),
        ("damper", ["30"; 4], ["70 %"; 4]),
    ] {
        let found = of_stoves(column, &a, &b);
        assert_eq!(confounded(&found), [column]);
        assert_eq!(found.contrasts[0].sample_size, None, "more of the same burns help nothing");
    }
}

#[test]
fn fuels_that_the_stoves_do_not_share_are_confounded_even_where_they_vary() {
    assert_eq!(confounded(&of_stoves("fuel", &["pine", "pine", "spruce"], &["birch"; 3])), ["fuel"]);
    assert_eq!(confounded(&of_stoves("fuel", &["pine", "pine"], &["birch", "oak"])), ["fuel"]);
    assert_eq!(confounded(&of_stoves("fuel", &["pine", "", "pine"], &["birch", "birch", ""])), ["fuel"]);
}

/// Five levels in ten burns are levels, five in eight are labels of single burns.
#[test]
fn a_further_column_counts_while_its_levels_are_repeated() {
    let (fine, coarse) = (["fine", "fine", "medium", "medium", "fine"], ["coarse", "coarse", "huge", "tiny", "huge"]);
    assert_eq!(confounded(&of_stoves("split", &fine, &coarse)), ["split"]);
    assert_eq!(confounded(&of_stoves("split", &fine[..4], &coarse[..4])), Vec::<&str>::new());
}

/// 15, 6 and 1 of 16 burns with pine: two pairs are more than half apart, of which the farther is told of.
#[test]
fn a_column_that_runs_along_in_part_is_told_of_once() {
    let mut trials = Vec::new();
    for (stove, mean, pine) in [("batch", 0.41, 6), ("box", 0.33, 15), ("rocket", 0.49, 1)] {
        for i in 0..16 {
            let fuel = if i < pine { "pine" } else { "birch" };
            let value = mean + 0.01 * f64::from(i * 5 % 3 - 1);
            trials.push(burn(&format!("{stove}{i}"), value, &[("stove", stove), ("fuel", fuel)]));
        }
    }
    let found = comparison(request("stove"), trials);
    let uneven: Vec<_> =
        found.remarks.iter().filter_map(|r| if let Remark::Uneven(u) = r { Some(u) } else { None }).collect();
    let [uneven] = uneven[..] else { panic!("{:?}", found.remarks) };
    assert_eq!((uneven.a.as_str(), uneven.b.as_str(), uneven.distance), ("box", "rocket", 0.875));
}

#[test]
fn what_the_trials_do_tell_apart_is_settled() {
    for (column, a, b) in [
        ("fuel", ["pine", "pine", "birch", "pine"], ["birch"; 4]),
        ("fuel", [""; 4], ["birch"; 4]),
        ("exchanger", ["coil"; 4], ["coil"; 4]),
        ("date", ["1", "2", "3", "4"], ["5", "6", "7", "8"]),
        ("block", ["d1", "d1", "d2", "d2"], ["d3", "d3", "d4", "d4"]),
        ("serial", ["a1", "a2", "a3", "a4"], ["b1", "b2", "b3", "b4"]),
        ("wind", ["1.2", "1.2", "3.4", "0.7"], ["2.2", "0.9", "2.2", "4.0"]),
        ("remark", ["", "smoky", "", ""], ["door open", "", "", ""]),
        ("photo", ["a photograph of the fire with the door open, file 31"; 4], ["none"; 4]),
    ] {
        let found = of_stoves(column, &a, &b);
        assert_eq!((confounded(&found), found.contrasts[0].verdict), (vec![], VerdictKind::Below), "{column}");
    }
}

/// A third stove burned both woods, so that a model tells stove and wood apart between the other two as well; without the
/// model nothing does.
#[test]
fn a_model_that_is_connected_through_a_third_stove_tells_two_apart() {
    let woods = [("box", ["pine"; 4]), ("rocket", ["birch"; 4]), ("batch", ["pine", "birch", "pine", "birch"])];
    let mut trials = Vec::new();
    for (s, (stove, fuels)) in woods.into_iter().enumerate() {
        for (i, fuel) in fuels.into_iter().enumerate() {
            let effect = if fuel == "pine" { 0.04 } else { 0.0 };
            let value = 0.3 + 0.08 * s as f64 + effect + 0.005 * ((i * 7 % 5) as f64 - 1.0);
            trials.push(burn(&format!("{stove}{i}"), value, &[("stove", stove), ("fuel", fuel)]));
        }
    }
    let of_pair = |c: &Comparison, a: &str, b: &str| {
        c.contrasts.iter().find(|x| x.a == a && x.b == b).expect("the pair is compared").verdict
    };
    let plain = comparison(request("stove"), trials.clone());
    assert_eq!(of_pair(&plain, "box", "rocket"), VerdictKind::Confounded);
    assert_ne!(of_pair(&plain, "box", "batch"), VerdictKind::Confounded);
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    assert_eq!(of_pair(&comparison(asked, trials), "box", "rocket"), VerdictKind::Below);
}

/// Neither fuel nor vessel alone stands for the stove, but both together do.
#[test]
fn columns_that_only_together_stand_for_the_factor_are_named() {
    let cells = [("box", "pine", "drum"), ("rocket", "birch", "drum"), ("rocket", "pine", "tank")];
    let trials = (0..9).map(|i| {
        let (stove, fuel, vessel) = cells[i % 3];
        let mut trial = burn(&format!("b{i}"), 0.3 + 0.01 * (i * 5 % 7) as f64, &[("stove", stove), ("fuel", fuel)]);
        trial.row.vessel = vessel.into();
        trial
    });
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into(), "vessel".into()];
    let found = comparison(asked, trials.collect());
    // Three cells carry three effects and the mean: one too many.
    assert_eq!(confounded(&found), ["fuel", "vessel"]);
}

#[test]
fn a_trend_along_the_damper_is_not_settled_where_each_position_had_its_own_wood() {
    let trials = |fuels: [&'static str; 4]| -> Vec<TrialResult> {
        let burn = |i: usize| {
            let damper = [20, 40, 60, 80][i % 4];
            let value = 0.5 - 0.001 * f64::from(damper) + 1e-4 * ((i * 7 % 5) as f64 - 2.0);
            burn(&format!("b{i}"), value, &[("damper", &format!("{damper} %")), ("fuel", fuels[(i / 4 + i) % 4])])
        };
        (0..12).map(burn).collect()
    };
    let slope = |trials: Vec<TrialResult>| comparison(request("damper"), trials).trends.remove(0).confounded;
    let mut own: Vec<TrialResult> = trials(["pine"; 4]);
    for (i, trial) in own.iter_mut().enumerate() {
        trial.row.fuel = Some(["pine", "birch", "oak", "larch"][i % 4].into());
    }
    assert_eq!(slope(own), ["fuel"]);
    assert_eq!(slope(trials(["pine", "birch", "oak", "larch"])), Vec::<String>::new());
}

#[test]
fn a_finding_and_the_advice_name_what_must_be_crossed() {
    let found = analysis(request("stove"), Combine::Mean, burns("fuel", &["pine"; 3], &["birch"; 3]));
    let facts: Vec<&ComparisonFact> = found
        .findings
        .iter()
        .filter_map(|f| if let Fact::Comparison(fact) = &f.fact { Some(fact) } else { None })
        .collect();
    let [ComparisonFact::Confounded { pair: Some(pair), columns, .. }] = &facts[..] else { panic!("{facts:?}") };
    assert_eq!((pair.a.as_str(), pair.b.as_str(), &columns[..]), ("box", "rocket", &["fuel".to_owned()][..]));
    let [Advice::Cross(cross)] = &found.advice[..] else { panic!("{:?}", found.advice) };
    assert_eq!(
        (&cross.columns[0].a[..], &cross.columns[0].b[..]),
        (&["pine".to_owned()][..], &["birch".to_owned()][..])
    );
}

/// 12 of 16 burns of the box stove used pine, 4 of 16 of the rocket stove: half the burns would have to change. The start
/// temperatures are 10 and 13 degC with a standard deviation of 1 within the stoves.
#[test]
fn what_runs_along_in_part_is_said_with_its_size() {
    let fuels = |pine: usize| -> Vec<&str> { (0..16).map(|i| if i < pine { "pine" } else { "birch" }).collect() };
    let mut trials = burns("fuel", &fuels(12), &fuels(4));
    for (i, trial) in trials.iter_mut().enumerate() {
        let step = (15.0_f64 / 16.0).sqrt() * if i % 2 == 0 { 1.0 } else { -1.0 };
        trial.conditions.start_temperature = Some(if i < 16 { 10.0 } else { 13.0 } + step);
        trial.conditions.air_temperature = Some(5.0 + f64::from(u8::from(i % 2 == 0)));
    }
    let found = comparison(request("stove"), trials.clone());
    let [Remark::UnevenCondition(start), Remark::Uneven(fuel)] = &found.remarks[..2] else {
        panic!("{:?}", found.remarks)
    };
    assert_eq!((fuel.column.as_str(), fuel.distance), ("fuel", 0.5));
    let pine =
        if fuel.level == "pine" { (fuel.of_a, fuel.of_b) } else { ((16 - fuel.of_a.0, 16), (16 - fuel.of_b.0, 16)) };
    assert_eq!(pine, ((12, 16), (4, 16)));
    assert_eq!((start.condition.as_str(), start.means), ("start_temperature", (10.0, 13.0)));
    close(start.standardised, 3.0, 1e-9);
    let mut asked = request("stove");
    asked.adjust = vec!["fuel".into()];
    asked.covariates = vec!["start_temperature".into()];
    let held = comparison(asked, trials);
    let uneven = |r: &Remark| matches!(r, Remark::Uneven(_) | Remark::UnevenCondition(_));
    assert!(!held.remarks.iter().any(uneven), "{:?}", held.remarks);
}

/// Without one of two burns a level has no scatter: that no verdict is left says nothing of the burn.
#[test]
fn a_burn_is_not_left_out_of_two() {
    let with_sd = |n: usize| {
        let mut trials = Vec::new();
        for (stove, mean) in [("box", 0.33), ("rocket", 0.49)] {
            for i in 0..n {
                trials.push(burn(&format!("{stove}{i}"), mean + 0.001 * i as f64, &[("stove", stove)]));
            }
        }
        comparison(request("stove"), trials)
    };
    let found = with_sd(2);
    assert_eq!((found.contrasts[0].verdict, &found.remarks[..]), (VerdictKind::Below, &[][..]));
}

/// Two stoves whose start temperatures differ by so many standard deviations, and the condition that is named.
fn apart(n: usize, distance: f64, column: Option<&str>) -> Vec<String> {
    let mut trials = burns("serial", &vec![""; n], &vec![""; n]);
    let values = [20.0, 20.0 + distance].into_iter().flat_map(|mean| exact(n, mean, 1.0));
    for (trial, value) in trials.iter_mut().zip(values) {
        match column {
            Some(column) => drop(trial.row.extra.insert(column.to_owned(), format!("{value:.9}"))),
            None => trial.conditions.start_temperature = Some(value),
        }
    }
    let found = comparison(request("stove"), trials).remarks.into_iter();
    found.filter_map(|r| if let Remark::UnevenCondition(u) = r { Some(u.condition) } else { None }).collect()
}

/// Of 8 burns each t = 2 d with 14 degrees of freedom must exceed 2.145; of 20, where t = 3.16 d must exceed 2.024, the 0.8
/// standard deviations of Cohen's (1988) large effect come first.
#[test]
fn a_condition_is_named_where_it_is_far_apart_and_not_by_chance() {
    for (n, distance, is_named) in [(8, 1.06, false), (8, 1.09, true), (20, 0.79, false), (20, 0.81, true)] {
        for column in [None, Some("wind")] {
            for distance in [distance, -distance] {
                let wanted = if is_named { vec![column.unwrap_or("start_temperature").to_owned()] } else { vec![] };
                assert_eq!(apart(n, distance, column), wanted, "{n} burns, {distance}");
            }
        }
    }
}

#[test]
fn a_comparison_of_one_level_or_with_levels_of_one_burn_says_so() {
    let trials = |levels: &[&str]| -> Vec<TrialResult> {
        let burn = |(i, level): (usize, &&str)| burn(&format!("b{i}"), 0.4 + 0.01 * i as f64, &[("stove", level)]);
        levels.iter().enumerate().map(burn).collect()
    };
    let remarks = |levels: &[&str]| comparison(request("stove"), trials(levels)).remarks;
    assert!(remarks(&["box", "box"]).contains(&Remark::TooFewLevels { factor: "stove".into(), levels: 1 }));
    let once = |levels: &[&str]| {
        remarks(levels)
            .into_iter()
            .find_map(|r| if let Remark::TriedOnce { levels, .. } = r { Some(levels) } else { None })
    };
    assert_eq!(once(&["box", "box", "rocket", "batch"]), Some(vec!["rocket".to_owned(), "batch".to_owned()]));
    assert_eq!(once(&["box", "box", "rocket", "rocket"]), None);
    assert_eq!(once(&["20", "30", "40", "50"]), None, "numbers make a trend");
}
