//! "Often", "usually": how often is that?

use super::super::words::{sentences, words};
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "vague-word",
        meaning: "a question uses a word of frequency that means something else to everybody",
        wrong: "(a) **Explain** why the glow usually falls.",
        right: "(a) **Explain** why the glow falls.",
    },
    hint: "leave it out, or give the number",
    source: Some("Case & Swanson, Constructing Written Test Questions (NBME): vague terms of frequency (from memory)"),
    severity: Severity::Warning,
    after_edit: true,
    check,
};

const VAGUE: &[&str] = &[
    "often",
    "usually",
    "sometimes",
    "frequently",
    "generally",
    "normally",
    "typically",
    "rarely",
    "seldom",
    "mostly",
    "occasionally",
    "commonly",
];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for question in &manuscript.questions {
        for sentence in sentences(&question.text) {
            for word in words(sentence).into_iter().filter(|word| word.is_one_of(VAGUE)) {
                found.push(Found::new(question.place(), sentence, format!("how often is `{}`?", word.text)));
            }
        }
    }
    found
}
