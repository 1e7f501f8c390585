//! Which way through the graph a text takes: what it says of the bench and the ends that it names tell the steps between,
//! of which a question says nothing.
//!
//! Every way that a technique can take rests on facts: how its act is done, what its rig reads, what its steps and settings
//! tell. A way is the likelier, the more of its facts stand in the text.

use std::collections::{BTreeMap, BTreeSet};

use super::profile::{Stems, to_f64, without_placeholders};
use crate::concepts::graph::Graph;
use crate::concepts::{ActIx, InfluenceIx, RigIx, SettingIx};
use crate::technique::Catalogue;

/// Share of a fact from which on it speaks for the ways that rest on it; below, against them.
const HALF: f64 = 0.5;
/// How much likelier each whole fact makes a way, as a logarithm.
const SHARPNESS: f64 = 6.0;
/// A fact with fewer stems says too little.
const FEWEST: usize = 3;
/// How much of its facts a text must hold at least for the likeliest way to be believed, and from where on wholly.
const DOUBT: (f64, f64) = (0.4, 0.75);
/// Chance of a principle of a way that is wholly believed.
const MOST: f64 = 0.9;

/// Whose fact it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Whose {
    Act(ActIx),
    Rig(RigIx),
    Step(InfluenceIx),
    Setting(SettingIx),
}

/// A way with whose facts it rests on, by place.
struct Way {
    owners: Vec<usize>,
    /// Its principles, each with the owner of its facts where there is one.
    principles: Vec<(usize, Option<usize>)>,
}

/// All ways of a graph.
pub(super) struct Ways {
    /// Facts: the owner's place, and the sum of the weights of its stems.
    facts: Vec<(usize, f64)>,
    /// Weight of each stem and the facts that hold it.
    index: BTreeMap<String, (f64, Vec<usize>)>,
    n_owners: usize,
    all: Vec<Way>,
}

/// How likely each principle is, and which sentence speaks for it.
pub(super) type Likely = BTreeMap<usize, (f64, usize)>;

impl Ways {
    pub(super) fn new(graph: &Graph, stems: &Stems) -> Self {
        let told = told(graph);
        let owners: BTreeMap<Whose, usize> =
            told.iter().map(|(whose, _)| *whose).collect::<BTreeSet<_>>().into_iter().zip(0..).collect();
        let facts: Vec<(usize, BTreeSet<String>)> = told
            .iter()
            .map(|(whose, text)| (owners.get(whose).copied().unwrap_or(0), stems.of(&without_placeholders(text))))
            .filter(|(_, set)| set.len() >= FEWEST)
            .collect();
        let mut users: BTreeMap<String, BTreeSet<usize>> = BTreeMap::new();
        for (owner, set) in &facts {
            for stem in set {
                users.entry(stem.clone()).or_default().insert(*owner);
            }
        }
        let weight = |n: usize| libm::log((to_f64(owners.len()) + 1.0) / to_f64(n));
        let mut index: BTreeMap<String, (f64, Vec<usize>)> =
            users.into_iter().map(|(stem, by)| (stem, (weight(by.len()), Vec::new()))).collect();
        let mut sums = Vec::new();
        for (owner, set) in &facts {
            let mut sum = 0.0;
            for stem in set {
                if let Some((weight, places)) = index.get_mut(stem) {
                    places.push(sums.len());
                    sum += *weight;
                }
            }
            sums.push((*owner, sum));
        }
        Self { facts: sums, index, n_owners: owners.len(), all: ways(graph, &owners) }
    }

    /// How likely the ways of a text make each principle; empty where no way is to be believed.
    pub(super) fn likely(&self, sentences: &[BTreeSet<String>]) -> Likely {
        let fits = self.fits(sentences);
        let fit = |owner: &usize| fits.get(*owner).map_or(0.0, |(fit, _)| *fit);
        let score = |way: &Way| way.owners.iter().map(|owner| fit(owner) - HALF).sum::<f64>();
        let scores: Vec<f64> = self.all.iter().map(score).collect();
        let best = scores.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let Some(first) = scores.iter().position(|score| *score >= best).and_then(|place| self.all.get(place)) else {
            return Likely::new();
        };
        let mean = first.owners.iter().map(fit).sum::<f64>() / to_f64(first.owners.len().max(1));
        let belief = ((mean - DOUBT.0) / (DOUBT.1 - DOUBT.0)).clamp(0.0, 1.0);
        if belief <= 0.0 {
            return Likely::new();
        }
        let mut all = 0.0;
        let mut chances: BTreeMap<usize, (f64, f64, usize)> = BTreeMap::new();
        for (way, score) in self.all.iter().zip(&scores) {
            let chance = libm::exp(SHARPNESS * (score - best));
            all += chance;
            let whole = way.owners.iter().map(|owner| fits.get(*owner).copied().unwrap_or_default());
            let whole = whole.fold((0.0, 0), |best, one| if one.0 > best.0 { one } else { best });
            for (principle, owner) in &way.principles {
                let (fit, sentence) = owner.and_then(|owner| fits.get(owner).copied()).unwrap_or(whole);
                let known = chances.entry(*principle).or_insert((0.0, 0.0, 0));
                known.0 += chance;
                if fit * chance > known.1 {
                    (known.1, known.2) = (fit * chance, sentence);
                }
            }
        }
        chances
            .into_iter()
            .map(|(principle, (sum, _, place))| (principle, (MOST * belief * sum / all, place)))
            .collect()
    }

    /// For each owner, the greatest share of one of its facts that a sentence holds, and which sentence.
    fn fits(&self, sentences: &[BTreeSet<String>]) -> Vec<(f64, usize)> {
        let mut fits = vec![(0.0, 0); self.n_owners];
        for (place, stems) in sentences.iter().enumerate() {
            let mut held: BTreeMap<usize, f64> = BTreeMap::new();
            for (weight, facts) in stems.iter().filter_map(|stem| self.index.get(stem)) {
                for fact in facts {
                    *held.entry(*fact).or_default() += weight;
                }
            }
            for (fact, sum) in held {
                let Some((owner, whole)) = self.facts.get(fact) else { continue };
                let share = sum / whole.max(1e-9);
                if let Some(known) = fits.get_mut(*owner)
                    && share > known.0
                {
                    *known = (share, place);
                }
            }
        }
        fits
    }
}

/// Every fact with whose it is.
fn told(graph: &Graph) -> Vec<(Whose, &String)> {
    let mut all = Vec::new();
    for (ix, act) in graph.acts() {
        all.extend(act.text.iter().chain(&act.after).map(|text| (Whose::Act(ix), text)));
    }
    for (ix, rig) in graph.rigs() {
        all.extend(rig.read.iter().map(|text| (Whose::Rig(ix), text)));
    }
    for (ix, one) in graph.influences() {
        let facts = one.told.iter().chain(&one.acts).flat_map(|fragment| &fragment.text);
        all.extend(facts.map(|text| (Whose::Step(ix), text)));
    }
    for (ix, setting) in graph.settings() {
        all.extend(setting.told.iter().flat_map(|fragment| &fragment.text).map(|text| (Whose::Setting(ix), text)));
    }
    all
}

/// The ways that a technique can take, each set of facts once.
fn ways(graph: &Graph, owners: &BTreeMap<Whose, usize>) -> Vec<Way> {
    let mut met: BTreeSet<(Vec<usize>, Vec<InfluenceIx>)> = BTreeSet::new();
    let mut ways = Vec::new();
    for candidate in Catalogue::new(graph).candidates() {
        let steps = candidate.path.steps();
        let whose = [Whose::Act(candidate.act), Whose::Rig(candidate.rig)].into_iter();
        let whose = whose.chain(steps.iter().map(|step| Whose::Step(*step)));
        let whose = whose.chain(candidate.settings.holds.iter().map(|setting| Whose::Setting(*setting)));
        let own: Vec<usize> = whose.filter_map(|whose| owners.get(&whose).copied()).collect();
        if !met.insert((own.clone(), steps.to_vec())) {
            continue;
        }
        let mut principles: BTreeMap<usize, Option<usize>> = BTreeMap::new();
        for step in steps {
            let owner = owners.get(&Whose::Step(*step)).copied();
            let known = principles.entry(graph.influence(*step).principle.place()).or_default();
            *known = known.or(owner);
        }
        ways.push(Way { owners: own, principles: principles.into_iter().collect() });
    }
    ways
}
