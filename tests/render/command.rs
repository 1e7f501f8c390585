//! `toehold render`, and what `generate` writes beside its Markdown.

use std::fs;

use tempfile::TempDir;

use super::SCENARIOS;
use crate::program::toehold;

/// A folder with the first scenario in it.
fn folder() -> (TempDir, String) {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("scenario.md");
    fs::write(&path, &SCENARIOS[0].1).unwrap();
    let path = path.to_str().unwrap().to_owned();
    (folder, path)
}

#[test]
fn the_page_of_a_file_is_that_of_its_generation() {
    let (_folder, path) = folder();
    let of_file = toehold(&["render", &path]);
    let generated = toehold(&["generate", "--seed", "0", "--format", "html"]);
    assert_eq!((of_file.code, generated.code), (0, 0), "{}{}", of_file.err, generated.err);
    assert_eq!(of_file.out, generated.out);
}

#[test]
fn the_figures_of_a_file_are_those_of_its_generation() {
    let (folder, path) = folder();
    let out = folder.path().join("out");
    let run = toehold(&["generate", "--seed", "0", "--out", out.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.err);
    let id = &SCENARIOS[0].0.id;
    for (ending, figure) in [("", "plot"), ("-apparatus", "apparatus")] {
        let written = fs::read_to_string(out.join(format!("{id}{ending}.svg"))).unwrap();
        assert_eq!(toehold(&["render", &path, "--to", "svg", "--figure", figure]).out, written, "{figure}");
    }
    assert_eq!(fs::read_to_string(out.join(format!("{id}.md"))).unwrap(), SCENARIOS[0].1);
}

#[test]
fn a_students_copy_is_markdown_or_a_page() {
    let (_folder, path) = folder();
    for to in ["md", "html"] {
        let run = toehold(&["render", &path, "--student", "--to", to]);
        assert_eq!(run.code, 0);
        assert!(run.out.contains(&SCENARIOS[0].0.title) && !run.out.contains("Scoring guide"), "{to}");
    }
    assert_eq!(toehold(&["render", &path, "--to", "md"]).out, SCENARIOS[0].1);
}

#[test]
fn a_file_is_replaced_only_with_force() {
    let (folder, path) = folder();
    let page = folder.path().join("page.html");
    let page = page.to_str().unwrap();
    assert_eq!(toehold(&["render", &path, "--out", page]).code, 0);
    let again = toehold(&["render", &path, "--out", page]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("exists") && again.err.contains("--force"), "{}", again.err);
    assert_eq!(toehold(&["render", &path, "--out", page, "--force"]).code, 0);
}

/// Renders these bytes and returns what is said on standard error, without the folder.
#[track_caller]
fn refused(bytes: &[u8], arguments: &[&str]) -> String {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("x.md");
    fs::write(&path, bytes).unwrap();
    let path = path.to_str().unwrap();
    let run = toehold(&[&["render", path], arguments].concat());
    assert_eq!(run.code, 2, "{}", run.err);
    assert!(run.out.is_empty() && !run.err.contains("panicked"), "{}", run.err);
    run.err.replace(path, "x.md")
}

#[track_caller]
fn says(bytes: impl AsRef<[u8]>, expected: &str) {
    let said = refused(bytes.as_ref(), &[]);
    assert!(said.starts_with(&format!("error: {expected}")), "{said}");
    assert!(said.contains("\nhint: "), "{said}");
}

#[test]
fn faults_of_a_file_are_told_with_their_place() {
    let text = &SCENARIOS[0].1;
    let line_of = |start: &str| text.lines().position(|line| line.starts_with(start)).unwrap() + 1;
    says("", "x.md:1:1: there is no front matter");
    says("# A title\n\nSome text.\n", "x.md:1:1: there is no front matter");
    says("---\ntoehold: 1\n", "x.md:1:1: the front matter has no end");
    says(b"---\nab\xff\n---\n", "x.md:2:3: this is not UTF-8 text");
    let seed = line_of("seed:");
    let broken = text.replacen("\nseed: ", "\nseed: many ", 1);
    says(&broken, &format!("x.md:{seed}:7: the front matter cannot be read: "));
    let unknown = text.replacen("\nseed: ", "\nseeds: ", 1);
    says(&unknown, &format!("x.md:{seed}:1: the front matter cannot be read: "));
    says("\n\n---\ntoehold: 1\n", "x.md:3:1: the front matter has no end");
    // Front matter stands where `check` finds it too: below blank lines, and up to a line of three full stops.
    says(format!("\u{feff}\n\n{broken}"), &format!("x.md:{}:7: the front matter cannot be read: ", seed + 2));
    let (front, body) = text.split_once("\n---\n").unwrap();
    let dotted = toehold::render::Document::read(&format!("\n{front}\n...\n{body}")).unwrap();
    let plain = toehold::render::Document::read(text).unwrap();
    assert_eq!((&dotted.front, &dotted.title), (&plain.front, &plain.title));
    let lines = |document: &toehold::render::Document, more| -> Vec<usize> {
        document.sections.iter().map(|section| section.line + more).collect()
    };
    assert_eq!(lines(&dotted, 0), lines(&plain, 1));
    let shape = line_of("apparatus:") + 1;
    let panel = text.replacen("\"shape\":\"", "\"shape\":\"un", 1);
    says(&panel, &format!("x.md:{shape}:"));
    says("---\n---\n", "x.md:");
    says("---\n[1, 2]\n---\n", "x.md:2:");
}

#[test]
fn a_table_that_cannot_be_plotted_is_told() {
    let (scenario, text) = &SCENARIOS[0];
    let row = &scenario.data.printed[1];
    let broken = text.replacen(&format!("| {} | {} |", row[0], row[1]), &format!("| {} | much |", row[0]), 1);
    let said = refused(broken.as_bytes(), &["--to", "svg"]);
    let line = text.lines().position(|line| line.starts_with('|')).unwrap() + 1;
    assert!(said.starts_with(&format!("error: x.md:{line}: no data table that can be plotted")), "{said}");
}

#[test]
fn paths_that_lead_nowhere_are_told() {
    for (path, expected) in [("no-such-file.md", "it is not there"), ("broken", "it is a folder")] {
        let run = toehold(&["render", path]);
        assert_eq!(run.code, 2);
        assert!(run.err.contains(expected) && run.err.contains("hint: "), "{}", run.err);
    }
}
