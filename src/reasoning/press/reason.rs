//! Why a response is withheld, in words for a teacher.
//!
//! The search for an example looks at paths, the shortest first, and at the loops off them; it only explains. What it finds
//! or fails to find changes no answer.

use std::collections::BTreeSet;
use std::fmt;

use super::Community;
use super::component::Component;
use super::terms::{Answer, Budget, Cause, Tally, only};
use crate::reasoning::Sign;

/// Why the signs do not tell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// Two ways of opposite sign; which is the stronger is a matter of magnitude.
    Opposed {
        /// A way by which the target would rise.
        rising: Way,
        /// A way by which it would fall.
        falling: Way,
    },
    /// Ways of opposite sign, too long to be shown here.
    Mixed,
    /// The answer hangs on arrows that the diagram gives with both signs.
    Unsigned {
        /// The arrows as (from, to).
        arrows: Vec<(String, String)>,
    },
    /// Things that cannot come to rest: whatever the magnitudes, the community is not stable.
    NeverSettles {
        /// The things.
        things: Vec<String>,
    },
    /// There are more terms than the budget allows.
    TooManyTerms,
}

/// One way on which a push travels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Way {
    /// The things in order, source and target included.
    pub path: Vec<String>,
    /// The product of the signs along it.
    pub sign: Sign,
    /// Loops off the path that feed themselves and turn the sign round where they outweigh what holds them: each the things
    /// in order, the first not repeated.
    pub loops: Vec<Vec<String>>,
}

impl fmt::Display for Way {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.path.as_slice() {
            [_] => f.write_str("the push itself")?,
            path => f.write_str(&path.join(" → "))?,
        }
        for (place, circle) in self.loops.iter().enumerate() {
            f.write_str(if place == 0 { ", turned round by the self-feeding loop " } else { " and " })?;
            let closing = circle.first().map(String::as_str).unwrap_or_default();
            write!(f, "{} → {closing}", circle.join(" → "))?;
        }
        Ok(())
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Opposed { rising, falling } => {
                write!(f, "it would rise by {rising}, and fall by {falling}; which is stronger, signs do not tell")
            }
            Self::Mixed => {
                f.write_str("some ways to it are positive and some negative; which are stronger, signs do not tell")
            }
            Self::Unsigned { arrows } => {
                let arrows: Vec<String> = arrows.iter().map(|(from, to)| format!("{from} → {to}")).collect();
                write!(f, "it hangs on {}, given both as + and as −", arrows.join(" and "))
            }
            Self::NeverSettles { things } => match things.as_slice() {
                [only] => write!(f, "{only} never settles: something acts on it, but nothing holds it back"),
                things => {
                    write!(
                        f,
                        "{} never settle, however strong each arrow is: too little holds them back",
                        things.join(", ")
                    )
                }
            },
            Self::TooManyTerms => f.write_str("too many terms: the diagram is too tangled to expand within the budget"),
        }
    }
}

/// Steps that the search for paths may take.
const PATHS: u64 = 5_000;
/// Partial products that the search may look at for the loops off the paths.
const LOOPS: u64 = 100_000;

/// The reason for a pair whose terms disagree or lack a sign.
pub(super) fn opposed_or_unsigned(community: &Community<'_>, source: usize, target: usize, cause: Cause) -> Reason {
    if cause == Cause::Unsigned {
        let upstream = community.upstream.get(target);
        let doubtful = community.effects.iter().filter(|((from, to), sign)| {
            sign.is_none() && upstream.is_some_and(|things| things.contains(from) && things.contains(to))
        });
        let name = |place: &usize| community.diagram.name(*place).to_owned();
        return Reason::Unsigned { arrows: doubtful.map(|((from, to), _)| (name(from), name(to))).collect() };
    }
    let mut search =
        Search { community, target, steps: Budget::new(PATHS), loops: Budget::new(LOOPS), found: (None, None) };
    for length in 1..=community.diagram.nodes.len() {
        if search.deepen(&mut vec![source], Sign::Plus, length).is_none() {
            break;
        }
    }
    match search.found {
        (Some(rising), Some(falling)) => Reason::Opposed { rising, falling },
        _ => Reason::Mixed,
    }
}

struct Search<'a> {
    community: &'a Community<'a>,
    target: usize,
    steps: Budget,
    loops: Budget,
    /// A way by which the target rises, and one by which it falls.
    found: (Option<Way>, Option<Way>),
}

impl Search<'_> {
    /// Looks at all simple paths of `length` things. `None` when there is nothing more to look for.
    fn deepen(&mut self, path: &mut Vec<usize>, sign: Sign, length: usize) -> Option<()> {
        self.steps.spend(1)?;
        let here = *path.last()?;
        if here == self.target || path.len() == length {
            if here == self.target && path.len() == length {
                self.look_at(path, sign)?;
            }
            return Some(());
        }
        let community = self.community;
        for (&(_, to), &effect) in community.effects.range((here, 0)..=(here, usize::MAX)) {
            let useful = community.upstream.get(self.target).is_some_and(|upstream| upstream.contains(&to));
            if let Some(effect) = effect
                && useful
                && !path.contains(&to)
            {
                path.push(to);
                self.deepen(path, sign.times(effect), length)?;
                path.pop();
            }
        }
        Some(())
    }

    fn look_at(&mut self, path: &[usize], sign: Sign) -> Option<()> {
        let mut off = Answer::PLUS;
        let mut feeding = Vec::new();
        let parts = self.community.parts.iter().filter(|part| part.things.iter().any(|thing| path.contains(thing)));
        for part in parts {
            let taken = taken(part, path);
            let tally = part.matrix.minor(taken, taken, &mut self.loops)?;
            off = off.times(tally.answer());
            if tally.minus > 0 && feeding.is_empty() {
                feeding = self.feeding(part, taken, tally);
            }
        }
        let way = |loops| Way { path: self.community.names(path), sign, loops };
        let straight = matches!(off, Answer::Sign(Sign::Plus) | Answer::Open(Cause::Opposed));
        let turned = matches!(off, Answer::Sign(Sign::Minus) | Answer::Open(Cause::Opposed)) && !feeding.is_empty();
        for (wanted, holds, loops) in [(sign, straight, Vec::new()), (sign.flipped(), turned, feeding)] {
            let place = if wanted == Sign::Plus { &mut self.found.0 } else { &mut self.found.1 };
            if holds && place.is_none() {
                *place = Some(way(loops));
            }
        }
        if self.found.0.is_some() && self.found.1.is_some() { None } else { Some(()) }
    }

    /// Self-feeding loops among the things of the part that are not taken, as they stand in one negative term.
    fn feeding(&self, part: &Component, taken: u64, tally: Tally) -> Vec<Vec<String>> {
        let mut budget = self.loops;
        let cover = negative_cover(part, taken, tally, &mut budget).unwrap_or_default();
        let mut seen = BTreeSet::new();
        let mut loops = Vec::new();
        for &(start, _, _) in &cover {
            let mut circle = Vec::new();
            let (mut at, mut sign) = (start, Sign::Plus);
            while seen.insert(at) {
                circle.push(at);
                let Some(&(_, next, effect)) = cover.iter().find(|(from, _, _)| *from == at) else { break };
                sign = sign.times(effect);
                at = next;
            }
            if !circle.is_empty() && sign == Sign::Plus {
                let mut things: Vec<usize> =
                    circle.iter().filter_map(|local| part.things.get(*local).copied()).collect();
                let first = things.iter().enumerate().min_by_key(|(_, thing)| **thing).map_or(0, |(place, _)| place);
                things.rotate_left(first);
                loops.push(self.community.names(&things));
            }
        }
        loops
    }
}

/// The local places that a path uses up in a part.
fn taken(part: &Component, path: &[usize]) -> u64 {
    let on_path = part.things.iter().enumerate().filter(|(_, thing)| path.contains(thing));
    on_path.fold(0, |set, (place, _)| set | only(place))
}

/// The arrows (from, to, sign) of one negative term of the minor without the taken things, found by fixing one row after
/// the other and counting what is left.
fn negative_cover(
    part: &Component,
    taken: u64,
    tally: Tally,
    budget: &mut Budget,
) -> Option<Vec<(usize, usize, Sign)>> {
    let (mut rows, mut columns) = (taken, taken);
    let mut cover = Vec::new();
    // The sign that the rest of the term must have.
    let mut wanted = Sign::Minus;
    let holds = |tally: Tally, sign: Sign| if sign == Sign::Plus { tally.plus > 0 } else { tally.minus > 0 };
    if !holds(tally, wanted) {
        return None;
    }
    for row in (0..part.matrix.size()).filter(|row| taken & only(*row) == 0) {
        rows |= only(row);
        let mut chosen = None;
        for &(column, sign) in part.matrix.row(row) {
            let Some(sign) = sign.filter(|_| columns & only(column) == 0) else { continue };
            // This row is the first one left, so the place's sign is that of the columns left before this one.
            let before = (!columns & only(column).wrapping_sub(1)).count_ones();
            let rest = wanted.times(sign).times(if before.is_multiple_of(2) { Sign::Plus } else { Sign::Minus });
            if holds(part.matrix.minor(rows, columns | only(column), budget)?, rest) {
                chosen = Some((column, sign, rest));
                break;
            }
        }
        let (column, sign, rest) = chosen?;
        columns |= only(column);
        wanted = rest;
        cover.push((column, row, sign.flipped()));
    }
    Some(cover)
}
