//! Hands the inputs of libFuzzer to the function that `CALEFACT_FUZZ` names. What is checked is in `tests/src/fuzz`.

#![no_main]

use calefact_tests::fuzz::{TARGETS, Target};
use std::sync::LazyLock;

static TARGET: LazyLock<Target> = LazyLock::new(|| {
    let name = std::env::var("CALEFACT_FUZZ").expect("CALEFACT_FUZZ names a kind of input");
    TARGETS.into_iter().find(|target| target.name == name).expect("a kind of input")
});

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| {
    if bytes.len() <= TARGET.longest {
        (TARGET.check)(bytes);
    }
});
