//! Principles read from a text: terms, quantities and directions, and sentences like those that the concepts use.
//!
//! Comes in: the graph, then any text. Goes out: items, each principle with the sentence that shows it best and a
//! strength. It is advice: a principle that a text uses without a word for it is missed, a word used in passing counts.

mod profile;
mod sentences;
mod split;
mod ways;
mod weigh;

use std::collections::BTreeSet;

use super::item::finish;
use super::terms;
use super::{Evidence, Exercised, How, Item};
use crate::concepts::PrincipleIx;
use crate::concepts::graph::Graph;
use profile::Profiles;
use sentences::Sentence;
use ways::Ways;
use weigh::Weigher;

/// Weakest strength that is reported.
const WEAKEST: f64 = 0.2;
/// Sentences whose strengths add up; more of the same adds nothing.
const BEST: usize = 4;
/// Sentences from which on a text is long, and how much more what a short one says weighs at most.
const LONG: f64 = 20.0;
const MOST_WEIGHT: f64 = 3.0;

/// Reads texts by the concepts of one graph.
pub struct TextReader<'g> {
    graph: &'g Graph,
    weigher: Weigher,
    ways: Ways,
}

impl<'g> TextReader<'g> {
    /// Makes ready for a graph: once, for any number of texts.
    pub fn new(graph: &'g Graph) -> Self {
        let profiles = Profiles::new(graph);
        let ways = Ways::new(graph, &profiles.stems);
        Self { graph, weigher: Weigher::new(graph, profiles), ways }
    }

    /// The questions of a text, each an item; the whole text as one where it holds no numbered questions.
    pub fn items(&self, file: &str, text: &str) -> Vec<Item> {
        split::questions(text).into_iter().map(|question| self.item(file, &question)).collect()
    }

    fn item(&self, file: &str, question: &split::Question<'_>) -> Item {
        let sentences = sentences::of(question.text, question.line);
        let mut item = Item {
            file: file.to_owned(),
            part: question.part.clone(),
            title: question.title.clone(),
            principles: self.principles(&sentences),
            fields: Vec::new(),
            command_terms: Vec::new(),
            skills: Vec::new(),
            difficulty: None,
        };
        terms::note(&mut item, question.text);
        finish(self.graph, &mut item);
        item
    }

    /// Strength and evidence of each principle, in the order of the graph.
    fn principles(&self, sentences: &[Sentence]) -> Vec<Exercised> {
        let mut found: Vec<Vec<(f64, usize)>> = vec![Vec::new(); self.graph.principles().count()];
        let stems: Vec<BTreeSet<String>> = sentences.iter().map(|one| self.weigher.stems(&one.text)).collect();
        let likely = self.ways.likely(&stems);
        for (principle, (chance, place)) in &likely {
            if let Some(list) = found.get_mut(*principle) {
                list.push((*chance, *place));
            }
        }
        let mut met = BTreeSet::new();
        for ((place, sentence), stems) in sentences.iter().enumerate().zip(&stems) {
            for (principle, strength) in self.weigher.weigh(&sentence.text, stems, &likely, &mut met) {
                if let Some(list) = found.get_mut(principle) {
                    list.push((strength, place));
                }
            }
        }
        // In a short question every word weighs more.
        let n = u32::try_from(sentences.len().max(1)).map_or(f64::MAX, f64::from);
        let weight = (LONG / n).clamp(1.0, MOST_WEIGHT);
        let ixs: Vec<PrincipleIx> = self.graph.principles().map(|(ix, _)| ix).collect();
        ixs.into_iter()
            .zip(found)
            .filter_map(|(principle, list)| exercised(principle, list, sentences, weight))
            .collect()
    }
}

/// Strengths as chances that do not know of each other: what is missing of 1 is multiplied.
fn exercised(
    principle: PrincipleIx,
    mut list: Vec<(f64, usize)>,
    sentences: &[Sentence],
    weight: f64,
) -> Option<Exercised> {
    list.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    let (_, best) = list.first().copied()?;
    let missing: f64 = list.iter().take(BEST).map(|(strength, _)| 1.0 - strength).product();
    let sentence = sentences.get(best)?;
    let strength = 1.0 - libm::pow(missing, weight);
    (strength >= WEAKEST).then(|| Exercised {
        principle,
        how: How::Text,
        strength,
        evidence: Evidence::Sentence(sentence.text.clone().into_boxed_str(), sentence.line),
    })
}
