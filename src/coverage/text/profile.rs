//! How the concepts speak of each principle: sentences as sets of weighted word stems.
//!
//! # Source
//! Weights are inverse document frequencies (Spärck Jones 1972, Journal of Documentation 28:11; from memory), a principle
//! being a document.

use std::collections::{BTreeMap, BTreeSet};

use rust_stemmers::{Algorithm, Stemmer};

use crate::concepts::graph::Graph;

/// Words that carry no matter of their own.
const SMALL: &[&str] = &[
    "a", "about", "above", "after", "all", "also", "an", "and", "any", "are", "as", "at", "be", "because", "been",
    "before", "below", "between", "both", "but", "by", "can", "do", "does", "each", "every", "few", "for", "from",
    "had", "has", "have", "here", "how", "if", "in", "into", "is", "it", "its", "itself", "less", "lower", "higher",
    "many", "more", "most", "much", "no", "not", "now", "of", "off", "on", "one", "only", "or", "other", "out", "over",
    "same", "so", "some", "such", "than", "that", "the", "their", "them", "then", "there", "these", "they", "this",
    "those", "through", "to", "two", "up", "was", "way", "were", "what", "when", "where", "which", "while", "who",
    "why", "with", "would", "you", "rises", "rise", "falls", "fall", "part", "describe", "explain", "plays",
];

/// Fewest stems of a sentence that can be told from others.
pub(super) const FEWEST: usize = 3;

/// Stems of the words of a text that carry matter.
pub(super) struct Stems {
    stemmer: Stemmer,
    small: BTreeSet<&'static str>,
}

impl Stems {
    pub(super) fn new() -> Self {
        Self { stemmer: Stemmer::create(Algorithm::English), small: SMALL.iter().copied().collect() }
    }

    /// Each once, in the order of the alphabet.
    pub(super) fn of(&self, text: &str) -> BTreeSet<String> {
        let words = text.split(|c: char| !c.is_alphanumeric() && c != '\'' && c != '’');
        let lower = words.map(str::to_lowercase);
        let content = lower.filter(|word| {
            word.chars().count() > 1 && word.chars().any(char::is_alphabetic) && !self.small.contains(word.as_str())
        });
        content.map(|word| self.stemmer.stem(word.trim_end_matches("'s").trim_end_matches("’s")).into_owned()).collect()
    }
}

/// A sentence of the concepts.
#[derive(Debug)]
pub(super) struct Said {
    /// Place of its principle.
    pub(super) principle: usize,
    /// Sum of the squared weights of its stems.
    pub(super) norm: f64,
}

/// All sentences of the concepts, by stem.
pub(super) struct Profiles {
    pub(super) stems: Stems,
    pub(super) said: Vec<Said>,
    /// Weight of each stem, and the sentences in which it stands.
    pub(super) index: BTreeMap<String, (f64, Vec<usize>)>,
    /// Weight of a stem that the concepts do not use.
    pub(super) unknown: f64,
}

impl Profiles {
    pub(super) fn new(graph: &Graph) -> Self {
        let stems = Stems::new();
        let sentences = said(graph);
        let sets: Vec<(usize, BTreeSet<String>)> = sentences
            .iter()
            .flat_map(|(principle, text)| text.split_inclusive(['.', '?', ';']).map(|one| (*principle, one)))
            .map(|(principle, text)| (principle, stems.of(&without_placeholders(text))))
            .filter(|(_, set)| set.len() >= FEWEST)
            .collect();
        let mut users: BTreeMap<&String, BTreeSet<usize>> = BTreeMap::new();
        for (principle, set) in &sets {
            for stem in set {
                users.entry(stem).or_default().insert(*principle);
            }
        }
        let n_principles = to_f64(graph.principles().count().max(1));
        let weight = |n_users: usize| libm::log((n_principles + 1.0) / to_f64(n_users));
        let mut index: BTreeMap<String, (f64, Vec<usize>)> =
            users.iter().map(|(stem, by)| ((*stem).clone(), (weight(by.len()), Vec::new()))).collect();
        let mut list = Vec::new();
        for (principle, set) in &sets {
            let mut norm = 0.0;
            for stem in set {
                if let Some((weight, places)) = index.get_mut(stem) {
                    places.push(list.len());
                    norm += *weight * *weight;
                }
            }
            list.push(Said { principle: *principle, norm });
        }
        Self { stems, said: list, index, unknown: 0.5 * weight(1) }
    }
}

pub(super) fn to_f64(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::MAX, f64::from)
}

/// Every sentence with the place of the principle that it belongs to.
pub(super) fn said(graph: &Graph) -> Vec<(usize, String)> {
    let mut all: Vec<(usize, String)> = Vec::new();
    for (ix, principle) in graph.principles() {
        let place = ix.place();
        all.push((place, principle.statement.clone()));
        for recall in &principle.recall {
            all.push((place, recall.ask.clone()));
            all.push((place, recall.answer.clone()));
        }
        all.extend(principle.misconceptions.iter().map(|one| (place, one.fails.clone())));
    }
    for (_, influence) in graph.influences() {
        let place = influence.principle.place();
        let answers = [&influence.because, &influence.up, &influence.down, &influence.role.ask, &influence.role.answer];
        all.extend(answers.into_iter().flat_map(|text| text.split(" // ")).map(|text| (place, text.to_owned())));
        let facts = influence.told.iter().chain(&influence.acts).flat_map(|fragment| &fragment.text);
        all.extend(facts.map(|text| (place, text.clone())));
    }
    all
}

/// The text without what a scenario fills in.
pub(super) fn without_placeholders(text: &str) -> String {
    let mut plain = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("{{") {
        plain.push_str(before);
        plain.push(' ');
        rest = after.split_once("}}").map_or("", |(_, rest)| rest);
    }
    plain + rest
}
