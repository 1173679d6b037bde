//! From the heat path's model to estimates, and the reasons where there is none.

use super::Path;
use super::slots::PathSlot as P;
use super::terms::Check;
use crate::Quantity;
use crate::reduce::slots::Slot;
use crate::result::{Missing, TrialEstimate, TrialResult};
use calefact_data::Channel;
use calefact_stats::UncertainValue;

/// Quantities of the heat path.
pub const QUANTITIES: [Quantity; 9] = [
    Quantity::ExchangerEffectiveness,
    Quantity::ExchangerConductance,
    Quantity::ExchangerConductanceArea,
    Quantity::CoilPower,
    Quantity::CoilFlow,
    Quantity::GasFlow,
    Quantity::AirRatio,
    Quantity::FlueLoss,
    Quantity::Unaccounted,
];

/// Writes the estimates of the heat path, or why they are missing, in the order of [`Quantity::ALL`].
pub fn fill(path: &Path, traced: &[UncertainValue], result: &mut TrialResult) {
    for quantity in QUANTITIES {
        let value = &traced[quantity as usize];
        let u = value.std_uncertainty();
        if value.value.is_finite() && u.is_finite() && possible(quantity, value.value) {
            let estimate = path.estimate(value, quantity.unit(), method(path, quantity));
            let note = note(path, quantity);
            result.estimates.push(TrialEstimate { quantity, estimate, traced: value.clone(), note });
        } else if path.asked {
            result.missing.push(Missing { quantity, reason: reason(path, quantity, value.value) });
        }
    }
    result.estimates.sort_by_key(|e| e.quantity);
}

/// An effectiveness outside 0 to 1 is an error, not a result.
fn possible(quantity: Quantity, value: f64) -> bool {
    quantity != Quantity::ExchangerEffectiveness || (0.0..=1.0).contains(&value)
}

fn method(path: &Path, quantity: Quantity) -> &'static str {
    let measured_flow = path.value(P::Flow).is_finite();
    let analysed = path.model.analysed();
    match quantity {
        Quantity::CoilPower if path.measured_power() => "flow times enthalpy rise; first order",
        Quantity::CoilPower => "heat flow into the tank, storage plus loss; first order",
        Quantity::CoilFlow if measured_flow => "measured; first order",
        Quantity::CoilFlow => "heat flow into the tank over enthalpy rise; first order",
        Quantity::GasFlow | Quantity::AirRatio if analysed => "gas analysis and stoichiometry; first order",
        Quantity::GasFlow | Quantity::AirRatio => "heat the water took and fall of the gas; first order",
        Quantity::FlueLoss if analysed => "stoichiometry of the analysed gas; first order",
        Quantity::FlueLoss => "gas heat after over gas heat given up; first order",
        Quantity::Unaccounted => "energy balance; first order",
        _ => "effectiveness and transfer units; first order",
    }
}

fn note(path: &Path, quantity: Quantity) -> String {
    use Quantity as Q;
    let mut notes = vec![path.phases.words()];
    let exchanger =
        matches!(quantity, Q::ExchangerEffectiveness | Q::ExchangerConductance | Q::ExchangerConductanceArea);
    if exchanger && path.inputs.inlet_from_tank {
        notes.push("water into the coil taken as the tank's mean".into());
    }
    if exchanger && quantity != Q::ExchangerEffectiveness && path.assumed_counter {
        notes.push("arrangement not stated, taken as counterflow".into());
    }
    if exchanger && path.value(P::CoilOut).is_nan() && path.value(P::Flow).is_nan() {
        notes.push("water outlet and flow not known, water flow taken as large against the gas".into());
    }
    let gas = matches!(quantity, Q::GasFlow | Q::AirRatio | Q::FlueLoss | Q::Unaccounted);
    if gas && !path.model.analysed() {
        notes.push("no gas analysis: all heat the gas lost between the probes is taken to be in the water".into());
    }
    if matches!(quantity, Q::GasFlow | Q::AirRatio) {
        notes.push("burn rate taken to go with the heat flow into the tank".into());
    }
    if matches!(quantity, Q::FlueLoss | Q::Unaccounted) {
        notes.push(format!("net basis; carried to the whole burn by a factor of {:.2}", path.value(P::Whole)));
    }
    notes.join("; ")
}

/// Why a quantity is missing.
fn reason(path: &Path, quantity: Quantity, value: f64) -> String {
    use Quantity as Q;
    if path.model.steady.is_none() {
        return "the log shows no steady part with two readings".into();
    }
    let lacking = match quantity {
        Q::CoilPower => path.lacking_power(),
        Q::CoilFlow => path.lacking_flow(),
        Q::ExchangerEffectiveness if value.is_finite() => {
            vec![format!("it comes to {value:.2}, outside 0 to 1 (see the findings)")]
        }
        Q::ExchangerEffectiveness => path.lacking_drop(),
        Q::ExchangerConductanceArea if path.model.tube_area.is_none() => {
            vec!["the exchanger's build states no `tube_outside` and `length`".into()]
        }
        Q::ExchangerConductance | Q::ExchangerConductanceArea => [path.lacking_drop(), path.lacking_power()].concat(),
        _ => path.lacking_gas(),
    };
    if lacking.is_empty() { "the numbers do not allow it (see the findings)".into() } else { lacking.join("; ") }
}

impl Path<'_> {
    /// The value of a slot.
    pub fn value(&self, slot: P) -> f64 {
        self.inputs.get(slot).value
    }

    /// Whether flow, inlet and outlet were all measured.
    pub fn measured_power(&self) -> bool {
        [P::Flow, P::CoilIn, P::CoilOut].iter().all(|s| self.value(*s).is_finite()) && !self.inputs.inlet_from_tank
    }

    /// What the heat flow into the tank lacks.
    fn lacking_power(&self) -> Vec<String> {
        if self.measured_power() {
            return Vec::new();
        }
        let vessel = [Slot::VesselCapacity, Slot::LossCoefficient];
        let empty = vessel.iter().filter(|s| self.inputs.slots[**s as usize].value.is_nan());
        let mut out: Vec<String> = empty.map(|s| s.lack().to_owned()).collect();
        if self.model.steady.as_ref().is_some_and(|s| s.air_mean.is_nan()) {
            out.push(Slot::Air.lack().into());
        }
        out
    }

    fn lacking_flow(&self) -> Vec<String> {
        let mut out = self.lacking_power();
        if self.value(P::CoilOut).is_nan() {
            out.push("neither `flow` nor `coil_out` was logged with two readings in the steady part".into());
        } else if !self.model.rise_tells {
            out.push(format!(
                "the rise of the water, {:.1} K, is within three times its uncertainty, {:.1} K",
                self.rise.0, self.rise.1
            ));
        }
        out
    }

    fn lacking_drop(&self) -> Vec<String> {
        let missing = [Channel::FlueBefore, Channel::FlueAfter]
            .into_iter()
            .zip([P::FlueBefore, P::FlueAfter])
            .filter(|(_, slot)| self.value(*slot).is_nan())
            .map(|(channel, _)| format!("`{}` was not logged, or not twice in the steady part", channel.name()));
        let mut out: Vec<String> = missing.collect();
        if out.is_empty() && !self.model.drop_tells {
            out.push(format!(
                "the gas falls by {:.0} K, within three times its uncertainty of {:.0} K: too little to say anything",
                self.drop.0, self.drop.1
            ));
        }
        out
    }

    /// What air ratio, gas flow and flue loss lack.
    fn lacking_gas(&self) -> Vec<String> {
        let mut out =
            if self.model.analysed() { Vec::new() } else { [self.lacking_drop(), self.lacking_power()].concat() };
        if self.model.composition.is_none() {
            out.push("the fuel has neither a composition nor a class".into());
        }
        if !self.model.base.features.whole {
            out.push("the fuel was weighed for the whole burn, but the window covers a part of it".into());
        }
        let fuel =
            [Slot::FuelMass, Slot::Kindling, Slot::Moisture, Slot::NetDry, Slot::LeftoverFuel, Slot::LeftoverChar];
        let empty = fuel.iter().filter(|s| self.inputs.slots[**s as usize].value.is_nan());
        out.extend(empty.map(|s| s.lack().to_owned()));
        if out.is_empty() && self.traced[Check::TankPower.index()].value.is_finite() {
            out.push(
                "the water took less heat than the gas of complete combustion gives up: check fuel, probes and flow"
                    .into(),
            );
        }
        out
    }
}
