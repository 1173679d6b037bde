//! The register row and the log, as a person reads them off the instruments.

use super::forward::Forward;
use super::plan::TrialPlan;
use super::rig::Rig;
use super::stream::stream;
use calefact_data::{Channel, MoistureBasis, Readings, RegisterRow, TrialKind, Water};
use rand_pcg::Pcg64;

/// The log as displayed. Events and blanks stay what they are.
pub(super) fn displayed(rig: &Rig, plan: &TrialPlan, exact: &Readings) -> Readings {
    let show = |(&channel, values): (&Channel, &Vec<f64>)| {
        let mut rng = stream(rig.seed, &format!("log/{}/{}", plan.trial, channel.name()));
        (channel, rig.instrument(channel.name()).show_all(values, &mut rng))
    };
    Readings { channels: exact.channels.iter().map(show).collect(), ..exact.clone() }
}

/// One reading of a register column.
struct Clerk<'a> {
    rig: &'a Rig<'a>,
    rng: Pcg64,
}

impl Clerk<'_> {
    fn read(&mut self, column: &str, value: f64) -> f64 {
        self.rig.instrument(column).show(value, &mut self.rng).max(0.0)
    }

    /// A weight that is written down only if there was anything to weigh.
    fn weigh(&mut self, column: &str, value: f64) -> f64 {
        if value > 0.0 { self.read(column, value) } else { 0.0 }
    }
}

/// The register row as displayed. Moisture is on the dry basis of a pin meter.
pub(super) fn register_row(rig: &Rig, forward: &Forward) -> RegisterRow {
    let plan = forward.plan;
    let mut clerk = Clerk { rig, rng: stream(rig.seed, &format!("register/{}", plan.trial)) };
    let mut row = empty_row(rig, plan, clerk.read("water", plan.water_m3));
    if plan.kind == TrialKind::ReferenceHeater {
        row.heater_power = Some(clerk.read("heater_power", plan.heater_power));
    }
    if let Some(burn) = &forward.burn {
        let fire = burn.plan;
        row.stove = Some(burn.stove.id.clone());
        row.fuel = Some(burn.fuel.id.clone());
        row.exchanger = Some(burn.exchanger.id.clone());
        row.fuel_mass = Some(clerk.weigh("fuel_mass", fire.fuel_mass));
        row.kindling_mass = Some(clerk.weigh("kindling_mass", fire.kindling));
        row.leftover_fuel = Some(clerk.weigh("leftover_fuel", fire.leftover_fuel));
        row.leftover_char = Some(clerk.weigh("leftover_char", fire.leftover_char));
        row.fuel_moisture = Some(clerk.read("fuel_moisture", fire.moisture / (1.0 - fire.moisture)));
        row.moisture_basis = Some(MoistureBasis::Dry);
    }
    row
}

fn empty_row(rig: &Rig, plan: &TrialPlan, water: f64) -> RegisterRow {
    RegisterRow {
        date: Some(plan.date.clone()),
        block: Some(plan.block.clone()),
        operator: Some(plan.operator.clone()),
        exclude: plan.exclude.clone(),
        note: plan.note.clone(),
        extra: plan.extra.clone(),
        ..RegisterRow::bare(
            &plan.trial,
            plan.kind,
            format!("logs/{}.csv", plan.trial),
            &rig.scenario.vessel.id,
            Water::Volume(water),
        )
    }
}
