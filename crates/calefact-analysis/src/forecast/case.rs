//! A job as the law of a combination sees it: what it asks for, and how far beyond the burns it lies.

use crate::reference_job::{Task, Vessel};
use crate::result::{Combination, Extent, Outside, VesselDraw};
use crate::settings::ReferenceJob;

/// Share by which a job may exceed the burns and still be inside.
const WATER_ROOM: f64 = 0.02;
const TIME_ROOM: f64 = 0.05;
/// The same of the temperature, K.
const HEAT_ROOM: f64 = 0.5;

/// How far a job lies beyond the burns of a combination.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Beyond {
    /// 1 - 1/r, where r is how many times the heat of the job is that of the largest burn, or that of the smallest burn the
    /// heat of the job; zero between.
    pub heat: f64,
    /// Target above the hottest end of a burn, K.
    pub hot_k: f64,
}

impl Beyond {
    /// Of a job that stores so much heat (J) and ends so hot (degC).
    pub fn new(stored: f64, to: f64, extent: &Extent) -> Self {
        let (least, most) = extent.stored;
        let ratio = (stored / most).max(least / stored).max(1.0);
        Self { heat: 1.0 - 1.0 / ratio, hot_k: (to - extent.hottest).max(0.0) }
    }
}

/// A job with what does not differ between the draws of a combination.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Case {
    /// Water, temperatures and moisture.
    pub task: ReferenceJob,
    /// Net calorific value of the dry fuel, J/kg.
    pub net_dry: f64,
    /// How far it lies beyond the burns.
    pub beyond: Beyond,
}

impl Case {
    /// A job with a combination, in a vessel at its best estimate.
    pub(super) fn new(task: &ReferenceJob, combination: &Combination, vessel: &VesselDraw) -> Self {
        let vessel = Vessel { capacity: vessel.capacity, loss: vessel.loss };
        let stored = Task::new(task, vessel).stored;
        let beyond = Beyond::new(stored, task.to, &combination.extent);
        Self { task: *task, net_dry: combination.net_dry, beyond }
    }
}

/// In what a job that takes so long (s) lies beyond the burns.
pub(super) fn outside(task: &ReferenceJob, time_s: f64, extent: &Extent) -> Vec<Outside> {
    let (least, most) = extent.water_m3;
    let (job, hottest, longest) = (task.water_m3, extent.hottest, extent.longest_s);
    let all = [
        (job > most * (1.0 + WATER_ROOM), Outside::MoreWater { job, most }),
        (job < least * (1.0 - WATER_ROOM), Outside::LessWater { job, least }),
        (task.to > hottest + HEAT_ROOM, Outside::Hotter { job: task.to, hottest }),
        (time_s > longest * (1.0 + TIME_ROOM), Outside::Longer { job: time_s, longest }),
    ];
    all.into_iter().filter(|(is_outside, _)| *is_outside).map(|(_, outside)| outside).collect()
}
