//! Ids are kebab-case and stand for one part of their kind; principles stand in the file of a field.

use super::super::written::Text;
use super::scope::{List, Scope, span};
use crate::diagnostic::{Diagnostic, code};
use crate::source::FileId;

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    ids("field", scope.fields.iter().map(|(file, field, _)| (*file, &field.id)), faults);
    for (file, field) in &scope.lost_fields {
        let id = &field.id;
        let message = format!("the field `{}` has no name, here or in another file", shown(&id.value));
        let fault = Diagnostic::error(&code::MISSING_FIELD, span(*file, id), message);
        let known: Vec<&str> = scope.fields.iter().map(|(_, field, _)| field.id.value.as_str()).collect();
        let fault = if known.is_empty() { fault } else { fault.did_you_mean(&id.value, known) };
        faults.push(fault.hint("a new field is declared with its name: `field: { id: …, name: … }`"));
    }
    list("entity", &scope.entities, faults);
    list("quantity", &scope.quantities, faults);
    list("principle", &scope.principles, faults);
    list("setting", &scope.settings, faults);
    list("influence", &scope.influences, faults);
    list("act", &scope.acts, faults);
    list("rig", &scope.rigs, faults);
    list("context", &scope.contexts, faults);
    list("known technique", &scope.known, faults);
    list("word of the gloss", &scope.gloss, faults);
    for influence in &scope.influences.parts {
        ids("twist of this influence", influence.part.twists.iter().map(|twist| (influence.file, &twist.id)), faults);
    }
    let lost = |file: FileId| scope.lost_fields.iter().any(|(other, _)| *other == file);
    for principle in scope.principles.parts.iter().filter(|one| one.field.is_none() && !lost(one.file)) {
        let id = &principle.part.id;
        let message = format!("`{}` is in a file that declares no field", id.value);
        let fault = Diagnostic::error(&code::PRINCIPLE_WITHOUT_FIELD, principle.span(id), message);
        faults.push(fault.hint("begin the file with `field: { id: … }`, a new field with its `name: …`"));
    }
}

fn list<T>(kind: &str, list: &List<'_, T>, faults: &mut Vec<Diagnostic>) {
    ids(kind, list.parts.iter().map(|located| (located.file, (list.id)(located.part))), faults);
}

fn ids<'a>(kind: &str, ids: impl Iterator<Item = (FileId, &'a Text)>, faults: &mut Vec<Diagnostic>) {
    let mut first = std::collections::BTreeMap::new();
    for (file, id) in ids {
        let here = span(file, id);
        if !is_kebab(&id.value) {
            let message = format!("`{}` is not an id in kebab-case", shown(&id.value));
            let fault = Diagnostic::error(&code::ILL_FORMED_ID, here, message);
            let hint = "lower-case letters and digits, beginning with a letter, words joined by single hyphens";
            faults.push(match kebab(&id.value) {
                Some(better) => fault.hint(format!("write `{better}`: {hint}")),
                None => fault.hint(hint),
            });
        }
        if let Some(before) = first.insert(id.value.as_str(), here) {
            let message = format!("there is another {kind} `{}`", shown(&id.value));
            let fault = Diagnostic::error(&code::DUPLICATE_ID, here, message);
            let hint = match kind {
                "field" => "leave its name out in one of the two files: `field: { id: … }`",
                _ => "give one of the two another id",
            };
            faults.push(fault.related(before, "it is declared here too").hint(hint));
        }
    }
}

/// An id, cut where it is too long to print.
fn shown(id: &str) -> String {
    let mut start: String = id.chars().take(60).collect();
    if start.len() < id.len() {
        start.push('…');
    }
    start
}

/// Whether the text is kebab-case.
fn is_kebab(id: &str) -> bool {
    let word = |word: &str| !word.is_empty() && word.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit());
    id.len() <= 80 && id.starts_with(|c: char| c.is_ascii_lowercase()) && id.split('-').all(word)
}

/// The nearest kebab-case to a text, if there is one.
fn kebab(id: &str) -> Option<String> {
    let words: Vec<String> = id
        .split(|c: char| !c.is_ascii_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_ascii_lowercase)
        .collect();
    Some(words.join("-")).filter(|better| is_kebab(better))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kebab_case() {
        for good in ["a", "dye-outside", "ph-2-charge"] {
            assert!(is_kebab(good), "{good}");
        }
        for bad in ["", "A", "a_b", "a--b", "-a", "a-", "2a", "a b", "é"] {
            assert!(!is_kebab(bad), "{bad}");
        }
        assert_eq!(kebab("Trapped_Dye").as_deref(), Some("trapped-dye"));
        assert_eq!(kebab("é"), None);
    }
}
