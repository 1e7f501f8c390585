//! The status of one point of one response, with what it rests on.

use std::ops::Range;

use super::course::{Course, Place};
use super::dictionary::Dictionary;
use super::figure::{self, Figures, Value};
use super::guide::{Idea, Point, Question};
use super::matching::{Found, Match, Matcher};
use super::meaning::{Accord, Direction, Link};
use super::pattern::{Pattern, Unit, Wanted};
use super::read::{Piece, Reading, Role};
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
    /// Least share of a twist's reason.
    pub(crate) const REASON: f64 = 0.42;
    /// Least share of a setup's numbers.
    pub(crate) const SETUP: f64 = 0.7;
}

/// What is needed to judge the points of one question.
pub(super) struct Judge<'a> {
    pub(super) dictionary: &'a Dictionary,
    pub(super) question: &'a Question,
    pub(super) prompt: &'a Reading,
    pub(super) reading: &'a Reading,
    pub(super) topic: &'a [(String, f64)],
    pub(super) course: Course,
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

    /// Sets the answer beside the quantities of all points that tell of steps.
    pub(super) fn follow(&mut self) {
        let steps = |point: &Point| {
            let plain = point.ideas.is_empty()
                && !point.statement.trim_start().starts_with("The link:")
                && !is_reason(&point.statement)
                && !point.statement.starts_with("The first effect still")
                && !point.statement.contains(": a second effect of the same treatment")
                && !is_open(point)
                && self.question.command_term != "identify"
                && !self.pattern(&point.statement).direction_alone
                && Figures::of(point, self.question, |text| Reading::of(text, self.dictionary)).is_none();
            if plain { Pattern::steps(&point.statement, self.prompt, self.dictionary) } else { Vec::new() }
        };
        let points: Vec<Vec<Pattern>> = self.question.points.iter().map(steps).collect();
        self.course = Course::new(&points, self.asked(), self.either_way(), &self.matcher());
    }

    /// Whether the question asks for a relation, which may be told of more or of less.
    fn either_way(&self) -> bool {
        let asks = [" depends on ", " affects ", "a change in "].iter().any(|mark| self.question.text.contains(mark));
        let accepts = |point: &Point| point.accept.iter().any(|text| text.contains("opposite change"));
        asks || self.question.points.iter().any(accepts)
    }

    /// The quantities that the question sets out from and asks about. The first is taken to rise where the guide leaves it
    /// open.
    fn asked(&self) -> (Option<Wanted>, Option<Wanted>) {
        let text = self.question.text.replace("**", "");
        let sentence = text.rsplit(". ").next().unwrap_or_default().trim_end_matches('.');
        let how = sentence.split_once(" how ").map_or(sentence, |(_, rest)| rest);
        let change = how.strip_prefix("a change in ").unwrap_or(how);
        let split = |mark: &str| change.split_once(mark);
        let (from, to) =
            match (split(" depends on "), split(" affects "), split(" leads to a change in "), split(" changes ")) {
                (Some((to, from)), ..) => (from, to),
                (None, Some((from, to)), ..)
                | (None, None, Some((from, to)), _)
                | (None, None, None, Some((from, to))) => (from, to),
                _ => return (None, None),
            };
        (self.quantity(from), self.quantity(to))
    }

    /// A quantity by its name, taken to rise.
    pub(super) fn quantity(&self, name: &str) -> Option<Wanted> {
        let reading = Reading::of(name, self.dictionary);
        let mut about: Vec<(String, f64)> = Vec::new();
        for piece in reading.pieces.iter().filter(|piece| piece.role == Role::Content) {
            for key in &piece.keys {
                let light = self.dictionary.is_light(key);
                let term = piece.term.and_then(|term| self.dictionary.term(term));
                let weight = match (light, term.is_some_and(|term| term.quantity && term.id == *key)) {
                    (_, true) => 2.0,
                    (true, _) => 0.2,
                    (false, false) if about.iter().all(|(_, weight)| *weight < 0.5 || *weight >= 2.0) => 1.0,
                    (false, false) => 0.5,
                };
                about.push((key.clone(), weight));
            }
        }
        let class = about
            .iter()
            .filter(|(_, weight)| *weight > 0.15)
            .filter_map(|(key, _)| self.dictionary.class(key))
            .collect();
        (!about.is_empty()).then_some(Wanted { direction: Direction::Up, about, class, cause: true })
    }

    /// A step of a point: its things by their words, its directions by the course.
    fn step(&self, pattern: &Pattern, point: &Point, step: usize) -> Match {
        let matcher = self.matcher();
        let mut found = matcher.things(pattern);
        let Some(number) = self.question.points.iter().position(|one| one.id == point.id) else { return found };
        for turn in 0..pattern.wanted.len() {
            let place = Place { point: number, step, turn };
            found.turns.push(self.course.found(place));
            for (bytes, says) in self.course.places(place, &matcher) {
                if says { &mut found.says } else { &mut found.denies }.push(bytes);
            }
        }
        found
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
        let (status, places) = self.words(point);
        if point.statement.starts_with("The first effect still") || is_reason(&point.statement) {
            return (status, places);
        }
        match (status, self.taken_back(point)) {
            (Status::Found, Some(denial)) => {
                let denial = Stretch { bytes: denial, says: false };
                (Status::Contradicted, places.into_iter().chain([denial]).collect())
            }
            _ => (status, places),
        }
    }

    /// A later sentence that sets itself against what was said ("But …", "… though") and speaks of this point.
    fn taken_back(&self, point: &Point) -> Option<Range<usize>> {
        let pattern = self.pattern(&point.statement);
        let telling: Vec<&Unit> =
            pattern.units.iter().filter(|unit| !unit.prompted || pattern.direction_alone).collect();
        for (number, sentence) in self.reading.sentences.iter().enumerate().skip(1) {
            let own: Vec<&Piece> = self.reading.pieces.iter().filter(|piece| piece.sentence == number).collect();
            let first = own.first().map_or("", |piece| piece.lower.as_str());
            let against = matches!(first, "but" | "however" | "yet" | "though" | "although" | "nevertheless")
                || own
                    .iter()
                    .any(|piece| matches!(piece.lower.as_str(), "though" | "however" | "still" | "in spite" | "spite"));
            let speaks = own
                .iter()
                .any(|piece| telling.iter().any(|unit| unit.keys.first().is_some_and(|key| piece.keys.contains(key))));
            if against && speaks {
                return Some(sentence.bytes.clone());
            }
        }
        None
    }

    pub(super) fn words(&self, point: &Point) -> Verdict {
        let whole = self.pattern(&point.statement);
        let steps = Pattern::steps(&point.statement, self.prompt, self.dictionary);
        let rejected = self.rejected(point, &whole);
        if is_reason(&point.statement) {
            return self.reason(point, &whole);
        }
        if point.statement.starts_with("The first effect still") {
            return self.balance();
        }
        if point.statement.contains(": a second effect of the same treatment") {
            return self.second_effect(point);
        }
        if point.statement.starts_with("The data ") {
            return self.settled(point);
        }
        if is_open(point) {
            return self.open(point);
        }
        if whole.direction_alone {
            return self.prediction(point, &whole);
        }
        if self.question.command_term == "identify" {
            return self.named(&point.statement, rejected.as_deref());
        }
        if steps.len() >= 2 && !whole.direction_alone {
            return self.steps(&steps, point, rejected);
        }
        let matcher = self.matcher();
        let found = if whole.direction_alone { matcher.find(&whole) } else { self.step(&whole, point, 0) };
        let directed = found.turns.iter().any(|turn| matches!(turn, Found::Agrees));
        let mut best = (Self::fared(&whole, &found, limit::WORDS_ALONE), found);
        if best.1.turns.contains(&Found::Opposed) && !whole.direction_alone {
            best.0 = Fared::Denied;
        }
        let bare = point.accept.iter().any(|text| accepts_relation(text));
        if best.0 == Fared::Partly && bare && best.1.effect() == Some(Found::Agrees) {
            best.0 = Fared::Said;
        }
        for text in &point.accept {
            let pattern = self.pattern(text);
            if pattern.is_empty() {
                continue;
            }
            let found = matcher.find(&pattern);
            let mut fared = Self::fared(&pattern, &found, limit::ALTERNATIVE);
            // A statement of which way things go is not met by things alone.
            if !whole.wanted.is_empty()
                && pattern.wanted.is_empty()
                && fared == Fared::Said
                && !directed
                && self.either_way()
            {
                fared = Fared::Partly;
                if best.0 == Fared::Missing {
                    best = (fared, found.clone());
                }
            }
            if fared == Fared::Said && best.0 != Fared::Said && best.0 != Fared::Denied {
                best = (fared, found);
            }
        }
        let (fared, found) = best;
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

    /// A chain of steps: each step's outcome must be told; one that its neighbours imply may be left out.
    fn steps(&self, steps: &[Pattern], point: &Point, rejected: Option<Vec<Range<usize>>>) -> Verdict {
        let matcher = self.matcher();
        let found: Vec<Match> = steps.iter().enumerate().map(|(number, step)| self.step(step, point, number)).collect();
        let others: Vec<Pattern> =
            point.accept.iter().map(|text| self.pattern(text)).filter(|one| !one.is_empty()).collect();
        let mut said = 0.0;
        let mut turned = false;
        let mut last = false;
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
            let otherwise = !told
                && others.get(place).is_some_and(|pattern| {
                    Self::fared(pattern, &matcher.find(pattern), limit::ALTERNATIVE) == Fared::Said
                });
            let begun = !told && !otherwise && one.turns.contains(&Found::Agrees);
            said += match (told || otherwise, begun) {
                (true, _) => 1.0,
                (false, true) => 0.6,
                (false, false) => 0.0,
            };
            last = told || otherwise;
        }
        let earns: Vec<Range<usize>> = found.iter().flat_map(|one| one.says.clone()).collect();
        let denies: Vec<Range<usize>> = found.iter().flat_map(|one| one.denies.clone()).collect();
        let n = u32::try_from(steps.len()).map_or(1.0, f64::from);
        let enough = if steps.len() >= 3 { n - 1.0 } else { 1.6 };
        let named = found.iter().map(Match::named).sum::<f64>() / n;
        match (said >= enough - 1e-9, turned, rejected) {
            (_, true, places) => {
                let denies: Vec<Range<usize>> = denies.into_iter().chain(places.into_iter().flatten()).collect();
                (Status::Contradicted, both(&earns, &denies))
            }
            (true, false, None) => (Status::Found, says(&earns)),
            (_, false, Some(places)) => (Status::NotFound, both(&earns, &places)),
            (false, false, None) if 2.0 * said >= n || (last && said > 0.0) || named >= 0.5 => {
                (Status::LookAgain, says(&earns))
            }
            (false, false, None) => (Status::NotFound, Vec::new()),
        }
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
        match effect {
            Some(Found::Both | Found::Opposed) => Fared::Denied,
            _ if any(Found::Opposed) && !any(Found::Agrees) => Fared::Denied,
            // Every quantity of the sentence is told.
            Some(Found::Agrees) if found.turns.len() >= 2 && agreement > 0.999 => Fared::Said,
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
            let whole = self.matcher().in_one_sentence(&pattern);
            let few = pattern.units.len() <= 2;
            // Said in full, and more plainly than anything of the statement.
            let said = pattern.units.len() >= 3
                && self.matcher().named_together(&pattern) > 0.99
                && self.matcher().named_together(statement) < 0.6
                && (pattern.wanted.is_empty() || self.says_so(&pattern) > 0.99);
            if said {
                return Some(whole.says);
            }
            if telling.is_empty() || (telling.len() < 2 && !few) || whole.coverage < limit::REJECTED {
                continue;
            }
            if self.matcher().named_together(&pattern) < if pattern.units.len() <= 4 { 0.9 } else { 0.75 } {
                continue;
            }
            pattern.units = telling;
            let found = self.matcher().in_one_sentence(&pattern);
            let agrees = pattern.wanted.is_empty() || self.says_so(&pattern) >= limit::AGREEMENT;
            if found.coverage >= limit::REJECTED + 0.1 && found.denied <= 0.0 && agrees {
                return Some(if whole.says.is_empty() { found.says } else { whole.says });
            }
        }
        None
    }

    /// Share of the directions of a rejected sentence that the answer claims, by claims that speak of nothing in the guide more
    /// plainly.
    fn says_so(&self, pattern: &Pattern) -> f64 {
        let matcher = self.matcher();
        let claimed = |wanted: &&Wanted| {
            self.reading.claims.iter().enumerate().any(|(number, claim)| {
                let known = matcher.same_quantity(wanted, claim, false);
                known.is_some_and(|(share, mirrored)| {
                    let said = if mirrored { claim.direction.mirrored() } else { claim.direction };
                    let agrees = wanted.direction.accord(said) == Accord::Agree;
                    !claim.aside && !claim.hedged && agrees && share > self.course.plain(number) - 0.05
                })
            })
        };
        let all = u32::try_from(pattern.wanted.len().max(1)).map_or(1.0, f64::from);
        u32::try_from(pattern.wanted.iter().filter(claimed).count()).map_or(0.0, f64::from) / all
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
                pattern.wanted = vec![Wanted { direction, about, class: Vec::new(), cause: false }];
                pattern.direction_alone = true;
            }
            let found = self.matcher().find(&pattern);
            match Self::fared(&pattern, &found, limit::ALTERNATIVE) {
                Fared::Said => return (Status::Found, says(&found.says)),
                Fared::Denied => worst = (Status::Contradicted, both(&found.says, &found.denies)),
                Fared::Partly if worst.0 == Status::NotFound => worst = (Status::LookAgain, says(&found.says)),
                Fared::Partly | Fared::Missing => {}
            }
        }
        worst
    }
}

/// Whether a statement gives the reason of a twist: it ends with what becomes of the chain.
fn is_reason(statement: &str) -> bool {
    statement.contains("This step therefore goes the other way") || statement.contains("The chain is therefore broken")
}

/// Whether any sound answer earns, also where the guide's example is another.
fn is_open(point: &Point) -> bool {
    point.accept.iter().any(|text| text.starts_with("any ") || text.starts_with("another "))
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
