//! The text of the pipeline.

/// A pipeline of this name on the dataset in this folder, relative to the pipeline file.
pub(super) fn pipeline_toml(name: &str, dataset: &str) -> String {
    format!("{}{}", head(name, dataset), COMPARISONS)
}

fn head(name: &str, dataset: &str) -> String {
    format!(
        "# Which stove, which wood, which coil? An invented dataset: no measurement stands behind it.\n\
         name = \"{name}\"\n\
         title = \"Hill nursery: three stoves, two woods, three coils (invented demo)\"\n\
         datasets = [\"{dataset}\"]\n"
    )
}

const COMPARISONS: &str = r#"
[settings]
level = 0.95
window = "whole log"
end = "last reading"
heating_rate_at = "40 degC"
rig_check = "report"

# The job the burns are normalised to: one evening's wash water.
[reference_job]
water = "160 L"
from = "10 degC"
to = "55 degC"
ambient = "10 degC"
fuel_moisture = "16 %"

[[comparison]]
factor = "stove"
adjust = ["fuel", "exchanger"]
block = "block"

[[comparison]]
factor = "fuel"
adjust = ["stove", "exchanger"]
block = "block"
equivalence_margin = "10 %"

[[comparison]]
factor = "exchanger"
adjust = ["stove", "fuel"]
block = "block"

[[comparison]]
factor = "split"
adjust = ["stove", "exchanger"]
quantities = ["thermal_efficiency", "fuel_per_heat"]

# Damper position in per cent: a number, so a trend.
[[comparison]]
factor = "damper"
adjust = ["stove", "exchanger"]
quantities = ["thermal_efficiency"]

[outputs]
formats = ["csv"]
"#;
