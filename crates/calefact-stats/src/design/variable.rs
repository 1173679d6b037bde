//! What varies between trials: factors with levels, covariates with numbers.

use super::error::DesignError;
use serde::Serialize;
use std::collections::HashMap;

/// A factor: each observation has one of its levels.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Factor {
    /// Name, such as `stove`.
    pub name: String,
    /// Level names; the first is the reference of treatment coding.
    pub levels: Vec<String>,
    /// Level of each observation, as an index into `levels`.
    pub codes: Vec<usize>,
}

impl Factor {
    /// A factor from one label an observation; levels are in order of first appearance.
    pub fn from_labels(name: impl Into<String>, labels: &[impl AsRef<str>]) -> Self {
        let mut levels: Vec<String> = Vec::new();
        let mut known: HashMap<&str, usize> = HashMap::new();
        let code = |label| {
            *known.entry(label).or_insert_with(|| {
                levels.push(label.to_owned());
                levels.len() - 1
            })
        };
        let codes = labels.iter().map(AsRef::as_ref).map(code).collect();
        Self { name: name.into(), levels, codes }
    }
}

/// A numeric variable whose trend is estimated.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Covariate {
    /// Name, such as `start temperature`.
    pub name: String,
    /// Value of each observation.
    pub values: Vec<f64>,
}

impl Covariate {
    /// Arithmetic mean of the values; estimated marginal means are taken there.
    pub(super) fn mean(&self) -> f64 {
        self.values.iter().sum::<f64>() / self.values.len() as f64
    }
}

/// Either kind of variable.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Variable {
    /// Levels.
    Factor(Factor),
    /// Numbers.
    Covariate(Covariate),
}

/// The place at which a design row is wanted: one value for each variable.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Setting {
    Level(usize),
    Number(f64),
}

impl Variable {
    /// Name for a reader.
    pub fn name(&self) -> &str {
        match self {
            Self::Factor(f) => &f.name,
            Self::Covariate(c) => &c.name,
        }
    }

    /// The factor, if it is one.
    pub fn factor(&self) -> Option<&Factor> {
        match self {
            Self::Factor(f) => Some(f),
            Self::Covariate(_) => None,
        }
    }

    pub(super) fn len(&self) -> usize {
        match self {
            Self::Factor(f) => f.codes.len(),
            Self::Covariate(c) => c.values.len(),
        }
    }

    pub(super) fn setting(&self, observation: usize) -> Setting {
        match self {
            Self::Factor(f) => Setting::Level(f.codes[observation]),
            Self::Covariate(c) => Setting::Number(c.values[observation]),
        }
    }

    pub(super) fn check(&self, expected: usize) -> Result<(), DesignError> {
        let name = self.name().to_owned();
        if self.len() != expected {
            return Err(DesignError::Length { name, found: self.len(), expected });
        }
        match self {
            Self::Factor(f) if f.levels.len() < 2 => Err(DesignError::OneLevel(name)),
            Self::Covariate(c) if !c.values.iter().all(|v| v.is_finite()) => Err(DesignError::NotFinite(name)),
            _ => Ok(()),
        }
    }
}
