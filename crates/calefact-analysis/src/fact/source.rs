//! Sources of error as facts. The statistics know a source by its key alone, a text such as `instrument:tank-probe:low`; here
//! each source writes its key and is read back from it.

use super::AssumedInput;
use calefact_stats::Source;
use serde::Serialize;
use std::borrow::Cow;

/// Where an error comes from.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum ErrorSource {
    /// An instrument.
    Instrument {
        /// Its id.
        id: String,
        /// Which of its errors.
        error: InstrumentError,
    },
    /// Net calorific value of a fuel.
    CalorificValue {
        /// The fuel.
        fuel: String,
    },
    /// Calorific value of a fuel's char.
    CharValue {
        /// The fuel.
        fuel: String,
    },
    /// Heat capacity of a vessel.
    HeatCapacity {
        /// The vessel.
        vessel: String,
    },
    /// Loss coefficient that the dataset states for a vessel.
    StatedLoss {
        /// The vessel.
        vessel: String,
    },
    /// The range of an input that nobody recorded.
    Assumed {
        /// The input.
        input: AssumedInput,
        /// What its trials have in common: a vessel, a fuel, a dataset, or a combination of stove, fuel and exchanger.
        owner: String,
    },
    /// The tolerance of an instrument that states none.
    AssumedTolerance {
        /// The tolerance.
        input: AssumedInput,
        /// Id of the instrument; of an instrument that is not described, the column or columns it reads.
        instrument: String,
        /// Which of its errors.
        error: InstrumentError,
    },
    /// Scatter between the standing-loss trials of a vessel.
    LossScatter {
        /// The vessel.
        vessel: String,
    },
    /// Scatter between the reference-heater trials.
    HeaterScatter,
    /// Distance of the rig's ratio from one.
    RigDistance,
    /// Course of the burn between few readings, alike in all trials of a stove that are logged so.
    FewReadings {
        /// The stove; empty where none is named.
        stove: String,
    },
    /// Scatter between the trials of a group.
    TrialScatter,
    /// An error of one trial, which others have only where they rest on it.
    Trial {
        /// The trial.
        trial: String,
        /// Which of its errors.
        error: TrialError,
    },
    /// All errors that are one trial's alone.
    TrialAlone {
        /// The trial.
        trial: String,
    },
    /// A source known by its key alone.
    Other {
        /// The key.
        key: String,
    },
}

/// An error of an instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum InstrumentError {
    /// Of a thermometer, at any temperature.
    Common,
    /// Of a thermometer, near 0 degC.
    Low,
    /// Of a thermometer, at the upper end.
    High,
    /// The same at any reading.
    Offset,
    /// In proportion to the reading.
    Gain,
}

/// An error of one trial.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum TrialError {
    /// Scatter of the first tank reading.
    FirstReading,
    /// Scatter of the last tank reading.
    LastReading,
    /// Scatter of the tank at the ends of the steady part.
    SteadyEnds,
    /// Choice of the steady part.
    SteadyChoice,
    /// Start of the steady part, for the exchanger.
    SteadyStart,
    /// End of the steady part, for the exchanger.
    SteadyEnd,
    /// Scatter about the cooling line.
    CoolingLine,
    /// Scatter about the local slope.
    LocalSlope,
    /// Bend of the curve about the local slope.
    RateBend,
    /// Scatter of the tank over the steady part.
    SteadyTank,
    /// Burn rate of the steady part.
    BurnRate,
    /// Ramp and burn-down against the steady part.
    WholeBurn,
    /// Correlation of the casing loss.
    CasingCorrelation,
    /// Coil inlet taken as the tank.
    InletFromTank,
    /// Display step of a register column.
    DisplayStep(String),
    /// Scatter of a log column over the steady part.
    ColumnScatter(String),
}

impl InstrumentError {
    const ALL: [Self; 5] = [Self::Common, Self::Low, Self::High, Self::Offset, Self::Gain];

    const fn key(self) -> &'static str {
        match self {
            Self::Common => "common",
            Self::Low => "low",
            Self::High => "high",
            Self::Offset => "offset",
            Self::Gain => "gain",
        }
    }
}

impl InstrumentError {
    fn from_key(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|error| error.key() == key)
    }
}

impl TrialError {
    const PLAIN: [Self; 14] = [
        Self::FirstReading,
        Self::LastReading,
        Self::SteadyEnds,
        Self::SteadyChoice,
        Self::SteadyStart,
        Self::SteadyEnd,
        Self::CoolingLine,
        Self::LocalSlope,
        Self::RateBend,
        Self::SteadyTank,
        Self::BurnRate,
        Self::WholeBurn,
        Self::CasingCorrelation,
        Self::InletFromTank,
    ];

    fn key(&self) -> Cow<'static, str> {
        match self {
            Self::FirstReading => "first tank reading".into(),
            Self::LastReading => "last tank reading".into(),
            Self::SteadyEnds => "tank at the ends of the steady part".into(),
            Self::SteadyChoice => "choice of the steady part".into(),
            Self::SteadyStart => "start of the steady part".into(),
            Self::SteadyEnd => "end of the steady part".into(),
            Self::CoolingLine => "scatter about the cooling line".into(),
            Self::LocalSlope => "scatter about the local slope".into(),
            Self::RateBend => "bend of the curve about the local slope".into(),
            Self::SteadyTank => "scatter of the tank, steady part".into(),
            Self::BurnRate => "burn rate of the steady part".into(),
            Self::WholeBurn => "ramp and burn-down against the steady part".into(),
            Self::CasingCorrelation => "correlation of the casing loss".into(),
            Self::InletFromTank => "coil inlet taken as the tank".into(),
            Self::DisplayStep(column) => format!("{column} display step").into(),
            Self::ColumnScatter(column) => format!("scatter of {column}, steady part").into(),
        }
    }

    fn from_key(key: &str) -> Option<Self> {
        let plain = Self::PLAIN.into_iter().find(|error| error.key() == key);
        let step = || key.strip_suffix(" display step").map(|column| Self::DisplayStep(column.to_owned()));
        let column = || key.strip_prefix("scatter of ")?.strip_suffix(", steady part");
        plain.or_else(step).or_else(|| column().map(|column| Self::ColumnScatter(column.to_owned())))
    }
}

impl ErrorSource {
    /// The key. An id stands between the first and the last colon, so that it may hold colons itself.
    pub fn key(&self) -> Source {
        match self {
            Self::Instrument { id, error } => format!("instrument:{id}:{}", error.key()).into(),
            Self::CalorificValue { fuel } => format!("fuel:{fuel}:net-calorific-value").into(),
            Self::CharValue { fuel } => format!("fuel:{fuel}:char-calorific-value").into(),
            Self::HeatCapacity { vessel } => format!("vessel:{vessel}:heat-capacity").into(),
            Self::StatedLoss { vessel } => format!("vessel:{vessel}:loss-coefficient").into(),
            Self::Assumed { input, owner } => format!("assumed:{}:{owner}", input.id()).into(),
            Self::AssumedTolerance { input, instrument, error } => {
                format!("assumed:{}:{instrument}:{}", input.id(), error.key()).into()
            }
            Self::LossScatter { vessel } => format!("scatter:loss-coefficient:{vessel}").into(),
            Self::HeaterScatter => "scatter:reference-heater".into(),
            Self::RigDistance => "rig:distance-from-one".into(),
            Self::FewReadings { stove } => format!("few-readings:{stove}:course").into(),
            Self::TrialScatter => "scatter".into(),
            Self::Trial { trial, error } => format!("trial:{trial}:{}", error.key()).into(),
            Self::TrialAlone { trial } => format!("errors of {trial} alone").into(),
            Self::Other { key } => key.as_str().into(),
        }
    }

    /// The input it stands for, if that was assumed.
    pub const fn assumed_input(&self) -> Option<AssumedInput> {
        match self {
            Self::Assumed { input, .. } | Self::AssumedTolerance { input, .. } => Some(*input),
            _ => None,
        }
    }

    /// The source of a key. Keys of the scatter between the trials of a group begin with `scatter:` and name the group.
    pub fn from_key(key: &str) -> Self {
        if let Some(trial) = key.strip_prefix("errors of ").and_then(|rest| rest.strip_suffix(" alone")) {
            return Self::TrialAlone { trial: trial.to_owned() };
        }
        let (family, rest) = key.split_once(':').unwrap_or((key, ""));
        match family {
            "scatter" => Self::scatter(rest),
            "rig" => Self::RigDistance,
            "assumed" => Self::assumed(rest).unwrap_or_else(|| Self::Other { key: key.to_owned() }),
            _ => Self::from_entry(family, rest).unwrap_or_else(|| Self::Other { key: key.to_owned() }),
        }
    }

    fn scatter(rest: &str) -> Self {
        match rest.strip_prefix("loss-coefficient:") {
            Some(vessel) => Self::LossScatter { vessel: vessel.to_owned() },
            None if rest == "reference-heater" => Self::HeaterScatter,
            None => Self::TrialScatter,
        }
    }

    fn assumed(rest: &str) -> Option<Self> {
        let (input, owner) = rest.split_once(':')?;
        let input = AssumedInput::from_id(input)?;
        if !input.is_tolerance() {
            return Some(Self::Assumed { input, owner: owner.to_owned() });
        }
        let (instrument, error) = owner.rsplit_once(':')?;
        let error = InstrumentError::from_key(error)?;
        Some(Self::AssumedTolerance { input, instrument: instrument.to_owned(), error })
    }

    fn from_entry(family: &str, rest: &str) -> Option<Self> {
        let (id, part) = rest.rsplit_once(':')?;
        let id = id.to_owned();
        match (family, part) {
            ("instrument", _) => {
                let error = InstrumentError::from_key(part)?;
                Some(Self::Instrument { id, error })
            }
            ("fuel", "net-calorific-value") => Some(Self::CalorificValue { fuel: id }),
            ("fuel", "char-calorific-value") => Some(Self::CharValue { fuel: id }),
            ("few-readings", "course") => Some(Self::FewReadings { stove: id }),
            ("vessel", "heat-capacity") => Some(Self::HeatCapacity { vessel: id }),
            ("vessel", "loss-coefficient") => Some(Self::StatedLoss { vessel: id }),
            ("trial", _) => Some(Self::Trial { trial: id, error: TrialError::from_key(part)? }),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_source_is_read_back_from_its_key() {
        let id = || "a:b".to_owned();
        let mut all = vec![
            ErrorSource::CalorificValue { fuel: id() },
            ErrorSource::CharValue { fuel: id() },
            ErrorSource::HeatCapacity { vessel: id() },
            ErrorSource::StatedLoss { vessel: id() },
            ErrorSource::LossScatter { vessel: id() },
            ErrorSource::HeaterScatter,
            ErrorSource::RigDistance,
            ErrorSource::FewReadings { stove: id() },
            ErrorSource::TrialScatter,
            ErrorSource::TrialAlone { trial: id() },
        ];
        all.extend(AssumedInput::ALL.iter().map(|input| match *input {
            input if input.is_tolerance() => {
                ErrorSource::AssumedTolerance { input, instrument: id(), error: InstrumentError::Gain }
            }
            input => ErrorSource::Assumed { input, owner: id() },
        }));
        all.extend(InstrumentError::ALL.map(|error| ErrorSource::Instrument { id: id(), error }));
        let columns = [TrialError::DisplayStep("water".into()), TrialError::ColumnScatter("coil_in".into())];
        let errors = TrialError::PLAIN.into_iter().chain(columns);
        all.extend(errors.map(|error| ErrorSource::Trial { trial: id(), error }));
        for source in all {
            assert_eq!(ErrorSource::from_key(&source.key()), source);
        }
        assert_eq!(ErrorSource::from_key("scatter:stove:box:heat"), ErrorSource::TrialScatter);
        let key = "instrument:x:weight".to_owned();
        assert_eq!(ErrorSource::from_key(&key), ErrorSource::Other { key });
    }
}
