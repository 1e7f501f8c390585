//! The terms of the lexicon: things and quantities by all their names.

use super::{Dictionary, TermEntry};
use crate::review::lexicon::Lexicon;
use crate::review::meaning::Meaning;
use crate::review::words;

impl Dictionary {
    pub(super) fn lexicon(&mut self, lexicon: &Lexicon) {
        for term in &lexicon.terms {
            let number = self.terms.len();
            self.terms.push(TermEntry { id: format!("t:{}", term.id), quantity: term.quantity, words: Vec::new() });
            for form in &term.forms {
                self.learn(form, true);
                let stems = self.content(form);
                // A form with a direction in it ("more enzyme") would hide the direction.
                let whole_name = term.quantity && stems.len() >= 4;
                if !stems.is_empty() && (whole_name || !stems.iter().any(|stem| self.turns(stem))) {
                    // "Fragments" are what "pieces" are.
                    let like = match stems.as_slice() {
                        [stem] if !term.quantity => self.like(stem),
                        _ => Vec::new(),
                    };
                    if let ([stem], true) = (stems.as_slice(), term.quantity) {
                        let head = self.canonical(stem);
                        self.stand_for.entry(head).or_insert(number);
                    }
                    self.add(stems, Meaning::Term(number));
                    for stem in like {
                        self.add(vec![stem], Meaning::Term(number));
                    }
                }
            }
        }
        for word in &lexicon.glossary {
            self.learn(word, false);
        }
        for (number, term) in lexicon.terms.iter().enumerate().filter(|(_, term)| term.quantity) {
            let words = term.forms.first().map(|form| self.words_of(form, number)).unwrap_or_default();
            if let Some(entry) = self.terms.get_mut(number) {
                entry.words = words;
            }
        }
    }

    /// Keys of what the name of a quantity names, up to where it says in what.
    fn words_of(&self, form: &str, own: usize) -> Vec<String> {
        let name = [" in the ", " in each ", " outside ", " inside ", " toward "]
            .iter()
            .fold(form, |name, mark| name.split_once(mark).map_or(name, |(name, _)| name));
        let stems = self.stems.phrase(name);
        let stems: Vec<&str> = stems.iter().map(String::as_str).collect();
        let mut keys = Vec::new();
        let mut at = 0;
        while let Some(stem) = stems.get(at) {
            let found = self.longest(stems.get(at..).unwrap_or_default());
            let (length, key) = match found {
                Some((length, Meaning::Sense(group))) => (
                    length,
                    words::lists().senses.get(group).and_then(|group| group.first()).map(|head| self.key(head)),
                ),
                Some((length, Meaning::Term(term))) if term != own => {
                    (length, self.term(term).map(|term| term.id.clone()))
                }
                Some((_, Meaning::Term(_))) | None => (1, Some(self.canonical(stem))),
                Some((length, _)) => (length, None),
            };
            keys.extend(key.filter(|key| !self.is_little(key)));
            at += length;
        }
        keys
    }

    /// Other words that mean the same, by their stems.
    fn like(&self, stem: &str) -> Vec<String> {
        let Some(head) = self.senses.get(stem).and_then(|heads| heads.first()) else { return Vec::new() };
        self.senses
            .iter()
            .filter(|(other, heads)| heads.first() == Some(head) && other.as_str() != stem)
            .map(|(other, _)| other.clone())
            .collect()
    }

    /// The stems of a form without articles at its start.
    fn content(&self, form: &str) -> Vec<String> {
        let mut stems = self.stems.phrase(form);
        while stems.first().is_some_and(|stem| ["the", "a", "an"].contains(&stem.as_str())) {
            stems.remove(0);
        }
        stems
    }
}
