//! Planning: the power of a t test, how many trials a comparison needs, and how many more would settle a contrast.

mod fresh;
mod further;
mod t_test;

pub use fresh::{MOST, Needed, Scatter, narrowest_width, smallest_difference, trials_for_power, trials_for_width};
pub use further::{Arm, Further, Goal, further_trials};
pub use t_test::t_power;
