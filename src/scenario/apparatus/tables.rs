//! Which shape a part of the concepts takes in the schematic, by id: one row a part. A part without a row is not drawn,
//! and its stage is that of its neighbours.

use crate::scenario::Shape;

/// A stage of the bench work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stage {
    Culture,
    Extract,
    Soak,
    Sample,
    Strands,
    Rinse,
    Preheat,
    React,
    Cut,
    Run,
    Leaves,
    Read,
}

/// Things that are drawn or named in a way of their own.
pub(super) mod entity {
    pub(in super::super) const BATH: &str = "bath";
    pub(in super::super) const CELL: &str = "cell";
    pub(in super::super) const CULTURE: &str = "culture";
    pub(in super::super) const DNA: &str = "dna";
    pub(in super::super) const ENZYME: &str = "enzyme";
    pub(in super::super) const EXTRACT: &str = "extract";
    pub(in super::super) const FILTRATE: &str = "filtrate";
    pub(in super::super) const LEAF: &str = "leaf";
    pub(in super::super) const MARKER: &str = "marker";
    pub(in super::super) const MIX: &str = "mix";
    pub(in super::super) const PROBE: &str = "probe";
    pub(in super::super) const VESICLE: &str = "vesicle";
    #[cfg(test)]
    pub(super) const ALL: &[&str] =
        &[BATH, CELL, CULTURE, DNA, ENZYME, EXTRACT, FILTRATE, LEAF, MARKER, MIX, PROBE, VESICLE];
}

/// Settings that change what a stage holds.
pub(super) mod setting {
    pub(in super::super) const CARGO_ENZYME: &str = "cargo-enzyme";
    pub(in super::super) const CARGO_PEPTIDE: &str = "cargo-peptide";
    pub(in super::super) const CARGO_REACTION: &str = "cargo-reaction";
    pub(in super::super) const CARGO_SUBSTRATE: &str = "cargo-substrate";
    pub(in super::super) const ENZYME_ENDS: &str = "enzyme-ends";
    pub(in super::super) const IN_GEL: &str = "in-gel";
    pub(in super::super) const PROBE_BOUND_ENZYME: &str = "probe-bound-enzyme";
    pub(in super::super) const SALT_WASHED_OUT: &str = "salt-washed-out";
    pub(in super::super) const TEST_PELLET: &str = "test-pellet";
    pub(in super::super) const TEST_RINSE: &str = "test-rinse";
    #[cfg(test)]
    pub(super) const ALL: &[&str] = &[
        CARGO_ENZYME,
        CARGO_PEPTIDE,
        CARGO_REACTION,
        CARGO_SUBSTRATE,
        ENZYME_ENDS,
        IN_GEL,
        PROBE_BOUND_ENZYME,
        SALT_WASHED_OUT,
        TEST_PELLET,
        TEST_RINSE,
    ];
}

/// Quantities without which a stage holds something else.
pub(super) mod quantity {
    pub(in super::super) const REACTION_RATE: &str = "reaction-rate";
    pub(in super::super) const SPACER_LENGTH: &str = "spacer-length";
    #[cfg(test)]
    pub(super) const ALL: &[&str] = &[REACTION_RATE, SPACER_LENGTH];
}

/// How the ids of influences begin by which strands pair.
pub(super) const PAIRING: &str = "pairing-";
/// The law of pieces cut at random places.
pub(super) const RANDOM_CUTS: &str = "mean-fragment-length";

/// The stage at which a property of this entity matters.
pub(super) const STAGES: &[(&str, Stage)] = &[
    ("bath", Stage::Soak),
    ("vesicle", Stage::Soak),
    ("cell", Stage::Soak),
    ("filtrate", Stage::Sample),
    ("probe", Stage::Strands),
    ("mix", Stage::React),
    ("enzyme", Stage::React),
    ("dna", Stage::Cut),
    ("marker", Stage::Run),
    ("culture", Stage::Culture),
    ("extract", Stage::Extract),
    ("leaf", Stage::Read),
    ("sample", Stage::Read),
];

/// A stage of its own before the first of the path, where the treatment is over when the path begins.
pub(super) const TREATED_BEFORE: &[(&str, Stage)] = &[("preheat-time", Stage::Preheat)];

/// How the dial of an act is drawn.
pub(super) const DIALS: &[(&str, Shape)] = &[
    ("bath-temperature", Shape::Thermometer),
    ("assay-temperature", Shape::Thermometer),
    ("probe-temperature", Shape::Thermometer),
    ("soak-time", Shape::Clock),
    ("preheat-time", Shape::Clock),
    ("vesicle-radius", Shape::Compasses),
    ("spacer-length", Shape::Spacer),
    ("lamp-intensity", Shape::Lamp),
    ("enzyme-dose", Shape::Enzyme),
    ("nuclease-dose", Shape::Enzyme),
    ("substrate-concentration", Shape::Substrate),
    ("assay-ph", Shape::Tube),
    ("inhibitor-concentration", Shape::Inhibitor),
];

/// What vesicles carry, by setting; `*` stands for the enzyme's own name, `+` for that of the strands.
pub(super) const CARGOES: &[(&str, Shape, &str)] = &[
    ("cargo-dye", Shape::Cargo, "dye"),
    ("cargo-enzyme", Shape::Cargo, "*"),
    ("cargo-substrate", Shape::Cargo, "substrate"),
    ("cargo-inhibitor", Shape::Cargo, "inhibitor"),
    ("cargo-nuclease", Shape::Cargo, "nuclease"),
    ("cargo-quencher", Shape::Cargo, "quencher"),
    ("cargo-dye-and-quencher", Shape::Cargo, "dye"),
    ("cargo-dye-and-quencher", Shape::SecondCargo, "quencher"),
    ("cargo-peptide", Shape::Cargo, "*"),
    ("cargo-peptide", Shape::SecondCargo, "peptide"),
    ("cargo-reaction", Shape::Cargo, "*"),
    ("cargo-reaction", Shape::SecondCargo, "substrate"),
    ("cargo-probe", Shape::InnerStrands, "+"),
    ("cargo-probe", Shape::SecondCargo, "salt"),
];

/// What the apparatus has besides, by setting.
pub(super) const FITTINGS: &[(&str, Stage, Shape, &str)] = &[
    ("lidded-enzyme", Stage::Preheat, Shape::Inhibitor, "lid protein"),
    ("gated-pores", Stage::Soak, Shape::Gate, "gate protein"),
    ("inhibitor-present", Stage::React, Shape::Inhibitor, "inhibitor"),
    ("read-base-form", Stage::React, Shape::SecondParticles, "indicator"),
    ("read-acid-form", Stage::React, Shape::SecondParticles, "indicator"),
    ("probe-bound-enzyme", Stage::Strands, Shape::Bead, "bead"),
    ("probe-bound-enzyme", Stage::Strands, Shape::StrandEnzyme, "enzyme"),
    ("looped-strands", Stage::Strands, Shape::Loop, "loop and its stem"),
    ("folded-strands", Stage::Strands, Shape::Loop, "loop and its stem"),
    ("labels-meet", Stage::Strands, Shape::FirstLabel, "green label"),
    ("labels-meet", Stage::Strands, Shape::SecondLabel, "red label"),
    ("labels-part", Stage::Strands, Shape::FirstLabel, "green label"),
    ("labels-part", Stage::Strands, Shape::FarLabel, "red label"),
    ("read-donor", Stage::Read, Shape::ColourGlass, "filter (green light)"),
    ("read-acceptor", Stage::Read, Shape::ColourGlass, "filter (red light)"),
    ("leaf-behind-liquid", Stage::Read, Shape::TroughBetween, "trough of liquid"),
];

/// What the apparatus has besides, by influence on the path.
pub(super) const FOUND_ON_THE_WAY: &[(&str, Stage, Shape, &str)] = &[
    ("surface-speeds-leak", Stage::Soak, Shape::Barrel, "protein channel"),
    ("soak-lengthens-leak", Stage::Soak, Shape::Barrel, "protein channel"),
    ("voltage-holds-dye", Stage::Soak, Shape::SecondParticles, "dye"),
    ("pairing-lights-dye", Stage::Strands, Shape::SecondParticles, "flat dye"),
    ("spacer-parts-labels", Stage::Strands, Shape::FirstLabel, "green label"),
    ("spacer-parts-labels", Stage::Strands, Shape::FarLabel, "red label"),
    ("oxygen-dims-sensor", Stage::Read, Shape::Film, "film of dye"),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::concepts::{Graph, embedded, load_and_check};

    fn graph() -> Graph {
        load_and_check(&embedded()).unwrap()
    }

    /// A part that was renamed would silently no longer be drawn.
    #[test]
    fn every_id_is_in_the_concepts() {
        let graph = graph();
        let mut gone: Vec<&str> = Vec::new();
        let mut look = |ids: Vec<&'static str>, found: &dyn Fn(&str) -> bool| {
            assert!(!ids.is_empty());
            gone.extend(ids.into_iter().filter(|id| !found(id)));
        };
        let entities = STAGES.iter().map(|row| row.0).chain(entity::ALL.iter().copied());
        look(entities.collect(), &|id| graph.find_entity(id).is_some());
        let quantities = TREATED_BEFORE.iter().map(|row| row.0).chain(DIALS.iter().map(|row| row.0));
        look(quantities.chain(quantity::ALL.iter().copied()).collect(), &|id| graph.find_quantity(id).is_some());
        let settings = CARGOES.iter().map(|row| row.0).chain(FITTINGS.iter().map(|row| row.0));
        look(settings.chain(setting::ALL.iter().copied()).collect(), &|id| graph.find_setting(id).is_some());
        let influences = FOUND_ON_THE_WAY.iter().map(|row| row.0);
        look(influences.collect(), &|id| graph.find_influence(id).is_some());
        let uses = |id: &str| graph.influences().any(|(_, influence)| influence.law.law.id == id);
        look(vec![RANDOM_CUTS], &uses);
        look(vec![PAIRING], &|start| graph.influences().any(|(_, influence)| influence.id.starts_with(start)));
        assert!(gone.is_empty(), "{gone:?}");
    }
}
