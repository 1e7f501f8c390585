//! A scenario file as it stands, a teacher's edits and all: front matter, title, and sections by heading.
//!
//! Comes in: the text of a file. Goes out: a [`Document`] whose parts know their lines. **Must not know**: whether what
//! it says is right.

use pulldown_cmark::{Event, HeadingLevel, Options, Parser, Tag, TagEnd};
use thiserror::Error;

use crate::scenario::Front;
use crate::source::{FrontMatter, NoFrontMatter, front_matter};

/// A scenario file, taken apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// The front matter.
    pub front: Front,
    /// The first heading; the front matter's title where there is none.
    pub title: String,
    /// What stands before the first section, and every section, in the order of the file.
    pub sections: Vec<Section>,
}

/// A stretch of the file under one heading of the second or third level.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Section {
    /// What it is for, by its heading.
    pub kind: Kind,
    /// The heading as written, without marks; empty for what stands before the first.
    pub heading: String,
    /// 2 or 3; 1 for what stands before the first.
    pub level: u8,
    /// Line of the heading in the file, counted from 1.
    pub line: usize,
    /// Markdown below the heading.
    pub text: String,
    /// Line of the file on which that begins.
    pub text_line: usize,
}

/// What a section is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Before the first heading: form, points, purpose.
    Lead,
    /// The apparatus and the procedure.
    How,
    /// Figure and table.
    Data,
    /// The parts.
    Questions,
    /// What do you already know.
    Scaffold,
    /// Hazards.
    Cautions,
    /// Answers to the steps of the scaffold.
    Answers,
    /// The scoring guide.
    Guide,
    /// What is exercised.
    Map,
    /// A section of the teacher's own.
    Other,
}

impl Kind {
    /// What a heading announces. Looser words are known too, so that a student's copy holds no answers when a teacher
    /// has called a section something else.
    fn of(heading: &str) -> Self {
        let heading = heading.to_lowercase();
        let has = |words: &[&str]| words.iter().any(|word| heading.contains(word));
        match heading.as_str() {
            "how it works" => Self::How,
            "data" => Self::Data,
            "questions" => Self::Questions,
            "cautions" => Self::Cautions,
            "map" => Self::Map,
            _ if has(&["answer", "solution", "key"]) => Self::Answers,
            _ if has(&["guide", "scoring", "marking", "mark scheme", "rubric"]) => Self::Guide,
            _ if has(&["teacher", "debrief", "exercises"]) => Self::Map,
            _ if has(&["already know"]) => Self::Scaffold,
            _ => Self::Other,
        }
    }

    /// Whether it holds what a student is to find out.
    pub fn is_for_teachers(self) -> bool {
        matches!(self, Self::Answers | Self::Guide | Self::Map)
    }
}

/// Why a text is no scenario file.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{message}")]
pub struct DocumentError {
    /// Counted from 1.
    pub line: usize,
    /// In characters, counted from 1.
    pub column: usize,
    /// Lower-case fragment.
    pub message: String,
    /// What to do about it.
    pub hint: &'static str,
}

/// How Markdown is read: tables, and nothing else beyond the standard.
pub(super) fn options() -> Options {
    Options::ENABLE_TABLES
}

impl Document {
    /// Takes a file apart.
    ///
    /// # Errors
    /// A file without front matter, or front matter that cannot be read, with its place.
    pub fn read(text: &str) -> Result<Self, DocumentError> {
        let found = found(text)?;
        let yaml = text.get(found.yaml.clone()).unwrap_or_default();
        let front = read_front(yaml, line_at(text, found.yaml.start))?;
        let body = text.get(found.body..).unwrap_or_default();
        let (title, sections) = sections(body, line_at(text, found.body));
        Ok(Self { title: title.unwrap_or_else(|| front.title.clone()), front, sections })
    }

    /// The first section of a kind.
    pub fn section(&self, kind: Kind) -> Option<&Section> {
        self.sections.iter().find(|section| section.kind == kind)
    }

    /// The section of the second level that a section of the third stands in.
    pub fn outer(&self, section: &Section) -> Option<&Section> {
        let before = self.sections.iter().take_while(|other| other.line < section.line);
        before.filter(|other| other.level == 2).last().filter(|_| section.level > 2)
    }

    /// The sections that a student may see, and the others. After the first section of answers only those that are
    /// known to be for students count, so that a renamed guide does not slip through.
    pub fn parted(&self) -> (Vec<&Section>, Vec<&Section>) {
        let first = self.sections.iter().position(|section| section.kind.is_for_teachers());
        let first = first.unwrap_or(self.sections.len());
        let places = self.sections.iter().enumerate();
        let (for_students, others): (Vec<_>, Vec<_>) = places.partition(|(place, section)| {
            !section.kind.is_for_teachers() && (*place < first || section.kind != Kind::Other)
        });
        let sections = |list: Vec<(usize, _)>| list.into_iter().map(|(_, section)| section).collect();
        (sections(for_students), sections(others))
    }
}

/// Where the front matter of a file stands.
fn found(text: &str) -> Result<FrontMatter, DocumentError> {
    front_matter(text).map_err(|why| {
        let (at, message, hint) = match why {
            NoFrontMatter::Missing => (
                0,
                "there is no front matter",
                "a scenario file begins with `---`, its front matter, and `---`, as `toehold generate` writes it",
            ),
            NoFrontMatter::Open { opening } => (opening, "the front matter has no end", "close it with a line `---`"),
        };
        DocumentError { line: line_at(text, at), column: 1, message: message.into(), hint }
    })
}

/// The line of the file on which this byte stands, counted from 1.
fn line_at(text: &str, at: usize) -> usize {
    text.get(..at).unwrap_or_default().matches('\n').count() + 1
}

/// The front matter that begins on this line of its file.
fn read_front(text: &str, line: usize) -> Result<Front, DocumentError> {
    let hint = "give this line the form that `toehold generate` writes";
    serde_yaml::from_str_with_options::<Front>(text, options_of_front()).map_err(|error| {
        let place = error.location();
        let whole = error.to_string();
        let message = whole.lines().next().unwrap_or_default();
        // The place is said by line and column of the file, not of its front matter.
        let message =
            message.split_once("column").and_then(|(_, rest)| rest.split_once(": ")).map_or(message, |(_, m)| m);
        DocumentError {
            line: line + place.map_or(0, |place| usize::try_from(place.line()).unwrap_or(1).saturating_sub(1)),
            column: place.map_or(1, |place| usize::try_from(place.column()).unwrap_or(1)),
            message: format!("the front matter cannot be read: {message}"),
            hint,
        }
    })
}

fn options_of_front() -> serde_yaml::Options {
    serde_yaml::options! { strict_booleans: true, with_snippet: false }
}

/// A heading as found: its level, its words, its bytes in the body.
struct Heading {
    level: u8,
    words: String,
    start: usize,
    end: usize,
}

/// The title, and the sections, of a body that begins on this line of its file.
fn sections(body: &str, line: usize) -> (Option<String>, Vec<Section>) {
    let mut headings = headings(body);
    let first = headings.first().filter(|heading| heading.level == 1).map(|heading| heading.start);
    let title = first.map(|_| headings.remove(0));
    let lead_start = title.as_ref().map_or(0, |title| title.end);
    let lead = Heading { level: 1, words: String::new(), start: lead_start, end: lead_start };
    let before = headings.first().map_or(body.len(), |heading| heading.start);
    // What stands above the title belongs to the lead too; it is rare enough to be dropped where it is blank.
    let above = title.as_ref().map_or("", |title| body.get(..title.start).unwrap_or_default()).trim();
    let mut counter = Lines { body, at: 0, line };
    let mut all = Vec::new();
    let ends: Vec<usize> = headings.iter().skip(1).map(|next| next.start).chain([body.len()]).collect();
    let stretches = std::iter::once((lead, before)).chain(headings.into_iter().zip(ends));
    for (heading, end) in stretches {
        let text = body.get(heading.end..end).unwrap_or_default();
        let blank = text.len() - text.trim_start_matches(['\n', '\r']).len();
        let heading_line = counter.line_of(heading.start);
        let text_line = counter.line_of(heading.end + blank);
        let text = text.trim_matches(['\n', '\r']);
        let is_lead = heading.level == 1 && heading.words.is_empty() && all.is_empty();
        all.push(Section {
            kind: if is_lead { Kind::Lead } else { Kind::of(&heading.words) },
            heading: heading.words,
            level: if is_lead { 1 } else { heading.level.max(2) },
            line: heading_line,
            text: if is_lead && !above.is_empty() { format!("{above}\n\n{text}") } else { text.into() },
            text_line,
        });
    }
    (title.map(|title| title.words), all)
}

/// Headings of the first three levels that stand on their own, not in a list or a quotation.
fn headings(body: &str) -> Vec<Heading> {
    let mut found: Vec<Heading> = Vec::new();
    let mut depth = 0_usize;
    let mut open = false;
    for (event, range) in Parser::new_ext(body, options()).into_offset_iter() {
        match event {
            Event::Start(Tag::Heading { level, .. }) if depth == 0 && level <= HeadingLevel::H3 => {
                let level = match level {
                    HeadingLevel::H1 => 1,
                    HeadingLevel::H2 => 2,
                    _ => 3,
                };
                found.push(Heading { level, words: String::new(), start: range.start, end: range.end });
                open = true;
                depth += 1;
            }
            Event::Start(_) => depth += 1,
            Event::End(TagEnd::Heading(_)) => {
                open = false;
                depth = depth.saturating_sub(1);
            }
            Event::End(_) => depth = depth.saturating_sub(1),
            Event::Text(words) | Event::Code(words) | Event::InlineHtml(words) if open => {
                if let Some(heading) = found.last_mut() {
                    heading.words.push_str(&words);
                }
            }
            Event::SoftBreak | Event::HardBreak if open => {
                if let Some(heading) = found.last_mut() {
                    heading.words.push(' ');
                }
            }
            _ => {}
        }
    }
    found
}

/// Counts lines on the way through a body.
struct Lines<'a> {
    body: &'a str,
    at: usize,
    line: usize,
}

impl Lines<'_> {
    /// The line of an offset that is not before the last one asked for.
    fn line_of(&mut self, offset: usize) -> usize {
        let passed = self.body.get(self.at..offset).unwrap_or_default();
        self.line += passed.matches('\n').count();
        self.at = offset.max(self.at);
        self.line
    }
}
