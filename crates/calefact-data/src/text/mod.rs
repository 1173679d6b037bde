//! Text of delimited files: encoding, rows and cells, headers, numbers, times. Knows nothing of trials.

mod binary;
pub(crate) mod cells;
pub(crate) mod date;
pub(crate) mod decode;
pub(crate) mod header;
pub(crate) mod number;
pub(crate) mod sniff;
pub(crate) mod units;
