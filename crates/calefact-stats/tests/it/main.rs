//! Published and hand-checkable values of the statistics, module by module. The figures of tables are in `tests/data` at the
//! root of the repository, with their sources in `tests/data/SOURCES.md`.

mod coverage;
mod data;
mod design;
mod dist;
mod groups;
mod linear;
mod mixed;
mod monte_carlo;
mod pooling;
mod power;
mod propagate;
mod residuals;
mod univariate;
