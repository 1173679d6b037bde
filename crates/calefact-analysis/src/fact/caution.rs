//! What the trade warns of, as a log shows it or as any burn calls for it. Limits and their sources are in
//! [`calefact_physics::caution`].

use crate::phases::SteadyPart;
use serde::Serialize;

/// A danger to people or to the rig.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum CautionFact {
    /// Water left the coil near the boiling point of the place.
    NearBoiling {
        /// Hottest water out of the coil.
        highest_degc: f64,
        /// First time within the margin of boiling.
        from_s: f64,
        /// Boiling point of the place.
        boiling_degc: f64,
        /// Altitude of the place; sea level is taken where it is not stated.
        altitude_m: Option<f64>,
    },
    /// The water stood still in the coil under hot gas.
    FlowStopped {
        /// First such time.
        at_s: f64,
        /// Gas before the coil at that time.
        gas_degc: f64,
    },
    /// Nothing moved in the coil, in gas hot enough to melt soft solder.
    DryCoil {
        /// First such time.
        at_s: f64,
        /// Gas before the coil at that time.
        gas_degc: f64,
    },
    /// The gas left the exchanger cold enough for tar to condense.
    Creosote {
        /// Share of the steady part's readings below the limit.
        share: f64,
        /// The steady part.
        part: SteadyPart,
        /// Coldest gas in it.
        lowest_degc: f64,
    },
    /// Carbon monoxide in the flue gas.
    CarbonMonoxide {
        /// Highest volume fraction in dry gas.
        fraction: f64,
        /// Time of it.
        at_s: f64,
    },
    /// The tank held water that scalds.
    Scald {
        /// First time above the limit.
        from_s: f64,
        /// Highest temperature.
        highest_degc: f64,
    },
    /// A tub was hotter than anyone should sit in.
    Tub {
        /// Highest temperature.
        highest_degc: f64,
    },
    /// A store was left at a temperature at which bacteria grow.
    LukewarmStore {
        /// Last reading.
        last_degc: f64,
    },
    /// A closed coil bursts.
    ClosedCoil,
    /// Carbon monoxide has no smell.
    Monoxide,
    /// Mineral fibre sheds dust.
    Fibre,
    /// Soft solder melts in flue gas.
    Solder,
    /// Local codes and licensed practice decide.
    LocalCodes,
}

impl CautionFact {
    /// Cautions that any burn calls for, whatever its log shows.
    pub const GENERAL: [Self; 5] = [Self::ClosedCoil, Self::Monoxide, Self::Fibre, Self::Solder, Self::LocalCodes];

    /// Codes with their meaning.
    pub const CODES: &'static [(&'static str, &'static str)] = &[
        ("caution-near-boiling", "water left the coil near the boiling point of the place"),
        ("caution-flow-stopped", "the water stood still in the coil under hot gas"),
        ("caution-dry-coil", "nothing moved in the coil, in gas hot enough to melt soft solder"),
        ("caution-creosote", "the gas left the exchanger cold enough for tar to condense"),
        ("caution-carbon-monoxide", "carbon monoxide was measured in the flue gas"),
        ("caution-scald", "the tank held water that scalds"),
        ("caution-tub", "a tub was hotter than anyone should sit in"),
        ("caution-lukewarm-store", "a store was left at a temperature at which bacteria grow"),
        ("caution-closed-coil", "general: a closed coil bursts"),
        ("caution-monoxide-general", "general: carbon monoxide has no smell"),
        ("caution-fibre", "general: mineral fibre sheds dust"),
        ("caution-solder", "general: soft solder melts in flue gas"),
        ("caution-codes", "general: local codes and licensed practice decide"),
    ];

    /// Stable code.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NearBoiling { .. } => "caution-near-boiling",
            Self::FlowStopped { .. } => "caution-flow-stopped",
            Self::DryCoil { .. } => "caution-dry-coil",
            Self::Creosote { .. } => "caution-creosote",
            Self::CarbonMonoxide { .. } => "caution-carbon-monoxide",
            Self::Scald { .. } => "caution-scald",
            Self::Tub { .. } => "caution-tub",
            Self::LukewarmStore { .. } => "caution-lukewarm-store",
            Self::ClosedCoil => "caution-closed-coil",
            Self::Monoxide => "caution-monoxide-general",
            Self::Fibre => "caution-fibre",
            Self::Solder => "caution-solder",
            Self::LocalCodes => "caution-codes",
        }
    }

    /// Whether it holds for any burn rather than for a log.
    pub fn is_general(&self) -> bool {
        Self::GENERAL.contains(self)
    }
}
