//! Random-effects combination against published data sets and R metafor 4.6.0 output.

mod stats_support;

use calefact_stats::pooling::heterogeneity::q_profile;
use calefact_stats::pooling::{Heterogeneity, IntervalMethod, Study, Tau2Method, pool};
use stats_support::{agree, number, rows};
use std::collections::BTreeMap;

fn method(name: &str) -> Option<Tau2Method> {
    Some(match name {
        "FE" => Tau2Method::Fixed,
        "DL" => Tau2Method::DerSimonianLaird,
        "PM" => Tau2Method::PauleMandel,
        "HE" => Tau2Method::HedgesOlkin,
        "ML" => Tau2Method::MaximumLikelihood,
        "REML" => Tau2Method::Reml,
        "SJ" => Tau2Method::SidikJonkman,
        _ => return None,
    })
}

fn studies(rows: &[BTreeMap<String, String>], (by, value, variance): (&str, &str, &str), name: &str) -> Vec<Study> {
    let own = rows.iter().filter(|r| r[by] == name);
    own.map(|r| Study { value: number(r, value), variance: number(r, variance) }).collect()
}

/// Agreement to `tolerance` of the larger of the value and 1e-6 of the scale of the problem.
#[track_caller]
fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance * want.abs().max(1e-6), "{what}: got {got}, want {want}");
}

/// Seven published sets (Kacker 2004; BCG vaccine; Normand 1999; Viechtbauer 2005; CLASP), all estimators and intervals,
/// recomputed with an exact root and agreeing with the printed figures of their sources.
#[test]
fn published_sets() {
    let (Some(data), Some(want)) = (rows("meta/effects.csv"), rows("meta/results.csv")) else { return };
    for row in &want {
        let name = format!("{} {}", row["dataset"], row["method"]);
        let s = studies(&data, ("dataset", "yi", "vi"), &row["dataset"]);
        let tau2_method = method(&row["method"]).expect("known method");
        let run = |i| pool(&s, tau2_method, i, 0.95).expect("combined");
        let (z, hk, mkh) = (
            run(IntervalMethod::Normal),
            run(IntervalMethod::HartungKnapp),
            run(IntervalMethod::HartungKnappAtLeastOne),
        );
        assert_eq!(s.len(), number(row, "k") as usize);
        let tau2 = z.tau2.expect("several");
        near(&name, tau2, number(row, "tau2"), 1e-9);
        for (what, got) in [
            ("mu", z.mean),
            ("se", z.std_uncertainty),
            ("z_lo", z.interval.lower),
            ("z_hi", z.interval.upper),
            ("hksj_se", hk.std_uncertainty),
            ("hksj_lo", hk.interval.lower),
            ("hksj_hi", hk.interval.upper),
            ("mkh_se", mkh.std_uncertainty),
            ("mkh_lo", mkh.interval.lower),
            ("mkh_hi", mkh.interval.upper),
        ] {
            near(&format!("{name} {what}"), got, number(row, what), 1e-8);
        }
        if tau2_method != Tau2Method::Fixed {
            let k = s.len() as f64;
            let (hts, own) = (z.prediction_interval(k - 2.0, 0.95), hk.prediction_interval(k - 1.0, 0.95));
            let (hts, own) = (hts.expect("hts"), own.expect("hk"));
            near(&format!("{name} HTS"), hts.lower, number(row, "pi_HTS_lo"), 1e-8);
            near(&format!("{name} HTS"), hts.upper, number(row, "pi_HTS_hi"), 1e-8);
            near(&format!("{name} HK prediction"), own.lower, number(row, "pi_hksj_lo"), 1e-8);
            near(&format!("{name} HK prediction"), own.upper, number(row, "pi_hksj_hi"), 1e-8);
        }
        if let (Some(se), want) = (tau2_method.std_error(&s, tau2), number(row, "se_tau2")) {
            near(&format!("{name} se tau2"), se, want, 1e-8);
        }
    }
}

/// Q, both forms of I^2 and the Q-profile interval of the same sets.
#[test]
fn heterogeneity() {
    let (Some(data), Some(want)) = (rows("meta/effects.csv"), rows("meta/results.csv")) else { return };
    for row in &want {
        let s = studies(&data, ("dataset", "yi", "vi"), &row["dataset"]);
        let h = Heterogeneity::of(&s).expect("heterogeneity");
        near("Q", h.q, number(row, "Q"), 1e-12);
        near("p", h.p_value, number(row, "Q_p"), 1e-9);
        let tau2 = number(row, "tau2");
        let fixed = row["method"] == "FE";
        let i2 = if fixed { h.i2_from_q } else { h.i2_from_tau2(tau2) };
        near("I2", 100.0 * i2, number(row, "I2"), 1e-9);
        if !fixed {
            near("H2", h.h2(tau2), number(row, "H2"), 1e-9);
        }
        let i = q_profile(&s, 0.95).expect("profile");
        near("lower", i.lower, number(row, "Qprofile_lo"), 1e-7);
        near("upper", i.upper, number(row, "Qprofile_hi"), 1e-7);
    }
}

/// R metafor 4.6.0 on four designs (k = 5, 5, 10, 20); its likelihood iterations stop early, hence 1e-4 there.
#[test]
fn metafor() {
    let (Some(data), Some(want)) = (rows("meta/pymare_small_sample.csv"), rows("meta/metafor_reference_intercept.csv"))
    else {
        return;
    };
    for row in &want {
        let name = format!("{} {} {}", row["design"], row["method"], row["test"]);
        let s = studies(&data, ("case", "y", "v"), &row["design"]);
        let interval = match row["test"].as_str() {
            "z" => IntervalMethod::Normal,
            "knha" => IntervalMethod::HartungKnapp,
            _ => IntervalMethod::HartungKnappAtLeastOne,
        };
        let p = pool(&s, method(&row["method"]).expect("known"), interval, 0.95).expect("combined");
        let tolerance = if row["method"].ends_with("ML") { 2e-4 } else { 1e-9 };
        for (what, got) in [
            ("tau2", p.tau2.expect("several")),
            ("mu", p.mean),
            ("se", p.std_uncertainty),
            ("pval", p.p_value()),
            ("ci_lb", p.interval.lower),
            ("ci_ub", p.interval.upper),
        ] {
            near(&format!("{name} {what}"), got, number(row, what), tolerance);
        }
    }
}

/// Printed figures of the sources themselves.
#[test]
fn printed_figures() {
    let Some(data) = rows("meta/effects.csv") else { return };
    let run = |set: &str, m| {
        pool(&studies(&data, ("dataset", "yi", "vi"), set), m, IntervalMethod::Normal, 0.95).expect("combined")
    };
    // Viechtbauer's metafor documentation, BCG vaccine: -0.7145 (0.1798), tau^2 0.3132.
    let bcg = run("bcg_logRR", Tau2Method::Reml);
    assert!((bcg.mean + 0.7145).abs() < 5e-5 && (bcg.std_uncertainty - 0.1798).abs() < 5e-5);
    // Normand 1999, table IX: -14.0972 [-24.4454, -3.7490], tau^2 218.7216.
    let normand = run("normand1999_MD", Tau2Method::DerSimonianLaird);
    agree("tau2", normand.tau2.expect("several"), 218.7216, 1e-6);
    assert!((normand.interval.lower + 24.4454).abs() < 5e-5 && (normand.interval.upper + 3.7490).abs() < 5e-5);
    // DerSimonian & Kacker 2007, tables 3 and 4: tau .3681, mu -.3811, se .2060.
    let clasp = run("clasp_logOR", Tau2Method::PauleMandel);
    assert!((clasp.mean + 0.3811).abs() < 5e-5 && (clasp.std_uncertainty - 0.2060).abs() < 5e-5);
}
