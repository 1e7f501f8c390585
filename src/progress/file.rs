//! The progress file: what the student's page saves, what `toehold progress export` writes and `add` takes in.
//!
//! # Shape
//! JSON, version 1. `?` marks what may be left out; moments are ISO 8601 (`2026-09-01T16:30:00Z`); where `at` is left out,
//! the attempt's `started` stands for it.
//!
//! ```json
//! {"toehold_progress": 1, "student": "K7"?, "attempts": [
//!   {"id": "9f2c41d07be85a13", "student": "K7"?, "started": "2026-09-01T16:30:00Z", "support": "full"?,
//!    "scenario": {"id": "hasty-plate-short-70", "title": "Hasty plate", "seed": 70, "form": "short", "points": 4,
//!                 "principles": ["osmosis"], "front": {}?},
//!    "answers": [{"step": "step-1/direction", "text": "falls", "right": false?, "principle": "osmosis"?, "at": ""?}],
//!    "scores": [{"part": "b", "point": "b1", "earned": true, "principles": ["osmosis"], "command_term": "explain",
//!                "habits": ["no-reason"]?, "at": ""?}],
//!    "corrections"?: [{"point": "b1", "verdict": "void", "reason": ""?, "at": ""}]}]}
//! ```
//!
//! `id` is unique among all attempts of all devices (random, at least 64 bits). `support` is full, completion, prompts or none.
//! `form` is short or long. Steps: `reading`, `plan`, `step-N/recall`, `step-N/role`, `step-N/direction`, `chain`,
//! `prediction`, `outcome`, `compare`, `part-X`. Directions are rises, falls or unchanged. `front` is the scenario's front
//! matter, from which it can be made again. `verdict` is void, earned or not-earned. Later entries of a step or point stand
//! above earlier ones; `add` takes in every entry once, so that a file may be added again after it has grown.

use serde::{Deserialize, Serialize};
use serde_json::Value;
use thiserror::Error;

use super::attempt::{Answer, Attempt, Check, Correction, Form, Practised, Score, Verdict};
use super::moment::Moment;
use super::names::{
    AttemptId, CommandTerm, HabitId, PartLabel, PointLabel, PrincipleId, ScenarioId, StepKey, StudentCode,
};
use super::support::Support;

/// The version of the shape that this program writes.
pub const FILE_VERSION: u32 = 1;
/// Seeds stay below this.
const SEEDS: u64 = 1 << 53;
/// Letters of one text at most.
const LONGEST: usize = 100_000;
/// Points of a scenario at most.
const MOST_POINTS: u32 = 1000;

/// Why a progress file is not taken in.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{line}:{column}: {message}")]
pub struct FileError {
    /// Counted from 1.
    pub line: usize,
    /// Counted from 1.
    pub column: usize,
    /// Lower-case fragment.
    pub message: String,
    /// What to do about it.
    pub hint: &'static str,
}

#[derive(Deserialize)]
#[serde(expecting = "a progress file as one JSON object")]
struct Version {
    toehold_progress: u32,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a progress file as one JSON object")]
struct ProgressFile {
    toehold_progress: u32,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    student: Option<StudentCode>,
    attempts: Vec<AttemptEntry>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, expecting = "an attempt as a JSON object")]
struct AttemptEntry {
    id: AttemptId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    student: Option<StudentCode>,
    started: Moment,
    #[serde(default)]
    support: SupportWord,
    scenario: ScenarioEntry,
    answers: Vec<AnswerEntry>,
    scores: Vec<ScoreEntry>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    corrections: Vec<CorrectionEntry>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a scenario as a JSON object")]
struct ScenarioEntry {
    id: ScenarioId,
    title: Line,
    seed: u64,
    form: FormWord,
    points: u32,
    principles: Vec<PrincipleId>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    front: Option<Value>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, expecting = "an answer as a JSON object")]
struct AnswerEntry {
    step: StepKey,
    text: Text,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    right: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    principle: Option<PrincipleId>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    at: Option<Moment>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a score as a JSON object")]
struct ScoreEntry {
    part: PartLabel,
    point: PointLabel,
    earned: bool,
    principles: Vec<PrincipleId>,
    command_term: CommandTerm,
    #[serde(default)]
    habits: Vec<HabitId>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    at: Option<Moment>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, expecting = "a correction as a JSON object")]
struct CorrectionEntry {
    point: PointLabel,
    verdict: VerdictWord,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    reason: Option<Line>,
    at: Moment,
}

/// One line without control characters.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct Line(String);

impl TryFrom<String> for Line {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        if text.chars().any(char::is_control) || text.len() > 1000 {
            return Err("a title or reason is one line of at most 1000 letters, without control characters".into());
        }
        Ok(Self(text))
    }
}

impl From<Line> for String {
    fn from(line: Line) -> Self {
        line.0
    }
}

/// Lines as a student writes them.
#[derive(Clone, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
struct Text(String);

impl TryFrom<String> for Text {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        if text.len() > LONGEST {
            return Err(format!("an answer has at most {LONGEST} letters"));
        }
        Ok(Self(text))
    }
}

impl From<Text> for String {
    fn from(text: Text) -> Self {
        text.0
    }
}

#[derive(Clone, Copy, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum SupportWord {
    #[default]
    Full,
    Completion,
    Prompts,
    None,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum FormWord {
    Short,
    Long,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum VerdictWord {
    Void,
    Earned,
    NotEarned,
}

/// The attempts of a progress file.
///
/// # Errors
/// No JSON, another shape, a newer version: with its place.
pub fn read_file(text: &str) -> Result<Vec<Attempt>, FileError> {
    let text = text.trim_start_matches('\u{feff}');
    let shape = "a progress file is saved by the page or written by `toehold progress export`";
    if text.trim_start().starts_with(|c| c != '{') {
        let message = "a progress file is one JSON object".to_owned();
        return Err(FileError { line: 1, column: 1, message, hint: shape });
    }
    let version: Version = serde_json::from_str(text).map_err(|error| fault(&error, shape))?;
    if version.toehold_progress > FILE_VERSION {
        let message = format!(
            "version {} is newer than {FILE_VERSION}, the newest that this program reads",
            version.toehold_progress
        );
        return Err(FileError { line: 1, column: 1, message, hint: "add it with a newer version of the program" });
    }
    let hint = "nothing of the file was added; save or export it again";
    if version.toehold_progress == 0 {
        let message = "there is no version 0".to_owned();
        return Err(FileError { line: 1, column: 1, message, hint });
    }
    let file: ProgressFile = serde_json::from_str(text).map_err(|error| fault(&error, hint))?;
    for entry in &file.attempts {
        if entry.scenario.seed >= SEEDS || entry.scenario.points > MOST_POINTS {
            let message = format!("attempt `{}`: `seed` or `points` is out of range", entry.id);
            return Err(FileError { line: 1, column: 1, message, hint });
        }
    }
    let student = file.student;
    Ok(file.attempts.into_iter().map(|entry| meant(entry, student.as_ref())).collect())
}

fn fault(error: &serde_json::Error, hint: &'static str) -> FileError {
    // The place stands at the end of the message too.
    let message = error.to_string();
    let end = message.rfind(" at line ").unwrap_or(message.len());
    let message: String = message.chars().take(message.get(..end).map_or(0, |kept| kept.chars().count())).collect();
    let message = message.chars().map(|c| if c.is_control() { '?' } else { c }).take(300).collect();
    FileError { line: error.line().max(1), column: error.column().max(1), message, hint }
}

fn meant(entry: AttemptEntry, student: Option<&StudentCode>) -> Attempt {
    let started = entry.started;
    let answer = |answer: AnswerEntry| Answer {
        step: answer.step,
        text: answer.text.0,
        check: answer.right.map(|right| Check { right, principle: answer.principle }),
        at: answer.at.unwrap_or(started),
    };
    let score = |score: ScoreEntry| Score {
        part: score.part,
        point: score.point,
        earned: score.earned,
        principles: score.principles,
        command_term: score.command_term,
        habits: score.habits,
        at: score.at.unwrap_or(started),
    };
    let correction = |correction: CorrectionEntry| Correction {
        point: correction.point,
        verdict: match correction.verdict {
            VerdictWord::Void => Verdict::Void,
            VerdictWord::Earned => Verdict::Earned,
            VerdictWord::NotEarned => Verdict::NotEarned,
        },
        reason: correction.reason.map(String::from),
        at: correction.at,
    };
    Attempt {
        id: entry.id,
        student: entry.student.or_else(|| student.cloned()),
        started,
        support: match entry.support {
            SupportWord::Full => Support::Full,
            SupportWord::Completion => Support::Completion,
            SupportWord::Prompts => Support::Prompts,
            SupportWord::None => Support::None,
        },
        scenario: Practised {
            id: entry.scenario.id,
            title: entry.scenario.title.0,
            seed: entry.scenario.seed,
            form: match entry.scenario.form {
                FormWord::Short => Form::Short,
                FormWord::Long => Form::Long,
            },
            points: entry.scenario.points,
            principles: entry.scenario.principles,
            front: entry.scenario.front.map(|front| front.to_string()),
        },
        answers: entry.answers.into_iter().map(answer).collect(),
        scores: entry.scores.into_iter().map(score).collect(),
        corrections: entry.corrections.into_iter().map(correction).collect(),
    }
}

/// Attempts as a progress file.
pub fn write_file(attempts: &[Attempt]) -> String {
    let attempts = attempts.iter().map(written).collect();
    let file = ProgressFile { toehold_progress: FILE_VERSION, student: None, attempts };
    // Only maps with keys that are no strings cannot be written, and there are none.
    serde_json::to_string_pretty(&file).map(|text| text + "\n").unwrap_or_default()
}

fn written(attempt: &Attempt) -> AttemptEntry {
    let Practised { id, title, seed, form, points, principles, front } = attempt.scenario.clone();
    let answer = |answer: &Answer| AnswerEntry {
        step: answer.step.clone(),
        text: Text(answer.text.clone()),
        right: answer.check.as_ref().map(|check| check.right),
        principle: answer.check.as_ref().and_then(|check| check.principle.clone()),
        at: Some(answer.at),
    };
    let score = |score: &Score| ScoreEntry {
        part: score.part.clone(),
        point: score.point.clone(),
        earned: score.earned,
        principles: score.principles.clone(),
        command_term: score.command_term.clone(),
        habits: score.habits.clone(),
        at: Some(score.at),
    };
    let correction = |correction: &Correction| CorrectionEntry {
        point: correction.point.clone(),
        verdict: match correction.verdict {
            Verdict::Void => VerdictWord::Void,
            Verdict::Earned => VerdictWord::Earned,
            Verdict::NotEarned => VerdictWord::NotEarned,
        },
        reason: correction.reason.clone().map(Line),
        at: correction.at,
    };
    AttemptEntry {
        id: attempt.id.clone(),
        student: attempt.student.clone(),
        started: attempt.started,
        support: match attempt.support {
            Support::Full => SupportWord::Full,
            Support::Completion => SupportWord::Completion,
            Support::Prompts => SupportWord::Prompts,
            Support::None => SupportWord::None,
        },
        scenario: ScenarioEntry {
            id,
            title: Line(title),
            seed,
            form: match form {
                Form::Short => FormWord::Short,
                Form::Long => FormWord::Long,
            },
            points,
            principles,
            front: front.and_then(|front| serde_json::from_str(&front).ok()),
        },
        answers: attempt.answers.iter().map(answer).collect(),
        scores: attempt.scores.iter().map(score).collect(),
        corrections: attempt.corrections.iter().map(correction).collect(),
    }
}
