//! Units that nothing states: the numbers are taken in SI, and the log is told so once.

use super::columns::Columns;
use crate::Finding;
use crate::text::cells::quoted;
use calefact_units::Kind;

/// A column whose numbers are taken in SI.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Assumed {
    pub(super) index: usize,
    /// Header as written.
    cell: String,
    kind: Kind,
}

impl Assumed {
    /// A column by its header.
    pub(super) fn new(index: usize, cell: &str, kind: Kind) -> Self {
        Self { index, cell: cell.into(), kind }
    }

    fn name(&self) -> String {
        format!("`{}`", quoted(&self.cell))
    }
}

/// All such columns of a log's headers, and the line of the first header that has one.
#[derive(Debug, Clone, Default)]
pub(super) struct Assumptions {
    columns: Vec<Assumed>,
    line: Option<u64>,
}

impl Assumptions {
    /// Takes the columns of a header at its first reading, whose time cell is given.
    pub(super) fn close(&mut self, columns: &mut Columns, time: &[u8]) {
        let time = columns.time.map(|(index, _)| index).filter(|_| time.contains(&b':'));
        for assumed in std::mem::take(&mut columns.assumed) {
            // A time with colons has its unit in itself.
            if Some(assumed.index) != time && !self.columns.contains(&assumed) {
                self.columns.push(assumed);
                self.line = self.line.or(Some(columns.line));
            }
        }
    }

    /// The one finding of a log, at its first such column.
    pub(super) fn finding(&self) -> Option<Finding> {
        let first = self.columns.first()?;
        let list = |one: fn(&Assumed) -> String| self.columns.iter().map(one).collect::<Vec<_>>().join(", ");
        let (named, taken) = (list(Assumed::name), list(|a| format!("{} in {}", a.name(), a.kind.si_symbol())));
        let cell = quoted(&first.cell);
        let unit = if first.kind == Kind::Time { "min" } else { first.kind.si_symbol() };
        let hint = format!("write the unit in the header, as `{cell} [{unit}]`, or under [columns] in dataset.toml");
        Some(
            Finding::warning_text("unit-assumed", format!("no unit is stated for {named}"))
                .at("", self.line, Some(first.index as u64 + 1))
                .action(format!("read {taken}"))
                .hint(hint),
        )
    }
}
