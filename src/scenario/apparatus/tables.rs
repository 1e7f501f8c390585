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
