//! Published and hand-checkable values of the statistics, module by module.

mod coverage;
mod dist;
mod linear;
mod monte_carlo;
mod nonlinear;
mod propagate;
mod residuals;
