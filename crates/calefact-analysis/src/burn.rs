//! A burn after its vessel has been reduced, for what is worked out next: exchanger, balance, ends, cautions.

use crate::context::Context;
use crate::phases::Fire;
use crate::reduce::inputs::Inputs;
use crate::reduce::model::Model;
use crate::series::Series;
use calefact_data::{Readings, RegisterRow};

/// A burn after its vessel has been reduced.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Burn<'a> {
    /// Register row.
    pub(crate) row: &'a RegisterRow,
    /// Log.
    pub(crate) readings: &'a Readings,
    /// Tank curve of the whole log.
    pub(crate) series: &'a Series,
    /// Specific enthalpy of the water at each of its readings, J/kg.
    pub(crate) enthalpies: &'a [f64],
    /// The vessel's model.
    pub(crate) model: &'a Model<'a>,
    /// The vessel's inputs.
    pub(crate) inputs: &'a Inputs,
    /// Surroundings.
    pub(crate) context: &'a Context<'a>,
    /// What the log shows of the fire.
    pub(crate) fire: &'a Fire,
}
