//! Outside sets, where they are present: the environment variable `TOEHOLD_OPEN_DATA` names their folder. They are not part
//! of the project (share-alike licences); without them each check says that it was skipped.
//!
//! Sources: `SciEntsBank` and Beetle, SemEval-2013 task 7 (Dzikovska et al. 2013, CC BY-SA 3.0); `ScoNe`, scoped negation (She
//! et al. 2023, CC0); quantities with units from the tests of quantulum3 (MIT).

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::PathBuf;

use serde_json::Value;
use toehold::review::{Guide, Lexicon, Point, Question, Response, Reviewer, Status, View, read};

use super::figures::{Confusion, wilson};

#[expect(clippy::disallowed_methods, reason = "a test may ask where data lie that are not part of the project")]
fn rows(name: &str) -> Option<Vec<Value>> {
    let folder = std::env::var("TOEHOLD_OPEN_DATA").ok()?;
    let text = fs::read_to_string(PathBuf::from(folder).join(name)).ok();
    if text.is_none() {
        crate::program::skipped(&format!("`{name}` is not in the folder that TOEHOLD_OPEN_DATA names"));
    }
    Some(text?.lines().map(|line| serde_json::from_str(line).unwrap()).collect())
}

fn text(row: &Value, key: &str) -> String {
    row[key].as_str().unwrap_or_default().to_owned()
}

/// A question of an outside set as a plain guide of one point.
fn guide(question: &str, references: &[String]) -> Guide {
    let (first, rest) = references.split_first().unwrap();
    let point = Point { id: "p".into(), statement: first.clone(), accept: rest.to_vec(), ..Point::default() };
    let question = Question { text: question.to_owned(), points: vec![point], ..Question::default() };
    Guide { questions: vec![question], ..Guide::default() }
}

/// Lower-case words of a text.
fn words(text: &str) -> BTreeSet<String> {
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| word.len() > 2);
    words.map(str::to_lowercase).collect()
}

/// The lexical baseline: correct from so large a share of a reference's words on.
fn overlaps(answer: &str, references: &[String]) -> bool {
    let said = words(answer);
    let share = |reference: &String| {
        let wanted = words(reference);
        let hits = wanted.intersection(&said).count();
        u32::try_from(hits * 100 / wanted.len().max(1)).unwrap_or(0)
    };
    references.iter().map(share).max().unwrap_or(0) >= 50
}

/// Answers to be judged against the references of their question; prints figures beside the baseline's.
fn answers(name: &str, data: &[Value], questions: &BTreeMap<String, (String, Vec<String>)>) -> (Confusion, Confusion) {
    let (mut own, mut baseline) = (Confusion::default(), Confusion::default());
    let mut reviewers: BTreeMap<String, Reviewer> = BTreeMap::new();
    for row in data {
        let id = text(row, "qid");
        let (question, references) = &questions[&id];
        let reviewer =
            reviewers.entry(id).or_insert_with(|| Reviewer::new(&guide(question, references), &Lexicon::default()));
        let response = Response { id: "answer".into(), text: text(row, "answer") };
        let review = reviewer.review(&response).unwrap();
        let said = match review.points[0].status {
            Status::Found => "correct",
            Status::Contradicted => "contradictory",
            Status::LookAgain => "abstain",
            Status::NotFound => "incorrect",
        };
        let right = text(row, "label3");
        own.add(&right, said);
        baseline.add(&right, if overlaps(&response.text, references) { "correct" } else { "incorrect" });
    }
    own.show(name, &["correct", "contradictory", "incorrect"]);
    baseline.show(&format!("{name}, word overlap"), &["correct", "incorrect"]);
    (own, baseline)
}

#[test]
fn answers_of_pupils_to_science_questions() {
    let Some(data) = rows("scientsbank_dev.jsonl") else {
        return crate::program::skipped("TOEHOLD_OPEN_DATA is not set");
    };
    let references = |row: &Value| serde_json::from_value(row["reference"].clone()).unwrap();
    let questions = data.iter().map(|row| (text(row, "qid"), (text(row, "question"), references(row)))).collect();
    let (own, baseline) = answers("SciEntsBank", &data, &questions);
    let share = |(hits, all): (u32, u32)| f64::from(hits) / f64::from(all.max(1));
    // "Never claims more than it saw": what it calls found is right at least as often as what shares words.
    assert!(share(own.precision("correct")) >= share(baseline.precision("correct")));
}

#[test]
fn answers_of_students_to_a_tutor() {
    let Some(data) = rows("beetle_dev.jsonl") else { return crate::program::skipped("TOEHOLD_OPEN_DATA is not set") };
    let Some(asked) = rows("beetle_questions.jsonl") else { return };
    let questions = asked.iter().map(|row| {
        let mut references: Vec<(String, String)> = row["reference"]
            .as_array()
            .unwrap()
            .iter()
            .map(|one| (text(one, "category"), text(one, "text")))
            .filter(|(category, _)| category != "KEYWORD")
            .collect();
        references.sort();
        let references = references.into_iter().map(|(_, text)| text).collect();
        (text(row, "qid"), (text(row, "question"), references))
    });
    let (own, baseline) = answers("Beetle", &data, &questions.collect());
    let share = |(hits, all): (u32, u32)| f64::from(hits) / f64::from(all.max(1));
    assert!(share(own.precision("correct")) > share(baseline.precision("correct")));
}

/// The first word of a premise that its hypothesis replaces.
fn replaced(premise: &str, hypothesis: &str) -> Option<String> {
    let (one, other): (Vec<&str>, Vec<&str>) = (premise.split(' ').collect(), hypothesis.split(' ').collect());
    let pair = one.iter().zip(&other).find(|(one, other)| one != other)?;
    Some(pair.0.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase())
}

/// Whether a word is read as negated; nothing where it is not read as a thing named.
fn negated(view: &View, word: &str) -> Option<bool> {
    view.terms.iter().find(|term| term.text.to_lowercase() == word).map(|term| term.negated)
}

#[test]
fn negations_reach_as_far_as_they_do() {
    let Some(data) = rows("scone_dev.jsonl") else { return crate::program::skipped("TOEHOLD_OPEN_DATA is not set") };
    let mut counts: BTreeMap<String, (u32, u32)> = BTreeMap::new();
    for row in &data {
        let (premise, condition) = (text(row, "premise"), text(row, "condition"));
        // Two negations over one word cancel out.
        let wanted = matches!(condition.as_str(), "one_scoped" | "one_scoped_one_not_scoped");
        let Some(word) = replaced(&premise, &text(row, "hypothesis")) else { continue };
        let Some(got) = negated(&read(&premise, &Lexicon::default()), &word) else { continue };
        let count = counts.entry(condition).or_default();
        count.1 += 1;
        count.0 += u32::from(got == wanted);
    }
    for (condition, (hits, all)) in &counts {
        let (low, high) = wilson(*hits, *all);
        println!("ScoNe {condition}: {hits} of {all} right [{low:.3}, {high:.3}]");
    }
    let (hits, all) = counts.get("one_scoped").copied().unwrap_or_default();
    assert!(10 * hits >= 9 * all, "{hits} of {all}");
}

/// Names of the outside set for units that this program reads.
const UNITS: &[(&str, &str)] = &[
    ("dimensionless", ""),
    ("milligram", "mg"),
    ("degree Celsius", "Cel"),
    ("metre", "m"),
    ("kilometre", "km"),
    ("week", "wk"),
    ("day", "d"),
    ("minute", "min"),
    ("watt", "W"),
    ("kelvin", "K"),
    ("picometre", "pm"),
    ("centilitre", "cL"),
    ("cubic centimetre", "cm3"),
    ("percentage", "%"),
    ("square kilometre", "km2"),
    ("joule second", "J.s"),
    ("year", "a"),
];

#[test]
fn numbers_are_read_with_their_units() {
    let Some(data) = rows("quantities_dev.jsonl") else {
        return crate::program::skipped("TOEHOLD_OPEN_DATA is not set");
    };
    let (mut hits, mut with_unit, mut known, mut wanted, mut read_in_all) = (0, 0, 0, 0, 0);
    for row in &data {
        let view = read(&text(row, "text"), &Lexicon::default());
        read_in_all += u32::try_from(view.numbers.len()).unwrap();
        for quantity in row["quantities"].as_array().unwrap() {
            let Some(value) = quantity["value"].as_f64() else { continue };
            wanted += 1;
            let unit = UNITS.iter().find(|(name, _)| *name == text(quantity, "unit")).map(|(_, code)| *code);
            known += u32::from(unit.is_some());
            let found = view.numbers.iter().find(|number| (number.value - value).abs() <= 1e-6 * value.abs().max(1.0));
            hits += u32::from(found.is_some());
            let same = found.zip(unit).is_some_and(|(number, unit)| number.unit.as_deref().unwrap_or("") == unit);
            with_unit += u32::from(same);
        }
    }
    println!(
        "quantities: {hits} of {wanted} values ({read_in_all} read); {with_unit} of {known} with a unit of this program"
    );
    assert!(2 * hits >= wanted && 2 * with_unit >= known);
}
