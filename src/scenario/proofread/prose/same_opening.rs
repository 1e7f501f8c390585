//! Sentences that begin alike: two in a row, or three of any five.

use super::super::words::{Word, sentences, words};
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "same-opening",
        meaning: "two sentences in a row, or three of five, begin with the same words",
        wrong: "Each bath is stirred. Each bath is kept warm.",
        right: "Each bath is stirred and kept warm.",
    },
    hint: "turn one of them round",
    source: None,
    severity: Severity::Error,
    after_edit: false,
    check,
};

/// Sentences among which three alike are too many.
const WINDOW: usize = 5;
const MOST: usize = 2;

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let stimulus = manuscript.stimulus();
    let all: Vec<(&str, &str, Vec<String>)> = stimulus
        .iter()
        .flat_map(|passage| sentences(passage.text).into_iter().map(|sentence| (&*passage.place, sentence)))
        .map(|(place, sentence)| (place, sentence, opening(sentence)))
        .collect();
    let mut found = Vec::new();
    for (number, (place, sentence, opens)) in all.iter().enumerate() {
        let before = all.get(number.saturating_sub(WINDOW - 1)..number).unwrap_or_default();
        let alike = before.iter().filter(|(_, _, other)| other == opens).count();
        let just_before = before.last().is_some_and(|(_, _, other)| other == opens);
        if just_before || alike >= MOST {
            let quote: String = sentence.chars().take(40).collect();
            let words = opens.join(" ");
            let message = if just_before {
                format!("it begins with `{words}`, as the sentence before it does")
            } else {
                format!("three sentences of five begin with `{words}`")
            };
            found.push(Found::new(*place, quote, message));
        }
    }
    found
}

/// The first word; after an article, the second with it: every text has sentences with "The".
fn opening(sentence: &str) -> Vec<String> {
    let all = words(sentence);
    let article = all.first().is_some_and(|word| word.is_one_of(&["the", "a", "an"]));
    all.iter().take(if article { 2 } else { 1 }).map(Word::lower).collect()
}
