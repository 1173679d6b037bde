//! Numbers in sentences: readable units, digits the uncertainty deserves.

use crate::Quantity;

/// "1 trial", "3 trials".
pub fn plural(n: usize, word: &str) -> String {
    if n == 1 { format!("1 {word}") } else { format!("{n} {word}s") }
}

/// A p-value, never as zero.
pub fn p_value(p: f64) -> String {
    if p < 0.001 { "below 0.001".into() } else { format!("{p:.3}") }
}

/// Factor and unit in which a quantity is spoken of.
pub fn spoken(q: Quantity) -> (f64, &'static str) {
    match (q, q.unit()) {
        (Quantity::AirRatio, _) => (1.0, ""),
        (_, "1") => (100.0, " %"),
        (_, "s") => (1.0 / 60.0, " min"),
        (_, "W") => (1e-3, " kW"),
        (_, "kg/s") => (60.0, " kg/min"),
        (_, "K/min") => (1.0, " K/min"),
        (_, "MJ") => (1.0, " MJ"),
        (_, "W/K") => (1.0, " W/K"),
        (_, "W/(m2 K)") => (1.0, " W/(m2 K)"),
        (_, "kg/kWh") => (1.0, " kg/kWh"),
        (_, "kg/h") => (1.0, " kg/h"),
        (_, "1/kWh") => (1.0, " per kWh"),
        (_, "kg") => (1.0, " kg"),
        _ => (1.0, ""),
    }
}

/// A value in its spoken unit, three significant digits.
pub fn number(q: Quantity, value: f64) -> String {
    let (factor, unit) = spoken(q);
    format!("{}{unit}", significant(value * factor, 3))
}

/// A difference in its spoken unit, to the digit its uncertainty deserves (GUM 7.2.6: two digits of u).
pub fn difference(q: Quantity, value: f64, std_uncertainty: f64) -> String {
    let (factor, _) = spoken(q);
    let decimals = decimals_for(std_uncertainty * factor);
    let text = format!("{:.decimals$}", value * factor);
    if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') {
        text.trim_start_matches('-').into()
    } else {
        text
    }
}

/// Unit of a difference: percentage points for shares.
pub fn difference_unit(q: Quantity) -> &'static str {
    match spoken(q).1 {
        " %" => " points",
        unit => unit,
    }
}

/// Decimals that show two significant digits of `u`.
pub fn decimals_for(u: f64) -> usize {
    if u.is_finite() && u > 0.0 { (1 - libm::log10(u).floor() as i32).clamp(0, 9) as usize } else { 2 }
}

/// `x` with so many significant digits, without exponent.
pub fn significant(x: f64, digits: i32) -> String {
    if x == 0.0 || !x.is_finite() {
        return format!("{x}");
    }
    let decimals = (digits - 1 - libm::log10(x.abs()).floor() as i32).clamp(0, 12) as usize;
    format!("{x:.decimals$}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_follow_the_uncertainty() {
        assert_eq!(difference(Quantity::ThermalEfficiency, 0.04567, 0.0123), "4.6");
        assert_eq!(difference(Quantity::ThermalEfficiency, -0.00001, 0.0123), "0.0");
        assert_eq!(number(Quantity::ReferenceTime, 3725.0), "62.1 min");
        assert_eq!(p_value(1e-9), "below 0.001");
    }
}
