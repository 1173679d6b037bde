//! Fits of the vessel's heat balance to a tank curve.
//!
//! C dT/dt = Q - UA (T - Ta) is fitted in its integrated form: heat stored so far plus heat lost so far is what has been
//! delivered. With the water's enthalpy in place of C T this holds for a heat capacity that changes with temperature and
//! for an air temperature that changes with time, and it is linear in what is sought, so that five readings and a
//! million are fitted alike, without iteration.

pub(crate) mod constant_loss;
pub(crate) mod cooling;
pub(crate) mod heat_line;
pub(crate) mod local;
pub(crate) mod noise;
pub(crate) mod quality;
pub(crate) mod weights;

pub(crate) use cooling::Cooling;
pub(crate) use heat_line::HeatLine;
pub(crate) use noise::Noise;
pub use quality::FitQuality;
