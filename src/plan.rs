//! A plan (`toehold new scenario`): what its author chose of a scenario; the rest is drawn.
//!
//! Comes in: the text of a file, the graph. Goes out: what is wished for, or every fault with its place; and whether front
//! matter is that of a plan. **Must not know**: files on disk, scenarios, seeds.

use serde::Deserialize;
use serde_yaml::Spanned;

use crate::concepts::written::Text;
use crate::concepts::{Graph, InfluenceIx, TwistAt, is_open, yaml_fault};
use crate::diagnostic::{Code, Diagnostic, code};
use crate::source::{FILE_FORMAT, FileId, FrontMatter, Span, front_matter};
use crate::technique::{Form, TwistWish, Wish};

/// The field by which front matter says that it is a plan's.
pub const KEY: &str = "plan";
/// The version of the format of plans that is read.
const FORMAT: u32 = 1;
/// What to write where the field is missing.
pub const SIGN: &str = "a plan says so with a line `plan: 1` below `toehold: 1`; `toehold new scenario` writes both";

/// The front matter of a plan.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Plan {
    /// Version of the file format.
    #[serde(rename = "toehold")]
    file_version: Spanned<u32>,
    /// Version of the format of plans.
    #[serde(rename = "plan")]
    version: Spanned<u32>,
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

/// Whether front matter with these fields might have been meant as a plan, though it does not say so: it names a path, and
/// nothing that follows from one.
pub fn may_be_meant(has: impl Fn(&str) -> bool) -> bool {
    has("path") && !["graph", "names", "noiseless"].into_iter().any(has)
}

/// Narrows a wish to what the plan in a file says; goes out: every fault of it.
pub fn narrow(wish: &mut Wish, graph: &Graph, file: FileId, text: &str) -> Vec<Diagnostic> {
    let mut reading = Reading { graph, file, faults: Vec::new() };
    reading.read(text, wish);
    reading.faults
}

struct Reading<'g> {
    graph: &'g Graph,
    file: FileId,
    faults: Vec<Diagnostic>,
}

impl Reading<'_> {
    fn read(&mut self, text: &str, wish: &mut Wish) {
        let Ok(FrontMatter { yaml, .. }) = front_matter(text) else {
            let span = Span { file: self.file, start: 0, end: 0 };
            let fault =
                Diagnostic::error(&code::FRONT_MATTER_MISSING, span, "the file does not begin with front matter");
            self.faults.push(fault.hint("a plan stands between two lines of three hyphens, `---`"));
            return;
        };
        let (before, start) = (text.get(..yaml.start).unwrap_or_default(), yaml.start);
        let yaml = text.get(yaml).unwrap_or_default();
        let mut lines = yaml.split_inclusive('\n');
        if !lines.any(|line| line.split_once(':').is_some_and(|(key, _)| key.trim_end() == KEY)) {
            let end = start + yaml.split('\n').next().unwrap_or_default().len();
            let span = Span { file: self.file, start, end };
            let fault = Diagnostic::error(&code::MISSING_FIELD, span, "field `plan` is missing, so this is no plan");
            self.faults.push(fault.hint(SIGN));
            return;
        }
        // What stands above is blank, so that places stay true.
        let blank: String = before.bytes().map(|byte| if byte == b'\n' { '\n' } else { ' ' }).collect();
        let yaml = format!("{blank}{yaml}");
        let plan = match serde_yaml::from_str::<Plan>(&yaml) {
            Ok(plan) => plan,
            Err(error) => return self.faults.push(yaml_fault(self.file, &yaml, &error)),
        };
        self.newer(&plan.file_version, FILE_FORMAT, "files");
        self.newer(&plan.version, FORMAT, "plans");
        // A later format may mean something else by the same words.
        if !self.faults.is_empty() {
            return;
        }
        let graph = self.graph;
        if let Some(form) = &plan.form {
            let forms = Form::ALL.into_iter().map(|form| (form, form.word()));
            wish.form = self.one(Some(form), &code::UNKNOWN_CHOICE, "form", forms);
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

    /// A version that this program does not read yet is a fault.
    fn newer(&mut self, version: &Spanned<u32>, newest: u32, what: &str) {
        if version.value <= newest {
            return;
        }
        let message =
            format!("{what} of format {} are newer than {newest}, the newest that this program reads", version.value);
        let fault = Diagnostic::error(&code::NEWER_FORMAT, self.span(version), message);
        self.faults.push(fault.hint("use a newer version of the program"));
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
        let fault = if is_open(&id.value) {
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

    fn span<T>(&self, written: &Spanned<T>) -> Span {
        let place = written.referenced.span();
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
