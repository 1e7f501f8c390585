//! Front matter: all that is needed to make a scenario again, bit for bit.

use serde::{Deserialize, Serialize};
use thiserror::Error;

use super::{FrontPlot, Panel};
use crate::concepts::graph::Graph;
use crate::concepts::{Path, Settings, Side, TwistAt};
use crate::experiment::Data;
use crate::laws::Value;
use crate::seed::{MOST, Seed};
use crate::technique::{Form, Technique};

/// The version of the file format that this program writes.
pub const FORMAT: u32 = crate::source::FILE_FORMAT;

/// The front matter of a scenario file.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Front {
    /// Version of the file format.
    pub toehold: u32,
    /// Version of the graph.
    pub graph: String,
    /// The scenario's seed.
    pub seed: u64,
    /// The draw of that seed that held.
    pub attempt: u32,
    /// The technique's name.
    pub title: String,
    /// `short` or `long`.
    pub form: String,
    /// The bench act.
    pub act: String,
    /// Levels in the dial's unit.
    pub levels: Vec<f64>,
    /// The rig.
    pub rig: String,
    /// The context.
    pub context: String,
    /// Influences in order.
    pub path: Vec<String>,
    /// Settings in force.
    pub settings: Vec<String>,
    /// Turning influences and the side in use.
    pub sides: Vec<FrontSide>,
    /// The second question.
    pub twist: Option<FrontTwist>,
    /// Readings at each level.
    pub replicates: u32,
    /// Which name each entity goes by.
    pub names: Vec<FrontName>,
    /// The laws' symbols, for a reader; they follow from the seed.
    pub parameters: Vec<FrontParameter>,
    /// Noiseless readout at each level.
    pub noiseless: Vec<f64>,
    /// The same for the twisted run.
    pub noiseless_twisted: Vec<f64>,
    /// The data plot; its numbers stand in the table.
    #[serde(default)]
    pub plot: FrontPlot,
    /// The apparatus as drawn, a stage a line; a teacher may mend its labels.
    #[serde(default)]
    pub apparatus: Vec<Panel>,
}

/// A turning influence and the side in use.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrontSide {
    /// The influence.
    pub influence: String,
    /// `below` or `above`.
    pub side: String,
}

/// A twist by name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrontTwist {
    /// The influence that it touches.
    pub at: String,
    /// The twist's id there.
    pub id: String,
}

/// An entity's name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrontName {
    /// The entity.
    pub entity: String,
    /// Its singular name.
    pub name: String,
}

/// A symbol's value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FrontParameter {
    /// The influence.
    pub influence: String,
    /// The law's symbol.
    pub symbol: String,
    /// Its value, in the law's unit.
    pub value: String,
}

/// Why front matter makes no technique.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum FrontError {
    /// The file was written by a newer program.
    #[error("file format {0} is newer than this program writes")]
    Format(u32),
    /// It was made from other concepts.
    #[error("it was made from concepts {made}, these are {here}")]
    OtherGraph {
        /// As written.
        made: String,
        /// As loaded.
        here: String,
    },
    /// A name that the graph does not have.
    #[error("the concepts have no {kind} `{name}`")]
    Unknown {
        /// `act`, `rig`, ...
        kind: &'static str,
        /// As written.
        name: String,
    },
    /// Parts that do not go together.
    #[error("{0}")]
    Unfit(&'static str),
}

impl Front {
    /// The front matter of a technique and its data.
    pub(super) fn of(graph: &Graph, technique: &Technique, data: &Data) -> Self {
        let id_of_side = |side: &Side| match side {
            Side::Below => "below",
            Side::Above => "above",
        };
        let twist = technique.twist.and_then(|at| {
            let influence = graph.influence(at.influence);
            Some(FrontTwist { at: influence.id.clone(), id: at.get(graph)?.id.clone() })
        });
        let names = technique.names.iter().filter_map(|(ix, number)| {
            let entity = graph.entity(*ix);
            Some(FrontName { entity: entity.id.clone(), name: entity.names.get(*number)?.one.clone() })
        });
        let sides = technique
            .settings
            .sides
            .iter()
            .map(|(ix, side)| FrontSide { influence: graph.influence(*ix).id.clone(), side: id_of_side(side).into() });
        Self {
            toehold: FORMAT,
            graph: graph.version().into(),
            seed: technique.seed.0,
            attempt: technique.attempt,
            title: technique.title.clone(),
            form: technique.form.word().into(),
            act: graph.act(technique.act).id.clone(),
            levels: technique.levels.clone(),
            rig: graph.rig(technique.rig).id.clone(),
            context: graph.context(technique.context).id.clone(),
            path: technique.path.steps().iter().map(|step| graph.influence(*step).id.clone()).collect(),
            settings: technique.settings.holds.iter().map(|ix| graph.setting(*ix).id.clone()).collect(),
            sides: sides.collect(),
            twist,
            replicates: technique.replicates,
            names: names.collect(),
            parameters: parameters(graph, data),
            noiseless: data.plain.noiseless.iter().copied().map(short).collect(),
            noiseless_twisted: data.twisted.iter().flat_map(|run| &run.noiseless).copied().map(short).collect(),
            plot: FrontPlot::default(),
            apparatus: Vec::new(),
        }
    }

    /// The technique that this front matter names.
    ///
    /// # Errors
    /// What it names that the graph does not have, or does not fit.
    pub fn technique(&self, graph: &Graph) -> Result<Technique, FrontError> {
        if self.toehold != FORMAT {
            return Err(FrontError::Format(self.toehold));
        }
        if self.graph != graph.version() {
            return Err(FrontError::OtherGraph { made: self.graph.clone(), here: graph.version().into() });
        }
        let unknown = |kind, name: &str| FrontError::Unknown { kind, name: name.into() };
        let mut steps = Vec::new();
        for id in &self.path {
            steps.push(graph.find_influence(id).ok_or_else(|| unknown("influence", id))?);
        }
        let path = Path::new(graph, steps).ok_or(FrontError::Unfit("the influences of `path` do not chain"))?;
        let act = graph.find_act(&self.act).ok_or_else(|| unknown("act", &self.act))?;
        let rig = graph.find_rig(&self.rig).ok_or_else(|| unknown("rig", &self.rig))?;
        let ends = path.quantities(graph);
        if ends.first() != Some(&graph.act(act).dial) || ends.last() != Some(&graph.rig(rig).readout) {
            return Err(FrontError::Unfit("`path` does not lead from the act's dial to the rig's readout"));
        }
        let context = graph.find_context(&self.context).ok_or_else(|| unknown("context", &self.context))?;
        if !graph.act(act).levels.contains(&self.levels) {
            return Err(FrontError::Unfit("`levels` is not one of the act's level sets"));
        }
        if !(2..=20).contains(&self.replicates) || self.seed >= MOST {
            return Err(FrontError::Unfit("`replicates` or `seed` is out of range"));
        }
        let form = Form::of_word(&self.form).ok_or(FrontError::Unfit("`form` is neither `short` nor `long`"))?;
        Ok(Technique {
            seed: Seed(self.seed),
            attempt: self.attempt,
            form,
            act,
            levels: self.levels.clone(),
            rig,
            context,
            path,
            settings: self.settings(graph)?,
            twist: self.twist(graph)?,
            replicates: self.replicates,
            names: self.names(graph)?,
            title: self.title.clone(),
        })
    }

    fn settings(&self, graph: &Graph) -> Result<Settings, FrontError> {
        let mut settings = Settings::default();
        for id in &self.settings {
            let unknown = || FrontError::Unknown { kind: "setting", name: id.clone() };
            settings.holds.insert(graph.find_setting(id).ok_or_else(unknown)?);
        }
        for FrontSide { influence, side } in &self.sides {
            let unknown = || FrontError::Unknown { kind: "influence", name: influence.clone() };
            let side = match side.as_str() {
                "below" => Side::Below,
                "above" => Side::Above,
                _ => return Err(FrontError::Unfit("a side is neither `below` nor `above`")),
            };
            settings.sides.insert(graph.find_influence(influence).ok_or_else(unknown)?, side);
        }
        Ok(settings)
    }

    fn twist(&self, graph: &Graph) -> Result<Option<TwistAt>, FrontError> {
        let Some(FrontTwist { at, id }) = &self.twist else { return Ok(None) };
        let influence =
            graph.find_influence(at).ok_or_else(|| FrontError::Unknown { kind: "influence", name: at.clone() })?;
        let number = graph.influence(influence).twists.iter().position(|twist| twist.id == *id);
        let number = number.ok_or_else(|| FrontError::Unknown { kind: "twist", name: id.clone() })?;
        Ok(Some(TwistAt { influence, number }))
    }

    fn names(&self, graph: &Graph) -> Result<std::collections::BTreeMap<crate::concepts::EntityIx, usize>, FrontError> {
        let mut names = std::collections::BTreeMap::new();
        for FrontName { entity, name } in &self.names {
            let ix = graph
                .find_entity(entity)
                .ok_or_else(|| FrontError::Unknown { kind: "entity", name: entity.clone() })?;
            let number = graph.entity(ix).names.iter().position(|known| known.one == *name);
            let number = number.ok_or_else(|| FrontError::Unknown { kind: "name", name: name.clone() })?;
            names.insert(ix, number);
        }
        Ok(names)
    }
}

fn parameters(graph: &Graph, data: &Data) -> Vec<FrontParameter> {
    let shown = data.plain.parameters.iter().map(|parameter| {
        let influence = graph.influence(parameter.influence);
        FrontParameter {
            influence: influence.id.clone(),
            symbol: influence.law.law.inputs.get(parameter.input).map_or("", |symbol| symbol.id).into(),
            value: match parameter.value {
                Value::Number(number) => format!("{number}"),
                Value::Text(letters) => letters,
                Value::List(values) => values.iter().map(f64::to_string).collect::<Vec<_>>().join(","),
            },
        }
    });
    shown.collect()
}

/// Eight significant digits: beyond these, platforms may differ.
fn short(value: f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let scale = libm::pow(10.0, 7.0 - libm::floor(libm::log10(value.abs())));
    libm::round(value * scale) / scale
}
