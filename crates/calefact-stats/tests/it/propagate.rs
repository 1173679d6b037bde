//! Worked examples of the GUM and of EURACHEM, and closed forms for errors that two means share.

use crate::data::{agree, near};
use calefact_stats::dist::t_quantile;
use calefact_stats::propagate::first_order;
use calefact_stats::{ErrorSources, Shape, Source, SourceInfo, UncertainValue};

fn book(dofs: &[(&str, f64)]) -> ErrorSources {
    let info = |dof| SourceInfo { shared: false, dof, shape: Shape::Normal };
    dofs.iter().map(|(name, dof)| (Source::from(*name), info(*dof))).collect()
}

/// JCGM 100:2008 H.1, an end gauge in nm: l = l_s + d - l_s (da theta + alpha dtheta). Printed: u_c 32 nm, 16 degrees of
/// freedom, U99 93 nm. From unrounded inputs: 31.6639, 16.752; the 25.6 the Guide prints for d comes from rounding u(d) to
/// 9.7, unrounded it is 25.447.
#[test]
fn gum_h1_end_gauge() {
    let d = UncertainValue::new(215.0, "d-bar", 5.8).with("d1", 3.9).with("d2", 6.7);
    let book = book(&[("l_s", 18.0), ("d-bar", 24.0), ("d1", 5.0), ("d2", 8.0), ("da", 50.0), ("dtheta", 2.0)]);
    near(d.std_uncertainty(), 9.681_941_954, 1e-9);
    near(d.dof(&book), 25.447_250_78, 1e-8);
    let root3 = 3.0_f64.sqrt();
    let inputs = [
        UncertainValue::new(50_000_623.0, "l_s", 25.0),
        d,
        UncertainValue::new(0.0, "da", 1e-6 / root3),
        UncertainValue::new(-0.1, "theta-bar", 0.2).with("cycle", 0.5 / 2.0_f64.sqrt()),
        UncertainValue::new(11.5e-6, "alpha", 2e-6 / root3),
        UncertainValue::new(0.0, "dtheta", 0.05 / root3),
    ];
    let l = &first_order(&inputs, |x| vec![x[0] + x[1] - x[0] * (x[2] * x[3] + x[4] * x[5])])[0];
    near(l.value, 50_000_838.0, 0.5);
    near(l.std_uncertainty(), 31.663_879_11, 1e-6);
    near(l.dof(&book), 16.751_855_74, 1e-6);
    near(t_quantile(0.995, 16.0) * l.std_uncertainty(), 92.483_28, 1e-4);
    let part = |name: &str| l.parts.iter().find(|(s, _)| &**s == name).map_or(0.0, |(_, p)| p.abs());
    near(part("da"), 2.886_787, 1e-5);
    near(part("dtheta"), 16.599_027, 1e-5);
    near(part("alpha"), 0.0, 1e-9);
}

/// EURACHEM/CITAC QUAM:2012 A1, c = 1000 m P/V: 1002.7 mg/L, u 0.835; A2, c = 1000 R m P/(M V): 0.102136 mol/L, 0.0001005.
#[test]
fn eurachem_a1_and_a2() {
    let a1 = [
        UncertainValue::new(100.28, "mass", 0.05),
        UncertainValue::new(0.9999, "purity", 0.0001 / 3.0_f64.sqrt()),
        UncertainValue::new(100.0, "volume", 0.066_473_05),
    ];
    let c = &first_order(&a1, |x| vec![1000.0 * x[0] * x[1] / x[2]])[0];
    near(c.value, 1_002.699_72, 1e-9);
    near(c.std_uncertainty(), 0.835_199_2, 1e-6);
    let a2 = [
        UncertainValue::new(1.0, "repeatability", 0.0005),
        UncertainValue::new(0.3888, "mass", 1.224_744_871e-4),
        UncertainValue::new(1.0, "purity", 0.0005 / 3.0_f64.sqrt()),
        UncertainValue::new(204.2212, "molar mass", 0.003_765_302),
        UncertainValue::new(18.64, "titre", 0.013_638_182),
    ];
    let c = &first_order(&a2, |x| vec![1000.0 * x[0] * x[1] * x[2] / (x[3] * x[4])])[0];
    near(c.value, 0.102_136_159_7, 1e-10);
    near(c.std_uncertainty(), 1.005e-4, 5e-8);
}

/// Without any random part, a shared offset leaves a difference and a shared gain a ratio without uncertainty.
#[test]
fn what_cancels_leaves_nothing() {
    let reading = |v: f64| UncertainValue::new(v, "offset", 0.03);
    let difference = UncertainValue::combine(&[(1.0, &reading(1.25)), (-1.0, &reading(1.0))]);
    assert!(difference.std_uncertainty() <= 0.0);
    let out = &first_order(&[reading(1.25), reading(1.0)], |x| vec![x[0] - x[1], x[0] / x[1]]);
    near(out[0].std_uncertainty(), 0.0, 1e-16);
    let equal = &first_order(&[reading(1.0), reading(1.0)], |x| vec![x[0] / x[1]])[0];
    assert!(equal.parts.is_empty());
    let gain = |v: f64| UncertainValue::new(v, "gain", 0.02 * v);
    let ratio = &first_order(&[gain(1.25), gain(1.0)], |x| vec![x[0] / x[1]])[0];
    near(ratio.std_uncertainty(), 0.0, 1e-15);
}

#[test]
fn an_output_that_is_not_defined_stays_so() {
    let x = [UncertainValue::new(0.1, "s", 0.2)];
    let out = first_order(&x, |x| vec![libm::log(x[0]), (-1.0_f64).sqrt() * x[0], 2.0 * x[0]]);
    // Defined on one side only: the change on that side, ln 0.3 - ln 0.1.
    near(out[0].std_uncertainty(), libm::log(3.0), 1e-12);
    assert!(out[1].value.is_nan() && out[1].parts.is_empty());
    near(out[2].std_uncertainty(), 0.4, 1e-15);
}

/// Inputs A, B, offset, gain; A = 1.250 (s 0.050, n 5), B = 1.000 (s 0.040, n 3), u_b 0.030, u_g 0.020.
fn two_means(offset: f64, gain: f64) -> [UncertainValue; 4] {
    [
        UncertainValue::new(1.25, "a", 0.05 / 5.0_f64.sqrt()),
        UncertainValue::new(1.0, "b", 0.04 / 3.0_f64.sqrt()),
        UncertainValue::new(0.0, "offset", offset),
        UncertainValue::new(0.0, "gain", gain),
    ]
}

/// Computed with the Python package `uncertainties` 3.2.3: u of A, B, A - B, A / B and their mean with a shared offset, a
/// shared gain and both. Half the change over a whole standard uncertainty differs from the derivative by its cube: 4e-4 of
/// a part of 2 %.
#[test]
fn difference_ratio_and_mean_of_two_means() {
    let model = |x: &[f64]| {
        let correct = |reading: f64| (reading - x[2]) / (1.0 + x[3]);
        let (a, b) = (correct(x[0]), correct(x[1]));
        vec![a, b, a - b, a / b, 0.5 * (a + b)]
    };
    for (offset, gain, wanted) in [
        (0.03, 0.0, [0.037_416_573_9, 0.037_859_389_0, 0.032_145_502_5, 0.037_277_115_4, 0.034_034_296_4]),
        (0.0, 0.02, [0.033_541_019_7, 0.030_550_504_6, 0.032_532_035_5, 0.036_514_837_2, 0.027_651_100_0]),
        (0.03, 0.02, [0.045, 0.042_817_441_9, 0.032_532_035_5, 0.037_277_115_4, 0.040_799_305_5]),
    ] {
        for (got, want) in first_order(&two_means(offset, gain), model).iter().zip(wanted) {
            agree("u", got.std_uncertainty(), want, 1.5e-3);
        }
    }
}

/// u^2 of a mean of n readings with s = 0.05 and a shared u = 0.03 is s^2 / n + 0.03^2: closed form.
#[test]
fn a_shared_offset_stays_in_a_mean() {
    for n in [1_u32, 2, 3, 5, 10, 100] {
        let reading = |i: u32| UncertainValue::new(1.0, format!("repeat {i}"), 0.05).with("offset", 0.03);
        let repeats: Vec<UncertainValue> = (0..n).map(reading).collect();
        let terms: Vec<(f64, &UncertainValue)> = repeats.iter().map(|t| (1.0 / f64::from(n), t)).collect();
        let mean = UncertainValue::combine(&terms);
        agree("u", mean.std_uncertainty(), (0.0025 / f64::from(n) + 0.0009).sqrt(), 1e-12);
        agree("mean", mean.value, 1.0, 1e-14);
    }
}

/// Heat into water, Q = m c (T2 - T1), 4186 J/(kg K), one thermometer (offset 0.5 K, gain 0.5 %, 0.10 K a reading) and one
/// balance (0.2 % of the mass): 5 kg from 20 to 95 degC, and a second run of 4.8 kg from 22 to 93 degC. Closed forms: the
/// offset cancels, in the ratio gain and balance too; computed with `uncertainties` 3.2.3.
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
    agree("Q", out[0].value, 1_569_750.0, 1e-12);
    agree("u(Q)", out[0].std_uncertainty(), 8_956.597_278_682_346, 1e-9);
    agree("ratio", out[1].value, 1.100_352_112_676_056_3, 1e-12);
    agree("u(ratio)", out[1].std_uncertainty(), 0.003_018_059_913_750_54, 1e-5);
    agree("difference", out[2].value, 143_161.2, 1e-9);
    agree("u(difference)", out[2].std_uncertainty(), 4_174.933_410_627_978, 1e-9);
}
