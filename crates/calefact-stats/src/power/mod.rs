//! Planning: the power of a t test, and how many more trials would settle a contrast.

mod further;
mod t_test;

pub use further::{Arm, Further, Goal, further_trials};
pub use t_test::t_power;
