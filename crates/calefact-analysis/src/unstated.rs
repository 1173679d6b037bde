//! Columns that burns are reduced from and whose instrument states no tolerance: the reader must know what was taken.

use crate::assumed::tolerance;
use crate::fact::TrialFact;
use crate::finding::Finding;
use calefact_data::apparatus::{Instrument, Tolerance};
use calefact_data::{Apparatus, RegisterRow, TrialKind};

/// A note that names the columns without a tolerance that some burn of the register uses and what was assumed for each; a
/// warning where nothing is assumed and they count as exact; none where all have a tolerance.
pub fn finding<'r>(apparatus: &Apparatus, rows: impl Iterator<Item = &'r RegisterRow>) -> Option<Finding> {
    let burns: Vec<&RegisterRow> = rows.filter(|r| r.kind == TrialKind::Burn).collect();
    let columns = [
        ("tank", !burns.is_empty()),
        ("water", !burns.is_empty()),
        ("fuel_mass", burns.iter().any(|r| r.fuel_mass.is_some())),
        ("fuel_moisture", burns.iter().any(|r| r.fuel_moisture.is_some())),
    ];
    let stated = |i: &&Instrument| !i.tolerance.is_empty();
    let read =
        |column: &str| apparatus.instruments.values().filter(stated).any(|i| i.reads.iter().any(|c| c == column));
    let silent = columns.into_iter().filter(|(column, used)| *used && !read(column));
    let columns: Vec<&'static str> = silent.map(|(column, _)| column).collect();
    if columns.is_empty() {
        return None;
    }
    if apparatus.assumes_nothing {
        return Some(Finding::warning(TrialFact::ToleranceMissing { columns }));
    }
    let taken = columns.into_iter().filter_map(|column| Some((column, *tolerance::of_column(column)?.limits.first()?)));
    let columns: Vec<(&'static str, Tolerance)> = taken.collect();
    Some(Finding::note(TrialFact::ToleranceAssumed { columns }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_support::row;

    #[test]
    fn columns_without_an_instrument_are_named() {
        let reads = |columns: &[&str]| Instrument {
            reads: columns.iter().map(ToString::to_string).collect(),
            tolerance: vec![Tolerance::SumOf(0.1, 0.0)],
            ..Instrument::default()
        };
        let mut apparatus = Apparatus::default();
        apparatus.instruments.insert("probe".into(), reads(&["tank", "fuel_mass"]));
        let burn = row(TrialKind::Burn);
        let found = finding(&apparatus, [&burn].into_iter()).expect("a finding");
        let taken = vec![("water", Tolerance::OfReading(0.03)), ("fuel_moisture", Tolerance::Absolute(0.03))];
        assert_eq!(found, Finding::note(TrialFact::ToleranceAssumed { columns: taken }));
        apparatus.assumes_nothing = true;
        let found = finding(&apparatus, [&burn].into_iter()).expect("a finding");
        let columns = vec!["water", "fuel_moisture"];
        assert_eq!(found, Finding::warning(TrialFact::ToleranceMissing { columns }));
        apparatus.instruments.insert("rest".into(), reads(&["water", "fuel_moisture"]));
        assert_eq!(finding(&apparatus, [&burn].into_iter()), None);
        let mut silent = reads(&["tank"]);
        silent.tolerance.clear();
        apparatus.instruments.insert("probe".into(), silent);
        assert!(finding(&apparatus, [&burn].into_iter()).is_some(), "an instrument that states nothing");
        let night = row(TrialKind::StandingLoss);
        assert_eq!(finding(&Apparatus::default(), [&night].into_iter()), None);
    }
}
