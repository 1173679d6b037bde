//! From what an instrument's sheet says to a standard uncertainty (JCGM 100:2008 clause 4.3).
//!
//! Units are those of the argument throughout. Which instrument has which limits does not live here.

use crate::dist::normal_quantile;

/// Limits -a..a with nothing known inside them: u = a / sqrt 3 (JCGM 100:2008, 4.3.7).
pub fn rectangular(half_width: f64) -> f64 {
    half_width / 3.0_f64.sqrt()
}

/// Limits -a..a, values near the middle likelier: u = a / sqrt 6 (JCGM 100:2008, 4.3.9).
pub fn triangular(half_width: f64) -> f64 {
    half_width / 6.0_f64.sqrt()
}

/// A value that swings sinusoidally between -a and a: u = a / sqrt 2 (JCGM 100:2008, H.1.3.4).
pub fn arcsine(half_width: f64) -> f64 {
    half_width / 2.0_f64.sqrt()
}

/// A display that steps by d: rectangular over -d/2..d/2, u = d / (2 sqrt 3) (JCGM 100:2008, F.2.2.1).
pub fn resolution(step: f64) -> f64 {
    rectangular(0.5 * step)
}

/// Expanded uncertainty U with coverage factor k: u = U / k (JCGM 100:2008, 4.3.3).
pub fn normal_at_k(expanded: f64, k: f64) -> f64 {
    expanded / k
}

/// Half width of a normal interval at `level` (0.95 for 95 %): u = a / z((1 + level)/2) (JCGM 100:2008, 4.3.4).
pub fn normal_at_level(half_width: f64, level: f64) -> f64 {
    half_width / normal_quantile(0.5 + 0.5 * level)
}

/// Tolerance as IEC 60584-1 words it: the greater of a constant and a fraction of the reading, max(a, b |t|).
pub fn greater_of(constant: f64, fraction: f64, reading: f64) -> f64 {
    constant.max(fraction * reading.abs())
}

/// Tolerance as IEC 60751 words it: a constant plus a fraction of the reading, a + b |t|.
pub fn sum_of(constant: f64, fraction: f64, reading: f64) -> f64 {
    constant + fraction * reading.abs()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn close(got: f64, want: f64, tolerance: f64) {
        assert!((got - want).abs() <= tolerance, "got {got}, want {want}");
    }

    /// JCGM 100:2008 4.3: a/sqrt 3, a/sqrt 6, 0.28868 d (F.2.2.1 gives 0.29 d), 95 % normal a/1.96.
    #[test]
    fn shapes_follow_the_gum() {
        close(rectangular(0.5), 0.5 / 1.732_050_807_6, 1e-10);
        close(triangular(0.5), 0.5 / 2.449_489_742_8, 1e-10);
        close(resolution(0.1), 0.028_868, 5e-7);
        close(normal_at_level(1.96, 0.95), 1.0, 2e-5);
        close(normal_at_k(75.0, 3.0), 25.0, 0.0);
        // JCGM 100:2008 H.1.3.4: half width 0.5 degC gives 0.35 degC.
        close(arcsine(0.5), 0.35, 0.005);
    }

    /// IEC 60584-1:2013 type K: class 1 is 1.5 or 0.004 t, class 2 is 2.5 or 0.0075 t; at 400 and 600 degC.
    #[test]
    fn thermocouple_classes_take_the_greater_limit() {
        close(greater_of(1.5, 0.004, 400.0), 1.6, 1e-12);
        close(greater_of(2.5, 0.0075, 400.0), 3.0, 1e-12);
        close(greater_of(1.5, 0.004, 600.0), 2.4, 1e-12);
        close(greater_of(2.5, 0.0075, 600.0), 4.5, 1e-12);
        // Crossovers at 375 and 333.3 degC: below them the constant rules.
        close(greater_of(1.5, 0.004, 374.0), 1.5, 0.0);
        close(greater_of(2.5, 0.0075, 333.0), 2.5, 0.0);
        close(greater_of(2.5, 0.015, -190.0), 2.85, 1e-12);
    }

    /// IEC 60751:2022 class A and B: at 0, 20, 60 and 100 degC.
    #[test]
    fn resistance_thermometer_classes_add_the_terms() {
        for (t, a, b) in [(0.0, 0.150, 0.300), (20.0, 0.190, 0.400), (60.0, 0.270, 0.600), (100.0, 0.350, 0.800)] {
            close(sum_of(0.15, 0.002, t), a, 1e-12);
            close(sum_of(0.30, 0.005, t), b, 1e-12);
        }
    }

    /// Worked by hand: two class B probes at 15 and 60 degC with a 0.1 degC display each; u of the difference 0.41054 K.
    #[test]
    fn two_probes_and_their_displays_combine() {
        let probe = |t| rectangular(sum_of(0.30, 0.005, t));
        let u = [probe(15.0), probe(60.0), resolution(0.1), resolution(0.1)].iter().map(|u| u * u).sum::<f64>().sqrt();
        close(u, 0.410_54, 5e-6);
    }
}
