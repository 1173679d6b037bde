//! Names of the quantities and of the terms of the energy balance as people read them.

use calefact_analysis::Quantity;

/// The name of a quantity, with its basis in brackets: "thermal efficiency (net, credited)".
pub const fn quantity_name(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::HeatingRate => "heating rate",
        Quantity::HeatStored => "heat stored in water and vessel",
        Quantity::HeatDelivered => "heat delivered to the vessel",
        Quantity::HeatInput => "mean heat flow over the trial",
        Quantity::SteadyHeatInput => "heat flow in the steady part",
        Quantity::LossCoefficient => "loss coefficient of the vessel",
        Quantity::FuelEnergy => "fuel energy (net, credited)",
        Quantity::ThermalEfficiency => "thermal efficiency (net, credited)",
        Quantity::ThermalEfficiencyUncredited => "thermal efficiency (net, uncredited)",
        Quantity::ThermalEfficiencyGross => "thermal efficiency (gross, credited)",
        Quantity::ThermalEfficiencyGrossUncredited => "thermal efficiency (gross, uncredited)",
        Quantity::StoredFraction => "stored heat over energy supplied",
        Quantity::FuelPerHeat => "fuel per kWh of heat",
        Quantity::BurnRate => "burn rate",
        Quantity::CostPerHeat => "fuel cost per kWh of heat",
        Quantity::ExchangerEffectiveness => "exchanger effectiveness",
        Quantity::ExchangerConductance => "exchanger conductance",
        Quantity::ExchangerConductanceArea => "exchanger conductance per tube area",
        Quantity::CoilPower => "coil power",
        Quantity::CoilFlow => "coil water flow",
        Quantity::GasFlow => "flue gas flow",
        Quantity::AirRatio => "air ratio",
        Quantity::FlueLoss => "flue loss (net)",
        Quantity::Unaccounted => "unaccounted share",
        Quantity::ReferenceTime => "time for the reference job",
        Quantity::ReferenceFuel => "fuel for the reference job",
        Quantity::ReferenceHeaterRatio => "measured over metered heat",
    }
}

/// The name without what stands in brackets: "thermal efficiency". The four thermal efficiencies share one.
pub fn short_quantity_name(quantity: Quantity) -> &'static str {
    let name = quantity_name(quantity);
    name.split_once(" (").map_or(name, |(words, _)| words)
}

/// The name in a sentence: without the basis where it is the usual one.
pub(crate) fn quantity_in_sentence(quantity: Quantity) -> &'static str {
    quantity_name(quantity).trim_end_matches(" (net, credited)")
}

/// The name of a term of the energy balance.
pub fn balance_term_name(term: &str) -> String {
    match term {
        "stored" => "into the water".to_owned(),
        "standing_loss" => "lost by the vessel".to_owned(),
        "flue_sensible" => "hot flue gas".to_owned(),
        "flue_latent" => "steam in flue gas".to_owned(),
        "flue_co" => "unburnt CO".to_owned(),
        "leftover_fuel" => "wood left".to_owned(),
        "leftover_char" => "char left".to_owned(),
        "casing" => "stove's casing".to_owned(),
        other => other.replace('_', " "),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_quantity_has_a_name_of_its_own() {
        let names: BTreeSet<&str> = Quantity::ALL.iter().map(|q| quantity_name(*q)).collect();
        assert_eq!(names.len(), Quantity::ALL.len());
        assert_eq!(short_quantity_name(Quantity::FlueLoss), "flue loss");
    }
}
