//! Told against the guide: one relation told again the other way round, said to be none at all, or denied outright.

use super::*;

/// How the brightness of a lamp depends on its fuel; the direction earns by itself.
fn lamp() -> Reviewer {
    reviewer(
        "Describe how the brightness of the lamp depends on the amount of fuel.",
        "describe",
        "More fuel feeds a larger flame, so the lamp is brighter.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    )
}

/// How much leaks out in a time; the direction earns by itself.
fn leak() -> Reviewer {
    reviewer(
        "Describe how the concentration of detergent affects the permeability of the bilayer.",
        "describe",
        "More detergent loosens the bilayer, so it becomes more permeable.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    )
}

#[test]
fn a_relation_told_again_at_one_end_of_it() {
    let one = lamp();
    let told = "With more fuel the lamp gets brighter.";
    case(&one, &format!("{told} So the brightness is highest when the most fuel is there."), Status::Found);
    case(&one, &format!("{told} So the brightness is lowest when the most fuel is there."), Status::Contradicted);
    case(&one, &format!("{told} The jars with the least fuel gave the smallest brightness."), Status::Found);
    case(&one, &format!("{told} The jars with the least fuel gave the greatest brightness."), Status::Contradicted);
}

#[test]
fn what_the_rest_of_the_sentence_takes_up_is_meant() {
    let chain = reviewer(
        "Explain how a change in the rate of the pump changes the brightness of the lamp.",
        "explain",
        "A slower pump brings less fuel; less fuel makes the lamp dimmer.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(&chain, "A slower pump brings less fuel, and less fuel makes the lamp dimmer.", Status::Found);
    case(&chain, "A slower pump brings more fuel, and more fuel makes the lamp dimmer.", Status::Contradicted);
}

#[test]
fn a_total_that_stays_as_it_is_denies_the_relation() {
    let total = reviewer(
        "Describe how the total concentration of particles outside depends on the sugar outside.",
        "describe",
        "More sugar adds more particles, so the total concentration of particles outside rises.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&total, "The total goes up with the sugar.", Status::Found);
    case(&total, "The total is the same in every bath.", Status::Contradicted);
    case(&total, "The total does not change with the sugar.", Status::Contradicted);
}

#[test]
fn what_goes_on_from_a_flat_step_is_told_wrongly_there() {
    let last = |text: &str| {
        let points = vec![
            point(
                "p1",
                PointKind::Statement,
                "More dye has leaked out, so its concentration in the liquid rises.",
                &[],
            ),
            point("p2", PointKind::Statement, "The liquid holds more dye, so its absorbance rises.", &[]),
        ];
        let question = "Explain how a larger leak changes the absorbance of the liquid.";
        let question = Question {
            id: "x".to_owned(),
            text: question.to_owned(),
            command_term: "explain".to_owned(),
            points,
            ..Question::default()
        };
        let one = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
        review(&one, text).points.first().unwrap().status
    };
    assert_eq!(
        last("The dye in the liquid stays at the same concentration since none was poured in."),
        Status::Contradicted
    );
}

#[test]
fn no_more_than_is_the_same() {
    let one = leak();
    case(&one, "With 5 of detergent the bilayer is more permeable than with none.", Status::Found);
    case(&one, "Detergent makes the bilayer no more permeable than it was.", Status::Contradicted);
    assert_eq!(ways("It lets no more through than before."), [Direction::Same]);
    assert_eq!(ways("It is no longer brighter than before."), [Direction::NotUp]);
    assert_eq!(ways("It is no brighter or dimmer than before."), [Direction::NotUp, Direction::NotDown]);
}

#[test]
fn what_is_not_believed_is_denied() {
    assert_eq!(ways("I wouldn't say that the dye rises."), [Direction::NotUp]);
    assert_eq!(ways("It isn't true that the light falls."), [Direction::NotDown]);
    assert_eq!(ways("It isn't true that more dye makes the light fall."), [Direction::Up, Direction::NotDown]);
    assert!(ways("It isn't true that the light falls, it is the other way round.").is_empty());
}

#[test]
fn degrees_that_are_told_by_another_word() {
    let compares = |text: &str| {
        let reading = Reading::of(text, &Dictionary::new(&Lexicon::default(), &[]));
        reading.claims.last().is_some_and(|claim| claim.compares)
    };
    assert!(compares("There the bilayer is the most tightly closed."));
    assert!(compares("These sacs are better sealed than those."));
    assert!(compares("The bilayer leaks least in the last bath."));
    assert_eq!(ways("The bilayer leaks least in the last bath."), [Direction::Down]);
    assert_eq!(ways("It gets harder and harder for the dye to cross."), [Direction::Down]);
    assert_eq!(ways("The bands stand closer to the plus end."), [Direction::Up]);
    assert_eq!(ways("The bands stand closer to the start."), [Direction::Down]);
}

#[test]
fn what_falls_in_concentration_is_what_is_named() {
    let dictionary = Dictionary::new(&Lexicon::default(), &[]);
    let reading = Reading::of("The substrate inside goes down in concentration.", &dictionary);
    let substrate = dictionary.key("substrate");
    assert!(reading.claims.iter().any(|claim| claim.about.iter().any(|(key, _)| *key == substrate)));
}

#[test]
fn pairs_are_not_the_strands_that_the_course_sets_out_from() {
    let points = vec![
        point("p1", PointKind::Statement, "Heat parts more of the strands, so a smaller share of them is paired.", &[]),
        point("p2", PointKind::Statement, "Fewer strands are paired, so less dye is held.", &[]),
    ];
    let text = "Explain how warming the strands changes how much dye is held.";
    let question = Question {
        id: "x".to_owned(),
        text: text.to_owned(),
        command_term: "explain".to_owned(),
        points,
        ..Question::default()
    };
    let one = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
    let first = |text: &str| review(&one, text).points.first().unwrap().status;
    assert_eq!(
        first("Heat parts more strands, so fewer of the strands are paired and less dye is held."),
        Status::Found
    );
    assert_eq!(first("Heat makes more strands pair. Then more dye is held."), Status::Contradicted);
}

#[test]
fn whichever_way_it_goes_what_follows_is_told() {
    assert_eq!(ways("However leaky they are the liquid outside holds as much dye as before."), [Direction::Same]);
    assert_eq!(ways("The bits are as long as they were."), [Direction::Same]);
    assert_eq!(ways("It goes on as long as before."), []);
    assert_eq!(ways("The leaves work equally well in any light."), [Direction::Same]);
}

#[test]
fn what_should_leak_out_and_goes_in_needs_nothing_else() {
    let leak = reviewer(
        "Explain how a longer time changes how much dye is in the liquid.",
        "explain",
        "What is trapped inside diffuses out for longer, so more dye has leaked out into the liquid.",
        &[],
        &[],
    );
    case(&leak, "The dye moves into the sacs.", Status::Contradicted);
    case(&leak, "Particles go inwards through the pores.", Status::Contradicted);
}

#[test]
fn the_want_of_it_and_the_palest_are_the_low_end() {
    let lamp = lamp();
    let mut guide = lamp.guide.clone();
    guide.ends = Some(Ends { first: 0.0, last: 80.0, unit: "g".to_owned() });
    let lamp = Reviewer::new(&guide, &Lexicon::default());
    let told = "More fuel makes the lamp brighter.";
    case(&lamp, &format!("{told} In the jar without fuel it is dimmest."), Status::Found);
    case(&lamp, &format!("{told} In the jar without fuel it is brightest."), Status::Contradicted);
    assert_eq!(ways("The palest jar lets the least light through."), [Direction::Down, Direction::Down]);
}

#[test]
fn a_relation_told_with_what_it_depends_on_behind() {
    let lamp = lamp();
    case(&lamp, "The lamp is brighter the more fuel there is.", Status::Found);
    case(&lamp, "The lamp is dimmer the more fuel there is. A dimmer lamp is no use.", Status::Contradicted);
    let reading = Reading::of(
        "The slower it is split, the longer and stronger it glows.",
        &Dictionary::new(&Lexicon::default(), &[]),
    );
    assert!(reading.claims.last().is_some_and(|claim| claim.class == ["bright"]));
}

#[test]
fn all_make_the_same_amount() {
    let last = |text: &str| {
        let points = vec![
            point("p1", PointKind::Statement, "A slower reaction makes less product in the same time.", &[]),
            point("p2", PointKind::Statement, "Less product makes the lamp brighter.", &[]),
        ];
        let text_of = "Explain how a slower reaction changes the brightness of the lamp.";
        let question = Question {
            id: "x".to_owned(),
            text: text_of.to_owned(),
            command_term: "explain".to_owned(),
            points,
            ..Question::default()
        };
        let one = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
        review(&one, text).points.first().unwrap().status
    };
    assert_eq!(last("A slower reaction makes less product in the time, so the lamp is brighter."), Status::Found);
    assert_eq!(last("All tubes make the same amount as they get the same time."), Status::Contradicted);
}

#[test]
fn a_plunger_shows_the_gas_and_a_leak_the_wall() {
    let gas = reviewer(
        "Describe how the volume of gas collected depends on the dose.",
        "describe",
        "A larger dose sets more gas free, so a larger volume of gas is collected.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&gas, "With a larger dose the plunger is pushed further.", Status::Found);
    case(&gas, "With a larger dose the plunger is pushed less far.", Status::Contradicted);
    let mut guide = leak().guide.clone();
    guide.ends = Some(Ends { first: 0.0, last: 12.0, unit: "g".to_owned() });
    let wall = Reviewer::new(&guide, &Lexicon::default());
    let told = "More detergent makes the bilayer more permeable.";
    case(&wall, &format!("{told} The bilayer leaks most in the 12 g bath."), Status::Found);
    case(&wall, &format!("{told} The bilayer leaks least in the 12 g bath."), Status::Contradicted);
}

#[test]
fn what_another_thing_does() {
    let quench = reviewer(
        "Explain how more substrate changes the brightness of the dye.",
        "explain",
        "More product takes more of the light, so the dye becomes dimmer.",
        &["the product quenches the dye"],
        &[],
    );
    case(&quench, "More product is made, so the dye is dimmer. The product is what quenches it.", Status::Found);
    case(
        &quench,
        "More product is made, so the dye is dimmer. The substrate is what quenches it.",
        Status::Contradicted,
    );
    case(&quench, "More product is made, so the dye is dimmer. The substrate is not what quenches it.", Status::Found);
    case(&quench, "More product is made, so the dye is dimmer. It's the product that quenches it.", Status::Found);
    case(
        &quench,
        "More product is made, so the dye is dimmer. It's the substrate that quenches it.",
        Status::Contradicted,
    );
}
