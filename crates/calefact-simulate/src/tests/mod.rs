//! Checks of the simulator: its own physics, and the analysis of what it makes.

mod forward;
mod heat_path;
