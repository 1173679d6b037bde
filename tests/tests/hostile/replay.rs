//! The kept inputs of the fuzzer, and a fixed number of changes of each: what must hold is in `calefact_tests::fuzz`.

use calefact_tests::fuzz::{TARGETS, Target};
use calefact_tests::root;
use rand::seq::IndexedRandom as _;
use rand::{RngExt as _, SeedableRng as _};
use rand_pcg::Pcg64Mcg;
use std::fs;
use std::panic::catch_unwind;

/// Changed inputs of each kind; archives take far longer than a unit. Whole runs, which write to the terminal, are left to the cases.
const CHANGED: [(&str, usize); 9] = [
    ("units", 20_000),
    ("cells", 500),
    ("logs", 2500),
    ("registers", 2500),
    ("descriptions", 2500),
    ("pipelines", 1500),
    ("proposals", 700),
    ("workbooks", 700),
    ("bundles", 300),
];

#[test]
fn kept_inputs_and_changes_of_them_break_nothing() {
    let words = words();
    let broken: Vec<String> = CHANGED.iter().flat_map(|(name, changes)| broken(name, *changes, &words)).collect();
    assert!(broken.is_empty(), "{} inputs, such as\n{}", broken.len(), broken[0]);
}

/// Inputs of a kind that break something.
fn broken(name: &str, changes: usize, words: &[Vec<u8>]) -> Vec<String> {
    let target = TARGETS.iter().find(|target| target.name == name).expect("a kind of input");
    let seeds = seeds(target);
    let mut rng = Pcg64Mcg::seed_from_u64(13);
    let mut changed = || change(&seeds, words, target.longest, &mut rng);
    let changed: Vec<Vec<u8>> = std::iter::repeat_with(&mut changed).take(changes).collect();
    let inputs = seeds.iter().chain(&changed);
    let fails = |input: &&Vec<u8>| catch_unwind(|| (target.check)(input)).is_err();
    inputs.filter(fails).map(|input| format!("{}: {:?}", target.name, String::from_utf8_lossy(input))).collect()
}

/// The kept inputs of a kind, in the order of their names.
fn seeds(target: &Target) -> Vec<Vec<u8>> {
    let folder = root().join("tests/fuzz/seeds").join(target.name);
    let mut files: Vec<_> = fs::read_dir(folder).expect("seeds").map(|entry| entry.expect("a seed").path()).collect();
    files.sort();
    let seeds: Vec<Vec<u8>> = files.iter().map(|file| fs::read(file).expect("a seed")).collect();
    assert!(seeds.len() > 2 && seeds.iter().all(|seed| seed.len() <= target.longest), "seeds of {}", target.name);
    seeds
}

/// The words of the fuzzer's dictionary, whose other bytes than ASCII are left out.
fn words() -> Vec<Vec<u8>> {
    let text = fs::read_to_string(root().join("tests/fuzz/words.dict")).expect("words");
    let words = text.lines().filter_map(|line| line.strip_prefix('"')?.strip_suffix('"'));
    words.filter(|word| !word.contains('\\')).map(|word| word.as_bytes().to_vec()).collect()
}

/// A seed with one to four changes.
fn change(seeds: &[Vec<u8>], words: &[Vec<u8>], longest: usize, rng: &mut Pcg64Mcg) -> Vec<u8> {
    let mut input = seeds.choose(rng).cloned().unwrap_or_default();
    for _ in 0..rng.random_range(1..5) {
        let from = rng.random_range(0..=input.len());
        let to = (from + rng.random_range(0..20)).min(input.len());
        match rng.random_range(0..6) {
            0 => input.iter_mut().skip(from).take(1).for_each(|byte| *byte = rng.random()),
            1 => drop(input.drain(from..to)),
            2 => {
                let part = input[from..to].repeat(rng.random_range(1..4));
                insert(&mut input, from, &part);
            }
            3 => insert(&mut input, from, &rng.random_range(-10_000..100_000_i32).to_string().into_bytes()),
            4 => insert(&mut input, from, words.choose(rng).map_or(&[], Vec::as_slice)),
            _ => {
                let other = seeds.choose(rng).map_or(&[][..], Vec::as_slice);
                input.truncate(from);
                input.extend_from_slice(&other[rng.random_range(0..=other.len())..]);
            }
        }
    }
    input.truncate(longest);
    input
}

fn insert(input: &mut Vec<u8>, at: usize, bytes: &[u8]) {
    input.splice(at..at, bytes.iter().copied());
}
