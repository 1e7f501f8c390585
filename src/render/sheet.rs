//! A scenario file as a question of a paper: what stands before the parts, the data table, each part, the answers.
//!
//! Comes in: a [`Document`], a teacher's edits and all. Goes out: stretches, each as HTML and as Markdown. A plot that
//! the reader is to draw is left out of what students get.

use super::body;
use super::document::{Document, Kind, Section};
use super::drawing::{self, Drawing};
use super::page::{Figures, chart};
use super::{figure, table};

/// A question of a paper.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// The technique's name.
    pub title: String,
    /// What stands before the parts, without the data table.
    pub stimulus: Vec<Stretch>,
    /// The data table; without text where the file has none.
    pub data: Stretch,
    /// The parts, in order.
    pub parts: Vec<Asked>,
    /// The sections that only a teacher gets, and the cautions.
    pub answers: Vec<Stretch>,
    /// The plot that the reader is to draw, as HTML, for the guide.
    pub drawn: Option<String>,
}

/// A stretch of text.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Stretch {
    /// What it is for.
    pub kind: Option<Kind>,
    /// Its heading; empty for none.
    pub heading: String,
    /// 2 or 3, as in the file; 1 for what stands before the first heading.
    pub level: u8,
    /// As HTML.
    pub html: String,
    /// As Markdown.
    pub markdown: String,
}

/// A part of a question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// `a`, `b`, ...
    pub label: char,
    /// Points, as the text says; 0 where it does not.
    pub points: u32,
    /// As HTML, with label and points.
    pub html: String,
    /// As Markdown, with label and points.
    pub markdown: String,
    /// It asks for a graph.
    pub to_draw: bool,
}

impl Sheet {
    /// Takes a scenario file apart; `name` keeps the figures of several questions on one page apart.
    pub fn of(document: &Document, name: &str) -> Self {
        let figures = Figures::of(document);
        let html = |markdown: &str, kind| apart(&body::html(markdown, kind, &figures), name);
        let (for_students, for_teachers) = document.parted();
        let (before, parts) = parts_of(document);
        let parts: Vec<Asked> =
            parts.into_iter().map(|part| Asked { html: html(&part.markdown, Kind::Other), ..part }).collect();
        let to_draw = parts.iter().any(|part| part.to_draw);
        let without_plot = |text: String| if to_draw { drawing::without(&text, Drawing::Plot) } else { text };
        let mut stimulus = Vec::new();
        let mut data = String::new();
        let mut cautions = Vec::new();
        for section in for_students {
            let mut text = match section.kind {
                Kind::Scaffold => continue,
                Kind::Cautions => {
                    cautions.push(section);
                    continue;
                }
                Kind::Questions => before.clone(),
                Kind::Lead => without_form(&section.text),
                _ => section.text.clone(),
            };
            if section.kind == Kind::Data {
                (text, data) = without_table(section);
            }
            text = without_plot(text);
            if !text.trim().is_empty() {
                stimulus.push(stretch(section, html(&text, section.kind), text));
            }
        }
        let answers = for_teachers.into_iter().chain(cautions).map(|section| {
            // A guide that shows the graph to be drawn would show it twice.
            let text = without_plot(section.text.clone());
            stretch(section, html(&text, section.kind), text)
        });
        let drawn = chart(document).filter(|_| to_draw).map(|chart| apart(&figure::plot(&chart).inline(), name));
        let data = Stretch { html: html(&data, Kind::Data), markdown: data, ..Stretch::default() };
        Self { title: document.title.clone(), stimulus, data, parts, answers: answers.collect(), drawn }
    }
}

fn stretch(section: &Section, html: String, markdown: String) -> Stretch {
    Stretch { kind: Some(section.kind), heading: section.heading.clone(), level: section.level, html, markdown }
}

/// The ids of a piece of HTML made its own, so that two figures on one page do not share any.
fn apart(html: &str, name: &str) -> String {
    [" id=\"", " aria-labelledby=\"", " aria-describedby=\"", "url(#"]
        .iter()
        .fold(html.to_owned(), |html, mark| html.replace(mark, &format!("{mark}{name}-")))
}

/// The text without the line on form and points, which a paper says in its own way.
fn without_form(text: &str) -> String {
    let paragraphs = text.split("\n\n");
    let is_form = |paragraph: &str| {
        let line = paragraph.trim();
        line.starts_with('*') && !line.starts_with("**") && line.ends_with('*') && line.contains(" point")
    };
    paragraphs.filter(|paragraph| !is_form(paragraph)).collect::<Vec<_>>().join("\n\n")
}

/// The text of a section without its first table, and the table.
fn without_table(section: &Section) -> (String, String) {
    let Some((line, _)) = table::first(section) else { return (section.text.clone(), String::new()) };
    let lines: Vec<&str> = section.text.lines().collect();
    let from = line.saturating_sub(section.text_line).min(lines.len());
    let (above, rest) = lines.split_at(from);
    let end = rest.iter().position(|line| line.trim().is_empty()).unwrap_or(rest.len());
    let (table, below) = rest.split_at(end);
    (format!("{}\n{}", above.join("\n"), below.join("\n")), table.join("\n"))
}

/// Whether a part of a file asks for the graph of its data.
pub(super) fn is_to_draw(document: &Document) -> bool {
    parts_of(document).1.iter().any(|part| part.to_draw)
}

fn parts_of(document: &Document) -> (String, Vec<Asked>) {
    parts(document.section(Kind::Questions).map_or("", |section| section.text.as_str()))
}

/// What stands before the first part, and the parts: each begins a paragraph with its letter in brackets.
fn parts(text: &str) -> (String, Vec<Asked>) {
    let mut before = String::new();
    let mut found: Vec<(char, String)> = Vec::new();
    let mut begins = true;
    for line in text.lines() {
        match (label(line), found.last_mut()) {
            (Some(label), _) if begins => found.push((label, line.to_owned())),
            (_, Some((_, part))) => {
                part.push('\n');
                part.push_str(line);
            }
            (_, None) => {
                before.push_str(line);
                before.push('\n');
            }
        }
        begins = line.trim().is_empty();
    }
    let asked = |(label, text): (char, String)| {
        let words = text.to_lowercase();
        Asked {
            label,
            points: points(&text),
            html: String::new(),
            to_draw: words.contains("**construct**") && words.contains("graph"),
            markdown: text.trim_end().to_owned(),
        }
    };
    (before, found.into_iter().map(asked).collect())
}

fn label(line: &str) -> Option<char> {
    let mut letters = line.trim_start().chars();
    match (letters.next(), letters.next(), letters.next()) {
        (Some('('), Some(label @ 'a'..='z'), Some(')')) => Some(label),
        _ => None,
    }
}

/// The number in the last "*(2)*".
fn points(text: &str) -> u32 {
    let last = text.rsplit_once("*(").and_then(|(_, rest)| rest.split_once(")*"));
    last.and_then(|(number, _)| number.trim().parse().ok()).unwrap_or(0)
}
