//! The two functions every linear heat balance is made of.

/// (1 - exp(-x))/x, which is 1 at x = 0.
pub(super) fn phi_1(x: f64) -> f64 {
    if x == 0.0 { 1.0 } else { -(-x).exp_m1() / x }
}

/// (1 - phi_1(x))/x, which is 1/2 at x = 0; by its series where the difference would lose digits.
pub(super) fn phi_2(x: f64) -> f64 {
    if x.abs() < 0.02 {
        // 1/2! - x/3! + x^2/4! - ...; the next term is below 1e-16 of the sum.
        return 0.5
            - x * (1.0 / 6.0
                - x * (1.0 / 24.0 - x * (1.0 / 120.0 - x * (1.0 / 720.0 - x * (1.0 / 5040.0 - x / 40320.0)))));
    }
    (1.0 - phi_1(x)) / x
}
