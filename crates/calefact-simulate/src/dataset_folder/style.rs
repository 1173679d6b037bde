//! How a trial's log is written: units, time, separators. Three loggers, one hand, three habits.

use crate::plan::TrialPlan;
use calefact_data::{Channel, TrialKind};
use calefact_units::Kind;

/// How time stands in a log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Time {
    /// Seconds since the start.
    Seconds,
    /// Minutes since the start.
    Minutes,
    /// Time of day; the log begins at this second of the day and may run over midnight.
    Clock(u32),
}

/// How a log is written.
#[expect(clippy::struct_excessive_bools, reason = "each is a habit of its own")]
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Style {
    pub(crate) time: Time,
    /// Water and flue in degF.
    pub(crate) fahrenheit: bool,
    /// Semicolons between cells, commas in numbers.
    pub(crate) semicolons: bool,
    /// The header a builder gave the tank column.
    pub(crate) barrel: bool,
    /// Flow in L/min.
    pub(crate) litres: bool,
    /// Weights of the register in pounds.
    pub(crate) pounds: bool,
}

/// Seconds, degC, commas.
pub(crate) const PLAIN: Style =
    Style { time: Time::Seconds, fahrenheit: false, semicolons: false, barrel: false, litres: false, pounds: false };

/// Style of a trial of the demo: the box stove's logger shows degF and minutes and its user weighs in pounds; the rocket
/// stove's writes the time of day and L/min; the batch stove's has semicolons, decimal commas and its own word for the tank.
pub(super) fn style(plan: &TrialPlan) -> Style {
    let started = start_of_day(plan);
    match plan.burn.as_ref().map(|b| b.stove) {
        Some(0) => Style { time: Time::Minutes, fahrenheit: true, pounds: true, ..PLAIN },
        Some(1) => Style { time: Time::Clock(started), litres: true, ..PLAIN },
        Some(_) => Style { semicolons: true, barrel: true, ..PLAIN },
        None if plan.kind == TrialKind::StandingLoss => Style { time: Time::Clock(started), ..PLAIN },
        None => PLAIN,
    }
}

/// When a trial begins: three burns a day, a cooling in the evening, and every ninth burn late at night.
fn start_of_day(plan: &TrialPlan) -> u32 {
    let number: u32 = plan.trial.chars().filter(char::is_ascii_digit).collect::<String>().parse().unwrap_or(1);
    let (hour, minute) = match plan.kind {
        TrialKind::StandingLoss => (19, 30),
        _ if number.is_multiple_of(9) => (22, 50),
        _ => [(7, 20), (11, 5), (15, 40)][(number as usize - 1) % 3],
    };
    hour * 3600 + minute * 60
}

impl Style {
    /// Character between cells.
    pub(super) const fn separator(&self) -> char {
        if self.semicolons { ';' } else { ',' }
    }

    /// Header of a column, with its unit.
    pub(super) fn header(&self, channel: Channel) -> String {
        let name = if self.barrel && channel == Channel::Tank { "Barrel" } else { channel.name() };
        format!("{name} [{}]", self.unit(channel))
    }

    /// Unit a column is written in.
    fn unit(&self, channel: Channel) -> &'static str {
        match channel.kind() {
            Kind::Temperature if self.fahrenheit && channel != Channel::Ambient => "degF",
            Kind::MassFlow if self.litres => "L/min",
            Kind::Mass if self.pounds => "lb",
            Kind::Fraction => "%",
            kind => kind.si_symbol(),
        }
    }

    /// A value as it is written, and its decimals. `density` is that of the water in the flow meter, kg/m3.
    pub(super) fn cell(&self, channel: Channel, si: f64, density: f64) -> (f64, usize) {
        let in_unit = match self.unit(channel) {
            "degF" => si.mul_add(1.8, 32.0),
            "L/min" => si / density * 60_000.0,
            "lb" => si / 0.453_592_37,
            "%" => 100.0 * si,
            _ => si,
        };
        let decimals = match channel.kind() {
            Kind::Temperature if matches!(channel, Channel::FlueBefore | Channel::FlueAfter) => 0,
            Kind::Power => 0,
            Kind::MassFlow if !self.litres => 4,
            Kind::MassFlow | Kind::Mass => 2,
            _ => 1,
        };
        (in_unit, decimals)
    }
}
