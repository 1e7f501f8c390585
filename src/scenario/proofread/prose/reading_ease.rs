//! Reading ease: suited to ages 16 to 19.

use super::super::syllables::syllables;
use super::super::words::sentences;
use super::super::{Found, Lint, Manuscript};
use crate::diagnostic::{Code, Severity};

pub(in crate::scenario::proofread) static LINT: Lint = Lint {
    code: Code {
        name: "reading-ease",
        meaning: "the stimulus is easier or harder to read than ages 16 to 19 expect",
        wrong: "It is hot. It is wet.",
        right: "At low tide the pools on the reef become far warmer than the sea around them.",
    },
    hint: "shorten sentences and words, or join them",
    source: Some("Kincaid, Fishburne, Rogers & Chissom 1975, Research Branch Report 8-75: grade level"),
    severity: Severity::Warning,
    after_edit: false,
    check,
};

/// School years that the stimulus may ask for. Ages 16 to 19 are in years 10 to 13: below the first, sentences are
/// choppy; above the second, reading is a test of its own.
const EASIEST: f64 = 9.0;
const HARDEST: f64 = 12.5;

fn check(manuscript: &Manuscript) -> Vec<Found> {
    let stimulus: Vec<&str> = manuscript.stimulus().iter().map(|passage| passage.text).collect();
    let Some(grade) = grade(&stimulus.join(" ")) else { return Vec::new() };
    let message = if grade < EASIEST {
        format!("grade {grade:.1} is below {EASIEST:.0}")
    } else if grade > HARDEST {
        format!("grade {grade:.1} is above {HARDEST}")
    } else {
        return Vec::new();
    };
    vec![Found::new("how it works", "", message)]
}

/// The Flesch–Kincaid grade of a text; none without a sentence.
pub fn grade(text: &str) -> Option<f64> {
    Counts::of(text).grade()
}

/// What the grade of a text rests on.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counts {
    sentences: usize,
    words: usize,
    syllables: usize,
}

impl Counts {
    /// Counted as Flesch does (How to Write Plain English 1979, ch. 2): a compound with a hyphen is one word;
    /// abbreviations, figures and symbols are words of one syllable.
    pub fn of(text: &str) -> Self {
        let words = text.split_whitespace().filter(|word| word.contains(char::is_alphanumeric));
        let syllables: Vec<usize> = words.map(spoken).collect();
        Self { sentences: sentences(text).len(), words: syllables.len(), syllables: syllables.iter().sum() }
    }

    /// The Flesch–Kincaid grade; none without a sentence.
    ///
    /// # Source
    /// Kincaid, Fishburne, Rogers & Chissom 1975: 0.39 words a sentence + 11.8 syllables a word − 15.59.
    pub fn grade(self) -> Option<f64> {
        if self.sentences == 0 || self.words == 0 {
            return None;
        }
        let count = |n: usize| u32::try_from(n).map_or(f64::MAX, f64::from);
        let words = count(self.words);
        Some(0.39 * words / count(self.sentences) + 11.8 * count(self.syllables) / words - 15.59)
    }
}

impl std::iter::Sum for Counts {
    fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
        parts.fold(Self::default(), |sum, part| Self {
            sentences: sum.sentences + part.sentences,
            words: sum.words + part.words,
            syllables: sum.syllables + part.syllables,
        })
    }
}

/// Syllables of what stands between two spaces; the parts of a compound are counted one by one.
fn spoken(word: &str) -> usize {
    let abbreviation = word.chars().filter(|c| c.is_uppercase()).count() > 1 || word.starts_with("pH");
    if abbreviation || word.contains(|c: char| c.is_ascii_digit() || "/·°%µ⁻".contains(c)) {
        return 1;
    }
    let parts = word.split('-').map(|part| part.trim_end_matches("'s").trim_end_matches("’s"));
    parts.filter(|part| part.contains(char::is_alphabetic)).map(syllables).sum()
}
