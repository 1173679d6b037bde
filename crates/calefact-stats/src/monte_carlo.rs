//! Propagation of distributions by Monte Carlo (JCGM 101:2008), with draws shared by name.
//!
//! Every source draws from a stream named after it ([`crate::rng::stream`]), block by block, so that the same source has
//! the same errors in every trial that holds a part of it, whatever order or number of threads the work is done in.

mod adaptive;
mod draws;
mod interval;
mod validate;

pub use adaptive::{McResult, McSettings, MonteCarlo, least_draws};
pub use draws::unit_draws;
pub use validate::validate;
