//! Facts in words: the one place where sentences are made, for page, terminal and tables alike. One file a family of facts.
//!
//! Facts come from the reader ([`calefact_data::fact`]) and from the analysis ([`calefact_analysis::finding`] and
//! [`calefact_analysis::result`]). Nothing is computed here. A [`Wording`] holds what all sentences share: the reader's
//! units, the typography, names and currency.

pub(crate) mod advice;
mod ambiguous;
pub mod assumed;
pub mod book;
pub mod build;
pub mod bundle;
pub mod burn_order;
pub(crate) mod caution;
mod comparison;
mod comparison_finding;
pub(crate) mod confounding;
mod dataset;
pub(crate) mod estimate_method;
mod file;
mod finding;
pub mod forecast;
pub mod forecast_answer;
mod formula;
pub(crate) mod gap;
pub(crate) mod glossary;
mod implausible;
pub(crate) mod instrument;
mod log;
mod log_time;
mod logger_fault;
mod message;
pub(crate) mod method;
mod missing;
mod moment;
mod name;
pub(crate) mod note;
mod number;
mod pipeline;
pub mod planning;
pub mod proposal;
mod quantity;
mod range;
mod register;
pub(crate) mod remark;
mod remedy;
pub mod rerun;
pub mod seal;
pub(crate) mod sheet;
pub mod size_text;
pub(crate) mod source;
mod suggestion;
mod text;
mod tolerance;
mod toml;
pub(crate) mod trend;
pub(crate) mod trial;
mod trial_list;
pub mod understood;
mod unit;
mod unit_error;
mod value;
pub(crate) mod verdict;
mod workbook;

pub use comparison::comparison_line;
pub(crate) use comparison::{
    chart_title, comparison_title, group_interval, only_group, other_results, settled_pairs, standing_words,
};
pub use finding::{message, severity_word, terminal, terminal_refused};
pub use formula::as_text;
pub use message::Message;
pub use missing::{missing, missing_lines};
pub(crate) use number::places;
pub(crate) use quantity::quantity_in_sentence;
pub use quantity::{balance_term_name, quantity_name, short_quantity_name};
pub use text::{bounded, capital, choice, list, plural, printable, sentence};
pub(crate) use text::{heading, hidden_marks};
pub use trial_list::trial_list;
pub use unit::{DisplayUnit, Measure};
pub use unit_error::quantity_error;
pub use value::EstimateWords;

use calefact_analysis::result::Analysis;
use calefact_data::ApparatusNames;

/// Units the reader wants. Tables are in SI units whatever these are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    /// Degrees Celsius, kilograms, litres, kilowatts.
    #[default]
    Metric,
    /// Degrees Fahrenheit, pounds, gallons, Btu.
    Us,
}

/// How text is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Typography {
    /// ASCII signs and ordinary spaces, for the terminal and tables.
    Plain,
    /// Minus and degree signs, spaces that do not break, for the page and charts.
    Page,
}

impl Typography {
    fn choose<'t>(self, plain: &'t str, page: &'t str) -> &'t str {
        if self == Self::Plain { plain } else { page }
    }
}

/// What all sentences share.
#[derive(Debug, Clone, Copy)]
pub struct Wording<'a> {
    /// Units of the reader.
    pub units: Units,
    /// How text is set.
    pub typography: Typography,
    /// Names of the apparatus.
    pub names: &'a ApparatusNames,
    /// Currency of costs, where there is one.
    pub currency: Option<&'a str>,
}

static NO_NAMES: ApparatusNames = ApparatusNames::none();

impl Wording<'static> {
    /// Plain text in metric units, without names: before any dataset is read.
    pub fn plain() -> Self {
        Self { units: Units::Metric, typography: Typography::Plain, names: &NO_NAMES, currency: None }
    }
}

impl<'a> Wording<'a> {
    /// Text about an analysis.
    pub fn of_analysis(analysis: &'a Analysis, units: Units, typography: Typography) -> Self {
        Self { units, typography, names: &analysis.names, currency: analysis.currency.as_deref() }
    }
}

#[cfg(test)]
mod tests;
