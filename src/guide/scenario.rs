//! The scoring guide of a scenario, as its file stands, a teacher's edits and all.

use super::{GuideError, reasons};
use crate::quantity::in_words;
use crate::render::Document;
use crate::render::document::{Kind, Section};
use crate::review::{Ends, Guide, Point, PointKind, Question};
use crate::scenario::{Scenario, phrase};

/// Reads the questions and the scoring guide of a scenario file.
///
/// # Errors
/// A file that is no scenario, or without questions or guide, with its place.
pub fn scenario(text: &str) -> Result<Guide, GuideError> {
    let document = Document::read(text).map_err(|error| GuideError {
        line: error.line,
        column: error.column,
        message: error.message.clone(),
        hint: error.hint.to_owned(),
    })?;
    of_document(&document)
}

/// The same of a file that has been taken apart.
///
/// # Errors
/// No questions, no guide, or a point of a part that is not asked.
pub fn of_document(document: &Document) -> Result<Guide, GuideError> {
    let missing = |what: &str| {
        let message = format!("the scenario has no {what}");
        GuideError::new(1, message, "put back the section that `toehold generate` wrote")
    };
    let asked = document.section(Kind::Questions).ok_or_else(|| missing("section “Questions”"))?;
    let guide = document.section(Kind::Guide).ok_or_else(|| missing("section “Scoring guide”"))?;
    let mut questions = questions(asked);
    if questions.is_empty() {
        return Err(GuideError::new(asked.line, "the section holds no question", "a question begins with `(a)`"));
    }
    let mut n = 0;
    for (line, cells) in rows(guide) {
        let mut cells = cells.into_iter();
        let id = cells.next().unwrap_or_default();
        let label: String = id.chars().take_while(char::is_ascii_lowercase).collect();
        let Some(question) = questions.iter_mut().find(|question| question.id == label) else {
            let message = format!("the guide has a point `{id}`, and no question `{label}` is asked");
            return Err(GuideError::new(line, message, "a point is named after its part: `a`, `b1`, `b2`"));
        };
        let statement = cells.next().unwrap_or_default();
        let accept = alternatives(&cells.next().unwrap_or_default());
        let reject = alternatives(&cells.next().unwrap_or_default());
        question.points.push(Point { id, statement, accept, reject, ..Point::default() });
        n += 1;
    }
    questions.iter_mut().for_each(tell_kinds);
    if n == 0 {
        let hint = "it is a table: point, earns, also accept, does not earn";
        return Err(GuideError::new(guide.line, "the scoring guide has no point", hint));
    }
    Ok(Guide { questions, ends: ends(document) })
}

/// The guide of a scenario that has not been written to a file.
pub fn of_scenario(scenario: &Scenario) -> Guide {
    let questions = scenario.parts.iter().map(|part| {
        let points = scenario.guide.iter().filter(|point| point.part == part.label);
        let mut question = Question {
            id: part.label.clone(),
            text: part.text.clone(),
            command_term: part.command_term.clone(),
            count: count(&part.text, &part.command_term),
            points: points
                .map(|point| Point {
                    id: point.point.clone(),
                    statement: point.statement.clone(),
                    accept: point.accept.clone(),
                    reject: point.reject.clone(),
                    ..Point::default()
                })
                .collect(),
        };
        tell_kinds(&mut question);
        question
    });
    let unit = scenario.data.columns.first().map(|column| column.unit.clone()).unwrap_or_default();
    let ends = match scenario.data.rows.as_slice() {
        [first, .., last] => Some(Ends { first: first.0, last: last.0, unit }),
        _ => None,
    };
    Guide { questions: questions.collect(), ends }
}

/// The ends of the treatment, from the table of the data.
fn ends(document: &Document) -> Option<Ends> {
    let data = document.section(Kind::Data)?;
    let head = data.text.lines().find(|line| line.trim_start().starts_with('|')).map(cells)?;
    let unit = head.first()?.rsplit_once('(').map_or("", |(_, rest)| rest.trim_end_matches(')'));
    let rows = rows(data);
    let level = |row: &(usize, Vec<String>)| row.1.first()?.replace('−', "-").parse().ok();
    Some(Ends { first: level(rows.first()?)?, last: level(rows.last()?)?, unit: unit.to_owned() })
}

/// What each point asks for: a question on a changed experiment has a point for what happens and one for why.
fn tell_kinds(question: &mut Question) {
    // Where two effects oppose each other the outcome is told, and both are to be explained.
    let is_told = question.command_term == "explain" && question.text.contains(phrase::TOLD);
    let predicts = question.command_term == "predict and justify";
    let stays = question.points.first().is_some_and(|point| point.statement.contains(phrase::STAYS));
    for (place, point) in question.points.iter_mut().enumerate() {
        point.kind = match place {
            _ if point.statement.trim_start().starts_with(phrase::LINK) => PointKind::Link,
            0 if is_told => PointKind::SecondEffect,
            1 if is_told => PointKind::Balance,
            1 if predicts && stays => PointKind::Reason,
            1 if predicts => PointKind::Reversal,
            _ => PointKind::Statement,
        };
        if point.kind.is_reason() {
            let sayings = reasons::of(&point.statement);
            point.accept.extend(sayings);
        }
    }
}

/// The questions of a section: each begins with its label in brackets.
fn questions(section: &Section) -> Vec<Question> {
    let mut found: Vec<Question> = Vec::new();
    for line in section.text.lines() {
        let label = line.trim_start_matches([' ', '*']).strip_prefix('(').and_then(|rest| {
            let letter = rest.chars().next().filter(char::is_ascii_lowercase)?;
            Some((letter, rest.get(1..)?.strip_prefix(')')?.trim()))
        });
        match (label, found.last_mut()) {
            (Some((letter, rest)), _) => {
                found.push(Question { id: letter.to_string(), text: rest.to_owned(), ..Question::default() });
            }
            (None, Some(last)) if !line.trim().is_empty() => {
                last.text.push(' ');
                last.text.push_str(line.trim());
            }
            _ => {}
        }
    }
    for question in &mut found {
        // The number of points stands at the end, in italics.
        if let Some(at) = question.text.rfind("*(") {
            question.text.truncate(at);
        }
        question.text = question.text.trim().to_owned();
        question.command_term = question.text.split("**").nth(1).map(str::to_lowercase).unwrap_or_default();
        question.count = count(&question.text, &question.command_term);
    }
    found
}

/// How many things a question asks for: a number in words behind its command term; one where it says "identify the".
fn count(text: &str, command_term: &str) -> Option<usize> {
    let behind = text.rsplit("**").next().unwrap_or_default();
    let words: Vec<&str> = behind.split_whitespace().take(2).collect();
    let number = |word: &&str| in_words::value(word).and_then(|number| usize::try_from(number).ok());
    words.first().and_then(number).or_else(|| (command_term == "identify").then_some(1))
}

/// The cells of the rows of a section's first table, header and rule left out, each with its line in the file.
fn rows(section: &Section) -> Vec<(usize, Vec<String>)> {
    let lines = section.text.lines().zip(section.text_line..);
    let rows = lines.filter(|(line, _)| line.trim_start().starts_with('|'));
    rows.skip(2).map(|(line, number)| (number, cells(line))).collect()
}

/// The cells of a row; `\|` is a bar.
fn cells(line: &str) -> Vec<String> {
    let hidden = line.trim().replace("\\|", "\u{1}");
    let inner = hidden.trim_start_matches('|').trim_end_matches('|');
    inner.split('|').map(|cell| plain(&cell.replace('\u{1}', "|"))).collect()
}

/// Words without Markdown's marks.
fn plain(cell: &str) -> String {
    cell.replace("**", "").replace(['*', '`'], "").replace("\\_", "_").trim().to_owned()
}

/// The alternatives of a cell, between semicolons outside brackets and quotation marks.
fn alternatives(cell: &str) -> Vec<String> {
    let mut found = vec![String::new()];
    let mut depth = 0_i32;
    for letter in cell.chars() {
        depth += i32::from(matches!(letter, '(' | '“')) - i32::from(matches!(letter, ')' | '”'));
        match found.last_mut() {
            _ if letter == ';' && depth <= 0 => found.push(String::new()),
            Some(last) => last.push(letter),
            None => {}
        }
    }
    found.into_iter().map(|text| text.trim().to_owned()).filter(|text| !text.is_empty()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn alternatives_end_at_semicolons_outside_brackets() {
        assert_eq!(alternatives("a; b (c; d); “e; f”"), ["a", "b (c; d)", "“e; f”"]);
        assert_eq!(alternatives(""), Vec::<String>::new());
    }

    #[test]
    fn counts_what_is_asked_for() {
        for (text, term, expected) in [
            ("**Identify** the dependent variable.", "identify", Some(1)),
            ("**Propose** one further control.", "propose", Some(1)),
            ("**Describe** two limitations.", "describe", Some(2)),
            ("**Describe** how it works.", "describe", None),
        ] {
            assert_eq!(count(text, term), expected, "{text}");
        }
    }
}
