//! Words on jobs, in the reader's units.

use super::*;
use crate::words::Units;

#[test]
fn each_refusal_in_words() {
    let plain = Wording::plain();
    let us = Wording { units: Units::Us, ..plain };
    let boils = Refusal::Boils { to: 99.0, boiling: 97.9, altitude_m: Some(640.0) };
    let cases = [
        (boils.clone(), "water boils at 98 degC at 640 m; the target of 99 degC cannot be reached"),
        (Refusal::NotWarmer { from: 10.0, to: 5.0 }, "the target of 5 degC is not above the start of 10 degC"),
        (Refusal::NoWater, "there is no water to heat; state how much"),
        (Refusal::Frozen { from: -4.0 }, "water of -4 degC is ice; start above 0 degC"),
        (Refusal::DoesNotFit { water: 0.3, volume: 0.16 }, "300 L of water do not fit into a vessel of 160 L"),
        (
            Refusal::UnknownVessel { vessel: "pot".into(), known: vec!["drum".into()] },
            "no dataset describes the vessel `pot`; write `drum`",
        ),
        (
            Refusal::NoSuchBurns { column: "stove", level: "bxo".into(), known: vec!["box".into()] },
            "no burn has the stove `bxo`; did you mean `box`?",
        ),
        (
            Refusal::CannotHold { highest: 47.2 },
            "this fire holds the water at 47 degC at most, since the vessel loses the rest",
        ),
    ];
    for (reason, words) in cases {
        assert_eq!(refusal(&plain, &reason), words);
    }
    assert_eq!(refusal(&us, &boils), "water boils at 208 degF at 2100 ft; the target of 210 degF cannot be reached");
}

#[test]
fn the_farthest_of_many_answers() {
    let near = Outside::MoreWater { job: 0.2, most: 0.16 };
    let far = Outside::MoreWater { job: 0.2, most: 0.1 };
    let hot = Outside::Hotter { job: 60.0, hottest: 54.0 };
    let words = farthest(&Wording::plain(), [near, far, hot].iter());
    assert_eq!(
        words,
        "100 % more water than any burn of a combination (100 L) and 6 K hotter than any burn of a combination ended (54 degC)"
    );
}

#[test]
fn spreads_have_the_digits_of_the_next_burn() {
    let interval = |lower, upper| Interval { lower, upper, confidence: 0.95 };
    let spread = Spread { value: 4.2, mean: interval(4.0, 4.4), next: Some(interval(3.6, 4.9)) };
    let words = Wording::plain().wood_spread(&spread);
    assert_eq!([words.value, words.next, words.mean], ["4.20 kg", "3.60 to 4.90 kg", "4.00 to 4.40 kg"]);
    let endless = Spread { value: 6000.0, mean: interval(5400.0, f64::INFINITY), next: None };
    let words = Wording::plain().time_spread(&endless);
    assert_eq!([words.value, words.next, words.mean], ["100 min", "not known", "90 min or more by measurement alone"]);
    assert_eq!([refuels((0, 0)), refuels((1, 2)), refuels((1, 4))], ["none", "1 or 2", "1 to 4"]);
}
