//! What every trial of a dataset is reduced with: settings, apparatus, instrument errors, loss coefficients.

use crate::Quantity;
use crate::errors::ErrorModel;
use crate::fact::ErrorSource;
use crate::monte_carlo;
use crate::result::VesselLoss;
use crate::settings::Settings;
use crate::thermometer::Thermometer;
use calefact_data::Apparatus;
use calefact_stats::monte_carlo::MonteCarlo;
use calefact_stats::{ErrorSources, Shape, SourceInfo, UncertainValue};
use std::borrow::Cow;

/// Shared, read-only surroundings of a reduction.
#[derive(Debug)]
pub(crate) struct Context<'a> {
    /// Settings of the pipeline.
    pub(crate) settings: &'a Settings,
    /// Apparatus of the dataset.
    pub(crate) apparatus: &'a Apparatus,
    /// Errors of its instruments.
    pub(crate) errors: ErrorModel,
    /// Shared sources: instruments, calorific values, vessels, pooled loss coefficients.
    pub(crate) book: ErrorSources,
    /// Pooled loss coefficients known so far.
    pub(crate) losses: &'a [VesselLoss],
    /// Measured over metered heat of the rig, where the pipeline uses it.
    pub(crate) rig: Option<UncertainValue>,
    /// Monte Carlo runs, where the pipeline asks for them.
    pub(crate) monte_carlo: Option<MonteCarlo>,
    /// Currency that all priced fuels state.
    currency: Option<String>,
}

/// Share of a thermometer's standard uncertainty taken as its scatter from reading to reading, where the readings are too few
/// to show it (common practice, no source).
const READING_SHARE: f64 = 1.0 / 3.0;

impl<'a> Context<'a> {
    /// Surroundings with what is known so far of losses and rig.
    pub(crate) fn new(
        settings: &'a Settings,
        apparatus: &'a Apparatus,
        losses: &'a [VesselLoss],
        rig: Option<UncertainValue>,
    ) -> Self {
        let mut book = shared_sources(apparatus);
        for loss in losses {
            book.extend(loss.sources.clone());
        }
        let (errors, currency) = (ErrorModel::new(apparatus), apparatus.currency());
        Self { settings, apparatus, errors, book, losses, rig, monte_carlo: monte_carlo::runs(settings), currency }
    }

    /// Unit of a quantity; that of a cost names the currency.
    pub(crate) fn unit(&self, quantity: Quantity) -> Cow<'static, str> {
        quantity.unit_in(self.currency.as_deref())
    }

    /// The thermometer in the tank, where its limits of error are known.
    pub(crate) fn tank_probe(&self) -> Option<&Thermometer> {
        self.errors.column("tank")?.thermometer.as_ref()
    }

    /// Standard uncertainty of one tank reading from its display step, K.
    pub(crate) fn tank_step(&self) -> f64 {
        self.errors.column("tank").map_or(0.0, |error| error.step)
    }

    /// Standard deviation of one tank reading at a temperature where the readings are too few to show it, K: the display
    /// step and a share of the thermometer's own uncertainty.
    pub(crate) fn assumed_scatter(&self, at_degc: f64) -> f64 {
        let own = self.tank_probe().map_or(0.0, |probe| probe.std_uncertainty(at_degc));
        libm::hypot(self.tank_step(), READING_SHARE * own)
    }

    /// Pooled loss coefficient of a vessel.
    pub(crate) fn loss(&self, vessel: &str) -> Option<&UncertainValue> {
        self.losses.iter().find(|l| l.vessel == vessel).map(|l| &l.traced)
    }
}

/// Shared sources of an apparatus: instruments, calorific values, vessels.
pub(crate) fn shared_sources(apparatus: &Apparatus) -> ErrorSources {
    let mut book = ErrorModel::new(apparatus).book;
    let fuels = apparatus.fuels.keys().flat_map(|fuel| {
        [ErrorSource::CalorificValue { fuel: fuel.clone() }, ErrorSource::CharValue { fuel: fuel.clone() }]
    });
    let vessels = apparatus.vessels.keys().flat_map(|vessel| {
        [ErrorSource::HeatCapacity { vessel: vessel.clone() }, ErrorSource::StatedLoss { vessel: vessel.clone() }]
    });
    let stoves = apparatus.stoves.keys().map(String::as_str).chain([""]);
    let few = stoves.map(|stove| ErrorSource::FewReadings { stove: stove.to_owned() });
    let info = SourceInfo { shared: true, dof: f64::INFINITY, shape: Shape::Normal };
    book.extend(fuels.chain(vessels).chain(few).map(|source| (source.key(), info.clone())));
    book
}
