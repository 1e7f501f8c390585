//! No text is empty, and no list that needs an entry.

use super::super::written::{Fragment, Text};
use super::prose;
use super::scope::{Scope, span};
use crate::diagnostic::{Diagnostic, code};
use crate::source::{FileId, Span};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    prose::visit(scope, &mut |prose| {
        if prose.text.value.trim().is_empty() {
            let fault = Diagnostic::error(&code::EMPTY_TEXT, span(prose.file, prose.text), "this text is empty");
            faults.push(fault.hint("write the text"));
        }
    });
    parts(scope, faults);
    bench(scope, faults);
}

fn parts(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for entity in &scope.entities.parts {
        list(entity.file, &entity.part.id, "names", &entity.part.names, faults);
    }
    for principle in &scope.principles.parts {
        list(principle.file, &principle.part.id, "recall", &principle.part.recall, faults);
        list(principle.file, &principle.part.id, "terms", &principle.part.terms, faults);
    }
    for setting in &scope.settings.parts {
        fragments(setting.file, setting.part.told.as_slice(), faults);
    }
    for influence in &scope.influences.parts {
        fragments(influence.file, influence.part.told.as_slice(), faults);
        fragments(influence.file, &influence.part.acts, faults);
    }
}

fn bench(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for act in &scope.acts.parts {
        list(act.file, &act.part.id, "text", &act.part.text, faults);
    }
    for rig in &scope.rigs.parts {
        list(rig.file, &rig.part.id, "name_words", &rig.part.name_words, faults);
        list(rig.file, &rig.part.id, "read", &rig.part.read, faults);
        list(rig.file, &rig.part.id, "repeat", &rig.part.repeat, faults);
    }
    for context in &scope.contexts.parts {
        list(context.file, &context.part.id, "purposes", &context.part.purposes, faults);
    }
    for known in &scope.known.parts {
        list(known.file, &known.part.id, "path", &known.part.path, faults);
    }
}

fn list<T>(file: FileId, id: &Text, field: &str, entries: &[T], faults: &mut Vec<Diagnostic>) {
    if entries.is_empty() {
        faults.push(empty(span(file, id), &format!("`{field}` of `{}` has no entry", id.value)));
    }
}

fn fragments(file: FileId, fragments: &[Fragment], faults: &mut Vec<Diagnostic>) {
    for fragment in fragments.iter().filter(|fragment| fragment.text.is_empty()) {
        faults.push(empty(span(file, &fragment.slot), "this fragment has no wording"));
    }
}

fn empty(at: Span, message: &str) -> Diagnostic {
    Diagnostic::error(&code::EMPTY_TEXT, at, message).hint("list at least one")
}
