//! The text of a log.

use super::number::push_fixed;
use super::style::{Style, Time};
use calefact_data::{Channel, Readings};
use calefact_physics::water::density;
use std::fmt::Write;

/// The log of a trial in a style.
pub(crate) fn log_csv(readings: &Readings, style: &Style) -> String {
    let mut text = String::with_capacity(readings.len() * (readings.channels.len() + 2) * 7 + 200);
    header(&mut text, readings, style);
    for row in 0..readings.len() {
        line(&mut text, readings, style, row);
    }
    text
}

fn header(text: &mut String, readings: &Readings, style: &Style) {
    if style.barrel {
        text.push_str("# batch stove logger, invented readings\n");
    }
    let time = match style.time {
        Time::Seconds => "elapsed [s]",
        Time::Minutes => "elapsed [min]",
        Time::Clock(_) => "clock",
    };
    let columns = readings.channels.keys().map(|&c| style.header(c));
    let mut cells: Vec<String> = std::iter::once(time.to_owned()).chain(columns).collect();
    if !readings.events.is_empty() {
        cells.push("event".to_owned());
    }
    text.push_str(&cells.join(&style.separator().to_string()));
    text.push('\n');
}

fn line(text: &mut String, readings: &Readings, style: &Style, row: usize) {
    let from = text.len();
    time(text, readings.elapsed_s[row], style.time);
    let inlet = readings.channel(Channel::CoilIn).or_else(|| readings.channel(Channel::Tank)).map_or(20.0, |c| c[row]);
    for (&channel, values) in &readings.channels {
        text.push(style.separator());
        if values[row].is_finite() {
            let meter_density = if channel == Channel::Flow { density(inlet) } else { 1.0 };
            let (value, decimals) = style.cell(channel, values[row], meter_density);
            push_fixed(text, value, decimals);
        }
    }
    if style.semicolons {
        let with_commas = text[from..].replace('.', ",");
        text.truncate(from);
        text.push_str(&with_commas);
    }
    event(text, readings, style, row);
    text.push('\n');
}

fn event(text: &mut String, readings: &Readings, style: &Style, row: usize) {
    if readings.events.is_empty() {
        return;
    }
    text.push(style.separator());
    let here: Vec<&str> = readings.events.iter().filter(|e| e.row == row).map(|e| e.text.as_str()).collect();
    text.push_str(&here.join(" and "));
}

fn time(text: &mut String, elapsed_s: f64, time: Time) {
    match time {
        Time::Seconds => push_fixed(text, elapsed_s, 0),
        Time::Minutes => push_fixed(text, elapsed_s / 60.0, 2),
        Time::Clock(start) => {
            let s = (elapsed_s.round() as u32 + start) % 86_400;
            let _ = write!(text, "{:02}:{:02}:{:02}", s / 3600, s / 60 % 60, s % 60);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::style::{PLAIN, Style, Time};
    use super::log_csv;
    use calefact_data::readings::Remark;
    use calefact_data::{Channel, Readings};

    fn readings() -> Readings {
        Readings {
            elapsed_s: vec![0.0, 90.0],
            channels: [(Channel::Tank, vec![10.0, -0.04]), (Channel::FuelAdded, vec![f64::NAN, 1.0])].into(),
            flags: vec![0; 2],
            events: vec![Remark { row: 1, text: "refuel".into() }],
            ..Readings::default()
        }
    }

    #[test]
    fn styles_of_a_log() {
        let plain = "elapsed [s],tank [degC],fuel_added [kg],event\n0,10.0,,\n90,0.0,1.00,refuel\n";
        assert_eq!(log_csv(&readings(), &PLAIN), plain);
        let pounds = Style { time: Time::Minutes, fahrenheit: true, pounds: true, ..PLAIN };
        let want = "elapsed [min],tank [degF],fuel_added [lb],event\n0.00,50.0,,\n1.50,31.9,2.20,refuel\n";
        assert_eq!(log_csv(&readings(), &pounds), want);
        let night = Style { time: Time::Clock(86_370), semicolons: true, ..PLAIN };
        let want = "clock;tank [degC];fuel_added [kg];event\n23:59:30;10,0;;\n00:01:00;0,0;1,00;refuel\n";
        assert_eq!(log_csv(&readings(), &night), want);
    }
}
