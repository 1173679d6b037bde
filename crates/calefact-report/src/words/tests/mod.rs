//! A value that the tests of several families need. The tests themselves stand beside their families.

use calefact_analysis::result::Comparison;
use calefact_data::TrialKind;
use std::collections::BTreeMap;

/// A comparison of burns over a factor, without results.
pub(super) fn comparison(factor: &str, levels: &[&str]) -> Comparison {
    Comparison {
        factor: factor.into(),
        kind: TrialKind::Burn,
        only: BTreeMap::new(),
        levels: levels.iter().map(ToString::to_string).collect(),
        groups: vec![],
        contrasts: vec![],
        balances: vec![],
        trends: vec![],
        remarks: vec![],
        reassurances: vec![],
    }
}
