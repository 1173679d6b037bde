//! The coverage study through the whole command: invented worlds with known truth are written as folders, run by the command,
//! and its tables are compared with the truth.
//!
//! Here: which worlds there are ([`Design`]), one run of one of them, and the tally. The example `worlds` writes the whole
//! table; the test of the same name checks some of its cells.

mod design;
mod hits;
mod replicate;
mod table;
mod tally;

pub use design::{Design, designs};
pub use hits::What;
pub use tally::{Cell, HEADER, cells};
