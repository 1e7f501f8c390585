//! Short cases of reading: which claims a text makes, and of what.

use super::*;
use crate::review::lexicon::Lexicon;

fn read(text: &str) -> Reading {
    Reading::of(text, &Dictionary::new(&Lexicon::default(), &[]))
}

/// The claims of this case: which way, and the keys that weigh.
fn claims(text: &str) -> Vec<(Direction, Vec<String>)> {
    let keys = |claim: &Claim| {
        claim.about.iter().filter(|(_, weight)| *weight >= 0.5).map(|(key, _)| key.clone()).collect::<Vec<_>>()
    };
    read(text).claims.iter().filter(|claim| !claim.aside).map(|claim| (claim.direction, keys(claim))).collect()
}

#[track_caller]
fn last(text: &str, direction: Direction, key: &str) {
    let all = claims(text);
    let (said, keys) = all.last().unwrap_or_else(|| panic!("{text}: no claim"));
    assert!(*said == direction && keys.iter().any(|known| known == key), "{text}: {all:?}");
}

#[test]
fn words_in_their_place() {
    assert_eq!(claims("It runs slower and slower.").len(), 1);
    last("There is less of what dims the dye.", Direction::Down, "quench");
    last("The juice leaves faster.", Direction::Up, "leak out");
    last("They leave less inside.", Direction::Down, "stay");
    last("It stands in dim light.", Direction::Down, "light");
    last("It takes less heat.", Direction::Down, "temperatur");
    last("In the frost most flaps are open.", Direction::Up, "flap");
    assert!(claims("The foam comes up the tube.").is_empty());
    assert!(claims("The two halves meet.").is_empty());
    last("More light gets stopped.", Direction::Up, "absorb");
    assert_eq!(claims("No, it stays the same.")[0].0, Direction::Same);
}

#[test]
fn what_is_said_behind_and_around() {
    last("Fewer of the ropes that carry weights are paired.", Direction::Down, "pair");
    last("Fewer hands that work.", Direction::Down, "work");
    last("The skin lets the juice out faster.", Direction::Up, "leak out");
    last("The broth is low in sugar.", Direction::Down, "sucros");
    last("It hardly makes any oxygen.", Direction::Down, "oxygen");
    last("The reaction was slow, so it hadn't made much.", Direction::Down, "product");
    assert!(claims("A long rod does the reverse.").is_empty());
    assert!(claims("They are all read after the same time.").is_empty());
    assert!(read("A smaller share could make the rate lower.").claims.iter().all(|claim| claim.hedged));
}

#[test]
fn a_pronoun_is_not_what_was_just_told_the_other_way() {
    let (_, keys) = claims("If the funnel gets bigger this gets smaller.").pop().unwrap();
    assert!(keys.is_empty(), "{keys:?}");
    last("The load rises and then it falls.", Direction::Down, "load");
    last("The sponge mops up the broth so there is less of it.", Direction::Down, "broth");
    assert!(claims("I'd expect it to go down.").iter().all(|(_, keys)| keys.is_empty()));
}

#[test]
fn words_of_how_much_that_claim_nothing() {
    assert_eq!(claims("The draught gets much weaker.").len(), 1);
    assert_eq!(claims("It sends out more little sparks.").len(), 1);
    assert_eq!(claims("Jars with lots of it and jars with little shine equally.").len(), 1);
    assert_eq!(claims("There is little paste to dim the lamp.").len(), 1);
    assert!(claims("It is read after the same ten minutes.").is_empty());
    assert!(claims("It leaves little gaps in the wall.").is_empty());
    assert_eq!(claims("There is little gas.").len(), 1);
    assert!(claims("The readings go up to about the same value.").len() <= 1);
}

#[test]
fn words_whose_place_tells_what_they_do() {
    last("Fewer doors are blocked so more gets out.", Direction::Up, "leak out");
    last("Fewer doors blocked so the flow is faster.", Direction::Up, "flow");
    last("The broth can't get out as quick.", Direction::Down, "leak out");
    last("They all end up with the same amount of broth.", Direction::Same, "broth");
    last("The broth stays about the same.", Direction::Same, "broth");
    let first = claims("The more broth leaves the less is there.").swap_remove(0);
    assert!(first.0 == Direction::Up && first.1.iter().any(|key| key == "leak out"), "{first:?}");
    assert_eq!(claims("More broth gets out, leaving less inside.").len(), 2);
}

#[test]
fn what_is_told_of_another_case_is_no_claim() {
    for text in [
        "In the first series the broth got darker and there was less of it.",
        "If it could be reached more soap would dim it, but it cannot be reached.",
        "It is the last step that is gone, the one where more soap makes it dimmer.",
        "Put more salt in and all of this goes the other way.",
    ] {
        assert!(claims(text).is_empty(), "{text}: {:?}", claims(text));
    }
    assert_eq!(claims("A pole that was shorter is now longer.").len(), 1);
    assert_eq!(claims("A pole, which was shorter, is now longer.").len(), 1);
    assert_eq!(claims("Since it is the soap that loosens the skin, the skin stays tighter.").len(), 1);
}

#[test]
fn where_a_statement_begins_and_ends() {
    let links = |text: &str| read(text).clauses.iter().map(|clause| clause.link).collect::<Vec<_>>();
    assert_eq!(links("It gets dimmer the longer you wait."), [None, Some(Link::If)]);
    assert_eq!(links("The broth therefore rises."), [None]);
    assert_eq!(links("Since every jar had ten minutes they end up with the same.").len(), 2);
    let (way, _) = claims("They all had ten minutes, so there is the same amount of broth in them.").pop().unwrap();
    assert_eq!(way, Direction::Same);
    assert!(
        claims("At the same dose the same share is busy, so the flow rises.")
            .iter()
            .all(|(way, _)| *way != Direction::Same)
    );
}
