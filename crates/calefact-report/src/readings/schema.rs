//! Units and meanings of the columns of the readings table.

use calefact_data::Channel;

/// What the flag of a reading holds.
pub(super) const FLAG: &str =
    "0 good; sum of 1 a cell was blank, 2 a cell was unreadable and taken as blank, 4 outside the window";

/// Unit of a channel.
pub(super) const fn unit(channel: Channel) -> &'static str {
    match channel {
        Channel::Tank
        | Channel::CoilIn
        | Channel::CoilOut
        | Channel::FlueBefore
        | Channel::FlueAfter
        | Channel::Ambient
        | Channel::Casing => "degC",
        Channel::Flow => "kg/s",
        Channel::Power => "W",
        Channel::FuelAdded => "kg",
        Channel::FlueO2 | Channel::FlueCo2 | Channel::FlueCo => "1",
    }
}

/// What a channel holds.
pub(super) const fn meaning(channel: Channel) -> &'static str {
    match channel {
        Channel::Tank => "water in the vessel",
        Channel::CoilIn => "water into the exchanger",
        Channel::CoilOut => "water out of the exchanger",
        Channel::FlueBefore => "flue gas before the exchanger",
        Channel::FlueAfter => "flue gas after the exchanger",
        Channel::Ambient => "air around the vessel",
        Channel::Casing => "outer surface of the exchanger's casing",
        Channel::Flow => "water flow through the exchanger",
        Channel::Power => "electric power of the reference heater",
        Channel::FuelAdded => "fuel put on the fire at this moment",
        Channel::FlueO2 => "oxygen in dry flue gas, volume fraction",
        Channel::FlueCo2 => "carbon dioxide in dry flue gas, volume fraction",
        Channel::FlueCo => "carbon monoxide in dry flue gas, volume fraction",
    }
}
