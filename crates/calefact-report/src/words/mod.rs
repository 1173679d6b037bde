//! Facts in words: the one place where sentences are made, for page, terminal and tables alike. One file a family of facts.
//!
//! Facts come from the reader ([`calefact_data::fact`]) and from the analysis ([`calefact_analysis::finding`] and
//! [`calefact_analysis::result`]). Nothing is computed here.

mod finding;

pub use finding::{Message, message, terminal};
