//! Rough handling: files that are no scenarios, and scenarios with any bytes changed. There is always an answer.

use std::fmt::Write as _;
use std::sync::OnceLock;

use proptest::prelude::*;
use serde_json::Value;

use super::Desk;
use crate::program::toehold;

struct Fixture {
    desk: Desk,
    texts: Vec<String>,
}

fn fixture() -> &'static Fixture {
    static FIXTURE: OnceLock<Fixture> = OnceLock::new();
    FIXTURE.get_or_init(|| {
        let desk = Desk::new();
        let texts = desk.scenarios(5, 6);
        Fixture { desk, texts }
    })
}

#[track_caller]
fn only(bytes: &[u8], code: &str) {
    let found = fixture().desk.proof(bytes.to_vec());
    let codes: Vec<&str> = found.diagnostics.iter().map(|found| found.code.name).collect();
    assert_eq!(codes, [code], "{}", found.text());
    assert!(found.diagnostics.iter().all(|found| !found.hints.is_empty()));
}

#[test]
fn what_is_no_scenario_is_said_to_be_none() {
    only(b"", "empty-file");
    only(b"\n \n", "empty-file");
    only(b"# A title\n\nText.\n", "front-matter-missing");
    only(b"---\ntoehold: 1\n", "front-matter-malformed");
    only(b"---\n---\n", "front-matter-malformed");
    only(b"---\n- 1\n---\n", "wrong-type");
    only(b"---\ntoehold: 99\ncolour: red\n---\n", "newer-format");
    only(&[0xff, 0xfe, 0, 1, 2], "not-utf8");
    only(&[0; 4000], "front-matter-missing");
    let mut latin = fixture().texts[0].clone().into_bytes();
    latin.push(0xe9);
    only(&latin, "not-utf8");
}

#[test]
fn a_scenario_that_breaks_off_anywhere_is_reported() {
    let text = &fixture().texts[0];
    // After the map nothing but words is to come.
    let whole = text.find("## Map").unwrap();
    for part in 1..40 {
        let mut end = whole * part / 40;
        while !text.is_char_boundary(end) {
            end += 1;
        }
        let found = fixture().desk.proof(text.as_bytes()[..end].to_vec());
        assert!(!found.diagnostics.is_empty(), "cut at {end}");
    }
}

#[test]
fn bombs_and_floods_are_answered_in_time() {
    let text = &fixture().texts[0];
    let mut bomb = String::from("a0: &a0 [x, x]\n");
    for n in 1..40 {
        writeln!(bomb, "a{n}: &a{n} [*a{0}, *a{0}, *a{0}, *a{0}]", n - 1).unwrap();
    }
    let flood = |unit: &str| unit.repeat(3_000_000 / unit.len());
    let mut texts = vec![
        text.replacen("toehold: 1\n", &format!("toehold: 1\n{bomb}"), 1),
        text.replacen("sides: []", &format!("sides: {}", "[".repeat(50_000)), 1),
        text.replacen("noiseless: [", &format!("noiseless: [{}", "1, ".repeat(200_000)), 1),
    ];
    for unit in [
        "7 ",
        "7",
        "(",
        "rises ",
        "# a\n",
        "## b7\n",
        "| 1 | 2 |\n",
        "(a) x *(1)*\n\n",
        "1. x\n",
        "−",
        "1,000",
        "**",
        "⁻⁹",
    ] {
        texts.push(text.replacen("## Data", &format!("{}\n## Data", flood(unit)), 1));
        texts.push(text.replacen("| point |", &format!("{}\n| point |", flood(unit)), 1));
    }
    for text in texts {
        // Some of it is no fault: a teacher may write as many brackets as she likes.
        assert!(fixture().desk.proof(text.into_bytes()).diagnostics.len() <= 60);
    }
}

#[test]
fn a_file_of_100_megabytes_is_not_read() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("huge.md");
    std::fs::File::create(&path).unwrap().set_len(100 * 1024 * 1024).unwrap();
    let run = toehold(&["check", path.to_str().unwrap()]);
    assert_eq!(run.code, 1, "{}", run.err);
    assert!(run.out.starts_with("error[file-too-large]") && run.out.contains("104857600 bytes"), "{}", run.out);
}

#[test]
fn folders_are_summed_up_and_notes_passed_over() {
    let folder = tempfile::tempdir().unwrap();
    let inner = folder.path().join("monday/morning");
    std::fs::create_dir_all(&inner).unwrap();
    let texts = &fixture().texts;
    std::fs::write(folder.path().join("a.md"), &texts[0]).unwrap();
    std::fs::write(inner.join("b.md"), &texts[1]).unwrap();
    std::fs::write(folder.path().join("README.md"), "# About\n").unwrap();
    let path = folder.path().to_str().unwrap();
    let run = toehold(&["check", path]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{}", run.out);
    assert!(run.out.contains("README.md` has no front matter: it was passed over\n"), "{}", run.out);
    assert!(run.out.ends_with("\n2 scenarios, no fault\n"), "{}", run.out);

    std::fs::write(inner.join("b.md"), texts[1].replacen("points. Invented", "points and more. Invented", 1)).unwrap();
    assert!(toehold(&["check", path]).out.ends_with("2 scenarios, no fault\n"));
    std::fs::write(inner.join("b.md"), texts[1].replacen(" points.", "1 points.", 1)).unwrap();
    let run = toehold(&["check", path]);
    assert_eq!(run.code, 1);
    assert!(run.out.ends_with("\n2 scenarios, 1 fault in 1 file\n"), "{}", run.out);
    let json = toehold(&["check", path, "--format", "json"]);
    let object: Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!((json.code, &object["ok"]), (1, &false.into()));
    assert_eq!((&object["files"][0]["ok"], &object["files"][1]["ok"]), (&true.into(), &false.into()));
    let fault = &object["files"][1]["faults"][0];
    assert_eq!(fault["code"], "points-differ");
    assert!(
        fault["path"].as_str().unwrap().ends_with("b.md")
            && fault["source_line"].as_str().unwrap().contains("1 points")
    );
    assert_eq!(object["skipped"].as_array().unwrap().len(), 1);

    let named = toehold(&["check", folder.path().join("README.md").to_str().unwrap()]);
    assert_eq!(named.code, 1);
    assert!(named.out.starts_with("error[front-matter-missing]"), "{}", named.out);
}

#[test]
fn what_cannot_be_read_and_faulty_concepts_are_another_exit_code() {
    assert_eq!(toehold(&["check", "no-such.md"]).code, 2);
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("a.md"), &fixture().texts[0]).unwrap();
    std::fs::write(folder.path().join("a.yaml"), "entities: 7\n").unwrap();
    let run = toehold(&["check", folder.path().to_str().unwrap()]);
    assert_eq!(run.code, 2, "{}", run.out);
    assert!(run.out.starts_with("error[wrong-type]") && run.err.contains("no scenario was checked"), "{}", run.err);
    let concepts = folder.path().to_str().unwrap();
    let run = toehold(&["check", "broken/scenario/unknown-rig.md", "--concepts", concepts]);
    assert_eq!(run.code, 2, "{}", run.out);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes_may_change(
        which in 0_usize..6,
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0_usize..30, prop::collection::vec(any::<u8>(), 0..12)), 1..6),
    ) {
        let fixture = fixture();
        let mut bytes = fixture.texts[which].clone().into_bytes();
        for (at, gone, new) in edits {
            let start = at.index(bytes.len() + 1).min(bytes.len());
            let end = (start + gone).min(bytes.len());
            bytes.splice(start..end, new);
        }
        fixture.desk.proof(bytes);
    }

    #[test]
    fn any_characters_may_change(
        which in 0_usize..6,
        edits in prop::collection::vec((any::<prop::sample::Index>(), 0_usize..30, "[-−0-9.,%×|()*#\\n a-zµ⁻¹]{0,12}"), 1..6),
    ) {
        let fixture = fixture();
        let mut letters: Vec<char> = fixture.texts[which].chars().collect();
        for (at, gone, new) in edits {
            let start = at.index(letters.len() + 1).min(letters.len());
            let end = (start + gone).min(letters.len());
            letters.splice(start..end, new.chars());
        }
        fixture.desk.proof(String::from_iter(letters).into_bytes());
    }
}
