//! `toehold review` and `toehold read` from the command line.

use std::fs;

use serde_json::Value;

use crate::program::toehold;

const GUIDE: &str = "question: Explain why the cell swells in pure water.
command_term: explain
points:
  - id: p1
    statement: The water potential outside is higher, so water enters the cell by osmosis.
    accept: [water moves down its water potential gradient into the cell]
    reject: [salt enters the cell]
  - id: p2
    statement: The volume of the cell rises.
";

/// A folder with these files, and paths to them.
fn files(list: &[(&str, &str)]) -> (tempfile::TempDir, Vec<String>) {
    let folder = tempfile::tempdir().unwrap();
    let paths = list.iter().map(|(name, text)| {
        let path = folder.path().join(name);
        fs::write(&path, text).unwrap();
        path.to_str().unwrap().to_owned()
    });
    let paths = paths.collect();
    (folder, paths)
}

#[test]
fn a_plain_guide_and_a_class() {
    let answers = r#"[{"id": "Ana", "text": "Water goes in by osmosis since the water potential outside is higher. So its volume goes up."},
        {"id": "Ben", "text": "The volume of the cell falls."}]"#;
    let (_folder, paths) = files(&[("guide.yaml", GUIDE), ("class.json", answers)]);
    let run = toehold(&["review", &paths[0], &paths[1], "--format", "json"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let reviews: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(reviews[0]["response"], "Ana");
    assert_eq!(reviews[0]["points"][0]["status"], "found");
    assert_eq!(reviews[0]["points"][1]["status"], "found");
    assert_eq!(reviews[1]["points"][1]["status"], "contradicted");
}

#[test]
fn evidence_is_where_it_says() {
    let text = "Größer: “µ”. The volume of the cell rises.";
    let answers = serde_json::json!([{ "id": "x", "text": text }]).to_string();
    let (_folder, paths) = files(&[("guide.yaml", GUIDE), ("class.json", &answers)]);
    let run = toehold(&["review", &paths[0], &paths[1], "--format", "json"]);
    let reviews: Value = serde_json::from_str(&run.out).unwrap();
    let evidence = &reviews[0]["points"][1]["evidence"][0];
    let place = |key: &str| usize::try_from(evidence[key].as_u64().unwrap()).unwrap();
    let cut: String = text.chars().skip(place("start")).take(place("end") - place("start")).collect();
    assert_eq!(evidence["text"], cut.as_str());
    assert!(cut.contains("volume"), "{cut}");
}

#[test]
fn a_scenario_and_its_parts() {
    let scenario = "marking/scenarios/barrelled-pouchlet-tank-long-71.md";
    let (_folder, paths) = files(&[("answers.md", "(d) x = 0.00019 × 5 × 4200 = 3.99 cm\n\n(f)\n")]);
    let run = toehold(&["review", scenario, &paths[0]]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.out.contains("d1   found") && run.out.contains("d2   found"), "{}", run.out);
    assert!(run.out.ends_with("Advice from words alone: the score is yours.\n"), "{}", run.out);
}

#[track_caller]
fn fails(arguments: &[&str], message: &str) {
    let run = toehold(arguments);
    assert_eq!(run.code, 2, "{}", run.out);
    assert!(run.err.contains(message) && run.err.contains("hint: "), "{}", run.err);
}

#[test]
fn bad_input_is_met_with_place_and_hint() {
    let (_folder, paths) = files(&[
        ("guide.yaml", GUIDE),
        ("broken.yaml", "question: Q\npoints:\n  - id: p\n    statment: s\n"),
        ("list.yaml", "- id: a\n  txt: x\n"),
        ("empty.md", "\n"),
        ("other.md", "(z) It rises."),
        ("note.md", "# No scenario\n"),
    ]);
    let [guide, broken, list, empty, other, note] = paths.iter().map(String::as_str).collect::<Vec<_>>()[..] else {
        panic!("six files were written")
    };
    fails(&["review", broken, other], "broken.yaml:4:5: ");
    fails(&["review", guide, list], "list.yaml:2:3: ");
    fails(&["review", guide, empty], "there is no response");
    fails(&["review", note, other], "there is no front matter");
    fails(&["review", "marking/scenarios/hungry-rack-short-71.md", other], "no question has the label `z`");
    fails(&["review", guide, "nowhere.md"], "it is not there");
    fails(&["read", "nowhere.md"], "it is not there");
}

#[test]
fn reading_shows_what_was_read() {
    let (_folder, paths) = files(&[("text.txt", "The volume does not rise, because 5 mL of water leaves.")]);
    let run = toehold(&["read", &paths[0], "--format", "json"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let view: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(view["directions"][0]["direction"], "not-up");
    assert_eq!(view["numbers"][0]["unit"], "mL");
    assert_eq!(view["negations"][0]["text"], "not");
    assert_eq!(view["links"][0]["kind"], "because");
    assert!(toehold(&["read", &paths[0]]).out.contains("direction NotUp"));
}
