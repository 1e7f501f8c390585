//! The wording: flaws of written questions and slips of the pen, where an edit has brought one in. None of it is a fault:
//! the words are the teacher's.

use std::ops::Range;

use crate::diagnostic::{Diagnostic, Severity};
use crate::proof::Proof;
use crate::proof::check::guide::is_guide;
use crate::proof::check::points::worth;
use crate::proof::check::questions::is_asked;
use crate::proof::page::Section;
use crate::scenario::proofread::{self, Answer, Manuscript, Question};

/// A text longer than this is no scenario that anyone wrote; reading it closely would take for ever.
const MOST_BYTES: usize = 200_000;

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    let Some(made) = &proof.made else { return };
    if proof.text.len() > MOST_BYTES {
        return;
    }
    let places = Places::of(proof);
    let manuscript = places.manuscript(proof);
    let known = Manuscript::from(&made.scenario);
    let manuscript = Manuscript {
        form: known.form,
        never: known.never.clone(),
        named: known.named.clone(),
        nouns: known.nouns.clone(),
        ..manuscript
    };
    for flaw in proofread::brought_in(&known, &manuscript) {
        let whole = places.range(&flaw.place, proof);
        let quoted = proof.slice(&whole).find(&flaw.quote).filter(|_| !flaw.quote.is_empty());
        let range = quoted.map_or(whole.start..whole.start, |at| whole.start + at..whole.start + at + flaw.quote.len());
        let mut found = Diagnostic::error(flaw.code, proof.span(range), flaw.message).hint(flaw.hint);
        if let Some(source) = flaw.source {
            found = found.hint(format!("the rule: {source}"));
        }
        faults.push(Diagnostic { severity: Severity::Warning, ..found });
    }
}

/// Where the passages of a manuscript stand in the file.
#[derive(Debug, Default)]
struct Places {
    title: Range<usize>,
    purpose: Vec<Range<usize>>,
    how: Vec<Range<usize>>,
    /// Label, text, points.
    questions: Vec<(String, Range<usize>, u32)>,
    /// Label of the point, and its cells: what earns, and the others.
    answers: Vec<(String, Vec<Range<usize>>)>,
}

impl Places {
    fn of(proof: &Proof<'_>) -> Self {
        let mut places = Self::default();
        for (made, old, new) in proof.pairs() {
            if old.key == "#" {
                places.title = new.heading.clone();
                places.purpose = running(proof, new);
            } else if old.key == "howitworks" {
                places.how = running(proof, new);
            } else if is_asked(&made.text, old) {
                places.questions.extend(new.parts.iter().map(|part| {
                    let text = proof.slice(&part.body);
                    let (points, mark) = worth(text, part.body.start)
                        .map_or((0, part.body.end..part.body.end), |(points, range)| (points, range));
                    let asked = proof.slice(&(part.body.start..mark.start)).trim_end_matches([' ', '*']);
                    (part.key.clone(), part.body.start..part.body.start + asked.len(), points)
                }));
            }
            for table in new.tables.iter().filter(|table| is_guide(proof.text, table)) {
                places.answers.extend(table.rows.iter().filter_map(|row| {
                    let (label, cells) = row.cells.split_first()?;
                    let label = proof.slice(label).trim_matches(['*', '(', ')', ' ']).to_owned();
                    Some((label, cells.to_vec()))
                }));
            }
        }
        places
    }

    fn manuscript(&self, proof: &Proof<'_>) -> Manuscript {
        let joined = |ranges: &[Range<usize>]| {
            ranges.iter().map(|range| plain(proof.slice(range))).collect::<Vec<_>>().join(" ")
        };
        let question = |(label, text, points): &(String, Range<usize>, u32)| Question {
            label: label.clone(),
            text: plain(proof.slice(text)),
            points: *points,
        };
        let answer = |(point, cells): &(String, Vec<Range<usize>>)| Answer {
            part: point.trim_end_matches(|c: char| c.is_ascii_digit()).to_owned(),
            point: point.clone(),
            statement: cells.first().map(|cell| plain(proof.slice(cell))).unwrap_or_default(),
            others: cells.iter().skip(1).flat_map(|cell| alternatives(proof.slice(cell))).collect(),
        };
        Manuscript {
            title: proof.slice(&self.title).trim_start_matches(['#', ' ']).to_owned(),
            purpose: joined(&self.purpose),
            how: vec![joined(&self.how)],
            questions: self.questions.iter().map(question).collect(),
            answers: self.answers.iter().map(answer).collect(),
            ..Manuscript::default()
        }
    }

    /// The place that a flaw names.
    fn range(&self, place: &str, proof: &Proof<'_>) -> Range<usize> {
        let all = |ranges: &[Range<usize>]| {
            let start = ranges.first().map_or(self.title.start, |range| range.start);
            start..ranges.last().map_or(start, |range| range.end)
        };
        let label = place.trim_matches(['(', ')']);
        let question = self.questions.iter().find(|(key, ..)| key == label).map(|(_, range, _)| {
            let text = proof.slice(range);
            range.start + (text.len() - text.trim_start().len())..range.end
        });
        let answer = place.strip_prefix("guide ").and_then(|point| {
            let (_, cells) = self.answers.iter().find(|(label, _)| label == point)?;
            Some(all(cells))
        });
        match place {
            "purpose" => all(&self.purpose),
            "how it works" => all(&self.how),
            _ => question.or(answer).unwrap_or_else(|| self.title.clone()),
        }
    }
}

/// The running text of a section, without its figures and what is set in italics as a whole.
fn running(proof: &Proof<'_>, section: &Section) -> Vec<Range<usize>> {
    let is_text = |range: &&Range<usize>| !proof.slice(range).starts_with(['!', '*']);
    section.prose.iter().filter(is_text).cloned().collect()
}

/// Lines as one.
fn plain(text: &str) -> String {
    text.trim().replace("\r\n", " ").replace('\n', " ")
}

/// The alternatives of a cell: what stands between semicolons, but for those in brackets.
fn alternatives(cell: &str) -> Vec<String> {
    let mut depth = 0_i32;
    let parts = cell.split(|letter: char| {
        depth += i32::from(matches!(letter, '(' | '“')) - i32::from(matches!(letter, ')' | '”'));
        letter == ';' && depth == 0
    });
    parts.map(plain).filter(|text| !text.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_semicolon_in_brackets_parts_nothing() {
        assert_eq!(alternatives("one; two (a; b); three"), ["one", "two (a; b)", "three"]);
    }
}
