//! `toehold explain --influence ID`: the law of one influence as a curve, and which way it goes, step by step.

use serde_json::json;

use super::laws::plot::{Curve, Label};
use super::{Failure, World};
use crate::concepts::graph::{DeclaredSign, Graph, Influence, SymbolSource};
use crate::concepts::{InfluenceIx, finite_difference};
use crate::laws::Value;
use crate::quantity::significant;

/// Points of the curve.
const N_POINTS: u32 = 60;
/// Places at which the difference is shown.
const N_SIGNS: u32 = 8;

/// One influence at one value of its `from`.
struct Place {
    from: f64,
    to: f64,
    difference: f64,
}

/// Prints the influence, its curve at middle parameters, and the sign of its differences.
///
/// # Errors
/// The law gives no value anywhere in the range.
pub(super) fn show(graph: &Graph, ix: InfluenceIx, json: bool, world: &mut World<'_>) -> Result<(), Failure> {
    let one = graph.influence(ix);
    let curve: Vec<Place> =
        (0..=N_POINTS).filter_map(|n| place(graph, one, f64::from(n) / f64::from(N_POINTS))).collect();
    let signs: Vec<Place> =
        (0..N_SIGNS).filter_map(|n| place(graph, one, (f64::from(n) + 0.5) / f64::from(N_SIGNS))).collect();
    if curve.len() < 2 {
        return Err(Failure::new(format!("the law of `{}` gives no value in its range", one.id))
            .hint("`toehold laws show` names the ranges of its symbols"));
    }
    let (from, to) = (graph.quantity(one.from), graph.quantity(one.to));
    if json {
        let points: Vec<[f64; 2]> = curve.iter().map(|place| [place.from, place.to]).collect();
        let signs: Vec<_> =
            signs.iter().map(|place| json!({ "from": place.from, "sign": sign(place.difference) })).collect();
        let object = json!({
            "version": 1,
            "influence": one.id,
            "from": from.id,
            "to": to.id,
            "declared": declared(one),
            "principle": graph.principle(one.principle).id,
            "law": one.law.law.id,
            "because": one.because,
            "curve": points,
            "differences": signs,
        });
        writeln!(world.out, "{object:#}")?;
        return Ok(());
    }
    writeln!(world.out, "{}: {} \u{2192} {}, declared {}", one.id, from.name, to.name, declared(one))?;
    writeln!(world.out, "  {}", one.because)?;
    writeln!(world.out, "  principle: {}", graph.principle(one.principle).name)?;
    writeln!(world.out, "  law: {}, {}", one.law.law.id, one.law.law.formula)?;
    writeln!(world.out, "  drawn symbols stand at their middles\n")?;
    let label = |name: &str, unit: &str| Label { name: name.to_owned(), unit: unit.to_owned() };
    let drawn = Curve {
        title: one.id.clone(),
        x: label(&from.name, from.unit.display()),
        y: label(&to.name, to.unit.display()),
        points: curve.iter().map(|place| (place.from, place.to)).collect(),
    };
    writeln!(world.out, "{}\n", drawn.text())?;
    writeln!(world.out, "  sign of the difference when a little is added:")?;
    for place in &signs {
        writeln!(
            world.out,
            "  {:>2} at {}",
            sign(place.difference),
            from.unit.attach(&significant::shortest(place.from, 3))
        )?;
    }
    Ok(())
}

fn declared(one: &Influence) -> String {
    match one.sign {
        DeclaredSign::Plus => "+".to_owned(),
        DeclaredSign::Minus => "-".to_owned(),
        DeclaredSign::Turning { at } => format!("turning at {}", significant::shortest(at, 4)),
    }
}

fn sign(difference: f64) -> &'static str {
    if difference > 0.0 {
        "+"
    } else if difference < 0.0 {
        "-"
    } else {
        "0"
    }
}

/// The law at a share of the range, in the units of the quantities; none where it gives no value.
fn place(graph: &Graph, one: &Influence, share: f64) -> Option<Place> {
    let (low, high) = one.over;
    let from = low + (high - low) * share;
    let step = (high - low) * 1e-3;
    let units = (&graph.quantity(one.from).unit, &graph.quantity(one.to).unit);
    let driven = units.0.convert(from, &one.law.input_unit).ok()?;
    let raised = units.0.convert(from + step, &one.law.input_unit).ok()?;
    let first = units.0.convert(low, &one.law.input_unit).ok()?;
    let value = |source: &SymbolSource| match source {
        SymbolSource::Driven => Value::Number(driven),
        SymbolSource::AtFirst => Value::Number(first),
        SymbolSource::Fixed(value) => Value::Number(*value),
        SymbolSource::Free { low, high, step } => {
            Value::Number(low + step * ((high - low) / (2.0 * step) + 1e-9).floor())
        }
        SymbolSource::Letters(any_of) => Value::Text(any_of.first().cloned().unwrap_or_default()),
    };
    let inputs: Vec<Value> = one.law.sources.iter().map(value).collect();
    let law = one.law.law;
    let to = one.law.output_unit.convert(law.value(&inputs).ok()?, units.1).ok()?;
    let difference = finite_difference(law, &inputs, one.law.input, raised - driven).ok()?;
    Some(Place { from, to, difference })
}
