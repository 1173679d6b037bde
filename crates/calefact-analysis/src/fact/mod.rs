//! Facts about trials and comparisons that findings state: one enum a family, no sentence in any of them.

mod comparison;

pub use comparison::ComparisonFact;
