//! Copies of a version: for students with space to write, for markers with the guide; as a page or as Markdown.

use serde::Serialize;
use tera::Context;

use super::formulas::formulas;
use super::guide;
use super::{Paper, Question, Version};
use crate::concepts::graph::Graph;
use crate::render::{self, Asked, Document, Picture, RenderError, Stretch, Templates, blank_grid};
use crate::scenario::PartKind;
use crate::technique::Form;

/// Ruled lines for each point of a part: a chain of steps takes more words, a name fewer.
fn lines_a_point(kind: Option<PartKind>) -> u32 {
    match kind {
        Some(PartKind::Explain | PartKind::PredictAndJustify) => 4,
        Some(PartKind::Identify) => 2,
        _ => 3,
    }
}
/// Squares of the grid on which a graph is drawn: across and up.
const GRID: (u16, u16) = (40, 25);

/// Sizes of sheets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// 210 mm by 297 mm.
    A4,
    /// 8.5 in by 11 in.
    Letter,
}

/// How pages look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Look {
    /// The sheet.
    pub size: Size,
    /// 18 points for students.
    pub large_type: bool,
}

/// Both copies of a version.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Copies {
    /// Name of the version.
    pub name: String,
    /// For students.
    pub student: String,
    /// For markers.
    pub guide: String,
}

/// A question as the templates print it.
#[derive(Debug, Serialize)]
struct QuestionView<'a> {
    number: usize,
    title: &'a str,
    points: u32,
    minutes: String,
    stimulus: Vec<StretchView<'a>>,
    data: &'a str,
    data_markdown: &'a str,
    parts: Vec<PartView<'a>>,
}

/// A stretch as the templates print it.
#[derive(Debug, Serialize)]
pub(super) struct StretchView<'a> {
    heading: &'a str,
    level: u8,
    html: &'a str,
    markdown: String,
}

/// A stretch whose pictures go by another name than the scenario's id.
pub(super) fn stretch_view<'a>(stretch: &'a Stretch, id: &str, name: &str) -> StretchView<'a> {
    StretchView {
        heading: &stretch.heading,
        level: stretch.level,
        html: &stretch.html,
        markdown: if id.is_empty() { stretch.markdown.clone() } else { stretch.markdown.replace(id, name) },
    }
}

/// A part with its space to write.
#[derive(Debug, Serialize)]
struct PartView<'a> {
    html: &'a str,
    markdown: &'a str,
    grid: Option<String>,
    lines: Vec<u32>,
}

/// What the copies of every version are in: the ending of the templates' names.
const MARKDOWN: &str = "md";
const HTML: &str = "html";

/// Both copies of each version as Markdown.
///
/// # Errors
/// A fault in a template.
pub fn copies(templates: &Templates, graph: &Graph, paper: &Paper) -> Result<Vec<Copies>, RenderError> {
    let both = |version| {
        Ok(Copies {
            name: Version::clone(version).name,
            student: student(templates, graph, paper, version, MARKDOWN)?,
            guide: guide(templates, graph, paper, version, MARKDOWN)?,
        })
    };
    paper.versions.iter().map(both).collect()
}

/// Which copies a page holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Holds {
    /// What students get.
    Student,
    /// What markers get.
    Guide,
    /// Both, in that order.
    Both,
}

/// A page with the copies of some versions.
///
/// # Errors
/// A fault in a template.
pub fn page(
    templates: &Templates,
    graph: &Graph,
    paper: &Paper,
    versions: &[Version],
    holds: Holds,
    look: Look,
) -> Result<String, RenderError> {
    #[derive(Serialize)]
    struct Body {
        page: String,
        kind: &'static str,
        version: String,
        html: String,
    }
    let mut bodies = Vec::new();
    for (place, version) in versions.iter().enumerate() {
        let mut add = |kind, html| {
            bodies.push(Body { page: format!("{kind}-{}", place + 1), kind, version: version.name.clone(), html });
        };
        if holds != Holds::Guide {
            add("student", student(templates, graph, paper, version, HTML)?);
        }
        if holds != Holds::Student {
            add("guide", guide(templates, graph, paper, version, HTML)?);
        }
    }
    let names: Vec<&str> = versions.iter().map(|version| version.name.as_str()).collect();
    let what = match holds {
        Holds::Student => "Question paper",
        Holds::Guide => "Marking guide",
        Holds::Both => "Question paper and marking guide",
    };
    let mut context = Context::new();
    context.insert("title", &format!("{what}, version {}", names.join(", ")));
    context.insert("bodies", &bodies);
    context.insert("large", &look.large_type);
    context.insert("size", if look.size == Size::A4 { "A4" } else { "letter" });
    render::fill(templates, "paper.html", &context)
}

fn student(
    templates: &Templates,
    graph: &Graph,
    paper: &Paper,
    version: &Version,
    ending: &str,
) -> Result<String, RenderError> {
    let minutes_per_point = paper.minutes_per_point(version);
    let questions: Vec<QuestionView<'_>> =
        version.questions.iter().map(|question| view(version, question, minutes_per_point)).collect();
    let (formulas, constants) = formulas(graph, version);
    let of_form = |form| version.questions.iter().filter(|question| question.scenario.form == form).count();
    let mut context = context(paper, version);
    context.insert("questions", &questions);
    context.insert("n_short", &of_form(Form::Short));
    context.insert("n_long", &of_form(Form::Long));
    context.insert("formulas", &formulas);
    context.insert("constants", &constants);
    render::fill(templates, &format!("paper-student.{ending}"), &context)
}

fn guide(
    templates: &Templates,
    graph: &Graph,
    paper: &Paper,
    version: &Version,
    ending: &str,
) -> Result<String, RenderError> {
    let mut context = context(paper, version);
    guide::fill(&mut context, graph, version);
    render::fill(templates, &format!("paper-guide.{ending}"), &context)
}

/// What both copies say of the sitting.
fn context(paper: &Paper, version: &Version) -> Context {
    let mut context = Context::new();
    context.insert("version", &version.name);
    context.insert("seed", &paper.seed.0);
    context.insert("concepts", &paper.concepts);
    context.insert("reading", &paper.reading_minutes);
    context.insert("writing", &paper.writing_minutes);
    context.insert("extended", &paper.extended_percent);
    context.insert("points", &version.points());
    context.insert("minutes_per_point", &format!("{:.1}", paper.minutes_per_point(version)));
    context
}

/// What the file names of a question's pictures begin with. The scenario's own id holds its seed, which a student could
/// make the answers from.
fn picture_name(version: &Version, question: &Question) -> String {
    format!("paper-{}-{}", version.name, question.number)
}

fn view<'a>(version: &Version, question: &'a Question, minutes_per_point: f64) -> QuestionView<'a> {
    let sheet = &question.sheet;
    let name = picture_name(version, question);
    let part = |(place, part): (usize, &'_ Asked)| {
        let grid = blank_grid(GRID.0, GRID.1, 100 * question.number + place);
        let kind = question.scenario.parts.get(place).map(|part| part.kind);
        (part.to_draw.then(|| grid.inline()), if part.to_draw { 0 } else { lines_a_point(kind) * part.points })
    };
    let parts = sheet.parts.iter().enumerate().map(|(place, asked)| {
        let (grid, n_lines) = part((place, asked));
        PartView { html: &asked.html, markdown: &asked.markdown, grid, lines: (0..n_lines).collect() }
    });
    QuestionView {
        number: question.number,
        title: &sheet.title,
        points: question.points(),
        minutes: format!("{:.0}", minutes_per_point * f64::from(question.points())),
        stimulus: sheet.stimulus.iter().map(|stretch| stretch_view(stretch, &question.scenario.id, &name)).collect(),
        data: &sheet.data.html,
        data_markdown: &sheet.data.markdown,
        parts: parts.collect(),
    }
}

/// The pictures that the Markdown copies refer to, with their file names.
pub fn pictures(paper: &Paper) -> Vec<(String, Picture)> {
    let mut all = vec![("paper-grid.svg".to_owned(), blank_grid(GRID.0, GRID.1, 0))];
    for version in &paper.versions {
        for question in &version.questions {
            let name = picture_name(version, question);
            let as_edited = Document::read(&question.text).ok().and_then(|document| render::chart(&document));
            let as_edited = as_edited.map(|chart| render::figure::plot(&chart));
            for (ending, picture) in render::pictures(&question.scenario) {
                let picture = as_edited.clone().filter(|_| ending.is_empty()).unwrap_or(picture);
                all.push((format!("{name}{ending}.svg"), picture));
            }
        }
    }
    all
}
