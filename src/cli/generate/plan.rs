//! A plan (`toehold new scenario`): what its author chose of a scenario; the rest is drawn.

use std::path::Path;

use serde::Deserialize;

use super::FormWord;
use crate::cli::{Failure, World, files};
use crate::concepts::written::Text;
use crate::concepts::{Graph, InfluenceIx, TwistAt, yaml_fault};
use crate::diagnostic::{self, Code, Diagnostic, code};
use crate::source::{FileId, Sources, Span};
use crate::technique::{Catalogue, TwistWish, Wish};

/// The front matter of a plan.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Plan {
    /// Version of the file format.
    #[serde(rename = "toehold")]
    _format: u32,
    form: Option<Text>,
    act: Option<Text>,
    rig: Option<Text>,
    context: Option<Text>,
    #[serde(default)]
    path: Vec<Text>,
    twist: Option<Twist>,
}

/// A twist by name; `id: none` for none.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Twist {
    at: Option<Text>,
    id: Text,
}

/// Narrows a wish to what the plan of a file says.
///
/// # Errors
/// A file that cannot be read; a plan with faults, which have then been shown on standard error.
pub(super) fn narrow(wish: &mut Wish, graph: &Graph, path: &Path, world: &mut World<'_>) -> Result<(), Failure> {
    let text = files::scenario_text(path)?;
    let mut sources = Sources::new();
    let file = sources.add(path.display().to_string(), text.into_bytes());
    let mut reading = Reading { graph, file, faults: Vec::new() };
    reading.read(sources.text(file), wish);
    for fault in &reading.faults {
        writeln!(world.err, "{}", diagnostic::terminal(&sources, fault, world.colour))?;
    }
    if reading.faults.is_empty() {
        return Ok(());
    }
    Err(Failure::new(format!("`{}` is no plan that can be followed", path.display()))
        .hint("`toehold new scenario` begins one; where it names parts of your own, give their folder with --concepts"))
}

/// Whether a technique can take the path that was planned.
///
/// # Errors
/// None can.
pub(super) fn can_be_walked(wish: &Wish, graph: &Graph, catalogue: &Catalogue) -> Result<(), Failure> {
    let Some(steps) = &wish.steps else { return Ok(()) };
    if catalogue.candidates().iter().any(|candidate| candidate.path.steps() == steps) {
        return Ok(());
    }
    let reasons: Vec<String> = Catalogue::why_not(graph, steps).iter().map(|(reason, _)| reason.to_string()).collect();
    Err(Failure::new("no technique takes the path of the plan").hint(if reasons.is_empty() {
        "a path has three to seven steps".to_owned()
    } else {
        reasons.join("; ")
    }))
}

struct Reading<'g> {
    graph: &'g Graph,
    file: FileId,
    faults: Vec<Diagnostic>,
}

impl Reading<'_> {
    fn read(&mut self, text: &str, wish: &mut Wish) {
        let Some(yaml) = front(text) else {
            let span = Span { file: self.file, start: 0, end: 0 };
            let fault =
                Diagnostic::error(&code::FRONT_MATTER_MISSING, span, "the file does not begin with front matter");
            self.faults.push(fault.hint("a plan stands between two lines of three hyphens, `---`"));
            return;
        };
        let plan = match serde_yaml::from_str::<Plan>(&yaml) {
            Ok(plan) => plan,
            Err(error) => return self.faults.push(yaml_fault(self.file, &yaml, &error)),
        };
        let graph = self.graph;
        if let Some(form) = &plan.form {
            let chosen = ["short", "long"].iter().position(|word| *word == form.value);
            if chosen.is_none() {
                self.unknown(&code::UNKNOWN_CHOICE, "form", form, ["short", "long"].into_iter());
            }
            wish.form = chosen.map(|n| if n == 0 { FormWord::Short } else { FormWord::Long }).map(FormWord::form);
        }
        let acts = graph.acts().map(|(ix, act)| (ix, act.id.as_str()));
        wish.act = self.one(plan.act.as_ref(), &code::UNKNOWN_ACT, "act", acts);
        let rigs = graph.rigs().map(|(ix, rig)| (ix, rig.id.as_str()));
        wish.rig = self.one(plan.rig.as_ref(), &code::UNKNOWN_RIG, "rig", rigs);
        let contexts = graph.contexts().map(|(ix, context)| (ix, context.id.as_str()));
        wish.context = self.one(plan.context.as_ref(), &code::UNKNOWN_CONTEXT, "context", contexts);
        let steps: Vec<Option<InfluenceIx>> = plan.path.iter().map(|id| self.influence(id)).collect();
        if self.faults.is_empty() && !steps.is_empty() {
            let steps: Vec<InfluenceIx> = steps.into_iter().flatten().collect();
            self.path(&plan.path, &steps);
            wish.steps = Some(steps);
        }
        if let Some(twist) = &plan.twist {
            wish.twist = self.twist(twist);
        }
    }

    fn influence(&mut self, id: &Text) -> Option<InfluenceIx> {
        let known = self.graph.influences().map(|(ix, influence)| (ix, influence.id.as_str()));
        self.one(Some(id), &code::UNKNOWN_INFLUENCE, "influence", known)
    }

    fn one<'a, Ix: Copy>(
        &mut self,
        id: Option<&Text>,
        code: &'static Code,
        kind: &str,
        known: impl Iterator<Item = (Ix, &'a str)>,
    ) -> Option<Ix> {
        let id = id?;
        let known: Vec<(Ix, &str)> = known.collect();
        let found = known.iter().find(|(_, known)| *known == id.value).map(|(ix, _)| *ix);
        if found.is_none() {
            self.unknown(code, kind, id, known.into_iter().map(|(_, id)| id));
        }
        found
    }

    fn unknown<'a>(&mut self, code: &'static Code, kind: &str, id: &Text, known: impl Iterator<Item = &'a str>) {
        let fault = if id.value.starts_with("fill-in") {
            let fault =
                Diagnostic::error(&code::TO_BE_FILLED, self.span(id), format!("this {kind} is still to be filled in"));
            fault.hint(
                "put an id in its place; `toehold graph --format text` lists them, `toehold explain FROM TO` the ways",
            )
        } else {
            Diagnostic::error(code, self.span(id), format!("the concepts have no {kind} `{}`", id.value))
                .did_you_mean(&id.value, known)
        };
        self.faults.push(fault);
    }

    fn span(&self, text: &Text) -> Span {
        let place = text.referenced.span();
        let at = |offset: Option<u64>| offset.and_then(|offset| usize::try_from(offset).ok()).unwrap_or(0);
        let start = at(place.byte_offset());
        Span { file: self.file, start, end: start + at(place.byte_len()) }
    }

    /// Whether the influences follow on one another, from what an act sets to what a rig reads.
    fn path(&mut self, ids: &[Text], steps: &[InfluenceIx]) {
        let graph = self.graph;
        let end = |step: &InfluenceIx| graph.quantity(graph.influence(*step).to).id.as_str();
        let start = |step: &InfluenceIx| graph.quantity(graph.influence(*step).from).id.as_str();
        for ((before, after), id) in steps.iter().zip(steps.iter().skip(1)).zip(ids.iter().skip(1)) {
            if end(before) != start(after) {
                let message = format!(
                    "the influence before leads to `{}`, and `{}` starts from `{}`",
                    end(before),
                    id.value,
                    start(after)
                );
                let fault = Diagnostic::error(&code::BROKEN_PATH, self.span(id), message);
                self.faults.push(fault.hint("`toehold explain FROM TO` lists the ways from one quantity to another"));
            }
        }
        let dials: Vec<&str> = graph.acts().map(|(_, act)| graph.quantity(act.dial).id.as_str()).collect();
        if let (Some(first), Some(id)) = (steps.first(), ids.first())
            && !dials.contains(&start(first))
        {
            let message = format!("no bench act sets `{}`, where the path begins", start(first));
            let fault = Diagnostic::error(&code::NOT_A_TREATMENT, self.span(id), message);
            self.faults.push(fault.hint(format!("acts set: {}", dials.join(", "))));
        }
        let mut read: Vec<&str> = graph.rigs().map(|(_, rig)| graph.quantity(rig.readout).id.as_str()).collect();
        read.dedup();
        if let (Some(last), Some(id)) = (steps.last(), ids.last())
            && !read.contains(&end(last))
        {
            let message = format!("no rig reads `{}`, where the path ends", end(last));
            let fault = Diagnostic::error(&code::NOT_A_READOUT, self.span(id), message);
            self.faults.push(fault.hint(format!("rigs read: {}", read.join(", "))));
        }
    }

    fn twist(&mut self, twist: &Twist) -> TwistWish {
        if twist.id.value == "none" {
            return TwistWish::Without;
        }
        let Some(at) = &twist.at else {
            let fault = Diagnostic::error(&code::MISSING_FIELD, self.span(&twist.id), "field `at` is missing");
            self.faults
                .push(fault.hint("`at` names the influence that the twist touches; `id: none` alone asks for none"));
            return TwistWish::Any;
        };
        let Some(influence) = self.influence(at) else { return TwistWish::Any };
        let twists = self.graph.influence(influence).twists.iter().enumerate();
        let number = self.one(
            Some(&twist.id),
            &code::UNKNOWN_TWIST,
            "twist",
            twists.map(|(number, twist)| (number, twist.id.as_str())),
        );
        number.map_or(TwistWish::Any, |number| TwistWish::At(TwistAt { influence, number }))
    }
}

/// The YAML of a text with its places kept: the lines around it are blank. None where there is none.
fn front(text: &str) -> Option<String> {
    let start = text.strip_prefix('\u{feff}').map_or(0, |_| '\u{feff}'.len_utf8());
    let opening = text.get(start..)?.split_inclusive('\n').next().filter(|line| line.trim_end() == "---")?;
    let body = start + opening.len();
    let mut end = body;
    for line in text.get(body..)?.split_inclusive('\n') {
        if matches!(line.trim_end(), "---" | "...") {
            return Some(format!("{}\n{}", " ".repeat(body - 1), text.get(body..end)?));
        }
        end += line.len();
    }
    None
}
