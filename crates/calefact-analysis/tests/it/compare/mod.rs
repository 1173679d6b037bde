//! Comparing trials through the public interface, on trials made up in memory.

mod adjusted;
mod confounding;
mod false_positives;
mod many;
mod robust;
mod shared;
pub(crate) mod support;
mod verdicts;
