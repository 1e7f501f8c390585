//! A teacher's edits of the guide and of the steps, read back from the file.

use crate::render::document::{Document, Kind, Section};
use crate::render::table;
use crate::scenario::ScaffoldStep;

/// What a row of the guide says: what earns, what else does, what does not. `None` where the file has no such row.
pub(super) fn point(document: &Document, id: &str) -> Option<(String, Vec<String>, Vec<String>)> {
    let (_, table) = document.section(Kind::Guide).and_then(table::first)?;
    let row = table.texts().into_iter().find(|row| row.first().is_some_and(|cell| cell == id))?;
    let cell = |at: usize| row.get(at).cloned().unwrap_or_default();
    let list = |at| Some(cell(at)).filter(|text| !text.is_empty()).into_iter().collect();
    Some((cell(1), list(2), list(3)))
}

/// The steps with the words of the file, where it has all of them.
pub(super) fn steps(document: &Document, made: &[ScaffoldStep]) -> Vec<ScaffoldStep> {
    let asked = document.section(Kind::Scaffold).map(items).unwrap_or_default();
    let answered = document.section(Kind::Answers).map(items).unwrap_or_default();
    let edited = made.iter().enumerate().map(|(at, step)| {
        let asked = asked.get(at)?;
        let answered = answered.get(at)?;
        let (before_step, sentence) = asked.split_once("*Step.*")?;
        let (recall, role) = before_step.split_once("*Here.*")?;
        let (answer, rest) = answered.split_once("*Here:*")?;
        let role_answer = rest.split_once("*Step:*").map_or(rest, |(role, _)| role);
        let recall = recall.trim().strip_prefix("*Recall.*");
        Some(ScaffoldStep {
            recall: recall.map_or_else(|| step.recall.clone(), plain),
            answer: if step.told { String::new() } else { plain(answer) },
            role: plain(role),
            role_answer: plain(role_answer),
            step: sentence.split_once("**").map_or_else(|| plain(sentence), |(before, _)| plain(before)),
            ..step.clone()
        })
    });
    // All or none: a step more or less would put the words of one step beside the direction of another.
    let edited: Option<Vec<ScaffoldStep>> = edited.collect();
    edited.unwrap_or_else(|| made.to_vec())
}

/// The items of a numbered list, as written.
fn items(section: &Section) -> Vec<String> {
    let mut items: Vec<String> = Vec::new();
    for line in section.text.lines() {
        let number = line.split_once(". ").filter(|(number, _)| number.parse::<u32>().is_ok());
        match (number, items.last_mut()) {
            (Some((_, rest)), _) => items.push(rest.to_owned()),
            (None, Some(item)) => {
                item.push(' ');
                item.push_str(line.trim());
            }
            (None, None) => {}
        }
    }
    items
}

/// Words without the marks of Markdown.
fn plain(text: &str) -> String {
    text.replace(['*', '`', '\\'], "").trim().to_owned()
}
