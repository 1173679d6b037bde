//! One interval against the truth.

/// What an interval is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// One burn.
    Trial,
    /// The expected value over the burns of a stove.
    Mean,
    /// The next burn of a stove.
    NextBurn,
    /// Difference of two expected values.
    Difference,
    /// Ratio of two expected values.
    Ratio,
    /// Slope along a number.
    Trend,
    /// All verdicts of a page together.
    Page,
}

impl What {
    /// Name in the table of the study.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Trial => "trial",
            Self::Mean => "mean",
            Self::NextBurn => "next_burn",
            Self::Difference => "difference",
            Self::Ratio => "ratio",
            Self::Trend => "trend",
            Self::Page => "page",
        }
    }
}

/// How a verdict compares with the truth.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Verdict {
    /// Nothing is settled.
    Open,
    /// Settled, and so it is.
    Right,
    /// Settled the wrong way round.
    WrongSign,
    /// Settled where there is no difference.
    False,
}

/// One interval against the truth.
#[derive(Debug, Clone)]
pub(super) struct Hit {
    pub(super) quantity: String,
    pub(super) what: What,
    /// What the table gives; none where it has no such row, or no number in it.
    pub(super) given: Option<Given>,
}

/// A number of the table against the truth.
#[derive(Debug, Clone, Copy)]
pub(super) struct Given {
    /// Whether the interval holds the truth.
    pub(super) held: bool,
    /// Value less truth, in standard uncertainties.
    pub(super) scaled: f64,
    /// Width of the interval.
    pub(super) width: f64,
    pub(super) verdict: Option<Verdict>,
}
