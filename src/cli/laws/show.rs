//! `toehold laws show NAME`: one law with its symbols, range, source and a plot.

use clap::Args;

use super::super::{Exit, Failure, World};
use super::list::{effect_text, law_json, unit_text};
use super::plot::{Curve, Label};
use super::{Format, named, print_json};
use crate::diagnostic::folded;
use crate::laws::{Kind, Law, Symbol, UnitRule, Value};
use crate::quantity::{Unit, significant};

/// How far from its example an input is varied where the example has no range for it.
const AROUND: f64 = 3.0;
/// Points of such a curve.
const N_POINTS: u32 = 60;

/// Columns that running text fills.
const WIDTH: usize = 90;

/// What `show` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The law's name.
    name: String,
    /// Print the plot alone, as SVG.
    #[arg(long)]
    svg: bool,
    /// Plot the value against this symbol (else the one that the law's example varies).
    #[arg(long, value_name = "SYMBOL")]
    against: Option<String>,
}

impl Arguments {
    /// Whether a plot alone is asked for.
    pub(super) fn is_picture(&self) -> bool {
        self.svg
    }
}

pub(super) fn run(arguments: &Arguments, format: Option<Format>, world: &mut World<'_>) -> Result<Exit, Failure> {
    let law = named(&arguments.name)?;
    if format == Some(Format::Json) && !arguments.svg {
        return print_json(&law_json(law), world);
    }
    let curve = curve(law, arguments.against.as_deref())?;
    if arguments.svg {
        let Some(curve) = curve else {
            return Err(Failure::new(format!("`{}` has no number to plot its value against", law.id)));
        };
        writeln!(world.out, "{}", curve.svg())?;
        return Ok(Exit::Done);
    }
    describe(law, world)?;
    if let Some(curve) = curve {
        writeln!(world.out, "\n{}", curve.text())?;
    }
    Ok(Exit::Done)
}

fn describe(law: &Law, world: &mut World<'_>) -> Result<(), Failure> {
    writeln!(world.out, "{} ({})\n{}\n\n  {}\n", law.id, law.family, law.title, law.formula)?;
    let rows: Vec<[String; 5]> = law.inputs.iter().map(row).collect();
    let heads = ["symbol", "", "unit", "range", "effect of more"].map(str::to_owned);
    let mut widths = [0; 5];
    for row in rows.iter().chain([&heads]) {
        for (width, cell) in widths.iter_mut().zip(row) {
            *width = (*width).max(cell.chars().count());
        }
    }
    for (place, row) in [&heads].into_iter().chain(&rows).enumerate() {
        let cells = row.iter().zip(widths).map(|(cell, width)| format!("{cell:width$}"));
        writeln!(world.out, "  {}", cells.collect::<Vec<_>>().join("  ").trim_end())?;
        if let Some(symbol) = place.checked_sub(1).and_then(|place| law.inputs.get(place)) {
            writeln!(world.out, "      {}", symbol.meaning)?;
        }
    }
    writeln!(world.out)?;
    for output in law.outputs {
        writeln!(world.out, "  gives {} ({}): {}", output.id, shown(&law.unit_of(output)), output.meaning)?;
    }
    writeln!(world.out)?;
    for (name, text) in [("assumes", law.assumptions), ("source", law.source)] {
        for (place, line) in folded(text, WIDTH, 0).iter().enumerate() {
            writeln!(world.out, "  {:9}{line}", if place == 0 { name } else { "" })?;
        }
    }
    if !law.inverses.is_empty() {
        let solved: Vec<&str> = law.inverses.iter().map(|inverse| inverse.symbol).collect();
        writeln!(world.out, "  solved   for {}", solved.join(", "))?;
    }
    writeln!(world.out, "\n  toehold laws eval {} {}", law.id, law.example)?;
    Ok(())
}

/// A unit as readers write it: the UCUM code where it is one, "1" for a plain number, words as they are.
fn shown(code: &str) -> String {
    match Unit::parse(code) {
        Ok(unit) if unit.display().is_empty() => "1".to_owned(),
        Ok(unit) => unit.display().to_owned(),
        Err(_) => code.replace('_', " "),
    }
}

fn row(symbol: &Symbol) -> [String; 5] {
    let write = |number: f64| significant::shortest(number, 6);
    let range = match symbol.kind {
        Kind::Text => "letters".to_owned(),
        Kind::List => format!("list, {} to {}", write(symbol.range.0), write(symbol.range.1)),
        Kind::Number => format!("{} to {}", write(symbol.range.0), write(symbol.range.1)),
    };
    [symbol.id.to_owned(), symbol.letter.to_owned(), shown(&unit_text(symbol)), range, effect_text(symbol.effect)]
}

/// The value over one input: the one asked for, else the one that the example varies; none where there is no such.
fn curve(law: &'static Law, against: Option<&str>) -> Result<Option<Curve>, Failure> {
    let example = law.read_example().map_err(|error| Failure::new(error.to_string()))?;
    let (place, levels) = match (against, &example.range) {
        (None, None) => return Ok(None),
        (None, Some(range)) => (range.place, range.levels.clone()),
        (Some(name), range) => {
            let Some((place, symbol)) = law.input(name).filter(|(_, symbol)| symbol.kind == Kind::Number) else {
                let known: Vec<&str> = law.inputs.iter().map(|symbol| symbol.id).collect();
                return Err(Failure::new(format!("`{}` has no number `{name}`", law.id))
                    .hint(format!("its symbols are {}", known.join(", "))));
            };
            match range {
                Some(range) if range.place == place => (place, range.levels.clone()),
                _ => (place, around(symbol, example.values.get(place))),
            }
        }
    };
    let values = example.middle();
    let points = levels.iter().filter_map(|level| {
        let mut inputs = values.clone();
        *inputs.get_mut(place)? = Value::Number(*level);
        Some((*level, law.value(&inputs).ok()?))
    });
    let points: Vec<(f64, f64)> = points.collect();
    let (Some(symbol), Some(output), true) = (law.inputs.get(place), law.outputs.first(), points.len() >= 2) else {
        return Ok(None);
    };
    let unit = |code: String, rule: UnitRule| if rule == UnitRule::Any { String::new() } else { code };
    Ok(Some(Curve {
        title: law.title.to_owned(),
        x: label(symbol.id, &unit(unit_text(symbol), symbol.unit)),
        y: label(output.id, &unit(law.unit_of(output), output.unit)),
        points,
    }))
}

/// Levels from nought (or a third, where nought is out of range) to three times the example, within the range.
fn around(symbol: &Symbol, example: Option<&Value>) -> Vec<f64> {
    let middle = if let Some(Value::Number(number)) = example { *number } else { 0.0 };
    let (least, most) = match symbol.unit {
        UnitRule::Ucum("Cel") => (middle - 20.0, middle + 20.0),
        _ if middle > 0.0 && symbol.range.0 <= 0.0 => (0.0, AROUND * middle),
        _ if middle > 0.0 => (middle / AROUND, AROUND * middle),
        _ if middle < 0.0 => (AROUND * middle, middle / AROUND),
        _ => (0.0, 1.0),
    };
    let (low, high) = (least.max(symbol.range.0), most.min(symbol.range.1));
    (0..=N_POINTS).map(|step| low + (high - low) * f64::from(step) / f64::from(N_POINTS)).collect()
}

/// Words for an axis: the unit as readers write it, or which input's unit it is.
fn label(id: &str, code: &str) -> Label {
    let unit = Unit::parse(code).map_or_else(|_| code.replace('_', " "), |unit| unit.display().to_owned());
    Label { name: id.replace('_', " "), unit }
}
