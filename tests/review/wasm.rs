//! The WebAssembly reviewer says what the native one says, on the whole marking set.

use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::json;
use toehold::concepts;
use toehold::review::review_json;

use super::marking::{guide_of, set};
use crate::program::tests;

#[test]
fn it_says_the_same() {
    let built = tests().join("../templates/page/reviewer.wasm");
    if Command::new("node").arg("--version").output().is_err() {
        return crate::program::skipped("node is not installed");
    }
    let graph = concepts::load_and_check(&concepts::embedded()).unwrap();
    let (answers, halves) = set();
    let requests: Vec<String> = halves
        .values()
        .flatten()
        .map(|name| {
            let (guide, lexicon) = guide_of(&graph, name);
            let own = answers.iter().filter(|one| one.scenario.trim_end_matches(".md") == name.trim_end_matches(".md"));
            let responses: Vec<_> = own.map(|one| json!({ "id": one.part, "text": one.text })).collect();
            json!({ "version": 1, "guide": guide, "lexicon": lexicon, "responses": responses }).to_string()
        })
        .chain(["{".to_owned(), json!({ "version": 9, "guide": { "questions": [] }, "responses": [] }).to_string()])
        .collect();
    let mut node = Command::new("node")
        .arg(tests().join("wasm/review.mjs"))
        .arg(built)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = node.stdin.take().unwrap();
    let sent = requests.join("\n");
    let writer = std::thread::spawn(move || input.write_all(sent.as_bytes()).unwrap());
    let output = node.wait_with_output().unwrap();
    writer.join().unwrap();
    assert!(output.status.success());
    let replies = String::from_utf8(output.stdout).unwrap();
    let native: Vec<String> = requests.iter().map(|request| review_json(request)).collect();
    let differing = replies.lines().zip(&native).filter(|(one, other)| one != other).count();
    assert_eq!((replies.lines().count(), differing), (native.len(), 0), "run tests/wasm/build: the built file is old");
    println!("{} requests, {} answers: native and WebAssembly say the same", native.len(), answers.len());
}
