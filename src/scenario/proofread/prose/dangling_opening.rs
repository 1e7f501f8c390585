//! A slot sentence that opens with a pronoun: what stands before it depends on the draw.

use super::super::words::{Word, sentences, words};
use super::super::{Found, Kind, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "dangling-opening",
        meaning: "a fragment of the procedure opens with a pronoun that may refer to anything",
        wrong: "They are stirred for ten minutes.",
        right: "The baths are stirred for ten minutes.",
    },
    hint: "name the thing",
    source: None,
    severity: Severity::Error,
    after_edit: false,
    check,
};

/// Words after which "this" and the like stand alone, without a noun.
const VERBS: &[&str] = &[
    "is", "are", "was", "were", "has", "have", "makes", "make", "gives", "give", "lets", "let", "means", "mean",
    "keeps", "keep", "can", "cannot", "may", "must", "does", "do", "will", "then", "leaves", "leave", "takes", "take",
    "happens", "shows", "show", "causes", "cause",
];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let stimulus = manuscript.stimulus();
    let slots = stimulus.iter().filter(|passage| passage.kind == Kind::Procedure);
    let dangling = slots.filter_map(|passage| {
        let sentence = *sentences(passage.text).first()?;
        let all = words(sentence);
        let (first, second) = (*all.first()?, all.get(1).copied());
        dangles(first, second).then(|| {
            let quote: String = sentence.chars().take(40).collect();
            Found::new(&*passage.place, quote, format!("what is `{}`?", first.text))
        })
    });
    dangling.collect()
}

fn dangles(first: Word<'_>, second: Option<Word<'_>>) -> bool {
    let pronoun = first.is_one_of(&["it", "they", "he", "she", "its", "their"]);
    let pointing = first.is_one_of(&["this", "these", "that", "those", "both", "such"]);
    pronoun || (pointing && second.is_none_or(|word| word.is_one_of(VERBS)))
}
