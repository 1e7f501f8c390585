//! The graph: checked parts, resolved references, arrows in petgraph.
//!
//! **Must not know**: files, places in them, laws' values. `Graph` has one constructor, in `check`: holding one proves
//! that the checks ran.

mod influence;

use std::collections::{BTreeMap, BTreeSet};

use petgraph::graph::{DiGraph, NodeIndex};

pub use influence::{DeclaredSign, Influence, LawUse, SymbolSource, Twist};

use super::ids::{ActIx, ContextIx, EntityIx, FieldIx, InfluenceIx, PrincipleIx, QuantityIx, RigIx, SettingIx};
use super::written::{Role, Slot, WrongSign};
use crate::quantity::Unit;

/// A field of biology.
#[derive(Debug, Clone)]
pub struct Field {
    /// Id as written.
    pub id: String,
    /// As a reader sees it.
    pub name: String,
}

/// A name in its two numbers.
#[derive(Debug, Clone)]
pub struct Name {
    /// Singular, without article.
    pub one: String,
    /// Plural or mass noun, without article.
    pub many: String,
    /// Made up by the investigators.
    pub coined: bool,
}

/// A thing that quantities belong to.
#[derive(Debug, Clone)]
pub struct Entity {
    /// Id as written.
    pub id: String,
    /// What it is, for its first mention.
    pub intro: String,
    /// What it is then called; never empty.
    pub names: Vec<Name>,
    /// Whole sentences.
    pub hazards: Vec<String>,
}

/// How a readout is read.
#[derive(Debug, Clone)]
pub struct Reading {
    /// Instrument, with article.
    pub instrument: String,
    /// Smallest step shown, in the unit shown.
    pub resolution: f64,
    /// Standard deviation between replicates, as a share of the value.
    pub relative_sd: f64,
    /// Standard deviation that is always there, in the unit shown.
    pub absolute_sd: f64,
    /// `Some(name)` where the reading is a percentage of the value at the first level.
    pub relative_name: Option<String>,
    /// What is read beside the samples: the quantity in which its members differ, and its values.
    pub standard: Option<(QuantityIx, Vec<f64>)>,
}

/// Things that make up a share, looked at one by one.
#[derive(Debug, Clone)]
pub struct Counted {
    /// How a single thing is seen, one whole sentence.
    pub how: String,
    /// The things, plural, without article.
    pub things: String,
    /// What those are that make up the share.
    pub yes: String,
    /// What the others are.
    pub no: String,
}

/// A thing that can be more or less.
#[derive(Debug, Clone)]
pub struct Quantity {
    /// Id as written.
    pub id: String,
    /// The field of the file that declares it.
    pub field: Option<FieldIx>,
    /// For headers and axes.
    pub name: String,
    /// In running text, with article; may hold entity placeholders.
    pub the: String,
    /// The same where a setting holds, and what it is called there.
    pub called: Vec<(SettingIx, String)>,
    /// One spell of a time that is a treatment, with article.
    pub spell: Option<String>,
    /// Symbol as printed.
    pub symbol: String,
    /// Unit.
    pub unit: Unit,
    /// The entity it is a property of.
    pub entity: EntityIx,
    /// Word for more.
    pub more: String,
    /// Word for less.
    pub less: String,
    /// How it is raised directly, as a positive control: a relative clause.
    pub supplied: Option<String>,
    /// The same where a setting holds.
    pub supplied_where: Vec<(SettingIx, String)>,
    /// Least and greatest believable value, in `unit`.
    pub range: (f64, f64),
    /// Treatment, intermediate or readout.
    pub role: Role,
    /// How it is set or read, or why neither is possible.
    pub at_the_bench: String,
    /// Instrument, exactly for readouts.
    pub reading: Option<Reading>,
    /// What is counted, where a share is of things that can be looked at one by one.
    pub counted: Option<Counted>,
    /// Whole sentences.
    pub hazards: Vec<String>,
}

impl Quantity {
    /// What it is called in running text where these settings hold: its own name there, else the plain one.
    pub fn the_where(&self, holds: &BTreeSet<SettingIx>) -> &str {
        let own = self.called.iter().find(|(setting, _)| holds.contains(setting));
        own.map_or(&self.the, |(_, the)| the)
    }

    /// How it is raised directly where these settings hold.
    pub fn supplied_where(&self, holds: &BTreeSet<SettingIx>) -> Option<&str> {
        let own = self.supplied_where.iter().find(|(setting, _)| holds.contains(setting));
        own.map(|(_, supplied)| supplied.as_str()).or(self.supplied.as_deref())
    }
}

/// A recall prompt.
#[derive(Debug, Clone)]
pub struct Recall {
    /// The question.
    pub ask: String,
    /// The model answer.
    pub answer: String,
}

/// A wrong belief.
#[derive(Debug, Clone)]
pub struct Misconception {
    /// As a student would write it.
    pub belief: String,
    /// Why it fails.
    pub fails: String,
    /// The wrong sign that it produces.
    pub gives: Option<WrongSign>,
    /// Influences at which it leads there; all of the principle where empty.
    pub at: Vec<InfluenceIx>,
}

/// The unit of knowing.
#[derive(Debug, Clone)]
pub struct Principle {
    /// Id as written.
    pub id: String,
    /// Its field.
    pub field: FieldIx,
    /// Short name, lower case.
    pub name: String,
    /// True as it stands.
    pub statement: String,
    /// Never empty.
    pub recall: Vec<Recall>,
    /// Words by which a text speaks of it; never empty.
    pub terms: Vec<String>,
    /// Principles that it rests on; acyclic.
    pub requires: Vec<PrincipleIx>,
    /// What is wrongly believed.
    pub misconceptions: Vec<Misconception>,
    /// Real techniques that rest on it.
    pub elsewhere: Vec<String>,
    /// Published source.
    pub source: String,
}

/// One drawn sentence's wordings and their place.
#[derive(Debug, Clone)]
pub struct Fragment {
    /// Where it stands.
    pub slot: Slot,
    /// Left out of short questions.
    pub only_long: bool,
    /// What is first handled here.
    pub brings: Option<EntityIx>,
    /// Wordings; never empty.
    pub text: Vec<String>,
}

/// What holds of the apparatus.
#[derive(Debug, Clone)]
pub struct Setting {
    /// Id as written.
    pub id: String,
    /// What holds, as a clause.
    pub holds: String,
    /// Settings that cannot hold with it; symmetric.
    pub excludes: BTreeSet<SettingIx>,
    /// The sentence that tells it.
    pub told: Option<Fragment>,
    /// Hazards of what it brings to the bench.
    pub hazards: Vec<String>,
}

/// A bench act that sets a treatment.
#[derive(Debug, Clone)]
pub struct Act {
    /// Id as written.
    pub id: String,
    /// The treatment quantity.
    pub dial: QuantityIx,
    /// Every quantity that it changes at once.
    pub changes: BTreeSet<QuantityIx>,
    /// Gerund phrase for questions.
    pub doing: String,
    /// What is sought of an unknown sample, up to that word.
    pub sought: String,
    /// Level sets in the dial's unit, rising; never empty, each at least three.
    pub levels: Vec<Vec<f64>>,
    /// Wordings for slot treat.
    pub text: Vec<String>,
    /// Wordings for what ends the treatment.
    pub after: Vec<String>,
    /// What the first level is, as a comparison.
    pub control: String,
    /// What else a sample may hold that would be read as this treatment.
    pub limitation: Vec<String>,
    /// Settings that it brings.
    pub needs: BTreeSet<SettingIx>,
    /// Bars rather than a line.
    pub categories: bool,
    /// Adjectives for a title.
    pub name_words: Vec<String>,
    /// Whole sentences.
    pub hazards: Vec<String>,
}

/// A bench arrangement that reads a readout.
#[derive(Debug, Clone)]
pub struct Rig {
    /// Id as written.
    pub id: String,
    /// The readout.
    pub readout: QuantityIx,
    /// Settings that it brings.
    pub needs: BTreeSet<SettingIx>,
    /// The container.
    pub container: Name,
    /// Nouns for a title.
    pub name_words: Vec<String>,
    /// Wordings of the reading.
    pub read: Vec<String>,
    /// Wordings of the repeats.
    pub repeat: Vec<String>,
    /// What the figure shows.
    pub picture: String,
}

/// Why a group wants to know.
#[derive(Debug, Clone)]
pub struct Purpose {
    /// The act it fits.
    pub act: ActIx,
    /// Whole sentences.
    pub text: String,
    /// One short sentence, where it was written.
    pub brief: Option<String>,
    /// Words of its shorter form, at least.
    pub least_words: usize,
    /// The unknown that a calibration would be read for.
    pub unknown: String,
    /// Hazards of what the story names.
    pub hazards: Vec<String>,
}

/// Invented people, place, organism and reasons.
#[derive(Debug, Clone)]
pub struct Context {
    /// Id as written.
    pub id: String,
    /// Who investigates.
    pub group: String,
    /// One for each act that it can carry.
    pub purposes: Vec<Purpose>,
}

impl Context {
    /// Why they would carry out this act.
    pub fn purpose_for(&self, act: ActIx) -> Option<&Purpose> {
        self.purposes.iter().find(|purpose| purpose.act == act)
    }
}

/// A textbook technique.
#[derive(Debug, Clone)]
pub struct Known {
    /// Id as written.
    pub id: String,
    /// Its usual name.
    pub name: String,
    /// Other names.
    pub other_names: Vec<String>,
    /// Its influences.
    pub path: Vec<InfluenceIx>,
}

/// A rare word that is not the biology asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gloss {
    /// The word.
    pub word: String,
    /// Its other forms.
    pub forms: Vec<String>,
    /// What it means: a phrase.
    pub means: String,
}

/// All checked parts, in the order of the files.
#[derive(Debug, Clone, Default)]
pub(in crate::concepts) struct Parts {
    pub(in crate::concepts) fields: Vec<Field>,
    pub(in crate::concepts) entities: Vec<Entity>,
    pub(in crate::concepts) quantities: Vec<Quantity>,
    pub(in crate::concepts) principles: Vec<Principle>,
    pub(in crate::concepts) settings: Vec<Setting>,
    pub(in crate::concepts) influences: Vec<Influence>,
    pub(in crate::concepts) acts: Vec<Act>,
    pub(in crate::concepts) rigs: Vec<Rig>,
    pub(in crate::concepts) contexts: Vec<Context>,
    pub(in crate::concepts) known: Vec<Known>,
    pub(in crate::concepts) gloss: Vec<Gloss>,
}

/// The checked graph.
#[derive(Debug, Clone)]
pub struct Graph {
    // INVARIANT: every index within `parts` is in range; ids are unique within their kind.
    parts: Parts,
    // INVARIANT: node i is quantity i; one edge an influence.
    arrows: DiGraph<QuantityIx, InfluenceIx>,
    version: String,
}

macro_rules! lookups {
    ($($(#[$doc:meta])* $one:ident, $many:ident, $find:ident: $ix:ident => $part:ident;)*) => {
        $(
            $(#[$doc])*
            #[expect(clippy::indexing_slicing, reason = "an index only comes from this graph: see the invariant")]
            pub fn $one(&self, ix: $ix) -> &$part {
                &self.parts.$many[ix.0 as usize]
            }

            /// All of them, in file order.
            pub fn $many(&self) -> impl Iterator<Item = ($ix, &$part)> + Clone {
                self.parts.$many.iter().zip(0..).map(|(part, n)| ($ix(n), part))
            }

            /// The one of this id.
            pub fn $find(&self, id: &str) -> Option<$ix> {
                self.$many().find(|(_, part)| part.id == id).map(|(ix, _)| ix)
            }
        )*
    };
}

impl Graph {
    /// Only `check` makes a graph.
    pub(in crate::concepts) fn new(parts: Parts, version: String) -> Self {
        let mut arrows = DiGraph::new();
        for n in 0..u32::try_from(parts.quantities.len()).unwrap_or(u32::MAX) {
            arrows.add_node(QuantityIx(n));
        }
        for (influence, n) in parts.influences.iter().zip(0..) {
            arrows.add_edge(node(influence.from), node(influence.to), InfluenceIx(n));
        }
        Self { parts, arrows, version }
    }

    /// Eight hexadecimal digits that change with any concept file: written into each scenario.
    pub fn version(&self) -> &str {
        &self.version
    }

    /// The arrows.
    pub fn arrows(&self) -> &DiGraph<QuantityIx, InfluenceIx> {
        &self.arrows
    }

    /// Influences that leave a quantity, in file order.
    pub fn leaving(&self, quantity: QuantityIx) -> Vec<InfluenceIx> {
        sorted(self.arrows.edges(node(quantity)).map(|edge| *edge.weight()))
    }

    /// Influences that enter a quantity, in file order.
    pub fn entering(&self, quantity: QuantityIx) -> Vec<InfluenceIx> {
        let incoming = self.arrows.edges_directed(node(quantity), petgraph::Direction::Incoming);
        sorted(incoming.map(|edge| *edge.weight()))
    }

    /// The field of an influence: that of its principle.
    pub fn field_of(&self, influence: InfluenceIx) -> FieldIx {
        self.principle(self.influence(influence).principle).field
    }

    /// Every principle that these rest on, themselves included.
    pub fn with_prerequisites(&self, principles: &BTreeSet<PrincipleIx>) -> BTreeSet<PrincipleIx> {
        let mut all = BTreeSet::new();
        let mut open: Vec<PrincipleIx> = principles.iter().copied().collect();
        while let Some(ix) = open.pop() {
            if all.insert(ix) {
                open.extend(self.principle(ix).requires.iter().copied());
            }
        }
        all
    }

    /// Influences by id, for messages and JSON.
    pub fn influence_ids(&self) -> BTreeMap<&str, InfluenceIx> {
        self.influences().map(|(ix, influence)| (influence.id.as_str(), ix)).collect()
    }

    lookups! {
        /// The field.
        field, fields, find_field: FieldIx => Field;
        /// The entity.
        entity, entities, find_entity: EntityIx => Entity;
        /// The quantity.
        quantity, quantities, find_quantity: QuantityIx => Quantity;
        /// The principle.
        principle, principles, find_principle: PrincipleIx => Principle;
        /// The setting.
        setting, settings, find_setting: SettingIx => Setting;
        /// The influence.
        influence, influences, find_influence: InfluenceIx => Influence;
        /// The act.
        act, acts, find_act: ActIx => Act;
        /// The rig.
        rig, rigs, find_rig: RigIx => Rig;
        /// The context.
        context, contexts, find_context: ContextIx => Context;
    }

    /// Rare words, in the order of the files.
    pub fn gloss(&self) -> &[Gloss] {
        &self.parts.gloss
    }

    /// Textbook techniques.
    pub fn known(&self) -> &[Known] {
        &self.parts.known
    }
}

fn node(quantity: QuantityIx) -> NodeIndex {
    NodeIndex::new(quantity.0 as usize)
}

fn sorted(influences: impl Iterator<Item = InfluenceIx>) -> Vec<InfluenceIx> {
    let mut list: Vec<_> = influences.collect();
    list.sort_unstable();
    list
}
