//! An exchanger at work in the steady part of a burn, as five measured numbers with their errors.

use crate::shared::SharedValue;
use calefact_data::apparatus::Arrangement;
use calefact_stats::{Estimate, UncertainValue};
use serde::Serialize;

/// One of the numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[repr(usize)]
pub enum OperatingPart {
    /// Heat into the water, W.
    Power,
    /// Gas before the exchanger, degC.
    GasIn,
    /// Gas after it, degC.
    GasOut,
    /// Water into it, degC.
    WaterIn,
    /// Rise of the water in it, K; missing where neither outlet nor flow is known.
    WaterRise,
}

impl OperatingPart {
    /// Number of parts.
    pub(crate) const COUNT: usize = 5;
    /// All of them, in order.
    pub(crate) const ALL: [Self; Self::COUNT] =
        [Self::Power, Self::GasIn, Self::GasOut, Self::WaterIn, Self::WaterRise];

    /// Unit.
    pub(crate) const fn unit(self) -> &'static str {
        match self {
            Self::Power => "W",
            Self::WaterRise => "K",
            _ => "degC",
        }
    }
}

/// One of the numbers of a trial.
#[derive(Debug, Clone, PartialEq)]
pub struct OperatingValue {
    /// Which.
    pub part: OperatingPart,
    /// Value with its interval.
    pub estimate: Estimate,
    /// The same with its parts by source.
    pub traced: UncertainValue,
}

/// The numbers of a burn, in the order of `OperatingPart::ALL`.
#[derive(Debug, Clone, PartialEq)]
pub struct OperatingBurn {
    /// Flow arrangement of the exchanger.
    pub(crate) arrangement: Arrangement,
    /// Values; no rise stands for a water flow that is very large against the gas.
    pub(crate) values: [f64; OperatingPart::COUNT],
    /// Standard uncertainties that are the burn's alone.
    pub(crate) own: [f64; OperatingPart::COUNT],
    /// Their degrees of freedom.
    pub(crate) own_dof: [f64; OperatingPart::COUNT],
    /// Parts by the number of a source of error that burns share.
    pub(crate) shared: Vec<(u32, [f64; OperatingPart::COUNT])>,
}

impl OperatingBurn {
    /// From the values of a burn; `None` if one but the rise is missing.
    pub(crate) fn new<'v>(
        arrangement: Arrangement,
        value: impl Fn(OperatingPart) -> Option<SharedValue<'v>>,
    ) -> Option<Self> {
        let zeros = [0.0; OperatingPart::COUNT];
        let mut burn = Self { arrangement, values: zeros, own: zeros, own_dof: zeros, shared: Vec::new() };
        for (place, part) in OperatingPart::ALL.into_iter().enumerate() {
            match value(part) {
                Some(known) => burn.set(place, known),
                None if part == OperatingPart::WaterRise => burn.own_dof[place] = f64::INFINITY,
                None => return None,
            }
        }
        Some(burn)
    }

    fn set(&mut self, place: usize, known: SharedValue<'_>) {
        (self.values[place], self.own[place], self.own_dof[place]) = (known.value, known.own, known.own_dof);
        for (source, part) in known.sources.iter().zip(known.parts) {
            let at = self.shared.iter().position(|(s, _)| s == source).unwrap_or_else(|| {
                self.shared.push((*source, [0.0; OperatingPart::COUNT]));
                self.shared.len() - 1
            });
            self.shared[at].1[place] = *part;
        }
    }

    /// Standard uncertainty of each value.
    pub(crate) fn std_uncertainties(&self) -> [f64; OperatingPart::COUNT] {
        std::array::from_fn(|k| {
            let shared: f64 = self.shared.iter().map(|(_, parts)| parts[k] * parts[k]).sum();
            (self.own[k] * self.own[k] + shared).sqrt()
        })
    }
}
