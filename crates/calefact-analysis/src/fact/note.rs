//! What a reader should know of an estimate or of a term of the energy balance: assumptions, the part of the log it is
//! drawn from, doubts about its propagation.

use crate::phases::SteadyPart;
use serde::Serialize;

/// A remark beside a number.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Note {
    /// The calorific value of a fuel is typical of its class.
    TypicalCalorificValue {
        /// The fuel.
        fuel: String,
    },
    /// The heating rate is that at a tank temperature.
    RateAt {
        /// The temperature.
        tank_degc: f64,
    },
    /// The steady part the number is drawn from; `None` where the log shows none.
    Steady(Option<SteadyPart>),
    /// The water into the coil was not read but taken as the tank's mean.
    InletFromTank,
    /// A column has so few readings in the steady part that their scatter is partly assumed.
    ScatterAssumed,
    /// The arrangement of the exchanger is not stated and taken as counterflow.
    CounterflowAssumed,
    /// Outlet and flow of the water are not known; its flow is taken as large against the gas.
    LargeWaterFlow,
    /// Without a gas analysis all heat the gas lost is taken to be in the water.
    NoGasAnalysis,
    /// The burn rate is taken to go with the heat flow into the tank.
    BurnRateWithHeat,
    /// Net basis; the loss of the steady part was carried to the whole burn.
    WholeBurn {
        /// By this factor.
        factor: f64,
    },
    /// Propagation to first order gives another interval than Monte Carlo.
    FirstOrderDiffers {
        /// Its lower end, in the unit of the estimate.
        lower: f64,
        /// Its upper end.
        upper: f64,
    },
    /// The Monte Carlo run had not settled to the digits asked for.
    NotSettled {
        /// Digits asked for.
        digits: u8,
        /// Draws made.
        draws: usize,
    },
    /// The intervals hold so much probability that Monte Carlo would take more draws than are made; first order stands.
    TooManyDraws {
        /// Draws of one block.
        draws: usize,
        /// Most draws.
        most: usize,
    },
    /// The quantity was not defined in some draws.
    UndefinedDraws {
        /// In so many.
        undefined: usize,
        /// Draws made.
        draws: usize,
    },
    /// The fuel as put on, kindling included, on the net basis.
    FuelAsPutOn,
    /// The heat of the gas after the exchanger above the air, on the net basis.
    GasAboveAir,
    /// Natural convection and radiation by correlation.
    ByCorrelation,
    /// Counts on the gross basis only and is no part of the sum.
    GrossBasisOnly,
    /// Heat to the room and unburnt gas, and the terms that were not measured.
    Unaccounted {
        /// Names of those terms.
        not_measured: Vec<&'static str>,
    },
}
