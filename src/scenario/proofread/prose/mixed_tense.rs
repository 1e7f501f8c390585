//! A procedure that slips from the present into the past, or back.

use super::super::words::{Word, sentences, words};
use super::super::{Found, Kind, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "mixed-tense",
        meaning: "some sentences of the procedure are in the past tense, others in the present",
        wrong: "Dye is added to each bath. The baths were stirred.",
        right: "Dye is added to each bath. The baths are stirred.",
    },
    hint: "keep to the tense of most sentences",
    source: None,
    severity: Severity::Warning,
    after_edit: false,
    check,
};

/// Words that open a clause in which another tense may stand.
const SUBORDINATE: &[&str] = &[
    "which", "that", "who", "whose", "when", "where", "after", "before", "once", "until", "while", "as", "if", "since",
    "than", "what", "they", "it",
];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let stimulus = manuscript.stimulus();
    let procedure = stimulus.iter().filter(|passage| passage.kind == Kind::Procedure);
    let tenses: Vec<(&str, &str, bool)> = procedure
        .flat_map(|passage| sentences(passage.text).into_iter().map(|sentence| (&*passage.place, sentence)))
        .filter_map(|(place, sentence)| Some((place, sentence, past(sentence)?)))
        .collect();
    let n_past = tenses.iter().filter(|(_, _, past)| *past).count();
    let odd = 2 * n_past <= tenses.len();
    if n_past == 0 || n_past == tenses.len() {
        return Vec::new();
    }
    let found = tenses.iter().filter(|(_, _, past)| *past == odd).map(|(place, sentence, past)| {
        let quote: String = sentence.chars().take(60).collect();
        let tense = if *past { "past" } else { "present" };
        Found::new(*place, quote, format!("in the {tense}, unlike most of the procedure"))
    });
    found.collect()
}

/// Words with which the past is right beside the present: what was done earlier.
const EARLIER: &[&str] = &["before", "beforehand", "already", "earlier", "previously", "ago", "once"];

/// Whether the main verb is in the past; none where no form of "be" tells, or where the past comes before the rest.
fn past(sentence: &str) -> Option<bool> {
    if words(sentence).iter().any(|word| word.is_one_of(EARLIER)) {
        return None;
    }
    let mut subordinate = false;
    let mut before: Option<Word<'_>> = None;
    for word in words(sentence) {
        let comma = before.is_some_and(|before| {
            sentence.get(before.end..word.start).is_some_and(|between| between.contains([',', ';', ':']))
        });
        subordinate = (subordinate && !comma) || word.is_one_of(SUBORDINATE);
        if !subordinate && word.is_one_of(&["is", "are", "was", "were"]) {
            return Some(word.is_one_of(&["was", "were"]));
        }
        before = Some(word);
    }
    None
}
