//! Why a quantity could not be given.

pub use crate::reduce::slots::Slot;
use serde::Serialize;

/// Something that a quantity needs and a trial has not.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Lack {
    /// An input of the measurement model.
    Input(Slot),
    /// The fuel was weighed for the whole burn, but the window covers a part of it.
    WholeBurn,
    /// The log shows no steady part with two readings.
    SteadyPart,
    /// A column was not logged in the steady part.
    Column(&'static str),
    /// Neither flow nor outlet of the coil was logged in the steady part.
    FlowOrOutlet,
    /// The water warms too little in the coil to say anything.
    SmallRise {
        /// Rise of the water.
        rise_k: f64,
        /// Its standard uncertainty.
        std_uncertainty_k: f64,
    },
    /// The gas falls too little over the exchanger to say anything.
    SmallFall {
        /// Fall of the gas.
        fall_k: f64,
        /// Its standard uncertainty.
        std_uncertainty_k: f64,
    },
    /// The effectiveness lies outside 0 to 1.
    Effectiveness {
        /// It comes to this.
        value: f64,
    },
    /// No conductance gives the effectiveness, which is as high as its arrangement can reach, or higher.
    Transfer {
        /// The effectiveness.
        effectiveness: f64,
    },
    /// The inputs leave it open over the whole range that it can have.
    WholeRange,
    /// The build of the exchanger states no outside diameter and length of its tube.
    TubeSize,
    /// The fuel has neither a composition nor a class.
    Composition,
    /// The water took less heat than the gas of complete combustion gives up.
    LittleHeat,
    /// The numbers do not allow it; findings say more.
    Undefined,
}

impl Lack {
    /// Whether two trials lack the same, though their figures differ.
    pub fn is_like(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Input(_) | Self::Column(_), _) => self == other,
            _ => std::mem::discriminant(self) == std::mem::discriminant(other),
        }
    }
}
