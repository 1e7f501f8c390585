//! Brackets and quotation marks that do not pair.

use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "unbalanced",
        meaning: "a bracket or quotation mark has no partner",
        wrong: "tiny sacs (“podkins) are made",
        right: "tiny sacs (“podkins”) are made",
    },
    hint: "add its partner or take it out",
    source: None,
    severity: Severity::Error,
    after_edit: true,
    check,
};

const PAIRS: &[(char, char)] = &[('(', ')'), ('[', ']'), ('{', '}'), ('“', '”')];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let passages = manuscript.passages();
    let odd = passages.iter().filter_map(|passage| {
        let place = first_odd(passage.text)?;
        let quote: String = passage.text.get(place..)?.chars().take(30).collect();
        let mark = quote.chars().next()?;
        Some(Found::new(&*passage.place, quote, format!("`{mark}` has no partner")))
    });
    odd.collect()
}

/// The place of the first mark without a partner.
fn first_odd(text: &str) -> Option<usize> {
    let mut open: Vec<(usize, char)> = Vec::new();
    let mut straight = None;
    for (place, letter) in text.char_indices() {
        if letter == '"' {
            straight = if straight.is_some() { None } else { Some(place) };
        } else if let Some((_, closes)) = PAIRS.iter().find(|(opens, _)| *opens == letter) {
            open.push((place, *closes));
        } else if PAIRS.iter().any(|(_, closes)| *closes == letter) {
            match open.pop() {
                Some((_, closes)) if closes == letter => {}
                Some((opened, _)) => return Some(opened),
                None => return Some(place),
            }
        }
    }
    open.first().map(|(place, _)| *place).or(straight)
}
