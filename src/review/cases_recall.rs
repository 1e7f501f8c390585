//! Short cases of right answers in words and ways of their own, which must be known again.

use super::tests::{case, reviewer};
use super::*;

#[test]
fn a_wrong_reason_costs_a_direction_nothing() {
    let foam = reviewer(
        "Describe how the volume of the foam depends on the dose.",
        "describe",
        "A larger dose makes more bubbles, so the volume of the foam is larger.",
        &["the direction alone, for this change or the opposite one"],
        &[
            "the foam swells because the bath is hot",
            "“A larger dose makes the foam thin” (a misconception: it does not)",
        ],
    );
    case(
        &foam,
        "The larger the dose the larger the volume of the foam, because hot foam swells in the bath.",
        Status::Found,
    );
    case(&foam, "The larger the dose the smaller the volume of the foam.", Status::Contradicted);
}

#[test]
fn a_longer_treatment_is_what_gives_it_longer() {
    let soak = reviewer(
        "Explain how the soak affects the fraction of the dye that has leaked out.",
        "explain",
        "What is inside has longer to diffuse out down its gradient, so a larger fraction has leaked out.",
        &["more time for net movement out"],
        &[],
    );
    case(&soak, "The longer the soak the more has leaked out.", Status::Found);
    case(&soak, "A short soak, so less of it leaks out.", Status::Found);
    case(&soak, "The longer the soak the less has leaked out.", Status::Contradicted);
}

#[test]
fn what_has_left_is_told_beside_what_stays() {
    let chain = reviewer(
        "Explain, step by step, how the width of the gates affects the colour of the buffer.",
        "explain",
        "Wider gates let what is inside out faster, so a larger fraction has leaked out when the time is up; less dye has stayed inside, so the buffer holds less dye.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &chain,
        "Wider gates let it out faster, more dye leaks out, less dye is left inside and the buffer holds less dye.",
        Status::Found,
    );
    case(
        &chain,
        "Wider gates let it out faster, less dye leaks out, more dye is left inside and the buffer holds more dye.",
        Status::Contradicted,
    );
}

/// Which way the last claim goes, and what it is of.
#[track_caller]
fn last(text: &str, direction: Direction, key: &str) {
    let reading = Reading::of(text, &Dictionary::new(&Lexicon::default(), &[]));
    let claim = reading.claims.iter().rfind(|claim| !claim.aside).unwrap_or_else(|| panic!("{text}: no claim"));
    let keys: Vec<&String> = claim.about.iter().filter(|(_, weight)| *weight >= 0.5).map(|(key, _)| key).collect();
    assert!(claim.direction == direction && keys.iter().any(|known| *known == key), "{text}: {claim:?}");
}

#[test]
fn words_of_much_and_little_stand_alone_and_behind() {
    last("Most stays in.", Direction::Up, "stay");
    last("It was shaken and most has leaked away.", Direction::Up, "leak out");
    last("The jug is full of syrup.", Direction::Up, "syrup");
    last("The broth is thin in pepper.", Direction::Down, "pepper");
    last("Gate open → leak up.", Direction::Up, "leak out");
    // "shines most": no amount.
    let reading = Reading::of("The one that shines most is read.", &Dictionary::new(&Lexicon::default(), &[]));
    assert!(reading.claims.iter().all(|claim| claim.direction != Direction::Up || claim.about.is_empty()));
}

#[test]
fn a_charge_is_no_addition() {
    last("It holds less of the plus blocker.", Direction::Down, "posit");
    last("More + ions stay out.", Direction::Up, "posit");
    last("It takes salt plus more sugar.", Direction::Up, "sucros");
}

#[test]
fn a_name_ends_before_its_verb() {
    let lexicon = Lexicon {
        terms: vec![Term { id: "reaction-rate".to_owned(), forms: vec!["reaction speed".to_owned()], quantity: true }],
        ..Lexicon::default()
    };
    let reading = Reading::of("The reaction speeds up.", &Dictionary::new(&lexicon, &[]));
    assert!(reading.claims.iter().any(|claim| claim.direction == Direction::Up && claim.class == ["rate"]));
    let reading = Reading::of("The reaction speed is higher.", &Dictionary::new(&lexicon, &[]));
    assert!(reading.claims.iter().any(|claim| claim.about.iter().any(|(key, _)| key == "t:reaction-rate")));
}

#[test]
fn so_many_in_a_time_is_a_rate() {
    let rate = |text: &str| {
        let reading = Reading::of(text, &Dictionary::new(&Lexicon::default(), &[]));
        reading.claims.iter().any(|claim| claim.class.contains(&"rate"))
    };
    assert!(rate("It splits more each minute."));
    assert!(!rate("It splits more in the end."));
}

#[test]
fn what_is_made_goes_by_what_it_does() {
    let lexicon = Lexicon {
        terms: vec![Term {
            id: "product".to_owned(),
            forms: vec!["product".to_owned(), "quencher".to_owned()],
            quantity: true,
        }],
        ..Lexicon::default()
    };
    let dictionary = Dictionary::new(&lexicon, &[]);
    for text in ["There is less of the dimming stuff.", "There is less of what dims the dye."] {
        let reading = Reading::of(text, &dictionary);
        assert!(reading.claims.iter().any(|claim| claim.about.iter().any(|(key, _)| key == "t:product")), "{text}");
    }
    let reading = Reading::of("It steals the energy.", &dictionary);
    assert!(reading.pieces.iter().all(|piece| piece.term.is_none()), "what it does is not what it is");
}
