//! Distribution functions, in one place so that their accuracy can be tested in one place.
//!
//! Quantiles are solved by Newton's method, which keeps its digits in far tails and at many degrees of freedom. Degrees of
//! freedom may be any positive number, below 1 too, as the Welch-Satterthwaite formula can give.

mod chi_squared;
mod fisher;
mod noncentral_t;
mod normal;
mod normal_range;
mod student;
mod studentized_range;

pub use chi_squared::chi2_quantile;
pub use fisher::f_sf;
pub use noncentral_t::noncentral_t_cdf;
pub use normal::{normal_cdf, normal_quantile};
pub use student::{t_cdf, t_quantile};
pub use studentized_range::{studentized_range_quantile, studentized_range_sf};
