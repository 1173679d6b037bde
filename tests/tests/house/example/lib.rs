//! An example for the check of circles: `a`, `b` and `c` need each other, `d` needs its parent and the parent only passes
//! `d`'s item on.

mod a;
mod b;
mod c;
mod d;

pub use d::from_parent;

/// A type that a child needs.
pub struct Parent;
