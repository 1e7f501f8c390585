//! A coined noun that stands before the sentence that says what it is, or without one.

use std::collections::BTreeSet;

use super::super::words::{Word, words};
use super::super::{Found, Kind, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "unintroduced",
        meaning: "a coined noun is used before, or without, the words that say what it is",
        wrong: "Podkins are stirred in. Tiny sacs (“podkins”) hold dye.",
        right: "Tiny sacs (“podkins”) hold dye. They are stirred in.",
    },
    hint: "say what it is where it is named first, with the name in quotation marks",
    source: None,
    severity: Severity::Error,
    after_edit: false,
    check,
};

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let coined = coined(manuscript);
    let mut met: BTreeSet<usize> = BTreeSet::new();
    let mut told: BTreeSet<usize> = BTreeSet::new();
    let mut found = Vec::new();
    let passages = manuscript.passages();
    for passage in passages.iter().filter(|passage| passage.kind != Kind::Title) {
        let all = words(passage.text);
        for (number, names) in coined.iter().enumerate() {
            for place in 0..all.len() {
                let Some(name) = names.iter().find_map(|name| at(&all, place, name)) else { continue };
                let (start, end) = name;
                let quoted = passage.text.get(..start).is_some_and(|before| before.ends_with(['“', '"']));
                if quoted {
                    met.insert(number);
                } else if !met.contains(&number) && told.insert(number) {
                    let quote = passage.text.get(start..end).unwrap_or_default();
                    found.push(Found::new(&*passage.place, quote, format!("`{quote}` has not been introduced")));
                }
            }
        }
    }
    found
}

/// The names of each coined thing, each as its words.
fn coined(manuscript: &Manuscript) -> Vec<Vec<Vec<String>>> {
    let split = |name: &str| words(name).iter().map(Word::lower).collect::<Vec<_>>();
    let known: Vec<Vec<Vec<String>>> = manuscript
        .nouns
        .iter()
        .filter(|noun| noun.coined)
        .map(|noun| vec![split(&noun.many), split(&noun.one)])
        .collect();
    if !known.is_empty() {
        return known;
    }
    // A file tells its coined nouns itself, in brackets and quotation marks.
    let stimulus = manuscript.stimulus();
    let quoted = stimulus.iter().flat_map(|passage| passage.text.split("(“").skip(1));
    let names = quoted.filter_map(|rest| rest.split_once('”').map(|(name, _)| name));
    names.map(|name| vec![split(name), split(name.trim_end_matches('s'))]).collect()
}

/// Start and end of a name that stands at this word.
fn at(all: &[Word<'_>], place: usize, name: &[String]) -> Option<(usize, usize)> {
    let run = all.get(place..place + name.len())?;
    let same = !name.is_empty() && run.iter().zip(name).all(|(word, name)| word.lower() == *name);
    same.then(|| Some((run.first()?.start, run.last()?.end))).flatten()
}
