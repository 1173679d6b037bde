//! Checks of the simulator: its own physics, and the analysis of what it makes.

mod false_alarms;
mod forward;
mod heat_path;
mod next_build;
