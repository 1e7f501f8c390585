//! The graph as one page to walk through by its links: scenario, principle, influence, quantity, technique, and back.
//!
//! There is no script in it: every step is a link, so that a keyboard is enough and nothing can be loaded.

use std::collections::BTreeMap;

use serde::Serialize;
use tera::Context;

use super::{View, sign};
use crate::concepts::graph::Graph;
use crate::concepts::{InfluenceIx, PrincipleIx, Settings};
use crate::render::{Picture, RenderError, Templates, fill};

/// A picture, and its width in pixels at ordinary size.
#[derive(Debug, Clone, Serialize)]
struct Drawing {
    svg: String,
    width: f64,
}

impl Drawing {
    fn of(picture: &Picture) -> Self {
        Self { svg: picture.inline(), width: libm::ceil(picture.width) }
    }
}

/// A link within the page.
#[derive(Debug, Clone, Serialize)]
struct Link {
    to: String,
    text: String,
}

#[derive(Debug, Serialize)]
struct FieldView {
    id: String,
    name: String,
    picture: Drawing,
    principles: Vec<PrincipleView>,
}

#[derive(Debug, Serialize)]
struct PrincipleView {
    id: String,
    name: String,
    statement: String,
    terms: String,
    requires: Vec<Link>,
    required_by: Vec<Link>,
    influences: Vec<Link>,
    techniques: Vec<Link>,
    elsewhere: String,
    scenarios: Vec<Link>,
    source: String,
}

#[derive(Debug, Serialize)]
struct InfluenceView {
    id: String,
    sign: &'static str,
    from: Link,
    to: Link,
    because: String,
    principle: Link,
    law: String,
    formula: String,
    techniques: Vec<Link>,
    scenarios: Vec<Link>,
}

#[derive(Debug, Serialize)]
struct QuantityView {
    id: String,
    name: String,
    about: String,
    enters: Vec<Link>,
    leaves: Vec<Link>,
}

#[derive(Debug, Serialize)]
struct WayView {
    id: String,
    name: String,
    steps: Vec<Link>,
    principles: Vec<Link>,
    picture: Drawing,
}

/// A path with the name and the id under which the page knows it.
struct Way {
    id: String,
    name: String,
    steps: Vec<InfluenceIx>,
    settings: Settings,
}

/// A scenario to link to: its name, its path, and what holds of its apparatus.
pub type Named = (String, Vec<InfluenceIx>, Settings);

/// The page of the whole graph, with these scenarios and the textbook techniques.
///
/// # Errors
/// A template is at fault.
pub fn page(graph: &Graph, templates: &Templates, scenarios: &[Named]) -> Result<String, RenderError> {
    let scenarios: Vec<Way> = scenarios
        .iter()
        .zip(1..)
        .map(|((name, steps, settings), number)| Way {
            id: format!("scenario-{number}"),
            name: name.clone(),
            steps: steps.clone(),
            settings: settings.clone(),
        })
        .collect();
    // Several paths may have one name.
    let mut met: BTreeMap<&str, u32> = BTreeMap::new();
    let techniques: Vec<Way> = graph
        .known()
        .iter()
        .map(|known| Way {
            id: format!("technique-{}", known.id),
            name: numbered(&known.name, *met.entry(&known.name).and_modify(|n| *n += 1).or_insert(1)),
            steps: known.path.clone(),
            settings: Settings::default(),
        })
        .collect();
    let walk = Walk { graph, scenarios: &scenarios, techniques: &techniques };
    let mut context = Context::new();
    context.insert("fields", &walk.fields());
    context.insert("influences", &graph.influences().map(|(ix, _)| walk.influence(ix)).collect::<Vec<_>>());
    context.insert("quantities", &walk.quantities());
    context.insert("techniques", &techniques.iter().map(|way| walk.way(way)).collect::<Vec<_>>());
    context.insert("scenarios", &scenarios.iter().map(|way| walk.way(way)).collect::<Vec<_>>());
    context.insert("concepts", graph.version());
    fill(templates, "atlas.html", &context)
}

/// The name, with its number from the second time on.
fn numbered(name: &str, n: u32) -> String {
    if n > 1 { format!("{name} ({n})") } else { name.to_owned() }
}

struct Walk<'a> {
    graph: &'a Graph,
    scenarios: &'a [Way],
    techniques: &'a [Way],
}

impl Walk<'_> {
    fn fields(&self) -> Vec<FieldView> {
        let mut below: BTreeMap<PrincipleIx, Vec<PrincipleIx>> = BTreeMap::new();
        for (ix, principle) in self.graph.principles() {
            for other in &principle.requires {
                below.entry(*other).or_default().push(ix);
            }
        }
        let of = |(ix, field): (_, &crate::concepts::graph::Field)| {
            let own = self.graph.principles().filter(|(_, principle)| principle.field == ix);
            FieldView {
                id: field.id.clone(),
                name: field.name.clone(),
                picture: Drawing::of(&View::field(self.graph, ix).picture(
                    self.graph,
                    &format!("web-{}", field.id),
                    true,
                )),
                principles: own
                    .map(|(ix, _)| self.principle(ix, below.get(&ix).map_or(&[] as &[_], Vec::as_slice)))
                    .collect(),
            }
        };
        self.graph.fields().map(of).collect()
    }

    fn principle(&self, ix: PrincipleIx, required_by: &[PrincipleIx]) -> PrincipleView {
        let one = self.graph.principle(ix);
        let own: Vec<InfluenceIx> =
            self.graph.influences().filter(|(_, influence)| influence.principle == ix).map(|(ix, _)| ix).collect();
        let walks = |way: &&Way| way.steps.iter().any(|step| own.contains(step));
        PrincipleView {
            id: one.id.clone(),
            name: one.name.clone(),
            statement: one.statement.clone(),
            terms: one.terms.join(", "),
            requires: one.requires.iter().map(|ix| self.to_principle(*ix)).collect(),
            required_by: required_by.iter().map(|ix| self.to_principle(*ix)).collect(),
            influences: own.iter().map(|ix| self.to_influence(*ix)).collect(),
            techniques: self.techniques.iter().filter(walks).map(to_way).collect(),
            elsewhere: one.elsewhere.join("; "),
            scenarios: self.scenarios.iter().filter(walks).map(to_way).collect(),
            source: one.source.clone(),
        }
    }

    fn influence(&self, ix: InfluenceIx) -> InfluenceView {
        let one = self.graph.influence(ix);
        let walks = |way: &&Way| way.steps.contains(&ix);
        InfluenceView {
            id: one.id.clone(),
            sign: sign(one),
            from: self.to_quantity(one.from),
            to: self.to_quantity(one.to),
            because: one.because.clone(),
            principle: self.to_principle(one.principle),
            law: one.law.law.title.to_owned(),
            formula: one.law.law.formula.to_owned(),
            techniques: self.techniques.iter().filter(walks).map(to_way).collect(),
            scenarios: self.scenarios.iter().filter(walks).map(to_way).collect(),
        }
    }

    fn quantities(&self) -> Vec<QuantityView> {
        let of = |(ix, one): (_, &crate::concepts::graph::Quantity)| {
            let unit =
                if one.unit.display().is_empty() { String::new() } else { format!(", in {}", one.unit.display()) };
            QuantityView {
                id: one.id.clone(),
                name: one.name.clone(),
                about: format!("{}{unit}: {}", super::graphml::role(one.role), one.at_the_bench),
                enters: self.graph.entering(ix).into_iter().map(|ix| self.to_influence(ix)).collect(),
                leaves: self.graph.leaving(ix).into_iter().map(|ix| self.to_influence(ix)).collect(),
            }
        };
        self.graph.quantities().map(of).collect()
    }

    fn way(&self, way: &Way) -> WayView {
        let mut principles: Vec<PrincipleIx> = Vec::new();
        for step in &way.steps {
            let principle = self.graph.influence(*step).principle;
            if !principles.contains(&principle) {
                principles.push(principle);
            }
        }
        let picture = View::path(self.graph, &way.name, &way.steps, &way.settings);
        WayView {
            id: way.id.clone(),
            name: way.name.clone(),
            steps: way.steps.iter().map(|step| self.to_influence(*step)).collect(),
            principles: principles.into_iter().map(|ix| self.to_principle(ix)).collect(),
            picture: Drawing::of(&picture.picture(self.graph, &format!("web-{}", way.id), true)),
        }
    }

    fn to_principle(&self, ix: PrincipleIx) -> Link {
        let one = self.graph.principle(ix);
        Link { to: format!("principle-{}", one.id), text: one.name.clone() }
    }

    fn to_quantity(&self, ix: crate::concepts::QuantityIx) -> Link {
        let one = self.graph.quantity(ix);
        Link { to: format!("quantity-{}", one.id), text: one.name.clone() }
    }

    fn to_influence(&self, ix: InfluenceIx) -> Link {
        let one = self.graph.influence(ix);
        let name = |quantity| self.graph.quantity(quantity).name.as_str();
        Link {
            to: format!("influence-{}", one.id),
            text: format!("{} → {} ({})", name(one.from), name(one.to), sign(one)),
        }
    }
}

fn to_way(way: &Way) -> Link {
    Link { to: way.id.clone(), text: way.name.clone() }
}
