//! The measurement model of the heat path: from inputs to exchanger quantities and balance, a pure function of numbers.
//!
//! It calls the vessel's model for stored and delivered heat, so that both rest on the same inputs.

use super::gas_side::GasSide;
use super::model::PathModel;
use super::slots::PathSlot as P;
use super::terms::{Check, Term};
use super::transfer::transfer;
use super::water_side::WaterSide;
use crate::Quantity;
use crate::reduce::model::{FuelUse, get};
use crate::reduce::slots::Slot;

impl PathModel<'_> {
    /// Evaluates the model: quantities by index in [`Quantity::ALL`], then [`Term`]s and [`Check`]s; NaN where not defined.
    pub(crate) fn evaluate(&self, x: &[f64]) -> Vec<f64> {
        let (stored, delivered) = self.base.heats(x);
        let fuel = if self.base.features.whole { FuelUse::new(x, self.base.gross_extra) } else { FuelUse::unknown() };
        let water = WaterSide::new(self, x);
        let gas = GasSide::new(self, x, &water, &fuel, delivered);
        let mut out = vec![f64::NAN; Check::LEN];
        self.exchanger(x, &water, &gas, &mut out);
        checks(&water, &gas, &mut out);
        let credited = fuel.net_credited();
        let flue = gas.sensible + zero_if_unknown(gas.co);
        let casing = zero_if_unknown(gas.casing * delivered / water.power);
        out[Quantity::FlueLoss as usize] = flue / credited;
        out[Quantity::Unaccounted as usize] = 1.0 - (delivered + flue + casing) / credited;
        balance(x, &fuel, &gas, [stored, delivered - stored, casing], &mut out);
        out
    }

    fn exchanger(&self, x: &[f64], water: &WaterSide, gas: &GasSide, out: &mut [f64]) {
        use Quantity as Q;
        let (effectiveness, conductance) = transfer(gas, water, P::FlueBefore.get(x), self.arrangement);
        let mut set = |q: Q, value: f64| out[q as usize] = value;
        set(Q::ExchangerEffectiveness, effectiveness);
        set(Q::ExchangerConductance, conductance);
        set(Q::ExchangerConductanceArea, self.tube_area.map_or(f64::NAN, |a| conductance / a));
        set(Q::CoilPower, water.power);
        set(Q::CoilFlow, water.flow);
        set(Q::GasFlow, gas.flow);
        set(Q::AirRatio, gas.air_ratio);
    }
}

fn checks(water: &WaterSide, gas: &GasSide, out: &mut [f64]) {
    out[Check::TankPower.index()] = water.tank_power;
    out[Check::GasPower.index()] = gas.power;
    out[Check::CasingPower.index()] = gas.casing;
    out[Check::CoilOverTank.index()] = water.measured_power / water.tank_power;
    out[Check::WaterRise.index()] = water.rise;
    out[Check::GasOverWater.index()] = gas.power / (water.power + zero_if_unknown(gas.casing));
}

/// Terms of the balance on the net energy of the fuel as put on; what is not known goes into `unaccounted`.
fn balance(x: &[f64], fuel: &FuelUse, gas: &GasSide, vessel: [f64; 3], out: &mut [f64]) {
    let [stored, lost, casing] = vessel;
    let net = fuel.net / fuel.put_on;
    let mut set = |term: Term, energy: f64| {
        out[term.energy()] = energy;
        out[term.share()] = energy / fuel.net;
    };
    set(Term::Fuel, fuel.net);
    set(Term::Stored, stored);
    set(Term::StandingLoss, lost);
    set(Term::FlueSensible, gas.sensible);
    set(Term::FlueCo, gas.co);
    set(Term::Casing, if casing > 0.0 { casing } else { f64::NAN });
    set(Term::LeftoverFuel, get(x, Slot::LeftoverFuel) * net);
    set(Term::LeftoverChar, get(x, Slot::LeftoverChar) * get(x, Slot::CharValue));
    set(Term::FlueLatent, gas.latent);
    let known: f64 = Term::PARTS.iter().map(|t| zero_if_unknown(out[t.energy()])).sum();
    out[Term::Unaccounted.energy()] = fuel.net - known;
    out[Term::Unaccounted.share()] = 1.0 - known / fuel.net;
}

fn zero_if_unknown(x: f64) -> f64 {
    if x.is_finite() { x } else { 0.0 }
}
