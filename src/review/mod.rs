//! The reviewer: what a student's text says, point by point of a guide, with the words that show it.
//!
//! Comes in: a [`Guide`], a [`Lexicon`], [`Response`]s. Goes out: a [`Review`] each, or a [`View`] of how a text is read.
//! It never claims more than it saw: where things are named and direction or link is unclear, it says "look again".
//! **Must not know**: the concept graph, files, the clock, rendering. It is plain data in and out, so that the same code
//! runs in a page as WebAssembly.

mod alone;
mod asked;
mod astray;
mod balance;
#[cfg(test)]
mod cases;
mod chain;
mod control;
mod correction;
mod course;
mod dictionary;
mod doer;
mod doubt;
mod figure;
mod given;
mod guide;
mod habit;
mod held;
mod ideas;
mod json;
mod judge;
mod kinds;
mod levels;
mod lexicon;
mod likeness;
mod list;
mod matching;
mod meaning;
mod outright;
mod pattern;
mod read;
mod reckoned;
mod refused;
mod rejected;
mod sequence;
mod slip;
mod special;
mod spelling;
mod stated;
mod strict;
mod surely;
mod taken_back;
mod told;
mod unchanged;
mod undirected;
mod unnamed;
mod verdict;
mod words;

pub use guide::{Ends, Guide, Idea, Point, PointKind, Question, Response};
pub use habit::Habit;
pub use json::{VERSION, review_json};
pub use lexicon::{Lexicon, Term};
pub use meaning::{Direction, Link};
pub use read::{ReadClaim, ReadLink, ReadNumber, ReadSpan, ReadTerm, View};
pub use verdict::{Evidence, EvidenceRole, PointReview, Review, Status, Step, StepState};

use dictionary::Dictionary;
use judge::Judge;
use pattern::{Pattern, Wanted};
use read::Reading;

/// A guide made ready: reviews any number of responses.
pub struct Reviewer {
    guide: Guide,
    dictionary: Dictionary,
}

impl Reviewer {
    /// Compiles a guide and its lexicon.
    pub fn new(guide: &Guide, lexicon: &Lexicon) -> Self {
        let mut texts: Vec<&str> = Vec::new();
        for question in &guide.questions {
            texts.push(&question.text);
            for point in &question.points {
                texts.push(&point.statement);
                texts.extend(point.accept.iter().chain(&point.reject).map(String::as_str));
                texts.extend(point.ideas.iter().flat_map(|idea| &idea.terms).map(String::as_str));
            }
        }
        let dictionary = Dictionary::new(lexicon, &texts);
        Self { guide: guide.clone(), dictionary }
    }

    /// The question that a response of this id answers.
    pub fn question(&self, id: &str) -> Option<&Question> {
        let labelled = self.guide.questions.iter().find(|question| !question.id.is_empty() && question.id == id);
        let only = match self.guide.questions.as_slice() {
            [question] if question.id.is_empty() => Some(question),
            _ => None,
        };
        labelled.or(only)
    }

    /// What the steps of the other questions lead to, the readout left out: of that, every answer to a prediction speaks.
    fn effects(&self, question: &Question) -> Vec<Wanted> {
        let mut effects = Vec::new();
        if question.points.iter().any(|point| point.kind.is_reason()) {
            let prompt = self.dictionary.of_guide(&question.text);
            let others = self.guide.questions.iter().filter(|other| other.id != question.id);
            let steps = others.filter(|other| matches!(other.command_term.as_str(), "describe" | "explain"));
            let told = |point: &&Point| point.kind == PointKind::Statement && !judge::is_open(point);
            for point in steps.flat_map(|other| &other.points).filter(told) {
                for step in Pattern::steps(&point.statement, &prompt, &self.dictionary) {
                    effects.extend(step.wanted.into_iter().filter(|wanted| !wanted.cause));
                }
            }
            effects.pop();
        }
        effects
    }

    /// How the steps of the other questions go: both ends of each, by which a changed experiment is told from the first one.
    fn relations(&self, question: &Question) -> Vec<(Wanted, Wanted)> {
        if !question.points.iter().any(|point| point.kind == PointKind::Reversal) {
            return Vec::new();
        }
        let prompt = self.dictionary.of_guide(&question.text);
        let others = self.guide.questions.iter().filter(|other| other.id != question.id);
        let steps = others.filter(|other| matches!(other.command_term.as_str(), "describe" | "explain"));
        let points = steps.flat_map(|other| &other.points).filter(|point| point.kind == PointKind::Statement);
        let steps = points.flat_map(|point| Pattern::steps(&point.statement, &prompt, &self.dictionary));
        let ends = |step: Pattern| Some((step.wanted.first()?.clone(), step.wanted.last()?.clone()));
        steps.filter(|step| step.wanted.len() >= 2).filter_map(ends).collect()
    }

    /// The review of one response; `None` where the guide has no question for its id.
    pub fn review(&self, response: &Response) -> Option<Review> {
        let question = self.question(&response.id)?;
        let read = |text: &str| Reading::of(text, &self.dictionary);
        let known = |text: &str| self.dictionary.of_guide(text);
        let prompt = known(&question.text.replace("**", ""));
        let whole = read(&response.text);
        let (kept, given) = list::first(question, &prompt, &whole);
        let mut reading = if kept.len() == whole.text.len() { whole.clone() } else { read(kept) };
        if let Some(levels) = levels::Levels::of(&self.guide, known) {
            levels.tell(&mut reading, &question.text, known);
        }
        if question.command_term == "describe" {
            levels::compare(&mut reading);
        }
        let topic = topic(&prompt);
        let effects = self.effects(question);
        let relations = self.relations(question);
        let mut judge = Judge {
            dictionary: &self.dictionary,
            question,
            prompt: &prompt,
            reading: &reading,
            topic: &topic,
            course: course::Course::default(),
            effects: &effects,
            relations: &relations,
            levels: levels::asked(&question.text, known),
        };
        let outcome = judge.outcome();
        judge.topic = outcome.as_deref().unwrap_or(judge.topic);
        judge.follow();
        // The question told again earns nothing, whatever it names.
        let names = question.command_term == "identify";
        let restated = !names && habit::restated(&prompt, &reading) >= habit::RESTATES_ALL;
        let points = question.points.iter().map(|point| {
            let (status, stretches) = if restated { (Status::NotFound, Vec::new()) } else { judge.point(point) };
            PointReview { id: point.id.clone(), status, evidence: verdict::evidence(&reading, &stretches) }
        });
        let mut points: Vec<PointReview> = points.collect();
        // One thing or another: whichever is right, it was not chosen.
        let other = doubt::alternative(&response.text).filter(|_| names);
        if let Some(other) = other.and_then(|text| self.review(&Response { text: text.to_owned(), ..response.clone() }))
        {
            for (own, other) in points.iter_mut().zip(other.points) {
                if own.status == Status::Found && other.status != Status::Found {
                    own.status = Status::LookAgain;
                }
            }
        }
        let habits = habit::habits(question, &prompt, &whole, given, &points, known);
        let chain = chain::chain(question, &judge, &points);
        Some(Review { response: response.id.clone(), points, habits, chain })
    }
}

/// Terms made ready: reads any number of texts.
pub struct Reader(Dictionary);

impl Reader {
    /// Compiles the terms.
    pub fn new(lexicon: &Lexicon) -> Self {
        Self(Dictionary::new(lexicon, &[]))
    }

    /// How a text is read.
    pub fn read(&self, text: &str) -> View {
        Reading::of(text, &self.0).view()
    }
}

/// How a text is read with these terms.
pub fn read(text: &str, lexicon: &Lexicon) -> View {
    let dictionary = Dictionary::new(lexicon, &[]);
    Reading::of(text, &dictionary).view()
}

/// What a question asks about: the quantity of its last claim, or the last thing that it names.
fn topic(prompt: &Reading) -> Vec<(String, f64)> {
    let last = prompt.claims.iter().rfind(|claim| !claim.about.is_empty());
    last.map(|claim| claim.about.clone()).unwrap_or_default()
}
