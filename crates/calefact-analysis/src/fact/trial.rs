//! What the reduction of a trial finds: edges of the window that were not reached, results that nature forbids, heat flows
//! that do not agree, and what a reader should know of the choices made.

use super::implausible::{ImplausibleResult, Slip};
use crate::phases::SteadyPart;
use crate::result::FitQuality;
use calefact_data::apparatus::Tolerance;
use serde::Serialize;

/// A fact about one trial, or about what all trials lack.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum TrialFact {
    /// The log has no tank temperature.
    NoTankReading,
    /// The tank never rises through an edge of the window.
    WindowNotReached {
        /// The edge.
        edge_degc: f64,
    },
    /// The tank never reaches the temperature that ends a burn.
    TargetNotReached {
        /// The temperature.
        target_degc: f64,
    },
    /// No event says that the fire is out, and that ends a burn.
    NoFireOut,
    /// The tank is hotter than water can be.
    AboveBoiling {
        /// Hottest reading.
        highest_degc: f64,
        /// Its time.
        at_s: f64,
        /// Boiling point of the place.
        boiling_degc: f64,
        /// Altitude of the place; sea level is taken where it is not stated.
        altitude_m: Option<f64>,
    },
    /// More heat was found than was supplied.
    HeatAboveSupply {
        /// What supplied it.
        supply: Supply,
        /// Heat found over heat supplied.
        ratio: f64,
        /// Slips that would explain it.
        slips: Vec<Slip>,
    },
    /// The char left is worth more of the wood's energy than wood leaves in char.
    CharShare {
        /// Its share of the energy of the wood burnt.
        share: f64,
        /// Whether no fire leaves so much; otherwise hardly any does.
        impossible: bool,
    },
    /// Results that can hardly be right.
    Implausible {
        /// The results.
        results: Vec<ImplausibleResult>,
        /// Slips that would explain all of them.
        slips: Vec<Slip>,
    },
    /// More energy was taken back from the fire than was put on.
    NoFuelEnergy {
        /// Energy of the fuel less what was left, MJ.
        energy_mj: f64,
    },
    /// The water did not get warmer.
    NotWarmed {
        /// Heat stored, MJ.
        stored_mj: f64,
    },
    /// The vessel does not cool towards the air.
    LossNotPositive,
    /// Constant heat flow and constant loss do not describe the log.
    Misfit(FitQuality),
    /// The register leaves the trial out of comparisons.
    Excluded {
        /// Reason in the register.
        reason: String,
    },
    /// Another end of the burn would change its efficiency.
    EndOfTrial {
        /// The end taken.
        taken: EndPoint,
        /// The others, each with the change of the efficiency.
        others: Vec<(EndPoint, f64)>,
    },
    /// The tank probe and the probe at the coil's inlet differ.
    TankLayered {
        /// Mean difference over a quarter of the log.
        difference_k: f64,
        /// Middle of that quarter.
        at_s: f64,
    },
    /// The terms of the energy balance hold more than the fuel.
    BalanceAboveFuel {
        /// The part above it, as a share of the fuel's energy.
        excess: f64,
        /// Standard uncertainty of that share.
        std_uncertainty: f64,
    },
    /// Much of the fuel's energy is in no term of the energy balance.
    BalanceUnexplained {
        /// As a share of the fuel's energy.
        share: f64,
    },
    /// Two ways to one heat flow, and whether they agree.
    Closure(Closure),
    /// An effectiveness outside 0 to 1.
    EffectivenessImpossible {
        /// The effectiveness.
        value: f64,
        /// Whether it is outside by more than its uncertainty.
        beyond_doubt: bool,
        /// When.
        steady: Option<SteadyPart>,
    },
    /// The gas is hotter after the exchanger than before it.
    FlueProbesSwapped {
        /// Mean before it.
        before_degc: f64,
        /// Mean after it.
        after_degc: f64,
    },
    /// No instrument states the tolerance of some columns, and one is assumed.
    ToleranceAssumed {
        /// The columns, each with the limit that stands for its tolerance.
        columns: Vec<(&'static str, Tolerance)>,
    },
    /// No instrument states the tolerance of some columns, which count as exact.
    ToleranceMissing {
        /// The columns.
        columns: Vec<&'static str>,
    },
}

/// Source of a trial's heat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum Supply {
    /// The fuel.
    Fuel,
    /// Metered electricity.
    Electricity,
}

/// Where a burn may be taken to end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum BurnEnd {
    /// The event `fire out`.
    FireOut,
    /// The highest tank temperature.
    Peak,
    /// The last reading.
    LastReading,
}

/// An end of a burn in its log.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct EndPoint {
    /// Which end.
    pub end: BurnEnd,
    /// Tank then.
    pub tank_degc: f64,
    /// Time since the first reading.
    pub at_s: f64,
}

/// Two ways to one heat flow.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Closure {
    /// The two.
    pub sides: ClosureSides,
    /// First over second.
    pub ratio: f64,
    /// Its standard uncertainty.
    pub std_uncertainty: f64,
    /// When.
    pub steady: Option<SteadyPart>,
}

impl Closure {
    /// Whether they agree within two standard uncertainties.
    pub fn agrees(&self) -> bool {
        (self.ratio - 1.0).abs() <= 2.0 * self.std_uncertainty
    }
}

/// Heat flows that should agree.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum ClosureSides {
    /// Heat taken in the coil, by flow and rise, and heat arriving in the tank, by storage and loss.
    CoilAndTank,
    /// Heat given up by the gas, by analysis, burn rate and fall, and heat taken by the water.
    GasAndWater,
}

impl TrialFact {
    /// Codes with their meaning.
    pub const CODES: &'static [(&'static str, &'static str)] = &[
        ("no-tank-reading", "the log has no tank temperature"),
        ("window-not-reached", "the tank never rises through an edge of the window"),
        ("target-not-reached", "the tank never reaches the temperature that ends a burn"),
        ("no-fire-out", "no event says that the fire is out, and the pipeline ends burns there"),
        ("above-boiling", "the tank is hotter than water can be at the site's altitude"),
        ("heat-above-supply", "more heat was found than was supplied"),
        ("char-energy", "the char left is worth more of the wood's energy than wood leaves in char"),
        ("implausible-result", "a result is beyond what common practice knows"),
        ("no-heat-gained", "the fuel gave no energy, or the water did not get warmer"),
        ("loss-not-positive", "the vessel does not cool towards the air in a standing-loss trial"),
        ("model-misfit", "constant heat flow and constant loss do not describe the log"),
        ("excluded", "the register leaves the trial out of comparisons"),
        ("end-of-trial", "another end of the burn would change its efficiency"),
        ("tank-layered", "the tank probe and the probe at the coil's inlet differ"),
        ("balance-not-closed", "the energy balance holds more than the fuel, or leaves much of it unexplained"),
        ("closure-water", "heat flow by the coil's flow and rise against that into the tank"),
        ("closure-gas", "heat flow given up by the gas against that taken by the water"),
        ("effectiveness-impossible", "the exchanger's effectiveness lies outside 0 to 1"),
        ("flue-probes-swapped", "the flue gas is hotter after the exchanger than before it"),
        ("tolerance-assumed", "no instrument states the tolerance of a column, and one is assumed"),
        ("tolerance-missing", "no instrument states the tolerance of a column, which counts as exact"),
    ];

    /// Stable code.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoTankReading => "no-tank-reading",
            Self::WindowNotReached { .. } => "window-not-reached",
            Self::TargetNotReached { .. } => "target-not-reached",
            Self::NoFireOut => "no-fire-out",
            Self::AboveBoiling { .. } => "above-boiling",
            Self::HeatAboveSupply { .. } => "heat-above-supply",
            Self::CharShare { .. } => "char-energy",
            Self::Implausible { .. } => "implausible-result",
            Self::NoFuelEnergy { .. } | Self::NotWarmed { .. } => "no-heat-gained",
            Self::LossNotPositive => "loss-not-positive",
            Self::Misfit(_) => "model-misfit",
            Self::Excluded { .. } => "excluded",
            Self::EndOfTrial { .. } => "end-of-trial",
            Self::TankLayered { .. } => "tank-layered",
            Self::BalanceAboveFuel { .. } | Self::BalanceUnexplained { .. } => "balance-not-closed",
            Self::Closure(Closure { sides: ClosureSides::CoilAndTank, .. }) => "closure-water",
            Self::Closure(Closure { sides: ClosureSides::GasAndWater, .. }) => "closure-gas",
            Self::EffectivenessImpossible { .. } => "effectiveness-impossible",
            Self::FlueProbesSwapped { .. } => "flue-probes-swapped",
            Self::ToleranceAssumed { .. } => "tolerance-assumed",
            Self::ToleranceMissing { .. } => "tolerance-missing",
        }
    }

    /// The column of the register that the fact points to, if one.
    pub fn register_column(&self) -> Option<&'static str> {
        match self {
            Self::HeatAboveSupply { slips, .. } | Self::Implausible { slips, .. } => slips.first()?.register_column(),
            Self::CharShare { .. } => Some("leftover_char"),
            _ => None,
        }
    }
}
