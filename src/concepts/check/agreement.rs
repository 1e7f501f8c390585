//! Influences that give one quantity by one law are one mechanism: the values that they share are the same, unless
//! their settings exclude each other.

use std::collections::BTreeMap;

use super::super::graph::SymbolSource;
use super::super::written::Influence;
use super::law_use::number;
use super::scope::{Located, Scope};
use super::settings;
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    let exclusions = settings::exclusions(scope);
    // The influences that give a symbol of a mechanism its value.
    let mut uses: BTreeMap<_, Vec<(&Located<'_, Influence>, &SymbolSource)>> = BTreeMap::new();
    for (influence, law) in scope.influences.parts.iter().zip(&scope.uses) {
        let Some(law) = law else { continue };
        for (symbol, source) in law.law.inputs.iter().zip(&law.sources) {
            if matches!(source, SymbolSource::Driven | SymbolSource::AtFirst) {
                continue;
            }
            let key = (influence.part.to.value.as_str(), law.law.id, symbol.id);
            let before = uses.entry(key).or_default();
            let clash = before.iter().find(|(other, theirs)| {
                // Two that drive the same symbol never act at once: a technique in which they did is not composed.
                let rivals = other.part.law.input.value == influence.part.law.input.value;
                *theirs != source && !rivals && settings::can_meet(&exclusions, influence.part, other.part)
            });
            if let Some((other, theirs)) = clash {
                faults.push(fault(symbol.id, (influence, source), (other, theirs)));
            }
            before.push((influence, source));
        }
    }
}

/// An influence and the value that it gives to a symbol.
type Use<'u, 'a> = (&'u Located<'a, Influence>, &'u SymbolSource);

fn fault(symbol: &str, (influence, source): Use<'_, '_>, (other, theirs): Use<'_, '_>) -> Diagnostic {
    let law = &influence.part.law.name;
    let message = format!(
        "`{symbol}` is {} here and {} in `{}`, though both give `{}` by the law `{}`",
        words(source),
        words(theirs),
        other.part.id.value,
        influence.part.to.value,
        law.value
    );
    Diagnostic::error(&code::LAWS_DISAGREE, influence.span(law), message)
        .related(other.span(&other.part.law.name), "the other use of the law")
        .hint("give both the same value, range and step, or settings that exclude each other")
}

fn words(source: &SymbolSource) -> String {
    match source {
        SymbolSource::Driven | SymbolSource::AtFirst => "driven".to_owned(),
        SymbolSource::Fixed(value) => number(*value),
        SymbolSource::Free { low, high, step } => {
            format!("drawn from {} to {} in steps of {}", number(*low), number(*high), number(*step))
        }
        SymbolSource::Letters(any_of) => format!("one of {}", any_of.join(", ")),
    }
}
