//! Sections and tables that are gone, or there twice.

use std::collections::BTreeMap;

use crate::diagnostic::{Diagnostic, code};
use crate::proof::Proof;
use crate::proof::check::questions::is_asked;
use crate::proof::page::Section;
use crate::proof::report::{Weight, weighed};

pub(in crate::proof) fn check(proof: &Proof<'_>, faults: &mut Vec<Diagnostic>) {
    let Some(made) = &proof.made else { return };
    for place in &made.sections.gone {
        let Some(section) = made.page.sections.get(*place) else { continue };
        // The place is that of the section before it.
        let before = made.sections.both.iter().filter(|(i, _)| i < place).max();
        let before = before.and_then(|(_, j)| proof.page.sections.get(*j));
        let here = before.map_or(0..0, |section| section.heading.clone());
        let what =
            if section.key == "#" { "the title".to_owned() } else { format!("the section “{}”", section.title) };
        // Sample answers may be left out; without the rest the scenario is not whole.
        let weight = if is_optional(made.text.as_str(), section) { Weight::Look } else { Weight::Fault };
        let Some(fault) = weighed(&code::SECTION_MISSING, weight, proof, here, format!("{what} is missing")) else {
            continue;
        };
        let hint = before.map_or_else(
            || "it stood first".to_owned(),
            |before| format!("it stood after “{}”; a section may be renamed, but not left out", before.title),
        );
        faults.push(fault.hint(hint));
    }
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
    for (_, old, new) in proof.pairs() {
        if new.tables.len() < old.tables.len() {
            let message = format!("the section “{}” has lost its table", new.title);
            let fault = Diagnostic::error(&code::TABLE_MISSING, proof.span(new.heading.clone()), message);
            faults.push(fault.hint("each line of a table begins with `|`, and no blank line stands within it"));
        }
    }
}

/// A section of answers, or a heading with nothing under it.
fn is_optional(text: &str, section: &Section) -> bool {
    let is_empty = section.prose.is_empty() && section.items.is_empty() && section.tables.is_empty();
    is_empty && !is_asked(text, section)
}
