//! Odd burns and excluded burns: shown, tried without, never dropped.

use super::support::{Q, burn, close, comparison, exact, group, request};
use calefact_analysis::result::{Remark, TrialResult, VerdictChange, VerdictKind};

fn stoves() -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, mean) in [("box", 0.33), ("rocket", 0.36)] {
        for (i, x) in exact(8, mean, 0.01).into_iter().enumerate() {
            trials.push(burn(&format!("{stove}{i}"), x, &[("stove", stove)]));
        }
    }
    trials
}

/// The verdict on box against rocket changes from one to the other.
fn change(from: VerdictKind, to: VerdictKind) -> VerdictChange {
    VerdictChange { quantity: Q, factor: "stove".into(), a: "box".into(), b: "rocket".into(), from, to }
}

fn excluded(trial: &str, value: f64, stove: &str) -> TrialResult {
    let mut out = burn(trial, value, &[("stove", stove)]);
    out.row.exclude = Some("door found open".into());
    out
}

/// The residual of b17 is (0.22 - m) sqrt(n / (n - 1)) of its level, m being the mean of its nine burns: externally
/// studentized with the scatter of the sixteen others, 0.01, that is 13.2.
#[test]
fn an_odd_burn_is_named_and_kept() {
    let mut trials = stoves();
    let mut odd = burn("b17", 0.22, &[("stove", "rocket")]);
    odd.row.note = Some("door found open".into());
    trials.push(odd);
    let result = comparison(request("stove"), trials);
    assert_eq!(group(&result, "rocket").trials.len(), 9);
    let [Remark::OddTrial(odd), fragile] = &result.remarks[..] else { panic!("{:?}", result.remarks) };
    assert_eq!((odd.trial.as_str(), odd.note.as_deref(), odd.among), ("b17", Some("door found open"), 17));
    assert_eq!(odd.distances.len(), 1);
    close(odd.distances[0].1, -0.14 * (8.0_f64 / 9.0).sqrt() / 0.01, 1e-9);
    assert!(odd.p_value < 0.001);
    let change = change(VerdictKind::NoConclusion, VerdictKind::Below);
    assert_eq!(fragile, &Remark::Fragile { trials: vec!["b17".into()], change });
}

/// Without the excluded burn the mean of rocket is 0.36; with it, (8 x 0.36 + 0.10) / 9.
#[test]
fn both_results_of_an_excluded_burn_are_shown() {
    let mut trials = stoves();
    trials.push(excluded("b18", 0.10, "rocket"));
    let result = comparison(request("stove"), trials);
    close(group(&result, "rocket").mean.value, 0.36, 1e-12);
    let [Remark::Excluded(found)] = &result.remarks[..] else { panic!("{:?}", result.remarks) };
    assert_eq!(found.trials, [("b18".to_owned(), "door found open".to_owned())]);
    assert_eq!(found.changes, [change(VerdictKind::Below, VerdictKind::NoConclusion)]);
    let largest = found.largest.as_ref().expect("a mean changes");
    assert_eq!((largest.quantity, largest.level.as_str()), (Q, "rocket"));
    close(largest.from, 0.36, 1e-12);
    close(largest.to, (8.0 * 0.36 + 0.10) / 9.0, 1e-12);
}

#[test]
fn an_excluded_burn_of_a_level_that_is_not_compared_is_not_put_back() {
    let mut trials = stoves();
    trials.push(excluded("b19", 0.10, "pellet"));
    assert_eq!(comparison(request("stove"), trials.clone()).remarks, []);
    trials.push(excluded("b20", 0.36, "rocket"));
    let result = comparison(request("stove"), trials);
    let [Remark::Excluded(found)] = &result.remarks[..] else { panic!("{:?}", result.remarks) };
    assert_eq!((found.trials.len(), found.trials[0].0.as_str(), found.changes.len()), (1, "b20", 0));
}
