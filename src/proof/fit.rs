//! From front matter to the scenario that it names, or what in it does not fit these concepts.

use super::front::Matter;
use crate::concepts::Graph;
use crate::diagnostic::{Code, Diagnostic, code};
use crate::scenario::{Front, FrontError, Generator, Scenario};
use crate::source::Span;

/// Values that were rounded to eight digits may differ in the last.
const CLOSE: f64 = 1e-6;

/// The scenario made again; none, and the faults, where that cannot be done.
pub(super) fn fit(generator: &Generator, matter: &Matter<'_>, faults: &mut Vec<Diagnostic>) -> Option<Scenario> {
    let front = matter.front.as_ref()?;
    let graph = generator.graph();
    if front.graph != graph.version() {
        let message = format!("the file was made from concepts `{}`, these are `{}`", front.graph, graph.version());
        let fault = Diagnostic::error(&code::OTHER_CONCEPTS, matter.word("graph", &front.graph), message);
        faults.push(
            fault.hint("give the concepts that it was made from with --concepts, or generate the scenario again"),
        );
        return None;
    }
    let before = faults.len();
    Names { graph, matter, faults }.all(front);
    if faults.len() > before {
        return None;
    }
    match generator.again(front) {
        Ok(scenario) => values(matter, front, &scenario.front, faults).then_some(scenario),
        Err(error) => {
            faults.push(unfit(matter, &error));
            None
        }
    }
}

fn unfit(matter: &Matter<'_>, error: &FrontError) -> Diagnostic {
    let message = error.to_string();
    // Messages name the field that is at fault in backticks.
    let named = message.split('`').nth(1).unwrap_or("path");
    let fault = Diagnostic::error(&code::FRONT_MATTER_UNFIT, matter.key(named), message.clone());
    fault.hint("front matter is not for editing by hand: put back what `toehold generate` wrote")
}

/// Looks names up.
struct Names<'a, 'f> {
    graph: &'a Graph,
    matter: &'a Matter<'a>,
    faults: &'f mut Vec<Diagnostic>,
}

impl Names<'_, '_> {
    fn all(&mut self, front: &Front) {
        let graph = self.graph;
        let influences: Vec<&str> = graph.influences().map(|(_, part)| part.id.as_str()).collect();
        let rigs: Vec<&str> = graph.rigs().map(|(_, part)| part.id.as_str()).collect();
        let acts: Vec<&str> = graph.acts().map(|(_, part)| part.id.as_str()).collect();
        let contexts: Vec<&str> = graph.contexts().map(|(_, part)| part.id.as_str()).collect();
        let settings: Vec<&str> = graph.settings().map(|(_, part)| part.id.as_str()).collect();
        self.one(&code::UNKNOWN_CHOICE, "form", "form", &front.form, &["short", "long"]);
        self.one(&code::UNKNOWN_ACT, "act", "act", &front.act, &acts);
        self.one(&code::UNKNOWN_RIG, "rig", "rig", &front.rig, &rigs);
        self.one(&code::UNKNOWN_CONTEXT, "context", "context", &front.context, &contexts);
        for id in &front.path {
            self.one(&code::UNKNOWN_INFLUENCE, "path", "influence", id, &influences);
        }
        for id in &front.settings {
            self.one(&code::UNKNOWN_SETTING, "settings", "setting", id, &settings);
        }
        for side in &front.sides {
            self.one(&code::UNKNOWN_INFLUENCE, "sides", "influence", &side.influence, &influences);
            self.one(&code::UNKNOWN_CHOICE, "sides", "side", &side.side, &["below", "above"]);
        }
        self.names(front);
        let Some(twist) = &front.twist else { return };
        self.one(&code::UNKNOWN_INFLUENCE, "twist", "influence", &twist.at, &influences);
        if let Some(ix) = graph.find_influence(&twist.at) {
            let twists: Vec<&str> = graph.influence(ix).twists.iter().map(|twist| twist.id.as_str()).collect();
            self.one(&code::UNKNOWN_TWIST, "twist", "twist", &twist.id, &twists);
        }
    }

    fn names(&mut self, front: &Front) {
        let graph = self.graph;
        let entities: Vec<&str> = graph.entities().map(|(_, part)| part.id.as_str()).collect();
        for name in &front.names {
            self.one(&code::UNKNOWN_ENTITY, "names", "entity", &name.entity, &entities);
            if let Some(ix) = graph.find_entity(&name.entity) {
                let known: Vec<&str> = graph.entity(ix).names.iter().map(|name| name.one.as_str()).collect();
                self.one(&code::UNKNOWN_NAME, "names", "name", &name.name, &known);
            }
        }
        let named = |id: &str| front.names.iter().any(|name| name.entity == id);
        let missing: Vec<&str> = entities.into_iter().filter(|id| !named(id)).collect();
        if !missing.is_empty() {
            let message = format!("`names` has no name for `{}`", missing.join("`, `"));
            let fault = Diagnostic::error(&code::FRONT_MATTER_UNFIT, self.matter.key("names"), message);
            self.faults.push(fault.hint("put back the line that `toehold generate` wrote"));
        }
    }

    fn one(&mut self, code: &'static Code, field: &str, kind: &str, given: &str, known: &[&str]) {
        if known.contains(&given) {
            return;
        }
        let message = format!("the concepts have no {kind} `{given}`");
        let fault = Diagnostic::error(code, self.matter.word(field, given), message);
        self.faults.push(fault.did_you_mean(given, known.iter().copied()));
    }
}

/// Whether the values in front matter follow from its seed; a single one that does not is reported by itself.
fn values(matter: &Matter<'_>, front: &Front, made: &Front, faults: &mut Vec<Diagnostic>) -> bool {
    let mut wrong: Vec<(Span, String, String)> = Vec::new();
    let mut n = 0;
    for (name, written, again) in [
        ("noiseless", &front.noiseless, &made.noiseless),
        ("noiseless_twisted", &front.noiseless_twisted, &made.noiseless_twisted),
    ] {
        if written.len() != again.len() {
            let message = format!("`{name}` has {} values; there are {} levels", written.len(), again.len());
            let fault = Diagnostic::error(&code::FRONT_MATTER_UNFIT, matter.key(name), message);
            faults.push(fault.hint("put back what `toehold generate` wrote"));
            return false;
        }
        for (place, (one, other)) in written.iter().zip(again).enumerate() {
            n += 1;
            if !close(*one, *other) {
                wrong.push((matter.number(name, place), one.to_string(), other.to_string()));
            }
        }
    }
    for again in &made.parameters {
        n += 1;
        let words = [again.influence.as_str(), again.symbol.as_str()];
        let same = |of: &&crate::scenario::FrontParameter| of.influence == again.influence && of.symbol == again.symbol;
        let written = front.parameters.iter().find(same).map_or("nothing", |of| of.value.as_str());
        let numbers = written.parse::<f64>().ok().zip(again.value.parse::<f64>().ok());
        if written != again.value && !numbers.is_some_and(|(one, other)| close(one, other)) {
            wrong.push((matter.record("parameters", &words), written.to_owned(), again.value.clone()));
        }
    }
    if wrong.len() > 2 && 3 * wrong.len() > n {
        let message = "the values in `parameters` and `noiseless` do not follow from this seed and attempt";
        let fault = Diagnostic::error(&code::FRONT_MATTER_UNFIT, matter.key("seed"), message);
        faults
            .push(fault.hint("put back the `seed`, `attempt`, `levels` and `settings` that `toehold generate` wrote"));
        return false;
    }
    for (span, written, again) in wrong {
        let message = format!("front matter says `{written}`; from the seed it is `{again}`");
        faults.push(Diagnostic::error(&code::NUMBER_DIFFERS, span, message).hint(format!("write `{again}`")));
    }
    true
}

fn close(one: f64, other: f64) -> bool {
    (one - other).abs() <= CLOSE * one.abs().max(other.abs())
}
