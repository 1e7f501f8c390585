//! Words in the stimulus that hand a step over.

use std::collections::BTreeSet;

use super::super::words::{Word, content, sentences, stem, words};
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "giveaway",
        meaning: "the stimulus uses a word that hands over a step which the student is to find",
        wrong: "Water leaves the sacs by osmosis, so they shrink.",
        right: "The sacs stand in the bath for ten minutes.",
    },
    hint: "say what is done and seen, not why it happens",
    source: Some(
        "Haladyna, Downing & Rodriguez 2002, Appl Meas Educ 15:309, guideline 28: no clues to the right answer",
    ),
    severity: Severity::Error,
    after_edit: false,
    check,
};

/// Letters from which on an entry also catches longer words ("inactiv": "inactivated").
const OPEN_ENDED: usize = 6;
/// Endings that change the form of a word and not the word: "leak", "leaked"; not "yellow", "yellower".
const ENDINGS: &[&str] = &["", "s", "es", "e", "d", "ed", "ing", "y", "ies", "ied"];

/// A word of an entry.
struct Part {
    lower: String,
    stem: String,
}

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let named: BTreeSet<String> = manuscript.named.iter().flat_map(|name| content(name)).collect();
    let part = |word: &Word<'_>| Part { lower: word.lower(), stem: stem(word.text) };
    let entries: Vec<(&String, Vec<Part>)> = manuscript
        .never
        .iter()
        .map(|entry| (entry, words(entry).iter().map(part).collect::<Vec<_>>()))
        .filter(|(_, parts)| parts.iter().any(|part| !named.contains(&part.stem)))
        .collect();
    let mut found = Vec::new();
    for passage in manuscript.stimulus() {
        let all: Vec<(Word<'_>, Part)> = words(passage.text).into_iter().map(|word| (word, part(&word))).collect();
        let proper = proper_nouns(passage.text);
        for (entry, parts) in &entries {
            let same = |run: &&[(Word<'_>, Part)]| {
                let words = run.iter().zip(parts);
                let mut alike = words.map(|((word, here), part)| !proper.contains(&word.start) && is_form(here, part));
                alike.all(|alike| alike)
            };
            if let Some(run) = all.windows(parts.len().max(1)).find(same) {
                let ends = run.first().zip(run.last());
                let quote = ends.and_then(|((first, _), (last, _))| passage.text.get(first.start..last.end));
                found.push(Found::new(
                    &*passage.place,
                    quote.unwrap_or_default(),
                    format!("`{entry}` gives a step away"),
                ));
            }
        }
    }
    found
}

/// Whether a word of the text is a form of one of an entry.
fn is_form(here: &Part, part: &Part) -> bool {
    let open_ended = part.lower.len() >= OPEN_ENDED && here.lower.starts_with(&part.lower);
    here.lower == part.lower || open_ended || (here.stem == part.stem && differ_in_ending(&here.lower, &part.lower))
}

/// Whether two words of one stem differ in their endings alone.
fn differ_in_ending(one: &str, other: &str) -> bool {
    let same: usize = one.chars().zip(other.chars()).take_while(|(a, b)| a == b).map(|(a, _)| a.len_utf8()).sum();
    // "slip", "slipped": the doubled letter belongs to the ending.
    let ending = |word: &str| {
        let ending = word.get(same..).unwrap_or_default();
        let doubled =
            word.get(..same).and_then(|stem| stem.chars().next_back()).filter(|last| ending.starts_with(*last));
        doubled.and_then(|last| ending.strip_prefix(last)).unwrap_or(ending).to_owned()
    };
    ENDINGS.contains(&&*ending(one)) && ENDINGS.contains(&&*ending(other))
}

/// Starts of the words with a capital that open no sentence: names of people and places.
fn proper_nouns(text: &str) -> BTreeSet<usize> {
    let mut found = BTreeSet::new();
    for sentence in sentences(text) {
        let Some(start) = text.find(sentence) else { continue };
        let inner = words(sentence).into_iter().skip(1).filter(|word| word.text.starts_with(char::is_uppercase));
        found.extend(inner.map(|word| start + word.start));
    }
    found
}
