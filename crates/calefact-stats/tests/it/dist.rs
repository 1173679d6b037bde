//! Distribution functions against published tables, tables computed elsewhere (scipy 1.17, mpmath) and closed forms.

#![expect(clippy::excessive_precision, reason = "typed with the digits of the reference")]

use crate::data::{agree, number, table};
use calefact_stats::dist::{
    chi2_quantile, f_sf, noncentral_t_cdf, normal_cdf, normal_quantile, studentized_range_quantile,
    studentized_range_sf, t_cdf, t_quantile,
};

#[track_caller]
fn close(got: f64, want: f64, rel: f64) {
    agree("", got, want, rel);
}

#[test]
fn student_table() {
    let rows = table("quantiles/student.csv");
    assert!(rows.len() > 380);
    for row in &rows {
        let (p, dof, t) = (number(row, "p"), number(row, "dof"), number(row, "t"));
        agree(&format!("{p} {dof}"), t_quantile(p, dof), t, 1e-12);
        agree(&format!("{t} {dof}"), t_cdf(-t, dof), 1.0 - p, 1e-11);
    }
}

#[test]
fn chi_squared_table() {
    for row in table("quantiles/chi-squared.csv") {
        let (p, dof) = (number(&row, "p"), number(&row, "dof"));
        agree(&format!("{p} {dof}"), chi2_quantile(p, dof), number(&row, "chi2"), 2e-12);
    }
}

#[test]
fn fisher_table() {
    for row in table("quantiles/fisher.csv") {
        let (d1, d2) = (number(&row, "numerator"), number(&row, "denominator"));
        agree(&format!("{row:?}"), f_sf(number(&row, "f"), d1, d2), 1.0 - number(&row, "p"), 1e-11);
    }
}

/// scipy.stats.studentized_range.ppf; its own 0.99 points are good to a few 1e-9 at few degrees of freedom.
#[test]
fn studentized_range_table() {
    for row in table("quantiles/studentized-range.csv") {
        let (k, dof) = (number(&row, "means") as usize, number(&row, "dof"));
        for (column, p) in [("q95", 0.95), ("q99", 0.99)] {
            agree(&format!("{row:?}"), studentized_range_quantile(p, k, dof), number(&row, column), 5e-9);
        }
    }
}

/// 72 values computed with mpmath, stored in scipy's tests.
#[test]
fn studentized_range_tails() {
    for row in table("quantiles/studentized-range-cdf.csv") {
        let (k, dof) = (number(&row, "means") as usize, number(&row, "dof"));
        let sum = studentized_range_sf(number(&row, "q"), k, dof) + number(&row, "cdf");
        assert!((sum - 1.0).abs() < 1e-9, "{row:?}: {sum}");
    }
}

/// mpmath 1.3, 40 digits, regularised incomplete beta solved by bisection.
#[test]
fn t_quantiles_match_forty_digit_arithmetic() {
    for (p, dof, want, rel) in [
        (0.975, 0.7, 36.611_415_031_588_688, 1e-12),
        (0.975, 0.3, 6_582.035_699_400_774_7, 1e-11),
        (0.6, 0.7, 0.356_031_365_234_680_4, 1e-12),
        (0.975, 1e5, 1.959_987_707_534_609_6, 1e-13),
        (0.975, 1500.0, 1.961_546_753_895_018_7, 1e-13),
        (1e-10, 1.0, -3_183_098_861.837_906_7, 1e-12),
        (1e-10, 2.5, -8_765.437_771_364_571_8, 1e-12),
        (0.500_01, 4.3, 2.655_369_000_785_930_8e-5, 1e-11),
        (0.995, 5000.0, 2.576_812_966_556_281_1, 1e-13),
        (1e-6, 1e3, -4.781_608_620_458_350_6, 1e-11),
        (0.75, 1001.0, 0.674_734_919_358_447_06, 1e-13),
    ] {
        close(t_quantile(p, dof), want, rel);
    }
}

/// mpmath 1.3, 40 digits.
#[test]
fn t_tails_match_forty_digit_arithmetic() {
    for (x, dof, want, rel) in [
        (3.0, 0.7, 0.141_685_669_650_512_92, 1e-13),
        (2.5, 1e5, 0.006_210_459_596_279_522_7, 1e-12),
        (5.0, 2000.0, 3.116_448_917_773_019_3e-7, 1e-12),
        (12.0, 3.5, 0.000_287_267_096_428_063_93, 1e-12),
        (0.01, 7.0, 0.496_150_158_821_810_89, 1e-13),
    ] {
        close(t_cdf(-x, dof), want, rel);
        close(t_cdf(x, dof), 1.0 - want, 1e-14);
    }
}

/// Closed forms: t(1) is Cauchy, t(2) is algebraic.
#[test]
fn t_closed_forms_hold_in_every_tail() {
    for p in [1e-300_f64, 1e-20, 1e-3, 0.1, 0.3, 0.49] {
        close(t_quantile(p, 1.0), -1.0 / libm::tan(std::f64::consts::PI * p), 1e-13);
        close(t_quantile(p, 2.0), (2.0 * p - 1.0) / (2.0 * p * (1.0 - p)).sqrt(), 1e-13);
    }
}

/// mpmath 1.3, 40 digits.
#[test]
fn chi_squared_and_f_match_forty_digit_arithmetic() {
    close(chi2_quantile(0.025, 0.7), 3.808_256_451_953_093e-5, 1e-12);
    close(chi2_quantile(0.95, 3.3), 8.328_692_190_275_888_9, 1e-12);
    close(chi2_quantile(0.999, 250.5), 325.401_474_532_462_53, 1e-11);
    close(chi2_quantile(0.01, 0.2), 1.214_609_672_481_576_5e-20, 1e-10);
    close(f_sf(2.996_629_893_999_223_7, 2.0, 1e4), 0.05, 1e-9);
    close(f_sf(7.776_006_900_554_088_6, 1.5, 3.7), 0.05, 1e-12);
    close(f_sf(0.007_910_280_086_626_932, 3.0, 20.0), 0.999, 1e-13);
    close(f_sf(4_958.606_068_713_305, 0.8, 2.2), 0.0001, 1e-11);
    // Infinitely many degrees of freedom below the line: chi-squared(2) / 2, whose tail is e^-x.
    close(f_sf(3.0, 2.0, f64::INFINITY), libm::exp(-3.0), 1e-13);
}

/// mpmath 1.3, 40 digits; quantiles of the usual table (Abramowitz & Stegun, table 26.5) give their tails back.
#[test]
fn normal_tails_match_forty_digit_arithmetic() {
    close(normal_cdf(-1.0), 0.158_655_253_931_457_05, 1e-14);
    close(normal_cdf(-5.0), 2.866_515_718_791_939_1e-7, 1e-13);
    close(normal_cdf(-10.0), 7.619_853_024_160_526_1e-24, 1e-12);
    close(normal_quantile(0.975), 1.959_963_984_540_054_2, 1e-15);
    close(normal_quantile(0.75), 0.674_489_750_196_081_74, 1e-15);
    for p in [1e-300, 1e-20, 1e-5, 0.01, 0.2, 0.3, 0.4999, 0.500_001, 0.7, 0.999] {
        let x = normal_quantile(p);
        // Rounding of x moves the tail by x^2 times as much.
        close(normal_cdf(x), p, 1e-15 * (2.0 + x * x));
    }
    assert!(normal_quantile(0.5).abs() < 1e-16 && normal_quantile(0.0) == f64::NEG_INFINITY);
    assert!(normal_quantile(1.0) == f64::INFINITY);
}

/// JCGM 100:2008 table G.2, p = 95 %: t_95 for 1, 3, 10 and 50 degrees of freedom, three digits.
#[test]
fn t_matches_the_table_of_the_gum() {
    for (dof, want) in [(1.0, 12.71), (3.0, 3.18), (10.0, 2.23), (50.0, 2.01), (f64::INFINITY, 1.96)] {
        assert!((t_quantile(0.975, dof) - want).abs() < 0.0051);
    }
}

#[test]
fn nonsense_gives_nan() {
    let nan = f64::NAN;
    for (p, dof) in [(0.5, 0.0), (1.5, 3.0), (-0.1, 3.0), (nan, 3.0), (0.5, nan), (0.5, -1.0)] {
        assert!(t_quantile(p, dof).is_nan() && chi2_quantile(p, dof).is_nan(), "{p} {dof}");
    }
    assert!(t_cdf(1.0, -1.0).is_nan() && t_cdf(nan, 1.0).is_nan() && t_cdf(1.0, 0.0).is_nan());
    assert!(
        normal_quantile(2.0).is_nan() && normal_quantile(nan).is_nan() && chi2_quantile(0.5, f64::INFINITY).is_nan()
    );
    for (x, d1, d2) in [(nan, 1.0, 1.0), (1.0, 0.0, 1.0), (1.0, 1.0, 0.0), (1.0, f64::INFINITY, 1.0), (1.0, 1.0, nan)] {
        assert!(f_sf(x, d1, d2).is_nan());
    }
    for (q, k, dof) in [(nan, 3, 3.0), (1.0, 1, 3.0), (1.0, 3, 0.0)] {
        assert!(studentized_range_sf(q, k, dof).is_nan());
    }
    for (p, k, dof) in [(1.0, 3, 3.0), (-0.1, 3, 3.0), (0.5, 1, 3.0), (0.5, 3, 0.0), (0.5, 3, nan)] {
        assert!(studentized_range_quantile(p, k, dof).is_nan());
    }
    for (t, dof, delta) in [(nan, 3.0, 1.0), (1.0, 0.0, 1.0), (1.0, nan, 1.0), (1.0, 3.0, nan), (1.0, -1.0, 1.0)] {
        assert!(noncentral_t_cdf(t, dof, delta).is_nan());
    }
}

#[test]
#[expect(clippy::float_cmp, reason = "the ends are exact")]
fn ends_of_the_line() {
    let inf = f64::INFINITY;
    assert!(t_quantile(0.0, 3.0) == -inf && t_quantile(1.0, 3.0) == inf && t_quantile(0.5, 3.0) == 0.0);
    assert!(t_cdf(-inf, 3.0) == 0.0 && t_cdf(inf, 3.0) == 1.0 && t_cdf(0.0, 3.0) == 0.5);
    assert!(chi2_quantile(0.0, 3.0) == 0.0 && chi2_quantile(1.0, 3.0) == inf);
    assert!(f_sf(0.0, 2.0, 3.0) == 1.0 && f_sf(-1.0, 2.0, 3.0) == 1.0 && f_sf(inf, 2.0, 3.0) == 0.0);
    assert!(studentized_range_sf(-1.0, 3, 3.0) == 1.0 && studentized_range_quantile(0.0, 3, 3.0) == 0.0);
    assert!(noncentral_t_cdf(inf, 3.0, 1.0) == 1.0 && noncentral_t_cdf(-inf, 3.0, 1.0) == 0.0);
}

/// The statrs library, an implementation of other hands, over a grid; its error function keeps ten digits.
#[test]
fn another_library_agrees() {
    use statrs::distribution::{ChiSquared, ContinuousCDF, FisherSnedecor, Normal, StudentsT};
    let normal = Normal::new(0.0, 1.0).expect("a distribution");
    for i in 1..40 {
        let p = f64::from(i) / 40.0;
        close(normal_cdf(normal_quantile(p)), p, 1e-13);
        close(normal_cdf(3.0 * p - 1.5), normal.cdf(3.0 * p - 1.5), 1e-9);
        for dof in [1.0, 2.5, 7.0, 30.0, 400.0] {
            let student = StudentsT::new(0.0, 1.0, dof).expect("a distribution");
            let x = t_quantile(p, dof);
            close(t_cdf(x, dof), student.cdf(x), 1e-9);
            let chi_squared = ChiSquared::new(dof).expect("a distribution");
            close(chi_squared.cdf(chi2_quantile(p, dof)), p, 1e-9);
            let fisher = FisherSnedecor::new(3.0, dof).expect("a distribution");
            close(f_sf(5.0 * p, 3.0, dof), fisher.sf(5.0 * p), 1e-9);
        }
    }
}
