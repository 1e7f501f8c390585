//! Proofreading: what a careful colleague would mark in a text before it goes to a class.
//!
//! Comes in: a [`Manuscript`], plain text, made from a scenario or from an edited file. Goes out: [`Flaw`]s, each with
//! the words at fault. **Must not know**: the graph; how the text came about. A slip of the writer therefore shows here.
//!
//! One lint is one file and one row of [`LINTS`].

mod items;
mod manuscript;
mod numbers;
mod prose;
mod syllables;
mod words;

pub use manuscript::{Answer, Kind, Manuscript, Passage, Question};
pub use prose::reading_ease::{Counts, grade};
pub use prose::reading_load::{MOST_SHORT, is_too_long};
pub use syllables::syllables;

pub(super) use words::{count_in_words, sentences, stem};

use super::Scenario;
use crate::diagnostic::{Code, Severity};
use crate::technique::Refusal;

/// One kind of flaw, and how it is found.
#[derive(Debug)]
pub struct Lint {
    /// Name, meaning, an example with it and one without.
    pub code: Code,
    /// What to do about it.
    pub hint: &'static str,
    /// Who says so; none where it is plain English.
    pub source: Option<&'static str>,
    /// An error keeps a generated scenario from being given out.
    pub severity: Severity,
    /// Told of where a teacher's edit brought it in: flaws of questions and slips of the pen, and nothing of how a text
    /// reads, which is the teacher's own affair.
    pub after_edit: bool,
    /// Finds it.
    check: fn(&Manuscript) -> Vec<Found>,
}

/// A place at fault.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Found {
    place: String,
    quote: String,
    message: String,
}

impl Found {
    fn new(place: impl Into<String>, quote: impl Into<String>, message: impl Into<String>) -> Self {
        Self { place: place.into(), quote: quote.into(), message: message.into() }
    }
}

/// Something to mend.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Flaw {
    /// Which kind.
    pub code: &'static Code,
    /// Section or part: `purpose`, `how it works`, `(b)`, `guide b1`.
    pub place: String,
    /// The words at fault, exactly as written; empty where the whole is.
    pub quote: String,
    /// Lower-case fragment, no full stop.
    pub message: String,
    /// What to do about it.
    pub hint: &'static str,
    /// Who says so.
    pub source: Option<&'static str>,
    /// How grave.
    pub severity: Severity,
}

/// Every lint, in the order of the manual: letters, words, sentences, what is given away, load, questions.
pub static LINTS: &[&Lint] = &[
    &prose::stray_space::LINT,
    &prose::wrong_article::LINT,
    &prose::repeated_word::LINT,
    &prose::unbalanced::LINT,
    &prose::placeholder::LINT,
    &prose::broken_sentence::LINT,
    &prose::same_opening::LINT,
    &prose::dangling_opening::LINT,
    &prose::false_precision::LINT,
    &prose::missing_unit::LINT,
    &prose::mixed_tense::LINT,
    &prose::unintroduced::LINT,
    &prose::two_names::LINT,
    &prose::giveaway::LINT,
    &prose::explained::LINT,
    &prose::reading_ease::LINT,
    &prose::reading_load::LINT,
    &items::no_command_term::LINT,
    &items::two_questions::LINT,
    &items::how_many::LINT,
    &items::negative_stem::LINT,
    &items::vague_word::LINT,
    &items::cued_answer::LINT,
    &items::points_mismatch::LINT,
    &items::thin_explain::LINT,
];

/// The words of a text.
pub(super) fn words(text: &str) -> impl Iterator<Item = &str> {
    words::words(text).into_iter().map(|word| word.text)
}

/// Stems of the words of a text that carry matter, in order; none in the place of any other word.
pub(super) fn matter(text: &str) -> impl Iterator<Item = Option<String>> {
    words::words(text).into_iter().map(|word| words::is_content(word).then(|| stem(word.text)))
}

/// Everything to mend in a scenario.
pub fn proofread(scenario: &Scenario) -> Vec<Flaw> {
    read(&Manuscript::from(scenario))
}

/// Everything to mend in a manuscript, in the order of [`LINTS`].
pub fn read(manuscript: &Manuscript) -> Vec<Flaw> {
    LINTS.iter().flat_map(|lint| marks(lint, manuscript)).collect()
}

/// What an edit brought in, of the flaws that are told of after one: those that stood in no such place before.
pub fn brought_in(before: &Manuscript, after: &Manuscript) -> Vec<Flaw> {
    let new = |lint: &&'static Lint| {
        let old = (lint.check)(before);
        let is_new = move |flaw: &Flaw| !old.iter().any(|found| found.place == flaw.place);
        marks(lint, after).into_iter().filter(is_new).collect::<Vec<_>>()
    };
    LINTS.iter().filter(|lint| lint.after_edit).flat_map(new).collect()
}

/// The reason for which a scenario may not be given out: too much to read, or a grave flaw.
pub(super) fn refusal(scenario: &Scenario) -> Option<Refusal> {
    let manuscript = Manuscript::from(scenario);
    let grave = |lint: &&&Lint| lint.severity == Severity::Error;
    let flawed = || LINTS.iter().filter(grave).any(|lint| !(lint.check)(&manuscript).is_empty());
    if is_too_long(&manuscript) { Some(Refusal::TooLong) } else { flawed().then_some(Refusal::ProseFault) }
}

fn marks(lint: &'static Lint, manuscript: &Manuscript) -> Vec<Flaw> {
    let flaw = |found: Found| Flaw {
        code: &lint.code,
        place: found.place,
        quote: found.quote,
        message: found.message,
        hint: lint.hint,
        source: lint.source,
        severity: lint.severity,
    };
    (lint.check)(manuscript).into_iter().map(flaw).collect()
}
