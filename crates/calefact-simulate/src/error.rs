//! Why a planned trial cannot be.

/// A plan that contradicts physics or its own scenario.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SimulationError {
    /// The plan names an apparatus the scenario has not.
    #[error("trial {trial} names {what} number {index}, which the scenario has not")]
    NoSuch {
        /// Trial id.
        trial: String,
        /// Kind of apparatus.
        what: &'static str,
        /// Index asked.
        index: usize,
    },
    /// A burn without fuel, or a log of fewer than two rows.
    #[error("trial {trial} is empty: {what}")]
    Empty {
        /// Trial id.
        trial: String,
        /// The missing part.
        what: &'static str,
    },
    /// Water would freeze or boil.
    #[error("trial {trial} takes the tank to {tank:.1} degC")]
    OutOfWater {
        /// Trial id.
        trial: String,
        /// Tank temperature reached, degC.
        tank: f64,
    },
    /// The water and the flue together would carry more than the fuel has.
    #[error("trial {trial} breaks the first law: water and flue carry {share:.3} of the fuel energy")]
    FirstLaw {
        /// Trial id.
        trial: String,
        /// Share of the fuel energy in water and flue.
        share: f64,
    },
}
