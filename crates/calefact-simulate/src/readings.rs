//! The log of a trial as instruments without error would show it.

use super::forward::Forward;
use super::water;
use calefact_data::readings::Remark;
use calefact_data::{Channel, Readings};

/// Share of the way from the air to the hot gas at which the casing stands.
const CASING: f64 = 0.07;

impl Forward<'_> {
    /// Exact readings of the channels the plan asks for.
    pub(crate) fn readings(&self) -> Readings {
        let rows = self.plan.logging.rows;
        let step = self.course.step_s * self.course.per_row as f64;
        let elapsed_s: Vec<f64> = (0..rows).map(|i| i as f64 * step).collect();
        let wanted = self.plan.logging.channels.iter();
        let channels = wanted.filter_map(|&c| Some((c, self.column(c, &elapsed_s)?))).collect();
        let flags = vec![0; rows];
        Readings { elapsed_s, channels, flags, events: self.events(step, rows), ..Readings::default() }
    }

    fn column(&self, channel: Channel, times: &[f64]) -> Option<Vec<f64>> {
        let every = |series: &[f64]| series.iter().step_by(self.course.per_row).copied().collect::<Vec<_>>();
        Some(match channel {
            Channel::Tank | Channel::CoilIn => every(&self.course.tank),
            Channel::Ambient => times.iter().map(|&t| self.plan.air.at(t)).collect(),
            Channel::Power => vec![self.plan.heater_power; times.len()],
            Channel::Flow => vec![self.burn.as_ref()?.exchanger.coil_flow; times.len()],
            Channel::CoilOut => self.coil_out(self.burn.as_ref()?.exchanger.coil_flow, times),
            Channel::FuelAdded => self.fuel_added(times)?,
            Channel::FlueBefore => every(&self.flue.as_ref()?.before),
            Channel::FlueAfter => every(&self.flue.as_ref()?.after),
            Channel::FlueO2 => every(&self.flue.as_ref()?.oxygen),
            Channel::Casing => self.casing(&every(&self.flue.as_ref()?.before), times),
            Channel::FlueCo2 | Channel::FlueCo => return None,
        })
    }

    /// Water out of the coil: what comes in, plus the heat flow over the water flow.
    fn coil_out(&self, flow: f64, times: &[f64]) -> Vec<f64> {
        let out = |(i, &time): (usize, &f64)| {
            let inlet = self.course.tank[i * self.course.per_row];
            water::temperature(water::enthalpy(inlet) + self.heat_flow(time) / flow, inlet)
        };
        times.iter().enumerate().map(out).collect()
    }

    /// Outer surface of the casing: a fixed share of the way from the air to the hot gas.
    fn casing(&self, before: &[f64], times: &[f64]) -> Vec<f64> {
        let surface = |(&hot, &t): (&f64, &f64)| {
            let air = self.plan.air.at(t);
            CASING.mul_add((hot - air).max(0.0), air)
        };
        before.iter().zip(times).map(surface).collect()
    }

    fn fuel_added(&self, times: &[f64]) -> Option<Vec<f64>> {
        let burn = self.burn.as_ref()?;
        let at = burn.fire.refuel_s?;
        let row = times.partition_point(|&t| t < at);
        Some(
            (0..times.len())
                .map(|i| if i == row { burn.plan.refuel.map_or(0.0, |r| r.mass) } else { f64::NAN })
                .collect(),
        )
    }

    fn events(&self, step: f64, rows: usize) -> Vec<Remark> {
        let Some(burn) = &self.burn else { return Vec::new() };
        let row = |t: f64| ((t / step).ceil() as usize).min(rows - 1);
        let mut events = vec![Remark { row: 0, text: "lit".into() }];
        events.extend(burn.fire.refuel_s.map(|t| Remark { row: row(t), text: "refuel".into() }));
        events.push(Remark { row: row(burn.fire.out_s()), text: "fire out".into() });
        events
    }
}
