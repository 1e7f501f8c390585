//! A gloss: rare words of the stimulus that are not the biology asked for.
//!
//! Comes in: the words that the concept files explain, and a text. Goes out: those that stand in it, in order. **Must not
//! know**: what the text is about.

use super::proofread::words;
use crate::concepts::graph::Gloss;

/// More words than this would be a reading task of their own.
const MOST: usize = 3;

/// Each rare word that stands in the text, and what it means, in the order of the text.
pub(super) fn gloss(known: &[Gloss], text: &str) -> Vec<(String, String)> {
    let mut found: Vec<(String, String)> = Vec::new();
    for word in words(text).map(str::to_lowercase) {
        let entry = known.iter().find(|entry| entry.word == word || entry.forms.contains(&word));
        let Some(entry) = entry.filter(|entry| found.iter().all(|(other, _)| *other != entry.word)) else { continue };
        found.push((entry.word.clone(), entry.means.clone()));
    }
    found.truncate(MOST);
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_found_once_in_any_form_and_in_the_order_of_the_text() {
        let entry = |word: &str, form: &str| Gloss {
            word: word.to_owned(),
            forms: vec![form.to_owned()],
            means: format!("a {word}"),
        };
        let known = [entry("vat", "vats"), entry("hatchery", "hatcheries")];
        let found = gloss(&known, "Hatcheries fill vats; each vat of a hatchery is full.");
        let found: Vec<&str> = found.iter().map(|(word, _)| word.as_str()).collect();
        assert_eq!(found, ["hatchery", "vat"]);
        assert_eq!(gloss(&known, "Evaporation."), []);
    }
}
