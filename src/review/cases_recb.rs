//! Short cases of steps that are told without a word of direction, or with one that is read of the wrong thing.

use super::dictionary::Dictionary;
use super::meaning::Direction;
use super::read::Reading;
use super::tests::{case, reviewer};
use super::*;

/// The directions of a text with the keys that weigh most.
fn told(text: &str) -> Vec<(Direction, Vec<String>)> {
    let dictionary = Dictionary::new(&Lexicon::default(), &[]);
    let claims = Reading::of(text, &dictionary).claims.into_iter().filter(|claim| !claim.aside);
    let heavy = |about: Vec<(String, f64)>| about.into_iter().filter(|(_, weight)| *weight >= 0.5).map(|(key, _)| key);
    claims.map(|claim| (claim.direction, heavy(claim.about).collect())).collect()
}

/// Whether one claim goes this way and is of this word.
fn has(text: &str, direction: Direction, word: &str) -> bool {
    let key = Dictionary::new(&Lexicon::default(), &[]).key(word);
    told(text).iter().any(|(way, about)| *way == direction && about.contains(&key))
}

#[test]
fn what_one_has_got_is_counted() {
    assert!(has("By noon you've got more of the sugar.", Direction::Up, "sugar"));
    assert!(has("In the end we get less of the soap.", Direction::Down, "soap"));
    assert!(has("That run leaves you with less of the stuff that quenches.", Direction::Down, "quench"));
}

#[test]
fn what_is_harder_to_do_is_done_less_soon() {
    assert!(has("The knot is harder to melt.", Direction::Down, "melt"));
    assert!(has("The knot is easier to melt.", Direction::Up, "melt"));
    assert!(has("The more of that enzyme goes off the worse.", Direction::Up, "enzyme"));
}

#[test]
fn a_state_tells_a_step_where_the_answer_goes_that_way() {
    let hooks = reviewer(
        "Explain how the heat of the bath affects the light.",
        "explain",
        "A hotter bath melts more of the hooks, so a smaller share of the hooks is paired; less enzyme is carried over, so the light is dimmer.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &hooks,
        "In a hotter bath the hooks come apart. Less enzyme is carried over and the light is dimmer.",
        Status::Found,
    );
    // By itself it shows no change, and so no wrong one either.
    let alone = hooks.review(&Response { id: String::new(), text: "The hooks come apart.".to_owned() });
    let status = alone.and_then(|review| review.points.first().map(|point| point.status));
    assert!(!matches!(status, Some(Status::Found | Status::Contradicted)), "{status:?}");
}
