//! The outline of a scenario's Markdown: sections, and in them questions, numbered steps, tables and prose.
//!
//! It goes by structure (headings, `(a)`, `1.`, `|`), not by words, so that titles and texts may be edited.

use std::ops::Range;

/// A whole page below its front matter.
#[derive(Debug, Default)]
pub(super) struct Page {
    pub(super) sections: Vec<Section>,
}

/// What stands under one heading.
#[derive(Debug, Default)]
pub(super) struct Section {
    /// As written.
    pub(super) title: String,
    /// What it is matched by: letters and digits of the title; the first heading is just that.
    pub(super) key: String,
    /// The heading's line.
    pub(super) heading: Range<usize>,
    /// Everything that is none of the rest, paragraph by paragraph.
    pub(super) prose: Vec<Range<usize>>,
    /// Questions, from `(a)` to the next.
    pub(super) parts: Vec<Entry>,
    /// Numbered steps.
    pub(super) items: Vec<Entry>,
    pub(super) tables: Vec<Table>,
}

/// A question or a numbered step.
#[derive(Debug)]
pub(super) struct Entry {
    /// `a` or `1`.
    pub(super) key: String,
    /// `(a)` or `1.`.
    pub(super) label: Range<usize>,
    /// All after the label.
    pub(super) body: Range<usize>,
}

/// A table without the line that sets its columns apart.
#[derive(Debug)]
pub(super) struct Table {
    pub(super) header: Row,
    pub(super) rows: Vec<Row>,
}

/// A line of a table.
#[derive(Debug)]
pub(super) struct Row {
    pub(super) line: Range<usize>,
    /// Without the space around their texts.
    pub(super) cells: Vec<Range<usize>>,
}

/// What the next plain line belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Open {
    Prose,
    Part,
    Item,
    Table,
}

/// A line with its place and without its break.
#[derive(Debug, Clone, Copy)]
struct Line<'a> {
    start: usize,
    text: &'a str,
    after_blank: bool,
}

impl Line<'_> {
    fn range(&self) -> Range<usize> {
        self.start..self.start + self.text.len()
    }
}

impl Page {
    /// Reads the page that begins at this byte of a text.
    pub(super) fn read(text: &str, start: usize) -> Self {
        let mut reader = Reader { page: Self { sections: vec![Section::default()] }, open: Open::Prose };
        let mut at = start;
        let mut after_blank = true;
        for whole in text.get(start..).unwrap_or_default().split_inclusive('\n') {
            let line = Line { start: at, text: whole.trim_end(), after_blank };
            at += whole.len();
            after_blank = line.text.trim().is_empty();
            if after_blank {
                reader.blank();
            } else {
                reader.line(line);
            }
        }
        let mut page = reader.page;
        // What stands before the first heading is a section only if there is something.
        let first_is_empty = page.sections.first().is_some_and(|first| {
            first.prose.is_empty() && first.parts.is_empty() && first.items.is_empty() && first.tables.is_empty()
        });
        if first_is_empty && page.sections.len() > 1 {
            page.sections.remove(0);
        }
        page
    }
}

struct Reader {
    page: Page,
    open: Open,
}

impl Reader {
    fn section(&mut self) -> Option<&mut Section> {
        self.page.sections.last_mut()
    }

    fn blank(&mut self) {
        if self.open == Open::Table {
            self.open = Open::Prose;
        }
    }

    fn line(&mut self, line: Line<'_>) {
        if self.heading(line) || self.row(line) || self.part(line) || self.item(line) {
            return;
        }
        let open = self.open;
        let range = line.range();
        let Some(section) = self.section() else { return };
        let entry = match open {
            Open::Part => section.parts.last_mut(),
            Open::Item => section.items.last_mut(),
            Open::Prose | Open::Table => None,
        };
        match (entry, section.prose.last_mut()) {
            (Some(entry), _) => entry.body.end = range.end,
            (None, Some(last)) if !line.after_blank && open == Open::Prose => last.end = range.end,
            (None, _) => section.prose.push(range),
        }
        if open == Open::Table {
            self.open = Open::Prose;
        }
    }

    fn heading(&mut self, line: Line<'_>) -> bool {
        let hashes = line.text.len() - line.text.trim_start_matches('#').len();
        let title = line.text.get(hashes..).unwrap_or_default();
        if !(1..=6).contains(&hashes) || !title.starts_with([' ', '\t']) {
            return false;
        }
        let title = title.trim().trim_end_matches('#').trim_end().to_owned();
        let key = if hashes == 1 {
            "#".to_owned()
        } else {
            title.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
        };
        self.page.sections.push(Section { title, key, heading: line.range(), ..Section::default() });
        self.open = Open::Prose;
        true
    }

    fn row(&mut self, line: Line<'_>) -> bool {
        let text = line.text.trim_start();
        if !text.starts_with('|') {
            return false;
        }
        let row = Row { line: line.range(), cells: cells(line) };
        let rules = text.chars().all(|c| "|-: \t".contains(c)) && text.contains('-');
        let continues = self.open == Open::Table;
        self.open = Open::Table;
        let Some(section) = self.section() else { return true };
        match section.tables.last_mut() {
            Some(_) if continues && rules => {}
            Some(table) if continues => table.rows.push(row),
            _ => section.tables.push(Table { header: row, rows: Vec::new() }),
        }
        true
    }

    fn part(&mut self, line: Line<'_>) -> bool {
        let indent = line.text.len() - line.text.trim_start_matches([' ', '*']).len();
        let text = line.text.get(indent..).unwrap_or_default();
        let Some((letter, rest)) = text.strip_prefix('(').and_then(|text| {
            let letter = text.chars().next().filter(char::is_ascii_lowercase)?;
            Some((letter, text.get(1..)?.strip_prefix(')')?))
        }) else {
            return false;
        };
        // A line of a question that was wrapped may begin with a symbol in brackets.
        let before = self.page.sections.last().and_then(|section| section.parts.last()).map(|part| part.key.clone());
        let next =
            before.and_then(|key| key.chars().next()).is_some_and(|last| u32::from(last) + 1 == u32::from(letter));
        if !(rest.is_empty() || rest.starts_with([' ', '*'])) || !(line.after_blank || (next && rest.contains("**"))) {
            return false;
        }
        let start = line.start + indent;
        self.open = Open::Part;
        let entry = Entry { key: letter.to_string(), label: start..start + 3, body: start + 3..line.range().end };
        if let Some(section) = self.section() {
            section.parts.push(entry);
        }
        true
    }

    fn item(&mut self, line: Line<'_>) -> bool {
        let text = line.text.trim_start();
        let indent = line.text.len() - text.len();
        let digits = text.len() - text.trim_start_matches(|c: char| c.is_ascii_digit()).len();
        let rest = text.get(digits..).unwrap_or_default();
        let key = text.get(..digits).unwrap_or_default().to_owned();
        let open = self.page.sections.last().is_some_and(|section| !section.items.is_empty());
        let starts = key == "1" || open || line.after_blank;
        if !(1..=3).contains(&digits) || indent > 2 || !starts || !(rest.starts_with(". ") || rest.starts_with(") ")) {
            return false;
        }
        let start = line.start + indent;
        self.open = Open::Item;
        let entry = Entry { key, label: start..start + digits + 1, body: start + digits + 1..line.range().end };
        if let Some(section) = self.section() {
            section.items.push(entry);
        }
        true
    }
}

/// The cells of a row; `\|` does not end one.
fn cells(line: Line<'_>) -> Vec<Range<usize>> {
    let mut cells = Vec::new();
    let mut start = None;
    let mut escaped = false;
    for (at, letter) in line.text.char_indices() {
        if letter == '|' && !escaped {
            if let Some(start) = start {
                cells.push(trimmed(line, start..at));
            }
            start = Some(at + 1);
        }
        escaped = letter == '\\' && !escaped;
    }
    // A row whose last bar is missing.
    if let Some(start) = start.filter(|start| *start < line.text.len()) {
        cells.push(trimmed(line, start..line.text.len()));
    }
    cells
}

fn trimmed(line: Line<'_>, range: Range<usize>) -> Range<usize> {
    let text = line.text.get(range.clone()).unwrap_or_default();
    let start = range.start + text.len() - text.trim_start().len();
    line.start + start..line.start + start + text.trim().len()
}

#[cfg(test)]
#[expect(clippy::string_slice, reason = "ranges come from the same text")]
mod tests {
    use super::*;

    const TEXT: &str = "# Title\n\nOne.\nStill one.\n\nTwo.\n## Data\n| a | b \\| c |\n| -: | --- |\n| 1 | 2 |\r\n| 3 | 4\n\n\
                        After.\n## Questions\n\n(a) **Describe** x\n(c) is 2. *(1)*\n\nMore.\n\n(b) Explain. *(2)*\n\
                        ## Steps\n\n1. One\n   *Step.* up\n2. Two\n";

    #[test]
    fn a_page_is_read_by_its_structure() {
        let page = Page::read(TEXT, 0);
        let titles: Vec<(&str, &str)> =
            page.sections.iter().map(|section| (section.key.as_str(), section.title.as_str())).collect();
        assert_eq!(titles, [("#", "Title"), ("data", "Data"), ("questions", "Questions"), ("steps", "Steps")]);
        let prose: Vec<&str> = page.sections[0].prose.iter().map(|range| &TEXT[range.clone()]).collect();
        assert_eq!(prose, ["One.\nStill one.", "Two."]);
        let table = &page.sections[1].tables[0];
        let cells = |row: &Row| row.cells.iter().map(|range| TEXT[range.clone()].to_owned()).collect::<Vec<_>>();
        assert_eq!(cells(&table.header), ["a", "b \\| c"]);
        assert_eq!(table.rows.iter().map(cells).collect::<Vec<_>>(), [["1", "2"], ["3", "4"]]);
        let parts = &page.sections[2].parts;
        assert_eq!(&TEXT[parts[0].body.clone()], " **Describe** x\n(c) is 2. *(1)*\n\nMore.");
        assert_eq!(parts.iter().map(|part| part.key.as_str()).collect::<String>(), "ab");
        let items = &page.sections[3].items;
        assert_eq!(&TEXT[items[0].body.clone()], " One\n   *Step.* up");
        assert_eq!(items.len(), 2);
    }
}
