//! Sections and tables that are gone, or there twice.

use std::collections::BTreeMap;

use crate::diagnostic::{Diagnostic, code};
use crate::proof::check::questions::is_asked;
use crate::proof::page::Section;
use crate::proof::report::{Weight, weighed};
use crate::proof::{Made, Proof};

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    let Some(made) = &proof.made else { return };
    missing(proof, made, faults);
    repeated(proof, made, faults);
    for (_, old, new) in proof.pairs() {
        if new.tables.len() < old.tables.len() {
            let message = format!("the section “{}” has lost its table", new.title);
            let fault = Diagnostic::error(&code::TABLE_MISSING, proof.span(new.heading.clone()), message);
            faults.push(fault.hint("each line of a table begins with `|`, and no blank line stands within it"));
        }
    }
}

/// Sections that are gone, neighbours together. Their place is that of the section before them.
fn missing(proof: &Proof<'_>, made: &Made, faults: &mut Vec<Diagnostic>) {
    // Sample answers may be left out; without the rest the scenario is not whole.
    let mut gone: BTreeMap<(Option<usize>, bool), Vec<String>> = BTreeMap::new();
    for place in &made.sections.gone {
        let Some(section) = made.page.sections.get(*place) else { continue };
        let before = made.sections.both.iter().filter(|(i, _)| i < place).max().map(|(_, j)| *j);
        let name = if section.key == "#" { "the title".to_owned() } else { format!("“{}”", section.title) };
        gone.entry((before, is_optional(&made.text, section))).or_default().push(name);
    }
    for ((before, optional), names) in gone {
        let before = before.and_then(|before| proof.page.sections.get(before));
        let here = before.map_or(0..0, |section| section.heading.clone());
        let weight = if optional { Weight::Look } else { Weight::Fault };
        let message =
            format!("{} missing: {}", if names.len() == 1 { "a section is" } else { "sections are" }, names.join(", "));
        let hint = before.map_or_else(
            || "it stood first".to_owned(),
            |before| format!("after “{}”; a section may be renamed, but not left out", before.title),
        );
        let fault = weighed(&code::SECTION_MISSING, weight, proof, here, message);
        faults.extend(fault.map(|fault| fault.hint(hint)));
    }
}

/// Sections that are there twice.
fn repeated(proof: &Proof<'_>, made: &Made, faults: &mut Vec<Diagnostic>) {
    let mut firsts: BTreeMap<&str, &Section> = BTreeMap::new();
    for section in &proof.page.sections {
        firsts.entry(&section.key).or_insert(section);
    }
    for place in &made.sections.extra {
        let Some(section) = proof.page.sections.get(*place) else { continue };
        let first = firsts.get(section.key.as_str()).filter(|first| first.heading.start < section.heading.start);
        if let Some(first) = first.filter(|_| !section.key.is_empty() && section.key != "#") {
            let message = format!("the section “{}” is there twice", section.title);
            let fault = Diagnostic::error(&code::SECTION_REPEATED, proof.span(section.heading.clone()), message);
            let fault = fault.related(proof.span(first.heading.clone()), "the first one");
            faults.push(fault.hint("take one of the two out, or give it another heading"));
        }
    }
}

/// A section of answers, or a heading with nothing under it.
fn is_optional(text: &str, section: &Section) -> bool {
    let is_empty = section.prose.is_empty() && section.items.is_empty() && section.tables.is_empty();
    is_empty && !is_asked(text, section)
}
