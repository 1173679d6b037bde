//! Needs its parent.

use super::Parent;

pub fn from_parent() -> Parent {
    Parent
}
