//! One page that needs nothing else: a scenario file's text, its figures drawn, its answers folded away.

use serde::Serialize;
use tera::Context;

use super::body::{self, Pictures, printable};
use super::document::{Document, DocumentError, Kind, Section};
use super::drawing::{self, Drawing};
use super::figure::{Chart, Picture, plot};
use super::{RenderError, Templates, readings, schematic, sheet, table};

/// Who gets it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Copy {
    /// The whole.
    Teacher,
    /// Without answers, guide and map.
    Student,
}

/// Why there is no page.
#[derive(Debug, thiserror::Error)]
pub enum PageError {
    /// The file is at fault.
    #[error(transparent)]
    Document(#[from] DocumentError),
    /// A template is.
    #[error(transparent)]
    Template(#[from] RenderError),
}

/// A section as the template prints it.
#[derive(Debug, Serialize)]
struct SectionView {
    id: String,
    heading: String,
    level: u8,
    kind: &'static str,
    html: String,
    /// Sections within it.
    inner: Vec<SectionView>,
}

/// The page of a scenario file.
///
/// # Errors
/// A file that is no scenario, or a fault in a template.
pub fn page(templates: &Templates, text: &str, copy: Copy) -> Result<String, PageError> {
    let document = Document::read(text)?;
    Ok(page_of(templates, &document, copy)?)
}

fn page_of(templates: &Templates, document: &Document, copy: Copy) -> Result<String, RenderError> {
    let figures = Figures::of(document);
    let is_hidden = copy == Copy::Student && sheet::is_to_draw(document);
    let view = |(place, section): (usize, &Section)| SectionView {
        id: id(section, place),
        heading: printable(&section.heading),
        level: section.level,
        kind: class(section.kind),
        html: body::html(&given(section, is_hidden), section.kind, &figures),
        inner: Vec::new(),
    };
    let (mut for_students, for_teachers) = document.parted();
    // The steps go on a sheet of their own when printed, so everything else comes before.
    for_students.sort_by_key(|section| section.kind == Kind::Scaffold);
    let n_for_students = for_students.len();
    let for_students: Vec<SectionView> = for_students.into_iter().enumerate().map(view).collect();
    let mut folded: Vec<SectionView> = Vec::new();
    for (place, section) in for_teachers.iter().enumerate().filter(|_| copy == Copy::Teacher) {
        let made = view((n_for_students + place, section));
        let outer = document.outer(section).filter(|outer| for_teachers.contains(outer));
        match folded.last_mut().filter(|_| outer.is_some()) {
            // A section within a section is folded away with it.
            Some(last) => last.inner.push(made),
            None => folded.push(made),
        }
    }
    let mut context = Context::new();
    context.insert("title", &printable(&document.title));
    context.insert("sections", &for_students);
    context.insert("answers", &folded);
    context.insert("student", &(copy == Copy::Student));
    context.insert("seed", &document.front.seed);
    context.insert("concepts", &printable(&document.front.graph));
    Ok(templates.tera.render("page.html", &context)?)
}

/// The Markdown of a section, without the plot where that is hidden since the reader is to draw it.
fn given(section: &Section, is_hidden: bool) -> String {
    if is_hidden { drawing::without(&section.text, Drawing::Plot) } else { section.text.clone() }
}

/// The id of a section on its page: what it is for, and its place, since a kind may come twice.
fn id(section: &Section, place: usize) -> String {
    match section.kind {
        Kind::Other => format!("section-{}", place + 1),
        Kind::Lead => "top".into(),
        kind => format!("{}-{}", class(kind), place + 1),
    }
}

fn class(kind: Kind) -> &'static str {
    match kind {
        Kind::Lead => "lead",
        Kind::How => "how",
        Kind::Data => "data",
        Kind::Questions => "questions",
        Kind::Scaffold => "scaffold",
        Kind::Cautions => "cautions",
        Kind::Answers => "answers",
        Kind::Guide => "guide",
        Kind::Map => "map",
        Kind::Other => "other",
    }
}

/// The figures of a file, drawn.
pub(super) struct Figures {
    plot: Option<String>,
    apparatus: Option<String>,
    readings: Option<String>,
}

impl Figures {
    pub(super) fn of(document: &Document) -> Self {
        let panels = schematic::panels(&document.front.apparatus);
        let apparatus: String = panels.iter().map(Picture::inline).collect::<Vec<_>>().join("\n");
        let chart = chart(document);
        let seen = chart.as_ref().zip(document.front.plot.readings);
        Self {
            readings: seen.and_then(|(chart, kind)| readings(chart, kind)).map(|picture| picture.inline()),
            plot: chart.map(|chart| plot(&chart).inline()),
            apparatus: (!panels.is_empty()).then_some(apparatus),
        }
    }
}

/// The chart that the data table of a file makes.
pub fn chart(document: &Document) -> Option<Chart> {
    let (_, table) = table::of_data(document)?;
    Chart::read(&table.headers(), &table.texts(), &document.front.plot)
}

impl Pictures for Figures {
    fn figure(&self, address: &str, caption: &str) -> Option<String> {
        let (class, drawn) = match Drawing::at(address)? {
            Drawing::Apparatus => ("apparatus", &self.apparatus),
            Drawing::Readings => ("plot", &self.readings),
            Drawing::Plot => ("plot", &self.plot),
        };
        let drawn = drawn.as_ref()?;
        let caption = if caption.is_empty() { String::new() } else { format!("<figcaption>{caption}</figcaption>\n") };
        Some(format!("<figure class=\"{class}\">\n<div class=\"drawn\">\n{drawn}\n</div>\n{caption}</figure>\n"))
    }
}

/// The Markdown of a file without front matter and answers: what a student gets.
///
/// # Errors
/// A file that is no scenario.
pub fn student_markdown(text: &str) -> Result<String, DocumentError> {
    let document = Document::read(text)?;
    let is_hidden = sheet::is_to_draw(&document);
    let sections = document.parted().0.into_iter().map(|section| {
        let heading = match section.level {
            _ if section.kind == Kind::Lead => String::new(),
            2 => format!("\n## {}\n", section.heading),
            _ => format!("\n### {}\n", section.heading),
        };
        format!("{heading}\n{}\n", given(section, is_hidden))
    });
    Ok(format!("# {}\n{}", document.title, sections.collect::<String>()))
}
