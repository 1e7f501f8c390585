//! Short cases of what an answer's claims come to: where it goes astray, what tells a quantity, what tells a reason.

use super::tests::{case, reviewer};
use super::*;

fn chain() -> Reviewer {
    reviewer(
        "Explain, step by step, how a change in the dose leads to a change in the colour of the juice.",
        "explain",
        "A larger dose opens more pores; more dye leaks out of the cells; the juice holds more dye, so its colour is deeper.",
        &["the same argued from the opposite change"],
        &[],
    )
}

#[test]
fn going_back_after_one_slip_is_no_second_one() {
    let chain = chain();
    case(&chain, "A larger dose opens more pores, more dye leaks out and the juice holds more dye.", Status::Found);
    case(&chain, "A larger dose opens more pores, less dye leaks out and the juice is paler.", Status::Contradicted);
}

#[test]
fn a_quantity_is_told_by_another() {
    let dye = reviewer(
        "Describe how the concentration of dye in the liquid depends on the time.",
        "describe",
        "Over a longer time more dye comes out, so its concentration in the liquid rises.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&dye, "The longer the time the darker the liquid.", Status::Found);
    case(&dye, "The longer the time the paler the liquid.", Status::Contradicted);
    let melting = reviewer(
        "Describe how the melting temperature of the pairs depends on the dose.",
        "describe",
        "A larger dose loosens the pairs, so they melt at a lower temperature.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&melting, "With a larger dose they melt sooner.", Status::Found);
    case(&melting, "With a larger dose they melt later.", Status::Contradicted);
}

#[test]
fn a_prediction_is_read_at_the_ends_of_the_treatment() {
    let rise = reviewer(
        "The series is run again. Predict how the brightness then changes from 0 to 40.",
        "predict and justify",
        "The brightness now rises. The direction alone earns.",
        &["“goes up”"],
        &["“it falls”"],
    );
    case(&rise, "At 0 it is dim. At 40 it is bright.", Status::Found);
    case(&rise, "With no dose it is dim, so it rises.", Status::Found);
    case(&rise, "The reading gets bigger.", Status::Found);
    case(&rise, "It won't change at all.", Status::Contradicted);
    case(&rise, "No, it stays the same.", Status::Contradicted);
}

#[test]
fn everyday_reasons_earn_where_the_guide_has_them() {
    let mut reason = Point {
        id: "p".to_owned(),
        kind: PointKind::Reason,
        statement: "Every cart has bricks enough for all of the masons, so the same number of masons works.".to_owned(),
        accept: vec!["masons limit".to_owned(), "spare bricks".to_owned()],
        ..Point::default()
    };
    let question = |point: &Point| Question {
        text: "Predict and justify how the height then changes.".to_owned(),
        command_term: "predict and justify".to_owned(),
        points: vec![point.clone()],
        ..Question::default()
    };
    let judged = |point: &Point, text: &str| {
        let reviewer = Reviewer::new(&Guide { questions: vec![question(point)] }, &Lexicon::default());
        reviewer.review(&Response { id: "x".to_owned(), text: text.to_owned() }).unwrap().points[0].status
    };
    assert_eq!(judged(&reason, "There are always spare bricks lying about."), Status::Found);
    assert_eq!(judged(&reason, "Perhaps there are spare bricks lying about."), Status::LookAgain);
    reason.accept.clear();
    assert_ne!(judged(&reason, "There are always spare bricks lying about."), Status::Found);
}

#[test]
fn a_short_refused_sentence_is_said_in_order() {
    let point = reviewer(
        "Explain why the lamp goes out.",
        "explain",
        "The wire breaks.",
        &["the wire is cut"],
        &["the bulb eats the wire"],
    );
    case(&point, "The bulb eats the wire and so the wire breaks.", Status::NotFound);
    case(&point, "The wire that eats the bulb breaks.", Status::Found);
}
