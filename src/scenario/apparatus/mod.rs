//! The apparatus of a technique, stage by stage along its path: what the schematic shows, and what it is called there.
//!
//! Labels name things and never say what they do. Ids stand in `tables.rs`.

mod reading;
mod tables;

use self::tables::{
    CARGOES, DIALS, FITTINGS, FOUND_ON_THE_WAY, PAIRING, RANDOM_CUTS, STAGES, Stage, TREATED_BEFORE, entity, quantity,
    setting,
};
use super::figure::{Item, Panel, Readings, Scene, Shape};
use super::text::Voice;
use crate::concepts::QuantityIx;
use crate::concepts::written::Transfer;

/// The stages of a technique, drawn.
pub(super) fn panels(voice: &Voice<'_>) -> Vec<Panel> {
    let bench = Bench { voice, quantities: voice.technique.path.quantities(voice.graph) };
    let stages = bench.stages();
    let first = stages.first().copied();
    let n_stages = stages.len();
    let mut panels = Vec::new();
    for (place, stage) in stages.iter().enumerate() {
        let before = place.checked_sub(1).and_then(|before| stages.get(before)).copied();
        let mut panel = bench.panel(*stage, before);
        if first == Some(*stage) && place == 0 {
            bench.add_dial(&mut panel, n_stages == 1);
        }
        panels.push(panel);
    }
    panels
}

/// What one would see when reading, where that is a picture.
pub(super) fn readings(voice: &Voice<'_>) -> Option<Readings> {
    let instrument = voice.readout().reading.as_ref().map_or("", |reading| reading.instrument.as_str());
    let has = |word: &str| instrument.contains(word);
    if has("ruler") {
        let marker = voice.graph.entity(voice.readout().entity).id == entity::MARKER;
        // Cuts at random places leave pieces of every length.
        let random =
            voice.technique.path.steps().iter().any(|step| voice.graph.influence(*step).law.law.id == RANDOM_CUTS);
        return Some(match (marker, random) {
            (true, _) => Readings::Zones,
            (false, true) => Readings::Smears,
            (false, false) => Readings::Bands,
        });
    }
    // Where an instrument shows a number and nobody sees the thing itself, there is no picture.
    let plate = voice.graph.rig(voice.technique.rig).picture == "wells";
    match (has("overhead camera"), has("colorimeter") && plate) {
        (true, _) => Some(Readings::Shining),
        (_, true) => Some(Readings::Dark),
        _ => None,
    }
}

/// A technique as laid out on the bench.
struct Bench<'a, 'v> {
    voice: &'v Voice<'a>,
    quantities: Vec<QuantityIx>,
}

impl Bench<'_, '_> {
    fn entity(&self, quantity: QuantityIx) -> &str {
        &self.voice.graph.entity(self.voice.graph.quantity(quantity).entity).id
    }

    fn holds(&self, setting: &str) -> bool {
        let graph = self.voice.graph;
        graph.find_setting(setting).is_some_and(|ix| self.voice.technique.settings.holds.contains(&ix))
    }

    fn walks(&self, influence: &str) -> bool {
        let graph = self.voice.graph;
        self.voice.technique.path.steps().iter().any(|step| graph.influence(*step).id == influence)
    }

    /// The stages in order, each once where the path stays in it.
    fn stages(&self) -> Vec<Stage> {
        let dial = &self.voice.dial().id;
        let before = TREATED_BEFORE.iter().find(|(id, _)| id == dial).map(|(_, stage)| *stage);
        let mut stages: Vec<Stage> = before.into_iter().collect();
        let has_leaf = self.quantities.iter().any(|ix| self.entity(*ix) == entity::LEAF);
        let steps = self.voice.technique.path.steps();
        for (place, quantity) in self.quantities.iter().enumerate() {
            let of = |quantity: QuantityIx| {
                let entity = self.entity(quantity);
                STAGES.iter().find(|(id, _)| *id == entity).map(|(_, stage)| *stage)
            };
            let step_at = |place: usize| steps.get(place).map(|step| self.voice.graph.influence(*step));
            let into = place.checked_sub(1).and_then(step_at);
            let sampled = into.is_some_and(|step| step.transfer == Some(Transfer::Sample));
            let loaded = into.is_some_and(|step| step.transfer == Some(Transfer::Load));
            // A treatment that touches its specimen stands where the specimen is.
            let touches = place == 0 && step_at(0).is_some_and(|step| step.transfer == Some(Transfer::Contact));
            let next = self.quantities.get(place + 1).copied().filter(|_| touches);
            let Some(stage) = of(next.unwrap_or(*quantity)) else { continue };
            let stage = match (stage, stages.last()) {
                (Stage::Soak, _) if sampled => Stage::Sample,
                (Stage::Strands, Some(Stage::Soak)) => Stage::Soak,
                (Stage::Cut, Some(Stage::Cut | Stage::Run)) if loaded || stages.last() == Some(&Stage::Run) => {
                    Stage::Run
                }
                // Enzyme and substrate that are enclosed together react where they are.
                (Stage::React, _) if self.holds(setting::CARGO_REACTION) => Stage::Soak,
                // Leaves whose doings are read elsewhere stand in a chamber of their own.
                (Stage::Read, _) if has_leaf && self.leads_on(place) => Stage::Leaves,
                (Stage::Read, _) if !has_leaf && !self.is_last(place) => continue,
                (other, _) => other,
            };
            if stages.last() != Some(&stage) {
                stages.push(stage);
            }
            if into.is_some_and(|step| step.id.starts_with(PAIRING) && self.holds(setting::PROBE_BOUND_ENZYME)) {
                stages.push(Stage::Rinse);
            }
        }
        if !matches!(stages.last(), Some(Stage::Read | Stage::Run)) {
            stages.push(Stage::Read);
        }
        stages
    }

    /// Whether a later quantity belongs to another stage than the reading.
    fn leads_on(&self, place: usize) -> bool {
        self.quantities.iter().skip(place).any(|quantity| {
            let entity = self.entity(*quantity);
            STAGES.iter().any(|(id, stage)| *id == entity && *stage != Stage::Read)
        })
    }

    fn is_last(&self, place: usize) -> bool {
        place + 1 == self.quantities.len()
    }

    fn noun(&self, entity: &str, many: bool) -> String {
        let number = if many { "many" } else { "one" };
        self.voice.later(&format!("{{{{ {entity}.{number} }}}}"), None)
    }

    fn panel(&self, stage: Stage, before: Option<Stage>) -> Panel {
        let (title, scene, mut items) = match stage {
            Stage::Culture => ("The culture", Scene::Liquid, self.culture()),
            Stage::Extract => ("The extract", Scene::Liquid, self.extract()),
            Stage::Soak => ("The bath", Scene::Liquid, self.soak()),
            Stage::Sample => self.sample(),
            Stage::Strands => ("The strands", Scene::Liquid, self.strands()),
            Stage::Rinse => (
                "Drawing off",
                Scene::Filter,
                vec![
                    item(Shape::Held, "beads"),
                    item(Shape::Magnet, "magnet"),
                    item(Shape::Liquid, "liquid drained off"),
                ],
            ),
            Stage::Preheat => ("The preheating", Scene::Liquid, self.preheat()),
            Stage::React => ("The mix", Scene::Liquid, self.react(before)),
            Stage::Cut => ("The DNA", Scene::Liquid, self.cut(before)),
            Stage::Run => ("The run", Scene::Run, self.run()),
            Stage::Leaves => ("The chamber", Scene::Chamber, self.leaves()),
            Stage::Read => self.read(),
        };
        let fittings = FITTINGS.iter().filter(|(id, at, ..)| *at == stage && self.holds(id));
        let found = FOUND_ON_THE_WAY.iter().filter(|(id, at, ..)| *at == stage && self.walks(id));
        for (_, _, shape, label) in fittings.chain(found) {
            if !items.iter().any(|item| item.shape == *shape) {
                items.push(item(*shape, label));
            }
        }
        Panel { title: title.into(), scene, items }
    }

    /// The treatment, with its first and last level.
    fn add_dial(&self, panel: &mut Panel, alone: bool) {
        let dial = self.voice.dial();
        let known = DIALS.iter().find(|(id, _)| *id == dial.id).map(|(_, shape)| *shape);
        let levels = self.voice.levels();
        let last = self.voice.level(levels.len().saturating_sub(1));
        let first = levels.first().map_or("", String::as_str);
        // The name of the treatment says already that it is a pH.
        let range = format!("{first} to {}", last.trim_start_matches("pH "));
        let label = format!("{}: {range}", dial.name);
        let shape = known.unwrap_or(Shape::Particles);
        match panel.items.iter_mut().find(|item| item.shape == shape) {
            Some(item) => item.label = label,
            None if alone && shape == Shape::Particles => {}
            None => panel.items.push(Item { shape, label }),
        }
    }

    fn culture(&self) -> Vec<Item> {
        vec![item(Shape::Flask, "flask"), item(Shape::Culture, &self.noun(entity::CULTURE, false))]
    }

    fn extract(&self) -> Vec<Item> {
        vec![item(Shape::Tube, "tube"), item(Shape::Liquid, &self.noun(entity::EXTRACT, false))]
    }

    fn soak(&self) -> Vec<Item> {
        let is_cell = self.quantities.iter().any(|ix| self.entity(*ix) == entity::CELL);
        let mut items = vec![item(Shape::Beaker, &self.noun(entity::BATH, false))];
        if is_cell {
            items.push(item(Shape::Cell, &self.noun(entity::CELL, false)));
            return items;
        }
        items.push(Item { shape: Shape::Vesicle, label: format!("{}, cut open", self.noun(entity::VESICLE, false)) });
        items.push(item(Shape::Bilayer, "bilayer"));
        for (_, shape, label) in CARGOES.iter().filter(|(setting, ..)| self.holds(setting)) {
            let label = match *label {
                "*" => self.noun(entity::ENZYME, true),
                "+" => self.noun(entity::PROBE, true),
                label => label.to_owned(),
            };
            items.push(Item { shape: *shape, label });
        }
        items
    }

    fn sample(&self) -> (&'static str, Scene, Vec<Item>) {
        let is_cell = self.quantities.iter().any(|ix| self.entity(*ix) == entity::CELL);
        let held = self.noun(if is_cell { entity::CELL } else { entity::VESICLE }, true);
        if is_cell || self.holds(setting::TEST_PELLET) {
            let tested = self.noun(entity::FILTRATE, true);
            let tested = if is_cell { tested } else { format!("{tested}, from ruptured {held}") };
            let liquid = Item { shape: Shape::Liquid, label: tested };
            let shape = if is_cell { Shape::Held } else { Shape::Pellet };
            let mut items = vec![Item { shape, label: format!("{held}, spun down") }, liquid];
            if !is_cell {
                items.push(item(Shape::Waste, "liquid, drawn off and discarded"));
            }
            return ("Spinning down", Scene::Spin, items);
        }
        let items = vec![
            Item { shape: Shape::Held, label: held },
            item(Shape::Filter, "fine filter"),
            Item { shape: Shape::Liquid, label: self.noun(entity::FILTRATE, true) },
        ];
        ("Filtering", Scene::Filter, items)
    }

    fn strands(&self) -> Vec<Item> {
        let shape = if self.voice.dial().id == quantity::SPACER_LENGTH { Shape::Spacer } else { Shape::Strands };
        vec![item(Shape::Tube, "buffer"), Item { shape, label: self.noun(entity::PROBE, true) }]
    }

    fn preheat(&self) -> Vec<Item> {
        vec![item(Shape::Tube, "tube"), item(Shape::Enzyme, &self.noun(entity::ENZYME, false))]
    }

    fn react(&self, before: Option<Stage>) -> Vec<Item> {
        let enzyme = item(Shape::Enzyme, &self.noun(entity::ENZYME, false));
        let reacts = self.quantities.iter().any(|ix| self.voice.graph.quantity(*ix).id == quantity::REACTION_RATE);
        let brought = self.brought(before);
        // Where the enzyme comes with what the stage before hands on, the substrate is added to that.
        if let (true, true, Some(held)) = (reacts, self.brings_enzyme(before), &brought) {
            let mut items = match before {
                Some(Stage::Soak) => self.soak(),
                Some(Stage::Cut) => {
                    let mix = item(Shape::Tube, &self.noun(entity::MIX, false));
                    vec![mix, Item { shape: Shape::EndedDna, label: held.label.clone() }]
                }
                Some(Stage::Rinse) if !self.drained_goes_on() => {
                    let mix = item(Shape::Tube, &self.noun(entity::MIX, false));
                    vec![mix, Item { shape: Shape::LoadedBead, label: held.label.clone() }]
                }
                _ => vec![item(Shape::Tube, &held.label), enzyme],
            };
            items.push(item(Shape::Drop, "substrate solution"));
            return items;
        }
        let mut items = vec![item(Shape::Tube, &self.noun(entity::MIX, false))];
        if reacts {
            items.push(enzyme);
            // Substrate that comes with the liquid is not there before it.
            if !self.holds(setting::CARGO_SUBSTRATE) {
                items.push(item(Shape::Substrate, "substrate"));
            }
        }
        items.extend(brought);
        items
    }

    fn leaves(&self) -> Vec<Item> {
        vec![
            item(Shape::Lamp, "lamp"),
            item(Shape::Chamber, "closed chamber"),
            Item { shape: Shape::Leaf, label: self.noun(entity::LEAF, true) },
        ]
    }

    fn brings_enzyme(&self, before: Option<Stage>) -> bool {
        match before {
            Some(Stage::Extract | Stage::Rinse) => true,
            Some(Stage::Sample) => self.holds(setting::CARGO_ENZYME),
            Some(Stage::Soak) => self.holds(setting::CARGO_ENZYME) || self.holds(setting::CARGO_PEPTIDE),
            Some(Stage::Cut) => self.holds(setting::ENZYME_ENDS),
            _ => false,
        }
    }

    fn cut(&self, before: Option<Stage>) -> Vec<Item> {
        let mut items =
            vec![item(Shape::Tube, "tube"), Item { shape: Shape::Dna, label: self.noun(entity::DNA, true) }];
        items.extend(self.brought(before));
        items
    }

    /// The liquid drained off the beads is what is used, and not the beads.
    fn drained_goes_on(&self) -> bool {
        self.holds(setting::SALT_WASHED_OUT) || self.holds(setting::TEST_RINSE)
    }

    /// What the stage before hands on.
    fn brought(&self, before: Option<Stage>) -> Option<Item> {
        let label = match before? {
            Stage::Sample => self.noun(entity::FILTRATE, true),
            // Columns move it into fresh buffer.
            Stage::Rinse if self.drained_goes_on() => {
                format!("{}, in fresh buffer", self.noun(entity::ENZYME, true))
            }
            Stage::Rinse => format!("beads with {} on them", self.noun(entity::ENZYME, true)),
            Stage::Cut if self.holds(setting::ENZYME_ENDS) => {
                format!("{} with {} on their ends", self.noun(entity::DNA, true), self.noun(entity::ENZYME, true))
            }
            Stage::Extract => self.noun(entity::EXTRACT, false),
            Stage::Soak if self.holds(setting::CARGO_PEPTIDE) => {
                format!("bath with {}", self.noun(entity::VESICLE, true))
            }
            Stage::Leaves => "water from the chamber".to_owned(),
            _ => return None,
        };
        Some(Item { shape: Shape::Drop, label })
    }

    fn run(&self) -> Vec<Item> {
        let container = &self.voice.graph.rig(self.voice.technique.rig).container.one;
        let lane = if self.holds(setting::IN_GEL) { format!("{container} of agarose gel") } else { container.clone() };
        let is_marker = self.voice.graph.entity(self.voice.readout().entity).id == entity::MARKER;
        let start = if is_marker {
            Item { shape: Shape::MiddleLine, label: format!("start line with {}", self.noun(entity::MARKER, true)) }
        } else {
            Item { shape: Shape::StartLine, label: format!("start line with {}", self.noun(entity::DNA, true)) }
        };
        vec![
            Item { shape: Shape::Lane, label: lane },
            start,
            item(Shape::Minus, "negative electrode"),
            item(Shape::Plus, "positive electrode"),
            item(Shape::Ruler, "ruler"),
        ]
    }
}

fn item(shape: Shape, label: &str) -> Item {
    Item { shape, label: label.to_owned() }
}
