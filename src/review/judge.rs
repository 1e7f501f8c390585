//! The status of one point of one response, with what it rests on.

use std::collections::BTreeSet;
use std::ops::Range;

use super::course::Course;
use super::dictionary::Dictionary;
use super::figure::Figures;
use super::guide::{Point, PointKind, Question};
use super::matching::{Found, Match, Matcher};
use super::pattern::{Pattern, Wanted};
use super::read::Reading;
use super::verdict::{Status, Stretch};

/// Limits of the decisions, all shares from 0 to 1. Set on the development half of the marking set alone.
pub(super) mod limit {

    /// Least share of a sentence's directions for `found`.
    pub(crate) const AGREEMENT: f64 = 0.5;

    /// Least share of its things named, beside directions.
    pub(crate) const WITH_DIRECTIONS: f64 = 0.42;

    /// The same beside two directions that agree.
    pub(crate) const SOME: f64 = 0.2;

    /// The same where it has no direction; on the development part of an outside set (`tests/review/outside.rs`), as the marking set has
    /// hardly any such.
    pub(crate) const WORDS_ALONE: f64 = 0.62;

    /// The same for a short alternative.
    pub(crate) const ALTERNATIVE: f64 = 0.7;

    /// The same for what is rejected.
    pub(crate) const REJECTED: f64 = 0.7;

    /// The same of what only the rejected sentence says.
    pub(crate) const REJECTED_OWN: f64 = 0.8;

    /// The same in one sentence: of a short one, of a long one, and in full where the statement is named less than this.
    pub(crate) const REJECTED_SHORT: f64 = 0.9;
    pub(crate) const REJECTED_LONG: f64 = 0.75;
    pub(crate) const IN_FULL: f64 = 0.99;
    pub(crate) const LESS_PLAINLY: f64 = 0.6;

    /// From here on something is worth a second look.
    pub(crate) const LOOK: f64 = 0.3;

    /// Least share of a twist's reason.
    pub(crate) const REASON: f64 = 0.5;

    /// The same for a step that goes the other way, where its direction is told, and where it is not.
    pub(crate) const REASON_DIRECTED: f64 = 0.34;
    pub(crate) const REASON_REVERSED: f64 = 0.62;

    /// The same where the answer says that one thing no longer depends on another.
    pub(crate) const REASON_INDEPENDENT: f64 = 0.168;

    /// Least share of what an everyday reason names.
    pub(crate) const SAYING: f64 = 0.99;

    /// From here on a reason is worth a second look.
    pub(crate) const REASON_LOOK: f64 = 0.14;

    /// What a step counts of which only the cause is told, and what two steps need together.
    pub(crate) const BEGUN: f64 = 0.6;
    pub(crate) const TWO_STEPS: f64 = 1.6;

    /// Below so many words for each step of the guide an answer is hasty; least share of a step that it then has begun.
    pub(crate) const WORDS_A_STEP: usize = 7;
    pub(crate) const BEGUN_THINGS: f64 = 0.4;

    /// More steps than this need no more words.
    pub(crate) const MANY_STEPS: usize = 5;

    /// From here on half of a thing is named, and most of it.
    pub(crate) const HALF: f64 = 0.5;
    pub(crate) const MOST: f64 = 0.7;

    /// Least likeness by which a claim speaks plainly of a quantity.
    pub(crate) const PLAIN: f64 = 0.7;

    /// Least share of a setup's numbers.
    pub(crate) const SETUP: f64 = 0.7;

    /// The same where a result follows, in a setup of so few numbers.
    pub(crate) const FEW: usize = 5;
    pub(crate) const ALL: f64 = 0.99;
}

/// What is needed to judge the points of one question.
pub(super) struct Judge<'a> {
    pub(super) dictionary: &'a Dictionary,

    pub(super) question: &'a Question,
    pub(super) prompt: &'a Reading,
    pub(super) reading: &'a Reading,

    pub(super) topic: &'a [(String, f64)],

    pub(super) course: Course,

    /// What the steps of the guide's other questions lead to.
    pub(super) effects: &'a [Wanted],

    /// Both ends of each of those steps.
    pub(super) relations: &'a [(Wanted, Wanted)],

    /// The first and the last level from which and to which the question asks.
    pub(super) levels: Option<(f64, f64)>,
}

/// A status and the stretches behind it.
pub(super) type Verdict = (Status, Vec<Stretch>);

/// How a pattern fared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Fared {
    Missing,
    Partly,
    Denied,
    Said,
}

impl Judge<'_> {
    pub(super) fn matcher(&self) -> Matcher<'_> {
        Matcher { reading: self.reading, dictionary: self.dictionary, topic: self.topic }
    }

    pub(super) fn pattern(&self, text: &str) -> Pattern {
        Pattern::of(text, self.prompt, self.dictionary)
    }

    /// The status of a point.
    pub(super) fn point(&self, point: &Point) -> Verdict {
        let is_worded = point.ideas.is_empty() && self.figures_of(point).is_none() && !self.reading.pieces.is_empty();
        let verdict = self.in_context(point);
        if is_worded { self.strictly(point, verdict) } else { verdict }
    }

    pub(super) fn figures_of(&self, point: &Point) -> Option<Figures> {
        Figures::of(point, self.question, |text: &str| self.dictionary.of_guide(text))
    }

    fn in_context(&self, point: &Point) -> Verdict {
        if self.reading.pieces.is_empty() {
            return (Status::NotFound, Vec::new());
        }
        if !point.ideas.is_empty() {
            return self.by_hand(point);
        }
        if let Some(figures) = self.figures_of(point) {
            return self.figures(&figures);
        }
        if point.kind == PointKind::Link {
            return self.link();
        }
        let (status, mut places) = self.words(point);
        if status == Status::Found && places.is_empty() {
            // What was asked for is named by the answer as a whole.
            places = says(std::slice::from_ref(&(0..self.reading.text.len())));
        }
        if status == Status::Found && !self.answers_apart(point) && self.in_doubt(&places) {
            return (Status::LookAgain, places);
        }
        if point.kind == PointKind::Balance || point.kind.is_reason() {
            return (status, places);
        }
        // "The substrate is what quenches": whatever else is told rightly.
        if let Some(bytes) = self.wrong_doer(point).filter(|_| point.kind == PointKind::Statement) {
            return (Status::Contradicted, vec![Stretch { bytes, says: false }]);
        }
        // "The dye of the bath moves into them": however little else of it is told.
        if point.kind == PointKind::Statement && self.goes_in(&point.statement) {
            let denial = Stretch { bytes: 0..self.reading.text.len(), says: false };
            return (Status::Contradicted, vec![denial]);
        }
        match (status, self.taken_back(point).filter(|sentence| !self.says_in(point, sentence))) {
            (Status::Found, Some(denial)) => {
                let denial = Stretch { bytes: denial, says: false };
                (Status::Contradicted, places.into_iter().chain([denial]).collect())
            }
            _ => (status, places),
        }
    }

    /// Whether a point is met by a verdict, a name, or any sound thing, where a hedge is another matter.
    fn answers_apart(&self, point: &Point) -> bool {
        let statement = point.statement.as_str();
        let verdict = statement.starts_with("The data ") || statement.starts_with("χ²");
        verdict || is_open(point) || point.kind == PointKind::Balance || self.question.command_term == "identify"
    }

    pub(super) fn words(&self, point: &Point) -> Verdict {
        let whole = self.pattern(point.said());
        let statement = point.statement.as_str();
        match () {
            () if point.kind.is_reason() => self.reason(point, &whole),
            () if point.kind == PointKind::Balance => self.balance(point),
            () if point.kind == PointKind::SecondEffect => self.second_effect(point),
            () if statement.starts_with("The data ") => self.settled(point),
            () if statement.starts_with("χ²") => self.tested(point),
            () if is_open(point) => self.open_astray(point).unwrap_or_else(|| self.open()),
            () if whole.direction_alone => self.prediction(point, &whole),
            () if self.question.command_term == "identify" => {
                // "The brightness of the dye" where another quantity is asked for, whatever words the two share.
                let names = |pattern: &Pattern| {
                    let thing = pattern.units.first().and_then(|unit| unit.keys.first());
                    thing.is_some_and(|thing| self.reading.pieces.iter().any(|piece| piece.keys.first() == Some(thing)))
                };
                let other = !names(&whole) && point.reject.iter().any(|text| names(&self.pattern(text)));
                match self.named(statement, self.rejected(point, &whole).as_deref()) {
                    (Status::Found, _) if other => (Status::NotFound, Vec::new()),
                    verdict => verdict,
                }
            }
            () => self.relation(point, &whole),
        }
    }

    /// A statement of how one thing brings about another.
    fn relation(&self, point: &Point, whole: &Pattern) -> Verdict {
        let steps = Pattern::steps(&point.statement, self.prompt, self.dictionary);
        let rejected = self.rejected(point, whole);
        if steps.len() >= 2 {
            return self.steps(&steps, point, rejected);
        }
        let (fared, found) = self.statement(point, whole);
        let free = fared == Fared::Said && earns_by_direction(point);
        let rejected = rejected.filter(|_| !free || self.refused_relation(point, whole));
        match (fared, rejected) {
            (Fared::Said, None) => (Status::Found, says(&found.says)),
            (Fared::Said, Some(places)) => (Status::NotFound, both(&found.says, &places)),
            (Fared::Denied, places) => {
                let denies: Vec<Range<usize>> =
                    found.denies.iter().cloned().chain(places.into_iter().flatten()).collect();
                (Status::Contradicted, both(&found.says, &denies))
            }
            (_, Some(places)) => (Status::NotFound, both(&[], &places)),
            (Fared::Partly, None) => (Status::LookAgain, says(&found.says)),
            (Fared::Missing, None) => (Status::NotFound, Vec::new()),
        }
    }

    /// Whether what is refused is a relation told with its directions, and not a reason beside the right one. The guide quotes
    /// what students claim as a whole; what it refuses without quotes is a reason ("the gas expands because it is hot").
    fn refused_relation(&self, point: &Point, whole: &Pattern) -> bool {
        let directed = |text: &&String| text.starts_with('“') && !self.pattern(text).wanted.is_empty();
        let reject = point.reject.iter().filter(directed).cloned().collect();
        self.rejected(&Point { reject, ..point.clone() }, whole).is_some()
    }

    /// How the statement fared, or one of its alternatives.
    fn statement(&self, point: &Point, whole: &Pattern) -> (Fared, Match) {
        let found = self.step(whole, point, 0);
        // That the cause is there tells nothing yet.
        let mut turns = found.turns.iter().zip(&whole.wanted);
        let directed = turns.any(|(turn, wanted)| *turn == Found::Agrees && !wanted.cause);
        let mut best = (Self::fared(whole, &found, limit::WORDS_ALONE), found);
        if best.1.turns.contains(&Found::Opposed) {
            best.0 = Fared::Denied;
        }
        if whole.wanted.is_empty() {
            let (fared, denial) = self.undirected(whole, &best.1, best.0);
            best.0 = fared;
            best.1.denies.extend(denial);
        } else if best.0 == Fared::Said && self.has_another_term(whole) {
            best.0 = Fared::Partly;
        }
        // Where the direction earns by itself, whatever reason stands beside it is not asked for.
        let bare = point.accept.iter().any(|text| accepts_relation(text)) || earns_by_direction(point);
        if best.0 < Fared::Denied && bare && best.1.effect() == Some(Found::Agrees) {
            best.0 = Fared::Said;
        }
        let patterns = point.accept.iter().map(|text| self.pattern(text)).filter(|pattern| !pattern.direction_alone);
        for pattern in patterns.filter(|pattern| !pattern.is_empty()) {
            let found = self.matcher().find(&pattern);
            let mut fared = Self::fared_otherwise(&pattern, &found);
            // A statement of which way things go is not met by things alone.
            let things = !whole.wanted.is_empty() && pattern.wanted.is_empty() && !directed;
            // "The strands melt. So less is held": where the answer rightly goes on from it, which way is plain.
            let number = self.question.points.iter().position(|one| one.id == point.id);
            let onward = number.is_some_and(|number| self.course.goes_on(number, 0));
            if things && fared == Fared::Said && self.either_way() && !onward {
                fared = Fared::Partly;
                if best.0 == Fared::Missing {
                    best = (fared, found.clone());
                }
            }
            if fared == Fared::Said && best.0 != Fared::Said && best.0 != Fared::Denied {
                best = (fared, found);
            }
        }
        best
    }

    /// A chain of steps: each step's outcome must be told; one that its neighbours imply may be left out.
    fn steps(&self, steps: &[Pattern], point: &Point, rejected: Option<Vec<Range<usize>>>) -> Verdict {
        let matcher = self.matcher();
        let found: Vec<Match> = steps.iter().enumerate().map(|(number, step)| self.step(step, point, number)).collect();
        let others: Vec<Pattern> =
            point.accept.iter().map(|text| self.pattern(text)).filter(|one| !one.is_empty()).collect();
        let number = self.question.points.iter().position(|one| one.id == point.id);
        let followed = number.is_some_and(|number| self.course.goes_on(number, steps.len()));
        let hasty = self.hasty();
        let mut said = 0.0;
        let mut turned = false;
        let mut last = false;
        let mut begun_by_last = false;
        for (place, one) in found.iter().enumerate() {
            turned = turned || one.turns.contains(&Found::Opposed);
            // What the next step sets out from is what this one leads to.
            let onward = found
                .get(place + 1)
                .is_some_and(|next| next.turns.len() > 1 && next.turns.first() == Some(&Found::Agrees))
                && steps.get(place + 1).and_then(|next| next.wanted.first()).is_some_and(|first| first.cause);
            let told = match one.effect() {
                _ if onward => true,
                Some(Found::Agrees) => true,
                Some(Found::Opposed | Found::Both | Found::Unclear | Found::Missing) => false,
                None => one.named() >= limit::WORDS_ALONE,
            };
            // What is left open by the answer is not told by naming its things.
            let open = one.turns.contains(&Found::Unclear);
            let otherwise = !told
                && !open
                && others.get(place).is_some_and(|pattern| {
                    Self::fared(pattern, &matcher.find(pattern), limit::ALTERNATIVE) == Fared::Said
                });
            // What the step sets out from was what the step before leads to: it counts once.
            let further = one.turns.iter().skip(1).any(|found| *found == Found::Agrees);
            let begun = !told && !otherwise && (further || !begun_by_last) && one.turns.contains(&Found::Agrees);
            // "More product, so it is dimmer": of the step between a hasty answer has nothing but what it sets out from.
            let begun = begun && (!hasty || one.named() >= limit::BEGUN_THINGS);
            // What the last step leads to is implied where the next point goes on from it.
            let implied = place + 1 == found.len() && followed && !told && one.turns.contains(&Found::Agrees);
            begun_by_last = onward;
            said += match (told || otherwise || implied, begun) {
                (true, _) => 1.0,
                (false, true) => limit::BEGUN,
                (false, false) => 0.0,
            };
            last = told || otherwise;
        }
        let earns: Vec<Range<usize>> = found.iter().flat_map(|one| one.says.clone()).collect();
        let denies: Vec<Range<usize>> = found.iter().flat_map(|one| one.denies.clone()).collect();
        let n = u32::try_from(steps.len()).map_or(1.0, f64::from);
        let enough = if steps.len() >= 3 { n - 1.0 } else { limit::TWO_STEPS };
        let named = found.iter().map(Match::named).sum::<f64>() / n;
        match (said >= enough - 1e-9, turned, rejected) {
            (_, true, places) => {
                let denies: Vec<Range<usize>> = denies.into_iter().chain(places.into_iter().flatten()).collect();
                (Status::Contradicted, both(&earns, &denies))
            }
            (true, false, None) => (Status::Found, says(&earns)),
            (_, false, Some(places)) => (Status::NotFound, both(&earns, &places)),
            (false, false, None) if 2.0 * said >= n || (last && said > 0.0) || named >= limit::HALF => {
                (Status::LookAgain, says(&earns))
            }
            (false, false, None) => (Status::NotFound, Vec::new()),
        }
    }

    /// Whether an answer has so few words for the steps of the guide that what it does not name it leaves out; a longer one may
    /// tell it in words that are not known. Notes leave out words and not steps.
    fn hasty(&self) -> bool {
        let steps: BTreeSet<(usize, usize)> =
            self.course.nodes.iter().map(|node| (node.place.point, node.place.step)).collect();
        let notes = self.reading.sentences.iter().any(|sentence| sentence.bullet);
        !notes && self.reading.pieces.len() < limit::WORDS_A_STEP * steps.len().min(limit::MANY_STEPS)
    }

    /// How a pattern fared, from shares and directions.
    pub(super) fn fared(pattern: &Pattern, found: &Match, words_alone: f64) -> Fared {
        let named = found.named();
        let Some(agreement) = found.agreement() else {
            let against = found.denied;
            return match () {
                () if against > found.coverage && against >= words_alone * 0.6 => Fared::Denied,
                () if named - against >= words_alone => Fared::Said,
                () if named >= limit::LOOK.max(words_alone * 0.6) => Fared::Partly,
                () => Fared::Missing,
            };
        };
        let effect = found.effect();
        let enough = pattern.direction_alone || named >= limit::WITH_DIRECTIONS;
        let any = |wanted: Found| found.turns.contains(&wanted);
        let agrees = found.turns.iter().filter(|turn| **turn == Found::Agrees).count();
        match effect {
            Some(Found::Both | Found::Opposed) => Fared::Denied,
            _ if any(Found::Opposed) && !any(Found::Agrees) => Fared::Denied,
            // Every quantity of the sentence is told.
            Some(Found::Agrees) if found.turns.len() >= 2 && agreement > 0.999 => Fared::Said,
            // So is what it leads to and something that it comes from, and some of its things are named.
            Some(Found::Agrees) if agrees >= 2 && !any(Found::Opposed) && named >= limit::SOME => Fared::Said,
            Some(Found::Agrees)
                if enough && (agreement >= limit::AGREEMENT || named >= 0.45 || pattern.direction_alone) =>
            {
                Fared::Said
            }
            Some(Found::Agrees) => Fared::Partly,
            _ if named >= limit::LOOK && (any(Found::Agrees) || named >= limit::WORDS_ALONE) => Fared::Partly,
            _ => Fared::Missing,
        }
    }

    /// The same for an alternative: one word that stands for several of its things, with no direction beside it, says none of it.
    fn fared_otherwise(pattern: &Pattern, found: &Match) -> Fared {
        let places: BTreeSet<usize> = found.says.iter().map(|place| place.start).collect();
        match Self::fared(pattern, found, limit::ALTERNATIVE) {
            Fared::Said if pattern.wanted.is_empty() && pattern.units.len() >= 2 && places.len() < 2 => Fared::Partly,
            fared => fared,
        }
    }
}

/// Whether any sound answer earns, also where the guide's example is another.
pub(super) fn is_open(point: &Point) -> bool {
    point.accept.iter().any(|text| text.starts_with("any ") || text.starts_with("another "))
}

/// Whether the direction earns by itself, so that a refused reason beside it costs nothing.
pub(super) fn earns_by_direction(point: &Point) -> bool {
    point.accept.iter().any(|text| text.starts_with("the direction alone"))
}

/// Whether an alternative lets a bare relation earn: a formula, a proportion, or the relation the other way round.
fn accepts_relation(text: &str) -> bool {
    ["proportional", "inversely", " = ", "follow", "in step with", "changes with", "increases with", "decreases with"]
        .iter()
        .any(|mark| text.contains(mark))
}

pub(super) fn says(places: &[Range<usize>]) -> Vec<Stretch> {
    both(places, &[])
}

pub(super) fn both(says: &[Range<usize>], denies: &[Range<usize>]) -> Vec<Stretch> {
    let one = |says: bool| move |bytes: &Range<usize>| Stretch { bytes: bytes.clone(), says };
    says.iter().map(one(true)).chain(denies.iter().map(one(false))).collect()
}
