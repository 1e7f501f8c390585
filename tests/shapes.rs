//! What programs and shells get: JSON with a version, completions, manual pages, closed pipes, no colour where none is wanted.

use std::io::{BufRead as _, BufReader};
use std::process::{Command, Stdio};

use serde_json::Value;

use crate::program::{tests, toehold};

const PROGRAM: &str = env!("CARGO_BIN_EXE_toehold");

#[test]
fn every_reporting_command_has_a_version() {
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let diagram = file("pond.csv", "from,sign,to\nalgae,+,snail\nsnail,-,snail\nalgae,-,algae\n");
    let class = file("class.json", r#"{"toehold_progress":1,"student":"K1","attempts":[]}"#);
    let answer = file("answer.txt", "The volume falls because water leaves.");
    let made = toehold(&["generate", "--seed", "1", "--out", folder.path().join("made").to_str().unwrap()]).out;
    let scenario = made.trim().to_owned();
    let store = folder.path().join("store");
    let store = store.to_str().unwrap();
    assert_eq!(toehold(&["progress", "add", "--data", store, &class]).code, 0);
    for arguments in [
        &["check"] as &[&str],
        &["check", &scenario],
        &["explain", "detergent-concentration", "absorbance"],
        &["explain", "--influence", "dye-absorbs"],
        &["explain", "--diagram", &diagram],
        &["generate", "--seed", "1"],
        &["graph"],
        &["laws"],
        &["laws", "show", "q10"],
        &["laws", "eval", "quenching", "constant=0.1", "quencher=5"],
        &["map", &scenario],
        &["map", "--class", &class],
        &["progress", "--data", store],
        &["read", &answer],
    ] {
        let run = toehold(&[arguments, &["--format", "json"]].concat());
        assert_eq!(run.code, 0, "{arguments:?} {}", run.err);
        let value: Value = serde_json::from_str(&run.out).unwrap();
        // A list has its version in each of its entries.
        let first = value.get(0).unwrap_or(&value);
        let version = ["version", "toehold_report"].iter().find_map(|key| first.get(key)).and_then(Value::as_u64);
        // A step of a scenario has `replies` since version 2.
        let expected = if arguments.first() == Some(&"generate") { 2 } else { 1 };
        assert_eq!(version, Some(expected), "{arguments:?} {first:#}");
    }
}

#[test]
fn completions_are_taken_by_each_shell() {
    let folder = tempfile::tempdir().unwrap();
    for (shell, program) in [("bash", "bash"), ("zsh", "zsh"), ("fish", "fish"), ("elvish", ""), ("powershell", "")] {
        let run = toehold(&["completions", shell]);
        assert_eq!((run.code, run.err.as_str()), (0, ""));
        for word in ["generate", "explain-refusals", "watch"] {
            assert!(run.out.contains(word), "{shell}: {word}");
        }
        let path = folder.path().join(shell);
        std::fs::write(&path, run.out).unwrap();
        // `-n` reads without running, in each of the three.
        match Command::new(program).arg("-n").arg(&path).output() {
            Ok(read) => assert!(read.status.success(), "{shell}: {}", String::from_utf8_lossy(&read.stderr)),
            Err(_) => crate::program::skipped(&format!("nothing here reads completions of {shell}")),
        }
    }
    assert_eq!(toehold(&["completions", "tea"]).code, 2);
}

#[test]
fn there_is_a_manual_page_for_every_command() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("man1");
    let run = toehold(&["man", "--out", out.to_str().unwrap()]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    for name in ["toehold", "toehold-map", "toehold-check", "toehold-progress-add", "toehold-laws-eval"] {
        let page = std::fs::read_to_string(out.join(format!("{name}.1"))).unwrap();
        assert!(page.contains(".TH ") && page.contains(".SH NAME"), "{name}");
    }
    let listed = toehold(&["--help"]).out;
    let commands = listed.split("Commands:").nth(1).unwrap().split("Options:").next().unwrap();
    let named = commands.lines().filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    for name in named.map(|line| line.split_whitespace().next().unwrap()).filter(|name| *name != "help") {
        assert!(out.join(format!("toehold-{name}.1")).exists(), "{name}");
    }
    let again = toehold(&["man", "--out", out.to_str().unwrap()]);
    assert!(again.code == 2 && again.err.contains("exists"), "{}", again.err);
}

#[test]
fn a_reader_that_goes_away_is_no_fault() {
    for arguments in [
        &["map", "../scenarios", "--format", "json"] as &[&str],
        &["graph", "--format", "jsonld"],
        &["laws", "--format", "json"],
        &["generate", "--count", "3", "--seed", "1"],
        &["check", "broken/scenario/several-faults.md"],
    ] {
        let mut child = Command::new(PROGRAM)
            .args(arguments)
            .current_dir(tests())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut first = String::new();
        BufReader::with_capacity(1, child.stdout.take().unwrap()).read_line(&mut first).unwrap();
        let ended = child.wait_with_output().unwrap();
        let said = String::from_utf8_lossy(&ended.stderr);
        assert!(!first.is_empty() && !said.contains("panicked") && !said.contains("could not write"), "{said}");
        assert!(ended.status.code().is_some_and(|code| code < 2), "{arguments:?} {:?} {said}", ended.status);
    }
}

/// What a command prints on a terminal, which `script` gives it; none without that.
fn on_terminal(line: &str, environment: &[(&str, &str)]) -> Option<String> {
    let mut command = Command::new("script");
    command.args(["-qec", line, "/dev/null"]).current_dir(tests());
    command.stdin(Stdio::null()).env_remove("NO_COLOR").envs(environment.iter().copied());
    Some(String::from_utf8_lossy(&command.output().ok()?.stdout).into_owned())
}

#[test]
fn tables_are_fitted_to_a_terminal_and_to_nothing_else() {
    let piped = toehold(&["laws"]).out;
    assert!(piped.lines().any(|line| line.chars().count() > 60));
    let Some(shown) = on_terminal(&format!("stty rows 40 cols 60; {PROGRAM} laws"), &[]) else {
        return crate::program::skipped("there is no `script`");
    };
    if !shown.contains("michaelis-menten") {
        return crate::program::skipped("`script` gave no terminal");
    }
    let too_long = |line: &&str| line.chars().count() > 60 && line.trim_start().contains(' ');
    assert_eq!(shown.lines().map(|line| line.trim_end_matches('\r')).find(too_long), None, "{shown}");
    let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    assert_eq!(words(&shown), words(&piped), "no word is lost");
}

#[test]
fn colours_are_for_terminals_and_only_where_wanted() {
    let broken = "broken/load/missing-field.yaml";
    assert!(!toehold(&["check", broken]).out.contains('\u{1b}'));
    let check = format!("{PROGRAM} check {broken}");
    let (plain, dumb, coloured) = (
        on_terminal(&check, &[("TERM", "xterm"), ("NO_COLOR", "1")]),
        on_terminal(&check, &[("TERM", "dumb")]),
        on_terminal(&check, &[("TERM", "xterm")]),
    );
    let (Some(plain), Some(dumb), Some(coloured)) = (plain, dumb, coloured) else {
        crate::program::skipped("there is no `script`");
        return;
    };
    if coloured.contains("error") {
        assert!(coloured.contains('\u{1b}') && !plain.contains('\u{1b}'), "{plain}");
        assert!(!dumb.contains('\u{1b}'), "{dumb}");
    } else {
        crate::program::skipped("`script` gave no terminal");
    }
}
