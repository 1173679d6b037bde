//! A dataset as small as a real one on paper: four burns of five hand-noted rows. Invented.

use crate::Workspace;
use std::path::PathBuf;

const APPARATUS: &str = r#"title = "Four burns"
invented = true

[site]
altitude = "300 m"

[stoves.box]
name = "Box stove"
[stoves.rocket]
name = "Rocket stove"

[fuels.spruce]
name = "Spruce"
class = "coniferous"

[vessels.drum]
name = "Drum"
volume = "120 L"
mass = "11 kg"
material = "steel"
loss_coefficient = "4 W/K"

[instruments.probe]
name = "Tank probe"
reads = ["tank"]
tolerance = "0.5 degC"
[instruments.bench]
name = "Scale and bucket"
reads = ["water", "fuel_mass", "kindling_mass", "leftover_fuel", "leftover_char"]
tolerance = "1 % of reading"
[instruments.meter]
name = "Moisture meter"
reads = ["fuel_moisture"]
tolerance = "2 %"
"#;

const REGISTER: &str = "\
trial,kind,log,stove,fuel,vessel,water [L],fuel_mass [kg],fuel_moisture [%],moisture_basis,kindling_mass [kg],leftover_fuel [kg],leftover_char [kg],ambient [degC]
b1,burn,logs/b1.csv,box,spruce,drum,120,5.6,18,wet,0.3,0,0.10,9
b2,burn,logs/b2.csv,box,spruce,drum,120,5.4,17,wet,0.3,0,0.12,8
r1,burn,logs/r1.csv,rocket,spruce,drum,120,4.1,18,wet,0.3,0,0.04,9
r2,burn,logs/r2.csv,rocket,spruce,drum,120,4.3,18,wet,0.3,0,0.05,11
";

const PIPELINE: &str = r#"name = "four-burns"
datasets = ["data"]

[[comparison]]
factor = "stove"
quantities = ["thermal_efficiency", "heating_rate"]
"#;

/// The files of a small pipeline; change any of them, then write them.
#[derive(Debug, Clone)]
pub struct TinyDataset {
    /// `data/dataset.toml`.
    pub apparatus: String,
    /// `data/trials.csv`.
    pub register: String,
    /// Log files below `data`, by name.
    pub logs: Vec<(String, String)>,
    /// `pipeline.toml`.
    pub pipeline: String,
}

impl TinyDataset {
    /// Four sound burns.
    pub fn new() -> Self {
        let log = |name: &str, temperatures: [f64; 5]| {
            let rows = temperatures.iter().enumerate().map(|(i, t)| format!("{},{t}\n", 12 * i));
            (format!("logs/{name}.csv"), format!("elapsed [min],tank [degC]\n{}", rows.collect::<String>()))
        };
        Self {
            apparatus: APPARATUS.into(),
            register: REGISTER.into(),
            logs: vec![
                log("b1", [11.0, 18.5, 26.5, 34.0, 41.0]),
                log("b2", [10.0, 17.0, 24.5, 32.5, 39.5]),
                log("r1", [11.5, 21.0, 30.5, 39.5, 48.0]),
                log("r2", [12.0, 22.0, 32.0, 41.5, 50.5]),
            ],
            pipeline: PIPELINE.into(),
        }
    }

    /// Replaces text that must be there, in whichever file holds it.
    ///
    /// # Panics
    /// If no file holds it: the check would then test nothing.
    #[must_use]
    pub fn with(mut self, from: &str, to: &str) -> Self {
        let logs = self.logs.iter_mut().map(|(_, text)| text);
        let all = [&mut self.apparatus, &mut self.register, &mut self.pipeline].into_iter().chain(logs);
        let found = all.filter(|text| text.contains(from)).map(|text| *text = text.replacen(from, to, 1)).count();
        assert!(found > 0, "`{from}` is in no file");
        self
    }

    /// Replaces a log file's text.
    #[must_use]
    pub fn with_log(mut self, name: &str, text: &str) -> Self {
        self.logs.retain(|(n, _)| n != name);
        self.logs.push((name.into(), text.into()));
        self
    }

    /// Writes the files; gives the path of the pipeline file.
    pub fn write(&self, to: &Workspace) -> PathBuf {
        to.write("data/dataset.toml", &self.apparatus);
        to.write("data/trials.csv", &self.register);
        for (name, text) in &self.logs {
            to.write(&format!("data/{name}"), text);
        }
        to.write("pipeline.toml", &self.pipeline)
    }
}

impl Default for TinyDataset {
    fn default() -> Self {
        Self::new()
    }
}
