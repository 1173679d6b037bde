//! Published comparisons of groups: NIST/SEMATECH e-Handbook cases, Games-Howell, Tukey-Kramer, equivalence, Holm.

mod stats_support;

use calefact_stats::contrast::{Contrast, ContrastKind};
use calefact_stats::equivalence::{Margin, two_one_sided};
use calefact_stats::group::Summary;
use calefact_stats::multiplicity::Adjustment;
use calefact_stats::tukey::{Pair, games_howell, tukey_kramer};
use calefact_stats::welch::{Mean, difference, pooled_difference};
use stats_support::{Results, agree, number, rows, split};

fn summaries(groups: &[(String, Vec<f64>)]) -> Vec<Summary> {
    groups.iter().filter_map(|(_, v)| Summary::of(v)).collect()
}

fn welch(a: &Summary, b: &Summary, level: f64) -> Contrast {
    difference(Mean::of(a).expect("scatter"), Mean::of(b).expect("scatter"), level)
}

/// e-Handbook 1.3.5.3 (data AUTO83B); scipy.stats.ttest_ind for the further digits.
#[test]
fn auto83b_two_sample_t() {
    let (Some(data), Some(r)) = (rows("groups/auto83b.csv"), Results::read("groups/results.csv")) else { return };
    let g = summaries(&split(&data, "group", "mpg"));
    let get = |q: &str| r.get("AUTO83B", q);
    for (form, c) in [("Welch", welch(&g[0], &g[1], 0.95)), ("pooled", pooled_difference(&g[0], &g[1], 0.95).unwrap())]
    {
        agree("t", c.statistic(), get(&format!("{form} t")), 1e-12);
        agree("df", c.dof, get(&format!("{form} df")), 1e-11);
        agree("p", c.p_value, get(&format!("{form} p")), 1e-9);
        agree("low", c.interval.lower, get(&format!("{form} CI lo")), 1e-9);
        agree("high", c.interval.upper, get(&format!("{form} CI hi")), 1e-9);
    }
}

/// e-Handbook 1.3.5.2 (data ZARR13): intervals of the mean at six levels.
#[test]
fn zarr13_mean_intervals() {
    let (Some(data), Some(r)) = (rows("groups/zarr13.csv"), Results::read("groups/ehandbook_results.csv")) else {
        return;
    };
    let values: Vec<f64> = data.iter().map(|row| number(row, "heat_flow")).collect();
    let s = Summary::of(&values).unwrap();
    agree("mean", s.mean, r.get("ZARR13", "mean"), 1e-14);
    agree("sd", s.scatter.unwrap().sd, r.get("ZARR13", "sd"), 1e-10);
    for level in ["0.5", "0.75", "0.9", "0.95", "0.99", "0.999"] {
        let i = s.mean_interval(level.parse().unwrap()).unwrap();
        agree(level, i.lower, r.get("ZARR13", &format!("{level} CI lo")), 1e-11);
        agree(level, i.upper, r.get("ZARR13", &format!("{level} CI hi")), 1e-11);
    }
}

/// e-Handbook 1.3.5.8 (data GEAR): interval of the standard deviation.
#[test]
fn gear_standard_deviation() {
    let (Some(data), Some(r)) = (rows("groups/gear.csv"), Results::read("groups/ehandbook_results.csv")) else {
        return;
    };
    let values: Vec<f64> = data.iter().map(|row| number(row, "diameter")).collect();
    let s = Summary::of(&values).unwrap();
    for level in ["0.95", "0.99"] {
        let i = s.sd_interval(level.parse().unwrap()).unwrap();
        agree(level, i.lower, r.get("GEAR", &format!("{level} sd CI lo")), 1e-8);
        agree(level, i.upper, r.get("GEAR", &format!("{level} sd CI hi")), 1e-8);
    }
}

fn check_pair(r: &Results, case: &str, label: &str, sign: f64, pair: &Pair) {
    let d = r.get(case, &format!("diff {label}"));
    agree("difference", sign * pair.contrast.value(), d, 1e-12);
    let (low, high) = (sign * pair.simultaneous.lower, sign * pair.simultaneous.upper);
    agree("low", low.min(high), r.get(case, &format!("CI lo {label}")), 1e-7);
    agree("high", low.max(high), r.get(case, &format!("CI hi {label}")), 1e-7);
    agree("p", pair.p_adjusted, r.get(case, &format!("p {label}")), 1e-7);
}

/// e-Handbook 7.4.7.1: four groups of five, Tukey's intervals; digits by scipy.stats.tukey_hsd.
#[test]
fn e_handbook_tukey() {
    let (Some(data), Some(r)) = (rows("groups/ehandbook_74_groups.csv"), Results::read("groups/results.csv")) else {
        return;
    };
    let pairs = tukey_kramer(&summaries(&split(&data, "group", "y")), 0.95).unwrap();
    for pair in &pairs {
        check_pair(&r, "EH_7.4.7.1_Tukey4", &format!("{}-{}", pair.b + 1, pair.a + 1), -1.0, pair);
    }
    let printed = [(0.29, 4.47), (1.13, 5.31), (-1.93, 2.25), (-1.25, 2.93), (-4.31, -0.13), (-5.15, -0.97)];
    for (pair, (low, high)) in pairs.iter().zip(printed) {
        assert!((pair.simultaneous.upper + low).abs() < 0.0051 && (pair.simultaneous.lower + high).abs() < 0.0051);
    }
}

/// SAS and MATLAB output for groups of 8, 5 and 5 as stored in scipy's tests; same groups for Games-Howell.
const UNEQUAL: [&[f64]; 3] = [
    &[24.5, 23.5, 26.28, 26.4, 27.1, 29.9, 30.1, 30.1],
    &[28.4, 34.2, 29.5, 32.2, 30.1],
    &[26.1, 28.3, 24.3, 26.2, 27.8],
];

#[test]
fn tukey_kramer_and_games_howell_with_unequal_numbers() {
    let Some(r) = Results::read("groups/results.csv") else { return };
    let groups: Vec<Summary> = UNEQUAL.iter().filter_map(|g| Summary::of(g)).collect();
    for pair in tukey_kramer(&groups, 0.95).unwrap() {
        check_pair(&r, "TukeyKramer_unequal_n", &format!("{}-{}", pair.a + 1, pair.b + 1), 1.0, &pair);
    }
    for pair in games_howell(&groups, 0.95).unwrap() {
        check_pair(&r, "GH_tukey_unequal", &format!("{}-{}", pair.a, pair.b), 1.0, &pair);
    }
}

/// Penguin body mass by species, pingouin.pairwise_gameshowell.
#[test]
fn games_howell_penguins() {
    let (Some(data), Some(want)) = (rows("groups/penguins_mass.csv"), rows("groups/penguins_gameshowell_pingouin.csv"))
    else {
        return;
    };
    let mut groups = split(&data, "species", "body_mass_g");
    groups.sort_by(|a, b| a.0.cmp(&b.0));
    for (pair, row) in games_howell(&summaries(&groups), 0.95).unwrap().iter().zip(&want) {
        assert_eq!((&groups[pair.a].0, &groups[pair.b].0), (&row["A"], &row["B"]));
        agree("difference", pair.contrast.value(), number(row, "diff"), 1e-11);
        agree("se", pair.contrast.std_uncertainty(), number(row, "se"), 1e-12);
        agree("df", pair.contrast.dof, number(row, "df"), 1e-12);
        assert!((pair.p_adjusted - number(row, "pval")).abs() < 1e-9);
    }
}

/// Stress reduction data, rows 4 to 29, 99 % intervals by R rstatix as stored in statsmodels' tests.
#[test]
fn games_howell_at_99_percent() {
    let (Some(data), Some(r)) = (rows("groups/stress_reduction.csv"), Results::read("groups/results.csv")) else {
        return;
    };
    let groups = split(&data[3..29], "treatment", "stress_reduction");
    let case = "stress_rows4to29_GH99";
    for pair in games_howell(&summaries(&groups), 0.99).unwrap() {
        let (a, b) = (&groups[pair.a].0, &groups[pair.b].0);
        let forward = matches!((a.as_str(), b.as_str()), ("mental" | "physical", "medical") | ("physical", "mental"));
        let (label, sign) = if forward { (format!("{a}-{b}"), 1.0) } else { (format!("{b}-{a}"), -1.0) };
        agree("difference", sign * pair.contrast.value(), r.get(case, &format!("{label} diff")), 1e-12);
        let ends = [sign * pair.simultaneous.lower, sign * pair.simultaneous.upper];
        agree("low", ends[0].min(ends[1]), r.get(case, &format!("{label} lo99")), 1e-6);
        agree("high", ends[0].max(ends[1]), r.get(case, &format!("{label} hi99")), 1e-6);
        agree("p", pair.p_adjusted, r.get(case, &format!("{label} p")), 1e-6);
    }
}

/// R equivalence::tost and statsmodels ttost_ind, clinic data, margins -0.6 to 0.6.
#[test]
fn two_one_sided_tests_of_the_clinic_data() {
    let (Some(data), Some(r)) = (rows("groups/tost_clinic.csv"), Results::read("groups/results.csv")) else { return };
    let margin = Margin { lower: -0.6, upper: 0.6 };
    for variable in ["var1", "var2"] {
        let values: Vec<f64> = data.iter().map(|row| number(row, variable)).collect();
        let (a, b) = (Summary::of(&values[..15]).unwrap(), Summary::of(&values[15..]).unwrap());
        for (form, c) in [("welch", welch(&a, &b, 0.95)), ("pooled", pooled_difference(&a, &b, 0.95).unwrap())] {
            let case = format!("TOST_{variable}_{form}");
            let e = two_one_sided(&c, margin, 0.05).unwrap();
            agree("df", c.dof, r.get(&case, "df"), 1e-11);
            agree("p", e.p_value, r.get(&case, "p TOST"), 1e-9);
            agree("p lower", e.p_lower, r.get(&case, "p lower"), 1e-8);
            agree("p upper", e.p_upper, r.get(&case, "p upper"), 1e-9);
            agree("low", e.interval.lower, r.get(&case, "90% CI lo"), 1e-9);
            agree("high", e.interval.upper, r.get(&case, "90% CI hi"), 1e-9);
        }
    }
}

/// The same data as a ratio: logarithms, margins 1/1.25 to 1.25.
#[test]
fn two_one_sided_tests_of_a_ratio() {
    let (Some(data), Some(r)) = (rows("groups/tost_clinic.csv"), Results::read("groups/results.csv")) else { return };
    let logs: Vec<f64> = data.iter().map(|row| number(row, "var1").ln()).collect();
    let (a, b) = (Summary::of(&logs[..15]).unwrap(), Summary::of(&logs[15..]).unwrap());
    let c = Contrast { kind: ContrastKind::Ratio, ..welch(&a, &b, 0.95) };
    let e = two_one_sided(&c, Margin { lower: 0.8, upper: 1.25 }, 0.05).unwrap();
    agree("df", c.dof, r.get("TOST_var1_log_ratio_welch", "df"), 1e-11);
    agree("p", e.p_value, r.get("TOST_var1_log_ratio_welch", "p TOST"), 1e-8);
    agree("low", e.interval.lower.ln(), -0.081_985_193_0, 1e-8);
    agree("high", e.interval.upper.ln(), 0.168_229_856_7, 1e-8);
}

/// Ten p-values adjusted by R multtest and statsmodels multipletests.
#[test]
fn adjusted_p_values() {
    let Some(data) = rows("groups/holm_pval0_adjusted.csv") else { return };
    let column = |name: &str| -> Vec<f64> { data.iter().map(|r| number(r, name)).collect() };
    let raw = column("p_raw");
    for (method, name) in [
        (Adjustment::Bonferroni, "p_bonferroni"),
        (Adjustment::Holm, "p_holm"),
        (Adjustment::HolmSidak, "p_holm-sidak"),
    ] {
        for (got, want) in method.p_values(&raw).iter().zip(column(name)) {
            agree(name, *got, want, 1e-12);
        }
    }
}
