//! Short cases of what looks like a point told, and is none: guessed at, left between two things, or told the wrong way.

use super::tests::{case, reviewer};
use super::*;

#[test]
fn what_is_only_guessed_is_left_open() {
    let dye = reviewer(
        "Describe how the concentration of dye in the liquid depends on the time.",
        "describe",
        "Over a longer time more dye comes out, so its concentration in the liquid rises.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&dye, "The longer the time the darker the liquid.", Status::Found);
    case(&dye, "Perhaps the longer the time the darker the liquid, or it could fizz.", Status::LookAgain);
    case(&dye, "The longer the time the darker the liquid. It might smell too, or fizz.", Status::Found);
}

#[test]
fn one_thing_or_another_is_no_choice() {
    let name = reviewer("Identify the readout.", "identify", "The loudness of the kettle.", &["“loudness”"], &[]);
    case(&name, "the loudness of the kettle", Status::Found);
    case(&name, "the loudness of the kettle or else the size of the flame", Status::LookAgain);
    case(&name, "the loudness or how loud the kettle is, its loudness", Status::Found);
}

fn open(statement: &str) -> Reviewer {
    reviewer(
        "Propose one of these.",
        "propose",
        statement,
        &["any treatment that is known to drive a later step"],
        &["something necessary left out"],
    )
}

#[test]
fn a_positive_control_drives_the_reading_its_own_way() {
    let control = open(
        "A positive control, for example a further pot, to which a large excess of yeast has been added at the start; if \
         the reading can change, the brightness of the dye rises there.",
    );
    let told = "A further pot with a large excess of yeast in it at the start, and the dye should get";
    case(&control, &format!("{told} brighter there."), Status::Found);
    case(&control, &format!("{told} dimmer there."), Status::Contradicted);
    case(
        &control,
        "A further pot with a large excess of yeast in it; the brightness should not change.",
        Status::Contradicted,
    );
    case(
        &control,
        "A further pot with no yeast in it at all, so the brightness of the dye should not change.",
        Status::NotFound,
    );
}

#[test]
fn a_fault_that_makes_all_alike_leaves_no_difference() {
    let fault = open(
        "A fault that makes all levels alike or breaks one link of the chain, for example: the yeast had been left out by \
         mistake, so no gas was formed.",
    );
    let told = "The yeast was left out by mistake so no gas was made in any of the pots";
    case(&fault, &format!("{told}."), Status::Found);
    case(
        &fault,
        &format!("{told}, but the warm pots would still make more gas than the cold ones."),
        Status::Contradicted,
    );
}

#[test]
fn a_refused_reason_is_told_in_any_order() {
    let lamp = reviewer(
        "Explain why the lamp gets brighter.",
        "explain",
        "A larger flame heats more of the oil, so the lamp gets brighter.",
        &[],
        &["the moth paints the wick", "the glass is more permeable"],
    );
    let told = "A larger flame heats more of the oil, so the lamp gets brighter";
    case(&lamp, &format!("{told}."), Status::Found);
    case(&lamp, &format!("{told}. The wick is painted by the moth."), Status::NotFound);
    case(&lamp, &format!("The glass is less permeable. {told}."), Status::NotFound);
    case(&lamp, &format!("{told}. The wick is not painted by the moth."), Status::Found);
}
