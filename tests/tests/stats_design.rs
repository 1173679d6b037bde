//! Analysis of variance and covariance: NIST StRD sets, e-Handbook 7.4, an ANCOVA with adjusted means, SAS's two-way case.

mod stats_support;

use calefact_stats::anova::{bartlett, brown_forsythe_means, levene, one_way, welch_anova};
use calefact_stats::contrast::ContrastKind;
use calefact_stats::design::{
    Covariate, Design, Factor, SumOfSquares, Variable, effect_tests, marginal_means, pairwise,
};
use calefact_stats::group::Summary;
use calefact_stats::mixed::{Criterion, DofMethod, MixedFit};
use stats_support::{Results, agree, number, rows, split};
use std::collections::BTreeMap;

fn slices(groups: &[(String, Vec<f64>)]) -> Vec<&[f64]> {
    groups.iter().map(|(_, v)| v.as_slice()).collect()
}

fn summaries(groups: &[(String, Vec<f64>)]) -> Vec<Summary> {
    groups.iter().filter_map(|(_, v)| Summary::of(v)).collect()
}

fn factor(data: &[BTreeMap<String, String>], name: &str) -> Variable {
    let labels: Vec<&str> = data.iter().map(|r| r[name].as_str()).collect();
    Variable::Factor(Factor::from_labels(name, &labels))
}

/// NIST StRD one-way sets, certified values; the stored decimals leave only about 9 or 3 digits in the harder sets.
#[test]
fn nist_anova() {
    let Some(certified) = rows("nist_anova/certified.csv") else { return };
    let mut seen = 0;
    for row in &certified {
        let set = &row["dataset"];
        if matches!(set.as_str(), "SmLs03" | "SmLs06" | "SmLs09") {
            continue;
        }
        let Some(data) = rows(&format!("nist_anova/{set}.csv")) else { return };
        let columns: Vec<String> = data[0].keys().cloned().collect();
        assert_eq!(columns.len(), 2, "{columns:?}");
        let (by, value) = if columns[0].starts_with(['y', 'r', 'v']) { (1, 0) } else { (0, 1) };
        let groups = split(&data, &columns[by], &columns[value]);
        let a = one_way(&slices(&groups)).expect("analysis");
        let tolerance = match row["difficulty"].as_str() {
            "Lower" => 1e-11,
            "Average" => 2e-7,
            _ => 2e-1,
        };
        agree(&format!("{set} F"), a.test.f, number(row, "F"), tolerance);
        agree(&format!("{set} between"), a.between_squares, number(row, "SS_between"), tolerance);
        agree(&format!("{set} sd"), a.residual_sd(), number(row, "resid_sd"), tolerance);
        agree(&format!("{set} R2"), a.r_squared(), number(row, "R2"), tolerance);
        seen += 1;
    }
    assert_eq!(seen, 8);
}

/// e-Handbook 7.4.3 with three groups and 7.4.7.1 with four: Fisher, Welch, Brown-Forsythe, Bartlett, Levene.
#[test]
fn e_handbook_74() {
    let (Some(data), Some(r)) = (rows("groups/ehandbook_74_groups.csv"), Results::read("groups/results.csv")) else {
        return;
    };
    let four = split(&data, "group", "y");
    let three = &four[..3];
    let get = |q: &str| r.get("EH_7.4.3_three_groups", q);
    let a = one_way(&slices(three)).expect("three");
    agree("F", a.test.f, get("F"), 1e-12);
    agree("p", a.test.p_value, get("p"), 1e-10);
    let w = welch_anova(&summaries(three)).expect("welch");
    agree("Welch F", w.f, get("Welch F"), 1e-12);
    agree("Welch df2", w.denominator_dof, get("Welch df2"), 1e-12);
    agree("Welch p", w.p_value, get("Welch p"), 1e-10);
    let b = brown_forsythe_means(&summaries(three)).expect("F*");
    agree("F*", b.f, get("Brown-Forsythe F*"), 1e-12);
    agree("F* df2", b.denominator_dof, get("Brown-Forsythe df2"), 1e-12);
    // statsmodels' p for F* uses other numerator degrees of freedom (Mehrotra 1997), so it is not compared.
    let get = |q: &str| r.get("EH_7.4.7.1_Tukey4", q);
    let (statistic, p) = bartlett(&summaries(&four)).expect("bartlett");
    agree("Bartlett", statistic, get("Bartlett stat"), 1e-11);
    agree("Bartlett p", p, get("Bartlett p"), 1e-11);
    let l = levene(&slices(&four)).expect("levene");
    agree("Levene", l.f, get("Levene(median) W"), 1e-11);
    agree("Levene p", l.p_value, get("Levene(median) p"), 1e-10);
}

/// e-Handbook GEAR data: F, Bartlett (printed 20.78580 from rounded steps), Levene.
#[test]
fn gear() {
    let (Some(data), Some(r)) = (rows("groups/gear.csv"), Results::read("groups/ehandbook_results.csv")) else {
        return;
    };
    let groups = split(&data, "batch", "diameter");
    agree("F", one_way(&slices(&groups)).expect("F").test.f, r.get("GEAR", "F"), 1e-10);
    agree("Bartlett", bartlett(&summaries(&groups)).expect("b").0, r.get("GEAR", "Bartlett"), 1e-9);
    agree("Levene", levene(&slices(&groups)).expect("l").f, r.get("GEAR", "Levene (median)"), 1e-9);
}

/// Penguin body mass, pingouin.welch_anova.
#[test]
fn welch_penguins() {
    let (Some(data), Some(r)) = (rows("groups/penguins_mass.csv"), Results::read("groups/results.csv")) else { return };
    let w = welch_anova(&summaries(&split(&data, "species", "body_mass_g"))).expect("welch");
    agree("F", w.f, r.get("penguins_mass", "Welch F"), 1e-11);
    agree("df2", w.denominator_dof, r.get("penguins_mass", "Welch df2"), 1e-11);
    agree("p", w.p_value, r.get("penguins_mass", "Welch p"), 1e-8);
}

/// Analysis of covariance (pingouin.ancova and statsmodels anova_lm): type II tests, slopes, means at the mean covariate.
#[test]
fn ancova() {
    let (Some(data), Some(r)) = (rows("groups/ancova_pingouin.csv"), Results::read("groups/results.csv")) else {
        return;
    };
    let get = |q: &str| r.get("ANCOVA_pingouin", q);
    let income = Covariate { name: "Income".into(), values: data.iter().map(|d| number(d, "Income")).collect() };
    let y: Vec<f64> = data.iter().map(|d| number(d, "Scores")).collect();
    let variables = vec![factor(&data, "Method"), Variable::Covariate(income)];
    let design = Design::new(variables.clone(), &[]).expect("design");
    let tests = effect_tests(&design, &y, SumOfSquares::TypeII).expect("tests");
    for (effect, name) in tests.effects.iter().zip(["C(Method)", "Income"]) {
        agree(name, effect.sum_of_squares, get(&format!("SS(type II) {name}")), 1e-10);
        agree(name, effect.test.f, get(&format!("F {name}")), 1e-10);
        agree(name, effect.test.p_value, get(&format!("p {name}")), 1e-9);
    }
    agree("residual", tests.residual_squares, get("SS(type II) Residual"), 1e-11);
    let fit = MixedFit::new(&y, &design.fit_matrix(), Vec::new(), Criterion::Reml).expect("fit");
    for mean in marginal_means(&design, &fit, 0, DofMethod::KenwardRoger).expect("means") {
        let m = mean.mean.expect("estimable");
        agree("adjusted mean", m.value, get(&format!("adjusted mean {}", mean.level)), 1e-10);
        agree("its se", m.u, get(&format!("adjusted mean se {}", mean.level)), 1e-9);
        agree("its df", m.dof, 31.0, 1e-9);
    }
    let slope = design.estimable(&design.slope_row(1)).expect("slope");
    let slope = fit.contrast(&slope, ContrastKind::Difference, DofMethod::KenwardRoger, 0.95).expect("slope");
    agree("slope", slope.effect, get("coef Income"), 1e-10);
    agree("slope se", slope.effect_uncertainty, get("se Income"), 1e-9);
    let crossed = Design::new(variables, &[vec![0, 1]]).expect("design");
    for kind in [SumOfSquares::TypeII, SumOfSquares::TypeIII] {
        let tests = effect_tests(&crossed, &y, kind).expect("tests");
        agree("homogeneity", tests.effects[2].test.f, get("F slope homogeneity"), 1e-9);
        agree("homogeneity p", tests.effects[2].test.p_value, get("p slope homogeneity"), 1e-9);
    }
}

/// SAS GLM/MIXED, 2 x 2 with unequal cells: F of the interaction 0.99565 by type II and type III alike.
#[test]
fn interaction_of_two_factors() {
    let Some(data) = rows("mixed/sas_glm101.csv") else { return };
    let y: Vec<f64> = data.iter().map(|d| number(d, "y")).collect();
    let design = Design::new(vec![factor(&data, "a"), factor(&data, "b")], &[vec![0, 1]]).expect("design");
    for kind in [SumOfSquares::TypeII, SumOfSquares::TypeIII] {
        let tests = effect_tests(&design, &y, kind).expect("tests");
        assert!((tests.effects[2].test.f - 0.995_65).abs() < 5e-6);
    }
    // Marginal means of a cell-means model are the plain averages of the cell means: closed form.
    let fit = MixedFit::new(&y, &design.fit_matrix(), Vec::new(), Criterion::Reml).expect("fit");
    let cell = |a: &str, b: &str| {
        let own: Vec<f64> = data.iter().filter(|d| d["a"] == a && d["b"] == b).map(|d| number(d, "y")).collect();
        own.iter().sum::<f64>() / own.len() as f64
    };
    for mean in marginal_means(&design, &fit, 0, DofMethod::KenwardRoger).expect("means") {
        let want = 0.5 * (cell(&mean.level, "1") + cell(&mean.level, "2"));
        agree("marginal mean", mean.mean.expect("estimable").value, want, 1e-10);
    }
}

/// e-Handbook 7.4.7.1 again, now through the design: pairwise marginal means must give Tukey's intervals.
#[test]
fn tukey_through_the_design() {
    let (Some(data), Some(r)) = (rows("groups/ehandbook_74_groups.csv"), Results::read("groups/results.csv")) else {
        return;
    };
    let y: Vec<f64> = data.iter().map(|d| number(d, "y")).collect();
    let design = Design::new(vec![factor(&data, "group")], &[]).expect("design");
    let fit = MixedFit::new(&y, &design.fit_matrix(), Vec::new(), Criterion::Reml).expect("fit");
    let how = (ContrastKind::Difference, DofMethod::KenwardRoger);
    for p in pairwise(&design, &fit, 0, how, 0.95).expect("pairs") {
        let label = format!("{}-{}", &p.b[1..], &p.a[1..]);
        let pair = p.pair.expect("estimable");
        let get = |q: &str| r.get("EH_7.4.7.1_Tukey4", &format!("{q} {label}"));
        agree("difference", -pair.contrast.effect, get("diff"), 1e-10);
        agree("low", -pair.simultaneous.upper, get("CI lo"), 1e-8);
        agree("p", pair.p_adjusted, get("p"), 1e-8);
    }
}

/// With an empty cell the main means of an interaction model cannot be formed; what remains estimable still is.
#[test]
fn empty_cells_leave_only_what_can_be_estimated() {
    let stove = Factor::from_labels("stove", &["box", "box", "box", "box", "rocket", "rocket"]);
    let fuel = Factor::from_labels("fuel", &["oak", "oak", "pine", "pine", "oak", "oak"]);
    let design = Design::new(vec![Variable::Factor(stove), Variable::Factor(fuel)], &[vec![0, 1]]).expect("design");
    let y = [1.0, 1.2, 2.0, 2.4, 3.0, 3.1];
    let fit = MixedFit::new(&y, &design.fit_matrix(), Vec::new(), Criterion::Reml).expect("fit");
    let means = marginal_means(&design, &fit, 0, DofMethod::KenwardRoger).expect("means");
    agree("box", means[0].mean.expect("box").value, 0.5 * (1.1 + 2.2), 1e-12);
    assert!(means[1].mean.is_none());
}
