//! Points: of each question, in all, and one row of the guide for each.

use std::collections::BTreeMap;
use std::ops::Range;

use crate::diagnostic::{Diagnostic, code};
use crate::proof::check::questions::is_asked;
use crate::proof::fact::{Fact, Token};
use crate::proof::page::Section;
use crate::proof::report::{Weight, weighed};
use crate::proof::{Made, Proof};

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    match &proof.made {
        Some(made) => against(proof, made, faults),
        None => alone(proof, faults),
    }
}

/// Against the scenario made again.
fn against(proof: &Proof<'_>, made: &Made, faults: &mut Vec<Diagnostic>) {
    for (_, old, new) in proof.pairs() {
        for part in new.parts.iter().filter(|_| is_asked(&made.text, old)) {
            let same = old.parts.iter().find(|other| other.key == part.key);
            let expected = same.and_then(|same| worth(made.slice(&same.body), 0));
            let Some((expected, _)) = expected else { continue };
            match worth(proof.slice(&part.body), part.body.start) {
                Some((n, _)) if n == expected => {}
                Some((n, range)) => {
                    let message = format!("question ({}) is worth {n}; recomputed it is worth {expected}", part.key);
                    let fault = Diagnostic::error(&code::POINTS_DIFFER, proof.span(range), message);
                    faults.push(fault.hint(format!("write `*({expected})*`: the guide has so many rows for it")));
                }
                None => {
                    let message = format!("question ({}) does not say what it is worth", part.key);
                    let fault = Diagnostic::error(&code::POINTS_DIFFER, proof.span(part.label.clone()), message);
                    faults.push(fault.hint(format!("end it with `*({expected})*`")));
                }
            }
        }
        let Some((expected, _)) = total(&made.tokens_of(old)) else { continue };
        let (weight, range, message) = match total(&proof.tokens_of(new)) {
            Some((n, _)) if n == expected => continue,
            Some((n, range)) => {
                (Weight::Fault, range, format!("the total is given as {n}; the questions are worth {expected}"))
            }
            None => (Weight::Look, new.heading.clone(), format!("the total of {expected} points is no longer given")),
        };
        let fault = weighed(&code::POINTS_DIFFER, weight, proof, range, message);
        faults.extend(fault.map(|fault| fault.hint(format!("write `{expected} points`"))));
    }
}

/// Against itself, where nothing says which scenario it is.
fn alone(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    let asked = proof.page.sections.iter().filter(|section| is_asked(proof.text, section));
    let parts: Vec<_> = asked.flat_map(|section| &section.parts).collect();
    let worths = parts.iter().filter_map(|part| worth(proof.slice(&part.body), part.body.start));
    let sum: u32 = worths.map(|(n, _)| n).fold(0, u32::saturating_add);
    let given = proof.page.sections.first().and_then(|first| total(&proof.tokens_of(first)));
    if let Some((n, range)) = given.filter(|(n, _)| *n != sum && !parts.is_empty()) {
        let message = format!("the total is given as {n}; the questions are worth {sum}");
        let fault = Diagnostic::error(&code::POINTS_DIFFER, proof.span(range), message);
        faults.push(fault.hint("make the points of the questions add up to the total"));
    }
    if !(parts.is_empty() || matches!(sum, 3 | 4 | 10)) {
        let message = format!("the questions are worth {sum} points");
        let place = parts.first().map_or(0..0, |part| part.label.clone());
        let fault = Diagnostic::error(&code::POINTS_DIFFER, proof.span(place), message);
        faults.push(fault.hint("a short scenario has 3 or 4 points, a long one 10"));
    }
    let rows = guide_rows(proof);
    if rows.is_empty() {
        return;
    }
    for part in parts {
        let Some((n, range)) = worth(proof.slice(&part.body), part.body.start) else { continue };
        let n_rows = rows.get(part.key.as_str()).copied().unwrap_or(0);
        if usize::try_from(n).ok() != Some(n_rows) {
            let message = format!("question ({}) is worth {n}, and the guide has {n_rows} rows for it", part.key);
            let fault = Diagnostic::error(&code::POINTS_DIFFER, proof.span(range), message);
            faults.push(fault.hint("the guide has one row for each point"));
        }
    }
}

/// How many rows the guide has for each question.
fn guide_rows<'a>(proof: &'a Proof<'_>) -> BTreeMap<&'a str, usize> {
    let tables = proof.page.sections.iter().flat_map(|section| &section.tables);
    let labels = tables.flat_map(|table| &table.rows).filter_map(|row| row.cells.first());
    let mut rows = BTreeMap::new();
    for label in labels.map(|cell| proof.slice(cell)).filter(|cell| is_label(cell)) {
        *rows.entry(label.trim_end_matches(|c: char| c.is_ascii_digit())).or_default() += 1;
    }
    rows
}

fn is_label(text: &str) -> bool {
    let mut letters = text.chars();
    letters.next().is_some_and(|c| c.is_ascii_lowercase()) && letters.all(|c| c.is_ascii_digit())
}

/// What a question is worth, and where it says so: a number alone in brackets, in italics or at the very end.
pub(super) fn worth(text: &str, start: usize) -> Option<(u32, Range<usize>)> {
    let mut found = None;
    for (at, _) in text.match_indices('(') {
        // "(10 points)" is as long as it gets.
        let inner = text.get(at + 1..).unwrap_or_default();
        let Some(close) = inner.char_indices().take(12).find(|(_, letter)| *letter == ')') else { continue };
        let (inner, after) = inner.split_at(close.0);
        let number = inner.trim().trim_end_matches('s').trim_end_matches("point").trim_end();
        let Ok(n) = number.parse::<u32>() else { continue };
        let before = text.get(..at).unwrap_or_default();
        let in_italics = before.ends_with('*') && after.starts_with(")*");
        let at_end = after.trim_matches([')', '*', '.', ' ', '\r', '\n']).is_empty();
        if in_italics || at_end {
            found = Some((n, start + at..start + at + inner.len() + 2));
        }
    }
    found
}

/// Whether a text says in italics what it is worth, as questions do and answers don't.
pub(super) fn is_worth(text: &str) -> bool {
    let marks = text.match_indices("*(").filter_map(|(at, _)| text.get(at + 2..));
    marks.map(|rest| rest.trim_start_matches(|c: char| c.is_ascii_digit())).any(|rest| rest.starts_with(")*"))
}

/// The number of points that a text speaks of.
fn total(tokens: &[Token]) -> Option<(u32, Range<usize>)> {
    tokens.iter().find_map(|token| match token.fact() {
        // More than a handful of digits is no total; as text, since a float has no safe way to a whole number.
        Some(Fact::Number(number)) if number.of_points => {
            Some((number.value.to_string().parse().ok()?, token.span.clone()))
        }
        _ => None,
    })
}

impl Made {
    /// Words and facts of a section's prose.
    pub(super) fn tokens_of(&self, section: &Section) -> Vec<Token> {
        section.prose.iter().flat_map(|range| self.tokens(range)).collect()
    }
}

impl Proof<'_> {
    /// Words and facts of a section's prose.
    pub(super) fn tokens_of(&self, section: &Section) -> Vec<Token> {
        section.prose.iter().flat_map(|range| self.tokens(range)).collect()
    }
}
