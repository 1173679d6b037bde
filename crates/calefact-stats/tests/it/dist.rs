//! Values typed from published tables and from 50-digit arithmetic (mpmath).

#![expect(clippy::excessive_precision, reason = "typed with the digits of the reference")]

use calefact_stats::dist::{chi2_quantile, chi2_sf, f_quantile, normal_quantile, normal_sf, t_cdf, t_quantile, t_sf};

#[track_caller]
fn close(got: f64, want: f64, rel: f64) {
    assert!((got - want).abs() <= rel * want.abs(), "got {got:e}, want {want:e}, off {:e}", (got / want - 1.0).abs());
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
        close(t_sf(x, dof), want, rel);
        close(t_cdf(-x, dof), want, rel);
        close(t_cdf(x, dof), 1.0 - want, 1e-14);
    }
}

/// Closed forms: t(1) is Cauchy, t(2) is algebraic.
#[test]
fn t_closed_forms_hold_in_every_tail() {
    for p in [1e-300_f64, 1e-20, 1e-3, 0.1, 0.3, 0.49] {
        close(t_quantile(p, 1.0), -1.0 / (std::f64::consts::PI * p).tan(), 1e-13);
        close(t_quantile(p, 2.0), (2.0 * p - 1.0) / (2.0 * p * (1.0 - p)).sqrt(), 1e-13);
    }
}

/// mpmath 1.3, 40 digits.
#[test]
fn chi_squared_and_f_match_forty_digit_arithmetic() {
    close(chi2_sf(3.0, 0.7), 0.051_455_489_326_945_064, 1e-12);
    close(chi2_sf(120.0, 50.0), 1.095_880_711_259_977_9e-7, 1e-11);
    close(chi2_quantile(0.025, 0.7), 3.808_256_451_953_093e-5, 1e-12);
    close(chi2_quantile(0.95, 3.3), 8.328_692_190_275_888_9, 1e-12);
    close(chi2_quantile(0.999, 250.5), 325.401_474_532_462_53, 1e-11);
    close(chi2_quantile(0.01, 0.2), 1.214_609_672_481_576_5e-20, 1e-10);
    close(f_quantile(0.95, 2.0, 1e4), 2.996_629_893_999_223_7, 1e-10);
    close(f_quantile(0.95, 1.5, 3.7), 7.776_006_900_554_088_6, 1e-12);
    close(f_quantile(0.001, 3.0, 20.0), 0.007_910_280_086_626_932, 1e-12);
    close(f_quantile(0.9999, 0.8, 2.2), 4_958.606_068_713_305, 1e-11);
}

/// mpmath 1.3, 40 digits.
#[test]
fn normal_tails_match_forty_digit_arithmetic() {
    close(normal_sf(1.0), 0.158_655_253_931_457_05, 1e-14);
    close(normal_sf(5.0), 2.866_515_718_791_939_1e-7, 1e-13);
    close(normal_sf(10.0), 7.619_853_024_160_526_1e-24, 1e-12);
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
    assert!(t_quantile(0.5, 0.0).is_nan() && t_quantile(1.5, 3.0).is_nan() && t_cdf(1.0, -1.0).is_nan());
    assert!(chi2_quantile(0.5, -2.0).is_nan() && f_quantile(-0.1, 1.0, 1.0).is_nan() && normal_quantile(2.0).is_nan());
}
