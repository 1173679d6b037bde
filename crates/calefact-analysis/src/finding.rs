//! Findings of the analysis: facts of the reader and facts about trials and comparisons, in one set.

use crate::fact::{BookFact, BundleFact, CautionFact, ComparisonFact, ForecastFact, PipelineFact, TrialFact};
use calefact_data::fact::Log;
use serde::Serialize;
use std::path::PathBuf;

/// A fact that an analysis may state.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Fact {
    /// A fact about a file, a dataset, a register or a log.
    Data(calefact_data::Fact),
    /// A fact about a comparison.
    Comparison(ComparisonFact),
    /// A fact about a trial.
    Trial(TrialFact),
    /// A danger to people or to the rig.
    Caution(CautionFact),
    /// A fact about a pipeline.
    Pipeline(PipelineFact),
    /// A fact about a forecast.
    Forecast(ForecastFact),
    /// A fact about the book.
    Book(BookFact),
    /// A fact about a bundle.
    Bundle(BundleFact),
}

/// A finding of the analysis.
pub type Finding = calefact_data::finding::Finding<Fact>;

/// Findings in few words.
pub type FindingSummary = calefact_data::FindingSummary<Fact>;

/// Findings of one code and severity.
pub type FindingGroup = calefact_data::FindingGroup<Fact>;

impl Fact {
    /// The file or folder that the fact itself names, beside the place of its finding.
    pub const fn path_mut(&mut self) -> Option<&mut PathBuf> {
        match self {
            Self::Data(calefact_data::Fact::Log(
                Log::Unreadable { log: path, .. } | Log::SameBytes { first: path },
            ))
            | Self::Pipeline(
                PipelineFact::NoDataset { folder: path, .. } | PipelineFact::ApparatusConflict { dataset: path, .. },
            ) => Some(path),
            _ => None,
        }
    }
}

impl calefact_data::finding::Fact for Fact {
    fn code(&self) -> &'static str {
        match self {
            Self::Data(fact) => fact.code(),
            Self::Comparison(fact) => fact.code(),
            Self::Trial(fact) => fact.code(),
            Self::Caution(fact) => fact.code(),
            Self::Pipeline(fact) => fact.code(),
            Self::Forecast(fact) => fact.code(),
            Self::Book(fact) => fact.code(),
            Self::Bundle(fact) => fact.code(),
        }
    }
}

impl From<calefact_data::Fact> for Fact {
    fn from(fact: calefact_data::Fact) -> Self {
        Self::Data(fact)
    }
}

impl From<TrialFact> for Fact {
    fn from(fact: TrialFact) -> Self {
        Self::Trial(fact)
    }
}

impl From<CautionFact> for Fact {
    fn from(fact: CautionFact) -> Self {
        Self::Caution(fact)
    }
}

impl From<ComparisonFact> for Fact {
    fn from(fact: ComparisonFact) -> Self {
        Self::Comparison(fact)
    }
}

impl From<ForecastFact> for Fact {
    fn from(fact: ForecastFact) -> Self {
        Self::Forecast(fact)
    }
}

impl From<BundleFact> for Fact {
    fn from(fact: BundleFact) -> Self {
        Self::Bundle(fact)
    }
}

impl From<BookFact> for Fact {
    fn from(fact: BookFact) -> Self {
        Self::Book(fact)
    }
}

impl From<PipelineFact> for Fact {
    fn from(fact: PipelineFact) -> Self {
        Self::Pipeline(fact)
    }
}
