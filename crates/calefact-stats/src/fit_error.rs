//! Reasons for which a least-squares fit gives no answer.

/// Why a fit gives no answer. Each is a fact about the data or the model that a reader can act on.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FitError {
    /// Fewer observations than parameters, or no degree of freedom where one is needed.
    #[error("{observations} observations are too few for {parameters} parameters")]
    TooFew {
        /// Number of observations.
        observations: usize,
        /// Number of parameters.
        parameters: usize,
    },
    /// Lists that belong together differ in length.
    #[error("{what}: {got} values where {want} were expected")]
    Length {
        /// Which list.
        what: &'static str,
        /// Its length.
        got: usize,
        /// The length of its partner.
        want: usize,
    },
    /// An observation or entry of the design is not a finite number.
    #[error("{0} holds a value that is not usable")]
    NotUsable(&'static str),
    /// The data do not tell some combination of the parameters from another.
    #[error("the data determine only {rank} of {parameters} parameters")]
    RankDeficient {
        /// Numerical rank of the scaled design.
        rank: usize,
        /// Number of parameters.
        parameters: usize,
    },
}
