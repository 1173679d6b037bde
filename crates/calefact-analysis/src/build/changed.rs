//! One burn with another exchanger: conductance from the burn, scaled to the build, on the same streams.

use super::law::{middle, spread};
use crate::result::{BuildModel, OperatingBurn, OperatingPart as Part};
use calefact_physics::exchanger::{
    AREA_EXPONENT, BuildRatio, ConductanceLaw, Duty, PASSES_EXPONENT, Streams, WATER_SHARE, conductance, duty,
};

/// Inputs of the law: exponent of the area, what is added to it beyond the builds that were measured, exponent of the passes,
/// share of the water side.
const LAW: usize = 4;
/// Inputs: the numbers of the burn, then those of the law.
const INPUTS: usize = Part::COUNT + LAW;
/// Outputs: effectiveness, heat into the water, gas out, water out, heat over that of the burn.
pub(super) const OUTPUTS: usize = 5;

/// Names of the law's sources of error, in the order of its inputs.
pub(super) const LAW_SOURCES: [&str; LAW] = ["law:area", "law:beyond", "law:passes", "law:water-side"];

/// A build to be forecast.
#[derive(Debug, Clone, Copy)]
pub(super) struct Target {
    /// Ratios to the exchanger that was measured.
    pub(super) ratio: BuildRatio,
    /// Logarithm of how far the area lies beyond the builds that were measured: above 0 beyond the greatest, below 0 short of
    /// the least.
    pub(super) beyond: f64,
    /// Water in, degC, where it is to be another than in the burn.
    pub(super) water_in: Option<f64>,
}

/// The law's inputs and their standard uncertainties.
#[derive(Debug, Clone, Copy)]
pub(super) struct Law {
    /// Values.
    pub(super) values: [f64; LAW],
    /// Standard uncertainties.
    pub(super) uncertainties: [f64; LAW],
}

impl Law {
    pub(super) fn new(model: &BuildModel) -> Self {
        let (area, u_area) = model.area.value();
        Self {
            values: [area, 0.0, middle(PASSES_EXPONENT), middle(WATER_SHARE)],
            uncertainties: [u_area, spread(AREA_EXPONENT), spread(PASSES_EXPONENT), spread(WATER_SHARE)],
        }
    }
}

/// Outputs of a burn with the change of each output by one unit of each input.
#[derive(Debug, Clone, Copy)]
pub(super) struct Changed {
    /// Outputs.
    pub(super) outputs: [f64; OUTPUTS],
    /// By input, then output: the burn's numbers.
    pub(super) slopes: [[f64; OUTPUTS]; Part::COUNT],
    /// By input, then output: parts of the law's errors.
    pub(super) law_parts: [[f64; OUTPUTS]; LAW],
}

/// Heat capacity rate of the water, W/K; infinite where its rise is not known.
pub(super) fn water_rate(burn: &[f64]) -> f64 {
    let rise = burn[Part::WaterRise as usize];
    if rise > 0.0 { burn[Part::Power as usize] / rise } else { f64::INFINITY }
}

/// The changed exchanger for one set of inputs; `None` where no exchanger could have done what the inputs say.
fn changed(burn: &OperatingBurn, x: &[f64; INPUTS], target: &Target) -> Option<Duty> {
    let [power, gas_in, gas_out, water_in, rise] = *x.first_chunk()?;
    let fall = gas_in - gas_out;
    let ua = conductance(power, (fall, rise.max(0.0)), gas_in - water_in, burn.arrangement).ok()?;
    let [area, beyond, passes, water_share] = *x.last_chunk()?;
    let law = ConductanceLaw { area, passes, water_share };
    let further = libm::exp(beyond * target.beyond);
    let streams = Streams {
        gas_rate: power / fall,
        water_rate: water_rate(x) * target.ratio.water_flow,
        gas_in,
        water_in: target.water_in.unwrap_or(water_in),
    };
    duty(ua * further * law.ratio(&target.ratio), &streams, burn.arrangement).ok()
}

fn outputs(burn: &OperatingBurn, x: &[f64; INPUTS], target: &Target) -> Option<[f64; OUTPUTS]> {
    let power = x[Part::Power as usize];
    changed(burn, x, target).map(|d| [d.effectiveness, d.power, d.gas_out, d.water_out, d.power / power])
}

/// The result of a burn with the changed exchanger, and how it moves with each input: half the change from one standard uncertainty below to one
/// above (JCGM 100:2008, 5.1.3 note 2), or one side where the other is not possible.
pub(super) fn forecast(burn: &OperatingBurn, law: &Law, target: &Target) -> Option<Changed> {
    let mut x = [0.0; INPUTS];
    x[..Part::COUNT].copy_from_slice(&burn.values);
    x[Part::COUNT..].copy_from_slice(&law.values);
    let centre = outputs(burn, &x, target)?;
    let part = |k: usize, u: f64| {
        let at = |moved: f64| {
            let mut x = x;
            x[k] += moved;
            outputs(burn, &x, target)
        };
        let (up, down) = (at(u), at(-u));
        std::array::from_fn(|q| match (&up, &down) {
            (Some(up), Some(down)) => 0.5 * (up[q] - down[q]),
            (Some(up), None) => up[q] - centre[q],
            (None, Some(down)) => centre[q] - down[q],
            (None, None) => f64::NAN,
        })
    };
    let u = burn.std_uncertainties();
    let slope = |k: usize| if u[k] > 0.0 { part(k, u[k]).map(|p: f64| p / u[k]) } else { [0.0; OUTPUTS] };
    Some(Changed {
        outputs: centre,
        slopes: std::array::from_fn(slope),
        law_parts: std::array::from_fn(|k| part(Part::COUNT + k, law.uncertainties[k])),
    })
}

/// Water out for the target, degC, without its error.
pub(super) fn water_out(burn: &OperatingBurn, law: &Law, target: &Target) -> Option<f64> {
    let mut x = [0.0; INPUTS];
    x[..Part::COUNT].copy_from_slice(&burn.values);
    x[Part::COUNT..].copy_from_slice(&law.values);
    outputs(burn, &x, target).map(|o| o[3])
}
