//! Short cases of right answers that are not to be read as the opposite, beside wrong ones that are.

use super::tests::{case, reviewer};
use super::*;

/// Which way each claim of a text goes.
fn ways(text: &str) -> Vec<Direction> {
    let view = read(text, &Lexicon::default());
    view.directions.iter().filter(|claim| !claim.aside).map(|claim| claim.direction).collect()
}

fn chain() -> Reviewer {
    reviewer(
        "Explain, step by step, how a change in the dose leads to a change in the colour of the juice.",
        "explain",
        "A larger dose opens more pores, so dye leaks out faster; more dye leaks out of the cells; the juice holds more dye, \
         so its colour is deeper.",
        &["the same argued from the opposite change"],
        &[],
    )
}

#[test]
fn a_deed_that_is_slow_is_not_done_more() {
    assert_eq!(ways("Leaking is slow."), [Direction::Down]);
    let chain = chain();
    case(
        &chain,
        "A small dose opens few pores, so leaking is slow, less dye leaks out and the juice is paler.",
        Status::Found,
    );
    case(
        &chain,
        "A large dose opens more pores, so leaking is slow, less dye leaks out and the juice is paler.",
        Status::Contradicted,
    );
    assert_eq!(ways("Less slowing."), [Direction::Up]);
}

#[test]
fn a_particle_may_stand_behind_the_object() {
    assert_eq!(ways("It speeds the leak up."), [Direction::Up]);
    assert_eq!(ways("This brings the rate down."), [Direction::Down]);
    assert!(ways("It brings more of it.").iter().all(|way| *way == Direction::Up));
}

#[test]
fn what_has_gone_up_has_not_gone() {
    assert_eq!(ways("The volume has gone up."), [Direction::Up]);
    assert_eq!(ways("The rate has gone down."), [Direction::Down]);
}

#[test]
fn the_occasion_ends_before_what_follows() {
    let view = read("If it's low, the dye leaks out slower.", &Lexicon::default());
    assert!(view.links.iter().any(|link| link.text == "If"));
    let chain = chain();
    case(&chain, "When it's small, fewer pores open, less dye leaks out and the juice is paler.", Status::Found);
    assert_eq!(ways("Every time the dose rises the light falls."), [Direction::Up, Direction::Down]);
    assert_eq!(ways("It is slower and since it is a quencher the light falls."), [Direction::Down, Direction::Down]);
}

#[test]
fn how_far_it_goes_denies_nothing() {
    assert_eq!(ways("It gets quicker until it can't go any faster."), [Direction::Up]);
    assert_eq!(ways("It gets quicker. It can't go any faster."), [Direction::Up, Direction::NotUp]);
}

#[test]
fn what_is_kept_alike_denies_nothing() {
    let chain = chain();
    let alike = "A larger dose opens more pores, more dye leaks out and, because the pressure and the time are constant, the \
                 juice holds more dye.";
    case(&chain, alike, Status::Found);
    case(
        &chain,
        "More pores open, more dye leaks out, there's the same volume of water, so the juice is darker.",
        Status::Found,
    );
}

#[test]
fn the_way_of_the_light_is_not_how_much_there_is() {
    let absorbed = reviewer(
        "Describe how the concentration of dye affects the absorbance.",
        "describe",
        "More dye absorbs more light, so the absorbance is higher.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&absorbed, "More dye makes a higher absorbance, since the light is slowed down in it.", Status::Found);
    case(&absorbed, "More dye makes a lower absorbance, since the light is slowed down in it.", Status::Contradicted);
}

#[test]
fn a_prediction_is_not_told_by_other_series_or_other_quantities() {
    let flat = reviewer(
        "The series is run again. Predict how the brightness then changes from 0 to 40.",
        "predict and justify",
        "The brightness does not change. The direction alone earns.",
        &["“stays the same”"],
        &["“it rises”"],
    );
    case(&flat, "It is brighter than in the first series, but the same for all.", Status::Found);
    case(&flat, "It gets brighter from one to the next.", Status::Contradicted);
}
