//! Random streams: one generator per seed and label, so that a draw never depends on what was drawn before it.

use rand_pcg::Pcg64;

/// FNV-1a hash of a label, 128 bit (Fowler, Noll, Vo; offset basis and prime from memory: any spread would do).
fn label_hash(label: &str) -> u128 {
    const PRIME: u128 = 0x0000_0000_0100_0000_0000_0000_0000_013b;
    const BASIS: u128 = 0x6c62_272e_07bb_0142_62b8_2175_6295_c58d;
    label.bytes().fold(BASIS, |hash, byte| (hash ^ u128::from(byte)).wrapping_mul(PRIME))
}

/// The generator of a seed and a label such as `"instrument/tank"`.
pub(super) fn stream(seed: u64, label: &str) -> Pcg64 {
    let mixed = u128::from(seed).wrapping_mul(0x9e37_79b9_7f4a_7c15_f39c_c060_5ced_c835);
    Pcg64::new(mixed ^ 0xcafe_f00d_d15e_a5e5, label_hash(label))
}

#[cfg(test)]
mod tests {
    use super::stream;
    use rand::Rng;

    #[test]
    fn a_stream_is_its_label_and_its_seed() {
        let first = |seed, label| stream(seed, label).next_u64();
        assert_eq!(first(1, "trial/b01"), first(1, "trial/b01"));
        assert_ne!(first(1, "trial/b01"), first(1, "trial/b02"));
        assert_ne!(first(1, "trial/b01"), first(2, "trial/b01"));
    }
}
