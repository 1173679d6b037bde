//! The readings of one trial in SI, column by column.

use calefact_units::Kind;
use std::collections::BTreeMap;

/// Canonical log columns that hold numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Channel {
    /// Water in the vessel, degC.
    Tank,
    /// Water into the exchanger, degC.
    CoilIn,
    /// Water out of the exchanger, degC.
    CoilOut,
    /// Flue gas before the exchanger, degC.
    FlueBefore,
    /// Flue gas after the exchanger, degC.
    FlueAfter,
    /// Air around the vessel, degC.
    Ambient,
    /// Outer surface of the exchanger's casing, degC.
    Casing,
    /// Water flow through the exchanger, kg/s.
    Flow,
    /// Electric power of a reference heater, W.
    Power,
    /// Fuel put on the fire at this moment, kg.
    FuelAdded,
    /// Oxygen in dry flue gas, volume fraction.
    FlueO2,
    /// Carbon dioxide in dry flue gas, volume fraction.
    FlueCo2,
    /// Carbon monoxide in dry flue gas, volume fraction.
    FlueCo,
}

impl Channel {
    /// All channels in the order of the `readings` table.
    pub const ALL: [Self; 13] = [
        Self::Tank,
        Self::CoilIn,
        Self::CoilOut,
        Self::FlueBefore,
        Self::FlueAfter,
        Self::Ambient,
        Self::Casing,
        Self::Flow,
        Self::Power,
        Self::FuelAdded,
        Self::FlueO2,
        Self::FlueCo2,
        Self::FlueCo,
    ];

    /// Canonical column name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Tank => "tank",
            Self::CoilIn => "coil_in",
            Self::CoilOut => "coil_out",
            Self::FlueBefore => "flue_before",
            Self::FlueAfter => "flue_after",
            Self::Ambient => "ambient",
            Self::Casing => "casing",
            Self::Flow => "flow",
            Self::Power => "power",
            Self::FuelAdded => "fuel_added",
            Self::FlueO2 => "flue_o2",
            Self::FlueCo2 => "flue_co2",
            Self::FlueCo => "flue_co",
        }
    }

    /// Kind of quantity it holds. A flow may be logged as volume flow; it is held as mass flow.
    pub const fn kind(self) -> Kind {
        match self {
            Self::Flow => Kind::MassFlow,
            Self::Power => Kind::Power,
            Self::FuelAdded => Kind::Mass,
            Self::FlueO2 | Self::FlueCo2 | Self::FlueCo => Kind::Fraction,
            _ => Kind::Temperature,
        }
    }

    /// The channel of a canonical column name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|c| c.name() == name)
    }
}

/// A word written into the log beside a reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remark {
    /// Index of the reading.
    pub row: usize,
    /// The text.
    pub text: String,
}

/// Readings of one trial. All columns have the length of `elapsed_s`; a blank cell is NaN.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Readings {
    /// Time since the first reading, s, strictly increasing.
    pub elapsed_s: Vec<f64>,
    /// Channels present, SI.
    pub channels: BTreeMap<Channel, Vec<f64>>,
    /// Flag per reading: zero is good; the bits are those of [`flag`].
    pub flags: Vec<u8>,
    /// `event` cells.
    pub events: Vec<Remark>,
    /// `note` cells.
    pub notes: Vec<Remark>,
}

/// Bits of the flag column.
pub mod flag {
    /// A cell of this reading was blank or a word for "no reading".
    pub const BLANK: u8 = 1;
    /// A cell could not be read as a number and was taken as blank.
    pub const UNREADABLE: u8 = 2;
    /// The reading lies outside the trial's window.
    pub const OUTSIDE_WINDOW: u8 = 4;
}

impl Readings {
    /// A channel's values, if it was logged.
    pub fn channel(&self, channel: Channel) -> Option<&[f64]> {
        self.channels.get(&channel).map(Vec::as_slice)
    }

    /// Number of readings.
    pub fn len(&self) -> usize {
        self.elapsed_s.len()
    }

    /// Whether there is no reading.
    pub fn is_empty(&self) -> bool {
        self.elapsed_s.is_empty()
    }
}
