//! The designs of the study: what is logged how often, how noisy, how different burns are, how many groups.

/// How a log is made.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Log {
    /// Time between readings of a burn, s.
    pub(crate) burn_every: f64,
    /// Time between readings of a standing-loss night, s.
    pub(crate) night_every: f64,
    /// Standard deviation of the drifting noise of a tank reading, K.
    pub(crate) drift: f64,
    /// Time over which that noise forgets itself (first-order autoregression), s.
    pub(crate) memory: f64,
    /// Standard deviation of white noise, K.
    pub(crate) white: f64,
    /// Display step of the tank thermometer, K.
    pub(crate) step: f64,
}

/// Five rows on paper, a display of a tenth. From reading to reading the probe scatters by a third of the standard uncertainty
/// of its sheet (0.5 K, rectangular), as is assumed where few readings cannot show it.
pub(crate) const FIVE_ROWS: Log =
    Log { burn_every: 900.0, night_every: 7200.0, drift: 0.0, memory: 1.0, white: 0.1, step: 0.1 };
/// Five rows on paper, a display of whole degrees.
pub(crate) const FIVE_COARSE: Log = Log { step: 1.0, ..FIVE_ROWS };
/// Five rows read with fine instruments: little but the display scatters.
pub(crate) const FIVE_FINE: Log = Log { white: 0.01, ..FIVE_ROWS };
/// A logger whose noise hangs together over minutes.
pub(crate) const LOGGER: Log =
    Log { burn_every: 30.0, night_every: 300.0, drift: 0.15, memory: 120.0, white: 0.03, step: 0.0625 };
/// A reading every second.
pub(crate) const EVERY_SECOND: Log = Log { burn_every: 1.0, night_every: 60.0, memory: 60.0, ..LOGGER };

/// One design.
#[derive(Debug, Clone)]
pub(crate) struct Design {
    /// Name in the table.
    pub(crate) name: &'static str,
    /// How logs are made.
    pub(crate) log: Log,
    /// Mean efficiency and relative standard deviation between burns, group by group.
    pub(crate) groups: Vec<(f64, f64)>,
    /// Standing-loss nights.
    pub(crate) nights: usize,
    /// Relative standard deviation of the loss coefficient between nights.
    pub(crate) night_sd: f64,
    /// Whether each group burns a fuel of its own.
    pub(crate) own_fuel: bool,
    /// Factor on all shared errors, and on the limits the sheets state for them.
    pub(crate) shared: f64,
    /// Longest delay before heat arrives, s; it is uniform from 0 to this.
    pub(crate) longest_delay: f64,
    /// Burns a group, one cell each.
    pub(crate) sizes: &'static [usize],
    /// Whether only single burns and the loss coefficient are counted, with n the number of nights.
    pub(crate) by_nights: bool,
    /// Share of the replicates asked for that is run: slow designs run fewer.
    pub(crate) share: f64,
}

const SIZES: &[usize] = &[2, 3, 5, 10];
const PAIR: [(f64, f64); 2] = [(0.30, 0.06), (0.36, 0.06)];

fn pair(name: &'static str, log: Log) -> Design {
    Design {
        name,
        log,
        groups: PAIR.to_vec(),
        nights: 2,
        night_sd: 0.0,
        own_fuel: false,
        shared: 1.0,
        longest_delay: 720.0,
        sizes: SIZES,
        by_nights: false,
        share: 1.0,
    }
}

/// Designs that compare two stoves.
pub(crate) fn pairs() -> Vec<Design> {
    let unequal = vec![(0.30, 0.03), (0.36, 0.12)];
    vec![
        pair("five rows", FIVE_ROWS),
        pair("five rows display 1 K", FIVE_COARSE),
        Design { longest_delay: 0.0, ..pair("five rows heat at once", FIVE_ROWS) },
        pair("logger 30 s", LOGGER),
        Design { sizes: &[2], share: 0.5, ..pair("logger 1 s", EVERY_SECOND) },
        Design { groups: unequal, ..pair("five rows scatter 3 and 12 %", FIVE_ROWS) },
        Design { own_fuel: true, ..pair("five rows two fuels", FIVE_ROWS) },
        Design { groups: vec![(0.30, 0.01), (0.36, 0.01)], ..pair("five rows scatter 1 %", FIVE_ROWS) },
        Design { shared: 0.1, ..pair("five rows fine instruments", FIVE_FINE) },
        Design { shared: 0.1, ..pair("logger 30 s fine instruments", LOGGER) },
    ]
}

/// Designs on the loss coefficient: nights that differ, few of them; n is the number of nights.
pub(crate) fn nights() -> Vec<Design> {
    let mut out = Vec::new();
    let kinds = [
        ("nights five rows", FIVE_ROWS, 0.0),
        ("nights five rows differ by 15 %", FIVE_ROWS, 0.15),
        ("nights five rows display 1 K", FIVE_COARSE, 0.0),
        ("nights logger 5 min", LOGGER, 0.0),
    ];
    for (name, log, night_sd) in kinds {
        let counts: &[usize] = if night_sd > 0.0 { &[2, 3, 5] } else { &[1, 2, 3, 5] };
        let base = Design { night_sd, shared: 0.1, sizes: &[1], by_nights: true, ..pair(name, log) };
        out.extend(counts.iter().map(|&nights| Design { nights, ..base.clone() }));
    }
    out
}

/// Five stoves that are all the same: any verdict among the ten contrasts is a false one.
pub(crate) fn equals() -> Vec<Design> {
    vec![Design { groups: vec![(0.33, 0.06); 5], ..pair("five equal stoves five rows", FIVE_ROWS) }]
}
