//! Units: that of a quantity is known, and measures what the law's symbols measure.

use super::super::written::{Influence, Text};
use super::scope::{Located, Scope, span};
use crate::diagnostic::{Diagnostic, code};
use crate::laws::{Law, UnitRule};
use crate::quantity::Unit;

/// Longest code that is read: codes nest, and so does their reader.
const LONGEST: usize = 60;

pub(super) fn check(scope: &Scope<'_>, faults: &mut Vec<Diagnostic>) {
    for quantity in &scope.quantities.parts {
        let unit = &quantity.part.unit;
        if let Err(reason) = read(unit) {
            let fault = Diagnostic::error(&code::UNKNOWN_UNIT, quantity.span(unit), reason);
            faults.push(fault.hint("use a UCUM code, such as `mmol/L`, `um`, `Cel`, `%`, or `1` for a plain number"));
        }
    }
}

/// The unit, or why it cannot be read.
pub(super) fn read(code: &Text) -> Result<Unit, String> {
    if code.value.len() > LONGEST {
        return Err(format!("a unit of more than {LONGEST} bytes is not read"));
    }
    Unit::parse(&code.value).map_err(|error| error.to_string())
}

/// What a symbol's unit comes down to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Root {
    /// This UCUM code.
    Code(&'static str),
    /// Any unit, the same for all symbols with this root.
    Group(&'static str),
}

fn root(law: &Law, id: &'static str, rule: UnitRule) -> Root {
    let (mut id, mut rule) = (id, rule);
    for _ in 0..=law.inputs.len() {
        match rule {
            UnitRule::Ucum(code) => return Root::Code(code),
            UnitRule::Any => return Root::Group(id),
            UnitRule::Like(other) => match law.input(other) {
                Some((_, symbol)) => (id, rule) = (symbol.id, symbol.unit),
                None => return Root::Group(other),
            },
        }
    }
    Root::Group(id)
}

/// The units in which the law reads its driven symbol and gives its value.
pub(super) struct InOut {
    pub(super) input: Unit,
    pub(super) output: Unit,
}

/// Units of the driven symbol and of the output, for the quantities that the influence joins.
///
/// Nothing where a unit is unknown (another check says so) or does not match (`faults` say so).
pub(super) fn in_out(
    scope: &Scope<'_>,
    influence: &Located<'_, Influence>,
    law: &'static Law,
    faults: &mut Vec<Diagnostic>,
) -> Option<InOut> {
    let part = influence.part;
    let (_, driven) = law.input(&part.law.input.value)?;
    let output = law.outputs.first()?;
    let (from, to) = (scope.unit(&part.from.value)?, scope.unit(&part.to.value)?);
    let driven_root = root(law, driven.id, driven.unit);
    let output_root = root(law, output.id, output.unit);
    let input = match driven_root {
        Root::Code(code) => Unit::parse(code).ok()?,
        Root::Group(_) => from.clone(),
    };
    let given = match output_root {
        Root::Code(code) => Unit::parse(code).ok()?,
        Root::Group(_) if output_root == driven_root => input.clone(),
        Root::Group(_) => to.clone(),
    };
    let mut fits = true;
    if from.dimension() != input.dimension() {
        fits = false;
        let symbol = format!("`{}` of the law `{}`", driven.id, law.id);
        faults.push(unlike(scope, influence, &part.from, from, &symbol, &input));
    }
    if to.dimension() != given.dimension() {
        fits = false;
        let value = format!("the value of the law `{}`", law.id);
        faults.push(unlike(scope, influence, &part.to, to, &value, &given));
    }
    for first in &part.law.at_first {
        let Some((_, symbol)) = law.input(&first.value) else { continue };
        if root(law, symbol.id, symbol.unit) != driven_root {
            fits = false;
            let message = format!("`{}` cannot be what `{}` is at first: its unit is another", symbol.id, driven.id);
            let fault = Diagnostic::error(&code::UNIT_DOES_NOT_MATCH, influence.span(first), message);
            faults.push(fault.hint("`at_first` is for a symbol that is read in the unit of the driven one"));
        }
    }
    fits.then_some(InOut { input, output: given })
}

fn unlike(
    scope: &Scope<'_>,
    influence: &Located<'_, Influence>,
    id: &Text,
    has: &Unit,
    what: &str,
    needs: &Unit,
) -> Diagnostic {
    let message = format!("`{}` is in `{}`, but {what} is in `{}`", id.value, has.code(), needs.code());
    let mut fault = Diagnostic::error(&code::UNIT_DOES_NOT_MATCH, influence.span(id), message);
    if let Some(quantity) = scope.quantities.find(&id.value) {
        fault = fault.related(span(quantity.file, &quantity.part.unit), "its unit is declared here");
    }
    fault.hint(format!("choose another law or symbol, or a unit that can be turned into `{}`", needs.code()))
}
