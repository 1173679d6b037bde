//! What every trial of a dataset is reduced with: settings, apparatus, instrument errors, loss coefficients.

use crate::Quantity;
use crate::errors::ErrorModel;
use crate::result::VesselLoss;
use crate::settings::Settings;
use calefact_data::Apparatus;
use calefact_stats::{ErrorSources, Shape, SourceInfo, UncertainValue};
use std::borrow::Cow;

/// Shared, read-only surroundings of a reduction.
#[derive(Debug, Clone)]
pub struct Context<'a> {
    /// Settings of the pipeline.
    pub settings: &'a Settings,
    /// Apparatus of the dataset.
    pub apparatus: &'a Apparatus,
    /// Errors of its instruments.
    pub errors: ErrorModel,
    /// Shared sources: instruments, calorific values, vessels, pooled loss coefficients.
    pub book: ErrorSources,
    /// Pooled loss coefficients known so far.
    pub losses: &'a [VesselLoss],
    /// Measured over metered heat of the rig, where the pipeline uses it.
    pub rig: Option<UncertainValue>,
    /// Currency that all priced fuels state.
    currency: Option<String>,
}

impl<'a> Context<'a> {
    /// Surroundings with what is known so far of losses and rig.
    pub fn new(
        settings: &'a Settings,
        apparatus: &'a Apparatus,
        losses: &'a [VesselLoss],
        rig: Option<UncertainValue>,
    ) -> Self {
        let mut book = shared_sources(apparatus);
        for loss in losses {
            book.extend(loss.sources.clone());
        }
        let currency = apparatus.currency();
        Self { settings, apparatus, errors: ErrorModel::new(apparatus), book, losses, rig, currency }
    }

    /// Unit of a quantity; that of a cost names the currency.
    pub fn unit(&self, quantity: Quantity) -> Cow<'static, str> {
        quantity.unit_in(self.currency.as_deref())
    }

    /// Pooled loss coefficient of a vessel.
    pub fn loss(&self, vessel: &str) -> Option<&UncertainValue> {
        self.losses.iter().find(|l| l.vessel == vessel).map(|l| &l.traced)
    }
}

/// Shared sources of an apparatus: instruments, calorific values, vessels.
pub fn shared_sources(apparatus: &Apparatus) -> ErrorSources {
    let mut book = ErrorModel::new(apparatus).book;
    let mut add = |name: String, label: String| {
        let info = SourceInfo { label, shared: true, dof: f64::INFINITY, shape: Shape::Normal };
        book.insert(name.into(), info);
    };
    for id in apparatus.fuels.keys() {
        add(format!("fuel:{id}:net-calorific-value"), format!("calorific value of {id}"));
        add(format!("fuel:{id}:char-calorific-value"), format!("calorific value of the char of {id}"));
    }
    for id in apparatus.vessels.keys() {
        add(format!("vessel:{id}:heat-capacity"), format!("heat capacity of vessel {id}"));
        add(format!("vessel:{id}:loss-coefficient"), format!("stated loss coefficient of vessel {id}"));
    }
    book
}
