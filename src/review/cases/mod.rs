//! Short cases of the reviewer, by what they show. Here stand the guides that several of them need.

mod against;
mod chains;
mod changed;
mod choices;
mod plain;
mod predictions;
mod reading;
mod reasons;
mod relations;
mod whole;

use super::dictionary::Dictionary;
use super::read::Reading;
use super::*;

/// A part of a scenario; a plain guide has no id and is held to its words.
fn reviewer(question: &str, command_term: &str, statement: &str, accept: &[&str], reject: &[&str]) -> Reviewer {
    let mut guide = plain(question, command_term, statement, accept, reject).guide;
    guide.questions[0].id = "x".to_owned();
    Reviewer::new(&guide, &Lexicon::default())
}

fn plain(question: &str, command_term: &str, statement: &str, accept: &[&str], reject: &[&str]) -> Reviewer {
    let list = |texts: &[&str]| texts.iter().map(|text| (*text).to_owned()).collect();
    let point = Point {
        id: "p".to_owned(),
        statement: statement.to_owned(),
        accept: list(accept),
        reject: list(reject),
        ..Point::default()
    };
    let question = Question {
        text: question.to_owned(),
        command_term: command_term.to_owned(),
        points: vec![point],
        ..Question::default()
    };
    Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default())
}

fn review(reviewer: &Reviewer, text: &str) -> Review {
    reviewer.review(&Response { id: "x".to_owned(), text: text.to_owned() }).unwrap()
}

#[track_caller]
fn case(reviewer: &Reviewer, text: &str, expected: Status) {
    let got = review(reviewer, text);
    assert_eq!(got.points[0].status, expected, "{text}: {:?}", got.points[0].evidence);
}

fn point(id: &str, kind: PointKind, statement: &str, reject: &[&str]) -> Point {
    let reject = reject.iter().map(|text| (*text).to_owned()).collect();
    Point { id: id.to_owned(), kind, statement: statement.to_owned(), reject, ..Point::default() }
}

/// What becomes of the last of some points.
fn last_of(question: &str, command_term: &str, points: Vec<Point>, text: &str) -> Status {
    let question = Question {
        id: "x".to_owned(),
        text: question.to_owned(),
        command_term: command_term.to_owned(),
        points,
        ..Question::default()
    };
    let reviewer = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
    let review = reviewer.review(&Response { id: "x".to_owned(), text: text.to_owned() }).unwrap();
    review.points.last().unwrap().status
}

fn chain() -> Reviewer {
    reviewer(
        "Explain, step by step, how a change in the dose leads to a change in the colour of the juice.",
        "explain",
        "A larger dose opens more pores, so dye leaks out faster; more dye leaks out of the cells; the juice holds more dye, \
         so its colour is deeper.",
        &["the same argued from the opposite change"],
        &[],
    )
}

/// How the dye in the liquid depends on the time; the direction earns by itself.
fn dye_in_time() -> Reviewer {
    reviewer(
        "Describe how the concentration of dye in the liquid depends on the time.",
        "describe",
        "Over a longer time more dye comes out, so its concentration in the liquid rises.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    )
}

/// A prediction whose direction earns by itself: the brightness of the lamp from 0 to 40.
fn prediction(outcome: &str, accept: &str, reject: &str) -> Reviewer {
    reviewer(
        "The series is run again. Predict how the brightness of the lamp then changes from 0 to 40.",
        "predict and justify",
        &format!("The brightness of the lamp {outcome}. The direction alone earns."),
        &[accept],
        &[reject],
    )
}

fn rising() -> Reviewer {
    prediction("now rises", "“goes up”", "“it falls”")
}

fn salt() -> Reviewer {
    reviewer(
        "Explain what happens to the volume of the vesicles when salt is added outside.",
        "explain",
        "Water leaves the vesicles by osmosis, so their volume falls.",
        &[],
        &[],
    )
}

/// Which way each claim of a text goes.
fn ways(text: &str) -> Vec<Direction> {
    let view = read(text, &Lexicon::default());
    view.directions.iter().filter(|claim| !claim.aside).map(|claim| claim.direction).collect()
}
