//! Reading attempts back.

use std::collections::BTreeMap;

use rusqlite::types::FromSql;
use rusqlite::{OptionalExtension, Params, Row};
use serde::de::DeserializeOwned;

use super::attempt::{Answer, Attempt, Check, Correction, Form, Practised, Score, Verdict};
use super::moment::Moment;
use super::names::{AttemptId, NameError, PrincipleId, StudentCode};
use super::store::{Store, StoreError};
use super::support::Support;

impl Store {
    /// Attempts in the order in which they began; those of one student where a code is given.
    ///
    /// # Errors
    /// The file cannot be read, or holds what this program never writes.
    pub fn attempts(&self, student: Option<&StudentCode>) -> Result<Vec<Attempt>, StoreError> {
        let own = student.map(StudentCode::as_str);
        self.select("?1 IS NULL OR student = ?1", [own])
    }

    /// One attempt.
    ///
    /// # Errors
    /// It is not there, or the file cannot be read.
    pub fn attempt(&self, id: &AttemptId) -> Result<Attempt, StoreError> {
        let found = self.select("id = ?1", [id.as_str()])?;
        found.into_iter().next().ok_or_else(|| StoreError::NoAttempt(id.to_string()))
    }

    /// The id that is written so or begins so.
    ///
    /// # Errors
    /// None or several do.
    pub fn find(&self, beginning: &str) -> Result<AttemptId, StoreError> {
        let exact = "SELECT id FROM attempt WHERE id = ?1";
        let found = self.connection.query_row(exact, [beginning], |row| row.get::<_, String>(0)).optional();
        let mut ids: Vec<String> = found.map_err(|error| self.fault(&error))?.into_iter().collect();
        if ids.is_empty() && !beginning.is_empty() {
            let begins = "SELECT id FROM attempt WHERE substr(id, 1, length(?1)) = ?1";
            ids = self.rows(begins, [beginning], |row| get(row, 0))?;
        }
        match ids.as_slice() {
            [] => Err(StoreError::NoAttempt(beginning.chars().filter(|c| !c.is_control()).collect())),
            [id] => self.name(AttemptId::new(id.clone())),
            _ => Err(StoreError::Several(beginning.into(), ids.len())),
        }
    }

    /// The latest attempt that is not finished and whose scenario can be made again: of this student, and of this seed where
    /// one is given.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn unfinished(&self, student: Option<&StudentCode>, seed: Option<u64>) -> Result<Option<Attempt>, StoreError> {
        let attempts = self.select("student IS ?1", [student.map(StudentCode::as_str)])?;
        let open = attempts.into_iter().filter(|attempt| !attempt.is_finished() && attempt.scenario.front.is_some());
        let open = open.filter(|attempt| seed.is_none_or(|seed| seed == attempt.scenario.seed));
        Ok(open.max_by_key(Attempt::last))
    }

    fn select<P: Params + Clone>(&self, which: &str, parameters: P) -> Result<Vec<Attempt>, StoreError> {
        // One view of all four tables, though another process may be writing.
        let view = self.connection.unchecked_transaction().map_err(|error| self.fault(&error))?;
        let sql = format!("SELECT * FROM attempt WHERE {which} ORDER BY started, id");
        let mut attempts = self.rows(&sql, parameters.clone(), attempt)?;
        let place: BTreeMap<String, usize> = attempts.iter().map(|attempt| attempt.id.to_string()).zip(0..).collect();
        let of = format!("WHERE attempt IN (SELECT id FROM attempt WHERE {which}) ORDER BY n");
        let sql = format!("SELECT attempt, step, text, is_right, principle, at FROM answer {of}");
        for (id, answer) in self.rows(&sql, parameters.clone(), answer)? {
            if let Some(attempt) = place.get(&id).and_then(|n| attempts.get_mut(*n)) {
                attempt.answers.push(answer);
            }
        }
        let sql = format!("SELECT attempt, part, point, earned, principles, command_term, habits, at FROM score {of}");
        for (id, score) in self.rows(&sql, parameters.clone(), score)? {
            if let Some(attempt) = place.get(&id).and_then(|n| attempts.get_mut(*n)) {
                attempt.scores.push(score);
            }
        }
        let sql = format!("SELECT attempt, point, verdict, reason, at FROM correction {of}");
        for (id, correction) in self.rows(&sql, parameters, correction)? {
            if let Some(attempt) = place.get(&id).and_then(|n| attempts.get_mut(*n)) {
                attempt.corrections.push(correction);
            }
        }
        view.commit().map_err(|error| self.fault(&error))?;
        Ok(attempts)
    }

    fn rows<T, P: Params>(
        &self,
        sql: &str,
        parameters: P,
        read: fn(&Row<'_>) -> Result<T, Unread>,
    ) -> Result<Vec<T>, StoreError> {
        let mut query = self.connection.prepare(sql).map_err(|error| self.fault(&error))?;
        let mut rows = query.query(parameters).map_err(|error| self.fault(&error))?;
        let mut all = Vec::new();
        while let Some(row) = rows.next().map_err(|error| self.fault(&error))? {
            all.push(read(row).map_err(|unread| match unread {
                Unread::Sqlite(error) => self.fault(&error),
                Unread::Strange(what) => self.damaged(what),
            })?);
        }
        Ok(all)
    }

    fn name<T>(&self, name: Result<T, NameError>) -> Result<T, StoreError> {
        name.map_err(|error| self.damaged(error.to_string()))
    }
}

/// Why a row was not read.
#[derive(Debug)]
enum Unread {
    Sqlite(rusqlite::Error),
    /// It holds what this program never writes.
    Strange(String),
}

impl From<NameError> for Unread {
    fn from(error: NameError) -> Self {
        Self::Strange(error.to_string())
    }
}

fn get<T: FromSql>(row: &Row<'_>, column: usize) -> Result<T, Unread> {
    row.get(column).map_err(Unread::Sqlite)
}

fn text(row: &Row<'_>, column: usize) -> Result<String, Unread> {
    get(row, column)
}

fn list<T: DeserializeOwned>(row: &Row<'_>, column: usize) -> Result<Vec<T>, Unread> {
    serde_json::from_str(&text(row, column)?).map_err(|error| Unread::Strange(error.to_string()))
}

fn word<T>(row: &Row<'_>, column: usize, find: fn(&str) -> Option<T>) -> Result<T, Unread> {
    let word = text(row, column)?;
    find(&word).ok_or(Unread::Strange(format!("`{word}` means nothing")))
}

fn moment(row: &Row<'_>, column: usize) -> Result<Moment, Unread> {
    get(row, column).map(Moment::from_ms)
}

fn attempt(row: &Row<'_>) -> Result<Attempt, Unread> {
    Ok(Attempt {
        id: AttemptId::new(text(row, 0)?)?,
        student: get::<Option<String>>(row, 1)?.map(StudentCode::new).transpose()?,
        started: moment(row, 2)?,
        support: word(row, 3, Support::find)?,
        scenario: Practised {
            id: super::names::ScenarioId::new(text(row, 4)?)?,
            title: text(row, 5)?,
            seed: u64::try_from(get::<i64>(row, 6)?).unwrap_or(0),
            form: word(row, 7, Form::find)?,
            points: get(row, 8)?,
            principles: list(row, 9)?,
            front: get(row, 10)?,
        },
        answers: Vec::new(),
        scores: Vec::new(),
        corrections: Vec::new(),
    })
}

fn answer(row: &Row<'_>) -> Result<(String, Answer), Unread> {
    let principle = get::<Option<String>>(row, 4)?.map(PrincipleId::new).transpose()?;
    let check = get::<Option<bool>>(row, 3)?.map(|right| Check { right, principle });
    let step = super::names::StepKey::new(text(row, 1)?)?;
    Ok((text(row, 0)?, Answer { step, text: text(row, 2)?, check, at: moment(row, 5)? }))
}

fn score(row: &Row<'_>) -> Result<(String, Score), Unread> {
    let score = Score {
        part: super::names::PartLabel::new(text(row, 1)?)?,
        point: super::names::PointLabel::new(text(row, 2)?)?,
        earned: get(row, 3)?,
        principles: list(row, 4)?,
        command_term: super::names::CommandTerm::new(text(row, 5)?)?,
        habits: list(row, 6)?,
        at: moment(row, 7)?,
    };
    Ok((text(row, 0)?, score))
}

fn correction(row: &Row<'_>) -> Result<(String, Correction), Unread> {
    let correction = Correction {
        point: super::names::PointLabel::new(text(row, 1)?)?,
        verdict: word(row, 2, Verdict::find)?,
        reason: get(row, 3)?,
        at: moment(row, 4)?,
    };
    Ok((text(row, 0)?, correction))
}
