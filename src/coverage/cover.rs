//! The smallest set of items that covers what is asked.
//!
//! Exact by branch and bound, as far as the work that is allowed reaches; beyond it the greedy choice, with how far from
//! the smallest it can be.
//!
//! # Source
//! Greedy and its bound, the harmonic number of the largest set: Chvátal 1979, Mathematics of Operations Research 4:233
//! (from memory). The lower bound is a solution of the dual linear program: each missing principle is given one over the
//! size of the largest set that holds it (weak duality; common practice, no source).

use std::collections::BTreeMap;

use super::Bits;

/// Sets looked at before the search is given up.
const MOST_WORK: usize = 20_000_000;
/// One, in the fixed-point numbers of the bound: no rounding differs between machines.
const ONE: u64 = 1 << 32;

/// What covers what was asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    /// Places of the chosen sets, rising.
    pub chosen: Vec<usize>,
    /// Whether it is proved that no smaller set of them does it.
    pub exact: bool,
    /// No set of fewer does it: proved. Equal to the number of chosen where `exact`.
    pub at_least: usize,
    /// At most this many times as many as the smallest: 1 where `exact`.
    pub at_most_times: f64,
    /// What no set holds.
    pub uncovered: Bits,
}

/// Chooses as few of the sets as hold all that is asked and that any of them holds.
pub fn smallest(sets: &[Bits], asked: &Bits) -> Cover {
    let mut held = Bits::default();
    for set in sets {
        held.extend(set.and(asked).iter());
    }
    let kept = undominated(sets, &held);
    let mut search = Search { best: greedy(&kept, &held), sets: &kept, work: 0, stopped: false };
    let n_greedy = search.best.len();
    let at_least = search.bound(&held);
    if at_least < n_greedy {
        search.branch(&held, &mut Vec::new());
    }
    let mut chosen: Vec<usize> = search.best.iter().filter_map(|place| kept.get(*place)).map(|one| one.place).collect();
    chosen.sort_unstable();
    let exact = !search.stopped;
    let largest = kept.iter().map(|one| one.set.len()).max().unwrap_or(0);
    let ratio = |n: usize, least: usize| to_f64(n) / to_f64(least.max(1));
    Cover {
        at_least: if exact { chosen.len() } else { at_least },
        at_most_times: if exact { 1.0 } else { harmonic(largest).min(ratio(chosen.len(), at_least)) },
        exact,
        chosen,
        uncovered: asked.without(&held),
    }
}

fn to_f64(n: usize) -> f64 {
    u32::try_from(n).map_or(f64::MAX, f64::from)
}

/// 1 + 1/2 + … + 1/n.
fn harmonic(n: usize) -> f64 {
    (1..=n).map(|k| 1.0 / to_f64(k)).sum()
}

/// A set that may be chosen, and its place among all.
#[derive(Debug)]
struct Kept {
    place: usize,
    set: Bits,
}

/// Sets that no other holds whole, each once, the largest first: the others need not be chosen.
fn undominated(sets: &[Bits], held: &Bits) -> Vec<Kept> {
    let mut all: Vec<Kept> = sets
        .iter()
        .enumerate()
        .map(|(place, set)| Kept { place, set: set.and(held) })
        .filter(|one| !one.set.is_empty())
        .collect();
    all.sort_by(|a, b| (b.set.len(), &a.set, a.place).cmp(&(a.set.len(), &b.set, b.place)));
    all.dedup_by(|next, before| next.set == before.set);
    let mut kept: Vec<Kept> = Vec::new();
    // Who holds one whole holds each of its numbers: only the holders of the rarest are looked at.
    let mut holders: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for one in all {
        let of = |number: usize| holders.get(&number).map_or(&[] as &[usize], Vec::as_slice);
        let fewest = one.set.iter().map(of).min_by_key(|places| places.len()).unwrap_or_default();
        let is_within = |place: &usize| kept.get(*place).is_some_and(|other| one.set.is_subset(&other.set));
        if !fewest.iter().any(is_within) {
            for number in one.set.iter() {
                holders.entry(number).or_default().push(kept.len());
            }
            kept.push(one);
        }
    }
    kept
}

/// Takes the set that holds most of what is missing, until nothing is.
fn greedy(sets: &[Kept], held: &Bits) -> Vec<usize> {
    let mut missing = held.clone();
    let mut chosen = Vec::new();
    while !missing.is_empty() {
        let best = sets.iter().enumerate().max_by_key(|(place, one)| (one.set.n_shared(&missing), usize::MAX - place));
        let Some((place, one)) = best else { break };
        missing = missing.without(&one.set);
        chosen.push(place);
    }
    chosen
}

struct Search<'a> {
    sets: &'a [Kept],
    best: Vec<usize>,
    work: usize,
    stopped: bool,
}

impl Search<'_> {
    /// No fewer sets hold all that is missing.
    fn bound(&self, missing: &Bits) -> usize {
        let sizes: Vec<u64> = self.sets.iter().map(|one| one.set.n_shared(missing) as u64).collect();
        let of = |number: usize| {
            let holding = self.sets.iter().zip(&sizes).filter(|(one, _)| one.set.contains(number));
            holding.map(|(_, size)| *size).max().map_or(0, |most| ONE / most.max(1))
        };
        let sum: u64 = missing.iter().map(of).sum();
        usize::try_from(sum.div_ceil(ONE)).unwrap_or(usize::MAX)
    }

    /// Tries every set that holds the principle that the fewest hold: one of them must be chosen.
    fn branch(&mut self, missing: &Bits, chosen: &mut Vec<usize>) {
        if missing.is_empty() {
            if chosen.len() < self.best.len() {
                self.best.clone_from(chosen);
            }
            return;
        }
        self.work += self.sets.len() * (1 + missing.len());
        if self.work > MOST_WORK {
            self.stopped = true;
        }
        if self.stopped || chosen.len() + self.bound(missing) >= self.best.len() {
            return;
        }
        let holders = |number: usize| self.sets.iter().filter(move |one| one.set.contains(number)).count();
        let Some(rarest) = missing.iter().min_by_key(|number| holders(*number)) else { return };
        let mut ways: Vec<(usize, usize)> = self
            .sets
            .iter()
            .enumerate()
            .filter(|(_, one)| one.set.contains(rarest))
            .map(|(place, one)| (one.set.n_shared(missing), place))
            .collect();
        ways.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
        for (_, place) in ways {
            let Some(one) = self.sets.get(place) else { continue };
            let rest = missing.without(&one.set);
            chosen.push(place);
            self.branch(&rest, chosen);
            chosen.pop();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sets(lists: &[&[usize]]) -> Vec<Bits> {
        lists.iter().map(|list| list.iter().copied().collect()).collect()
    }

    #[test]
    fn the_greedy_trap_is_escaped() {
        // The greedy choice takes the set of four first and needs three in all; two are enough (Chvátal's construction).
        let sets = sets(&[&[0, 1, 2], &[3, 4, 5], &[0, 1, 3, 4], &[2], &[5]]);
        let cover = smallest(&sets, &Bits::all(6));
        assert_eq!((cover.chosen, cover.exact, cover.at_least), (vec![0, 1], true, 2));
    }

    #[test]
    fn what_no_set_holds_is_said() {
        let cover = smallest(&sets(&[&[0], &[0, 1]]), &Bits::all(4));
        assert_eq!(cover.chosen, [1]);
        assert_eq!(cover.uncovered.iter().collect::<Vec<_>>(), [2, 3]);
        assert!(smallest(&[], &Bits::all(2)).chosen.is_empty());
    }
}
