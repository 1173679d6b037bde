//! Planning: the power of a t test, the number of trials for a power or a width, and how many more would settle a contrast.

pub mod further;
pub mod size;
pub mod test;

pub use further::{Arm, Further, Goal, further_trials};
pub use size::{n_for_difference, n_for_mean, n_per_group, n_per_group_exact};
pub use test::{Tails, one_sample_power, t_power, two_sample_power};
