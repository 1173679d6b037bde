//! Reading, driven by bytes that nobody vouches for: a function for each kind of input, which reads as the command does and asserts
//! what must hold whatever the bytes.
//!
//! The fuzzer in `tests/fuzz` runs them for hours, `tests/tests/hostile` replays the kept inputs. No input is made here.

mod bundles;
mod cells;
mod descriptions;
mod findings;
mod input;
mod logs;
mod pipelines;
mod proposals;
mod registers;
mod runs;
mod units;
mod workbooks;

/// A kind of input.
#[derive(Debug, Clone, Copy)]
pub struct Target {
    /// Name, that of its folder of seeds.
    pub name: &'static str,
    /// Longest input that is tried, bytes.
    pub longest: usize,
    /// Reads the bytes; panics where something does not hold.
    pub check: fn(&[u8]),
}

const fn target(name: &'static str, longest: usize, check: fn(&[u8])) -> Target {
    Target { name, longest, check }
}

/// All kinds of input.
pub const TARGETS: [Target; 10] = [
    target("units", 64, units::check),
    target("cells", 256, cells::check),
    target("logs", 4096, logs::check),
    target("registers", 4096, registers::check),
    target("descriptions", 4096, descriptions::check),
    target("pipelines", 4096, pipelines::check),
    target("proposals", 4096, proposals::check),
    target("workbooks", 16384, workbooks::check),
    target("bundles", 16384, bundles::check),
    target("runs", 8192, runs::check),
];
