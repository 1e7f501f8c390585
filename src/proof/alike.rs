//! Likeness within a folder: a scenario that shares too many sentences with another of it is pointed at.

use super::front;
use super::page::Page;
use crate::concepts::unreadable;
use crate::diagnostic::{Code, Diagnostic};
use crate::scenario::{Alike, Texts};
use crate::source::{FileId, Sources, Span};

/// More than a third of a text stands in another one too.
pub static TOO_ALIKE: Code = Code {
    name: "too-alike",
    meaning: "the text shares more than a third of its sentences with another scenario that is checked with it",
    wrong: "two files that tell the same procedure with other numbers",
    right: "one of the two, or another technique",
};

/// A warning for each file that is too like one before it.
pub fn too_alike(sources: &Sources, files: &[FileId]) -> Vec<Diagnostic> {
    let mut texts = Texts::default();
    let mut read: Vec<FileId> = Vec::new();
    let mut found = Vec::new();
    for file in files.iter().copied().filter(|file| unreadable(sources, *file).is_none()) {
        let Some((text, heading)) = stimulus(sources.text(file)) else { continue };
        if let Some(most) = texts.most_alike(&text).filter(Alike::is_too_much)
            && let Some(other) = read.get(most.with)
        {
            let message = format!("{} of {} sentences stand in `{}` too", most.shared, most.of, sources.path(*other));
            let place = Span { file, start: heading.start, end: heading.end };
            found.push(Diagnostic::warning(&TOO_ALIKE, place, message).hint("give the class one of the two"));
        }
        texts.add(&text);
        read.push(file);
    }
    found
}

/// What a student reads before the questions, and where the title stands.
fn stimulus(text: &str) -> Option<(String, std::ops::Range<usize>)> {
    let page = Page::read(text, front::body(text)?);
    let heading = page.sections.iter().find(|section| section.key == "#").map(|section| section.heading.clone())?;
    let told = page.sections.iter().filter(|section| section.key == "#" || section.key == "howitworks");
    let prose = told.flat_map(|section| &section.prose).filter_map(|range| text.get(range.clone()));
    let sentences: Vec<String> =
        prose.filter(|prose| !prose.starts_with(['!', '*'])).map(|prose| prose.replace('\n', " ")).collect();
    Some((sentences.join(" "), heading))
}
