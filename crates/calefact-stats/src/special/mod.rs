//! Distribution functions that the libraries in use do not have: studentized range and noncentral t.

pub mod noncentral_t;
pub mod studentized_range;
