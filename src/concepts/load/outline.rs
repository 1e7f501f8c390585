//! The outline of a concept file, line by line: which lines make up which item of which list.
//!
//! What for: to leave out one item with a fault and read on. It looks at indentation only, since it must work on texts
//! that no parser accepts.

use std::ops::Range;

use crate::diagnostic::{Diagnostic, code};

/// One item of a top-level list.
#[derive(Debug)]
struct Item {
    /// The list's key (`influences`).
    list: String,
    /// Bytes of the item's lines.
    range: Range<usize>,
    /// The value of its `id`, where it has one.
    id: Option<String>,
}

/// The items of a file, and the sections that they stand in.
#[derive(Debug, Default)]
pub(super) struct Outline {
    items: Vec<Item>,
    sections: Vec<Range<usize>>,
}

/// What to leave out so that the rest can be read.
#[derive(Debug)]
pub(super) struct Repair {
    /// Bytes to blank.
    pub(super) range: Range<usize>,
    /// List and id of the item that is lost by it.
    pub(super) broken: Option<(String, String)>,
}

/// A line with its place.
#[derive(Debug, Clone, Copy)]
struct Line<'a> {
    start: usize,
    end: usize,
    text: &'a str,
}

impl Line<'_> {
    fn indent(&self) -> usize {
        self.text.len() - self.text.trim_start_matches(' ').len()
    }

    fn is_blank(&self) -> bool {
        let text = self.text.trim();
        text.is_empty() || text.starts_with('#')
    }

    fn is_item(&self) -> bool {
        let text = self.text.trim_start_matches(' ');
        text == "-" || text.starts_with("- ")
    }

    fn is_section(&self) -> bool {
        !self.is_item() && !self.text.starts_with(char::is_whitespace)
    }
}

fn lines(text: &str) -> impl Iterator<Item = Line<'_>> {
    let mut start = 0;
    text.split_inclusive('\n').map(move |line| {
        let end = start + line.len();
        let here = Line { start, end, text: line.trim_end_matches(['\n', '\r']) };
        start = end;
        here
    })
}

impl Outline {
    /// Reads the outline of a text.
    pub(super) fn of(text: &str) -> Self {
        let mut outline = Self::default();
        let mut list = String::new();
        let mut dash = None;
        for line in lines(text) {
            if line.is_blank() {
                outline.extend(line.end, dash.is_some());
                continue;
            }
            if line.is_section() {
                line.text.split(':').next().unwrap_or_default().trim().clone_into(&mut list);
                dash = None;
                outline.sections.push(line.start..line.end);
                continue;
            }
            if line.is_item() && dash.is_none_or(|dash| line.indent() <= dash) {
                dash = Some(line.indent());
                outline.items.push(Item { list: list.clone(), range: line.start..line.end, id: None });
            }
            outline.extend(line.end, dash.is_some());
            if let (Some(item), Some(_)) = (outline.items.last_mut(), dash)
                && item.id.is_none()
            {
                item.id = id_of(line.text);
            }
        }
        outline
    }

    fn extend(&mut self, end: usize, in_item: bool) {
        if let Some(section) = self.sections.last_mut() {
            section.end = end;
        }
        if let (Some(item), true) = (self.items.last_mut(), in_item) {
            item.range.end = end;
        }
    }

    /// What to leave out because of this fault: the field, if that is all there is to it, else the item, else the
    /// section. Nothing, if that has been left out already or the fault is one of the whole text.
    pub(super) fn repair(&self, text: &str, fault: &Diagnostic) -> Option<Repair> {
        if [&code::YAML_TOO_BIG, &code::NESTED_TOO_DEEP, &code::SEVERAL_DOCUMENTS].contains(&fault.code) {
            return None;
        }
        let at = fault.primary.start.min(text.len().saturating_sub(1));
        if *fault.code == code::UNKNOWN_FIELD
            && let Some(range) = entry(text, at)
        {
            return Some(Repair { range, broken: None });
        }
        let holds = |range: &Range<usize>| range.contains(&at) && !is_blank(text, range);
        let section = self.sections.iter().find(|range| holds(range));
        let Some(item) = self.items.iter().find(|item| holds(&item.range)) else {
            return Some(Repair { range: section?.clone(), broken: None });
        };
        let broken = item.id.clone().map(|id| (item.list.clone(), id));
        let range = section.filter(|section| self.is_last(text, section, item)).unwrap_or(&item.range);
        Some(Repair { range: range.clone(), broken })
    }

    /// Whether no other item is left in the section.
    fn is_last(&self, text: &str, section: &Range<usize>, item: &Item) -> bool {
        let others = self.items.iter().filter(|other| section.contains(&other.range.start));
        others.filter(|other| other.range != item.range).all(|other| is_blank(text, &other.range))
    }

    /// Start of the item that holds this byte.
    pub(super) fn item_at(&self, at: usize) -> Option<usize> {
        self.items.iter().find(|item| item.range.contains(&at)).map(|item| item.range.start)
    }
}

/// The lines of the mapping entry whose key starts at this byte, where the key starts a line.
fn entry(text: &str, at: usize) -> Option<Range<usize>> {
    let mut lines = lines(text).skip_while(|line| line.end <= at);
    let first = lines.next()?;
    if first.start + first.indent() != at {
        return None;
    }
    let mut end = first.end;
    for line in lines {
        let belongs = line.indent() > first.indent() || (line.indent() == first.indent() && line.is_item());
        if line.is_blank() {
            continue;
        }
        if !belongs {
            break;
        }
        end = line.end;
    }
    Some(first.start..end)
}

/// What to say where a field that is missing from the mapping with this first key stands elsewhere in the same item, once,
/// at another depth.
pub(super) fn misplaced(text: &str, first_key: usize, field: &str) -> Option<String> {
    let all: Vec<Line<'_>> = lines(text).collect();
    let here = all.iter().position(|line| (line.start..line.end).contains(&first_key))?;
    let depth = first_key - all.get(here)?.start;
    let begins = all.get(..=here)?.iter().rposition(Line::is_section).map_or(0, |section| section + 1);
    let above = all.get(begins..=here)?;
    let dash = above.iter().filter(|line| line.is_item()).map(Line::indent).min()?;
    let is_dash = |line: &Line<'_>| line.is_item() && line.indent() == dash;
    let first = begins + above.iter().rposition(is_dash)?;
    let ends = |line: &&Line<'_>| !line.is_blank() && (line.is_section() || is_dash(line));
    let rest = all.get(first + 1..)?;
    let n = rest.iter().position(|line| ends(&line)).unwrap_or(rest.len());
    let found = all.iter().zip(1..).skip(first).take(n + 1).filter_map(|(line, number)| {
        let key = line.text.trim_start_matches([' ', '-']);
        let at = line.text.len() - key.len();
        (key.strip_prefix(field)?.starts_with(':') && at != depth).then_some((number, at))
    });
    let [(number, at)] = found.collect::<Vec<_>>().try_into().ok()?;
    let how = if at > depth { "deeper" } else { "less deep" };
    Some(format!("`{field}` stands in line {number}, {how} than the fields of this part: is it indented wrongly?"))
}

/// The id that a line gives, with or without the dash of its item.
fn id_of(line: &str) -> Option<String> {
    let line = line.trim_start().trim_start_matches("- ").trim_start().trim_start_matches('{').trim_start();
    let value = line.strip_prefix("id:")?.split([',', '}', '#']).next()?;
    let value = value.trim().trim_matches(['"', '\'']);
    (!value.is_empty()).then(|| value.to_owned())
}

fn is_blank(text: &str, range: &Range<usize>) -> bool {
    text.get(range.clone()).is_none_or(|part| part.trim().is_empty())
}

/// Puts a space in place of each byte, line breaks kept.
pub(super) fn blank(text: &mut String, range: &Range<usize>) {
    let part: String = text
        .get(range.clone())
        .unwrap_or_default()
        .bytes()
        .map(|byte| if byte == b'\n' { '\n' } else { ' ' })
        .collect();
    if !part.is_empty() {
        text.replace_range(range.clone(), &part);
    }
}

#[cfg(test)]
#[expect(clippy::string_slice, reason = "the texts are ASCII")]
mod tests {
    use super::*;

    #[test]
    fn items_end_where_the_next_begins() {
        let text = "field: { id: a, name: A }\nacts:\n  - id: one\n    text:\n      - x\n\n  - { id: two }\nrigs:\n- id: three\n";
        let outline = Outline::of(text);
        let items: Vec<(&str, Option<&str>, &str)> = outline
            .items
            .iter()
            .map(|item| (item.list.as_str(), item.id.as_deref(), &text[item.range.clone()]))
            .collect();
        assert_eq!(
            items,
            [
                ("acts", Some("one"), "  - id: one\n    text:\n      - x\n\n"),
                ("acts", Some("two"), "  - { id: two }\n"),
                ("rigs", Some("three"), "- id: three\n"),
            ]
        );
    }

    #[test]
    fn a_field_at_another_depth_of_its_item_is_found() {
        let text = "acts:\n  - id: one\n    law:\n      name: x\n      sign: y\n  - id: two\n    sign: z\n";
        let said = "`sign` stands in line 5, deeper than the fields of this part: is it indented wrongly?";
        assert_eq!(misplaced(text, text.find("id: one").unwrap(), "sign").as_deref(), Some(said));
        assert_eq!(misplaced(text, text.find("id: two").unwrap(), "sign"), None);
        assert_eq!(misplaced(text, text.find("id: two").unwrap(), "name"), None);
        let said = "`id` stands in line 2, less deep than the fields of this part: is it indented wrongly?";
        assert_eq!(misplaced(text, text.find("name").unwrap(), "id").as_deref(), Some(said));
    }

    #[test]
    fn an_entry_is_its_line_and_what_is_indented_below() {
        let text = "acts:\n  - id: one\n    wrong:\n      - x\n    right: 1\n";
        let at = text.find("wrong").unwrap();
        assert_eq!(&text[entry(text, at).unwrap()], "    wrong:\n      - x\n");
        assert_eq!(entry(text, text.find("id").unwrap()), None);
    }
}
