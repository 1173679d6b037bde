//! Errors that two results share: closed forms and an independent package (Python `uncertainties` 3.2.3) against the
//! first-order propagation and the Monte Carlo with shared draws.

mod reference_table;

use calefact_stats::monte_carlo::{McSettings, monte_carlo};
use calefact_stats::propagate::{covariance, first_order};
use calefact_stats::{ErrorSources, UncertainValue};
use reference_table::{number, table};

/// Value of a row of the reference results; `None` when the data are absent.
fn want(case: &str, quantity: &str) -> Option<f64> {
    let rows = table("propagation/results.csv")?;
    let row = rows.iter().find(|r| r["case"] == case && r["quantity"] == quantity);
    Some(number(row.unwrap_or_else(|| panic!("no row {case}, {quantity}")), "value"))
}

#[track_caller]
fn close(got: f64, case: &str, quantity: &str, rel: f64) {
    if let Some(want) = want(case, quantity) {
        assert!((got - want).abs() <= rel * want.abs(), "{case}, {quantity}: {got} against {want}");
    }
}

/// Inputs A, B, offset, gain; A = 1.250 (s 0.050, n 5), B = 1.000 (s 0.040, n 3), u_b 0.030, u_g 0.020.
fn inputs(offset: f64, gain: f64) -> [UncertainValue; 4] {
    [
        UncertainValue::new(1.25, "a", 0.05 / 5.0_f64.sqrt()),
        UncertainValue::new(1.0, "b", 0.04 / 3.0_f64.sqrt()),
        UncertainValue::new(0.0, "offset", offset),
        UncertainValue::new(0.0, "gain", gain),
    ]
}

/// Corrected A and B, their difference, ratio and mean.
fn model(x: &[f64]) -> Vec<f64> {
    let correct = |reading: f64| (reading - x[2]) / (1.0 + x[3]);
    let (a, b) = (correct(x[0]), correct(x[1]));
    vec![a, b, a - b, a / b, 0.5 * (a + b)]
}

/// Half the change over a whole standard uncertainty differs from the derivative by its cube: 4e-4 of a part of 2 %.
#[test]
fn difference_ratio_and_mean_of_two_means() {
    for (case, offset, gain) in [("offset_only", 0.03, 0.0), ("gain_only", 0.0, 0.02), ("offset+gain", 0.03, 0.02)] {
        let out = first_order(&inputs(offset, gain), model);
        let rel = 1.5e-3;
        close(out[0].std_uncertainty(), case, "u(A) total", rel);
        close(out[1].std_uncertainty(), case, "u(B) total", rel);
        close(covariance(&out[0], &out[1]), case, "cov(A,B)", rel);
        close(out[2].std_uncertainty(), case, "difference A-B u (shared, correct)", rel);
        close(out[3].std_uncertainty(), case, "ratio A/B u (shared, correct)", rel);
        close(out[4].std_uncertainty(), case, "mean (A+B)/2 u (shared, correct)", rel);
    }
}

/// Parts combined linearly carry no such difference: the offset cancels to the last digit.
#[test]
fn a_shared_offset_in_linear_combinations() {
    let reading = |v: f64, name: &str, u: f64| UncertainValue::new(v, name, u).with("offset", 0.03);
    let a = reading(1.25, "a", 0.05 / 5.0_f64.sqrt());
    let b = reading(1.0, "b", 0.04 / 3.0_f64.sqrt());
    let u = |wa: f64, wb: f64| UncertainValue::combine(&[(wa, &a), (wb, &b)]).std_uncertainty();
    close(u(1.0, -1.0), "offset_only", "difference A-B u closed form", 1e-14);
    close(u(0.5, 0.5), "offset_only", "mean (A+B)/2 u closed form", 1e-14);
    for n in [1_u32, 2, 3, 5, 10, 100] {
        let repeats: Vec<UncertainValue> = (0..n).map(|i| reading(1.0, &format!("repeat {i}"), 0.05)).collect();
        let terms: Vec<(f64, &UncertainValue)> = repeats.iter().map(|t| (1.0 / f64::from(n), t)).collect();
        let u = UncertainValue::combine(&terms).std_uncertainty();
        close(u, "averaging", &format!("u(mean of n={n}), s=0.05, shared u=0.03"), 1e-12);
    }
}

/// Monte Carlo with shared draws, to its own error and that of 4 million draws elsewhere (0.032544, 0.037406).
#[test]
fn monte_carlo_agrees() {
    let settings = McSettings { digits: 4, max_trials: 400_000, ..McSettings::default() };
    let out = monte_carlo(&inputs(0.03, 0.02), &ErrorSources::new(), &settings, model);
    close(out[2].std_uncertainty, "offset+gain", "MC u(A-B)", 0.006);
    close(out[3].std_uncertainty, "offset+gain", "MC u(A/B)", 0.006);
    close(out[3].value, "offset+gain", "MC mean(A/B)", 0.000_2);
}

/// Heat into water, Q = m c (T2 - T1), 4186 J/(kg K), one thermometer (offset 0.5 K, gain 0.5 %, 0.10 K a reading) and one
/// balance (0.010 kg in 5 kg, as a share): 5 kg from 20 to 95 degC, and a second run of 4.8 kg from 22 to 93 degC.
#[test]
fn heat_with_one_thermometer_and_one_balance() {
    let temperature =
        |v: f64, name: &str| UncertainValue::new(v, name, 0.1).with("offset", 0.5).with("gain", 0.005 * v);
    let mass = |v: f64| UncertainValue::new(v, "balance", 0.002 * v);
    let inputs = [
        mass(5.0),
        temperature(20.0, "1 start"),
        temperature(95.0, "1 end"),
        mass(4.8),
        temperature(22.0, "2 start"),
        temperature(93.0, "2 end"),
    ];
    let out = first_order(&inputs, |x| {
        let (first, second) = (x[0] * 4186.0 * (x[2] - x[1]), x[3] * 4186.0 * (x[5] - x[4]));
        vec![first, first / second, first - second]
    });
    let case = "heat_Q=m*cp*(T2-T1)";
    close(out[0].value, case, "Q_J", 1e-12);
    close(out[0].std_uncertainty() / out[0].value, case, "u(Q)/Q", 1e-9);
    close(out[1].value, case, "ratio Q1/Q2 (second run m=4.8, T1=22, T2=93)", 1e-12);
    close(out[1].std_uncertainty(), case, "u(ratio) same thermometer and balance", 1e-5);
    close(out[2].value, case, "difference Q1-Q2", 1e-9);
    close(out[2].std_uncertainty(), case, "u(difference) same instruments", 1e-9);
}
