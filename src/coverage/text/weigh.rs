//! How strongly one sentence speaks of each principle.

use std::collections::{BTreeMap, BTreeSet};

use super::profile::{FEWEST, Profiles, said, to_f64, without_placeholders};
use super::ways::Likely;
use crate::concepts::graph::{DeclaredSign, Graph, Quantity};
use crate::review::{Direction, Lexicon, Reader, Term, View};

/// Likeness from which on a sentence is one of the concepts' own, and below which it says nothing.
const ALIKE: f64 = 0.8;
const UNLIKE: f64 = 0.45;
/// Share of the best fit from which on a principle fits as well.
const NEAR: f64 = 0.9;
/// Strength of a sentence that is one of the concepts' own.
const OWN: f64 = 0.8;
/// Strength of a term that only one principle has; of two ends of an influence named; of their directions told.
const TERM: f64 = 0.42;
const BOTH_ENDS: f64 = 0.15;
const DIRECTIONS: f64 = 0.35;
/// What is said under a negation counts for so much.
const NEGATED: f64 = 0.5;

/// An influence as a sentence may speak of it.
struct Arrow {
    from: usize,
    to: usize,
    sign: DeclaredSign,
    principle: usize,
}

/// Weighs sentences.
pub(super) struct Weigher {
    profiles: Profiles,
    reader: Reader,
    /// The principles that have each form among their terms, and how strongly it speaks for one, by the form's number.
    forms: Vec<(Vec<usize>, f64)>,
    arrows: Vec<Arrow>,
}

impl Weigher {
    pub(super) fn new(graph: &Graph, profiles: Profiles) -> Self {
        let mut by_form: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (ix, principle) in graph.principles() {
            for form in principle.terms.iter().chain([&principle.name]) {
                let users = by_form.entry(form.to_lowercase()).or_default();
                if !users.contains(&ix.place()) {
                    users.push(ix.place());
                }
            }
        }
        let mut terms: Vec<Term> = by_form
            .keys()
            .zip(0_usize..)
            .map(|(form, number)| Term { id: format!("form-{number}"), forms: vec![form.clone()], quantity: false })
            .collect();
        terms.extend(graph.quantities().map(|(ix, quantity)| Term {
            id: format!("quantity-{}", ix.place()),
            forms: names(quantity),
            quantity: true,
        }));
        let arrows = graph.influences().map(|(_, one)| Arrow {
            from: one.from.place(),
            to: one.to.place(),
            sign: one.sign,
            principle: one.principle.place(),
        });
        let reader = Reader::new(&Lexicon { terms, glossary: Vec::new() });
        let mut users: Vec<BTreeSet<usize>> = by_form.values().map(|own| own.iter().copied().collect()).collect();
        for (principle, text) in said(graph) {
            for number in numbers(&reader.read(&without_placeholders(&text))) {
                users.get_mut(number.0).map(|users| users.insert(principle));
            }
        }
        // A word that others use too says less.
        let strength = |users: &BTreeSet<usize>| TERM / libm::sqrt(to_f64(users.len().max(1)));
        let forms = by_form.into_values().zip(&users).map(|(own, users)| (own, strength(users)));
        Self { profiles, forms: forms.collect(), reader, arrows: arrows.collect() }
    }

    /// Principles that a sentence speaks of, by place, with a strength below 1. Terms count once a text: `met` holds those
    /// that were met.
    pub(super) fn weigh(
        &self,
        sentence: &str,
        stems: &BTreeSet<String>,
        likely: &Likely,
        met: &mut BTreeSet<(usize, bool)>,
    ) -> Vec<(usize, f64)> {
        let mut missing: BTreeMap<usize, f64> = BTreeMap::new();
        let mut add = |principle: usize, strength: f64| *missing.entry(principle).or_insert(1.0) *= 1.0 - strength;
        for (principle, alike) in self.alike(stems, likely) {
            let share = ((alike - UNLIKE) / (ALIKE - UNLIKE)).clamp(0.0, 1.0);
            add(principle, OWN * share);
        }
        let view = self.reader.read(sentence);
        for (number, negated) in numbers(&view) {
            let Some((own, strength)) = self.forms.get(number).filter(|_| met.insert((number, negated))) else {
                continue;
            };
            for principle in own {
                add(*principle, if negated { NEGATED * strength } else { *strength });
            }
        }
        for (principle, strength) in self.quantities(&view) {
            add(principle, strength);
        }
        let strengths = missing.into_iter().map(|(principle, missing)| (principle, 1.0 - missing));
        strengths.filter(|(_, strength)| *strength > 0.01).collect()
    }

    /// Stems of the words of a sentence that carry matter.
    pub(super) fn stems(&self, sentence: &str) -> BTreeSet<String> {
        self.profiles.stems.of(sentence)
    }

    /// For each principle, how like the sentence is to the likest of its own: the cosine of their weights.
    fn alike(&self, stems: &BTreeSet<String>, likely: &Likely) -> Vec<(usize, f64)> {
        if stems.len() < FEWEST {
            return Vec::new();
        }
        let mut shared: BTreeMap<usize, (usize, f64)> = BTreeMap::new();
        let mut norm = 0.0;
        for stem in stems {
            let Some((weight, places)) = self.profiles.index.get(stem) else {
                norm += self.profiles.unknown * self.profiles.unknown;
                continue;
            };
            norm += weight * weight;
            for place in places {
                let (n, sum) = shared.entry(*place).or_insert((0, 0.0));
                *n += 1;
                *sum += weight * weight;
            }
        }
        let mut best: BTreeMap<usize, f64> = BTreeMap::new();
        for (place, (_, shared)) in shared.into_iter().filter(|(_, (n, _))| *n >= FEWEST) {
            let Some(said) = self.profiles.said.get(place) else { continue };
            let alike = shared / libm::sqrt(norm * said.norm).max(1e-9);
            let known = best.entry(said.principle).or_insert(0.0);
            *known = known.max(alike);
        }
        // A sentence is about one thing: principles that it fits less well than another do not count.
        let most = best.values().copied().fold(0.0, f64::max);
        best.retain(|_, alike| *alike > UNLIKE && *alike > NEAR * most);
        // Of several that it fits as well, it is about those on the way that the text takes.
        let chance = |principle: &usize| likely.get(principle).map_or(0.0, |(chance, _)| *chance);
        let likeliest = best.keys().map(chance).fold(0.0, f64::max);
        best.into_iter().filter(|(principle, _)| chance(principle) >= 0.5 * likeliest).collect()
    }

    /// Influences whose ends are both named, more where both are said to change as the sign says.
    fn quantities(&self, view: &View) -> Vec<(usize, f64)> {
        let place = |key: &str| key.strip_prefix("t:quantity-").and_then(|number| number.parse::<usize>().ok());
        let mut named: Vec<usize> =
            view.terms.iter().flat_map(|term| &term.keys).filter_map(|key| place(key)).collect();
        let mut moves: BTreeMap<usize, Vec<Direction>> = BTreeMap::new();
        for claim in view.directions.iter().filter(|claim| !claim.aside) {
            for quantity in claim.of.iter().filter_map(|key| place(key)) {
                moves.entry(quantity).or_default().push(claim.direction);
                named.push(quantity);
            }
        }
        let both = self.arrows.iter().filter(|arrow| named.contains(&arrow.from) && named.contains(&arrow.to));
        let mut found: BTreeMap<usize, f64> = BTreeMap::new();
        for arrow in both {
            let told = |quantity: &usize, direction| moves.get(quantity).is_some_and(|list| list.contains(&direction));
            let pairs: &[(Direction, Direction)] = match arrow.sign {
                DeclaredSign::Plus => &[(Direction::Up, Direction::Up), (Direction::Down, Direction::Down)],
                DeclaredSign::Minus => &[(Direction::Up, Direction::Down), (Direction::Down, Direction::Up)],
                DeclaredSign::Turning { .. } => &[],
            };
            let follows = pairs.iter().any(|(from, to)| told(&arrow.from, *from) && told(&arrow.to, *to));
            let strength = if follows { DIRECTIONS } else { BOTH_ENDS };
            let known = found.entry(arrow.principle).or_insert(0.0);
            *known = known.max(strength);
        }
        found.into_iter().collect()
    }
}

/// Numbers of the forms that are named, and whether under a negation.
fn numbers(view: &View) -> Vec<(usize, bool)> {
    let of = |key: &String| key.strip_prefix("t:form-")?.parse::<usize>().ok();
    view.terms.iter().flat_map(|term| term.keys.iter().filter_map(of).map(|number| (number, term.negated))).collect()
}

/// What a quantity may be called: its name, and its phrases in running text, whatever setting holds.
fn names(quantity: &Quantity) -> Vec<String> {
    let mut forms = vec![quantity.name.to_lowercase()];
    for the in std::iter::once(&quantity.the).chain(quantity.called.iter().map(|(_, the)| the)) {
        let phrase = phrase(the);
        if phrase.split_whitespace().count() > 1 && !forms.contains(&phrase) {
            forms.push(phrase);
        }
    }
    forms
}

/// A phrase of running text up to what a scenario fills in, without article.
fn phrase(the: &str) -> String {
    let mut phrase = without_placeholders(the.split("{{").next().unwrap_or_default());
    for end in [" the", " a", " of", " in", " outside", " inside", " by", " from", " through"] {
        phrase = phrase.trim_end().strip_suffix(end).map_or(phrase.clone(), str::to_owned);
    }
    phrase.trim().trim_start_matches("the ").to_lowercase()
}
