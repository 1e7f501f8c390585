//! `toehold check` on files and folders, good, bad and unreadable.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use serde_json::Value;
use toehold::concepts::load_and_check;
use toehold::source::Sources;

use crate::program::{tests, toehold};

fn tiny(sources: &mut Sources) {
    for name in ["bench.yaml", "separation.yaml"] {
        sources.add(name, fs::read(tests().join("graphs/tiny").join(name)).unwrap());
    }
}

#[test]
fn a_good_folder_is_summed_up() {
    let run = toehold(&["check", "graphs/tiny"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    assert!(run.out.starts_with("No fault. Graph "), "{}", run.out);
    assert!(run.out.contains("2 entities, 4 quantities, 3 influences"), "{}", run.out);
    assert!(run.out.contains("Separation (4 quantities, 3 influences, 2 principles)"), "{}", run.out);
}

#[test]
fn json_has_the_same_facts() {
    let good: Value = serde_json::from_str(&toehold(&["check", "graphs/tiny", "--format", "json"]).out).unwrap();
    assert_eq!(good["ok"], true);
    assert_eq!(good["graph"]["influences"], 3);
    assert_eq!(good["graph"]["fields"][0]["id"], "separation");
    let path = "broken/references/unknown-principle.yaml";
    let run = toehold(&["check", path, "--concepts", "graphs/tiny", "--format", "json"]);
    assert_eq!(run.code, 1);
    let bad: Value = serde_json::from_str(&run.out).unwrap();
    let fault = &bad["faults"][0];
    assert_eq!(bad["ok"], false);
    assert_eq!(fault["code"], "unknown-principle");
    assert_eq!((&fault["path"], &fault["severity"]), (&path.into(), &"error".into()));
    assert_eq!((fault["line"].as_u64(), fault["column"].as_u64()), (Some(7), Some(16)));
    assert_eq!(fault["source_line"], "    principle: charge-move");
    assert_eq!(fault["hints"][0], "did you mean `charge-moves`?");
}

#[test]
fn one_file_is_checked_with_the_rest_of_its_graph() {
    let run = toehold(&["check", "graphs/tiny/separation.yaml", "--concepts", "graphs/tiny"]);
    assert_eq!(run.code, 0, "{}", run.out);
}

#[test]
fn all_faults_of_all_files_are_reported_in_one_run() {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in [
        ("a.yaml", "entities:\n  - id: A\n    intro: x\n    names: [{ one: a, many: a }]\n  - id: b\n    intro: x\n"),
        ("b.yaml", "principles: {}\n"),
        ("c.yaml", "settings:\n  - id: s\n    holds: \"x\n  - id: t\n    holds: y\n    excludes: [u]\n"),
    ] {
        fs::write(folder.path().join(name), text).unwrap();
    }
    let run = toehold(&["check", folder.path().to_str().unwrap()]);
    assert_eq!(run.code, 1);
    for expected in ["a.yaml:2:9", "a.yaml:5:5", "b.yaml:1:13", "c.yaml:3:12", "c.yaml:6:16"] {
        assert!(run.out.contains(expected), "{expected}\n{}", run.out);
    }
    assert!(run.out.ends_with("5 faults in 3 files\n"), "{}", run.out);
}

#[track_caller]
fn refused(path: &str, expected: &str) {
    let run = toehold(&["check", path]);
    assert_eq!((run.code, run.out.as_str()), (2, ""), "{}", run.err);
    assert!(run.err.starts_with("error: ") && run.err.contains(expected), "{}", run.err);
    assert!(run.err.contains("\nhint: "), "{}", run.err);
}

#[test]
fn what_cannot_be_read_is_refused() {
    refused("no-such-folder", "is not there");
    refused("no-such.yaml", "is not there");
    refused("graphs/tiny/bench.yaml/inside.yaml", "is not a folder");
    refused("main.rs", "neither a concept file nor a scenario");
    let empty = tempfile::tempdir().unwrap();
    refused(empty.path().to_str().unwrap(), "holds no concept file");
    let run = toehold(&["check", "--concepts", "main.rs"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("is not a folder"), "{}", run.err);
    assert_eq!(toehold(&["check", "--format", "xml"]).code, 2);
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_read_is_refused() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let shut = folder.path().join("shut");
    fs::create_dir(&shut).unwrap();
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o000)).unwrap();
    // A user who may read everything cannot see this fault.
    if fs::read_dir(&shut).is_err() {
        refused(shut.to_str().unwrap(), "may not be read");
    } else {
        crate::program::skipped("permissions do not bind this user");
    }
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o700)).unwrap();
}

#[test]
fn a_file_of_100_megabytes_is_not_read() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("huge.yaml");
    fs::File::create(&path).unwrap().set_len(100 * 1024 * 1024).unwrap();
    let run = toehold(&["check", path.to_str().unwrap()]);
    assert_eq!(run.code, 1, "{}", run.err);
    assert!(run.out.starts_with("error[file-too-large]"), "{}", run.out);
    assert!(run.out.contains("huge.yaml:1:1") && run.out.contains("104857600 bytes"), "{}", run.out);
}

#[test]
fn an_alias_bomb_does_not_go_off() {
    let mut levels = String::from("acts:\n  - id: &a0 x\n    levels:\n      - &b0 [1, 2, 3, 4, 5, 6, 7, 8, 9]\n");
    for n in 1..200_000 {
        levels.push_str(if n % 2 == 0 { "      - *b0\n" } else { "      - [1]\n" });
    }
    let mut nested = String::from("a0: &a0 [x, x]\n");
    for n in 1..40 {
        writeln!(nested, "a{n}: &a{n} [*a{0}, *a{0}, *a{0}, *a{0}]", n - 1).unwrap();
    }
    for bomb in
        [levels, nested.clone(), format!("known:\n  - id: x\n    name: x\n    path: [{}]\n", nested.replace('\n', " "))]
    {
        let mut sources = Sources::new();
        sources.add("bomb.yaml", bomb.into_bytes());
        assert!(!load_and_check(&sources).unwrap_err().is_empty());
    }
}

#[test]
fn the_version_follows_names_and_bytes_but_not_the_order() {
    let version = |files: &[(&str, &str)]| {
        let mut sources = Sources::new();
        for (name, extra) in files {
            let mut bytes = fs::read(tests().join("graphs/tiny").join(name)).unwrap();
            bytes.extend_from_slice(extra.as_bytes());
            sources.add_named(Path::new("somewhere").join(name).display().to_string(), *name, bytes);
        }
        load_and_check(&sources).unwrap().version().to_owned()
    };
    let plain = version(&[("bench.yaml", ""), ("separation.yaml", "")]);
    assert_eq!(plain.len(), 8);
    assert_eq!(plain, version(&[("separation.yaml", ""), ("bench.yaml", "")]));
    assert_ne!(plain, version(&[("bench.yaml", "# a note\n"), ("separation.yaml", "")]));
}

#[test]
fn the_graph_is_what_the_files_say() {
    let mut sources = Sources::new();
    tiny(&mut sources);
    let graph = load_and_check(&sources).unwrap();
    let quantity = |id| graph.find_quantity(id).unwrap();
    let ids = |list: Vec<_>| list.into_iter().map(|ix| graph.influence(ix).id.clone()).collect::<Vec<_>>();
    assert_eq!(ids(graph.entering(quantity("run-distance"))), ["mobility-carries", "field-pulls"]);
    assert_eq!(ids(graph.leaving(quantity("mobility"))), ["mobility-carries"]);
    let gel = graph.find_setting("in-gel").unwrap();
    let free = graph.find_setting("free-solution").unwrap();
    assert!(graph.setting(free).excludes.contains(&gel), "exclusion holds both ways");
    let twist = &graph.influence(graph.find_influence("length-slows").unwrap()).twists[0];
    assert_eq!((twist.remove, twist.add), (Some(gel), Some(free)));
    assert_eq!(graph.known()[0].path.len(), 2);
}

#[test]
fn copies_within_a_folder_and_flaws_of_questions_are_pointed_at_but_are_no_fault() {
    let folder = tempfile::tempdir().unwrap();
    let made = toehold(&["generate", "--seed", "4", "--form", "short"]).out;
    let edited = made.replace("(a) **", "(a) Which of these is not true? **");
    fs::write(folder.path().join("a.md"), &made).unwrap();
    fs::write(folder.path().join("b.md"), edited).unwrap();
    let run = toehold(&["check", folder.path().to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.out);
    assert!(run.out.contains("warning[too-alike]"), "{}", run.out);
    assert!(run.out.contains("warning[negative-stem]") && run.out.contains("b.md"), "{}", run.out);
    assert!(run.out.contains("the rule: "), "{}", run.out);
}
