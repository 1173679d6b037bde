//! Which worlds the study looks at.

use calefact_simulate::worlds::{Logs, Missing, Place, Trouble, World};

/// A world of the study, and its name.
#[derive(Debug, Clone)]
pub struct Design {
    /// The world.
    pub world: World,
    /// What is unusual about it: what goes wrong, `alike` stoves, `damper`, or `plain`.
    pub name: String,
    /// What nobody recorded.
    pub missing: String,
}

impl Design {
    /// A world with its names.
    pub fn new(world: World) -> Self {
        let troubles = world.troubles.iter().map(|t| trouble(*t));
        let further = [(world.alike, "alike"), (world.damper, "damper"), (world.second_once, "once")];
        let names: Vec<&str> = troubles.chain(further.iter().filter(|f| f.0).map(|f| f.1)).collect();
        let name = if names.is_empty() { "plain".into() } else { names.join(" ") };
        let missing = missing(&world);
        Self { world, name, missing }
    }

    /// How its burns are logged.
    pub fn logging(&self) -> &'static str {
        match self.world.logs {
            Logs::FiveRows => "five",
            Logs::TenRows => "ten",
            Logs::Logger => "logger",
            Logs::Mixed => "mixed",
        }
    }

    /// All names in one, as the study's argument selects by.
    pub fn title(&self) -> String {
        format!("{} {} missing {} n={}", self.name, self.logging(), self.missing, self.world.burns)
    }
}

fn trouble(trouble: Trouble) -> &'static str {
    match trouble {
        Trouble::Refuelled => "refuelled",
        Trouble::Layered => "layered",
        Trouble::Drift => "drift",
        Trouble::Spikes => "spikes",
    }
}

fn missing(world: &World) -> String {
    let place = match world.place {
        Place::Inside => "",
        Place::Edge => " edge",
    };
    match world.missing.as_slice() {
        [] => "nothing".into(),
        all if all.len() == Missing::ALL.len() => format!("all{place}"),
        some => some.iter().map(|m| m.name()).collect::<Vec<_>>().join("+") + place,
    }
}

const LOGS: [Logs; 4] = [Logs::FiveRows, Logs::TenRows, Logs::Logger, Logs::Mixed];

/// All worlds of the study.
pub fn designs() -> Vec<Design> {
    let stated = LOGS.into_iter().flat_map(|logs| [2, 3, 5, 10].map(|burns| World::new(logs, burns)));
    stated.chain(unrecorded()).chain(unusual()).map(Design::new).collect()
}

/// Three burns of each stove, with one input missing or all of them, within their ranges and at the ends.
fn unrecorded() -> Vec<World> {
    let lacking = |logs, missing: &[Missing], place| World { missing: missing.to_vec(), place, ..World::new(logs, 3) };
    let both = |logs, missing: &[Missing]| [Place::Inside, Place::Edge].map(|place| lacking(logs, missing, place));
    let single = Missing::ALL.iter().flat_map(|&input| both(Logs::FiveRows, &[input]));
    let all = LOGS.into_iter().flat_map(|logs| both(logs, &Missing::ALL));
    single.chain(all).collect()
}

/// Three burns of each stove with something wrong; stoves that do not differ; a damper that is varied; a stove with one burn.
fn unusual() -> Vec<World> {
    let wrong = |logs, trouble| World { troubles: vec![trouble], ..World::new(logs, 3) };
    let troubles = [Trouble::Refuelled, Trouble::Layered, Trouble::Drift];
    let hand_and_logger = troubles.into_iter().flat_map(|t| [Logs::FiveRows, Logs::Logger].map(|logs| wrong(logs, t)));
    let spikes = [wrong(Logs::Logger, Trouble::Spikes)];
    let alike = |logs, burns| World { alike: true, ..World::new(logs, burns) };
    let null = [(Logs::FiveRows, 3), (Logs::Logger, 3), (Logs::Mixed, 3), (Logs::Logger, 10)];
    let damper = |logs| World { damper: true, ..World::new(logs, 6) };
    let once = World { second_once: true, ..World::new(Logs::FiveRows, 5) };
    let all = hand_and_logger.chain(spikes).chain(null.map(|(logs, burns)| alike(logs, burns)));
    all.chain([damper(Logs::FiveRows), damper(Logs::Logger), once]).collect()
}
