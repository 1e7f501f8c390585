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

/// What becomes of the last of some points.
fn last_of(question: &str, command_term: &str, points: Vec<Point>, text: &str) -> Status {
    let question =
        Question { text: question.to_owned(), command_term: command_term.to_owned(), points, ..Question::default() };
    let reviewer = Reviewer::new(&Guide { questions: vec![question] }, &Lexicon::default());
    let review = reviewer.review(&Response { id: "x".to_owned(), text: text.to_owned() }).unwrap();
    review.points.last().unwrap().status
}

fn point(id: &str, kind: PointKind, statement: &str, reject: &[&str]) -> Point {
    let reject = reject.iter().map(|text| (*text).to_owned()).collect();
    Point { id: id.to_owned(), kind, statement: statement.to_owned(), reject, ..Point::default() }
}

#[test]
fn a_way_back_after_several_steps_is_told_wrongly() {
    let last = |text: &str| {
        let points = vec![
            point("p1", PointKind::Statement, "A larger dose opens more pores; more dye leaks out of the cells.", &[]),
            point("p2", PointKind::Statement, "The juice holds more dye, so its colour is deeper.", &[]),
        ];
        let question = "Explain, step by step, how a change in the dose leads to a change in the colour of the juice.";
        last_of(question, "explain", points, text)
    };
    assert_eq!(last("A larger dose opens more pores, more dye leaks out and its colour is deeper."), Status::Found);
    let back =
        "A larger dose opens fewer pores, less dye leaks out, the juice holds less dye and its colour is deeper.";
    assert_eq!(last(back), Status::Contradicted);
}

#[test]
fn an_outcome_told_alone_is_of_the_change_asked_about() {
    let leak = reviewer(
        "Describe how the brightness of the lamp depends on the dose.",
        "describe",
        "A larger dose feeds the lamp, so its brightness rises.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&leak, "The brightness goes down, since the wire gets tired.", Status::Contradicted);
    case(&leak, "The brightness goes down with a smaller dose.", Status::Found);
    case(&leak, "With a larger dose the meter shows a higher number.", Status::Found);
    case(&leak, "With a larger dose the meter shows a lower number.", Status::Contradicted);
}

#[test]
fn a_course_told_all_the_other_way_round_behind_the_thing_itself() {
    let soap = reviewer(
        "Explain, step by step, how adding soap leads to a change in the colour of the juice.",
        "explain",
        "More soap opens more pores; more dye leaks out of the cells; more dye colours the juice, so its colour is deeper.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(&soap, "The soap plugs the pores, so less dye leaks out and the juice is paler.", Status::Contradicted);
    case(&soap, "With less soap there are fewer pores, less dye leaks out and the juice is paler.", Status::Found);
}

#[test]
fn a_later_sentence_denies_a_prediction() {
    let flat = reviewer(
        "The series is run again. Predict how the brightness of the lamp then changes from 0 to 40.",
        "predict and justify",
        "The brightness of the lamp does not change. The direction alone earns.",
        &["“stays the same”"],
        &["“it rises”"],
    );
    case(&flat, "The brightness stays the same, as nothing reaches it.", Status::Found);
    case(&flat, "It stays about the same.", Status::Found);
    case(&flat, "The brightness stays the same. So the one at 40 comes out brightest.", Status::Contradicted);
    case(&flat, "It stays the same. But at 40 there is so much that it does rise there.", Status::Contradicted);
    case(&flat, "In the first run it got dimmer and dimmer. The brightness now stays the same.", Status::Found);
}

#[test]
fn a_prediction_told_backwards_or_of_one_end() {
    let rise = reviewer(
        "The series is run again. Predict how the brightness of the lamp then changes from 0 to 40.",
        "predict and justify",
        "The brightness of the lamp now rises. The direction alone earns.",
        &["“goes up”"],
        &["“it falls”"],
    );
    case(&rise, "From 40 down to 0 it gets dimmer.", Status::Found);
    case(&rise, "From 40 down to 0 it gets brighter.", Status::Contradicted);
    case(&rise, "Untreated ones are the dimmest.", Status::Found);
    case(&rise, "It gets lighter.", Status::Found);
    case(&rise, "It will be lower than in the first series.", Status::LookAgain);
}

#[test]
fn one_claim_is_not_all_of_a_trap() {
    let reason = |text: &str| {
        let statement = "The liquid now tested holds the dye that stayed inside, and the more has got out, the less is \
                         left. The concentration therefore changes in the opposite direction to that in the first series.";
        let trap = "The more dye gets out, the more of it the liquid holds, as before.";
        let points = vec![
            point("p1", PointKind::Statement, "The absorbance now falls. The direction alone earns.", &[]),
            point("p2", PointKind::Reversal, statement, &[trap]),
        ];
        last_of("Predict and justify how the absorbance then changes.", "predict and justify", points, text)
    };
    assert_ne!(reason("It falls, since less dye is still inside them by then."), Status::Contradicted);
    assert_eq!(
        reason("It falls, since more dye gets out and so the liquid holds more of the dye."),
        Status::Contradicted
    );
}
