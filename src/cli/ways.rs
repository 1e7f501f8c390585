//! `toehold explain FROM TO`: every way from one quantity to another, a step a line, and what follows from the signs.

use serde_json::{Value, json};

use super::{Failure, World};
use crate::concepts::graph::Graph;
use crate::concepts::written::TwistKind;
use crate::concepts::{InfluenceIx, Path, QuantityIx, Settings, Side, TwistAt, sides};
use crate::reasoning::{Derivation, StepSign, Verdict, Withheld, derive};

/// Steps of the longest way that is followed.
const LONGEST: usize = 9;

/// One way with what holds on it, and a twist of it where one was asked for.
struct Way {
    path: Path,
    settings: Settings,
    twist: Option<TwistAt>,
    derivation: Derivation,
}

/// Ways between two quantities, and what follows from each.
///
/// # Errors
/// No way leads there, or none with such a twist.
pub(super) fn ways(
    graph: &Graph,
    from: QuantityIx,
    to: QuantityIx,
    twist: Option<TwistKind>,
    json: bool,
    world: &mut World<'_>,
) -> Result<(), Failure> {
    let mut found = Vec::new();
    walk(graph, from, to, &mut Vec::new(), &mut found);
    found.sort_by_key(|(path, _)| path.steps().len());
    let ways: Vec<Way> = found.iter().flat_map(|(path, settings)| with_twists(graph, path, settings, twist)).collect();
    let (from, to) = (graph.quantity(from), graph.quantity(to));
    if ways.is_empty() {
        let message = format!("no way leads from `{}` to `{}`", from.id, to.id);
        let hint = match twist {
            Some(_) => "ask without --twist to see the ways that there are",
            None => "a way has at most nine steps, and its settings must go together",
        };
        return Err(Failure::new(message).hint(hint));
    }
    if json {
        let list: Vec<Value> = ways.iter().map(|way| way_json(graph, way)).collect();
        writeln!(world.out, "{}", json!({ "version": 1, "from": from.id, "to": to.id, "derivations": list }))?;
        return Ok(());
    }
    for (way, number) in ways.iter().zip(1..) {
        if number > 1 {
            writeln!(world.out)?;
        }
        write!(world.out, "{}", way_text(graph, way, number))?;
    }
    Ok(())
}

/// Every way whose settings go together, the sides of turning steps told apart.
fn walk(
    graph: &Graph,
    here: QuantityIx,
    to: QuantityIx,
    walked: &mut Vec<InfluenceIx>,
    found: &mut Vec<(Path, Settings)>,
) {
    if here == to && !walked.is_empty() {
        if let Some(path) = Path::new(graph, walked.clone()) {
            found.extend(settings(graph, walked).into_iter().map(|settings| (path.clone(), settings)));
        }
        return;
    }
    if walked.len() == LONGEST {
        return;
    }
    for next in graph.leaving(here) {
        walked.push(next);
        if Path::new(graph, walked.clone()).is_some() && !settings(graph, walked).is_empty() {
            walk(graph, graph.influence(next).to, to, walked, found);
        }
        walked.pop();
    }
}

/// What must hold on a way: one set of settings for each choice of sides, none where it cannot hold together.
fn settings(graph: &Graph, walked: &[InfluenceIx]) -> Vec<Settings> {
    let mut base = Settings::default();
    base.holds.extend(walked.iter().flat_map(|step| &graph.influence(*step).needs));
    if base.clash(graph).is_some() || walked.iter().any(|step| !base.allow(graph.influence(*step))) {
        return Vec::new();
    }
    let mut all = vec![base];
    for step in walked {
        let choices: Vec<Option<Side>> = sides(graph.influence(*step)).to_vec();
        let placed = |settings: &Settings, side: &Option<Side>| {
            let mut settings = settings.clone();
            settings.sides.extend(side.map(|side| (*step, side)));
            settings
        };
        all = all
            .iter()
            .flat_map(|settings| choices.iter().map(|side| placed(settings, side)).collect::<Vec<_>>())
            .collect();
    }
    all
}

fn with_twists(graph: &Graph, path: &Path, settings: &Settings, kind: Option<TwistKind>) -> Vec<Way> {
    let way = |twist: Option<TwistAt>| Way {
        derivation: derive(graph, path, settings, twist),
        path: path.clone(),
        settings: settings.clone(),
        twist,
    };
    let Some(kind) = kind else { return vec![way(None)] };
    let mut ways = Vec::new();
    for influence in path.steps() {
        for (number, twist) in graph.influence(*influence).twists.iter().enumerate() {
            let possible = twist.remove.is_none_or(|gone| settings.holds.contains(&gone));
            if twist.kind == kind && possible && settings.after(twist).clash(graph).is_none() {
                ways.push(way(Some(TwistAt { influence: *influence, number })));
            }
        }
    }
    ways
}

fn way_text(graph: &Graph, way: &Way, number: usize) -> String {
    let mut lines = vec![format!("Way {number}")];
    let holds: Vec<&str> = way.settings.holds.iter().map(|ix| graph.setting(*ix).holds.as_str()).collect();
    if !holds.is_empty() {
        lines.push(format!("  where {}", holds.join("; ")));
    }
    if let Some(twist) = way.twist.and_then(|at| at.get(graph)) {
        lines.push(format!("  changed: {} ({})", twist.because, twist.id));
    }
    for step in way.derivation.path() {
        let influence = graph.influence(step.influence);
        let principle = graph.principle(influence.principle);
        let sign = match step.sign {
            StepSign::Acts(sign) => sign.to_string(),
            StepSign::Zero => "0".to_owned(),
        };
        lines.push(format!(
            "  {} →{sign} {}   {} ({})",
            graph.quantity(influence.from).name,
            graph.quantity(influence.to).name,
            influence.because,
            principle.name
        ));
    }
    lines.push(format!("  so: {}\n", conclusion(graph, way)));
    lines.join("\n")
}

/// What follows, in words.
fn conclusion(graph: &Graph, way: &Way) -> String {
    let ends = way.path.quantities(graph);
    let name = |ix: Option<&QuantityIx>| ix.map_or("", |ix| graph.quantity(*ix).name.as_str());
    let (from, to) = (name(ends.first()), name(ends.last()));
    match way.derivation.verdict() {
        Verdict::Determined(direction) => match way.derivation.routes().len() {
            0 | 1 => format!("{from} raised: {to} {direction}"),
            n => format!("{from} raised: {to} {direction} ({n} ways under these settings, and all agree)"),
        },
        Verdict::Rival => format!("withheld: ways of both signs lead to {to}, and magnitudes decide"),
        Verdict::Withheld(reason) => format!("withheld: {}", reason_words(graph, reason)),
    }
}

fn reason_words(graph: &Graph, reason: &Withheld) -> String {
    match reason {
        Withheld::UnknownStep(ix) => format!("the sign of `{}` is not known", graph.influence(*ix).id),
        Withheld::Loop(members, reason) => {
            let names: Vec<&str> = members.iter().map(|ix| graph.quantity(*ix).name.as_str()).collect();
            format!("a loop through {} could turn the answer: {reason}", names.join(", "))
        }
        Withheld::TooManyRoutes => "there are more ways than are followed".to_owned(),
    }
}

fn way_json(graph: &Graph, way: &Way) -> Value {
    let steps: Vec<Value> = way
        .derivation
        .path()
        .iter()
        .map(|step| {
            let influence = graph.influence(step.influence);
            json!({
                "influence": influence.id,
                "from": graph.quantity(influence.from).id,
                "to": graph.quantity(influence.to).id,
                "sign": step.sign.ascii(),
                "then": step.then.word(),
                "because": influence.because,
                "principle": graph.principle(influence.principle).id,
            })
        })
        .collect();
    let (prediction, reason) = match way.derivation.verdict() {
        Verdict::Determined(direction) => (direction.word(), None),
        Verdict::Rival => ("withheld", Some(conclusion(graph, way))),
        Verdict::Withheld(reason) => ("withheld", Some(reason_words(graph, reason))),
    };
    let twist = way.twist.and_then(|at| {
        let twist = at.get(graph)?;
        Some(json!({
            "at": graph.influence(at.influence).id,
            "id": twist.id,
            "kind": twist.kind,
            "because": twist.because,
        }))
    });
    json!({
        "path": way.path.steps().iter().map(|step| graph.influence(*step).id.as_str()).collect::<Vec<_>>(),
        "settings": way.settings.holds.iter().map(|ix| graph.setting(*ix).id.as_str()).collect::<Vec<_>>(),
        "steps": steps,
        "ways": way.derivation.routes().len(),
        "prediction": prediction,
        "reason": reason,
        "twist": twist,
    })
}
