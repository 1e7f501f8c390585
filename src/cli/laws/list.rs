//! `toehold laws`: all laws as a table by field, or as JSON.

use serde_json::Value as Json;

use super::super::{Exit, Failure, World};
use super::{Format, VERSION, json_number, object, print_json};
use crate::laws::{self, Effect, Kind, Law, Symbol, UnitRule};

pub(super) fn run(format: Option<Format>, world: &mut World<'_>) -> Result<Exit, Failure> {
    match format {
        Some(Format::Json) => print_json(&Json::Array(laws::all().map(law_json).collect()), world),
        Some(Format::Csv) => Err(Failure::new("the list of laws has no CSV form").hint("use `--format json`")),
        None | Some(Format::Text) => table(world),
    }
}

/// Name, title and formula, under a heading for each field.
fn table(world: &mut World<'_>) -> Result<Exit, Failure> {
    let width = laws::all().map(|law| law.id.len()).max().unwrap_or(0);
    let mut fields: Vec<&str> = Vec::new();
    for law in laws::all() {
        if !fields.contains(&law.family) {
            fields.push(law.family);
        }
    }
    for field in fields {
        writeln!(world.out, "{field}")?;
        for law in laws::all().filter(|law| law.family == field) {
            writeln!(world.out, "  {:width$}  {}", law.id, law.formula)?;
        }
        writeln!(world.out)?;
    }
    writeln!(world.out, "`toehold laws show NAME` tells more of each.")?;
    Ok(Exit::Done)
}

/// Everything about a law that can be written down.
pub(super) fn law_json(law: &Law) -> Json {
    let symbols = law.inputs.iter().map(symbol_json).collect();
    let ranges = law.inputs.iter().filter(|symbol| symbol.kind != Kind::Text);
    let outputs = law.outputs.iter().map(|output| {
        object([("id", output.id.into()), ("unit", law.unit_of(output).into()), ("meaning", output.meaning.into())])
    });
    object([
        ("id", law.id.into()),
        ("field", law.family.into()),
        ("title", law.title.into()),
        ("formula", law.formula.into()),
        ("symbols", Json::Array(symbols)),
        ("outputs", Json::Array(outputs.collect())),
        ("assumptions", law.assumptions.into()),
        ("source", law.source.into()),
        ("range", Json::Object(ranges.map(|symbol| (symbol.id.to_owned(), range_json(symbol))).collect())),
        ("inverses", Json::Array(law.inverses.iter().map(|inverse| inverse.symbol.into()).collect())),
        ("example", law.example.into()),
        ("version", VERSION.into()),
    ])
}

fn symbol_json(symbol: &Symbol) -> Json {
    let kind = match symbol.kind {
        Kind::Number => "number",
        Kind::List => "list",
        Kind::Text => "text",
    };
    object([
        ("id", symbol.id.into()),
        ("letter", symbol.letter.into()),
        ("unit", unit_text(symbol).into()),
        ("kind", kind.into()),
        ("range", if symbol.kind == Kind::Text { Json::Null } else { range_json(symbol) }),
        ("meaning", symbol.meaning.into()),
        ("effect", effect_text(symbol.effect).into()),
        ("default", symbol.default.map_or(Json::Null, json_number)),
    ])
}

/// Least and greatest value; an end that is open is null.
fn range_json(symbol: &Symbol) -> Json {
    Json::Array(vec![json_number(symbol.range.0), json_number(symbol.range.1)])
}

/// The UCUM code, or what the unit follows.
pub(super) fn unit_text(symbol: &Symbol) -> String {
    match symbol.unit {
        UnitRule::Ucum(code) => code.to_owned(),
        UnitRule::Like(other) => format!("as {other}"),
        UnitRule::Any => "any".to_owned(),
    }
}

/// "+", "−", "0", or when which.
pub(super) fn effect_text(effect: Effect) -> String {
    match effect {
        Effect::Plus => "+".to_owned(),
        Effect::Minus => "−".to_owned(),
        Effect::None => "0".to_owned(),
        Effect::Turning(when) => format!("+ then −, turning {when}"),
        Effect::Depends(how) => format!("± {how}"),
    }
}
