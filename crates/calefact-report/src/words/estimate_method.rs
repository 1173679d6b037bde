//! How an estimate of a trial was obtained, in words for a table.

use calefact_analysis::fact::{Derivation, ErrorPropagation, EstimateMethod, ScatterMethod};
use calefact_stats::residuals::ErrorStructure;

/// "heat line; scatter of the display step; first order".
pub(crate) fn estimate_method(method: EstimateMethod) -> String {
    let scatter = match method.derivation {
        Derivation::CoolingLine(scatter) => format!("{}; ", scatter_method(scatter)),
        _ => String::new(),
    };
    let propagation = match method.propagation {
        ErrorPropagation::FirstOrder => "first order",
        ErrorPropagation::MonteCarlo => "Monte Carlo, shortest interval",
    };
    format!("{}; {scatter}{propagation}", derivation(method.derivation))
}

const fn derivation(derivation: Derivation) -> &'static str {
    match derivation {
        Derivation::MeanOverWindow => "mean over the window",
        Derivation::MeanOverSteadyPart => "mean over the steady part",
        Derivation::LocalSlope => "slope of the readings around",
        Derivation::Secant => "slope between two readings",
        Derivation::CoolingLine(_) => "cooling line",
        Derivation::HeatBalance => "closed form of the heat balance",
        Derivation::EnthalpyAndLoss => "enthalpy plus standing loss",
        Derivation::Enthalpy => "enthalpy",
        Derivation::EnergyRatio => "ratio of energies",
        Derivation::FlowAndRise => "flow times enthalpy rise",
        Derivation::HeatIntoTank => "heat flow into the tank, storage plus loss",
        Derivation::Measured => "measured",
        Derivation::HeatOverRise => "heat flow into the tank over enthalpy rise",
        Derivation::GasAnalysis => "gas analysis and stoichiometry",
        Derivation::WaterHeatAndFall => "heat the water took and fall of the gas",
        Derivation::AnalysedGas => "stoichiometry of the analysed gas",
        Derivation::GasHeatRatio => "gas heat after over gas heat given up",
        Derivation::EnergyBalance => "energy balance",
        Derivation::TransferUnits => "effectiveness and transfer units",
    }
}

const fn scatter_method(method: ScatterMethod) -> &'static str {
    match method {
        ScatterMethod::DisplayStep => "scatter of the display step",
        ScatterMethod::Residuals(ErrorStructure::Independent) => "independent errors, Student t",
        ScatterMethod::Residuals(ErrorStructure::Autoregressive) => {
            "autoregressive errors and white noise (REML), Satterthwaite t"
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_in_order() {
        let scatter = ScatterMethod::Residuals(ErrorStructure::Autoregressive);
        let method = |derivation, propagation| estimate_method(EstimateMethod { derivation, propagation });
        assert_eq!(
            method(Derivation::CoolingLine(scatter), ErrorPropagation::FirstOrder),
            "cooling line; autoregressive errors and white noise (REML), Satterthwaite t; first order"
        );
        assert_eq!(
            method(Derivation::Enthalpy, ErrorPropagation::MonteCarlo),
            "enthalpy; Monte Carlo, shortest interval"
        );
    }
}
