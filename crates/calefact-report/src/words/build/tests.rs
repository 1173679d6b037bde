//! Words on the next build, as a builder reads them.

use super::model::model;
use super::{clauses, job_lines, lines, refusal_lines, summary};
use crate::fixture;
use crate::words::{Units, Wording};
use calefact_analysis::result::{AreaExponent, BuildCaution, BuildModel, BuildRefusal};

#[test]
fn half_and_twice_the_tube_stand_beside_what_is() {
    let builds = fixture::analysis().builds;
    assert_eq!(
        summary(&Wording::plain(), &builds, &builds.curves[0]).expect("three lengths"),
        "helix-8 on box, 6 m of tube: 5.20 kW into the water and gas out at 190 degC, from 4 burns. Half the tube (3 m) would put \
         0.712 times as much heat into the water (0.650 to 0.774), 3.70 kW, and let the gas out at 305 degC (278 to 332); twice the \
         tube (12 m) would put 1.25 times as much heat into the water (1.14 to 1.36), 6.50 kW, and let the gas out at 95.0 degC (86.7 \
         to 103.3)."
    );
}

#[test]
fn an_answer_leads_with_the_heat_and_ends_with_the_cautions() {
    let builds = fixture::analysis().builds;
    insta::assert_snapshot!(lines(&Wording::plain(), &builds.forecasts[2], Some(&builds.forecasts[1])).join("\n"));
    let us = Wording { units: Units::Us, ..Wording::plain() };
    insta::assert_snapshot!(lines(&us, &builds.forecasts[0], Some(&builds.forecasts[1])).join("\n"));
}

/// Where the heat of the fixture is 1.25 times as much, a job takes less than today, whose numbers stand beside it.
#[test]
fn jobs_with_a_build_stand_beside_today() {
    let mut analysis = fixture::analysis();
    let build = &analysis.builds.forecasts[2];
    let combination = &mut analysis.forecasts.combinations[0];
    (combination.stove, combination.exchanger) = (build.stove.clone(), Some(build.exchanger.clone()));
    insta::assert_snapshot!(job_lines(&Wording::plain(), &analysis.forecasts, build).join("\n"));
    assert!(job_lines(&Wording::plain(), &analysis.forecasts, &analysis.builds.forecasts[1]).is_empty(), "as it is");
}

#[test]
fn the_model_says_whether_it_is_from_the_data() {
    let w = Wording::plain();
    let inferred = model(&w, &fixture::analysis().builds.model.expect("one"));
    assert!(inferred.ends_with(
        "to the power 0.78 (standard uncertainty 0.06): the builds measured have 55 % of the weight in it (2 builds), the assumed range \
         0.70 to 1.00 the rest."
    ));
    let area = AreaExponent::Assumed { value: 0.85, std_uncertainty: 0.087 };
    assert!(model(&w, &BuildModel { area, span_m2: None }).contains("not from these data"));
}

#[test]
fn dangers_name_their_numbers() {
    let mut forecast = fixture::analysis().builds.forecasts.remove(1);
    forecast.cautions = vec![
        BuildCaution::Creosote { gas_degc: 190.0, lowest_degc: 110.0 },
        BuildCaution::NearBoiling {
            water_degc: 97.0,
            inlet_degc: 55.0,
            boiling_degc: 97.8,
            least_flow_kg_s: Some(0.06),
        },
        BuildCaution::SlowFlow { flow_kg_s: 0.01, least_flow_kg_s: 0.02 },
    ];
    insta::assert_snapshot!(clauses(&Wording::plain(), &forecast).join("\n"));
}

#[test]
fn a_refusal_says_what_to_do() {
    let text = |fact: &BuildRefusal| refusal_lines(&Wording::plain(), fact).join("\n");
    let coil = || "coil".to_owned();
    let all = [
        BuildRefusal::NoExchangers,
        BuildRefusal::UnknownExchanger { id: "cool".into(), known: vec![coil()] },
        BuildRefusal::NoBurnsOnStove { stove: "bux".into(), exchanger: coil(), known: vec!["box".into()] },
        BuildRefusal::NotMeasured { exchanger: coil() },
        BuildRefusal::NotStated { exchanger: coil(), key: "length" },
        BuildRefusal::NotPositive { key: "length", value: 0.0 },
        BuildRefusal::FlowUnknown { exchanger: coil() },
        BuildRefusal::TooFar { key: "length", times: 1000.0, most: 4.0 },
        BuildRefusal::TooFar { key: "flow", times: 50.0, most: 10.0 },
    ];
    insta::assert_snapshot!(all.iter().map(text).collect::<Vec<_>>().join("\n"));
}
