//! Edits of a text by position alone: nothing here knows how facts are read.

use std::ops::Range;

use toehold::seed::Stream;

/// Where a line stands in a scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place {
    Front,
    Heading,
    Subtitle,
    Prose,
    Figure,
    DataHeader,
    DataRow,
    Question,
    Scaffold,
    Answer,
    GuideRow,
    Sample,
    After,
    Map,
    Other,
}

/// A line with its number and place.
#[derive(Debug, Clone)]
pub(super) struct Line<'a> {
    pub(super) number: usize,
    pub(super) range: Range<usize>,
    pub(super) text: &'a str,
    pub(super) place: Place,
}

/// The lines of a scenario.
pub(super) fn lines(text: &str) -> Vec<Line<'_>> {
    let mut out = Vec::new();
    let (mut at, mut fences, mut section) = (0, 0, String::new());
    let mut seen_title = false;
    for (n, whole) in text.split('\n').enumerate() {
        let line = whole.trim_end_matches('\r');
        if line == "---" {
            fences += 1;
        }
        let place = if fences < 2 || line == "---" {
            Place::Front
        } else if line.starts_with('#') {
            line.trim_start_matches('#').trim().clone_into(&mut section);
            seen_title = seen_title || line.starts_with("# ");
            if line.starts_with("# ") {
                section = "opening".to_owned();
            }
            Place::Heading
        } else {
            within(&section, line)
        };
        out.push(Line { number: n + 1, range: at..at + line.len(), text: line, place });
        at += whole.len() + 1;
    }
    out
}

fn within(section: &str, line: &str) -> Place {
    let row = line.starts_with('|');
    let rule = row && line.chars().all(|c| "|-: ".contains(c));
    match section {
        _ if line.trim().is_empty() || rule || line.starts_with("![") => Place::Other,
        "opening" if line.contains("points.") && line.starts_with('*') => Place::Subtitle,
        "opening" | "How it works" => Place::Prose,
        "Data" if line.contains("error bars") => Place::Figure,
        "Data" if row && line.contains("SEM") => Place::DataHeader,
        "Data" if row => Place::DataRow,

        "Questions" => Place::Question,
        "What do you already know?" => Place::Scaffold,
        "Answers to the steps" => Place::Answer,
        "Scoring guide" if row && !line.starts_with("| point") => Place::GuideRow,
        "After it" => Place::After,
        "Map" => Place::Map,
        other if other.contains(" of ") => Place::Sample,
        _ => Place::Other,
    }
}

/// The text with these bytes replaced.
pub(super) fn replaced(text: &str, range: Range<usize>, with: &str) -> String {
    format!("{}{with}{}", &text[..range.start], &text[range.end..])
}

/// All places of a word within a line, as bytes of the text; a word ends where letters and digits do.
pub(super) fn words(line: &Line<'_>, word: &str) -> Vec<Range<usize>> {
    let is_inner = |c: char| c.is_alphanumeric() || c == '-';
    line.text
        .match_indices(word)
        .filter(|(at, _)| {
            let before = line.text[..*at].chars().next_back();
            let after = line.text[at + word.len()..].chars().next();
            !before.is_some_and(is_inner) && !after.is_some_and(is_inner)
        })
        .map(|(at, _)| line.range.start + at..line.range.start + at + word.len())
        .collect()
}

/// Plain numbers of a line: digits with at most one point, not part of a word, of a label or of points.
pub(super) fn numbers(line: &Line<'_>) -> Vec<Range<usize>> {
    let bytes = line.text.as_bytes();
    let mut out = Vec::new();
    let mut at = 0;
    // The number of a step and the label of a point are no numbers of the scenario.
    if line.place == Place::GuideRow {
        at = line.text[1..].find('|').unwrap() + 2;
    } else if let Some((digits, _)) = line.text.split_once(". ")
        && digits.bytes().all(|byte| byte.is_ascii_digit())
    {
        at = digits.len() + 1;
    }
    while at < bytes.len() {
        if !bytes[at].is_ascii_digit() {
            at += 1;
            continue;
        }
        let start = at;
        while at < bytes.len()
            && (bytes[at].is_ascii_digit() || (bytes[at] == b'.' && bytes.get(at + 1).is_some_and(u8::is_ascii_digit)))
        {
            at += 1;
        }
        let before = line.text[..start].chars().next_back();
        let after = line.text[at..].chars().next();
        let in_word = before.is_some_and(|c| c.is_alphanumeric() || c == '_')
            || after.is_some_and(|c| c.is_alphanumeric() && !c.is_numeric())
            || before.is_some_and(|c| "⁰¹²³⁴⁵⁶⁷⁸⁹⁻".contains(c));
        let points = line.text[..start].ends_with("*(") && line.text[at..].starts_with(")*");
        let total = line.text[at..].starts_with(" points");
        if !in_word && !points && !total {
            out.push(line.range.start + start..line.range.start + at);
        }
    }
    out
}

/// One of a list.
pub(super) fn pick<'a, T>(stream: &mut Stream, list: &'a [T]) -> Option<&'a T> {
    stream.pick(list)
}
