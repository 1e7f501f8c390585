//! Pages to practise on: the command that writes them, and their review engine beside the program's own.

use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::{Value, json};
use tempfile::TempDir;
use toehold::concepts::{embedded, load_and_check};
use toehold::guide;
use toehold::render::Document;
use toehold::review::review_json;

use crate::program::{tests, toehold};

#[test]
fn a_folder_of_pages_has_an_index_that_leads_to_each() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("pages");
    let out = out.to_str().unwrap();
    let run = toehold(&["practise", "--page", out, "--count", "3", "--seed", "5"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let written: Vec<&str> = run.out.lines().collect();
    assert_eq!(written.len(), 4);
    let index = fs::read_to_string(format!("{out}/index.html")).unwrap();
    for path in &written[..3] {
        let name = path.rsplit('/').next().unwrap();
        assert!(index.contains(&format!("href=\"{name}\"")), "{name}");
        assert!(fs::read_to_string(path).unwrap().contains("href=\"index.html\""));
    }
    let again = toehold(&["practise", "--page", out, "--count", "3", "--seed", "5"]);
    assert_eq!(again.code, 2);
    assert!(again.err.contains("exists") && again.err.contains("--force"), "{}", again.err);
    let before: Vec<String> = written.iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    assert_eq!(toehold(&["practise", "--page", out, "--count", "3", "--seed", "5", "--force"]).code, 0);
    let after: Vec<String> = written.iter().map(|path| fs::read_to_string(path).unwrap()).collect();
    assert!(before == after, "the same seed gives the same bytes");
}

#[test]
fn nothing_is_written_where_one_page_is_in_the_way() {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("index.html"), "mine").unwrap();
    let run = toehold(&["practise", "--page", folder.path().to_str().unwrap(), "--count", "2", "--seed", "5"]);
    assert_eq!(run.code, 2);
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    assert_eq!(fs::read_to_string(folder.path().join("index.html")).unwrap(), "mine");
}

#[test]
fn files_become_pages_alone_or_in_a_folder() {
    let folder = TempDir::new().unwrap();
    let made = toehold(&["generate", "--seed", "9", "--form", "short", "--out", folder.path().to_str().unwrap()]);
    let file = made.out.trim();
    let alone = toehold(&["render", file, "--to", "page"]);
    assert_eq!(alone.code, 0, "{}", alone.err);
    assert!(alone.out.contains("'wasm-unsafe-eval'".replace('\'', "&#39;").as_str()));
    assert!(!alone.out.contains("index.html"), "a page alone leads to no index");
    assert_eq!(toehold(&["render", file, "--to", "page", "--student"]).code, 2);
    let pages = folder.path().join("pages");
    let run = toehold(&["practise", "--page", pages.to_str().unwrap(), file]);
    assert_eq!((run.code, run.out.lines().count()), (0, 2), "{}", run.err);
    let twice = toehold(&["practise", "--page", pages.to_str().unwrap(), file, file, "--force"]);
    assert_eq!(twice.code, 2);
    assert!(twice.err.contains("named twice"), "{}", twice.err);
    let none = toehold(&["practise", "--page", pages.to_str().unwrap(), "reference"]);
    assert_eq!(none.code, 2);
    assert!(none.err.starts_with("error: there is no scenario"), "{}", none.err);
}

/// Requests for all answers of the marking set, one a scenario.
fn requests() -> Vec<String> {
    let graph = load_and_check(&embedded()).unwrap_or_else(|faults| panic!("{} faults in the concepts", faults.len()));
    let mut answers: BTreeMap<String, Vec<Value>> = BTreeMap::new();
    for line in fs::read_to_string(tests().join("marking/responses.jsonl")).unwrap().lines() {
        let answer: Value = serde_json::from_str(line).unwrap();
        let scenario = answer["scenario"].as_str().unwrap().to_owned();
        answers.entry(scenario).or_default().push(json!({ "id": answer["part"], "text": answer["text"] }));
    }
    let request = |(scenario, responses): (&String, &Vec<Value>)| {
        let text = fs::read_to_string(tests().join("marking/scenarios").join(scenario)).unwrap();
        let document = Document::read(&text).unwrap();
        let lexicon = guide::lexicon(&graph, &document.front);
        let guide = guide::of_document(&document).unwrap();
        json!({ "version": 1, "guide": guide, "lexicon": lexicon, "responses": responses }).to_string()
    };
    answers.iter().map(request).collect()
}

#[test]
fn the_page_reviews_the_marking_set_as_the_program_does() {
    let requests = requests();
    let engine = tests().join("../templates/practice/review.wasm");
    let node = Command::new("node")
        .arg(tests().join("browser/review.mjs"))
        .arg(engine)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn();
    let Ok(mut node) = node else {
        println!("skipped: node is not there, so the page's reviewer is not compared");
        return;
    };
    node.stdin.take().unwrap().write_all(requests.join("\n").as_bytes()).unwrap();
    let output = node.wait_with_output().unwrap();
    assert!(output.status.success());
    let replies = String::from_utf8(output.stdout).unwrap();
    let mut n_reviews = 0;
    for (request, reply) in requests.iter().zip(replies.lines()) {
        let native = review_json(request);
        n_reviews += serde_json::from_str::<Value>(&native).unwrap()["reviews"].as_array().unwrap().len();
        assert!(native == reply, "the page's engine is behind: run tests/build-wasm\n{native}\n{reply}");
    }
    assert_eq!(replies.lines().count(), requests.len());
    println!("{n_reviews} reviews are the same in the page and in the program");
    assert!(n_reviews >= 400);
}
