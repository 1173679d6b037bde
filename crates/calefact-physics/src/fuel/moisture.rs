//! The two moisture bases. A pin meter for timber shows dry basis (EN 13183-2, ASTM D4444, from memory); an oven test
//! by ISO 18134 gives wet basis (from memory).

/// Wet-basis moisture, water over all mass, from dry-basis moisture `u`, water over dry mass: u/(1 + u).
pub fn wet_from_dry(u: f64) -> f64 {
    u / (1.0 + u)
}
