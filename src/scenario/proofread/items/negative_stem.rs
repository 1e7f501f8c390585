//! A question that turns on an unmarked "not".

use super::super::words::{Word, sentences, words};
use super::super::{Found, Lint, Manuscript};
use super::term::of_sentence;
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "negative-stem",
        meaning: "a question turns on a negative that does not catch the eye",
        wrong: "(a) **Identify** the variable that is not kept the same.",
        right: "(a) **Identify** the variable that is NOT kept the same.",
    },
    hint: "ask for what is so, or set the negative in capitals",
    source: Some(
        "Haladyna, Downing & Rodriguez 2002, Appl Meas Educ 15:309: word the stem positively (number from memory: 17)",
    ),
    severity: Severity::Error,
    after_edit: true,
    check,
};

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for question in &manuscript.questions {
        for sentence in sentences(&question.text).into_iter().filter(|sentence| asks(sentence)) {
            for word in words(sentence).into_iter().filter(|word| is_quiet_negative(sentence, *word)) {
                found.push(Found::new(question.place(), sentence, format!("it turns on `{}`", word.text)));
            }
        }
    }
    found
}

fn asks(sentence: &str) -> bool {
    sentence.ends_with('?') || !of_sentence(sentence).is_empty()
}

fn is_quiet_negative(sentence: &str, word: Word<'_>) -> bool {
    let bold = sentence.get(..word.start).is_some_and(|before| before.matches("**").count() % 2 == 1);
    word.is_one_of(&["not", "except", "never", "cannot"]) && !bold && !word.text.chars().all(char::is_uppercase)
}
