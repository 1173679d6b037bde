//! Completions, manual pages and the examples of `--help`.

use super::calefact;
use calefact_tests::Workspace;

const COMMANDS: [&str; 8] = ["new", "run", "check", "predict", "plan", "sheet", "book", "simulate"];

#[test]
fn every_shell_completes_every_command() {
    let w = Workspace::new();
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = calefact(w.path(), &["completions", shell]);
        assert_eq!((script.code, script.stderr.as_str()), (0, ""), "{shell}");
        for command in COMMANDS {
            assert!(script.stdout.contains(command), "{shell}: {command}");
        }
    }
    let wrong = calefact(w.path(), &["completions", "csh"]);
    assert!(wrong.code == 2 && wrong.stderr.contains("bash"), "{}", wrong.stderr);
}

#[test]
fn every_command_has_its_manual_page() {
    let w = Workspace::new();
    assert_eq!(calefact(w.path(), &["man", "man1"]).code, 0);
    let pages = w.files("man1");
    for command in COMMANDS {
        let page = String::from_utf8_lossy(&pages[&format!("calefact-{command}.1")]);
        assert!(page.contains(".SH SYNOPSIS") && page.contains("Exit codes"), "{command}");
    }
    w.write("file", "x");
    assert_eq!(calefact(w.path(), &["man", "file/below"]).code, 3);
}

/// The options of the examples exist: each is parsed as far as the names of its files.
#[test]
fn every_help_has_an_example_that_is_understood() {
    let w = Workspace::new();
    for command in COMMANDS {
        let help = calefact(w.path(), &[command, "--help"]).stdout;
        let examples = help.split("Examples:\n").nth(1).and_then(|rest| rest.split("\n\n").next()).expect("examples");
        for line in examples.lines() {
            let line = line.trim().split(" > ").next().expect("a command").replace("mine", "none-such");
            let mut args: Vec<&str> = Vec::new();
            for (index, part) in line.split('"').enumerate() {
                if index % 2 == 1 { args.push(part) } else { args.extend(part.split_whitespace()) }
            }
            let outcome = calefact(w.path(), &args[1..]);
            assert!(args[1] == command && !outcome.stderr.contains("Usage:"), "{line}: {}", outcome.stderr);
        }
    }
}
