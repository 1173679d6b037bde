//! The columns of a log that hold numbers: one table of their names, units, meanings and ranges.
//!
//! Reading a log, checking its values, the readings table, the simulator and the reference in `datasets/README.md` follow
//! this table. A new channel is one more entry here, and the code that uses its values.

use crate::limits::{self, Limit};
use calefact_units::Kind;
use serde::Serialize;

/// What the table says of a channel.
struct Entry {
    name: &'static str,
    kind: Kind,
    meaning: &'static str,
    used_for: &'static str,
    limit: Limit,
}

macro_rules! channels {
    ($($channel:ident: $name:literal, $kind:ident, $limit:ident, $meaning:literal, $used_for:literal;)*) => {
        /// A column of a log that holds numbers. All values are in SI units.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
        #[serde(rename_all = "snake_case")]
        pub enum Channel {
            $(#[doc = $meaning] $channel,)*
        }

        impl Channel {
            /// All channels in the order of the `readings` table.
            pub const ALL: [Self; TABLE.len()] = [$(Self::$channel),*];
        }

        const TABLE: &[Entry] = &[$(Entry {
            name: $name,
            kind: Kind::$kind,
            meaning: $meaning,
            used_for: $used_for,
            limit: limits::$limit,
        }),*];
    };
}

channels! {
    Tank: "tank", Temperature, WATER_TEMPERATURE, "water in the vessel", "all heat and every curve; needed";
    CoilIn: "coil_in", Temperature, WATER_TEMPERATURE, "water into the exchanger", "heat from the coil, stratification";
    CoilOut: "coil_out", Temperature, WATER_TEMPERATURE, "water out of the exchanger", "heat from the coil, exchanger, cautions";
    FlueBefore: "flue_before", Temperature, FLUE, "flue gas before the exchanger", "exchanger, phases of the fire";
    FlueAfter: "flue_after", Temperature, FLUE, "flue gas after the exchanger", "flue loss, exchanger, phases of the fire";
    Ambient: "ambient", Temperature, AIR, "air around the vessel", "standing loss, flue loss";
    Casing: "casing", Temperature, CASING, "outer surface of the exchanger's casing", "loss of the casing";
    Flow: "flow", MassFlow, FLOW, "water flow through the exchanger", "heat from the coil, exchanger";
    Power: "power", Power, POWER, "electric power of the reference heater", "heat of a reference-heater trial";
    FuelAdded: "fuel_added", Mass, FUEL_ADDED, "fuel put on the fire at this moment", "phases of the fire";
    FlueO2: "flue_o2", Fraction, OXYGEN, "oxygen in dry flue gas, volume fraction", "air ratio, flue loss";
    FlueCo2: "flue_co2", Fraction, CARBON_DIOXIDE, "carbon dioxide in dry flue gas, volume fraction", "air ratio, flue loss";
    FlueCo: "flue_co", Fraction, CARBON_MONOXIDE, "carbon monoxide in dry flue gas, volume fraction", "loss by unburnt gas";
}

impl Channel {
    const fn entry(self) -> &'static Entry {
        &TABLE[self as usize]
    }

    /// Canonical column name.
    pub const fn name(self) -> &'static str {
        self.entry().name
    }

    /// Kind of quantity it holds. A flow may be logged as volume flow; it is held as mass flow.
    pub const fn kind(self) -> Kind {
        self.entry().kind
    }

    /// The quantity in words, for tables and reference pages.
    pub const fn meaning(self) -> &'static str {
        self.entry().meaning
    }

    /// The part of the analysis that uses it.
    pub const fn used_for(self) -> &'static str {
        self.entry().used_for
    }

    /// Values that can be true and values that are plausible, in SI units.
    pub const fn limit(self) -> &'static Limit {
        &self.entry().limit
    }

    /// A unit that logs often use, as an example.
    pub const fn usual_unit(self) -> &'static str {
        match self.kind() {
            Kind::MassFlow => "L/min",
            Kind::Fraction => "%",
            kind => kind.si_symbol(),
        }
    }

    /// Whether SI is taken where no unit is stated. Not for flow, which is as likely in L/min as in kg/s, nor for gases,
    /// which are as likely in percent as in fractions.
    pub(crate) const fn may_lack_unit(self) -> bool {
        !matches!(self.kind(), Kind::MassFlow | Kind::Fraction)
    }

    /// Whether most readings have no value: fuel is put on now and then.
    pub(crate) const fn is_occasional(self) -> bool {
        matches!(self, Self::FuelAdded)
    }

    /// The channel of a canonical column name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|c| c.name() == name)
    }
}

#[cfg(test)]
mod tests {
    use super::Channel;

    const BEGIN: &str = "| column | usual unit | holds | used for |\n|---|---|---|---|\n";

    /// The lines of the reference that describe the channels.
    fn reference() -> String {
        let line =
            |c: Channel| format!("| `{}` | `{}` | {} | {} |\n", c.name(), c.usual_unit(), c.meaning(), c.used_for());
        Channel::ALL.into_iter().map(line).collect()
    }

    /// With `CALEFACT_WRITE_REFERENCE` set the section is written instead.
    #[test]
    fn the_reference_lists_every_channel() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../datasets/README.md");
        let page = std::fs::read_to_string(path).expect("the reference");
        let start = page.find(BEGIN).expect("the table of log columns") + BEGIN.len();
        let length = page[start..].find("\n\n").expect("the end of the table") + 1;
        if std::env::var_os("CALEFACT_WRITE_REFERENCE").is_some() {
            let page = format!("{}{}{}", &page[..start], reference(), &page[start + length..]);
            std::fs::write(path, page).expect("the reference to be written");
            return;
        }
        assert_eq!(
            &page[start..start + length],
            reference(),
            "datasets/README.md differs from the table of channels; run\n  \
             CALEFACT_WRITE_REFERENCE=1 cargo test -p calefact-data the_reference_lists_every_channel"
        );
    }

    #[test]
    fn names_lead_back_to_channels() {
        for channel in Channel::ALL {
            assert_eq!(Channel::from_name(channel.name()), Some(channel));
        }
        assert_eq!(Channel::from_name("battery"), None);
    }
}
