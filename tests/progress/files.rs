//! Progress files: taken in once, however often they are added; corrections; what is no progress file.

use std::fs;

use serde_json::Value;
use toehold::progress::{Store, read_file, write_file};

use super::{Place, attempt};

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|error| panic!("{error}: {text}"))
}

#[test]
fn a_file_counts_once_however_often_it_is_added() {
    let place = Place::new();
    let file = place.path("page.json");
    let page = file.to_str().expect("a path");
    let mut one = attempt("page-1", 1);
    // Saved in the middle of an attempt, and again at its end.
    let scores = std::mem::take(&mut one.scores);
    fs::write(&file, write_file(std::slice::from_ref(&one))).expect("a file");
    assert!(
        place.run(&["progress", "add", page], "").out.ends_with("attempts: 1 new, 0 known before; entries: 3 new\n")
    );
    one.scores = scores;
    fs::write(&file, write_file(&[one.clone(), attempt("page-2", 2)])).expect("a file");
    let run = place.run(&["progress", "add", page, page], "");
    assert!(run.out.ends_with("attempts: 1 new, 3 known before; entries: 7 new\n"), "{}", run.out);
    let before = place.run(&["progress", "--format", "json"], "").out;
    for _ in 0..2 {
        assert!(
            place
                .run(&["progress", "add", page], "")
                .out
                .ends_with("attempts: 0 new, 2 known before; entries: 0 new\n")
        );
    }
    assert_eq!(place.run(&["progress", "--format", "json"], "").out, before);
    assert_eq!(json(&before)["points"], serde_json::json!({"earned": 2, "of": 4}));
}

#[test]
fn what_is_exported_is_taken_in_elsewhere_alike() {
    let here = Place::new();
    let mut store = Store::open(&here.store()).expect("a store");
    for n in 0..5 {
        toehold::progress::record(&mut store, &attempt(&format!("id-{n}"), n)).expect("recorded");
    }
    drop(store);
    assert_eq!(here.run(&["progress", "void", "id-3", "b1", "--reason", "unclear"], "").code, 0);
    let file = here.path("out.json");
    let out = file.to_str().expect("a path");
    assert_eq!(here.run(&["progress", "export", out], "").code, 0);
    let run = here.run(&["progress", "export", out], "");
    assert!(run.code == 2 && run.err.contains("exists"), "{}", run.err);
    let there = Place::new();
    assert_eq!(there.run(&["progress", "add", out], "").code, 0);
    assert_eq!(there.run(&["progress", "export", "-"], "").out, fs::read_to_string(&file).expect("a file"));
    assert_eq!(there.run(&["progress", "--format", "csv"], "").out, here.run(&["progress", "--format", "csv"], "").out);
    let read = read_file(&fs::read_to_string(&file).expect("a file")).expect("attempts");
    assert_eq!(read, Store::open(&here.store()).expect("a store").attempts(None).expect("attempts"));
}

#[test]
fn an_id_that_stands_for_another_scenario_is_left_out() {
    let place = Place::new();
    let file = place.path("page.json");
    fs::write(&file, write_file(&[attempt("same-id", 1), attempt("same-id", 2), attempt("other-id", 3)]))
        .expect("a file");
    let run = place.run(&["progress", "add", file.to_str().expect("a path")], "");
    assert_eq!((run.code, run.out.lines().count()), (2, 3), "{}", run.out);
    assert!(run.err.contains("attempt `same-id` is there already, of another scenario"), "{}", run.err);
}

#[test]
fn points_are_voided_and_amended_and_scores_follow() {
    let place = Place::new();
    let file = place.path("page.json");
    fs::write(&file, write_file(&[attempt("first-1", 1), attempt("second-2", 2)])).expect("a file");
    place.run(&["progress", "add", file.to_str().expect("a path")], "");
    let points = || json(&place.run(&["progress", "--format", "json"], "").out)["points"].clone();
    let ok = |arguments: &[&str]| {
        let run = place.run(arguments, "");
        assert_eq!(run.code, 0, "{}", run.err);
    };
    assert_eq!(points(), serde_json::json!({"earned": 2, "of": 4}));
    ok(&["progress", "void", "first", "b2", "--reason", "the question was unclear"]);
    assert_eq!(points(), serde_json::json!({"earned": 2, "of": 3}));
    ok(&["progress", "amend", "second-2", "b2", "--earned", "yes"]);
    assert_eq!(points(), serde_json::json!({"earned": 3, "of": 3}));
    ok(&["progress", "amend", "first", "b2", "--earned", "no"]);
    ok(&["progress", "amend", "second", "b1", "--earned", "no"]);
    assert_eq!(points(), serde_json::json!({"earned": 2, "of": 4}));
    let report = json(&place.run(&["progress", "--format", "json"], "").out);
    let osmosis = &report["principles"][0];
    assert_eq!((&osmosis["id"], &osmosis["earned"], &osmosis["of"]), (&"osmosis".into(), &2.into(), &4.into()));
    // The habit of a point that is earned after all lost nothing.
    assert_eq!(report["habits"], serde_json::json!([{"id": "no-reason", "times": 1}]));
    // The scores themselves stand as they were given.
    let listed = json(&place.run(&["progress", "list", "second", "--format", "json"], "").out);
    assert_eq!((&listed[0]["scored"], &listed[0]["counts"]), (&"earned".into(), &"not-earned".into()));
    for (arguments, says) in [
        (&["progress", "void", "first", "z9"][..], "has no scored point `z9`"),
        (&["progress", "void", "third", "b1"], "there is no attempt `third`"),
        (&["progress", "amend", "", "b1", "--earned", "no"], "there is no attempt ``"),
        (&["progress", "void", "first", "=1"], "cannot be the label of a point"),
    ] {
        let run = place.run(arguments, "");
        assert!(run.code == 2 && run.err.contains(says), "{arguments:?}: {}", run.err);
    }
}

#[test]
fn what_is_no_progress_file_is_left_out_whole() {
    let place = Place::new();
    let good = write_file(&[attempt("good-1", 1)]);
    let with = |from: &str, to: &str| {
        assert!(good.contains(from), "{from}");
        good.replacen(from, to, 1)
    };
    let cases: Vec<(&str, Vec<u8>)> = vec![
        ("EOF while parsing", b"".to_vec()),
        ("EOF while parsing", good[..good.len() / 2].into()),
        ("missing field `toehold_progress`", b"{\"attempts\": []}".to_vec()),
        ("version 2 is newer than 1", with("\"toehold_progress\": 1", "\"toehold_progress\": 2").into()),
        ("there is no version 0", with("\"toehold_progress\": 1", "\"toehold_progress\": 0").into()),
        ("unknown field `scroes`", with("\"scores\"", "\"scroes\"").into()),
        ("cannot be the id of an attempt", with("good-1", "\\u001b[2J").into()),
        ("cannot be the id of an attempt", with("good-1", &"x".repeat(500)).into()),
        ("is no moment", with("2026-09-01", "2026-02-31").into()),
        ("without control characters", with("Hasty plate", "Hasty\\nplate").into()),
        ("expected a boolean", with("\"earned\": true", "\"earned\": 1").into()),
        ("unknown variant `half`", with("\"full\"", "\"half\"").into()),
        ("`seed` or `points` is out of range", with("\"points\": 2", "\"points\": 4000000000").into()),
        ("`seed` or `points` is out of range", with("\"seed\": 1", "\"seed\": 9007199254740992").into()),
        ("invalid value", with("\"seed\": 1", "\"seed\": -1").into()),
        (
            "recursion limit",
            with("\"form\"", &format!("\"front\": {}{}, \"form\"", "[".repeat(1000), "]".repeat(1000))).into(),
        ),
        ("a progress file is one JSON object", b"[1, 2]".to_vec()),
        ("a progress file is one JSON object", b"\"progress\"".to_vec()),
        ("expected an attempt as a JSON object", b"{\"toehold_progress\": 1, \"attempts\": [7]}".to_vec()),
        ("is not UTF-8 text", vec![0xff, 0xfe, 0x00]),
    ];
    let file = place.path("page.json");
    for (says, bytes) in cases {
        fs::write(&file, &bytes).expect("a file");
        let run = place.run(&["progress", "add", file.to_str().expect("a path")], "");
        assert!(run.code == 2 && run.err.contains(says), "{says}: {} {}", run.code, run.err);
        assert!(run.err.contains("\nhint: ") && !run.err.contains('\u{1b}'), "{}", run.err);
        assert_eq!(run.out, "attempts: 0 new, 0 known before; entries: 0 new\n");
    }
    let run = place.run(&["progress", "add", "no-such.json"], "");
    assert!(run.code == 2 && run.err.contains("it is not there"), "{}", run.err);
    // The place is that of the fault.
    fs::write(&file, with("\"earned\": true", "\"earned\": 1")).expect("a file");
    let run = place.run(&["progress", "add", file.to_str().expect("a path")], "");
    let line = good.lines().position(|line| line.contains("\"earned\": true")).expect("a line") + 1;
    assert!(run.err.contains(&format!("page.json:{line}:")), "{}", run.err);
}
