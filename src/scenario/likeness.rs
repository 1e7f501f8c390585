//! Likeness of texts: how many sentences two of them share, numbers and a changed word aside.
//!
//! Comes in: plain texts, one by one. Goes out: the one that is most like a new one. **Must not know**: what they are about.

use std::collections::{BTreeMap, BTreeSet};

use similar::{Algorithm, DiffOp, capture_diff_slices};

use super::proofread::{count_in_words, sentences, words};

/// Two sentences are the same when at least four in five of their words stand in both, in one order.
const SAME: (usize, usize) = (4, 5);
/// A text is too alike when it shares more than one sentence in so many.
const SHARE: usize = 3;

/// How much a text shares with another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Alike {
    /// Number of the other text, in the order in which they were added.
    pub with: usize,
    /// Sentences shared.
    pub shared: usize,
    /// Sentences of the shorter text.
    pub of: usize,
}

impl Alike {
    /// Whether more than a third is shared.
    pub fn is_too_much(&self) -> bool {
        SHARE * self.shared > self.of
    }

    /// The share in per cent, rounded down.
    pub fn per_cent(&self) -> usize {
        (100 * self.shared).checked_div(self.of).unwrap_or(0)
    }
}

/// Texts met so far, by sentence.
#[derive(Debug, Clone, Default)]
pub struct Texts {
    /// Sentences of each text.
    lengths: Vec<usize>,
    /// Each sentence once, as its words.
    sentences: Vec<Vec<String>>,
    numbers: BTreeMap<Vec<String>, usize>,
    /// The sentences that count as the same, itself among them.
    kin: Vec<BTreeSet<usize>>,
    /// The texts in which each stands.
    stands: Vec<BTreeSet<usize>>,
    /// The sentences that hold three words in a row.
    runs: BTreeMap<[String; 3], Vec<usize>>,
}

impl Texts {
    /// Adds a text; its number is that of texts before it.
    pub fn add(&mut self, text: &str) {
        let place = self.lengths.len();
        let sentences = normal(text);
        self.lengths.push(sentences.len());
        for sentence in sentences {
            let number = self.number(sentence);
            if let Some(stands) = self.stands.get_mut(number) {
                stands.insert(place);
            }
        }
    }

    /// The text with which this one shares most, the earliest of equals; none where it shares nothing.
    pub fn most_alike(&self, text: &str) -> Option<Alike> {
        let sentences = normal(text);
        let mut shared: BTreeMap<usize, usize> = BTreeMap::new();
        for sentence in &sentences {
            let kin = match self.numbers.get(sentence).and_then(|number| self.kin.get(*number)) {
                Some(kin) => kin.clone(),
                None => self.like(sentence),
            };
            let texts: BTreeSet<usize> =
                kin.iter().filter_map(|number| self.stands.get(*number)).flatten().copied().collect();
            for place in texts {
                *shared.entry(place).or_default() += 1;
            }
        }
        let alike = shared.into_iter().filter_map(|(with, shared)| {
            let of = (*self.lengths.get(with)?).min(sentences.len());
            Some(Alike { with, shared: shared.min(of), of })
        });
        alike.reduce(|most, next| if next.shared * most.of > most.shared * next.of { next } else { most })
    }

    fn number(&mut self, sentence: Vec<String>) -> usize {
        if let Some(number) = self.numbers.get(&sentence) {
            return *number;
        }
        let number = self.sentences.len();
        let mut kin = self.like(&sentence);
        for other in &kin {
            if let Some(kin) = self.kin.get_mut(*other) {
                kin.insert(number);
            }
        }
        kin.insert(number);
        self.kin.push(kin);
        self.stands.push(BTreeSet::new());
        for run in runs(&sentence) {
            self.runs.entry(run).or_default().push(number);
        }
        self.numbers.insert(sentence.clone(), number);
        self.sentences.push(sentence);
        number
    }

    /// Sentences that count as the same as this one. Those that do share three words in a row.
    fn like(&self, sentence: &[String]) -> BTreeSet<usize> {
        let near: BTreeSet<usize> =
            runs(sentence).iter().filter_map(|run| self.runs.get(run)).flatten().copied().collect();
        let same = |number: &usize| self.sentences.get(*number).is_some_and(|other| is_same(sentence, other));
        near.into_iter().filter(same).collect()
    }
}

/// The text of a folder or run that this one is too like, if any.
pub fn too_alike(text: &str, others: &[&str]) -> Option<Alike> {
    let mut texts = Texts::default();
    for other in others {
        texts.add(other);
    }
    texts.most_alike(text).filter(Alike::is_too_much)
}

fn is_same(one: &[String], other: &[String]) -> bool {
    let enough = |kept: usize| SAME.1 * 2 * kept >= SAME.0 * (one.len() + other.len());
    // No more can be kept than the shorter has: most pairs are told apart by that alone.
    if !enough(one.len().min(other.len())) {
        return false;
    }
    let kept = capture_diff_slices(Algorithm::Myers, one, other).into_iter().map(|step| match step {
        DiffOp::Equal { len, .. } => len,
        _ => 0,
    });
    enough(kept.sum())
}

/// Sentences, and clauses that a semicolon joins, as words in lower case, every number as `#`.
fn normal(text: &str) -> Vec<Vec<String>> {
    let word = |word: &str| {
        let number = word.starts_with(|c: char| c.is_ascii_digit()) || count_in_words(word);
        if number { "#".to_owned() } else { word.to_lowercase() }
    };
    let clauses = sentences(text).into_iter().flat_map(|sentence| sentence.split("; "));
    clauses.map(|clause| words(clause).map(word).collect()).collect()
}

fn runs(sentence: &[String]) -> BTreeSet<[String; 3]> {
    sentence.windows(3).filter_map(|run| <[String; 3]>::try_from(run.to_vec()).ok()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ONE: &str = "Six wells hold dye at 0.2 mol/L. Each is read after ten minutes. A camera looks down on them.";

    #[track_caller]
    fn case(text: &str, shared: usize) {
        let mut texts = Texts::default();
        texts.add("Nothing like it stands here at all.");
        texts.add(ONE);
        let most = texts.most_alike(text);
        assert_eq!(most.map_or(0, |most| most.shared), shared, "{text}");
        assert!(most.is_none_or(|most| most.with == 1));
    }

    #[test]
    fn sentences_are_shared_whatever_their_numbers() {
        case(ONE, 3);
        case("Six wells hold dye at 0.3 mol/L; each is read after two minutes. A camera looks down on them.", 3);
        case("Eight wells hold dye at 0.5 mol/L. It rains today.", 1);
        case("Six wells hold ink at 0.2 mol/L. It rains today.", 1);
        case("A plate reader looks at six tubes. It rains today.", 0);
        case("", 0);
    }

    #[test]
    fn more_than_a_third_is_too_much() {
        let third = "Six wells hold dye at 0.2 mol/L. It rains today on the roof. Nobody goes out for a walk.";
        assert_eq!(too_alike(third, &[ONE]), None);
        let more = "Six wells hold dye at 0.2 mol/L. It rains today on the roof.";
        assert_eq!(too_alike(more, &["Else.", ONE]), Some(Alike { with: 1, shared: 1, of: 2 }));
        assert_eq!(too_alike(ONE, &[]), None);
    }
}
