//! The desk: where a question is put, what is written is saved at once, and what was written before is not asked again.

use std::io::{BufRead as _, Read as _};

use super::lettering::{heading, wrapped};
use crate::cli::attempts::plain;
use crate::cli::{Failure, World};
use crate::progress::{Answer, Attempt, AttemptId, Check, NameError, Score, StepKey, Store, StoreError};

/// Bytes of one line at most.
const LONGEST: u64 = 20_000;

/// Why a sitting ends before its end.
#[derive(Debug)]
pub(super) enum Stop {
    /// The student left: end of input.
    Left,
    /// Something that the user can mend.
    Failed(Failure),
}

impl From<Failure> for Stop {
    fn from(failure: Failure) -> Self {
        Self::Failed(failure)
    }
}

impl From<StoreError> for Stop {
    fn from(error: StoreError) -> Self {
        Self::Failed(error.into())
    }
}

impl From<NameError> for Stop {
    fn from(error: NameError) -> Self {
        Self::Failed(error.into())
    }
}

impl From<std::io::Error> for Stop {
    fn from(error: std::io::Error) -> Self {
        Self::Failed(error.into())
    }
}

/// A question put to the student, with its answers known before.
pub(super) struct Desk<'a, 'w> {
    world: &'a mut World<'w>,
    store: &'a mut Store,
    attempt: Attempt,
    /// Shown before the next question that is really put; what leads to an answered one is dropped.
    passing: String,
    /// Shown before the next question that is really put, in any case.
    lasting: String,
    timer: Option<Timer>,
}

/// Time by the clock, when a sitting is timed.
#[derive(Debug, Clone, Copy)]
struct Timer {
    what: &'static str,
    began_ms: i64,
    allowed_s: i64,
}

impl<'a, 'w> Desk<'a, 'w> {
    pub(super) fn new(world: &'a mut World<'w>, store: &'a mut Store, attempt: Attempt) -> Self {
        Self { world, store, attempt, passing: String::new(), lasting: String::new(), timer: None }
    }

    pub(super) fn attempt(&self) -> &Attempt {
        &self.attempt
    }

    pub(super) fn store(&self) -> &Store {
        self.store
    }

    /// Starts to count seconds.
    pub(super) fn time(&mut self, what: &'static str, allowed_s: i64) {
        self.timer = Some(Timer { what, began_ms: self.world.moment().ms(), allowed_s });
    }

    pub(super) fn heading(&mut self, text: &str) {
        self.passing.push_str(&heading(text, self.world.colour));
    }

    /// A paragraph that leads to the next question.
    pub(super) fn say(&mut self, text: &str) {
        self.passing.push_str(&wrapped(text, ""));
    }

    /// A paragraph that leads to the next question, set in.
    pub(super) fn say_within(&mut self, text: &str) {
        self.passing.push_str(&wrapped(text, "    "));
    }

    /// Lines as they are, which lead to the next question.
    pub(super) fn say_lines(&mut self, text: &str) {
        self.passing.push_str(text);
    }

    /// What is needed again when the sitting goes on later.
    pub(super) fn keep(&mut self, title: &str, text: &str) {
        self.lasting.push_str(&heading(title, self.world.colour));
        self.lasting.push_str(text);
    }

    /// Shows what waits.
    pub(super) fn show(&mut self) -> Result<(), Stop> {
        let mut text = std::mem::take(&mut self.lasting) + &std::mem::take(&mut self.passing);
        while text.contains("\n\n\n") {
            text = text.replace("\n\n\n", "\n\n");
        }
        self.world.out.write_all(text.as_bytes())?;
        self.world.out.flush()?;
        Ok(())
    }

    /// What was written at a step before; what led to it is not shown again.
    fn written(&mut self, step: &str) -> Option<String> {
        let text = self.attempt.answer(step)?.text.clone();
        self.passing.clear();
        Some(text)
    }

    /// One line, which may be blank.
    pub(super) fn line(&mut self, step: &str) -> Result<String, Stop> {
        if let Some(text) = self.written(step) {
            return Ok(text);
        }
        self.show()?;
        let text = self.typed("> ")?;
        self.save(step, &text, None)?;
        Ok(text)
    }

    /// Lines up to an empty one; each is kept as it is written, so that a kill in the middle of an answer loses none.
    pub(super) fn lines(&mut self, step: &str) -> Result<String, Stop> {
        if let Some(text) = self.written(step) {
            return Ok(text);
        }
        self.show()?;
        let draft = format!("{step}/draft");
        let mut text = self.attempt.answer(&draft).map(|answer| answer.text.clone()).unwrap_or_default();
        if !text.is_empty() {
            let so_far = wrapped(&plain(&text), "    ");
            write!(self.world.out, "Written so far:\n{so_far}")?;
        }
        loop {
            let line = self.typed("> ")?;
            if line.trim().is_empty() {
                break;
            }
            text = if text.is_empty() { line } else { format!("{text}\n{line}") };
            self.keep_answer(&draft, &text, None)?;
        }
        self.save(step, &text, None)?;
        Ok(text)
    }

    /// A direction: `rises`, `falls` or `unchanged`.
    pub(super) fn direction(&mut self, step: &str, check: impl Fn(&str) -> Check) -> Result<String, Stop> {
        if let Some(text) = self.written(step) {
            return Ok(text);
        }
        self.show()?;
        loop {
            let typed = self.typed("rises, falls or unchanged > ")?;
            let word = match typed.trim().to_lowercase().as_str() {
                "r" | "rise" | "rises" | "up" | "+" | "goes up" | "increases" => "rises",
                "f" | "fall" | "falls" | "down" | "-" | "goes down" | "decreases" => "falls",
                "u" | "unchanged" | "same" | "0" | "stays the same" | "no change" => "unchanged",
                _ => {
                    writeln!(self.world.out, "Write rises, falls or unchanged (or r, f, u).")?;
                    continue;
                }
            };
            self.save(step, word, Some(check(word)))?;
            return Ok(word.to_owned());
        }
    }

    /// A question whose answer is used and not kept.
    pub(super) fn ask(&mut self, prompt: &str) -> Result<String, Stop> {
        self.show()?;
        self.typed(prompt)
    }

    /// Saves an answer without asking.
    pub(super) fn keep_answer(&mut self, step: &str, text: &str, check: Option<Check>) -> Result<(), Stop> {
        let step = StepKey::new(step)?;
        let answer = Answer { step, text: text.to_owned(), check, at: self.world.moment() };
        self.store.answer(&self.attempt.id, &answer)?;
        self.attempt.answers.push(answer);
        Ok(())
    }

    fn save(&mut self, step: &str, text: &str, check: Option<Check>) -> Result<(), Stop> {
        self.keep_answer(step, text, check)?;
        writeln!(self.world.out, "  (saved)")?;
        Ok(())
    }

    /// Saves the score of a point.
    pub(super) fn score(&mut self, mut score: Score) -> Result<(), Stop> {
        score.at = self.world.moment();
        self.store.score(&self.attempt.id, &score)?;
        self.attempt.scores.push(score);
        writeln!(self.world.out, "  (saved)")?;
        Ok(())
    }

    /// A line as it comes in, without control characters.
    fn typed(&mut self, prompt: &str) -> Result<String, Stop> {
        if let Some(Timer { what, began_ms, allowed_s }) = self.timer {
            let passed_s = (self.world.moment().ms() - began_ms) / 1000;
            let clock = |s: i64| format!("{}:{:02}", s / 60, s % 60);
            let over = if passed_s > allowed_s { ", time is up" } else { "" };
            write!(self.world.out, "[{what} {} of {}{over}] ", clock(passed_s), clock(allowed_s))?;
        }
        write!(self.world.out, "{prompt}")?;
        self.world.out.flush()?;
        let mut bytes = Vec::new();
        let n = (&mut *self.world.input).take(LONGEST).read_until(b'\n', &mut bytes)?;
        if n == 0 {
            writeln!(self.world.out)?;
            return Err(Stop::Left);
        }
        let text = plain(String::from_utf8_lossy(&bytes).trim_end()).replace('\n', " ");
        if !self.world.typed {
            writeln!(self.world.out, "{text}")?;
        }
        Ok(text)
    }

    /// The attempt's id.
    pub(super) fn id(&self) -> &AttemptId {
        &self.attempt.id
    }
}
