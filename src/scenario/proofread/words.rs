//! Sentences, words and word forms of plain English text, as slices of it.

use rust_stemmers::{Algorithm, Stemmer};

use crate::quantity::in_words;

/// A word with its place in the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Word<'a> {
    pub(super) text: &'a str,
    pub(super) start: usize,
    pub(super) end: usize,
}

impl Word<'_> {
    pub(super) fn lower(&self) -> String {
        self.text.to_lowercase()
    }

    /// Whether it is this word, capitals aside.
    pub(super) fn is(&self, other: &str) -> bool {
        self.text.eq_ignore_ascii_case(other)
    }

    pub(super) fn is_one_of(&self, others: &[&str]) -> bool {
        others.iter().any(|other| self.is(other))
    }

    pub(super) fn is_number(&self) -> bool {
        self.text.starts_with(|c: char| c.is_ascii_digit())
    }
}

/// Words: runs of letters, digits and inner apostrophes. A hyphen divides.
pub(super) fn words(text: &str) -> Vec<Word<'_>> {
    let mut found = Vec::new();
    let mut start = None;
    let ends = text.char_indices().chain([(text.len(), ' ')]);
    for (place, letter) in ends {
        let inner = matches!(letter, '\'' | '’') && start.is_some() && letter_after(text, place + letter.len_utf8());
        if letter.is_alphanumeric() || inner {
            start.get_or_insert(place);
        } else if let Some(from) = start.take() {
            found.push(Word { text: text.get(from..place).unwrap_or_default(), start: from, end: place });
        }
    }
    found
}

fn letter_after(text: &str, place: usize) -> bool {
    text.get(place..).is_some_and(|rest| rest.starts_with(char::is_alphabetic))
}

/// How many words a reader reads: whatever stands between spaces and holds a letter or digit.
pub(super) fn n_words(text: &str) -> usize {
    text.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).count()
}

/// Words before a full stop that end no sentence.
const ABBREVIATIONS: &[&str] = &["e.g", "i.e", "approx", "fig", "vs", "cf", "ca", "no", "dr", "st", "sp"];

/// Sentences, trimmed; the last may lack its full stop.
pub(in crate::scenario) fn sentences(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut start = 0;
    let mut letters = text.char_indices().peekable();
    while let Some((place, letter)) = letters.next() {
        if !matches!(letter, '.' | '?' | '!')
            || (letter == '.' && abbreviates(text.get(start..place).unwrap_or_default()))
        {
            continue;
        }
        let mut end = place + letter.len_utf8();
        while let Some((at, closer)) = letters.next_if(|(_, next)| is_closer(*next)) {
            end = at + closer.len_utf8();
        }
        if letters.peek().is_none_or(|(_, next)| next.is_whitespace()) {
            found.push(text.get(start..end).unwrap_or_default().trim());
            start = end;
        }
    }
    found.push(text.get(start..).unwrap_or_default().trim());
    found.retain(|sentence| !sentence.is_empty());
    found
}

/// Whether a word is a small number: "six".
pub(in crate::scenario) fn count_in_words(word: &str) -> bool {
    in_words::value(word).is_some_and(|number| number <= 10)
}

/// What may stand after a full stop and still belong to its sentence.
pub(super) fn is_closer(letter: char) -> bool {
    matches!(letter, '”' | '"' | '’' | ')' | ']' | '*')
}

fn abbreviates(before: &str) -> bool {
    let last = before.rsplit([' ', '(']).next().unwrap_or_default().to_lowercase();
    ABBREVIATIONS.contains(&last.as_str())
}

/// The stem of a word, in lower case (the English stemmer of the Snowball project).
pub(in crate::scenario) fn stem(word: &str) -> String {
    let lower = word.to_lowercase();
    let plain = lower.strip_suffix("'s").or_else(|| lower.strip_suffix("’s")).unwrap_or(&lower);
    Stemmer::create(Algorithm::English).stem(plain).into_owned()
}

/// Words that carry no matter of their own.
const SMALL: &[&str] = &[
    "a", "about", "after", "all", "also", "an", "and", "any", "are", "as", "at", "be", "because", "been", "before",
    "but", "by", "can", "does", "each", "equal", "every", "for", "from", "goes", "had", "has", "have", "hold", "holds",
    "how", "get", "gets", "if", "in", "inside", "into", "is", "it", "its", "itself", "less", "lower", "make", "makes",
    "many", "more", "most", "no", "not", "now", "of", "off", "on", "one", "only", "or", "other", "out", "outside",
    "over", "same", "so", "some", "stay", "stays", "such", "than", "that", "the", "their", "them", "then", "there",
    "these", "they", "this", "those", "through", "to", "two", "up", "was", "way", "were", "what", "when", "where",
    "which", "while", "whole", "with", "would",
];

/// Whether a word carries matter: no small word, no number, at least three letters.
pub(super) fn is_content(word: Word<'_>) -> bool {
    !word.is_number() && word.text.chars().count() >= 3 && !word.is_one_of(SMALL)
}

/// Stems of the words that carry matter, in order.
pub(super) fn content(text: &str) -> Vec<String> {
    words(text).into_iter().filter(|word| is_content(*word)).map(|word| stem(word.text)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn divides(text: &str, expected: &[&str]) {
        assert_eq!(sentences(text), expected);
    }

    #[test]
    fn sentences_end_at_full_stops_only() {
        divides("One is. Two are.", &["One is.", "Two are."]);
        divides("At 0.30 mol/L it holds. it does", &["At 0.30 mol/L it holds.", "it does"]);
        divides("Sugar (e.g. sucrose) is added.", &["Sugar (e.g. sucrose) is added."]);
        divides("They say “no.” So be it.", &["They say “no.”", "So be it."]);
        divides("", &[]);
    }

    #[test]
    fn words_are_slices_of_the_text() {
        let text = "The plate's 0.5-mm wells.";
        let found: Vec<&str> = words(text).iter().map(|word| word.text).collect();
        assert_eq!(found, ["The", "plate's", "0", "5", "mm", "wells"]);
        for word in words(text) {
            assert_eq!(text.get(word.start..word.end), Some(word.text));
        }
        assert_eq!(n_words("Six wells — at 0.5 mol/L."), 5);
    }

    #[test]
    fn stems_join_the_forms_of_a_word() {
        for (one, other) in [("leaks", "leaked"), ("diffuses", "diffused"), ("snail’s", "snail"), ("Swell", "swells")]
        {
            assert_eq!(stem(one), stem(other));
        }
    }
}
