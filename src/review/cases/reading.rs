//! How single claims are read: which way they go, and of what.

use super::*;

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
fn how_far_it_goes_denies_nothing() {
    assert_eq!(ways("It gets quicker until it can't go any faster."), [Direction::Up]);
    assert_eq!(ways("It gets quicker. It can't go any faster."), [Direction::Up, Direction::NotUp]);
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

#[test]
fn levels_and_pictures_claim_nothing() {
    let dye = dye_in_time();
    case(&dye, "Going down from 60 to 10 there is less time, so the concentration of dye is lower.", Status::Found);
    case(&dye, "From 60 down to 10 the time is shorter, so the concentration of dye is lower.", Status::Found);
    let gates = reviewer(
        "Describe how the number of gates affects the permeability of the wall.",
        "describe",
        "More gates each offer a way through, so the wall becomes more permeable.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(
        &gates,
        "Each gate is like a little door, so the more gates there are the easier stuff gets through.",
        Status::Found,
    );
    case(&gates, "With fewer gates less stuff gets through the wall.", Status::Found);
    let rising = rising();
    case(&rising, "It doesn't fall any more, it climbs.", Status::Found);
    case(&rising, "It doesn't rise any more, it falls.", Status::Contradicted);
    let flat = prediction("does not change; it stays near 40", "“stays the same”", "“it rises”");
    case(&flat, "Flat at roughly 40.", Status::Found);
    assert_eq!(ways("The dye is less dimmed."), [Direction::Up]);
    assert_eq!(ways("Most strands stay long."), [Direction::Up]);
    assert_eq!(ways("They aren't packed so tightly."), [Direction::Up]);
}
