//! What happens to each thing of a signed diagram when one of them is raised for good, in a stable community.
//!
//! Comes in: a [`Diagram`]. Goes out: for each ordered pair a [`Response`]: rises, falls, unchanged, or withheld with the
//! [`Reason`]. **Must not know**: magnitudes, files, anything drawn at random.
//!
//! The new resting point moves by the inverse of −A (A: the matrix of effects). Multiplying signs along a path is not enough
//! where loops touch it, so every answer is proved for *all* magnitudes that have these signs and let the community settle:
//!
//! 1. A is block-triangular over the strongly connected parts; each part of a stable community is stable by itself, so its
//!    det(−A) is positive. Parts are solved one by one (`component`) and joined by the arrows between them.
//! 2. In a part, a response is a sum over paths times what the loops off the path make of them. All terms of one sign settle
//!    it, none at all mean "unchanged" (`terms`).
//! 3. Where terms disagree, equations that stable responses obey may still settle it (`balance`); a second checker replays
//!    those steps (`verify`), and what it does not confirm is withheld.
//!
//! A thing on which nothing acts, not even itself, is taken as held from outside: pushing it means a new level. Any other
//! thing without a self-effect has none.
//!
//! # Source
//! R. Levins, "The qualitative analysis of partially specified systems", Annals of the New York Academy of Sciences 231
//! (1974) 123–138; J. M. Dambacher, H. W. Li, P. A. Rossignol, "Relevance of community structure in assessing indeterminacy
//! of ecological predictions", Ecology 83 (2002) 1372–1385.

mod balance;
mod component;
mod diagram;
mod reason;
mod terms;
mod verify;

#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, BTreeSet};

use component::Component;
use diagram::Effects;
use terms::{Answer, Cause};

pub use diagram::Diagram;
pub use reason::{Reason, Way};

use crate::reasoning::Sign;

/// What a lasting rise of one thing does to another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Response {
    /// It settles higher.
    Rises,
    /// It settles lower.
    Falls,
    /// It settles where it was.
    Unchanged,
    /// The signs do not tell.
    Withheld(Reason),
}

impl Response {
    /// For machines: `+`, `-`, `0` or `?`.
    pub fn ascii(&self) -> &'static str {
        match self {
            Self::Rises => Sign::Plus.ascii(),
            Self::Falls => Sign::Minus.ascii(),
            Self::Unchanged => "0",
            Self::Withheld(_) => "?",
        }
    }
}

/// The response of `target` when `source` is raised for good; both are places in the diagram's list.
pub fn press(diagram: &Diagram, source: usize, target: usize) -> Response {
    let community = Community::new(diagram);
    community.response(source, target, community.answers(source).get(&target).copied())
}

/// Every response, by (source, target), a thing's response to a push on itself among them.
pub fn press_all(diagram: &Diagram) -> BTreeMap<(usize, usize), Response> {
    let community = Community::new(diagram);
    let mut responses = BTreeMap::new();
    for source in 0..diagram.nodes.len() {
        let answers = community.answers(source);
        for target in 0..diagram.nodes.len() {
            responses.insert((source, target), community.response(source, target, answers.get(&target).copied()));
        }
    }
    responses
}

/// A diagram taken apart.
struct Community<'a> {
    diagram: &'a Diagram,
    effects: Effects,
    /// Causes before effects.
    parts: Vec<Component>,
    /// For each thing, what acts on it, however indirectly, and itself.
    upstream: Vec<BTreeSet<usize>>,
}

impl<'a> Community<'a> {
    fn new(diagram: &'a Diagram) -> Self {
        let effects = diagram.effects();
        let size = diagram.nodes.len();
        let parts = component::components(size, &effects);
        let upstream = (0..size).map(|thing| upstream(thing, &effects)).collect();
        Self { diagram, effects, parts, upstream }
    }

    /// What is known of every thing that a push on `source` reaches.
    fn answers(&self, source: usize) -> BTreeMap<usize, Answer> {
        let mut answers: BTreeMap<usize, Answer> = BTreeMap::new();
        for part in &self.parts {
            let arriving: Vec<Answer> =
                part.things.iter().map(|thing| self.arriving(source, *thing, part, &answers)).collect();
            for (seen, thing) in part.things.iter().enumerate() {
                let carried = arriving.iter().enumerate().map(|(pushed, push)| {
                    let inner = part.table.get(&(seen, pushed)).copied().unwrap_or(Answer::Zero);
                    push.times(inner)
                });
                let answer = carried.fold(Answer::Zero, Answer::plus);
                if answer != Answer::Zero {
                    answers.insert(*thing, answer);
                }
            }
        }
        answers
    }

    /// The push that reaches `thing` from outside its own part.
    fn arriving(&self, source: usize, thing: usize, part: &Component, answers: &BTreeMap<usize, Answer>) -> Answer {
        let own = if source == thing { Answer::PLUS } else { Answer::Zero };
        let from_others = self.effects.iter().filter(|((from, to), _)| *to == thing && !part.things.contains(from));
        from_others.fold(own, |sum, ((from, _), sign)| {
            sum.plus(answers.get(from).map_or(Answer::Zero, |answer| answer.times((*sign).into())))
        })
    }

    fn response(&self, source: usize, target: usize, answer: Option<Answer>) -> Response {
        let Some(upstream) = self.upstream.get(target).filter(|upstream| upstream.contains(&source)) else {
            return Response::Unchanged;
        };
        let restless =
            self.parts.iter().find(|part| !part.settles && part.things.iter().any(|thing| upstream.contains(thing)));
        if let Some(part) = restless {
            return Response::Withheld(Reason::NeverSettles { things: self.names(&part.things) });
        }
        match answer.unwrap_or(Answer::Zero) {
            Answer::Zero => Response::Unchanged,
            Answer::Sign(Sign::Plus) => Response::Rises,
            Answer::Sign(Sign::Minus) => Response::Falls,
            Answer::Open(Cause::Unfinished) => Response::Withheld(Reason::TooManyTerms),
            Answer::Open(cause) => Response::Withheld(reason::opposed_or_unsigned(self, source, target, cause)),
        }
    }

    fn names(&self, things: &[usize]) -> Vec<String> {
        things.iter().map(|thing| self.diagram.name(*thing).to_owned()).collect()
    }
}

fn upstream(thing: usize, effects: &Effects) -> BTreeSet<usize> {
    let mut found = BTreeSet::from([thing]);
    let mut waiting = vec![thing];
    while let Some(next) = waiting.pop() {
        for (from, _) in effects.keys().filter(|(_, to)| *to == next) {
            if found.insert(*from) {
                waiting.push(*from);
            }
        }
    }
    found
}
