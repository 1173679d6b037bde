//! A fault with its readings.

use crate::fact::LoggerFault;

/// A fault with the rows of the log whose values it spoils.
pub(super) struct Found {
    /// The fault.
    pub(super) fact: LoggerFault,
    /// Its rows.
    pub(super) rows: Vec<usize>,
}
