//! The energy balance of a burn: where the fuel's energy went.

use super::path::Path;
use super::terms::Term;
use crate::fact::{Note, TrialFact};
use crate::finding::Finding;
use crate::reduce::slots::Slot;
use crate::result::{BalanceTerm, TrialResult};
use calefact_stats::UncertainValue;

/// Share beyond which energy that no term explains is worth a warning (where the flue loss is known).
pub(crate) const UNEXPLAINED: f64 = 0.5;

/// Writes the balance, on the net energy of the fuel as put on. Empty where that is not known.
pub(crate) fn fill(path: &Path, traced: &[UncertainValue], result: &mut TrialResult) {
    if !traced[Term::Fuel.energy()].value.is_finite() {
        return;
    }
    for term in Term::ALL {
        let (energy, share) = (&traced[term.energy()], &traced[term.share()]);
        if !energy.value.is_finite() || !energy.std_uncertainty().is_finite() {
            continue;
        }
        let energy = UncertainValue::combine(&[(1e-6, energy)]);
        let beside = matches!(term, Term::Fuel | Term::FlueLatent);
        let list = if beside { &mut result.balance_beside } else { &mut result.balance };
        list.push(BalanceTerm {
            term: term.name(),
            energy: path.estimate(&energy, "MJ").within(term.energy_bounds()),
            share: path.estimate(share, "1").within(term.bounds()),
            traced: share.clone(),
            notes: notes(path, term, traced),
        });
    }
    result.findings.extend(closure(path, traced).map(Finding::warning));
}

fn notes(path: &Path, term: Term, traced: &[UncertainValue]) -> Vec<Note> {
    let steady = Note::Steady(path.phases.steady_part());
    match term {
        Term::Fuel => vec![Note::FuelAsPutOn],
        Term::FlueSensible => vec![Note::GasAboveAir, steady],
        Term::FlueCo => vec![steady],
        Term::Casing => vec![Note::ByCorrelation, steady],
        Term::FlueLatent => vec![Note::GrossBasisOnly],
        Term::Unaccounted => vec![Note::Unaccounted { not_measured: not_measured(traced) }],
        _ => Vec::new(),
    }
}

/// Terms that were not measured, which the unaccounted part holds.
fn not_measured(traced: &[UncertainValue]) -> Vec<&'static str> {
    let unknown = |t: &&Term| **t != Term::Stored && traced[t.energy()].value.is_nan();
    Term::PARTS.iter().filter(unknown).map(|t| t.name()).collect()
}

/// A balance that does not close within its uncertainty.
fn closure(path: &Path, traced: &[UncertainValue]) -> Option<TrialFact> {
    let left = &traced[Term::Unaccounted.share()];
    let (share, std_uncertainty) = (left.value, left.std_uncertainty());
    if share + 2.0 * std_uncertainty < 0.0 {
        return Some(TrialFact::BalanceAboveFuel { excess: -share, std_uncertainty });
    }
    let flue_known = traced[Term::FlueSensible.energy()].value.is_finite();
    let char_known = path.inputs.slots[Slot::LeftoverChar as usize].value.is_finite();
    let unexplained = flue_known && char_known && share - 2.0 * std_uncertainty > UNEXPLAINED;
    unexplained.then_some(TrialFact::BalanceUnexplained { share })
}
