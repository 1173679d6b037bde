//! From the heat path's model to estimates, and the reasons where there is none.

use super::closure::is_impossible;
use super::path::Path;
use super::slots::PathSlot as P;
use super::terms::Check;
use crate::Quantity;
use crate::fact::{Derivation, Lack, Note};
use crate::reduce::slots::Slot;
use crate::result::{Missing, TrialEstimate, TrialResult};
use calefact_data::Channel;
use calefact_stats::{Estimate, UncertainValue};

/// Quantities of the heat path.
pub(crate) const QUANTITIES: [Quantity; 9] = [
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
pub(crate) fn fill(path: &Path, traced: &[UncertainValue], result: &mut TrialResult) {
    let coil = |q: &Quantity| path.has_coil || !matches!(q, Quantity::CoilPower | Quantity::CoilFlow);
    for quantity in QUANTITIES.into_iter().filter(coil) {
        let value = &traced[quantity as usize];
        match known(path, quantity, value) {
            Ok(estimate) => {
                let (method, notes) = (derivation(path, quantity).to_first_order(), notes(path, quantity));
                result.estimates.push(TrialEstimate { quantity, estimate, traced: value.clone(), method, notes });
            }
            Err(lacks) if path.asked => result.missing.push(Missing { quantity, lacks }),
            Err(_) => {}
        }
    }
    result.estimates.sort_by_key(|e| e.quantity);
}

/// The estimate of a quantity with its interval within bounds.
///
/// # Errors
/// What it lacks. A value somewhat beyond a bound is kept, as one somewhat within it is, since leaving out one side alone
/// would bias a mean; a wide interval leaves out either side.
fn known(path: &Path, quantity: Quantity, value: &UncertainValue) -> Result<Estimate, Vec<Lack>> {
    if !value.value.is_finite() || !value.std_uncertainty().is_finite() {
        return Err(lacks(path, quantity));
    }
    let (plain, bounds) = (path.estimate(value, quantity.unit()), quantity.bounds());
    if quantity == Quantity::ExchangerEffectiveness && is_impossible(value) {
        return Err(vec![Lack::Effectiveness { value: value.value }]);
    }
    if bounds.is_filled_by(plain.interval) { Err(vec![Lack::WholeRange]) } else { Ok(plain.within(bounds)) }
}

fn derivation(path: &Path, quantity: Quantity) -> Derivation {
    let measured_flow = path.value(P::Flow).is_finite();
    let analysed = path.model.analysed();
    match quantity {
        Quantity::CoilPower if path.measured_power() => Derivation::FlowAndRise,
        Quantity::CoilPower => Derivation::HeatIntoTank,
        Quantity::CoilFlow if measured_flow => Derivation::Measured,
        Quantity::CoilFlow => Derivation::HeatOverRise,
        Quantity::GasFlow | Quantity::AirRatio if analysed => Derivation::GasAnalysis,
        Quantity::GasFlow | Quantity::AirRatio => Derivation::WaterHeatAndFall,
        Quantity::FlueLoss if analysed => Derivation::AnalysedGas,
        Quantity::FlueLoss => Derivation::GasHeatRatio,
        Quantity::Unaccounted => Derivation::EnergyBalance,
        _ => Derivation::TransferUnits,
    }
}

fn notes(path: &Path, quantity: Quantity) -> Vec<Note> {
    use Quantity as Q;
    let exchanger =
        matches!(quantity, Q::ExchangerEffectiveness | Q::ExchangerConductance | Q::ExchangerConductanceArea);
    let gas = matches!(quantity, Q::GasFlow | Q::AirRatio | Q::FlueLoss | Q::Unaccounted);
    let power = quantity == Q::CoilPower && path.measured_power();
    let no_water = path.value(P::CoilOut).is_nan() && path.value(P::Flow).is_nan();
    let factor = path.value(P::Whole);
    let all = [
        (true, Note::Steady(path.phases.steady_part())),
        ((exchanger || power) && path.inputs.inlet_from_tank, Note::InletFromTank),
        (exchanger && quantity != Q::ExchangerEffectiveness && path.assumed_counter, Note::CounterflowAssumed),
        (exchanger && no_water, Note::LargeWaterFlow),
        (quantity != Q::CoilPower && path.inputs.scatter_assumed, Note::ScatterAssumed),
        (gas && !path.model.analysed(), Note::NoGasAnalysis),
        (matches!(quantity, Q::GasFlow | Q::AirRatio), Note::BurnRateWithHeat),
        (matches!(quantity, Q::FlueLoss | Q::Unaccounted), Note::WholeBurn { factor }),
    ];
    all.into_iter().filter(|(holds, _)| *holds).map(|(_, note)| note).collect()
}

/// Why a quantity is missing.
fn lacks(path: &Path, quantity: Quantity) -> Vec<Lack> {
    use Quantity as Q;
    if path.model.steady.is_none() {
        return vec![Lack::SteadyPart];
    }
    let lacks = match quantity {
        Q::CoilPower => path.lacking_power(),
        Q::CoilFlow => path.lacking_flow(),
        Q::ExchangerEffectiveness => path.lacking_fall(),
        Q::ExchangerConductanceArea if path.model.tube_area.is_none() => vec![Lack::TubeSize],
        Q::ExchangerConductance | Q::ExchangerConductanceArea => [path.lacking_fall(), path.lacking_power()].concat(),
        _ => path.lacking_gas(),
    };
    let effectiveness = path.traced[Q::ExchangerEffectiveness as usize].value;
    let is_conductance = matches!(quantity, Q::ExchangerConductance | Q::ExchangerConductanceArea);
    match lacks[..] {
        [] if is_conductance && effectiveness.is_finite() => vec![Lack::Transfer { effectiveness }],
        [] => vec![Lack::Undefined],
        _ => lacks,
    }
}

impl Path<'_> {
    /// The value of a slot.
    pub(crate) fn value(&self, slot: P) -> f64 {
        self.inputs.get(slot).value
    }

    /// Whether flow and outlet were measured; where the inlet was not, the tank stands in.
    pub(crate) fn measured_power(&self) -> bool {
        [P::Flow, P::CoilIn, P::CoilOut].iter().all(|s| self.value(*s).is_finite())
    }

    /// The empty ones of the vessel's slots.
    fn empty(&self, slots: &[Slot]) -> Vec<Lack> {
        let is_empty = |slot: &&Slot| self.inputs.slots[**slot as usize].value.is_nan();
        slots.iter().filter(is_empty).map(|s| Lack::Input(*s)).collect()
    }

    /// What the heat flow into the tank lacks.
    fn lacking_power(&self) -> Vec<Lack> {
        if self.measured_power() {
            return Vec::new();
        }
        let mut lacks = self.empty(&[Slot::VesselCapacity, Slot::LossCoefficient]);
        if self.model.steady.as_ref().is_some_and(|s| s.air_mean.is_nan()) {
            lacks.push(Lack::Input(Slot::Air));
        }
        lacks
    }

    fn lacking_flow(&self) -> Vec<Lack> {
        let (rise_k, std_uncertainty_k) = self.rise;
        let mut lacks = self.lacking_power();
        if self.value(P::CoilOut).is_nan() {
            lacks.push(Lack::FlowOrOutlet);
        } else if !self.model.rise_tells {
            lacks.push(Lack::SmallRise { rise_k, std_uncertainty_k });
        }
        lacks
    }

    fn lacking_fall(&self) -> Vec<Lack> {
        let (fall_k, std_uncertainty_k) = self.drop;
        let probes = [(Channel::FlueBefore, P::FlueBefore), (Channel::FlueAfter, P::FlueAfter)];
        let missing = probes.into_iter().filter(|(_, slot)| self.value(*slot).is_nan());
        let mut lacks: Vec<Lack> = missing.map(|(channel, _)| Lack::Column(channel.name())).collect();
        if lacks.is_empty() && !self.model.drop_tells {
            lacks.push(Lack::SmallFall { fall_k, std_uncertainty_k });
        }
        lacks
    }

    /// What air ratio, gas flow and flue loss lack.
    fn lacking_gas(&self) -> Vec<Lack> {
        let mut lacks = Vec::new();
        if !self.model.analysed() {
            lacks.extend([self.lacking_fall(), self.lacking_power()].concat());
        }
        if self.model.composition.is_none() {
            lacks.push(Lack::Composition);
        }
        if !self.model.base.features.whole {
            lacks.push(Lack::WholeBurn);
        }
        lacks.extend(self.empty(&[
            Slot::FuelMass,
            Slot::Kindling,
            Slot::Moisture,
            Slot::NetDry,
            Slot::LeftoverFuel,
            Slot::LeftoverChar,
        ]));
        if lacks.is_empty() && self.traced[Check::TankPower.index()].value.is_finite() {
            lacks.push(Lack::LittleHeat);
        }
        lacks
    }
}
