//! Units that are stated nowhere: the numbers are taken in SI units, with one finding for the log.

use super::columns::{Columns, WithoutUnit};
use crate::Finding;
use crate::fact::{AssumedUnit, Log};

/// The columns of a log without a stated unit, and the place of the first.
#[derive(Debug, Clone, Default)]
pub(super) struct Assumptions {
    units: Vec<AssumedUnit>,
    line: Option<u64>,
    column: Option<u64>,
}

impl Assumptions {
    /// Takes the columns of a header at its first reading, whose time cell is given.
    pub(super) fn close(&mut self, columns: &mut Columns, time: &[u8]) {
        // A time with colons states its unit by its form.
        let with_colons = columns.time.map(|(index, _)| index).filter(|_| time.contains(&b':'));
        for WithoutUnit { index, header, kind } in std::mem::take(&mut columns.assumed) {
            let unit = AssumedUnit { header, kind };
            if Some(index) != with_colons && !self.units.contains(&unit) {
                self.units.push(unit);
                self.line = self.line.or(Some(columns.line));
                self.column = self.column.or(Some(index as u64 + 1));
            }
        }
    }

    /// The finding of a log, at its first such column.
    pub(super) fn finding(&self) -> Option<Finding> {
        let fact = (!self.units.is_empty()).then(|| Log::UnitAssumed(self.units.clone()))?;
        Some(Finding::from(fact).at("", self.line, self.column))
    }
}
