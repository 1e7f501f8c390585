//! Differences in the words of a teacher: what stands here, what the scenario made again has, what to do.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::compare::{Difference, differences, swapped};
use super::fact::{Direction, Fact, Kind, Number, Token};
use super::{Made, Proof};
use crate::diagnostic::{Code, Diagnostic, code};

/// How much a difference matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Weight {
    /// A fault.
    Fault,
    /// Somebody should look.
    Look,
    /// Nothing is said.
    Nothing,
}

/// What is asked of directions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Directions {
    /// Nothing.
    Free,
    /// One that has turned round is looked at; where nothing else was reworded, it is a fault.
    Loose,
    /// A verb that has turned round is a fault.
    Kept,
    /// One that is gone is a fault too.
    Strict,
}

/// What is asked of a stretch of text.
#[derive(Debug, Clone, Copy)]
pub(super) struct Policy<'a> {
    /// How the place is called: "question (d)".
    pub(super) place: &'a str,
    /// A number that is gone.
    pub(super) missing: Weight,
    /// A number that the scenario does not have.
    pub(super) new: Weight,
    /// A number in place of another, with the words around it changed.
    pub(super) far: Weight,
    pub(super) directions: Directions,
}

impl<'a> Policy<'a> {
    /// For what is marked: every number counts.
    pub(super) fn key(place: &'a str) -> Self {
        Self { place, missing: Weight::Fault, new: Weight::Look, far: Weight::Fault, directions: Directions::Kept }
    }

    /// For alternatives, of which a teacher may drop some and add others.
    pub(super) fn alternatives(place: &'a str) -> Self {
        Self { place, missing: Weight::Nothing, new: Weight::Look, far: Weight::Look, directions: Directions::Loose }
    }

    /// For running text.
    pub(super) fn prose(place: &'a str, directions: Directions) -> Self {
        Self { place, missing: Weight::Look, new: Weight::Look, far: Weight::Look, directions }
    }
}

/// Reports what has changed from one stretch to the other; `whole` is the place of all of it.
pub(super) fn report(
    proof: &Proof<'_>,
    made: &Made,
    (old, new): (&[Token], &[Token]),
    whole: Range<usize>,
    policy: Policy<'_>,
    faults: &mut Vec<Diagnostic>,
) {
    let report = Report { proof, made, old, new, whole, policy };
    let differences = differences(old, new);
    if differences.is_empty() && policy.missing != Weight::Nothing {
        faults.extend(report.swapped());
    }
    faults.extend(report.missing_numbers(&differences));
    let mut units: BTreeSet<String> = BTreeSet::new();
    // From the end, since the unit of a list stands with its last number.
    for difference in differences.iter().rev() {
        let Some(fault) = report.one(*difference) else { continue };
        // The other numbers of the list have lost the same unit: once is enough.
        let repeated = *fault.code == code::UNIT_DIFFERS && !units.insert(report.unit_pair(*difference));
        if !repeated {
            faults.push(fault);
        }
    }
}

struct Report<'a> {
    proof: &'a Proof<'a>,
    made: &'a Made,
    old: &'a [Token],
    new: &'a [Token],
    whole: Range<usize>,
    policy: Policy<'a>,
}

impl Report<'_> {
    fn one(&self, difference: Difference) -> Option<Diagnostic> {
        match difference {
            Difference::Altered { made, written, near, bare } => self.altered(made, written, near, bare),
            Difference::New { written } => self.added(written),
            Difference::Missing { made, near } => self.missing(made, near),
        }
    }

    fn altered(&self, made: usize, written: usize, near: bool, bare: bool) -> Option<Diagnostic> {
        let (old, new) = (self.old.get(made)?, self.new.get(written)?);
        let place = self.policy.place;
        let (was, is) = (self.made.shown(old), self.proof.shown(new));
        let (code, message, weight) = match (old.fact()?, new.fact()?) {
            (Fact::Number(one), Fact::Number(other)) => {
                if one.of_points || other.of_points {
                    return None;
                }
                let weight = if near { Weight::Fault } else { self.policy.far };
                (kind(one, other), format!("{place} says `{is}`; recomputed it is `{was}`"), weight)
            }
            (Fact::Direction(one), Fact::Direction(other)) => {
                let weight = self.turned(*one, *other, bare);
                let message = format!("{place} says `{is}`; what follows from the path is `{was}`");
                (&code::DIRECTION_DIFFERS, message, weight)
            }
            _ => {
                let message = format!("{place} has the sign `{is}`; recomputed it is `{was}`");
                (&code::SIGN_DIFFERS, message, Weight::Fault)
            }
        };
        Some(weighed(code, weight, self.proof, new.span.clone(), message)?.hint(format!("write `{was}`")))
    }

    fn turned(&self, one: Direction, other: Direction, bare: bool) -> Weight {
        match self.policy.directions {
            Directions::Free => Weight::Nothing,
            _ if bare => Weight::Fault,
            Directions::Kept | Directions::Strict if one.verb && other.verb => Weight::Fault,
            _ => Weight::Look,
        }
    }

    fn added(&self, written: usize) -> Option<Diagnostic> {
        let token = self.new.get(written)?;
        let Fact::Number(number) = token.fact()? else { return None };
        if number.of_points || self.made.pool.contains(&token.key()) {
            return None;
        }
        let message = format!("`{}` in {} is no number of this scenario", self.proof.shown(token), self.policy.place);
        let fault = weighed(&code::NUMBER_UNKNOWN, self.policy.new, self.proof, token.span.clone(), message)?;
        Some(fault.hint("no data stand behind it: make sure that it is right, or take it out"))
    }

    /// Numbers that are gone, those of one place together.
    fn missing_numbers(&self, differences: &[Difference]) -> Vec<Diagnostic> {
        let mut places: BTreeMap<(usize, usize), Vec<String>> = BTreeMap::new();
        for difference in differences {
            let Difference::Missing { made, near } = difference else { continue };
            let Some(token) = self.old.get(*made) else { continue };
            let Some(Fact::Number(number)) = token.fact() else { continue };
            let elsewhere =
                self.policy.missing == Weight::Look && (number.in_words || self.proof.pool.contains(&token.key()));
            if !(number.of_points || elsewhere) {
                let span = self.place(*near);
                places.entry((span.start, span.end)).or_default().push(format!("`{}`", self.made.shown(token)));
            }
        }
        let one = |((start, end), gone): ((usize, usize), Vec<String>)| {
            let gone = gone.join(", ");
            let message = format!("{} no longer says {gone}", self.policy.place);
            let fault = weighed(&code::NUMBER_MISSING, self.policy.missing, self.proof, start..end, message)?;
            Some(fault.hint(format!("put {gone} back where a reader needs it")))
        };
        places.into_iter().filter_map(one).collect()
    }

    fn missing(&self, made: usize, near: Option<usize>) -> Option<Diagnostic> {
        let token = self.old.get(made)?;
        let was = self.made.shown(token);
        let span = self.place(near);
        match token.fact()? {
            Fact::Operator(_) if self.policy.missing == Weight::Fault => {
                let message = format!("{} has lost the sign `{was}`", self.policy.place);
                let fault = weighed(&code::SIGN_DIFFERS, Weight::Fault, self.proof, span, message)?;
                Some(fault.hint(format!("put `{was}` back")))
            }
            Fact::Direction(_) if self.policy.directions == Directions::Strict => {
                let message = format!("{} no longer says `{was}`", self.policy.place);
                let fault = weighed(&code::DIRECTION_DIFFERS, Weight::Fault, self.proof, span, message)?;
                Some(fault.hint(format!("write `{was}`, or another word for it")))
            }
            _ => None,
        }
    }

    /// The same facts in the same words, but one for the other.
    fn swapped(&self) -> Option<Diagnostic> {
        let (was, is) = swapped(self.old, self.new)?;
        let (was, here) = (self.made.shown(self.old.get(was)?), self.new.get(is)?);
        let message = format!("{} has `{}` in another place", self.policy.place, self.proof.shown(here));
        let fault = Diagnostic::error(&code::ORDER_DIFFERS, self.proof.span(here.span.clone()), message);
        Some(fault.hint(format!("the same facts stand in another order; here it was `{was}`")))
    }

    /// What stands where something is gone; the end of the stretch where nothing does.
    fn place(&self, near: Option<usize>) -> Range<usize> {
        let token = near.and_then(|near| self.new.get(near)).or(self.new.last());
        token.map_or_else(|| self.whole.clone(), |token| token.span.clone())
    }

    fn unit_pair(&self, difference: Difference) -> String {
        let Difference::Altered { made, written, .. } = difference else { return String::new() };
        let unit = |token: Option<&Token>| match token.map(|token| &token.kind) {
            Some(Kind::Fact(Fact::Number(number))) => number.unit.as_ref().map(|unit| unit.code().to_owned()),
            _ => None,
        };
        format!("{:?} {:?}", unit(self.old.get(made)), unit(self.new.get(written)))
    }
}

/// Which fault it is that one number stands for another.
fn kind(one: &Number, other: &Number) -> &'static Code {
    let near = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.abs().max(b.abs());
    if near(one.value, other.value) {
        &code::UNIT_DIFFERS
    } else if near(one.value, -other.value) && one.has_unit_of(other) {
        &code::SIGN_DIFFERS
    } else {
        &code::NUMBER_DIFFERS
    }
}

/// A diagnostic of this weight.
pub(super) fn weighed(
    code: &'static Code,
    weight: Weight,
    proof: &Proof<'_>,
    range: Range<usize>,
    message: String,
) -> Option<Diagnostic> {
    let span = proof.span(range);
    match weight {
        Weight::Fault => Some(Diagnostic::error(code, span, message)),
        Weight::Look => Some(Diagnostic::warning(code, span, message)),
        Weight::Nothing => None,
    }
}
