//! Published comparisons of groups: Welch's test, Tukey's pairs, two one-sided tests, Holm.

use crate::data::{agree, number, only, table};
use calefact_stats::contrast::{Contrast, ContrastKind};
use calefact_stats::equivalence::{Margin, two_one_sided};
use calefact_stats::group::GroupMean;
use calefact_stats::mixed::MixedFit;
use calefact_stats::{ErrorSources, UncertainValue, holm, tukey, welch};
use nalgebra::DMatrix;

fn group(values: &[f64], scatter: &str) -> GroupMean {
    let trials: Vec<UncertainValue> = values.iter().map(|v| UncertainValue::exact(*v)).collect();
    GroupMean::from_trials(&trials, &ErrorSources::new(), scatter).expect("trials")
}

fn compare(kind: ContrastKind, a: &[f64], b: &[f64], confidence: f64) -> Contrast {
    welch::between_groups(kind, &group(a, "a"), &group(b, "b"), &ErrorSources::new(), confidence).expect("scatter")
}

/// NIST/SEMATECH e-Handbook 1.3.5.3 (data AUTO83B); scipy.stats.ttest_ind for the further digits.
#[test]
fn fuel_use_of_cars() {
    let rows = table("nist-handbook/cars.csv");
    let own = |origin: &str| only(&rows, "origin", origin).iter().map(|r| number(r, "mpg")).collect::<Vec<f64>>();
    let c = compare(ContrastKind::Difference, &own("US"), &own("Japan"), 0.95);
    agree("t", c.effect / c.effect_uncertainty, -12.946_273_274_932_006, 1e-12);
    agree("df", c.dof, 136.874_976_672_583_36, 1e-11);
    agree("p", c.p_value, 1.570_854_784_295_441e-25, 1e-9);
    agree("low", c.interval.lower, -11.915_248_094_637_592, 1e-11);
    agree("high", c.interval.upper, -8.757_620_595_312_082, 1e-11);
}

/// All pairs of group means with one common variance.
fn all_pairs(groups: &[&[f64]], check: impl Fn((usize, usize), &Contrast)) {
    let y: Vec<f64> = groups.concat();
    let of_row: Vec<usize> = groups.iter().enumerate().flat_map(|(k, g)| vec![k; g.len()]).collect();
    let x = DMatrix::from_fn(y.len(), groups.len(), |i, j| f64::from(u8::from(of_row[i] == j)));
    let fit = MixedFit::new(&y, &x, None).expect("fit");
    for a in 0..groups.len() {
        for b in a + 1..groups.len() {
            let mut l = vec![0.0; groups.len()];
            (l[a], l[b]) = (-1.0, 1.0);
            check((a, b), &fit.contrast(&l, ContrastKind::Difference, 0.95).expect("contrast"));
        }
    }
}

/// Difference b - a, interval and p of a pair, as another program gives them.
type Wanted = ((usize, usize), [f64; 4]);

#[track_caller]
fn check_pairs(groups: &[&[f64]], wanted: &[Wanted]) {
    all_pairs(groups, |pair, contrast| {
        let [difference, low, high, p] = wanted.iter().find(|w| w.0 == pair).expect("pair").1;
        let interval = tukey::simultaneous_interval(contrast, groups.len(), 0.95);
        agree("difference", contrast.value(), difference, 1e-10);
        agree("low", interval.lower, low, 1e-7);
        agree("high", interval.upper, high, 1e-7);
        agree("p", tukey::adjusted_p(contrast, groups.len()), p, 1e-7);
    });
}

/// NIST/SEMATECH e-Handbook 7.4.7.1, four groups of five; digits by scipy.stats.tukey_hsd.
#[test]
fn tukey_with_equal_numbers() {
    let groups: [&[f64]; 4] = [
        &[6.9, 5.4, 5.8, 4.6, 4.0],
        &[8.3, 6.8, 7.8, 9.2, 6.5],
        &[8.0, 10.5, 8.1, 6.9, 9.3],
        &[5.8, 3.8, 6.1, 5.6, 6.2],
    ];
    check_pairs(
        &groups,
        &[
            ((0, 1), [2.38, 0.292_631_609_17, 4.467_368_390_83, 0.022_793_380_009_3]),
            ((0, 2), [3.22, 1.132_631_609_17, 5.307_368_390_83, 0.002_210_821_923_1]),
            ((0, 3), [0.16, -1.927_368_390_83, 2.247_368_390_83, 0.996_121_079_613]),
            ((1, 2), [0.84, -1.247_368_390_83, 2.927_368_390_83, 0.664_464_902_363]),
            ((1, 3), [-2.22, -4.307_368_390_83, -0.132_631_609_17, 0.035_154_479_035]),
            ((2, 3), [-3.06, -5.147_368_390_83, -0.972_631_609_17, 0.003_450_556_185_7]),
        ],
    );
}

/// Groups of unequal size of the engineering data in scipy's tests, by scipy.stats.tukey_hsd.
#[test]
fn tukey_with_unequal_numbers() {
    let groups: [&[f64]; 3] = [
        &[24.5, 23.5, 26.28, 26.4, 27.1, 29.9, 30.1, 30.1],
        &[28.4, 34.2, 29.5, 32.2, 30.1],
        &[26.1, 28.3, 24.3, 26.2, 27.8],
    ];
    check_pairs(
        &groups,
        &[
            ((0, 1), [3.645, 0.267_929_374_192, 7.022_070_625_808, 0.033_714_984_398_3]),
            ((0, 2), [-0.695, -4.072_070_625_808, 2.682_070_625_808, 0.855_722_673_293]),
            ((1, 2), [-4.34, -8.086_523_477_604, -0.593_476_522_396, 0.022_590_470_164_3]),
        ],
    );
}

/// Clinic data of statsmodels' tests, first and second group of 15.
#[expect(clippy::approx_constant, reason = "3.14 is a figure of the data")]
const CLINIC: [[f64; 15]; 4] = [
    [2.84, 2.51, 2.41, 2.95, 3.14, 3.79, 4.14, 3.85, 3.02, 3.45, 5.37, 3.81, 4.19, 3.16, 3.84],
    [2.6, 2.82, 2.18, 3.46, 4.01, 3.04, 3.47, 4.06, 2.91, 3.59, 4.51, 3.16, 3.86, 3.31, 3.02],
    [4.0, 3.26, 4.14, 3.42, 3.25, 4.34, 4.97, 4.31, 3.11, 3.41, 5.02, 4.21, 4.59, 5.3, 4.32],
    [3.76, 3.66, 3.65, 3.6, 3.48, 2.87, 3.24, 3.92, 3.99, 4.21, 4.21, 3.31, 3.61, 2.97, 2.73],
];

/// R equivalence::tost and statsmodels ttost_ind, margins -0.6 to 0.6, Welch's form; the other way round the lower margin
/// decides.
#[test]
fn two_one_sided_tests_of_the_clinic_data() {
    let margin = Margin { lower: -0.6, upper: 0.6 };
    for (a, b, p) in [(0, 1, 0.048_530_839_762_37), (2, 3, 0.431_793_681_259_48)] {
        for (a, b) in [(a, b), (b, a)] {
            let c = compare(ContrastKind::Difference, &CLINIC[a], &CLINIC[b], 0.90);
            agree("p", two_one_sided(&c, margin).expect("margin"), p, 1e-9);
        }
    }
}

/// The same data as a ratio of geometric means: margins 1/1.25 to 1.25; p by statsmodels, 90 % interval of the logarithm.
#[test]
fn two_one_sided_tests_of_a_ratio() {
    let logs = |values: &[f64]| values.iter().map(|v| libm::log(*v)).collect::<Vec<f64>>();
    let c = compare(ContrastKind::Difference, &logs(&CLINIC[0]), &logs(&CLINIC[1]), 0.90);
    agree("low", c.interval.lower, -0.081_985_193_0, 1e-8);
    agree("high", c.interval.upper, 0.168_229_856_7, 1e-8);
    let c = Contrast { kind: ContrastKind::Ratio, ..c };
    agree("p", two_one_sided(&c, Margin { lower: 0.8, upper: 1.25 }).expect("margin"), 0.010_470_855_931_389, 1e-8);
}

/// Ten p-values of the R package multtest, adjusted there and by statsmodels multipletests.
#[test]
fn ten_p_values_by_holm() {
    let raw = [
        0.838_541_367_553,
        0.642_193_923_795,
        0.680_845_947_633,
        0.967_833_824_309,
        0.716_269_382_38,
        0.177_096_952_723,
        5.236_567_772_08e-5,
        0.020_273_268_879_8,
        0.000_281_405_061_98,
        0.014_987_731_079_6,
    ];
    let (a, b) = (0.141_912_882_158_6, 0.119_901_848_636_8);
    let wanted = [1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 0.000_523_656_777_208, a, 0.002_532_645_557_82, b];
    for (got, want) in holm::adjusted_p(&raw).iter().zip(wanted) {
        agree("p", *got, want, 1e-12);
    }
}
