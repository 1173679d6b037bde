//! The kind of a world: how its burns are logged, what is not written down, what goes wrong.

/// Two stoves, and some burns of each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct World {
    /// How the burns are logged.
    pub logs: Logs,
    /// Inputs that nobody recorded. The true values then lie in the range that is assumed for them.
    pub missing: Vec<Missing>,
    /// Where in its range an input that nobody recorded lies.
    pub place: Place,
    /// Burns of each stove.
    pub burns: usize,
    /// Whether both stoves are the same in everything but their name, so that any verdict is false.
    pub alike: bool,
    /// Its mishaps.
    pub troubles: Vec<Trouble>,
    /// Whether the damper is varied: the efficiency then follows it.
    pub damper: bool,
    /// Whether the second stove has one burn alone.
    pub second_once: bool,
}

/// How burns are logged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Logs {
    /// Five tank readings by hand, at uneven times, to half a kelvin.
    FiveRows,
    /// Ten tank readings by hand, with three of the flue and of the coil's outlet.
    TenRows,
    /// A logger with all probes.
    Logger,
    /// Every second burn by hand in five rows, the others by the logger.
    Mixed,
}

/// An input that nobody recorded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// Heat capacity and loss coefficient of the vessel; its volume is known.
    Vessel,
    /// Air temperature.
    Air,
    /// Mass of the kindling.
    Kindling,
    /// Wood and char left over.
    Leftovers,
    /// Moisture of the wood.
    Moisture,
    /// Whether the moisture stands on wet or on dry basis.
    MoistureBasis,
    /// Kind, composition and calorific values of the wood.
    CalorificValue,
    /// Tolerances of the instruments.
    Tolerances,
}

impl Missing {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Vessel,
        Self::Air,
        Self::Kindling,
        Self::Leftovers,
        Self::Moisture,
        Self::MoistureBasis,
        Self::CalorificValue,
        Self::Tolerances,
    ];

    /// Name in the tables of the study.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Vessel => "vessel",
            Self::Air => "air",
            Self::Kindling => "kindling",
            Self::Leftovers => "leftovers",
            Self::Moisture => "moisture",
            Self::MoistureBasis => "moisture-basis",
            Self::CalorificValue => "calorific-value",
            Self::Tolerances => "tolerances",
        }
    }
}

/// Where in its range an input that nobody recorded lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Anywhere, each place as likely as any other.
    Inside,
    /// At one end, either as likely as the other.
    Edge,
}

/// Mishap of every burn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Trouble {
    /// Wood is put on half-way, and the fire dips.
    Refuelled,
    /// The tank probe hangs in a layer that is warmer or colder than the mean of the tank while heat arrives.
    Layered,
    /// The tank probe drifts within its tolerance during the burn.
    Drift,
    /// Two readings of the tank and one of the coil's outlet are far off.
    Spikes,
}

impl World {
    /// A world in which all is recorded and nothing goes wrong.
    pub const fn new(logs: Logs, burns: usize) -> Self {
        Self {
            logs,
            missing: Vec::new(),
            place: Place::Inside,
            burns,
            alike: false,
            troubles: Vec::new(),
            damper: false,
            second_once: false,
        }
    }

    pub(super) fn lacks(&self, input: Missing) -> bool {
        self.missing.contains(&input)
    }

    pub(super) fn has(&self, trouble: Trouble) -> bool {
        self.troubles.contains(&trouble)
    }
}
