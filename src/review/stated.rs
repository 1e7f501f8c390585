//! Steps that an answer tells by the state that things are in or by what becomes of them, without a word of direction: "the
//! strands come apart", "their enzyme is drained off".

use std::ops::Range;

use super::course::{Course, Place};
use super::matching::{Found, Matcher};
use super::meaning::{Accord, Direction, Link};
use super::pattern::Wanted;
use super::read::{Clause, Piece, Role};

/// Least weight at which a quantity is known by a state or a deed.
const TELLING: f64 = 0.6;

impl Course {
    /// Takes in what is told so of quantities that no claim speaks of, where it goes the way that the answer goes around it. By
    /// itself a state shows no change: it never goes against the guide, and never stands alone.
    pub(super) fn by_state(&mut self, matcher: &Matcher<'_>) {
        let mut stated: Vec<(Place, Range<usize>)> = Vec::new();
        for node in &self.nodes {
            let moves = matches!(node.wanted.direction, Direction::Up | Direction::Down);
            if !moves || node.place.point == usize::MAX || self.found(node.place) != Found::Missing {
                continue;
            }
            let told = |(at, piece): &(usize, &Piece)| {
                let says =
                    says(&node.wanted, *at, piece, matcher).filter(|_| of_the_thing(&node.wanted, *at, matcher))?;
                let accord = node.wanted.direction.accord(says);
                (self.way_at(*at, matcher)? == accord).then(|| piece.bytes.clone())
            };
            if let Some(bytes) = unclaimed(matcher).iter().find_map(told) {
                stated.push((node.place, bytes));
            }
        }
        self.stated = stated;
    }

    /// Which way the answer goes at a place: that of the last claim before it that is of the guide, else of the next.
    fn way_at(&self, at: usize, matcher: &Matcher<'_>) -> Option<Accord> {
        let mut before: Option<(usize, Accord)> = None;
        let mut after: Option<(usize, Accord)> = None;
        for told in self.told.iter().filter(|told| told.accord != Accord::Unclear && !told.whole) {
            let Some(claim) = matcher.reading.claims.get(told.claim) else { continue };
            if claim.at < at && before.is_none_or(|(place, _)| claim.at > place) {
                before = Some((claim.at, told.accord));
            }
            if claim.at > at && after.is_none_or(|(place, _)| claim.at < place) {
                after = Some((claim.at, told.accord));
            }
        }
        // Where it passes from one to the other, nothing is plain.
        match (before, after) {
            (Some((_, one)), Some((_, other))) if one != other => None,
            (one, other) => one.or(other).map(|(_, accord)| accord),
        }
    }
}

/// What stands outside all claims, and is neither supposed nor left open.
fn unclaimed<'a>(matcher: &Matcher<'a>) -> Vec<(usize, &'a Piece)> {
    let reading = matcher.reading;
    let free = |clause: &&Clause| !clause.hedged && clause.link != Some(Link::If);
    let claimed = |at: usize| reading.claims.iter().any(|claim| !claim.presence && claim.pieces.contains(&at));
    let clauses = reading.clauses.iter().filter(free);
    let places =
        clauses.flat_map(|clause| clause.pieces.clone().filter(|at| clause.aside_from.is_none_or(|from| *at < from)));
    places
        .filter(|at| !claimed(*at))
        .filter_map(|at| Some((at, reading.pieces.get(at)?)))
        .filter(|(_, piece)| piece.role == Role::Content)
        .collect()
}

/// Which way a word of state or deed tells a quantity: more of it, or of its opposite.
fn says(wanted: &Wanted, at: usize, piece: &Piece, matcher: &Matcher<'_>) -> Option<Direction> {
    // "It is drained off": done to it; what does something to another thing shows nothing of either.
    let before = at.checked_sub(1).and_then(|before| matcher.reading.pieces.get(before));
    let done = piece.verb && before.is_some_and(|before| before.role == Role::Copula);
    let dictionary = matcher.dictionary;
    let telling = wanted
        .about
        .iter()
        .filter(|(key, weight)| *weight >= TELLING && !dictionary.is_light(key) && dictionary.class(key).is_none());
    let mut ways = telling.filter_map(|(known, _)| {
        let shows = |key: &&String| done || dictionary.is_state(key);
        let own = piece.keys.iter().filter(shows);
        let mut hits = own.filter_map(|key| match () {
            () if key == known => Some(true),
            () if dictionary.opposed(key, known) => Some(false),
            () => None,
        });
        hits.next()
    });
    ways.next().map(|same| if same == piece.negated { Direction::Down } else { Direction::Up })
}

/// Whether the clause names another thing of the quantity, or points to what was named before.
fn of_the_thing(wanted: &Wanted, at: usize, matcher: &Matcher<'_>) -> bool {
    let Some(clause) = matcher.reading.clauses.iter().find(|clause| clause.pieces.contains(&at)) else { return false };
    let own = matcher.reading.pieces.get(clause.pieces.clone()).unwrap_or_default();
    let word = matcher.reading.pieces.get(at).map_or(&[][..], |piece| piece.keys.as_slice());
    let thing = |key: &str| {
        let stated = word.iter().any(|own| own == key || matcher.dictionary.opposed(own, key));
        !stated && !matcher.dictionary.is_light(key) && matcher.dictionary.class(key).is_none()
    };
    let mut things = wanted.about.iter().filter(|(key, _)| thing(key)).peekable();
    let pronoun =
        own.iter().any(|piece| piece.role == Role::Pronoun || matches!(piece.lower.as_str(), "its" | "their"));
    // "because that is stuck", "which come apart".
    let before = clause.pieces.start.checked_sub(1).and_then(|at| matcher.reading.pieces.get(at));
    let relative = before.is_some_and(|piece| matches!(piece.lower.as_str(), "that" | "which" | "who"));
    let pronoun = pronoun || relative;
    let named = |key: &str| own.iter().any(|piece| piece.keys.iter().chain(&piece.also).any(|known| known == key));
    things.peek().is_none() || pronoun || things.any(|(key, _)| named(key))
}
