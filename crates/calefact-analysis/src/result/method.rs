//! How the means and contrasts of a comparison were obtained.

use serde::Serialize;

/// How a mean or a contrast of a comparison was obtained. Errors that trials share are kept in means and cancel in contrasts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Method {
    /// One trial: its measurement alone. How much trials differ is not known, and no interval holds a mean over many.
    SingleTrial,
    /// One trial, with the scatter between trials of the other levels.
    BorrowedScatter,
    /// Unweighted mean, t interval.
    Mean,
    /// Two trials combined as random effects: unweighted mean, t interval with one degree of freedom.
    TwoTrials,
    /// Random effects by REML, Hartung-Knapp-Sidik-Jonkman interval.
    Reml,
    /// Random effects by Paule-Mandel, Hartung-Knapp-Sidik-Jonkman interval.
    PauleMandel,
    /// Welch's test of two unadjusted means.
    Welch,
    /// Marginal mean of a level by a model.
    MarginalMean(ModelDescription),
    /// Contrast of two marginal means of a model.
    Contrast(ModelDescription),
}

/// A linear model of a comparison; a mixed model with Kenward-Roger intervals where it has blocks that differ.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ModelDescription {
    /// Columns held constant.
    pub adjusted_for: Vec<String>,
    /// Column of the random blocks.
    pub block: Option<String>,
    /// Whether the variance between blocks came out as zero, so that the fit is one of least squares.
    pub blocks_alike: bool,
}
