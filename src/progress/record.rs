//! Recording: entries are added, each in a transaction of its own, and what is there already is not added again.

use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use serde::Serialize;

use super::attempt::{Answer, Attempt, Correction, Practised, Score};
use super::names::AttemptId;
use super::store::{Store, StoreError};

/// What recording an attempt added.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Recorded {
    /// Whether the attempt was not known before.
    pub new: bool,
    /// Answers, scores and corrections that were not.
    pub n_entries: usize,
}

/// Adds an attempt, or what is new of one that is there. When this returns, it is on the disk.
///
/// # Errors
/// The id stands for another scenario; the file cannot be written.
pub fn record(store: &mut Store, attempt: &Attempt) -> Result<Recorded, StoreError> {
    let path = store.path().to_path_buf();
    let fault = |error: rusqlite::Error| super::store::fault(&path, &error);
    let change = store.connection.transaction_with_behavior(TransactionBehavior::Immediate).map_err(fault)?;
    let id = attempt.id.as_str();
    let known = change
        .query_row("SELECT scenario, seed FROM attempt WHERE id = ?1", [id], |row| {
            Ok((row.get::<_, String>(0)?, row.get::<_, i64>(1)?))
        })
        .optional()
        .map_err(fault)?;
    let own = (attempt.scenario.id.as_str().to_owned(), number(attempt.scenario.seed));
    if known.as_ref().is_some_and(|known| *known != own) {
        return Err(StoreError::OtherAttempt(attempt.id.clone()));
    }
    if known.is_none() {
        insert_attempt(&change, attempt).map_err(fault)?;
    }
    let mut n_entries = 0;
    for answer in &attempt.answers {
        n_entries += insert_answer(&change, &attempt.id, answer).map_err(fault)?;
    }
    for score in &attempt.scores {
        n_entries += insert_score(&change, &attempt.id, score).map_err(fault)?;
    }
    for correction in &attempt.corrections {
        n_entries += insert_correction(&change, &attempt.id, correction).map_err(fault)?;
    }
    change.commit().map_err(fault)?;
    Ok(Recorded { new: known.is_none(), n_entries })
}

impl Store {
    /// Adds an answer to an attempt. When this returns, it is on the disk.
    ///
    /// # Errors
    /// The file cannot be written.
    pub fn answer(&mut self, attempt: &AttemptId, answer: &Answer) -> Result<(), StoreError> {
        insert_answer(&self.connection, attempt, answer).map(|_| ()).map_err(|error| self.fault(&error))
    }

    /// Adds a score to an attempt. When this returns, it is on the disk.
    ///
    /// # Errors
    /// The file cannot be written.
    pub fn score(&mut self, attempt: &AttemptId, score: &Score) -> Result<(), StoreError> {
        insert_score(&self.connection, attempt, score).map(|_| ()).map_err(|error| self.fault(&error))
    }

    /// Adds a correction to a point that has been scored. When this returns, it is on the disk.
    ///
    /// # Errors
    /// The point has no score; the file cannot be written.
    pub fn correct(&mut self, attempt: &AttemptId, correction: &Correction) -> Result<(), StoreError> {
        let sql = "SELECT count(*) FROM score WHERE attempt = ?1 AND point = ?2";
        let place = params![attempt.as_str(), correction.point.as_str()];
        let n: i64 = self.connection.query_row(sql, place, |row| row.get(0)).map_err(|error| self.fault(&error))?;
        if n == 0 {
            return Err(StoreError::NoPoint { attempt: attempt.clone(), point: correction.point.clone() });
        }
        insert_correction(&self.connection, attempt, correction).map(|_| ()).map_err(|error| self.fault(&error))
    }
}

fn insert_attempt(connection: &Connection, attempt: &Attempt) -> rusqlite::Result<usize> {
    let Practised { id, title, seed, form, points, principles, front } = &attempt.scenario;
    connection.prepare("INSERT INTO attempt VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)")?.execute(params![
        attempt.id.as_str(),
        attempt.student.as_ref().map(super::names::StudentCode::as_str),
        attempt.started.ms(),
        attempt.support.word(),
        id.as_str(),
        title,
        number(*seed),
        form.word(),
        points,
        list(principles),
        front
    ])
}

fn insert_answer(connection: &Connection, attempt: &AttemptId, answer: &Answer) -> rusqlite::Result<usize> {
    let sql = "INSERT INTO answer (attempt, step, text, is_right, principle, at) VALUES (?1, ?2, ?3, ?4, ?5, ?6) \
               ON CONFLICT (attempt, step, at, text) DO NOTHING";
    let principle = answer.check.as_ref().and_then(|check| check.principle.as_ref());
    connection.prepare(sql)?.execute(params![
        attempt.as_str(),
        answer.step.as_str(),
        answer.text,
        answer.check.as_ref().map(|check| check.right),
        principle.map(super::names::PrincipleId::as_str),
        answer.at.ms()
    ])
}

fn insert_score(connection: &Connection, attempt: &AttemptId, score: &Score) -> rusqlite::Result<usize> {
    let sql = "INSERT INTO score (attempt, part, point, earned, principles, command_term, habits, at) \
               VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8) ON CONFLICT (attempt, point, at, earned) DO NOTHING";
    connection.prepare(sql)?.execute(params![
        attempt.as_str(),
        score.part.as_str(),
        score.point.as_str(),
        score.earned,
        list(&score.principles),
        score.command_term.as_str(),
        list(&score.habits),
        score.at.ms()
    ])
}

fn insert_correction(connection: &Connection, attempt: &AttemptId, correction: &Correction) -> rusqlite::Result<usize> {
    let sql = "INSERT INTO correction (attempt, point, verdict, reason, at) VALUES (?1, ?2, ?3, ?4, ?5) \
               ON CONFLICT (attempt, point, at, verdict) DO NOTHING";
    connection.prepare(sql)?.execute(params![
        attempt.as_str(),
        correction.point.as_str(),
        correction.verdict.word(),
        correction.reason,
        correction.at.ms()
    ])
}

/// Names as a JSON list; names have no characters that could fail to be written.
fn list<T: Serialize>(names: &[T]) -> String {
    serde_json::to_string(names).unwrap_or_else(|_| "[]".into())
}

/// Seeds stay below 2⁵³.
fn number(seed: u64) -> i64 {
    i64::try_from(seed).unwrap_or(i64::MAX)
}
