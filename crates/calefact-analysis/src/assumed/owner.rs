//! Who shares an assumed input: trials that would share it in life hold parts of one source, so that it cancels in their
//! differences and does not shrink in their mean.
//!
//! * Heat capacity and loss coefficient: all trials of a vessel.
//! * Moisture and calorific values: all trials of a fuel.
//! * Air temperature, kindling, basis of the moisture: all trials of a register. The water of one well stands to the air of
//!   one season as it does, and one hand lays the fire; taken for each day alone, a habit would average away in a mean.
//! * Leftover wood and char: all trials of one combination of stove, fuel and exchanger. They differ from trial to trial, which
//!   their scatter shows, but a stove that always leaves much char does so in every burn: taken for each trial alone, that
//!   would average away in a mean; taken for the register, it would cancel between stoves.

use crate::fact::{AssumedInput, ErrorSource};
use calefact_data::RegisterRow;
use calefact_stats::Source;

/// Key of the source of an assumed input of a trial.
pub(crate) fn source(input: AssumedInput, row: &RegisterRow) -> Source {
    ErrorSource::Assumed { input, owner: owner(input, row) }.key()
}

fn owner(input: AssumedInput, row: &RegisterRow) -> String {
    use AssumedInput as A;
    match input {
        A::VesselHeatCapacity | A::LossCoefficient => row.vessel.clone(),
        A::FuelMoisture | A::CalorificValue | A::CharCalorificValue => row.fuel.clone().unwrap_or_default(),
        A::LeftoverFuel | A::LeftoverChar => {
            let named = [&row.stove, &row.fuel, &row.exchanger].into_iter().flatten();
            named.map(String::as_str).collect::<Vec<_>>().join(", ")
        }
        _ => row.origin.title.clone(),
    }
}
