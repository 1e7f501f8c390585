//! The text under the pencil: plain strings in reading order, from a scenario or from a file.

use crate::scenario::{NounView, Scenario};
use crate::technique::Form;

/// A text to be read.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Manuscript {
    /// The technique's name.
    pub title: String,
    /// Who wants to know what.
    pub purpose: String,
    /// The procedure: one entry for what was written in one go. A file has one entry.
    pub how: Vec<String>,
    /// The questions.
    pub questions: Vec<Question>,
    /// The scoring guide.
    pub answers: Vec<Answer>,
    /// "What do you already know", with its answers: label and text.
    pub steps: Vec<(String, String)>,
    /// Cautions.
    pub cautions: Vec<String>,
    /// Length, where it is known.
    pub form: Option<Form>,
    /// Words that would hand a step over.
    pub never: Vec<String>,
    /// Names without which the stimulus cannot do: of the treatment, the readout, the things used.
    pub named: Vec<String>,
    /// Things with names of their own.
    pub nouns: Vec<NounView>,
}

/// A question.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Question {
    /// `a`, `b`, ...
    pub label: String,
    /// As printed, the command term in `**`, without the points.
    pub text: String,
    /// Points.
    pub points: u32,
}

/// A point of the guide.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Answer {
    /// Label of the question.
    pub part: String,
    /// `b1`.
    pub point: String,
    /// What earns it.
    pub statement: String,
    /// Also earns, and does not earn.
    pub others: Vec<String>,
}

/// What kind of text a passage is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// The name.
    Title,
    /// Who wants to know what.
    Purpose,
    /// The procedure.
    Procedure,
    /// A question.
    Question,
    /// What earns a point.
    Answer,
    /// Another wording in the guide: a fragment, not a sentence.
    Alternative,
    /// A step of the scaffold.
    Step,
    /// A caution.
    Caution,
}

/// A stretch of text with its place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Passage<'a> {
    /// What kind of text.
    pub kind: Kind,
    /// Section or part.
    pub place: String,
    /// The text.
    pub text: &'a str,
}

impl Manuscript {
    /// All passages, in reading order.
    pub fn passages(&self) -> Vec<Passage<'_>> {
        let mut all = vec![passage(Kind::Title, "title".into(), &self.title)];
        all.extend(self.stimulus());
        for question in &self.questions {
            all.push(passage(Kind::Question, question.place(), &question.text));
        }
        for (label, text) in &self.steps {
            all.push(passage(Kind::Step, label.clone(), text));
        }
        for answer in &self.answers {
            all.push(passage(Kind::Answer, answer.place(), &answer.statement));
            all.extend(answer.others.iter().map(|other| passage(Kind::Alternative, answer.place(), other)));
        }
        all.extend(self.cautions.iter().map(|caution| passage(Kind::Caution, "cautions".into(), caution)));
        all.retain(|passage| !passage.text.is_empty());
        all
    }

    /// What a student reads before the questions.
    pub fn stimulus(&self) -> Vec<Passage<'_>> {
        let mut all = vec![passage(Kind::Purpose, "purpose".into(), &self.purpose)];
        all.extend(self.how.iter().map(|text| passage(Kind::Procedure, "how it works".into(), text)));
        all.retain(|passage| !passage.text.is_empty());
        all
    }

    /// The points of a question.
    pub fn answers_to<'a>(&'a self, question: &'a Question) -> impl Iterator<Item = &'a Answer> {
        self.answers.iter().filter(|answer| answer.part == question.label)
    }
}

impl Question {
    /// How its place is named.
    pub fn place(&self) -> String {
        format!("({})", self.label)
    }
}

impl Answer {
    fn place(&self) -> String {
        format!("guide {}", self.point)
    }
}

fn passage(kind: Kind, place: String, text: &str) -> Passage<'_> {
    Passage { kind, place, text }
}

fn named(scenario: &Scenario) -> Vec<String> {
    let ends = [&scenario.dial, &scenario.reading].into_iter().flat_map(|view| [&view.name, &view.the]);
    let things = scenario.nouns.iter().flat_map(|noun| [&noun.intro, &noun.many]);
    ends.chain(things).cloned().collect()
}

impl From<&Scenario> for Manuscript {
    fn from(scenario: &Scenario) -> Self {
        let question = |part: &crate::scenario::Part| Question {
            label: part.label.clone(),
            text: part.text.clone(),
            points: part.points,
        };
        let answer = |point: &crate::scenario::Point| Answer {
            part: point.part.clone(),
            point: point.point.clone(),
            statement: point.statement.clone(),
            others: point.accept.iter().chain(&point.reject).cloned().collect(),
        };
        let steps = scenario.scaffold.iter().zip(1..).flat_map(|(step, number)| {
            let texts = [&step.recall, &step.answer, &step.role, &step.role_answer, &step.step];
            let texts = texts.into_iter().cloned().chain(step.replies.iter().map(|reply| reply.text.clone()));
            texts.map(move |text| (format!("step {number}"), text)).collect::<Vec<_>>()
        });
        Self {
            title: scenario.title.clone(),
            purpose: scenario.purpose.clone(),
            how: scenario.how.clone(),
            questions: scenario.parts.iter().map(question).collect(),
            answers: scenario.guide.iter().map(answer).collect(),
            steps: steps.collect(),
            cautions: scenario.cautions.clone(),
            form: Some(scenario.form),
            never: scenario.never.clone(),
            named: named(scenario),
            nouns: scenario.nouns.clone(),
        }
    }
}
