//! Needs `b` by an import.

use crate::b::Second;

pub(crate) struct First(Second);
