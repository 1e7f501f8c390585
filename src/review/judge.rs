//! The status of one point of one response, with what it rests on.

use std::ops::Range;

use super::dictionary::Dictionary;
use super::figure::{self, Figures, Value};
use super::guide::{Idea, Point, Question};
use super::matching::{Found, Match, Matcher};
use super::meaning::Link;
use super::pattern::{Pattern, Unit, Wanted};
use super::read::{Reading, Role};
use super::verdict::{Status, Stretch};
use crate::quantity::Unit as Measure;

/// Limits of the decisions, all shares from 0 to 1. Set on the development half of the marking set alone.
pub(super) mod limit {
    /// Least share of a sentence's directions for `found`.
    pub(crate) const AGREEMENT: f64 = 0.5;
    /// Least share of its things named, beside directions.
    pub(crate) const WITH_DIRECTIONS: f64 = 0.3;
    /// The same where it has no direction.
    pub(crate) const WORDS_ALONE: f64 = 0.55;
    /// The same for a short alternative.
    pub(crate) const ALTERNATIVE: f64 = 0.7;
    /// The same for what is rejected.
    pub(crate) const REJECTED: f64 = 0.7;
    /// From here on something is worth a second look.
    pub(crate) const LOOK: f64 = 0.3;
    /// Least share of a setup's numbers.
    pub(crate) const SETUP: f64 = 0.66;
}

/// What is needed to judge the points of one question.
pub(super) struct Judge<'a> {
    pub(super) dictionary: &'a Dictionary,
    pub(super) question: &'a Question,
    pub(super) prompt: &'a Reading,
    pub(super) reading: &'a Reading,
    pub(super) topic: &'a [(String, f64)],
}

/// A status and the stretches behind it.
pub(super) type Verdict = (Status, Vec<Stretch>);

/// How a pattern fared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Fared {
    Missing,
    Partly,
    Denied,
    Said,
}

impl Judge<'_> {
    fn matcher(&self) -> Matcher<'_> {
        Matcher { reading: self.reading, dictionary: self.dictionary, topic: self.topic }
    }

    fn pattern(&self, text: &str) -> Pattern {
        Pattern::of(text, self.prompt, self.dictionary)
    }

    /// The status of a point.
    pub(super) fn point(&self, point: &Point) -> Verdict {
        if self.reading.pieces.is_empty() {
            return (Status::NotFound, Vec::new());
        }
        if !point.ideas.is_empty() {
            return self.by_hand(point);
        }
        let read = |text: &str| Reading::of(text, self.dictionary);
        if let Some(figures) = Figures::of(point, self.question, read) {
            return self.figures(&figures);
        }
        if point.statement.trim_start().starts_with("The link:") {
            return self.link();
        }
        self.words(point)
    }

    fn words(&self, point: &Point) -> Verdict {
        let matcher = self.matcher();
        let statement = self.pattern(&point.statement);
        let found = matcher.find(&statement);
        let mut best = (self.fared(&statement, &found, limit::WORDS_ALONE), found);
        for text in &point.accept {
            let pattern = self.pattern(text);
            if pattern.is_empty() {
                continue;
            }
            let found = matcher.find(&pattern);
            let fared = self.fared(&pattern, &found, limit::ALTERNATIVE);
            if fared == Fared::Said && best.0 != Fared::Said && best.0 != Fared::Denied {
                best = (fared, found);
            }
        }
        let rejected = self.rejected(point, &statement);
        let (fared, found) = best;
        match (fared, rejected) {
            (Fared::Said, None) => (Status::Found, says(&found.says)),
            (Fared::Said, Some(places)) => (Status::Contradicted, both(&found.says, &places)),
            (Fared::Denied, places) => {
                let denies: Vec<Range<usize>> =
                    found.denies.iter().cloned().chain(places.into_iter().flatten()).collect();
                (Status::Contradicted, both(&found.says, &denies))
            }
            (_, Some(places)) => (Status::Contradicted, both(&[], &places)),
            (Fared::Partly, None) => (Status::LookAgain, says(&found.says)),
            (Fared::Missing, None) => (Status::NotFound, Vec::new()),
        }
    }

    /// How a pattern fared, from shares and directions.
    fn fared(&self, pattern: &Pattern, found: &Match, words_alone: f64) -> Fared {
        let named = found.own.map_or(found.coverage, |own| own.max(found.coverage));
        let Some(agreement) = found.agreement() else {
            let denied = found.denied;
            return match () {
                () if denied > found.coverage && denied >= words_alone * 0.6 => Fared::Denied,
                () if named - denied >= words_alone => Fared::Said,
                () if named >= limit::LOOK.max(words_alone * 0.6) => Fared::Partly,
                () => Fared::Missing,
            };
        };
        let effect = found.effect();
        let enough = pattern.direction_alone || named >= limit::WITH_DIRECTIONS;
        let any = |wanted: Found| found.turns.contains(&wanted);
        match effect {
            Some(Found::Both | Found::Opposed) => Fared::Denied,
            _ if any(Found::Opposed) && !any(Found::Agrees) => Fared::Denied,
            Some(Found::Agrees) if enough && (agreement >= limit::AGREEMENT || pattern.direction_alone) => Fared::Said,
            Some(Found::Agrees) => Fared::Partly,
            _ if named >= limit::LOOK && (any(Found::Agrees) || named >= limit::WORDS_ALONE) => Fared::Partly,
            _ => Fared::Missing,
        }
    }

    /// Where the response says what the point rejects, judged by what the statement does not say itself.
    fn rejected(&self, point: &Point, statement: &Pattern) -> Option<Vec<Range<usize>>> {
        for text in &point.reject {
            let mut pattern = self.pattern(text);
            if pattern.alone {
                continue;
            }
            let own = |unit: &Unit| {
                !statement.units.iter().any(|known| {
                    known.negated == unit.negated && unit.keys.first().is_some_and(|key| known.keys.contains(key))
                })
            };
            let telling: Vec<Unit> = pattern.units.iter().filter(|unit| own(unit) && !unit.prompted).cloned().collect();
            let whole = self.matcher().find(&pattern);
            if telling.is_empty() || whole.coverage < limit::REJECTED {
                continue;
            }
            pattern.units = telling;
            let found = self.matcher().find(&pattern);
            let agrees = found.agreement().is_none_or(|share| share >= limit::AGREEMENT);
            if found.coverage >= limit::REJECTED && found.denied <= 0.0 && agrees {
                return Some(if whole.says.is_empty() { found.says } else { whole.says });
            }
        }
        None
    }

    /// A point for joining the steps: at least two reasons or results are told as such.
    fn link(&self) -> Verdict {
        let is_reason = |link: Link| matches!(link, Link::Because | Link::So);
        let places: Vec<Range<usize>> = self
            .reading
            .pieces
            .iter()
            .filter(|piece| matches!(piece.role, Role::Link(link) if is_reason(link)))
            .map(|piece| piece.bytes.clone())
            .collect();
        let steps = self.question.points.iter().filter(|point| !point.statement.starts_with("The link:"));
        let said = steps.filter(|point| self.words(point).0 == Status::Found).count();
        match (places.len(), said) {
            (0, _) | (_, 0) => (Status::NotFound, Vec::new()),
            (_, 1) => (Status::LookAgain, says(&places)),
            _ => (Status::Found, says(&places)),
        }
    }

    fn figures(&self, figures: &Figures) -> Verdict {
        let value = figures.value_seen(self.reading);
        if !figures.setup.is_empty() {
            let (share, places) = figures.setup_seen(self.reading);
            if let (Some(_), Value::Right { place, .. }) = (&figures.value, &value) {
                return (Status::Found, says(std::slice::from_ref(place)));
            }
            return match share {
                share if share >= limit::SETUP => (Status::Found, says(&places)),
                share if share >= limit::LOOK => (Status::LookAgain, says(&places)),
                _ => (Status::NotFound, Vec::new()),
            };
        }
        match value {
            Value::Right { place, bare: true, .. } if figures.needs_unit => (Status::NotFound, says(&[place])),
            Value::Right { place, .. } => (Status::Found, says(&[place])),
            Value::Wrong { place } => (Status::NotFound, both(&[], &[place])),
            Value::Missing => (Status::NotFound, Vec::new()),
        }
    }

    /// Ideas written by hand: all must be there.
    fn by_hand(&self, point: &Point) -> Verdict {
        let verdicts: Vec<Verdict> = point.ideas.iter().map(|idea| self.idea(idea)).collect();
        let places: Vec<Stretch> = verdicts.iter().flat_map(|(_, places)| places.clone()).collect();
        let statuses: Vec<Status> = verdicts.iter().map(|(status, _)| *status).collect();
        let statement = self.pattern(&point.statement);
        let rejected = self.rejected(point, &statement);
        let status = match () {
            () if statuses.contains(&Status::Contradicted) => Status::Contradicted,
            () if rejected.is_some() => Status::Contradicted,
            () if statuses.iter().all(|status| *status == Status::Found) => Status::Found,
            () if statuses.iter().all(|status| *status == Status::NotFound) => Status::NotFound,
            () => Status::LookAgain,
        };
        let denies = rejected.unwrap_or_default();
        (status, places.into_iter().chain(both(&[], &denies)).collect())
    }

    fn idea(&self, idea: &Idea) -> Verdict {
        if let Some(value) = idea.value {
            let unit = Measure::parse(&idea.unit).ok().filter(|_| !idea.unit.is_empty());
            let wanted = figure::within(value, idea.tolerance, unit);
            return self.figures(&Figures { value: Some(wanted), ..Figures::default() });
        }
        let mut verdict = (Status::Found, Vec::new());
        for term in &idea.terms {
            let (status, places) = self.term(term, idea);
            verdict.1.extend(places);
            if status != Status::Found {
                verdict.0 = if verdict.0 == Status::Contradicted { Status::Contradicted } else { status };
            }
        }
        let is_reason = |link: Link| matches!(link, Link::Because | Link::So);
        let linked = self.reading.pieces.iter().any(|piece| matches!(piece.role, Role::Link(link) if is_reason(link)));
        if idea.link && !linked && verdict.0 == Status::Found {
            verdict.0 = Status::LookAgain;
        }
        verdict
    }

    /// One term of an idea, or one of its alternatives; with its direction, where one is wanted.
    fn term(&self, term: &str, idea: &Idea) -> Verdict {
        let mut worst = (Status::NotFound, Vec::new());
        for alternative in term.split('|') {
            let mut pattern = self.pattern(alternative.trim());
            if let Some(direction) = idea.direction {
                let about =
                    pattern.units.iter().flat_map(|unit| unit.keys.iter().map(|key| (key.clone(), 1.0))).collect();
                pattern.wanted = vec![Wanted { direction, about, cause: false }];
                pattern.direction_alone = true;
            }
            let found = self.matcher().find(&pattern);
            match self.fared(&pattern, &found, limit::ALTERNATIVE) {
                Fared::Said => return (Status::Found, says(&found.says)),
                Fared::Denied => worst = (Status::Contradicted, both(&found.says, &found.denies)),
                Fared::Partly if worst.0 == Status::NotFound => worst = (Status::LookAgain, says(&found.says)),
                Fared::Partly | Fared::Missing => {}
            }
        }
        worst
    }
}

fn says(places: &[Range<usize>]) -> Vec<Stretch> {
    both(places, &[])
}

fn both(says: &[Range<usize>], denies: &[Range<usize>]) -> Vec<Stretch> {
    let one = |says: bool| move |bytes: &Range<usize>| Stretch { bytes: bytes.clone(), says };
    says.iter().map(one(true)).chain(denies.iter().map(one(false))).collect()
}
