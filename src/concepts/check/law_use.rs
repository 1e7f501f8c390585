//! Laws: each influence names one, and gives each of its symbols one value in range.

use std::collections::{BTreeMap, BTreeSet};

use super::super::graph::{LawUse, SymbolSource};
use super::super::written::{FixedSymbol, FreeSymbol, Influence, Text};
use super::scope::{Located, Scope};
use super::units;
use crate::diagnostic::{Diagnostic, code, nearest};
use crate::laws::{self, Kind, Law, Symbol};
use crate::quantity::significant;
use crate::source::Span;

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for influence in &scope.influences.parts {
        faults.extend(bind(scope, influence).faults);
    }
}

/// A law with a source for each symbol, or what is wrong with its use.
pub(super) struct Bound {
    pub(super) law: Option<LawUse>,
    faults: Vec<Diagnostic>,
}

/// Joins an influence to its law.
pub(super) fn bind(scope: &Scope<'_>, influence: &Located<'_, Influence>) -> Bound {
    let mut faults = Vec::new();
    let law = bound(scope, influence, &mut faults);
    Bound { law: law.filter(|_| faults.is_empty()), faults }
}

fn bound(scope: &Scope<'_>, influence: &Located<'_, Influence>, faults: &mut Vec<Diagnostic>) -> Option<LawUse> {
    let written = &influence.part.law;
    let Some(law) = laws::find(&written.name.value) else {
        if super::fill::is_open(&written.name.value) {
            let fault = super::fill::open(influence.span(&written.name), "law", std::iter::empty());
            faults.push(Diagnostic {
                hints: vec!["`toehold laws` lists them, `toehold laws show ID` tells the symbols".into()],
                ..fault
            });
            return None;
        }
        let message = format!("there is no law `{}`", written.name.value);
        let fault = Diagnostic::error(&code::UNKNOWN_LAW, influence.span(&written.name), message);
        let fault = fault.did_you_mean(&written.name.value, laws::all().map(|law| law.id));
        faults.push(fault.hint("`toehold laws` lists them"));
        return None;
    };
    let mut given = Given { influence, law, sources: BTreeMap::new(), meant: BTreeSet::new(), faults };
    given.all();
    let mut sources = Vec::new();
    for symbol in law.inputs {
        match given.sources.remove(symbol.id) {
            Some((_, source)) => sources.push(source),
            None if given.meant.contains(symbol.id) => {}
            None => given.missing(symbol),
        }
    }
    let faults = given.faults;
    let units = units::in_out(scope, influence, law, faults)?;
    let (input, driven) = law.input(&written.input.value)?;
    faults.extend(driven_range(scope, influence, driven, &units));
    let means = |fixed: &FixedSymbol| Some((law.input(&fixed.symbol.value)?.0, fixed.means.as_ref()?.value.clone()));
    let meanings = written.fixed.iter().filter_map(means).collect();
    let whole = sources.len() == law.inputs.len();
    whole.then_some(LawUse { law, input, sources, meanings, input_unit: units.input, output_unit: units.output })
}

/// The believable range of `from`, or the narrower one, must lie where the law holds.
fn driven_range(
    scope: &Scope<'_>,
    influence: &Located<'_, Influence>,
    driven: &Symbol,
    units: &units::InOut,
) -> Option<Diagnostic> {
    let part = influence.part;
    let quantity = scope.quantities.find(&part.from.value)?;
    let unit = scope.unit(&part.from.value)?;
    let [low, high] = part.over.as_ref().map_or(quantity.part.range.value, |over| over.value);
    let ends = [unit.convert(low, &units.input).ok()?, unit.convert(high, &units.input).ok()?];
    let (least, greatest) = driven.range;
    if ends.iter().all(|end| (least..=greatest).contains(end)) {
        return None;
    }
    let message = format!(
        "`{}` runs from {} to {} {}, but the law takes `{}` from {} to {}",
        part.from.value,
        number(ends[0]),
        number(ends[1]),
        units.input.code(),
        driven.id,
        number(least),
        number(greatest)
    );
    let (place, ranges) = match &part.over {
        Some(over) => (influence.span(over), None),
        None => (influence.span(&part.law.input), Some(quantity.span(&quantity.part.range))),
    };
    let fault = Diagnostic::error(&code::VALUE_OUTSIDE_LAW, place, message);
    let fault = ranges.into_iter().fold(fault, |fault, range| fault.related(range, "its believable range"));
    Some(fault.hint("give the influence a narrower range: `over: [low, high]` in the unit of `from`"))
}

/// A number in a message.
pub(super) fn number(value: f64) -> String {
    significant::shortest(value, 4)
}

/// The symbols as they are given, one after the other.
struct Given<'g, 'a> {
    influence: &'g Located<'a, Influence>,
    law: &'static Law,
    sources: BTreeMap<&'static str, (Span, SymbolSource)>,
    /// Symbols that something was meant for, though it cannot be used; that has been reported.
    meant: BTreeSet<&'static str>,
    faults: &'g mut Vec<Diagnostic>,
}

impl Given<'_, '_> {
    fn all(&mut self) {
        let written = &self.influence.part.law;
        self.give(&written.input, Kind::Number, SymbolSource::Driven);
        for fixed in &written.fixed {
            let value = fixed.value.value;
            if let Some(symbol) = self.give(&fixed.symbol, Kind::Number, SymbolSource::Fixed(value)) {
                self.admit(symbol, value, self.influence.span(&fixed.value));
            }
        }
        for free in &written.free {
            let source = SymbolSource::Free { low: free.low, high: free.high, step: free.step };
            if let Some(symbol) = self.give(&free.symbol, Kind::Number, source) {
                self.free(symbol, free);
            }
        }
        for letters in &written.letters {
            let any_of: Vec<String> = letters.any_of.iter().map(|text| text.value.clone()).collect();
            if any_of.is_empty() {
                let message = format!("`{}` has nothing to be drawn from", letters.symbol.value);
                self.faults.push(
                    Diagnostic::error(&code::EMPTY_TEXT, self.influence.span(&letters.symbol), message)
                        .hint("list at least one text under `any_of`"),
                );
            }
            self.give(&letters.symbol, Kind::Text, SymbolSource::Letters(any_of));
        }
        for first in &written.at_first {
            self.give(first, Kind::Number, SymbolSource::AtFirst);
        }
    }

    /// Notes the source of a symbol, if the law has it, takes that kind of value, and has none yet.
    fn give(&mut self, id: &Text, kind: Kind, source: SymbolSource) -> Option<&'static Symbol> {
        let here = self.influence.span(id);
        let Some((_, symbol)) = self.law.input(&id.value) else {
            let message = format!("the law `{}` has no symbol `{}`", self.law.id, id.value);
            let fault = Diagnostic::error(&code::UNKNOWN_SYMBOL, here, message);
            let symbols: Vec<&'static str> = self.law.inputs.iter().map(|symbol| symbol.id).collect();
            self.meant.extend(symbols.iter().find(|symbol| nearest(&id.value, &symbols) == Some(symbol)));
            self.faults.push(fault.did_you_mean(&id.value, self.law.inputs.iter().map(|symbol| symbol.id)));
            return None;
        };
        if symbol.kind != kind {
            self.meant.insert(symbol.id);
            let message = format!("`{}` takes {}, not {}", symbol.id, words(symbol.kind), words(kind));
            let fault = Diagnostic::error(&code::WRONG_KIND_OF_SYMBOL, here, message);
            self.faults.push(fault.hint(match symbol.kind {
                Kind::Text => "give letters under `letters`, with `any_of`",
                Kind::Number => "give a number under `fixed` or `free`",
                Kind::List => "a law that takes a list cannot carry an influence",
            }));
            return None;
        }
        if let Some((before, _)) = self.sources.get(symbol.id) {
            let message = format!("`{}` is given twice", symbol.id);
            let fault = Diagnostic::error(&code::SYMBOL_GIVEN_TWICE, here, message);
            self.faults.push(fault.related(*before, "it is given here too").hint("keep one of the two"));
            return None;
        }
        self.sources.insert(symbol.id, (here, source));
        Some(symbol)
    }

    fn missing(&mut self, symbol: &'static Symbol) {
        let message = format!("the law `{}` needs a value for `{}`, {}", self.law.id, symbol.id, symbol.meaning);
        let here = self.influence.span(&self.influence.part.law.name);
        let hint = match symbol.kind {
            Kind::Number => format!("add `{}` under `fixed`, `free` or `at_first`", symbol.id),
            Kind::Text => format!("add `{}` under `letters`", symbol.id),
            Kind::List => "a law that takes a list cannot carry an influence".to_owned(),
        };
        self.faults.push(Diagnostic::error(&code::MISSING_SYMBOL, here, message).hint(hint));
    }

    fn admit(&mut self, symbol: &Symbol, value: f64, here: Span) {
        let (low, high) = symbol.range;
        if (low..=high).contains(&value) {
            return;
        }
        let message =
            format!("`{}` is {}, but the law takes {} to {}", symbol.id, number(value), number(low), number(high));
        let fault = Diagnostic::error(&code::VALUE_OUTSIDE_LAW, here, message);
        self.faults.push(fault.hint(format!("`{}` is the {}", symbol.id, symbol.meaning)));
    }

    fn free(&mut self, symbol: &Symbol, free: &FreeSymbol) {
        let here = self.influence.span(&free.symbol);
        let (low, high, step) = (free.low, free.high, free.step);
        if !low.is_finite() || !high.is_finite() || low >= high {
            let message = format!("`{}` cannot be drawn from {} to {}", symbol.id, number(low), number(high));
            let fault = Diagnostic::error(&code::BAD_RANGE, here, message);
            self.faults.push(fault.hint("`low` must be less than `high`; give a single value under `fixed`"));
        } else if !(step > 0.0 && step <= (high - low) * (1.0 + 1e-9)) || (high - low) / step > 1e6 {
            let message = format!(
                "`{}` cannot go from {} to {} in steps of {}",
                symbol.id,
                number(low),
                number(high),
                number(step)
            );
            let fault = Diagnostic::error(&code::BAD_RANGE, here, message);
            self.faults.push(fault.hint("`step` must be positive and fit into the range at most a million times"));
        } else {
            let faults = self.faults.len();
            self.admit(symbol, low, here);
            if self.faults.len() == faults {
                self.admit(symbol, high, here);
            }
        }
    }
}

fn words(kind: Kind) -> &'static str {
    match kind {
        Kind::Number => "a number",
        Kind::List => "a list of numbers",
        Kind::Text => "letters",
    }
}
