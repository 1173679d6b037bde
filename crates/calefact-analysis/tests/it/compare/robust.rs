//! Odd burns and excluded burns: shown, tried without, never dropped.

use super::support::{burn, close, comparison, exact, group, request};
use calefact_analysis::result::TrialResult;

fn stoves() -> Vec<TrialResult> {
    let mut trials = Vec::new();
    for (stove, mean) in [("box", 0.33), ("rocket", 0.36)] {
        for (i, x) in exact(8, mean, 0.01).into_iter().enumerate() {
            trials.push(burn(&format!("{stove}{i}"), x, &[("stove", stove)]));
        }
    }
    trials
}

#[test]
fn an_odd_burn_is_named_and_kept() {
    let mut trials = stoves();
    let mut odd = burn("b17", 0.22, &[("stove", "rocket")]);
    odd.row.note = Some("door found open".into());
    trials.push(odd);
    let result = comparison(request("stove"), trials);
    assert_eq!(group(&result, "rocket").trials.len(), 9);
    insta::assert_snapshot!(result.remarks.join("\n"), @r"
    b17 is an odd burn (its note: door found open): thermal efficiency 13 standard deviations below what the others lead to expect (p below 0.001 among 17); it is kept
    without b17 the verdict would change on thermal efficiency, box against rocket: from no conclusion to lower
    ");
}

#[test]
fn both_results_of_an_excluded_burn_are_shown() {
    let mut trials = stoves();
    let mut out = burn("b18", 0.10, &[("stove", "rocket")]);
    out.row.exclude = Some("door found open".into());
    trials.push(out);
    let result = comparison(request("stove"), trials);
    close(group(&result, "rocket").mean.value, 0.36, 1e-12);
    insta::assert_snapshot!(result.remarks.join("\n"), @"1 burn left out: b18 (door found open). With it put back the verdict would change on thermal efficiency, box against rocket: from lower to no conclusion; the largest change of a mean is that of the rocket stove, thermal efficiency: 33 % instead of 36 %");
}
