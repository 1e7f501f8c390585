//! Influences that give one quantity by one law are one mechanism: the values that they share are the same.

use std::collections::BTreeMap;

use super::super::graph::SymbolSource;
use super::law_use::number;
use super::scope::Scope;
use crate::diagnostic::{Diagnostic, code};

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    // The influence that first gives a symbol of a mechanism its value.
    let mut first = BTreeMap::new();
    for (influence, law) in scope.influences.parts.iter().zip(&scope.uses) {
        let Some(law) = law else { continue };
        for (symbol, source) in law.law.inputs.iter().zip(&law.sources) {
            if matches!(source, SymbolSource::Driven | SymbolSource::AtFirst) {
                continue;
            }
            let key = (influence.part.to.value.as_str(), law.law.id, symbol.id);
            let (other, before) = first.entry(key).or_insert((influence, source));
            if before != &source {
                let message = format!(
                    "`{}` is {} here and {} in `{}`, though both give `{}` by the law `{}`",
                    symbol.id,
                    words(source),
                    words(before),
                    other.part.id.value,
                    influence.part.to.value,
                    law.law.id
                );
                let here = influence.span(&influence.part.law.name);
                let fault = Diagnostic::error(&code::LAWS_DISAGREE, here, message);
                let fault = fault.related(other.span(&other.part.law.name), "the other use of the law");
                faults.push(fault.hint("give both the same value, range and step"));
            }
        }
    }
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
