//! "Identify some factors": how many earn the point?

use super::super::words::{Word, sentences, words};
use super::super::{Found, Lint, Manuscript};
use super::term::of_sentence;
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "how-many",
        meaning: "a question asks for several things and does not say how many",
        wrong: "(a) **Identify** some factors that are kept the same.",
        right: "(a) **Identify** two factors that are kept the same.",
    },
    hint: "say how many",
    source: Some("Hogan & Murphy 2007, Appl Meas Educ 20:427: say how long an answer is expected (from memory)"),
    severity: Severity::Error,
    after_edit: true,
    check,
};

/// Terms that ask for things rather than for an account.
const LISTING: &[&str] = &["identify", "list", "name", "state", "suggest", "outline", "propose", "describe"];
const VAGUE: &[&str] = &["some", "several", "various", "many", "few", "any"];

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let mut found = Vec::new();
    for question in &manuscript.questions {
        for sentence in sentences(&question.text) {
            let all = words(sentence);
            for (term, number) in of_sentence(sentence) {
                let after = all.get(number + 1..).unwrap_or_default();
                if LISTING.contains(&term) && open_ended(after) {
                    found.push(Found::new(question.place(), sentence, format!("how many to {term}?")));
                }
            }
        }
    }
    found
}

/// "some factors", "a few factors", or a bare plural: "factors that ...".
fn open_ended(after: &[Word<'_>]) -> bool {
    let Some(first) = after.first() else { return false };
    let few = first.is("a") && after.get(1).is_some_and(|word| word.is("few"));
    // The first noun decides: at most one adjective stands before it.
    let plural = |word: &Word<'_>| {
        let lower = word.lower();
        lower.len() > 3 && lower.ends_with('s') && !["ss", "us", "is"].iter().any(|end| lower.ends_with(end))
    };
    first.is_one_of(VAGUE) || few || plural(first)
}
