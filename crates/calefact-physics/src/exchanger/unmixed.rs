//! Cross flow with neither stream mixed: the exact series, not the handbook's approximation.
//!
//! Source: Mason (1955), "Heat transfer in cross-flow", Proc. 2nd US Nat. Congress of Applied Mechanics (from memory;
//! checked against the library `ht`): effectiveness = 1/(C_r NTU) sum over k of P(NTU, k) P(C_r NTU, k), where P(x, k)
//! is the chance that a Poisson count of mean x exceeds k.

/// Terms below this share of the sum end the series.
const ENOUGH: f64 = 1e-17;

/// Effectiveness for NTU `n` >= 0 and capacity ratio 0 < `c` <= 1.
pub(super) fn effectiveness(n: f64, c: f64) -> f64 {
    if n == 0.0 {
        return 0.0;
    }
    let (mut first, mut second) = (Tail::new(n), Tail::new(c * n));
    let mut sum = 0.0;
    loop {
        let term = first.next() * second.next();
        sum += term;
        // Both tails fall from here on: past the mean the next terms are smaller still.
        if term <= ENOUGH * sum {
            return sum / (c * n);
        }
    }
}

/// Chances that a Poisson count exceeds 0, 1, 2, ...
struct Tail {
    mean: f64,
    count: f64,
    /// Logarithm of the chance of exactly `count`.
    log_term: f64,
    /// Chance of more than `count`.
    above: f64,
}

impl Tail {
    fn new(mean: f64) -> Self {
        // One minus exp(-mean), which keeps its digits for a small mean.
        Self { mean, count: 0.0, log_term: -mean, above: -libm::expm1(-mean) }
    }

    fn next(&mut self) -> f64 {
        let chance = self.above.max(0.0);
        self.count += 1.0;
        self.log_term += libm::log(self.mean / self.count);
        self.above -= libm::exp(self.log_term);
        chance
    }
}
