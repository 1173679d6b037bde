//! Words for facts about the apparatus of a dataset.

use super::suggestion::suggestion;
use super::toml::table_name;
use super::{Message, Wording, list, register, unit_error};
use calefact_data::fact::{DatasetFact, ToleranceProblem};
use calefact_data::toml_source::spelling::key;

/// How a tolerance is written.
const TOLERANCES: &str = "write it as \"0.5 degC\", \"0.75 % of reading\", \"1 K standard\" or \"class 2 type K\"";

/// The message on a fact.
pub(super) fn message(w: &Wording<'_>, fact: &DatasetFact) -> Message {
    match fact {
        DatasetFact::HeatCapacityTwice { table } => {
            Message::new(format!("{} gives both `heat_capacity` and `mass` with `material`", table_name(table)))
                .action("`heat_capacity` used")
                .hint("keep one of them")
        }
        DatasetFact::MassWithoutMaterial { table } => {
            let text = format!("{} gives `mass` but no `material`; its heat capacity needs both", table_name(table));
            Message::new(text)
                .action("a range assumed for the heat capacity")
                .hint("add `material`, or write `heat_capacity` in place of `mass`")
        }
        DatasetFact::AssumedRange => Message::new("a range needs its lower and its upper end")
            .action("range not used")
            .hint("write both ends, such as `loss_coefficient = [\"2 W/K\", \"6 W/K\"]`"),
        DatasetFact::NoCurrency { table } => {
            Message::new(format!("{} gives a `price` but no `currency`", table_name(table)))
                .hint("add the currency of the price, such as `currency = \"EUR\"`")
        }
        DatasetFact::Composition { table, sum } => {
            let text = format!("the mass fractions in {} add up to {sum:.3} instead of 1", table_name(table));
            Message::new(text)
                .action("composition not used")
                .hint("give mass fractions of dry matter (or \"50 %\"), ash included")
        }
        DatasetFact::ReadsNothing { table } => {
            Message::new(format!("{} does not state which columns the instrument reads", table_name(table)))
                .hint("add the columns, such as `reads = [\"tank\"]`")
        }
        DatasetFact::MixedKinds { table, columns } => {
            let columns: Vec<String> = columns.iter().map(|c| w.column(c)).collect();
            let text = format!(
                "{} reads columns that hold different kinds of quantity: {}",
                table_name(table),
                list(&columns)
            );
            Message::new(text).hint("make one entry for each kind")
        }
        DatasetFact::Tolerance { written, problem } => tolerance(w, written, problem).action("value left empty"),
        DatasetFact::Resolution { written, error } => {
            let message = Message::new(unit_error::quantity(w, error, written)).action("value left empty");
            Message { hint: unit_error::quantity_hint(w, error), ..message }
        }
        DatasetFact::SharedHeader { column, header, first } if column == first => {
            Message::new(format!("{} is given the header `{header}` twice", w.column(column)))
                .action("the first is used")
                .hint("leave one of the two out")
        }
        DatasetFact::SharedHeader { column, header, first } => {
            Message::new(format!("{} and {} are both given the header `{header}`", w.column(first), w.column(column)))
                .action(format!("header of {} ignored", w.column(column)))
                .hint("give each column the header it has in the file")
        }
        DatasetFact::ColumnReadTwice { column, first, second } => {
            Message::new(format!("{} is read by two instruments, `{first}` and `{second}`", w.column(column)))
                .hint("leave the column to one of them")
        }
        DatasetFact::UnknownDefault { kind, id, known, .. } => {
            register::unknown_id(*kind, id, known).action("trials that leave the column blank are left out")
        }
        DatasetFact::UnknownInstrument { id, known } => unknown_instrument(id, known),
    }
}

fn unknown_instrument(id: &str, known: &[String]) -> Message {
    let hint = match known {
        [] => format!("describe it under `[instruments.{}]`", key(id)),
        _ => suggestion(id, known),
    };
    Message::new(format!("dataset.toml has no instrument `{id}`")).action("value left empty").hint(hint)
}

fn tolerance(w: &Wording<'_>, written: &str, problem: &ToleranceProblem) -> Message {
    match problem {
        ToleranceProblem::UnknownClass { known } => {
            Message::new(format!("unknown class of instruments `{written}`")).hint(suggestion(written, known))
        }
        ToleranceProblem::NotTemperature { kind } => {
            let text = format!("`{written}` is a class of thermometers, but the instrument reads {}", kind.words());
            Message::new(text).hint("write the limit of error of the instrument, such as \"1 % of reading\"")
        }
        ToleranceProblem::Width(error) => {
            Message::new(format!("tolerance `{written}`: {}", unit_error::quantity(w, error, written))).hint(TOLERANCES)
        }
        ToleranceProblem::Negative => {
            Message::new(format!("tolerance `{written}` is negative")).hint("write the limit without its sign")
        }
    }
}

#[cfg(test)]
mod tests;
