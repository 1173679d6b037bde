//! The mark of a trial: a number that is the same wherever the same trial is read, so that two tables do not count it twice.

use crate::result::TrialResult;
use calefact_data::Water;

/// Basis and prime of the 64-bit hash FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo).
const BASIS: u64 = 0xcbf2_9ce4_8422_2325;
const PRIME: u64 = 0x0000_0100_0000_01b3;

/// Mark of a trial, from its id, its date, what was weighed, and the tank curve.
pub(crate) fn mark(result: &TrialResult) -> u64 {
    let row = &result.row;
    let water = match row.water {
        Water::Volume(m3) => m3,
        Water::Mass(kg) => -kg,
    };
    let weighed = [row.fuel_mass, row.kindling_mass, row.leftover_fuel, row.leftover_char, row.fuel_moisture];
    let weighed = weighed.into_iter().map(|x| x.unwrap_or(f64::NAN));
    let curve = result.curve.measured.iter().flat_map(|(t, tank)| [*t, *tank]);
    let numbers = weighed.chain([water]).chain(curve).flat_map(|x| x.to_bits().to_le_bytes());
    let text = row.trial.bytes().chain([0]).chain(row.date.iter().flat_map(|d| d.bytes())).chain([0]);
    hash(text.chain(numbers))
}

fn hash(bytes: impl Iterator<Item = u8>) -> u64 {
    bytes.fold(BASIS, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(PRIME))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// draft-eastlake-fnv, appendix C: 64-bit FNV-1a of "" and "foobar" (from memory).
    #[test]
    fn published_hashes() {
        assert_eq!(hash(std::iter::empty()), 0xcbf2_9ce4_8422_2325);
        assert_eq!(hash("foobar".bytes()), 0x8594_4171_f739_67e8);
    }
}
