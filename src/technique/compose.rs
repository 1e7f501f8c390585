//! One draw: from a seed and the number of the attempt to a technique, or the reason why not.

use std::collections::{BTreeMap, BTreeSet};

use super::catalogue::{Candidate, Catalogue};
use super::refusal::Refusal;
use super::{Form, Technique, TwistWish, Wish};
use crate::concepts::graph::{Context, Graph};
use crate::concepts::written::TwistKind;
use crate::concepts::{ContextIx, EntityIx, FieldIx, PrincipleIx, QuantityIx, TwistAt};
use crate::reasoning::{Direction, Verdict, derive};
use crate::seed::{Seed, Stream};

/// Steps of a short question: more would not fit its text.
pub const SHORT_STEPS: usize = 5;
/// Share of short questions with a twist, where it is left to the draw.
const SHORT_TWISTS: f64 = 0.6;
/// Share of twists whose answer is "unchanged", where several answers are to be had: well under half.
const UNCHANGED: f64 = 0.35;

/// Draws a technique for a wish.
///
/// # Errors
/// The reason why this draw is not taken; the next attempt may be.
pub fn compose(
    graph: &Graph,
    catalogue: &Catalogue,
    wish: &Wish,
    seed: Seed,
    attempt: u32,
) -> Result<Technique, Refusal> {
    // The form must not depend on the attempt: a form that is harder to fill would otherwise become rare.
    let form = wish.form.unwrap_or_else(|| form_of(seed));
    let mut stream = seed.stream(&format!("technique/{attempt}"));
    let candidate = draw_candidate(graph, catalogue, wish, form, &mut stream).ok_or(Refusal::NoTwist)?;
    let twist = draw_twist(graph, candidate, wish, form, &mut stream)?;
    let act = graph.act(candidate.act);
    let wished = |ix: ContextIx| wish.context.is_none_or(|context| context == ix);
    let fitting = graph.contexts().filter(|(ix, context)| wished(*ix) && carries(context, candidate, form));
    let contexts: Vec<_> = fitting.map(|(ix, _)| ix).collect();
    let context = *stream.pick(&contexts).ok_or(Refusal::NoContext)?;
    let levels = stream.pick(&act.levels).cloned().unwrap_or_default();
    let replicates = 4 + u32::try_from(stream.below(5)).unwrap_or(0);
    let names = draw_names(graph, candidate, &mut stream);
    let title = draw_title(graph, candidate, &names, &mut stream);
    Ok(Technique {
        seed,
        attempt,
        form,
        act: candidate.act,
        levels,
        rig: candidate.rig,
        context,
        path: candidate.path.clone(),
        settings: candidate.settings.clone(),
        twist,
        replicates,
        names,
        title,
    })
}

/// The form that a seed draws where none is wished for.
pub fn form_of(seed: Seed) -> Form {
    if seed.stream("form").unit() < 0.5 { Form::Short } else { Form::Long }
}

/// First the treatment, then the readout, then the path: a treatment with few ways comes up as often as one with many.
fn draw_candidate<'a>(
    graph: &Graph,
    catalogue: &'a Catalogue,
    wish: &Wish,
    form: Form,
    stream: &mut Stream,
) -> Option<&'a Candidate> {
    let fits = |candidate: &&Candidate| {
        let steps = candidate.path.steps();
        let crosses = |field: &FieldIx| steps.iter().any(|step| graph.field_of(*step) == *field);
        let rests_on =
            |principle: &PrincipleIx| steps.iter().any(|step| graph.influence(*step).principle == *principle);
        (form == Form::Long || steps.len() <= SHORT_STEPS)
            && wish.fields.iter().all(crosses)
            && wish.principles.iter().all(rests_on)
            && wish.influences.iter().all(|influence| steps.contains(influence))
            && wish.steps.as_ref().is_none_or(|wished| wished == steps)
            && wish.act.is_none_or(|act| act == candidate.act)
            && wish.rig.is_none_or(|rig| rig == candidate.rig)
            && !wish.taken.contains(&candidate.path)
            && offers(graph, candidate, wish.twist)
            && is_carried(graph, candidate, wish, form)
    };
    let fitting: Vec<&Candidate> = catalogue.candidates().iter().filter(fits).collect();
    let acts: BTreeSet<_> = fitting.iter().map(|candidate| candidate.act).collect();
    let act = *stream.pick(&Vec::from_iter(acts))?;
    let of_act: Vec<&Candidate> = fitting.into_iter().filter(|candidate| candidate.act == act).collect();
    let readouts: BTreeSet<QuantityIx> = of_act.iter().map(|candidate| graph.rig(candidate.rig).readout).collect();
    let readout = *stream.pick(&Vec::from_iter(readouts))?;
    let of_readout: Vec<&Candidate> =
        of_act.into_iter().filter(|candidate| graph.rig(candidate.rig).readout == readout).collect();
    stream.pick(&of_readout).copied()
}

/// Whether the context that is wished for, or else any, could be the story of a candidate.
fn is_carried(graph: &Graph, candidate: &Candidate, wish: &Wish, form: Form) -> bool {
    match wish.context {
        Some(context) => carries(graph.context(context), candidate, form),
        None => graph.contexts().any(|(_, context)| carries(context, candidate, form)),
    }
}

/// Whether a context has a purpose for the act of a candidate, and a short question room for it.
fn carries(context: &Context, candidate: &Candidate, form: Form) -> bool {
    let has_room = |least_words: usize| form == Form::Long || least_words <= candidate.room;
    context.purpose_for(candidate.act).is_some_and(|purpose| has_room(purpose.least_words))
}

fn offers(graph: &Graph, candidate: &Candidate, wish: TwistWish) -> bool {
    match wish {
        TwistWish::Any | TwistWish::Without => true,
        TwistWish::At(at) => candidate.path.steps().contains(&at.influence),
        TwistWish::Kind(kind) => {
            let mut twists = candidate.path.steps().iter().flat_map(|step| &graph.influence(*step).twists);
            twists.any(|twist| twist.kind == kind)
        }
    }
}

/// Twists of the path whose answer differs from the plain one, with that answer (`None`: magnitudes decide).
fn twists(graph: &Graph, candidate: &Candidate) -> Vec<(TwistAt, Option<Direction>)> {
    let plain = derive(graph, &candidate.path, &candidate.settings, None).direction();
    let mut found = Vec::new();
    for influence in candidate.path.steps() {
        for (number, twist) in graph.influence(*influence).twists.iter().enumerate() {
            let at = TwistAt { influence: *influence, number };
            let removes_nothing = twist.remove.is_some_and(|gone| !candidate.settings.holds.contains(&gone));
            if removes_nothing || candidate.settings.after(twist).clash(graph).is_some() {
                continue;
            }
            let derivation = derive(graph, &candidate.path, &candidate.settings, Some(at));
            match derivation.verdict() {
                Verdict::Determined(direction) if Some(*direction) != plain => found.push((at, Some(*direction))),
                Verdict::Rival if twist.kind == TwistKind::RivalPath => found.push((at, None)),
                _ => {}
            }
        }
    }
    found
}

fn draw_twist(
    graph: &Graph,
    candidate: &Candidate,
    wish: &Wish,
    form: Form,
    stream: &mut Stream,
) -> Result<Option<TwistAt>, Refusal> {
    let lucky = stream.unit();
    let flat = stream.unit() < UNCHANGED;
    let kind = match wish.twist {
        TwistWish::Without => return Ok(None),
        TwistWish::Any if form == Form::Short && lucky >= SHORT_TWISTS => return Ok(None),
        TwistWish::At(wished) => {
            let offered = twists(graph, candidate).into_iter().any(|(at, _)| at == wished);
            return if offered { Ok(Some(wished)) } else { Err(Refusal::NoTwist) };
        }
        TwistWish::Any => None,
        TwistWish::Kind(kind) => Some(kind),
    };
    let of_kind = |at: &TwistAt| kind.is_none() || at.get(graph).map(|twist| twist.kind) == kind;
    let offered: Vec<_> = twists(graph, candidate).into_iter().filter(|(at, _)| of_kind(at)).collect();
    // A kind that was asked for may have one answer only; otherwise the answer is drawn before the twist.
    let wanted: Vec<TwistAt> = offered
        .iter()
        .filter(|(_, answer)| kind.is_some() || (*answer == Some(Direction::Unchanged)) == flat)
        .map(|(at, _)| *at)
        .collect();
    // The kind comes before the twist: one of which the graph holds few comes up as often as another.
    let kind_of = |at: &TwistAt| at.get(graph).map(|twist| twist.kind);
    let kinds: BTreeSet<Option<TwistKind>> = wanted.iter().map(kind_of).collect();
    let drawn = stream.pick(&Vec::from_iter(kinds)).copied().flatten();
    let of_drawn: Vec<TwistAt> = wanted.into_iter().filter(|at| kind_of(at) == drawn).collect();
    stream.pick(&of_drawn).copied().map(Some).ok_or(Refusal::NoTwist)
}

/// A name for every entity of the graph, so that any fragment can speak of any.
fn draw_names(graph: &Graph, _candidate: &Candidate, stream: &mut Stream) -> BTreeMap<EntityIx, usize> {
    graph.entities().map(|(ix, entity)| (ix, stream.below(entity.names.len()))).collect()
}

/// A word for what is done or what happens, a coined noun if the path has one, a word for the bench.
fn draw_title(graph: &Graph, candidate: &Candidate, names: &BTreeMap<EntityIx, usize>, stream: &mut Stream) -> String {
    let act = graph.act(candidate.act);
    let steps = candidate.path.steps();
    let mut words: Vec<&String> = act.name_words.iter().collect();
    words.extend(steps.iter().flat_map(|step| &graph.influence(*step).name_words));
    let word = stream.pick(&words).map_or("new", |word| word.as_str());
    let on_way: BTreeSet<EntityIx> =
        candidate.path.quantities(graph).into_iter().map(|quantity| graph.quantity(quantity).entity).collect();
    let coined: Vec<&str> = on_way
        .iter()
        .filter_map(|entity| graph.entity(*entity).names.get(*names.get(entity)?))
        .filter(|name| name.coined)
        .map(|name| name.one.as_str())
        .collect();
    let place = stream.pick(&graph.rig(candidate.rig).name_words).map_or("test", String::as_str);
    let title = match stream.pick(&coined) {
        Some(noun) => format!("{word}-{noun} {place}"),
        None => format!("{word} {place}"),
    };
    capital(&title)
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
