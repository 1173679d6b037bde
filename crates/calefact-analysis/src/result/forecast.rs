//! Forecasts of jobs not done yet: wood, time and cost by stove, fuel and exchanger, with the draws they come from.
//!
//! A forecast is one function of a few numbers ([`crate::forecast::outcome`]); its intervals are quantiles of that function
//! over the draws kept here, so that a page can repeat it for any other job.

use crate::fact::AssumedInput;
use crate::settings::Job;
use calefact_stats::Interval;
use serde::Serialize;
use std::sync::Arc;

/// All that is forecast, and what it rests on.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct Forecasts {
    /// Combinations of stove, fuel and exchanger that have burns, in the order of first appearance.
    pub combinations: Vec<Combination>,
    /// Changes beyond the data, for jobs larger, smaller or hotter than any burn; one entry a draw.
    pub stretch: Vec<Stretch>,
    /// Jobs in the order of the pipeline.
    pub jobs: Vec<JobForecast>,
    /// Parts that only a reader's own job needs.
    pub own: OwnJob,
}

/// Parts from which a page answers a job that no pipeline names.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct OwnJob {
    /// Boiling point of the site, degC.
    pub boiling: f64,
    /// Its altitude, m, where it is stated.
    pub altitude_m: Option<f64>,
    /// The vessel that each combination usually heats, and its volume, m3.
    pub usual: Vec<(VesselDraws, Option<f64>)>,
    /// Assumed vessel that holds 1 m3, for water that does not fit into the usual one.
    pub of_its_size: VesselDraws,
}

/// How a combination burns, in as few numbers as a forecast needs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Draw {
    /// Heat flow into the vessel while the fire is steady, W.
    pub power: f64,
    /// Time that light-up, burn-down and after-heat add to the steady fire, s.
    pub fixed_s: f64,
    /// Wood burnt while the fire is steady, so that the whole burn is counted, kg/s; NaN where it is not known.
    pub burn_rate: f64,
    /// Moisture of the wood, wet basis; NaN where it is not known.
    pub moisture: f64,
}

/// Change beyond the data, which no burn shows: of heat flow, burn rate and hot water. All ends are stated in [`crate::forecast`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Stretch {
    /// Heat flow, from -1 to 1 of its limit.
    pub power: f64,
    /// Burn rate, from -1 to 1 of its limit.
    pub burn_rate: f64,
    /// Loss of heat flow to hotter water, from 0 to 1 of its limit.
    pub hot: f64,
}

/// Stove, fuel and exchanger with the law of their burns.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Combination {
    /// Stove, where named.
    pub stove: Option<String>,
    /// Fuel, where named.
    pub fuel: Option<String>,
    /// Exchanger, where named.
    pub exchanger: Option<String>,
    /// Its burns.
    pub trials: Arc<[Arc<str>]>,
    /// Best estimate.
    pub centre: Draw,
    /// Draws of the mean of many burns.
    pub mean: Vec<Draw>,
    /// Draws of one next burn; empty where no scatter between burns is known.
    pub next: Vec<Draw>,
    /// Origin of the scatter between its burns.
    pub scatter: ScatterOrigin,
    /// Extent of its burns.
    pub extent: Extent,
    /// Mean kindling of a burn, kg; NaN where it is not known.
    pub kindling_kg: f64,
    /// Net calorific value of the dry fuel, J/kg; NaN where it is not known.
    pub net_dry: f64,
    /// Price of the fuel, currency per kg; NaN where none is stated.
    pub price: f64,
    /// Vessel that most of its burns heated.
    pub vessel: String,
    /// Inputs that nobody recorded and its numbers rest on.
    pub assumed: Vec<AssumedInput>,
}

/// Where the scatter between the burns of a combination is taken from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum ScatterOrigin {
    /// From its own burns.
    Own,
    /// From all combinations with two burns or more, since its own are too few.
    Pooled,
    /// No combination has two burns.
    Unknown,
}

/// Least and greatest values that burns reached.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Extent {
    /// Water, m3.
    pub water_m3: (f64, f64),
    /// Heat stored in water and vessel, J.
    pub stored: (f64, f64),
    /// Highest tank temperature at the end of a burn, degC.
    pub hottest: f64,
    /// Longest burn, s.
    pub longest_s: f64,
    /// Largest load of wood put on at once, kg; NaN where no wood was weighed.
    pub load_kg: f64,
}

/// A job with its vessel and the answer for each combination.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JobForecast {
    /// The job.
    pub job: Job,
    /// Its vessel; by combination, since each has a vessel that it usually heats.
    pub vessels: Vec<VesselDraws>,
    /// An answer a combination, in their order; where the job itself cannot be, the reason alone.
    pub answers: Result<Vec<Result<Forecast, Refusal>>, Refusal>,
}

/// The vessel of a job with what is not known of it.
#[derive(Debug, Clone, Default, PartialEq, Serialize)]
pub struct VesselDraws {
    /// Which vessel.
    pub origin: VesselOrigin,
    /// Best estimate.
    pub centre: VesselDraw,
    /// One entry a draw.
    pub draws: Arc<[VesselDraw]>,
    /// Its inputs that nobody stated.
    pub assumed: Vec<AssumedInput>,
}

/// A vessel as a forecast needs it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize)]
pub struct VesselDraw {
    /// Heat capacity of the empty vessel, J/K.
    pub capacity: f64,
    /// Loss coefficient, W/K.
    pub loss: f64,
}

/// Which vessel a job is done in.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum VesselOrigin {
    /// One of the data.
    Known(String),
    /// The one that the job describes.
    #[default]
    Described,
    /// One of the size of the job's water, since the usual one is smaller.
    OfItsSize,
}

/// Forecast of a job with one combination.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Forecast {
    /// Time from lighting until the heat is in the water, s.
    pub time: Spread,
    /// Wood burnt, kindling included and wood taken back not, kg; none where the wood of the burns is not known.
    pub wood: Option<Spread>,
    /// Its cost, in the currency of the fuel; none without a price.
    pub cost: Option<Spread>,
    /// Times that wood is put on after the first load, least and most; none where no load was weighed.
    pub refuels: Option<(u32, u32)>,
    /// Share of burns that are done within the deadline.
    pub in_time: Option<f64>,
    /// Temperature after standing, degC.
    pub after_standing: Option<Spread>,
    /// Tank temperature over time.
    pub curve: Vec<CurvePoint>,
    /// In what the job lies beyond the burns.
    pub outside: Vec<Outside>,
    /// Inputs that nobody recorded or stated and the answer rests on.
    pub assumed: Vec<AssumedInput>,
}

/// A value with its interval as the mean of many burns and for the next one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spread {
    /// Best estimate.
    pub value: f64,
    /// Interval of the mean.
    pub mean: Interval,
    /// Interval of one next burn; none where the scatter between burns is not known.
    pub next: Option<Interval>,
}

/// A point of the temperature curve.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct CurvePoint {
    /// Time from lighting, s.
    pub elapsed_s: f64,
    /// Tank, degC.
    pub tank: f64,
    /// Interval for one next burn, or of the mean where that is not known.
    pub interval: Interval,
}

/// In what a job lies beyond the burns of a combination.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outside {
    /// More water than any burn heated, m3.
    MoreWater {
        /// Of the job.
        job: f64,
        /// Most of a burn.
        most: f64,
    },
    /// Less water than any burn heated, m3.
    LessWater {
        /// Of the job.
        job: f64,
        /// Least of a burn.
        least: f64,
    },
    /// Hotter than any burn ended, degC.
    Hotter {
        /// Of the job.
        job: f64,
        /// Hottest end of a burn.
        hottest: f64,
    },
    /// Longer than any burn lasted, s.
    Longer {
        /// Of the job, about.
        job: f64,
        /// Longest burn.
        longest: f64,
    },
}

/// Why a job cannot be answered, or not with this combination.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Refusal {
    /// No burn has all that a forecast needs.
    NoBurns,
    /// No burn of the stove, fuel or exchanger asked for.
    NoSuchBurns {
        /// Register column.
        column: &'static str,
        /// Level asked for.
        level: String,
        /// Levels that have burns.
        known: Vec<String>,
    },
    /// No water.
    NoWater,
    /// The end is not above the start, degC.
    NotWarmer {
        /// Start.
        from: f64,
        /// End.
        to: f64,
    },
    /// Water below freezing, degC.
    Frozen {
        /// Start.
        from: f64,
    },
    /// The end is at or above the boiling point of the place, degC.
    Boils {
        /// End.
        to: f64,
        /// Boiling point.
        boiling: f64,
        /// Altitude of the site, m, where it is stated.
        altitude_m: Option<f64>,
    },
    /// A vessel that no dataset describes.
    UnknownVessel {
        /// Its id.
        vessel: String,
        /// Ids that are described.
        known: Vec<String>,
    },
    /// The water does not fit into the vessel, m3.
    DoesNotFit {
        /// Water of the job.
        water: f64,
        /// Volume of the vessel.
        volume: f64,
    },
    /// The fire cannot bring the water there.
    CannotHold {
        /// Temperature that it can hold at most, degC.
        highest: f64,
    },
}
