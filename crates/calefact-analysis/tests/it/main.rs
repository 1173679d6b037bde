//! The crate through its public interface, in one binary: comparisons, the coverage of its intervals, and a small log on paper.

mod build;
mod compare;
mod coverage;
mod five_readings;
mod reduced;
