//! Heat a warm outer surface gives to still room air and to the walls.
//!
//! Natural convection by Churchill and Chu (1975), Int. J. Heat Mass Transfer 18, 1323, and grey radiation to
//! surroundings at room temperature. The surface is taken as clean, of one temperature and unshielded; draught adds to
//! it, and a correlation of this kind is good to about 20 % (common practice, no source).

mod air_film;
mod convection;
mod loss;

pub use loss::{CasingLoss, Surface, casing_loss};
