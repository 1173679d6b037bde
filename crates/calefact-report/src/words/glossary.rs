//! Meanings of the terms of a report in plain words: the one place for them. The page puts a meaning beside a quantity at its first
//! use, and all terms at its end.

use super::{capital, short_quantity_name};
use calefact_analysis::Quantity;

/// A term and its meaning.
pub(crate) struct Term {
    /// The term as the report writes it.
    pub(crate) name: String,
    /// Its meaning, a clause without a full stop.
    pub(crate) meaning: &'static str,
}

/// Meaning of a quantity, as a clause.
pub(crate) const fn meaning(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::HeatingRate => "how fast the tank warms at a stated temperature",
        Quantity::HeatStored => "the heat that water and vessel hold more at the end than at the start",
        Quantity::HeatDelivered => "heat stored in water and vessel, and the heat the vessel lost meanwhile",
        Quantity::HeatInput => "heat into the vessel for each unit of time, light-up and burn-down included",
        Quantity::SteadyHeatInput => "heat into the vessel for each unit of time while the fire burns evenly",
        Quantity::LossCoefficient => "heat the vessel loses for each degree that it is warmer than the air",
        Quantity::FuelEnergy => "the heat that the wood burnt can give",
        Quantity::ThermalEfficiency => {
            "the share of the energy of the wood burnt that reached the water and the vessel; what was left over is taken off \
             (credited), the heat of steam is not counted (net)"
        }
        Quantity::ThermalEfficiencyUncredited
        | Quantity::ThermalEfficiencyGross
        | Quantity::ThermalEfficiencyGrossUncredited => {
            "the same with leftovers not taken off, or the heat of steam counted"
        }
        Quantity::StoredFraction => "heat stored, as a share of the energy supplied",
        Quantity::FuelPerHeat => "wood burnt for each kWh of heat into the vessel; less is better",
        Quantity::BurnRate => "wood burnt in an hour",
        Quantity::CostPerHeat => "price of the wood burnt for each kWh of heat into the vessel; less is better",
        Quantity::ExchangerEffectiveness => {
            "the share of the heat the water could take out of the flue gas that it does take"
        }
        Quantity::ExchangerConductance => {
            "heat that passes from gas to water for each degree between them; more is better"
        }
        Quantity::ExchangerConductanceArea => "conductance for each unit of the tube's outside surface",
        Quantity::CoilPower => "heat the water takes up in the exchanger for each unit of time",
        Quantity::CoilFlow => "water through the exchanger for each unit of time",
        Quantity::GasFlow => "flue gas through the exchanger for each unit of time",
        Quantity::AirRatio => "air that went through the fire over the air the wood needs",
        Quantity::FlueLoss => {
            "the share of the fuel's energy that leaves with the gas after the exchanger, the heat of steam not counted (net)"
        }
        Quantity::Unaccounted => "the share of the fuel's energy that no reading explains",
        Quantity::ReferenceTime => "time that the job stated in the pipeline file takes; less is better",
        Quantity::ReferenceFuel => "wood that the job stated in the pipeline file takes; less is better",
        Quantity::ReferenceHeaterRatio => "heat measured over heat metered: 1 where the rig measures right",
    }
}

/// Terms that are no quantities.
const TERMS: [(&str, &str); 17] = [
    ("95 % interval (or another share)", "the range that holds the true value that often, over many such studies"),
    ("conductance", "heat that passes for each degree between the warm and the cold side"),
    ("credited", "wood and char left over are taken off the fuel; uncredited: all wood put on counts as burnt"),
    ("dry basis", "moisture as a share of the wood without its water; pin meters show this"),
    ("gross", "the fuel's energy with the heat that its steam would give if it turned to water; net leaves that out"),
    ("main quantity", "the quantity that carries the verdict of a comparison; the others are secondary"),
    ("net", "the fuel's energy without the heat that leaves as steam"),
    ("next trial", "the range in which one further burn is expected; wider than the interval of the mean"),
    ("p, adjusted", "how often chance alone would show such a difference, all verdicts of the page together"),
    ("percentage point", "the step from 30 % to 31 %"),
    ("reference-heater trial", "the vessel heated with metered electricity, to check the rig itself"),
    ("scatter", "how much burns differ that were meant to be alike"),
    (
        "settled",
        "the burns tell the two apart; not settled: they do not, which does not mean that the two are the same",
    ),
    ("standing loss", "heat that the vessel loses to the air"),
    ("standing-loss trial", "the vessel cools without a fire, to measure its standing loss"),
    ("steady part", "the stretch between light-up and burn-down in which the fire burns evenly"),
    ("wet basis", "moisture as a share of the wood with its water"),
];

/// All terms with these quantities, by the alphabet.
pub(crate) fn terms(quantities: &[Quantity]) -> Vec<Term> {
    let names = quantities.iter().map(|q| Term { name: short_quantity_name(*q).to_owned(), meaning: meaning(*q) });
    let fixed = TERMS.iter().map(|(name, meaning)| Term { name: (*name).to_owned(), meaning });
    let mut all: Vec<Term> = names.chain(fixed).collect();
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all.dedup_by(|a, b| a.name == b.name);
    all
}

/// "Burn rate: wood burnt in an hour."
pub(crate) fn explained(quantity: Quantity) -> String {
    format!("{}: {}.", capital(short_quantity_name(quantity)), meaning(quantity))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn terms_stand_once_and_in_order_and_end_without_a_full_stop() {
        let terms = terms(Quantity::ALL);
        let names: BTreeSet<&str> = terms.iter().map(|t| t.name.as_str()).collect();
        assert_eq!(names.len(), terms.len());
        assert!(terms.is_sorted_by(|a, b| a.name < b.name));
        assert!(terms.iter().all(|t| !t.meaning.ends_with('.')));
    }
}
