//! Placeholders in texts refer to what can stand in their place.
//!
//! `{{ vesicle.one }}`, `{{ vesicle.many }}`: an entity's name, `_` for `-` in its id. `{{ p.time }}`: a parameter of the
//! influence's law, with its unit. `{{ t.time }}`: the same as a twist sets it. And the names of [`NAMES`]. Behind a
//! name may stand `| cap`, for a capital letter.

use super::prose::{self, Prose};
use super::scope::{Scope, span};
use crate::diagnostic::{Code, Diagnostic, code};
use crate::source::Span;

/// Names that stand for themselves, whatever the text.
const NAMES: &[&str] = &[
    // The levels as a list, the first and the last of them, the unit that they share.
    "levels",
    "first",
    "last",
    "unit",
    // How many replicates, in words; how long is waited.
    "n",
    "wait",
    // What is read; the container of the rig; what the readings are compared with; the group; the instrument.
    "liquid",
    "containers",
    "container",
    "reference",
    "group",
    "instrument",
];

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let entities: Vec<String> = scope.entities.ids().map(|id| id.replace('-', "_")).collect();
    prose::visit(scope, &mut |prose| {
        for hole in holes(&prose.text.value) {
            faults.extend(judge(scope, &entities, prose, hole));
        }
    });
}

/// What stands between double braces, or the fault of braces that do not match.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Hole<'t> {
    Name(&'t str),
    Broken(&'t str, &'static str),
}

fn holes(text: &str) -> Vec<Hole<'_>> {
    let mut holes = Vec::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("{{") {
        holes.extend(stray(before));
        let Some((inside, behind)) = after.split_once("}}") else {
            holes.push(Hole::Broken(head(after), "a placeholder begins with `{{` and does not end with `}}`"));
            return holes;
        };
        holes.push(if inside.contains(['{', '}']) {
            Hole::Broken(head(inside), "a placeholder begins with `{{` and does not end with `}}`")
        } else {
            Hole::Name(inside.trim())
        });
        rest = behind;
    }
    holes.extend(stray(rest));
    holes
}

/// The first words of a long text.
fn head(text: &str) -> &str {
    let end = text.char_indices().nth(30).map_or(text.len(), |(at, _)| at);
    text.get(..end).unwrap_or(text)
}

fn stray(text: &str) -> Option<Hole<'_>> {
    let templating = ["{%", "{#"].iter().any(|sign| text.contains(sign));
    if templating {
        return Some(Hole::Broken(head(text), "only names in `{{ … }}` are filled in"));
    }
    text.contains(['{', '}']).then_some(Hole::Broken(head(text), "a brace stands alone"))
}

fn judge(scope: &Scope<'_>, entities: &[String], prose: Prose<'_>, hole: Hole<'_>) -> Option<Diagnostic> {
    let inside = match hole {
        Hole::Name(inside) => inside,
        Hole::Broken(near, why) => {
            let fault = at(scope, prose, near, &code::BROKEN_PLACEHOLDER, why.to_owned());
            return Some(fault.hint("write `{{ name }}`, with two braces on both sides"));
        }
    };
    let (name, filter) =
        inside.split_once('|').map_or((inside, None), |(name, filter)| (name.trim(), Some(filter.trim())));
    if let Some(filter) = filter.filter(|filter| *filter != "cap") {
        let fault =
            at(scope, prose, inside, &code::BROKEN_PLACEHOLDER, format!("`{filter}` is not done to a placeholder"));
        return Some(fault.hint("only `| cap`, for a capital letter"));
    }
    if NAMES.contains(&name) {
        return None;
    }
    let unknown = |message: String| at(scope, prose, inside, &code::UNKNOWN_PLACEHOLDER, message);
    match name.split_once('.') {
        Some(("p", symbol)) => parameter(prose, symbol, unknown),
        Some(("t", symbol)) if prose.twist => parameter(prose, symbol, unknown),
        Some(("t", _)) => {
            Some(unknown(format!("`{name}` can only stand in a twist")).hint("use `p.` for the influence's own value"))
        }
        Some((entity, number)) => {
            let is_there = scope.entities.knows(&entity.replace('_', "-")) && !entity.contains('-');
            if !is_there {
                let fault = unknown(format!("there is no entity `{entity}` for a placeholder"));
                return Some(fault.did_you_mean(entity, entities.iter().map(String::as_str)));
            }
            let known = ["one", "many"].contains(&number);
            (!known).then(|| unknown(format!("an entity has no `{number}`")).hint("write `.one` or `.many`"))
        }
        None => Some(unknown(format!("nothing is called `{name}`")).did_you_mean(name, NAMES.iter().copied())),
    }
}

fn parameter(prose: Prose<'_>, symbol: &str, unknown: impl Fn(String) -> Diagnostic) -> Option<Diagnostic> {
    let Some(law) = prose.law else {
        return Some(
            unknown(format!("`{symbol}` is a law's, and no law belongs to this text"))
                .hint("only texts of an influence have parameters"),
        );
    };
    let message = || format!("the law `{}` has no symbol `{symbol}`", law.id);
    law.input(symbol)
        .is_none()
        .then(|| unknown(message()).did_you_mean(symbol, law.inputs.iter().map(|symbol| symbol.id)))
}

/// A fault at the placeholder, where the text stands in the file as it is read; else at the text, with the words.
fn at(scope: &Scope<'_>, prose: Prose<'_>, near: &str, code: &'static Code, message: String) -> Diagnostic {
    let whole = span(prose.file, prose.text);
    let near = near.trim();
    let raw = scope.sources.text(prose.file).get(whole.start..).unwrap_or_default();
    let raw = raw.get(..raw.len().min(prose.text.value.len() * 2 + 200)).unwrap_or(raw);
    let opened = |at: &usize| raw.get(..*at).is_some_and(|before| before.trim_end().ends_with("{{"));
    let places = || raw.match_indices(near).map(|(at, _)| at).filter(|_| !near.is_empty());
    match places().find(opened).or_else(|| places().next()) {
        Some(at) => {
            let start = whole.start + at;
            Diagnostic::error(code, Span { start, end: start + near.len(), ..whole }, message)
        }
        None => Diagnostic::error(code, whole, format!("{message}, near `{near}`")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_are_found() {
        assert_eq!(holes("plain text"), []);
        assert_eq!(holes("the {{ a.many }} of {{b}}"), [Hole::Name("a.many"), Hole::Name("b")]);
        for broken in ["{{ a", "{ a }", "a }}", "{{ a }", "{{ a } b }}", "{% if %}", "{{ {{ a }}"] {
            assert!(holes(broken).iter().any(|hole| matches!(hole, Hole::Broken(..))), "{broken}");
        }
    }
}
