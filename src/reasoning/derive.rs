//! The qualitative engine: every way from the treatment to the readout that the settings allow, and what follows.
//!
//! What counts is the whole allowed graph, not the chosen path. A twist is applied here to signs and arrows; the
//! experiment applies the same twist to laws, knowing nothing of this.

use std::collections::{BTreeMap, BTreeSet};

use super::press::{Diagram, Reason, Response, press};
use super::sign::{Direction, Sign, StepSign};
use crate::concepts::graph::{DeclaredSign, Graph, Influence};
use crate::concepts::written::TwistKind;
use crate::concepts::{InfluenceIx, Path, QuantityIx, Settings, Side, TwistAt};

/// More ways than this and the answer is withheld: no class would follow them, and time stays bounded.
const MOST_ROUTES: usize = 64;

/// One step of a way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Step {
    /// The influence.
    pub influence: InfluenceIx,
    /// Its sign here.
    pub sign: StepSign,
    /// What the quantity it leads to does when the treatment is raised, along this way.
    pub then: Direction,
}

/// One way from treatment to readout along which everything acts.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Route {
    /// Its steps, never empty.
    pub steps: Vec<Step>,
    /// The product of their signs.
    pub sign: Sign,
}

/// Why no answer is given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Withheld {
    /// A step whose sign is not known lies on a way.
    UnknownStep(InfluenceIx),
    /// A loop of influences runs through these quantities, which lie on a way, and could turn the answer.
    Loop(Vec<QuantityIx>, Reason),
    /// There are more ways than are followed.
    TooManyRoutes,
}

/// What follows from the signs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Every way agrees (or there is none: unchanged).
    Determined(Direction),
    /// Ways of both signs: magnitudes decide.
    Rival,
    /// No answer.
    Withheld(Withheld),
}

/// A prediction with its grounds. It cannot exist without its steps: only [`derive()`] makes one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Derivation {
    path: Vec<Step>,
    routes: Vec<Route>,
    verdict: Verdict,
}

impl Derivation {
    /// The chosen path step by step, with the sign that each has here (0 where the twist stops it).
    pub fn path(&self) -> &[Step] {
        &self.path
    }

    /// Every way on the allowed graph along which all steps act.
    pub fn routes(&self) -> &[Route] {
        &self.routes
    }

    /// What follows.
    pub fn verdict(&self) -> &Verdict {
        &self.verdict
    }

    /// The direction, where it is determined.
    pub fn direction(&self) -> Option<Direction> {
        match self.verdict {
            Verdict::Determined(direction) => Some(direction),
            Verdict::Rival | Verdict::Withheld(_) => None,
        }
    }
}

/// What raising the path's treatment does to its readout.
pub fn derive(graph: &Graph, path: &Path, settings: &Settings, twist: Option<TwistAt>) -> Derivation {
    derive_with_unknown(graph, path, settings, twist, None)
}

/// The same, when the sign of one influence is not known: what remains to be said without it.
pub fn derive_with_unknown(
    graph: &Graph,
    path: &Path,
    settings: &Settings,
    twist: Option<TwistAt>,
    unknown: Option<InfluenceIx>,
) -> Derivation {
    let arrows = Arrows::new(graph, settings, twist);
    let quantities = path.quantities(graph);
    let (treatment, readout) = match (quantities.first(), quantities.last()) {
        (Some(first), Some(last)) => (*first, *last),
        _ => return Derivation { path: Vec::new(), routes: Vec::new(), verdict: Verdict::Rival },
    };
    let steps = along(graph, &arrows, path);
    let mut useful = arrows.between(graph, treatment, readout);
    // The treatment is held from outside: nothing else moves it.
    useful.retain(|ix, _| graph.influence(*ix).to != treatment);
    let withheld = |reason| Derivation { path: steps.clone(), routes: Vec::new(), verdict: Verdict::Withheld(reason) };
    if let Some(influence) = unknown.filter(|ix| useful.contains_key(ix)) {
        return withheld(Withheld::UnknownStep(influence));
    }
    if let Some(members) = loop_in(graph, &useful) {
        let verdict = with_loops(graph, &useful, members, treatment, readout);
        return Derivation { path: steps, routes: Vec::new(), verdict };
    }
    let Some(routes) = routes(graph, &useful, treatment, readout) else {
        return withheld(Withheld::TooManyRoutes);
    };
    let signs: BTreeSet<Sign> = routes.iter().map(|route| route.sign).collect();
    let verdict = match (signs.first(), signs.len()) {
        (None, _) => Verdict::Determined(Direction::Unchanged),
        (Some(sign), 1) => Verdict::Determined(Direction::from(*sign)),
        _ => Verdict::Rival,
    };
    Derivation { path: steps, routes, verdict }
}

/// The influences that act, with their signs, after the twist.
struct Arrows(BTreeMap<InfluenceIx, Sign>);

impl Arrows {
    fn new(graph: &Graph, settings: &Settings, twist: Option<TwistAt>) -> Self {
        let declared = twist.and_then(|at| at.get(graph).map(|twist| (at.influence, twist)));
        let in_force = declared.map_or_else(|| settings.clone(), |(_, twist)| settings.after(twist));
        let allowed = graph.influences().filter(|(_, influence)| in_force.allow(influence));
        let mut signs: BTreeMap<InfluenceIx, Sign> =
            allowed.filter_map(|(ix, influence)| Some((ix, sign_of(ix, influence, &in_force)?))).collect();
        if let Some((at, twist)) = declared {
            let swaps = twist.remove.is_some() || twist.add.is_some();
            match twist.kind {
                TwistKind::Cut | TwistKind::Saturate => {
                    signs.remove(&at);
                }
                TwistKind::Bypass => {
                    let supplied = graph.influence(at).to;
                    signs.retain(|ix, _| graph.influence(*ix).to != supplied);
                }
                TwistKind::Reverse if !swaps => {
                    signs.entry(at).and_modify(|sign| *sign = sign.flipped());
                }
                // These work through the settings alone.
                TwistKind::Reverse | TwistKind::RemoveSetting | TwistKind::RivalPath | TwistKind::RateOrEndPoint => {}
            }
        }
        Self(signs)
    }

    /// Those that lie on some way from `start` to `end`.
    fn between(&self, graph: &Graph, start: QuantityIx, end: QuantityIx) -> BTreeMap<InfluenceIx, Sign> {
        let ahead = self.reach(graph, start, |influence| (influence.from, influence.to));
        let behind = self.reach(graph, end, |influence| (influence.to, influence.from));
        let lies_between = |ix: &InfluenceIx| {
            let influence = graph.influence(*ix);
            ahead.contains(&influence.from) && behind.contains(&influence.to)
        };
        self.0.iter().filter(|(ix, _)| lies_between(ix)).map(|(ix, sign)| (*ix, *sign)).collect()
    }

    fn reach(
        &self,
        graph: &Graph,
        start: QuantityIx,
        ends: impl Fn(&Influence) -> (QuantityIx, QuantityIx),
    ) -> BTreeSet<QuantityIx> {
        let mut met = BTreeSet::from([start]);
        let mut open = vec![start];
        while let Some(here) = open.pop() {
            for ix in self.0.keys() {
                let (near, far) = ends(graph.influence(*ix));
                if near == here && met.insert(far) {
                    open.push(far);
                }
            }
        }
        met
    }
}

/// The sign that an influence has under these settings; `None` for a turning one whose side is not set.
fn sign_of(ix: InfluenceIx, influence: &Influence, settings: &Settings) -> Option<Sign> {
    match influence.sign {
        DeclaredSign::Plus => Some(Sign::Plus),
        DeclaredSign::Minus => Some(Sign::Minus),
        DeclaredSign::Turning { .. } => settings.sides.get(&ix).map(|side| match side {
            Side::Below => Sign::Plus,
            Side::Above => Sign::Minus,
        }),
    }
}

/// The chosen path with the signs that hold now. Where a twist has put another influence between the same two
/// quantities, that one's sign stands.
fn along(graph: &Graph, arrows: &Arrows, path: &Path) -> Vec<Step> {
    let mut then = Direction::Rises;
    let mut steps = Vec::new();
    for ix in path.steps() {
        let declared = graph.influence(*ix);
        let stands_in = |other: &InfluenceIx| {
            let influence = graph.influence(*other);
            influence.from == declared.from && influence.to == declared.to
        };
        let own = arrows.0.get(ix);
        let sign = own.or_else(|| arrows.0.iter().find(|(other, _)| stands_in(other)).map(|(_, sign)| sign));
        let sign = sign.map_or(StepSign::Zero, |sign| StepSign::Acts(*sign));
        then = then.after(sign);
        steps.push(Step { influence: *ix, sign, then });
    }
    steps
}

/// What follows where loops touch the ways: loop analysis, with every quantity drawn back to what its law gives.
fn with_loops(
    graph: &Graph,
    useful: &BTreeMap<InfluenceIx, Sign>,
    members: Vec<QuantityIx>,
    treatment: QuantityIx,
    readout: QuantityIx,
) -> Verdict {
    let name = |ix: QuantityIx| graph.quantity(ix).name.as_str();
    let mut diagram = Diagram::new();
    for (ix, sign) in useful {
        let influence = graph.influence(*ix);
        diagram.connect(name(influence.from), *sign, name(influence.to));
    }
    let driven: BTreeSet<QuantityIx> = useful.keys().map(|ix| graph.influence(*ix).to).collect();
    for quantity in driven {
        diagram.connect(name(quantity), Sign::Minus, name(quantity));
    }
    let (Some(source), Some(target)) = (diagram.find(name(treatment)), diagram.find(name(readout))) else {
        return Verdict::Determined(Direction::Unchanged);
    };
    match press(&diagram, source, target) {
        Response::Rises => Verdict::Determined(Direction::Rises),
        Response::Falls => Verdict::Determined(Direction::Falls),
        Response::Unchanged => Verdict::Determined(Direction::Unchanged),
        Response::Withheld(reason) => Verdict::Withheld(Withheld::Loop(members, reason)),
    }
}

/// Quantities of a loop among these influences, if there is one: what is left after taking away, again and again,
/// every quantity that nothing enters.
fn loop_in(graph: &Graph, useful: &BTreeMap<InfluenceIx, Sign>) -> Option<Vec<QuantityIx>> {
    let mut left: BTreeSet<InfluenceIx> = useful.keys().copied().collect();
    loop {
        let entered: BTreeSet<QuantityIx> = left.iter().map(|ix| graph.influence(*ix).to).collect();
        let before = left.len();
        left.retain(|ix| entered.contains(&graph.influence(*ix).from));
        if left.is_empty() {
            return None;
        }
        if left.len() == before {
            let sources: BTreeSet<QuantityIx> = left.iter().map(|ix| graph.influence(*ix).from).collect();
            return Some(sources.intersection(&entered).copied().collect());
        }
    }
}

/// Every way on a loop-free set of influences; `None` if there are too many.
fn routes(
    graph: &Graph,
    useful: &BTreeMap<InfluenceIx, Sign>,
    treatment: QuantityIx,
    readout: QuantityIx,
) -> Option<Vec<Route>> {
    let mut found = Vec::new();
    let mut open: Vec<(QuantityIx, Vec<Step>, Sign)> = vec![(treatment, Vec::new(), Sign::Plus)];
    while let Some((here, steps, sign)) = open.pop() {
        if here == readout {
            found.push(Route { steps, sign });
            if found.len() > MOST_ROUTES {
                return None;
            }
            continue;
        }
        for (ix, step) in useful {
            let influence = graph.influence(*ix);
            if influence.from == here {
                let product = sign.times(*step);
                let mut longer = steps.clone();
                longer.push(Step { influence: *ix, sign: StepSign::Acts(*step), then: Direction::from(product) });
                open.push((influence.to, longer, product));
            }
        }
    }
    found.sort();
    Some(found)
}
