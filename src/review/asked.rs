//! What a question asks about, and the answer set beside the course of its guide.

use super::course::{Course, Place};
use super::figure::Figures;
use super::guide::{Point, PointKind};
use super::judge::{Judge, is_open};
use super::matching::Match;
use super::meaning::Direction;
use super::pattern::{Pattern, Wanted};
use super::read::Role;

impl Judge<'_> {
    /// Sets the answer beside the quantities of all points that tell of steps.
    pub(super) fn follow(&mut self) {
        let steps = |point: &Point| {
            let plain = point.ideas.is_empty()
                && point.kind == PointKind::Statement
                && !is_open(point)
                && self.question.command_term != "identify"
                && !self.pattern(&point.statement).direction_alone
                && Figures::of(point, self.question, |text| self.dictionary.of_guide(text)).is_none();
            if plain { Pattern::steps(&point.statement, self.prompt, self.dictionary) } else { Vec::new() }
        };
        let points: Vec<Vec<Pattern>> = self.question.points.iter().map(steps).collect();
        self.course = Course::new(&points, self.asked(), self.either_way(), &self.matcher());
    }

    /// Whether the question asks for a relation, which may be told of more or of less.
    pub(super) fn either_way(&self) -> bool {
        let asks = [" depends on ", " affects ", "a change in "].iter().any(|mark| self.question.text.contains(mark));
        let accepts = |point: &Point| point.accept.iter().any(|text| text.contains("opposite"));
        asks || self.question.points.iter().any(accepts)
    }

    /// Keys of the quantity that a question about a relation asks for: what "it" is.
    pub(super) fn outcome(&self) -> Option<Vec<(String, f64)>> {
        let (_, outcome) = self.asked();
        outcome.filter(|_| self.question.command_term == "describe").map(|outcome| outcome.about)
    }

    /// The quantities that the question sets out from and asks about. The first is taken to rise where the guide leaves it
    /// open.
    fn asked(&self) -> (Option<Wanted>, Option<Wanted>) {
        let text = self.question.text.replace("**", "");
        let sentence = text.rsplit(". ").next().unwrap_or_default().trim_end_matches('.');
        let how = sentence.split_once(" how ").map_or(sentence, |(_, rest)| rest);
        let change = how.strip_prefix("a change in ").unwrap_or(how);
        let split = |mark: &str| change.split_once(mark);
        let turned = split(" depends on ").map(|(to, from)| (from, to));
        let ends = turned.or_else(|| [" affects ", " leads to a change in ", " changes "].into_iter().find_map(split));
        let Some((from, to)) = ends else { return (None, None) };
        (self.quantity(from), self.quantity(to))
    }

    /// A quantity by its name, taken to rise.
    pub(super) fn quantity(&self, name: &str) -> Option<Wanted> {
        // "the speed toward the positive electrode": which way is not what.
        let name = name.split_once(" toward ").map_or(name, |(name, _)| name);
        let reading = self.dictionary.of_guide(name);
        let mut about: Vec<(String, f64)> = Vec::new();
        for piece in reading.pieces.iter().filter(|piece| piece.role == Role::Content) {
            for key in &piece.keys {
                let light = self.dictionary.is_light(key);
                let term = piece.term.and_then(|term| self.dictionary.term(term));
                let thing = key.starts_with("t:") && term.is_none_or(|term| term.id != *key);
                let weight = match (light || thing, term.is_some_and(|term| term.quantity && term.id == *key)) {
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
    pub(super) fn step(&self, pattern: &Pattern, point: &Point, step: usize) -> Match {
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
}
