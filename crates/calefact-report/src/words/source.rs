//! Sources of error in words.

use super::{Wording, assumed};
use calefact_analysis::fact::{ErrorSource, InstrumentError, TrialError};
use calefact_data::ApparatusKind;

/// A source by the name of its instrument, fuel or vessel: "Hanging scale: gain".
pub(crate) fn source(w: &Wording<'_>, source: &ErrorSource) -> String {
    match source {
        ErrorSource::Instrument { id, error } => {
            format!("{}: {}", w.apparatus(ApparatusKind::Instrument, id), instrument_error(*error))
        }
        ErrorSource::CalorificValue { fuel } => {
            format!("calorific value of {}", w.apparatus(ApparatusKind::Fuel, fuel))
        }
        ErrorSource::CharValue { fuel } => {
            format!("calorific value of the char of {}", w.apparatus(ApparatusKind::Fuel, fuel))
        }
        ErrorSource::HeatCapacity { vessel } => {
            format!("heat capacity of {}", w.apparatus(ApparatusKind::Vessel, vessel))
        }
        ErrorSource::StatedLoss { vessel } => {
            format!("stated loss coefficient of {}", w.apparatus(ApparatusKind::Vessel, vessel))
        }
        ErrorSource::LossScatter { vessel } => {
            format!("loss coefficient of {}: scatter between trials", w.apparatus(ApparatusKind::Vessel, vessel))
        }
        ErrorSource::Assumed { input, owner } => assumed::source(w, *input, owner),
        ErrorSource::AssumedTolerance { input, instrument, error } => {
            let tolerance = assumed::tolerance_of(w, *input, instrument);
            format!("{tolerance}: {}", instrument_error(*error))
        }
        ErrorSource::HeaterScatter => "reference heater: scatter between trials".to_owned(),
        ErrorSource::RigDistance => "reference heater: distance of the rig from true".to_owned(),
        ErrorSource::FewReadings { stove } if stove.is_empty() => "course of the burn between few readings".to_owned(),
        ErrorSource::FewReadings { stove } => {
            format!("course of the burn between few readings, {}", w.apparatus(ApparatusKind::Stove, stove))
        }
        ErrorSource::TrialScatter => "scatter between trials".to_owned(),
        ErrorSource::Trial { trial, error } => format!("{}, trial {trial}", trial_error(w, error)),
        ErrorSource::TrialAlone { trial } => format!("errors of {trial} alone"),
        ErrorSource::Other { key } => key.clone(),
    }
}

const fn instrument_error(error: InstrumentError) -> &'static str {
    match error {
        InstrumentError::Common => "error at any temperature",
        InstrumentError::Low => "error near the freezing point",
        InstrumentError::High => "error at the upper end",
        InstrumentError::Offset => "offset",
        InstrumentError::Gain => "gain",
    }
}

fn trial_error(w: &Wording<'_>, error: &TrialError) -> String {
    let text = match error {
        TrialError::FirstReading => "first tank reading",
        TrialError::LastReading => "last tank reading",
        TrialError::SteadyEnds => "tank at the ends of the steady part",
        TrialError::SteadyChoice => "choice of the steady part",
        TrialError::SteadyStart => "start of the steady part",
        TrialError::SteadyEnd => "end of the steady part",
        TrialError::CoolingLine => "scatter about the cooling line",
        TrialError::LocalSlope => "scatter of the readings around the heating rate",
        TrialError::RateBend => "bend of the curve at the heating rate",
        TrialError::SteadyTank => "scatter of the tank, steady part",
        TrialError::BurnRate => "burn rate of the steady part",
        TrialError::WholeBurn => "ramp and burn-down against the steady part",
        TrialError::CasingCorrelation => "correlation of the casing loss",
        TrialError::InletFromTank => "coil inlet taken as the tank",
        TrialError::DisplayStep(column) => return format!("display step of {}", w.column(column)),
        TrialError::ColumnScatter(column) => return format!("scatter of {}, steady part", w.column(column)),
    };
    text.to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;
    use calefact_data::ApparatusNames;

    #[test]
    fn people_read_the_name_of_the_instrument() {
        let (id, name) = ("scale".to_owned(), "Hanging scale".to_owned());
        let names = ApparatusNames::none().with(ApparatusKind::Instrument, [(&id, &name)].into_iter());
        let w = Wording { names: &names, ..Wording::plain() };
        let table = [
            (ErrorSource::Instrument { id, error: InstrumentError::Gain }, "Hanging scale: gain"),
            (ErrorSource::CalorificValue { fuel: "spruce".into() }, "calorific value of spruce"),
            (
                ErrorSource::LossScatter { vessel: "washtank".into() },
                "loss coefficient of washtank: scatter between trials",
            ),
            (
                ErrorSource::Trial { trial: "b01".into(), error: TrialError::DisplayStep("water".into()) },
                "display step of `water`, trial b01",
            ),
            (
                ErrorSource::Trial { trial: "b01".into(), error: TrialError::FirstReading },
                "first tank reading, trial b01",
            ),
        ];
        for (fact, text) in table {
            assert_eq!(source(&w, &fact), text);
        }
    }
}
