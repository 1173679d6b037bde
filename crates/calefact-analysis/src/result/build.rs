//! Exchangers that have not been built yet: what another length, number of passes or water flow would do.

use super::operating::OperatingBurn;
use calefact_data::apparatus::Arrangement;
use calefact_physics::exchanger::BuildRatio;
use calefact_stats::{Estimate, Interval};
use serde::Serialize;

/// Forecasts of builds, and what further ones start from.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct Builds {
    /// How conductance follows the build; absent where no exchanger was measured.
    pub model: Option<BuildModel>,
    /// Combinations of stove and exchanger whose conductance was measured, in the order of the register.
    pub combinations: Vec<MeasuredExchanger>,
    /// Half as much tube, as much, and twice as much, for each combination.
    pub forecasts: Vec<BuildForecast>,
    /// Heat and gas temperature by length, one curve a stove.
    pub curves: Vec<BuildCurve>,
    /// Confidence of all intervals.
    pub confidence: f64,
    /// Boiling point of the site, degC.
    pub boiling_degc: f64,
    /// End temperature of the reference job, degC: the hottest water that enters the exchanger.
    pub hot_inlet_degc: Option<f64>,
}

/// A stove with an exchanger.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MeasuredExchanger {
    /// Id of the stove, where the register names it.
    pub stove: Option<String>,
    /// Id of the exchanger.
    pub exchanger: String,
    /// Length of its tube, m, where stated.
    pub length_m: Option<f64>,
    /// Outside area of its tube, m2, where length and diameter are stated.
    pub area_m2: Option<f64>,
    /// Inside diameter of its tube, m, where stated.
    pub tube_inside_m: Option<f64>,
    /// Number of passes, where stated.
    pub passes: Option<f64>,
    /// Its burns.
    #[serde(skip)]
    pub burns: Vec<OperatingBurn>,
}

/// How conductance follows the build, and where that is from.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct BuildModel {
    /// Exponent of the outside area.
    pub area: AreaExponent,
    /// Least and greatest outside area among the builds that were measured, m2.
    pub span_m2: Option<(f64, f64)>,
}

/// Exponent of the conductance in the outside area of the tube.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum AreaExponent {
    /// The middle of the assumed range: the data hold no two builds that differ enough.
    Assumed {
        /// Exponent.
        value: f64,
        /// Its standard uncertainty.
        std_uncertainty: f64,
    },
    /// Builds of different area together with the assumed range.
    Inferred {
        /// Exponent.
        value: f64,
        /// Its standard uncertainty.
        std_uncertainty: f64,
        /// Number of builds.
        builds: usize,
        /// Weight of the data in it, 0 to 1; the rest is the assumed range.
        weight: f64,
    },
}

impl AreaExponent {
    /// Exponent and its standard uncertainty.
    pub const fn value(self) -> (f64, f64) {
        match self {
            Self::Assumed { value, std_uncertainty } | Self::Inferred { value, std_uncertainty, .. } => {
                (value, std_uncertainty)
            }
        }
    }
}

/// A number of a forecast: its mean over many burns, and the interval for one next burn.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BuildOutcome {
    /// Mean over burns like those logged.
    pub mean: Estimate,
    /// Interval for the next burn; absent where nothing is known of how burns differ.
    pub next: Option<Interval>,
}

/// Forecast of a changed exchanger with the same fire: as much gas, as hot.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BuildForecast {
    /// Id of the stove, where the register names it.
    pub stove: Option<String>,
    /// Id of the exchanger that is changed.
    pub exchanger: String,
    /// The change, as ratios to the exchanger that was measured; a ratio of the tube's area is that of its length.
    pub ratio: BuildRatio,
    /// Length of the tube, m, where that of the exchanger is stated.
    pub length_m: Option<f64>,
    /// Number of passes, where that of the exchanger is stated.
    pub passes: Option<f64>,
    /// Water flow, kg/s, where it is known.
    pub flow_kg_s: Option<f64>,
    /// Burns it rests on.
    pub burns: usize,
    /// Flow arrangement the relation is taken of.
    pub arrangement: Arrangement,
    /// Effectiveness.
    pub effectiveness: BuildOutcome,
    /// Heat into the water, W.
    pub power: BuildOutcome,
    /// The same over that of the exchanger as it is; absent for that one.
    pub gain: Option<BuildOutcome>,
    /// Gas after the exchanger, degC.
    pub gas_out: BuildOutcome,
    /// Water out of the exchanger, degC; absent where its flow is not known.
    pub water_out: Option<BuildOutcome>,
    /// Whether the data reach so far.
    pub reach: Reach,
    /// Where the scatter between burns is from.
    pub scatter: BurnScatter,
    /// Cautions.
    pub cautions: Vec<BuildCaution>,
}

/// Whether the data reach as far as a build.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum Reach {
    /// The tube is as long as that of the exchanger that was measured.
    Unchanged,
    /// Between builds that were measured.
    Between,
    /// Beyond them: the tube's area is so many times the greatest, or so many times smaller than the least.
    Beyond {
        /// How many times, above 1.
        times: f64,
    },
    /// Only one size was measured, or the sizes are not stated: how length works is assumed, not from these data.
    Untested,
}

/// Where the scatter between burns is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub enum BurnScatter {
    /// The burns themselves.
    Own,
    /// One burn alone: the scatter of the other combinations stands for its own.
    Borrowed,
    /// One burn alone, and no other combination has two.
    Unknown,
}

/// A danger of a build that the forecast shows. Limits and their sources are in [`calefact_physics::caution`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub enum BuildCaution {
    /// The gas would leave cold enough for tar to condense.
    Creosote {
        /// Mean temperature of the gas after the exchanger.
        gas_degc: f64,
        /// Lower end of the interval for one burn.
        lowest_degc: f64,
    },
    /// The water would leave near boiling.
    NearBoiling {
        /// Water out, with the hottest water in.
        water_degc: f64,
        /// The hottest water in.
        inlet_degc: f64,
        /// Boiling point of the site.
        boiling_degc: f64,
        /// Water flow from which it stays clear of boiling, kg/s, where there is one.
        least_flow_kg_s: Option<f64>,
    },
    /// The water would flow so slowly that it is laminar in the tube, and takes heat up less well than assumed.
    SlowFlow {
        /// Water flow, kg/s.
        flow_kg_s: f64,
        /// Flow from which it is turbulent, kg/s.
        least_flow_kg_s: f64,
    },
}

/// Heat and gas temperature of one stove by the length of the tube.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BuildCurve {
    /// Id of the stove, where the register names it.
    pub stove: Option<String>,
    /// Id of the exchanger whose tube is made longer and shorter.
    pub exchanger: String,
    /// Points in the order of length.
    pub points: Vec<BuildPoint>,
    /// Builds as they were measured on this stove.
    pub builds: Vec<MarkedBuild>,
}

/// One length of a curve.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BuildPoint {
    /// Length of the tube, m.
    pub length_m: f64,
    /// Heat into the water, W.
    pub power: Estimate,
    /// Gas after the exchanger, degC.
    pub gas_out: Estimate,
}

/// A build as it was measured.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkedBuild {
    /// Id of the exchanger.
    pub exchanger: String,
    /// Its numbers, at the length of the curve's tube that has the same outside area.
    pub point: BuildPoint,
}

/// Why there is no forecast of a build.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum BuildRefusal {
    /// The datasets describe no exchanger.
    NoExchangers,
    /// The exchanger is not among them.
    UnknownExchanger {
        /// As asked.
        id: String,
        /// Ids there are.
        known: Vec<String>,
    },
    /// The stove is not among those burnt with the exchanger.
    NoBurnsOnStove {
        /// As asked.
        stove: String,
        /// The exchanger.
        exchanger: String,
        /// Stoves that were.
        known: Vec<String>,
    },
    /// No usable burn gives its conductance.
    NotMeasured {
        /// The exchanger.
        exchanger: String,
    },
    /// A dimension was asked for in absolute terms, and the dataset does not state that of the exchanger.
    NotStated {
        /// The exchanger.
        exchanger: String,
        /// Key of the build.
        key: &'static str,
    },
    /// A dimension or flow that is not above zero.
    NotPositive {
        /// What.
        key: &'static str,
        /// As asked, SI.
        value: f64,
    },
    /// The water flow of the exchanger is not known.
    FlowUnknown {
        /// The exchanger.
        exchanger: String,
    },
    /// Too far from anything that was measured.
    TooFar {
        /// What.
        key: &'static str,
        /// How many times more or less than the measured ones, above 1.
        times: f64,
        /// How many times are allowed.
        most: f64,
    },
}
