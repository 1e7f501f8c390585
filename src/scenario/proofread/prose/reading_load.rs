//! Reading load: ten minutes must do for six short questions and two long ones.

use super::super::words::n_words;
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};
use crate::technique::Form;

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "reading-load",
        meaning: "the stimulus has more words than its form allows: 130 for a short question, 320 for a long one",
        wrong: "a short question with 200 words before the first part",
        right: "a short question with 120 words before the first part",
    },
    hint: "tell only what the questions need",
    source: Some("common practice, no source"),
    severity: Severity::Warning,
    after_edit: false,
    check,
};

/// Words that a short question may have before its first part.
pub const MOST_SHORT: usize = 130;
const MOST_LONG: usize = 320;

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let (Some(most), n) = (most(manuscript), load(manuscript)) else { return Vec::new() };
    if n <= most {
        return Vec::new();
    }
    vec![Found::new("how it works", "", format!("{n} words, {} more than {most}", n - most))]
}

/// Whether a question is longer than its form allows: such a one is not given out.
pub fn is_too_long(manuscript: &Manuscript) -> bool {
    most(manuscript).is_some_and(|most| load(manuscript) > most)
}

fn most(manuscript: &Manuscript) -> Option<usize> {
    Some(match manuscript.form? {
        Form::Short => MOST_SHORT,
        Form::Long => MOST_LONG,
    })
}

/// Words before the first question.
fn load(manuscript: &Manuscript) -> usize {
    manuscript.stimulus().iter().map(|passage| n_words(passage.text)).sum()
}
