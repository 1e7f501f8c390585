//! A sentence without its capital, or a paragraph without its full stop.

use super::super::words::{is_closer, sentences};
use super::super::{Found, Kind, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "broken-sentence",
        meaning: "a sentence has no capital letter at its start, or no full stop at its end",
        wrong: "dye is added. Each well is read",
        right: "Dye is added. Each well is read.",
    },
    hint: "begin with a capital letter and end with a full stop",
    source: None,
    severity: Severity::Error,
    after_edit: false,
    check,
};

const WHOLE: &[Kind] = &[Kind::Purpose, Kind::Procedure, Kind::Question, Kind::Answer, Kind::Caution];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for passage in manuscript.passages().iter().filter(|passage| WHOLE.contains(&passage.kind)) {
        for sentence in sentences(passage.text) {
            if !has_capital(sentence) {
                let quote: String = sentence.chars().take(40).collect();
                found.push(Found::new(&*passage.place, quote, "the sentence begins with a small letter"));
            }
            if !sentence.trim_end_matches(is_closer).ends_with(['.', '?', '!']) {
                let quote: Vec<char> = sentence.chars().rev().take(40).collect();
                let quote: String = quote.into_iter().rev().collect();
                found.push(Found::new(&*passage.place, quote, "the sentence has no full stop"));
            }
        }
    }
    found
}

/// A capital, a number, a symbol; or a word with a capital inside ("pH", "mRNA").
fn has_capital(sentence: &str) -> bool {
    let mut letters = sentence.chars().skip_while(|c| matches!(c, '“' | '"' | '(' | '*' | '['));
    match (letters.next(), letters.next()) {
        (Some(first), second) => !first.is_lowercase() || second.is_some_and(char::is_uppercase) || !first.is_ascii(),
        _ => true,
    }
}
