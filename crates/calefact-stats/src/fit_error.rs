//! What can go wrong in a fit, linear or not.

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
    /// An observation, weight or prediction is not a finite number, or a weight is not positive.
    #[error("{0} holds a value that is not usable")]
    NotUsable(&'static str),
    /// The data do not tell some combination of the parameters from another.
    #[error("the data determine only {rank} of {parameters} parameters")]
    RankDeficient {
        /// Numerical rank of the scaled Jacobian.
        rank: usize,
        /// Number of parameters.
        parameters: usize,
    },
    /// A false optimum: the search came to rest where a parameter no longer moves the curve.
    #[error("the curve has stopped responding to parameter {parameter}: a false optimum")]
    Saturated {
        /// Index of the parameter.
        parameter: usize,
    },
    /// No start led to an optimum.
    #[error("no start converged: {0}")]
    NotConverged(String),
}
