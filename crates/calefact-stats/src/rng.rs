//! Named streams of random numbers: the same seed and key give the same numbers on every machine and thread count.
//! What is drawn from a stream does not live here.

use rand::Rng;
use rand_pcg::Pcg64;

/// Generator for `key` under `seed`: PCG XSL RR 128/64 (O'Neill 2014), state and stream set from two 64-bit hashes.
///
/// The hash is FNV-1a (Fowler, Noll and Vo; offset basis cbf29ce484222325, prime 100000001b3) of the eight bytes of the
/// seed, least significant first, followed by the key, each mixed by the finaliser of SplitMix64 (Steele, Lea and Flood
/// 2014) so that keys that differ in one letter start far apart.
pub fn stream(seed: u64, key: &str) -> Pcg64 {
    let first = fnv1a(fnv1a(OFFSET_BASIS, &seed.to_le_bytes()), key.as_bytes());
    let words = [mix(first), mix(first ^ 1), mix(first ^ 2), mix(first ^ 3)].map(u128::from);
    Pcg64::new((words[0] << 64) | words[1], (words[2] << 64) | words[3])
}

/// A whole number below `n`, each as likely as the others but for one part in 2^64 / n (multiply and shift). Its own few lines, so
/// that no release of a library changes what a seed gives.
pub fn below(generator: &mut Pcg64, n: usize) -> usize {
    ((u128::from(generator.next_u64()) * n as u128) >> 64) as usize
}

const OFFSET_BASIS: u64 = 0xcbf2_9ce4_8422_2325;

fn fnv1a(start: u64, bytes: &[u8]) -> u64 {
    bytes.iter().fold(start, |hash, byte| (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3))
}

fn mix(word: u64) -> u64 {
    let z = word.wrapping_add(0x9e37_79b9_7f4a_7c15);
    let z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fowler, Noll and Vo's published test vectors of 64-bit FNV-1a.
    #[test]
    fn fnv1a_matches_its_published_vectors() {
        assert_eq!(fnv1a(OFFSET_BASIS, b""), 0xcbf2_9ce4_8422_2325);
        assert_eq!(fnv1a(OFFSET_BASIS, b"a"), 0xaf63_dc4c_8601_ec8c);
        assert_eq!(fnv1a(OFFSET_BASIS, b"foobar"), 0x8594_4171_f739_67e8);
    }

    /// The first two outputs of SplitMix64 from state 0 (Vigna's reference implementation; values from memory).
    #[test]
    fn the_finaliser_is_that_of_splitmix64() {
        assert_eq!(mix(0), 0xe220_a839_7b1d_cdaf);
        assert_eq!(mix(0x9e37_79b9_7f4a_7c15), 0x6e78_9e6a_a1b9_65f4);
    }

    #[test]
    fn a_stream_depends_on_seed_and_key_only() {
        let draw = |seed, key: &str| stream(seed, key).next_u64();
        assert_eq!(draw(1, "scale"), draw(1, "scale"));
        assert_ne!(draw(1, "scale"), draw(2, "scale"));
        assert_ne!(draw(1, "scale"), draw(1, "probe"));
    }

    #[test]
    fn neighbouring_keys_are_uncorrelated() {
        let unit = |key: &str| {
            let mut s = stream(7, key);
            (0..4000).map(|_| (s.next_u64() >> 11) as f64 / (1_u64 << 53) as f64 - 0.5).collect::<Vec<_>>()
        };
        let (a, b) = (unit("probe#1"), unit("probe#2"));
        let r = 12.0 * a.iter().zip(&b).map(|(x, y)| x * y).sum::<f64>() / 4000.0;
        assert!(r.abs() < 4.0 / 4000_f64.sqrt(), "correlation {r}");
    }
}
