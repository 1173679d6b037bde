//! Questions on a terminal, in the place of options that were not given. An empty answer leaves the matter open.

use crate::args::{NewArgs, Units};
use crate::messages;
use std::io::{self, BufRead, IsTerminal, Write};

/// Asks for what the options leave open, where a person is there to answer.
pub(super) fn ask(args: &mut NewArgs) {
    if !(io::stdin().is_terminal() && io::stderr().is_terminal()) {
        return;
    }
    messages::say("a few questions; press Enter where you do not know, and write it into dataset.toml later");
    let _ = ask_at(args, &mut io::stdin().lock());
}

/// The questions in order; `None` where the answers end.
fn ask_at(args: &mut NewArgs, answers: &mut impl BufRead) -> Option<()> {
    if args.units.is_none() {
        let answer = answer(answers, "Units: metric, or us (degF, lb, US gallons) [metric]:")?;
        let is_us = answer.to_lowercase().starts_with('u');
        args.units = (!answer.is_empty()).then_some(if is_us { Units::Us } else { Units::Metric });
    }
    if args.stove.is_empty() {
        args.stove = names(answers, "Name of the stove, or of several, separated by commas:")?;
    }
    if args.fuel.is_empty() {
        args.fuel = names(answers, "Wood, such as \"Spruce\", or several, separated by commas:")?;
    }
    if args.vessel.is_none() {
        args.vessel = stated(answer(answers, "Name of the vessel, such as \"Steel drum\":")?);
    }
    if args.water.is_none() {
        args.water = stated(answer(answers, "Water in it, with its unit, such as 120 L:")?);
    }
    if args.thermometer.is_none() {
        args.thermometer = stated(answer(answers, "Tolerance of the thermometer, such as 0.5 degC:")?);
    }
    if args.scale.is_none() {
        args.scale = stated(answer(answers, "Tolerance of the scale, such as 50 g:")?);
    }
    Some(())
}

/// An answer that is not blank.
fn stated(answer: String) -> Option<String> {
    Some(answer).filter(|text| !text.is_empty())
}

fn names(answers: &mut impl BufRead, question: &str) -> Option<Vec<String>> {
    let answer = answer(answers, question)?;
    Some(answer.split(',').map(str::trim).filter(|name| !name.is_empty()).map(Into::into).collect())
}

/// The answer to a question, which may be blank; `None` where no answer comes.
fn answer(answers: &mut impl BufRead, question: &str) -> Option<String> {
    let _ = write!(io::stderr(), "{question} ");
    let mut line = String::new();
    let read = answers.read_line(&mut line).ok()?;
    (read > 0).then(|| line.trim().to_owned())
}

#[cfg(test)]
mod tests {
    use super::ask_at;
    use crate::args::{Args, Command, NewArgs, Units};
    use clap::Parser;

    fn new(options: &[&str]) -> NewArgs {
        let args = Args::try_parse_from([&["calefact", "new", "mine"], options].concat()).expect("arguments");
        let Command::New(args) = args.command else { panic!("another command") };
        *args
    }

    #[test]
    fn answers_stand_for_options_and_blanks_for_none() {
        let mut args = new(&["--vessel", "Drum"]);
        let answers = "US\nBox stove, Rocket stove\n\n30 gal_us\n\n2 [oz_av]\n";
        assert_eq!(ask_at(&mut args, &mut answers.as_bytes()), Some(()));
        let wanted = new(&[
            "--vessel",
            "Drum",
            "--units",
            "us",
            "--stove",
            "Box stove",
            "--stove",
            "Rocket stove",
            "--water",
            "30 gal_us",
            "--scale",
            "2 [oz_av]",
        ]);
        assert_eq!(args, wanted);
        assert_eq!(args.units, Some(Units::Us));
    }

    #[test]
    fn where_the_answers_end_the_rest_stays_open() {
        let mut args = new(&[]);
        assert_eq!(ask_at(&mut args, &mut "\nBox\n".as_bytes()), None);
        assert_eq!((args.units, args.stove, args.water), (None, vec!["Box".to_owned()], None));
    }
}
