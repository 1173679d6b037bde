//! The vessel of a job: one of the data, or one that the job describes; what nobody stated of it is a range.

use super::draws::{SourceDraws, rounded, units_of};
use crate::assumed::{self, held, vessel as ranges};
use crate::fact::{AssumedInput, ErrorSource};
use crate::result::{Combination, LawParameter, Refusal, TrialSummary, VesselDraw, VesselDraws, VesselOrigin};
use crate::settings::{DescribedVessel, Job, JobVessel, Wall};
use crate::shared::SharedSources;
use calefact_data::Apparatus;
use calefact_data::apparatus::{Stated, Top, Vessel};
use calefact_stats::{Shape, UncertainValue};

/// Share by which water may exceed the volume of a vessel: volumes are nominal.
const ROOM: f64 = 0.05;
/// Heat transfer from an insulated wall to still air, W/(m2 K). Common practice, no source.
const OUTSIDE: f64 = 10.0;
/// Relative standard uncertainty of a loss reckoned from insulation or from U and area: fittings, lid, thickness. Common
/// practice, no source.
const RECKONED: f64 = 0.15;

/// The vessels that jobs are done in.
pub(super) struct Vessels<'a, 'b> {
    apparatus: &'a Apparatus,
    shared: &'a SharedSources,
    trials: &'a [TrialSummary],
    sources: SourceDraws<'b>,
}

impl<'a, 'b> Vessels<'a, 'b> {
    /// Those of the apparatus, as the trials heated them.
    pub(super) const fn new(
        apparatus: &'a Apparatus,
        shared: &'a SharedSources,
        trials: &'a [TrialSummary],
        sources: SourceDraws<'b>,
    ) -> Self {
        Self { apparatus, shared, trials, sources }
    }

    /// The vessel of a job that a combination does.
    pub(super) fn of_job(&mut self, job: &Job, combination: &Combination) -> Result<VesselDraws, Refusal> {
        let water = job.task.water_m3;
        match &job.vessel {
            JobVessel::Usual => {
                let id = &combination.vessel;
                if self.volume(id).is_some_and(|volume| water > volume * (1.0 + ROOM)) {
                    let own = DescribedVessel { vessel: Vessel::default(), wall: Wall::default() };
                    return Ok(self.described(&job.name, &own, water, VesselOrigin::OfItsSize));
                }
                Ok(self.known(id, water))
            }
            JobVessel::Named(id) => {
                let stated = self.apparatus.vessels.get(id).and_then(|v| v.volume).map(|v| v.value);
                fits(water, stated)?;
                Ok(self.known(id, water))
            }
            JobVessel::Described(own) => {
                fits(water, own.vessel.volume.map(|v| v.value))?;
                Ok(self.described(&job.name, own, water, VesselOrigin::Described))
            }
        }
    }

    /// The vessel that a combination usually heats, and its volume, m3.
    pub(super) fn usual(&mut self, combination: &Combination) -> (VesselDraws, Option<f64>) {
        (self.known(&combination.vessel, 0.0), self.volume(&combination.vessel))
    }

    /// Assumed vessel that holds 1 m3, for a job of this name. Of another size, its heat capacity goes with the volume
    /// and its loss with the surface, the volume to the power of 2/3.
    pub(super) fn of_a_cubic_metre(&mut self, name: &str) -> VesselDraws {
        let own = DescribedVessel { vessel: Vessel::default(), wall: Wall::default() };
        self.described(name, &own, 1.0, VesselOrigin::OfItsSize)
    }

    /// Volume of a vessel of the data, m3: the stated one, else the most water that a burn had in it.
    fn volume(&self, id: &str) -> Option<f64> {
        let stated = self.apparatus.vessels.get(id).and_then(|v| v.volume).map(|v| v.value);
        let heated = self.trials.iter().filter(|t| t.level("vessel") == Some(id));
        stated.or_else(|| heated.filter_map(|t| Some(t.extent.as_deref()?.water_m3)).reduce(f64::max))
    }

    /// A vessel of the data with the numbers that its burns were reduced with; one without burns as its entry has it.
    fn known(&mut self, id: &str, water: f64) -> VesselDraws {
        let origin = VesselOrigin::Known(id.to_owned());
        let heated = self.trials.iter().find(|t| t.extent.is_some() && t.level("vessel") == Some(id));
        let traced = |p| Some(self.shared.traced(&heated?.trial, heated?.law(p)?));
        if let (Some(capacity), Some(loss)) = (traced(LawParameter::VesselCapacity), traced(LawParameter::VesselLoss)) {
            return self.drawn(origin, &capacity, &loss);
        }
        let entry = self.apparatus.vessels.get(id).cloned().unwrap_or_default();
        self.described(id, &DescribedVessel { vessel: entry, wall: Wall::default() }, water, origin)
    }

    fn described(&mut self, name: &str, own: &DescribedVessel, water: f64, origin: VesselOrigin) -> VesselDraws {
        let volume = own.vessel.volume.map_or(water, |v| v.value.max(water));
        let source = |input| ErrorSource::Assumed { input, owner: name.to_owned() }.key();
        let range = |input, limits| {
            UncertainValue::new(assumed::middle(limits), source(input), assumed::std_uncertainty(limits))
        };
        let capacity = own.vessel.heat_capacity.map_or_else(
            || range(AssumedInput::VesselHeatCapacity, ranges::heat_capacity(Some(&own.vessel), volume)),
            |stated| known_value(stated, &format!("job:{name}:capacity")),
        );
        let loss = own.vessel.loss_coefficient.map(|stated| known_value(stated, &format!("job:{name}:loss")));
        let loss = loss.or_else(|| own.wall.loss(&own.vessel, volume, name)).unwrap_or_else(|| {
            range(AssumedInput::LossCoefficient, ranges::loss_coefficient(Some(&own.vessel), volume))
        });
        self.drawn(origin, &capacity, &loss)
    }

    fn drawn(&mut self, origin: VesselOrigin, capacity: &UncertainValue, loss: &UncertainValue) -> VesselDraws {
        let inputs = |v: &UncertainValue| held::inputs(&v.parts, v.std_uncertainty());
        let assumed = [inputs(capacity), inputs(loss)].concat();
        let draw = |(capacity, loss): (f64, f64)| VesselDraw {
            capacity: rounded(capacity.max(0.0)),
            loss: rounded(loss.max(0.0)),
        };
        let pairs = self.sample(capacity).into_iter().zip(self.sample(loss));
        let draws = pairs.map(draw).collect();
        VesselDraws { origin, centre: draw((capacity.value, loss.value)), draws, assumed }
    }

    /// Draws of a value. Ranges of vessels that no burn heated are not in the book of sources; their names say what they are.
    fn sample(&mut self, value: &UncertainValue) -> Vec<f64> {
        let mut out = vec![value.value; super::draws::DRAWS];
        for (source, part) in &value.parts {
            let is_range = source.starts_with("assumed:") && !self.shared.book().contains_key(source);
            let range;
            let units = if is_range {
                range = units_of(source, Shape::Rectangular, f64::INFINITY);
                &range
            } else {
                self.sources.units(source)
            };
            out.iter_mut().zip(units).for_each(|(x, unit)| *x += part * unit);
        }
        out
    }
}

impl Wall {
    /// Loss coefficient of a wall whose insulation or heat transfer is stated, W/K: U A, with 1/U = 1/h + d/k through the
    /// insulation; an open top loses besides what stands for it in the table of ranges.
    fn loss(&self, vessel: &Vessel, volume: f64, name: &str) -> Option<UncertainValue> {
        let insulated = self.insulation_m.map(|d| 1.0 / (1.0 / OUTSIDE + d / self.conductivity.unwrap_or(INSULATION)));
        let transfer = self.transfer.or(insulated)?;
        let area = self.area_m2.unwrap_or_else(|| assumed::middle(ranges::surface(volume)));
        let loss = transfer * area;
        let wall = UncertainValue::new(loss, format!("job:{name}:wall"), RECKONED * loss);
        if vessel.top != Some(Top::Open) {
            return Some(wall);
        }
        let (low, high) = ranges::open_top(volume);
        let source = ErrorSource::Assumed { input: AssumedInput::LossCoefficient, owner: name.to_owned() }.key();
        let wall = UncertainValue { value: wall.value + assumed::middle((low, high)), ..wall };
        Some(wall.with(source, assumed::std_uncertainty((low, high))))
    }
}

/// Thermal conductivity of insulation that is stated without one, W/(m K): mineral wool and foams. Common practice, no source.
const INSULATION: f64 = 0.04;

fn known_value(stated: Stated, source: &str) -> UncertainValue {
    let value = UncertainValue::exact(stated.value);
    stated.std_uncertainty.map_or_else(|| value.clone(), |u| value.clone().with(source, u))
}

fn fits(water: f64, volume: Option<f64>) -> Result<(), Refusal> {
    match volume {
        Some(volume) if water > volume * (1.0 + ROOM) => Err(Refusal::DoesNotFit { water, volume }),
        _ => Ok(()),
    }
}
