//! Tables of a Markdown text: their cells as words and as HTML, and the data table read off them.

use pulldown_cmark::{Alignment, Event, Parser, Tag, TagEnd, html};

use super::body::safe;
use super::document::{Document, Kind, Section, options};

/// Cells of one table that are kept; the rest of a longer one is left out.
const MOST_CELLS: usize = 4000;

/// A table.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Table {
    /// The header.
    pub head: Vec<Cell>,
    /// The rows below.
    pub rows: Vec<Vec<Cell>>,
    /// `left`, `right`, `centre` for each column, as a class name.
    pub(super) aligned: Vec<&'static str>,
    /// Whether rows were left out.
    pub(super) is_cut: bool,
}

/// A cell.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Cell {
    /// Its words without marks.
    pub text: String,
    /// The same as safe HTML.
    pub(super) html: String,
}

impl Table {
    /// The header's words.
    pub fn headers(&self) -> Vec<String> {
        self.head.iter().map(|cell| cell.text.trim().to_owned()).collect()
    }

    /// The words of the rows.
    pub fn texts(&self) -> Vec<Vec<String>> {
        self.rows.iter().map(|row| row.iter().map(|cell| cell.text.trim().to_owned()).collect()).collect()
    }
}

/// The first table of a section, and the line of the file on which it begins.
pub fn first(section: &Section) -> Option<(usize, Table)> {
    let mut parsed = Parser::new_ext(&section.text, options()).into_offset_iter();
    let (_, range) = parsed.find(|(event, _)| matches!(event, Event::Start(Tag::Table(_))))?;
    let above = section.text.get(..range.start).unwrap_or_default().matches('\n').count();
    let events = safe(Parser::new_ext(&section.text, options()));
    let at = events.iter().position(|event| matches!(event, Event::Start(Tag::Table(_))))?;
    Some((section.text_line + above, collect(events.get(at..)?).1))
}

/// The data table of a file: the first in the section of data, or else the first that has the shape of one.
pub fn of_data(document: &Document) -> Option<(usize, Table)> {
    let in_data = document.section(Kind::Data).and_then(first);
    in_data.or_else(|| {
        let others = document.sections.iter().filter(|section| !section.kind.is_for_teachers());
        others.filter_map(first).find(|(_, table)| table.headers().iter().any(|header| header.contains('±')))
    })
}

/// The table that begins here, and how many events it takes.
pub(super) fn collect(events: &[Event<'_>]) -> (usize, Table) {
    let mut table = Table::default();
    let mut row: Vec<Cell> = Vec::new();
    let mut cell: Vec<Event<'_>> = Vec::new();
    let mut n_cells = 0;
    let mut length = 0;
    for event in events {
        length += 1;
        match event {
            Event::Start(Tag::Table(alignments)) => table.aligned = alignments.iter().copied().map(class).collect(),
            Event::Start(Tag::TableHead | Tag::TableRow) => row.clear(),
            Event::Start(Tag::TableCell) => cell.clear(),
            Event::End(TagEnd::TableCell) => {
                n_cells += 1;
                if n_cells <= MOST_CELLS {
                    row.push(finished(&mut cell));
                }
            }
            Event::End(TagEnd::TableHead) => table.head = std::mem::take(&mut row),
            Event::End(TagEnd::TableRow) if n_cells <= MOST_CELLS => table.rows.push(std::mem::take(&mut row)),
            Event::End(TagEnd::TableRow) => table.is_cut = true,
            Event::End(TagEnd::Table) => break,
            other => cell.push(other.clone()),
        }
    }
    (length, table)
}

fn class(alignment: Alignment) -> &'static str {
    match alignment {
        Alignment::Right => "right",
        Alignment::Center => "centre",
        Alignment::Left | Alignment::None => "left",
    }
}

fn finished(events: &mut Vec<Event<'_>>) -> Cell {
    let mut cell = Cell::default();
    for event in events.iter() {
        match event {
            Event::Text(words) | Event::Code(words) | Event::InlineHtml(words) => cell.text.push_str(words),
            Event::SoftBreak | Event::HardBreak => cell.text.push(' '),
            _ => {}
        }
    }
    html::push_html(&mut cell.html, events.drain(..));
    cell
}
