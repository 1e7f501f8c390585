//! Broken concept files: each is reported with its code at its place, and the whole message is a snapshot.
//!
//! The first line of a file under `broken/` is a comment: the code and the place of its first report. Files stand
//! beside the graph `graphs/tiny`; those in `broken/alone` are checked by themselves.

use std::collections::BTreeSet;
use std::panic::catch_unwind;

use toehold::diagnostic::code;

use crate::program::{files_under, tests, toehold};

/// Codes that no file in the repository can show.
const WITHOUT_FILE: &[&str] = &["file-too-large"];

#[derive(Debug)]
struct Broken {
    path: String,
    code: String,
    place: String,
}

fn broken() -> Vec<Broken> {
    let of = |path: String| {
        let bytes = std::fs::read(tests().join(&path)).unwrap();
        let first = String::from_utf8_lossy(bytes.split(|byte| *byte == b'\n').next().unwrap()).into_owned();
        let (code, place) = first.trim_start_matches("# ").split_once(' ').unwrap_or_else(|| panic!("{path}: {first}"));
        Broken { code: code.to_owned(), place: place.to_owned(), path }
    };
    files_under("broken").into_iter().map(of).collect()
}

fn report(broken: &Broken) -> String {
    let run = match broken.path.strip_prefix("broken/alone/") {
        Some(_) => toehold(&["check", "broken/alone"]),
        None => toehold(&["check", &broken.path, "--concepts", "graphs/tiny"]),
    };
    assert_eq!(run.code, 1, "{}: {}", broken.path, run.err);
    run.out
}

#[test]
fn every_broken_file_is_reported_at_its_place() {
    let mut failures = Vec::new();
    for broken in broken() {
        let out = report(&broken);
        let place = format!("--> {}:{}", broken.path, broken.place);
        let found = out.split("\n\n").any(|fault| {
            fault.contains(&format!("error[{}]", broken.code)) && fault.lines().any(|line| line.trim() == place)
        });
        if !found {
            failures.push(format!("{broken:?}\n{out}"));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

#[test]
fn every_message_is_as_it_was_read() {
    let mut settings = insta::Settings::clone_current();
    settings.set_prepend_module_to_snapshot(false);
    settings.set_omit_expression(true);
    settings.set_snapshot_path("snapshots/broken");
    let mut failures = Vec::new();
    for broken in broken() {
        let out = report(&broken);
        let name = broken.path.trim_start_matches("broken/").trim_end_matches(".yaml").replace('/', "-");
        let compare = || settings.bind(|| insta::assert_snapshot!(name.clone(), out));
        if catch_unwind(std::panic::AssertUnwindSafe(compare)).is_err() {
            failures.push(broken.path);
        }
    }
    assert!(failures.is_empty(), "messages that changed: {failures:?}");
}

#[test]
fn every_code_has_a_broken_file_and_every_report_a_hint() {
    let shown: BTreeSet<String> = broken().into_iter().map(|broken| broken.code).collect();
    let missing: Vec<&str> = code::ALL
        .iter()
        .map(|code| code.name)
        .filter(|name| !shown.contains(*name) && !WITHOUT_FILE.contains(name))
        .collect();
    assert!(missing.is_empty(), "codes without a broken file: {missing:?}");
    let unknown: Vec<&String> = shown.iter().filter(|name| code::find(name).is_none()).collect();
    assert!(unknown.is_empty(), "codes that are not in the table: {unknown:?}");
    for broken in broken() {
        for fault in report(&broken).split("\n\n").filter(|fault| fault.contains("error[")) {
            assert!(fault.contains("= hint: "), "{}\n{fault}", broken.path);
        }
    }
}
