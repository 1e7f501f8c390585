//! `toehold laws eval NAME symbol=value …`: the value of a law, once or over a range.

use clap::Args;
use serde_json::{Map, Value as Json};

use super::super::{Exit, Failure, World};
use super::{Format, VERSION, json_number, json_value, named, object, print_json};
use crate::laws::{Law, Typed, TypedError, UnitRule, Value};
use crate::quantity::{Unit, significant};

/// Figures of a value printed for people.
const FIGURES: usize = 6;

/// What `eval` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The law's name.
    name: String,
    /// Inputs: numbers, lists (5474,1850), letters, or one range (0:10:0.5).
    #[arg(value_name = "SYMBOL=VALUE")]
    inputs: Vec<String>,
}

pub(super) fn run(arguments: &Arguments, format: Option<Format>, world: &mut World<'_>) -> Result<Exit, Failure> {
    let law = named(&arguments.name)?;
    let typed = law.read(&arguments.inputs).map_err(|error| unread(law, &error))?;
    let ranged = typed.range.is_some();
    let results = results(law, &typed)?;
    match format {
        Some(Format::Json) if ranged => print_json(&range_json(law, &typed, &results), world),
        Some(Format::Json) => print_json(&Json::Object(result_json(law, results.first())), world),
        None if ranged => csv(law, &typed, &results, world),
        Some(Format::Csv) => csv(law, &typed, &results, world),
        Some(Format::Text) | None => text(law, &typed, &results, world),
    }
}

/// What went in, and what came out.
struct Evaluated {
    level: Option<f64>,
    outputs: Vec<Value>,
}

fn results(law: &Law, typed: &Typed) -> Result<Vec<Evaluated>, Failure> {
    let evaluate = |inputs: Vec<Value>| {
        let level = typed.range.as_ref().and_then(|range| match inputs.get(range.place) {
            Some(Value::Number(level)) => Some(*level),
            _ => None,
        });
        let outputs = law.evaluate(&inputs).map_err(|error| {
            let failure = Failure::new(error.to_string());
            failure.hint(format!("`toehold laws show {}` tells where the law holds", law.id))
        })?;
        Ok(Evaluated { level, outputs })
    };
    typed.levels().map(evaluate).collect()
}

fn unread(law: &Law, error: &TypedError) -> Failure {
    let failure = Failure::new(error.to_string());
    match error {
        TypedError::Unknown { near: Some(near), .. } => failure.hint(format!("did you mean `{near}`?")),
        TypedError::Unknown { known, .. } => failure.hint(format!("its symbols are {}", known.join(", "))),
        TypedError::Missing { .. } => {
            failure.hint(format!("for example: toehold laws eval {} {}", law.id, law.example))
        }
        TypedError::TooMany { .. } => failure.hint("take a larger step, or part the range"),
        _ => failure,
    }
}

/// Law, value and unit, then every output by name.
fn result_json(law: &Law, result: Option<&Evaluated>) -> Map<String, Json> {
    let mut map = Map::new();
    let mut put = |key: &str, value: Json| map.insert(key.to_owned(), value);
    put("law", law.id.into());
    let outputs: &[Value] = result.map_or(&[], |result| &result.outputs);
    if let (Some(value), Some(output)) = (outputs.first(), law.outputs.first()) {
        put("value", json_value(value));
        put("unit", law.unit_of(output).into());
    }
    for (value, output) in outputs.iter().zip(law.outputs) {
        put(output.id, json_value(value));
    }
    let units = law.outputs.iter().map(|output| (output.id.to_owned(), law.unit_of(output).into()));
    put("units", Json::Object(units.collect()));
    put("version", VERSION.into());
    map
}

fn range_json(law: &Law, typed: &Typed, results: &[Evaluated]) -> Json {
    let symbol = typed.range.as_ref().and_then(|range| law.inputs.get(range.place)).map_or("", |symbol| symbol.id);
    let unit = law.outputs.first().map(|output| law.unit_of(output)).unwrap_or_default();
    let points = results.iter().map(|result| {
        let mut map = Map::new();
        map.insert(symbol.to_owned(), json_number(result.level.unwrap_or_default()));
        map.insert("value".to_owned(), result.outputs.first().map_or(Json::Null, json_value));
        for (value, output) in result.outputs.iter().zip(law.outputs) {
            map.insert(output.id.to_owned(), json_value(value));
        }
        Json::Object(map)
    });
    object([
        ("law", law.id.into()),
        ("symbol", symbol.into()),
        ("unit", unit.into()),
        ("points", Json::Array(points.collect())),
        ("version", VERSION.into()),
    ])
}

/// A head line with names, then a line for each level.
fn csv(law: &Law, typed: &Typed, results: &[Evaluated], world: &mut World<'_>) -> Result<Exit, Failure> {
    let varied = typed.range.as_ref().and_then(|range| law.inputs.get(range.place)).map(|symbol| symbol.id);
    let names = varied.into_iter().chain(law.outputs.iter().map(|output| output.id));
    writeln!(world.out, "{}", names.collect::<Vec<_>>().join(","))?;
    for result in results {
        let cells = result.level.map(plain).into_iter().chain(result.outputs.iter().map(cell));
        writeln!(world.out, "{}", cells.collect::<Vec<_>>().join(","))?;
    }
    Ok(Exit::Done)
}

fn cell(value: &Value) -> String {
    match value {
        Value::Number(number) => plain(*number),
        Value::List(numbers) => numbers.iter().map(|number| plain(*number)).collect::<Vec<_>>().join(" "),
        Value::Text(text) => text.clone(),
    }
}

/// All digits that a float has, with a power of ten where it is far from 1.
fn plain(number: f64) -> String {
    let size = number.abs();
    if size > 0.0 && !(1e-5..1e15).contains(&size) { format!("{number:e}") } else { format!("{number}") }
}

fn text(law: &Law, typed: &Typed, results: &[Evaluated], world: &mut World<'_>) -> Result<Exit, Failure> {
    for result in results {
        for (value, output) in result.outputs.iter().zip(law.outputs) {
            let number = match value {
                Value::Number(number) => significant::shortest(*number, FIGURES),
                Value::List(numbers) => {
                    numbers.iter().map(|n| significant::shortest(*n, FIGURES)).collect::<Vec<_>>().join(", ")
                }
                Value::Text(text) => text.clone(),
            };
            let unit = match output.unit {
                UnitRule::Ucum(code) => Unit::parse(code).ok(),
                UnitRule::Like(_) | UnitRule::Any => None,
            };
            let shown = unit.map_or_else(|| number.clone(), |unit| unit.attach(&number));
            let prefix = result.level.map(|level| format!("{}: ", significant::shortest(level, FIGURES)));
            writeln!(world.out, "{}{} = {shown}", prefix.unwrap_or_default(), output.id)?;
        }
    }
    if typed.range.is_none()
        && let Some(setup) = law.setup(&typed.values)
    {
        let indent = law.formula.split('=').next().map_or(0, |left| left.chars().count());
        writeln!(world.out, "\n    {}\n    {:indent$}= {}", law.formula, "", setup.substituted)?;
    }
    Ok(Exit::Done)
}
