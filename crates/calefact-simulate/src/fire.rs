//! The course of a fire: light-up ramp, steady part with a dip where it is refuelled, burn-down.

/// Burn rate at the very start of the ramp, as a share of the steady one.
const LIT: f64 = 0.15;
/// How deep a refuelling dips the burn rate, and for how long.
const DIP: f64 = 0.35;
const DIP_S: f64 = 600.0;

/// Burn rate over time as a share of the steady rate.
#[expect(clippy::struct_field_names, reason = "the unit belongs to the name")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Fire {
    pub(super) ramp_s: f64,
    pub(super) steady_s: f64,
    pub(super) down_s: f64,
    /// Time of the refuelling, s.
    pub(super) refuel_s: Option<f64>,
}

impl Fire {
    /// A heat source that is simply on from start to end: an electric heater, or none.
    pub(super) const fn constant(duration_s: f64) -> Self {
        Self { ramp_s: 0.0, steady_s: duration_s, down_s: 0.0, refuel_s: None }
    }

    /// The fire that burns `full_s` seconds' worth of the steady rate. A short one has a shorter ramp and burn-down.
    pub(super) fn burning(full_s: f64, ramp_s: f64, down_s: f64, refuel_at: Option<f64>) -> Self {
        let edges = ramp_s * (1.0 + LIT) / 2.0 + down_s / 2.0;
        let dip = if refuel_at.is_some() { DIP * DIP_S / 2.0 } else { 0.0 };
        let shrink = (0.5 * full_s / edges.max(f64::MIN_POSITIVE)).min(1.0);
        let steady_s = shrink.mul_add(-edges, full_s) + dip;
        let ramp_s = ramp_s * shrink;
        Self { ramp_s, steady_s, down_s: down_s * shrink, refuel_s: refuel_at.map(|f| f.mul_add(steady_s, ramp_s)) }
    }

    /// When the fire is out, s.
    pub(super) fn out_s(&self) -> f64 {
        self.ramp_s + self.steady_s + self.down_s
    }

    /// Start and end of the steady part, s.
    pub(super) fn steady(&self) -> (f64, f64) {
        (self.ramp_s, self.ramp_s + self.steady_s)
    }

    /// Burn rate as a share of the steady one.
    pub(super) fn rate(&self, t: f64) -> f64 {
        if t < self.ramp_s {
            return (1.0 - LIT).mul_add(t / self.ramp_s, LIT);
        }
        let over = t - self.ramp_s - self.steady_s;
        if over <= 0.0 {
            return 1.0 - self.refuel_s.map_or(0.0, |at| DIP * tent((t - at) / DIP_S));
        }
        if over < self.down_s { 1.0 - over / self.down_s } else { 0.0 }
    }
}

/// A tent of height 1 on 0 to 1.
fn tent(x: f64) -> f64 {
    (1.0 - (2.0 * x - 1.0).abs()).max(0.0)
}

#[cfg(test)]
mod tests {
    use super::Fire;

    fn area(fire: &Fire) -> f64 {
        let n = 200_000;
        let dt = fire.out_s() / f64::from(n);
        (0..n).map(|i| fire.rate((f64::from(i) + 0.5) * dt) * dt).sum()
    }

    #[test]
    fn a_fire_burns_what_it_was_given() {
        for fire in [Fire::burning(6000.0, 600.0, 900.0, None), Fire::burning(500.0, 600.0, 900.0, None)] {
            let want = if fire.out_s() > 3000.0 { 6000.0 } else { 500.0 };
            assert!((area(&fire) / want - 1.0).abs() < 1e-6, "{}", area(&fire));
        }
        let refuelled = Fire::burning(6000.0, 600.0, 900.0, Some(0.4));
        assert!((area(&refuelled) / 6000.0 - 1.0).abs() < 1e-6, "{}", area(&refuelled));
    }
}
