//! Readable units.
