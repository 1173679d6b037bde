//! Facts about files, datasets, registers and logs: one enum a family, no sentence in any of them.

mod dataset;
mod file;
mod ids;
mod log;
mod log_detail;
mod logger_fault;
mod register;
mod toml;
mod workbook;

pub use dataset::{DatasetFact, ToleranceProblem};
pub use file::{BinaryFormat, File, ReadFailure, TableFile};
pub use ids::Ids;
pub use log::Log;
pub use log_detail::{AssumedUnit, ClockForm};
pub use logger_fault::{LoggerFault, SpikeReading};
pub use register::RegisterFact;
pub use toml::{Misfit, Toml};
pub use workbook::{SheetFact, WorkbookFailure};

pub use crate::text::number::TwoReadings;

use serde::Serialize;

/// A fact that reading a dataset may come upon.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Fact {
    /// A fact about a file as a whole.
    File(File),
    /// A fact about a log.
    Log(Log),
    /// A fault of a logger.
    LoggerFault(LoggerFault),
    /// A fact about a TOML file.
    Toml(Toml),
    /// A fact about the apparatus and the files of a dataset.
    Dataset(DatasetFact),
    /// A fact about the register.
    Register(RegisterFact),
    /// A fact about a sheet of a workbook.
    Sheet(SheetFact),
}

impl crate::finding::Fact for Fact {
    fn code(&self) -> &'static str {
        match self {
            Self::File(fact) => fact.code(),
            Self::Log(fact) => fact.code(),
            Self::LoggerFault(fact) => fact.code(),
            Self::Toml(fact) => fact.code(),
            Self::Dataset(fact) => fact.code(),
            Self::Register(fact) => fact.code(),
            Self::Sheet(fact) => fact.code(),
        }
    }
}

impl From<File> for Fact {
    fn from(fact: File) -> Self {
        Self::File(fact)
    }
}

impl From<Log> for Fact {
    fn from(fact: Log) -> Self {
        Self::Log(fact)
    }
}

impl From<LoggerFault> for Fact {
    fn from(fact: LoggerFault) -> Self {
        Self::LoggerFault(fact)
    }
}

impl From<Toml> for Fact {
    fn from(fact: Toml) -> Self {
        Self::Toml(fact)
    }
}

impl From<DatasetFact> for Fact {
    fn from(fact: DatasetFact) -> Self {
        Self::Dataset(fact)
    }
}

impl From<RegisterFact> for Fact {
    fn from(fact: RegisterFact) -> Self {
        Self::Register(fact)
    }
}

impl From<SheetFact> for Fact {
    fn from(fact: SheetFact) -> Self {
        Self::Sheet(fact)
    }
}

impl From<Log> for crate::finding::Finding<Fact> {
    fn from(fact: Log) -> Self {
        Self::new(fact.severity(), fact)
    }
}

impl From<LoggerFault> for crate::finding::Finding<Fact> {
    fn from(fault: LoggerFault) -> Self {
        Self::warning(fault)
    }
}
