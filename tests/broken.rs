//! Broken concept files and scenarios: each is reported with its code at its place, and the whole message is a
//! snapshot.
//!
//! The first line of a file under `broken/` is a comment: the code and the place of its first report; in a scenario it
//! may be the second, after that which opens the front matter, and in a diagram it is the last column of the first row.
//! Files stand beside the graph `graphs/tiny`; those in `broken/alone` are checked by themselves.

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
        let first = bytes.split(|byte| *byte == b'\n').find(|line| *line != b"---").unwrap();
        let first = String::from_utf8_lossy(first).into_owned();
        let comment = first.rsplit_once(",# ").map_or(first.as_str(), |(_, comment)| comment);
        let comment = comment.trim_start_matches("# ").trim_start_matches("<!-- ").trim_end_matches(" -->");
        let (code, place) = comment.split_once(' ').unwrap_or_else(|| panic!("{path}: {first}"));
        Broken { code: code.to_owned(), place: place.to_owned(), path }
    };
    files_under("broken").into_iter().map(of).collect()
}

fn report(broken: &Broken) -> String {
    if broken.path.starts_with("broken/diagram/") {
        let run = toehold(&["explain", "--diagram", &broken.path]);
        assert_eq!(run.code, if run.err.contains("error[") { 2 } else { 0 }, "{}: {}", broken.path, run.err);
        return run.err;
    }
    let run = match broken.path.strip_prefix("broken/alone/") {
        Some(_) => toehold(&["check", "broken/alone"]),
        None => toehold(&["check", &broken.path, "--concepts", "graphs/tiny"]),
    };
    // What is only to be looked at is no fault.
    assert_eq!(run.code, i32::from(run.out.contains("error[")), "{}: {}", broken.path, run.err);
    run.out
}

#[test]
fn every_broken_file_is_reported_at_its_place() {
    let mut failures = Vec::new();
    for broken in broken() {
        let out = report(&broken);
        let place = format!("--> {}:{}", broken.path, broken.place);
        let found = out.split("\n\n").any(|fault| {
            let weights = ["error", "warning"].map(|weight| format!("{weight}[{}]", broken.code));
            weights.iter().any(|weight| fault.contains(weight)) && fault.lines().any(|line| line.trim() == place)
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
        let out = without_lines(&broken.path, &report(&broken));
        let name = broken.path.trim_start_matches("broken/").trim_end_matches(".yaml").trim_end_matches(".md");
        let name = name.trim_end_matches(".csv");
        let name = name.replace('/', "-");
        let compare = || settings.bind(|| insta::assert_snapshot!(name.clone(), out));
        if catch_unwind(std::panic::AssertUnwindSafe(compare)).is_err() {
            failures.push(broken.path);
        }
    }
    assert!(failures.is_empty(), "messages that changed: {failures:?}");
}

/// Scenarios are long and their layout is polished: in their snapshots the numbers of lines would change every time.
fn without_lines(path: &str, report: &str) -> String {
    if !path.to_lowercase().ends_with(".md") {
        return report.to_owned();
    }
    let plain = report.lines().map(|line| {
        let text = line.trim_start();
        if let Some(place) = text.strip_prefix("--> ").or_else(|| text.strip_prefix("::: ")) {
            return format!("--> {}", place.split(':').next().unwrap_or_default());
        }
        match line.split_once('|') {
            Some((gutter, quoted)) if gutter.trim().bytes().all(|byte| byte.is_ascii_digit()) => format!("|{quoted}"),
            _ => text.to_owned(),
        }
    });
    plain.map(|line| line + "\n").collect()
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
        for fault in report(&broken).split("\n\n").filter(|fault| fault.contains('[') && fault.contains("]: ")) {
            assert!(fault.contains("= hint: "), "{}\n{fault}", broken.path);
        }
    }
}
