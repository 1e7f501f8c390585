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
