//! Everything of a burn's heat path that is not an uncertain input.

use super::steady::SteadyTank;
use crate::reduce::model::Model;
use calefact_data::apparatus::Arrangement;
use calefact_physics::casing::Surface;
use calefact_physics::fuel::Composition;

/// Everything of a burn's heat path that is not an uncertain input.
#[derive(Debug, Clone)]
pub(crate) struct PathModel<'a> {
    /// The vessel's model.
    pub(crate) base: &'a Model<'a>,
    /// Tank over the steady part, if there is one.
    pub(crate) steady: Option<SteadyTank>,
    /// Dry composition of the fuel, if known.
    pub(crate) composition: Option<Composition>,
    /// Flow arrangement.
    pub(crate) arrangement: Arrangement,
    /// Outside area of the tube, m2, if the build is described.
    pub(crate) tube_area: Option<f64>,
    /// Outer surface of the casing, if described.
    pub(crate) casing: Option<Surface>,
    /// Air pressure of the place, Pa.
    pub(crate) pressure: f64,
    /// Whether the fall of the gas is beyond its uncertainty.
    pub(crate) drop_tells: bool,
    /// Whether the rise of the water is beyond its uncertainty.
    pub(crate) rise_tells: bool,
    /// Whether O2 or CO2 was measured.
    pub(crate) has_analysis: bool,
}

impl PathModel<'_> {
    /// Whether the air ratio comes from a gas analysis.
    pub(crate) fn analysed(&self) -> bool {
        self.has_analysis
    }
}
