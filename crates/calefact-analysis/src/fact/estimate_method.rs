//! How an estimate of a trial and its uncertainty were obtained.

use calefact_stats::residuals::ErrorStructure;
use serde::Serialize;

/// How an estimate was obtained.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct EstimateMethod {
    /// Where the value comes from.
    pub derivation: Derivation,
    /// How the errors of the inputs reach it.
    pub propagation: ErrorPropagation,
}

/// How the errors of inputs reach a result.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum ErrorPropagation {
    /// Law of propagation of uncertainty.
    FirstOrder,
    /// Draws of every source, shortest interval.
    MonteCarlo,
}

/// Where a value comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Derivation {
    /// Mean over the window.
    MeanOverWindow,
    /// Mean over the steady part.
    MeanOverSteadyPart,
    /// Slope of the readings around a temperature.
    LocalSlope,
    /// Slope between the two readings around a temperature.
    Secant,
    /// Line of lost heat against excess.
    CoolingLine(ScatterMethod),
    /// Closed form of the heat balance.
    HeatBalance,
    /// Enthalpy plus standing loss.
    EnthalpyAndLoss,
    /// Enthalpy.
    Enthalpy,
    /// Ratio of energies.
    EnergyRatio,
    /// Flow times enthalpy rise.
    FlowAndRise,
    /// Heat flow into the tank, storage plus loss.
    HeatIntoTank,
    /// Measured.
    Measured,
    /// Heat flow into the tank over enthalpy rise.
    HeatOverRise,
    /// Gas analysis and stoichiometry.
    GasAnalysis,
    /// Heat the water took and fall of the gas.
    WaterHeatAndFall,
    /// Stoichiometry of the analysed gas.
    AnalysedGas,
    /// Gas heat after the exchanger over gas heat given up in it.
    GasHeatRatio,
    /// Energy balance.
    EnergyBalance,
    /// Effectiveness and transfer units.
    TransferUnits,
}

impl Derivation {
    /// The method with errors propagated to first order.
    pub(crate) const fn to_first_order(self) -> EstimateMethod {
        EstimateMethod { derivation: self, propagation: ErrorPropagation::FirstOrder }
    }
}

/// How the scatter about a line became an uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum ScatterMethod {
    /// The display step is the scatter.
    DisplayStep,
    /// From the residuals.
    Residuals(ErrorStructure),
}
