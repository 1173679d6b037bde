//! Rounding.
