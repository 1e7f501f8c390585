//! What is left open: guesses, one thing or another, a control, a fault, a setup, a verdict by a test.

use super::*;

#[test]
fn what_is_only_guessed_is_left_open() {
    let dye = dye_in_time();
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
fn a_setup_that_divides_is_another() {
    let product = reviewer(
        "Calculate the product.",
        "calculate",
        "Setup: P = (5 µmol/(L·min))(20 min). Earns even if the arithmetic fails.",
        &[],
        &["a bare answer"],
    );
    case(&product, "P = 5 × 20 = 100 µmol/L", Status::Found);
    case(&product, "P = 5 / 20 = 0.25 µmol/L", Status::NotFound);
}

#[test]
fn chi_square_decides_by_the_value_that_the_answer_has() {
    let claim = reviewer(
        "Evaluate the claim that the share is the same at both.",
        "evaluate",
        "χ² is larger than 3.84 (1 degree of freedom), so the claim is rejected: the shares differ.",
        &["a verdict that follows from a wrong value"],
        &[],
    );
    case(&claim, "χ² = 5.7, above 3.84, so reject the claim.", Status::Found);
    case(&claim, "χ² = 2.7, below 3.84, so the claim is not rejected.", Status::Found);
    case(&claim, "χ² = 5.7, above 3.84, so we accept the claim.", Status::Contradicted);
    case(&claim, "The critical value is 3.84.", Status::LookAgain);
    case(&claim, "They differ.", Status::NotFound);
    for right in [
        "χ² = 1.2, below 3.84, so there is no significant difference.",
        "χ² = 1.2, below 3.84, so the difference is not significant.",
        "χ² = 1.2, below 3.84, so any difference is by chance.",
        "χ² = 1.2, below 3.84, so we fail to reject the claim.",
        "χ² = 9.5, above 3.84: significant and unlikely to be by chance.",
        "χ² = 9.5, above 3.84, so the claim that the shares are the same is rejected.",
        "χ² = 4 + 5.5 = 9.5. This is above 3.84 (df = 1), so I reject the claim.",
    ] {
        case(&claim, right, Status::Found);
    }
    case(&claim, "χ² = 1.2, below 3.84, so there is a significant difference.", Status::Contradicted);
    case(&claim, "χ² = 9.5, above 3.84, so it is just chance and the claim can stand.", Status::Contradicted);
    case(&claim, "χ² = 1.2, below 3.84, so the claim is accepted and proved for certain.", Status::Contradicted);
}

#[test]
fn an_effect_that_has_dropped_out_balances_nothing() {
    let told = |text: &str| {
        let balance = vec![point("p", PointKind::Balance, "Both act, against each other; the second is larger.", &[])];
        last_of("Explain how the size changes.", "explain", balance, text)
    };
    assert_eq!(told("They act against each other and the second is larger."), Status::Found);
    assert_eq!(told("The first effect drops out, so the second wins over it."), Status::Contradicted);
    assert_eq!(told("The first no longer matters, and the second is larger."), Status::Contradicted);
    assert_eq!(told("Both play a role, against each other, and the second is larger."), Status::Found);
    assert_eq!(told("The first doesn't play a role any more, so the second is larger."), Status::Contradicted);
}

#[test]
fn which_of_two_effects_wins() {
    let told = |text: &str| {
        let statement =
            "The first effect still makes the lamp brighter; the two oppose each other, and the second is larger.";
        let balance = vec![point("p", PointKind::Balance, statement, &["“the first effect has stopped”"])];
        last_of("Explain how the brightness of the lamp changes.", "explain", balance, text)
    };
    assert_eq!(
        told("A larger flame makes the lamp brighter. But soot works against that and is stronger."),
        Status::Found
    );
    assert_eq!(
        told("Soot works against the flame. A larger flame makes the lamp brighter and wins."),
        Status::Contradicted
    );
    let both_ways = "A larger flame makes the lamp brighter. Against that soot makes the lamp dimmer.";
    assert_eq!(told(&format!("{both_ways} The second is the stronger of the two.")), Status::Found);
    assert_eq!(told(&format!("{both_ways} The first is the stronger of the two.")), Status::Contradicted);
    assert_eq!(told("Both things make the lamp dimmer."), Status::Contradicted);
    assert_eq!(told("There is soot too, so the two add up."), Status::Contradicted);
    assert_eq!(told("Soot makes the lamp dimmer and nothing works against it."), Status::Contradicted);
    assert_eq!(told("More soot counts more than the flame, so it is dimmer."), Status::Found);
}
