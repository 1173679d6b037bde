//! Jobs: so much water, so hot; those that trials are normalised to, and those to be forecast. How
//! a pipeline file spells them is the command's business.

use calefact_data::apparatus::Vessel;
use serde::Serialize;

/// A job that trials are normalised to.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ReferenceJob {
    /// Water at the start temperature, m3.
    pub water_m3: f64,
    /// Start temperature, degC.
    pub from: f64,
    /// End temperature, degC.
    pub to: f64,
    /// Air temperature, degC.
    pub ambient: f64,
    /// Moisture content of the fuel, wet basis, mass fraction; each trial's own where none is stated.
    pub fuel_moisture: Option<f64>,
}

/// A job not done yet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Job {
    /// Name for readers.
    pub name: String,
    /// Water, temperatures and fuel.
    pub task: ReferenceJob,
    /// Time the hot water then stands, s.
    pub standing_s: Option<f64>,
    /// How often a day it is done.
    pub repeats: Option<f64>,
    /// Time within which it must be done, s.
    pub deadline_s: Option<f64>,
    /// Vessel it is done in.
    pub vessel: JobVessel,
}

impl Job {
    /// A job with nothing but its task.
    pub fn new(name: impl Into<String>, task: ReferenceJob) -> Self {
        Self { name: name.into(), task, standing_s: None, repeats: None, deadline_s: None, vessel: JobVessel::Usual }
    }
}

/// The vessel of a job.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum JobVessel {
    /// The one that most burns heat, where the water fits in; else one of the water's size.
    Usual,
    /// One of the data, by id.
    Named(String),
    /// One that the job describes.
    Described(Box<DescribedVessel>),
}

/// A vessel that no burn need have heated.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DescribedVessel {
    /// Volume, heat capacity, loss coefficient, material and top, each where stated.
    pub vessel: Vessel,
    /// Wall, where it is stated in place of a loss coefficient.
    pub wall: Wall,
}

/// Paths of heat through the wall of a vessel, each where stated.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize)]
pub struct Wall {
    /// Thickness of the insulation, m.
    pub insulation_m: Option<f64>,
    /// Its thermal conductivity, W/(m K).
    pub conductivity: Option<f64>,
    /// Heat transfer coefficient from water to air, W/(m2 K).
    pub transfer: Option<f64>,
    /// Outer area, m2; that of a closed cylinder where none is stated.
    pub area_m2: Option<f64>,
}
