//! Short cases of changed experiments: a prediction that a later sentence denies, reasons of no change, and the old relation.

use super::tests::{case, reviewer};
use super::*;

fn shine() -> Reviewer {
    reviewer(
        "The series is run again. Predict how the brightness of the lantern then changes from 5 to 50.",
        "predict and justify",
        "The brightness of the lantern now rises. The direction alone earns.",
        &["“goes up”"],
        &["“it falls”"],
    )
}

#[test]
fn a_later_sentence_may_predict_the_other_way() {
    let shine = shine();
    case(&shine, "It rises, as less soot stays.", Status::Found);
    case(&shine, "It rises, as less soot stays. So the 50 min jar will be the dimmest one.", Status::Contradicted);
    case(
        &shine,
        "It rises, as less soot stays. But more soot comes in from the liquid, so it gets darker.",
        Status::Contradicted,
    );
}

#[test]
fn less_to_do_it_is_not_that_it_is_done() {
    case(&shine(), "Brighter. More soot escaped -> less left inside -> less to dim the lantern", Status::Found);
}

/// A question on the first experiment and one on the changed one, of two points.
fn changed() -> Reviewer {
    let point = |id: &str, kind: PointKind, statement: &str, accept: &[&str]| Point {
        id: id.to_owned(),
        kind,
        statement: statement.to_owned(),
        accept: accept.iter().map(|text| (*text).to_owned()).collect(),
        ..Point::default()
    };
    let question = |id: &str, command_term: &str, text: &str, points: Vec<Point>| Question {
        id: id.to_owned(),
        text: text.to_owned(),
        command_term: command_term.to_owned(),
        points,
        ..Question::default()
    };
    let first = question(
        "a",
        "describe",
        "Describe how the rate at which the starch is split depends on the temperature of the malt.",
        vec![point(
            "a",
            PointKind::Statement,
            "A higher temperature moves the malt faster, so the starch is split at a higher rate.",
            &[],
        )],
    );
    let second = question(
        "b",
        "predict and justify",
        "Another malt is used. Predict and justify how the sweetness then changes from 60 to 90.",
        vec![
            point("b1", PointKind::Statement, "The sweetness now falls. The direction alone earns.", &["“goes down”"]),
            point(
                "b2",
                PointKind::Reversal,
                "This malt unfolds in the heat, so the hotter it is the fewer active sites are left. The rate at which the starch is \
                 split therefore changes in the opposite direction to that in the first series.",
                &[
                    "the step from the temperature of the malt to the rate at which the starch is split named as the one that now \
                   works the other way round",
                ],
            ),
        ],
    );
    Reviewer::new(&Guide { questions: vec![first, second] }, &Lexicon::default())
}

#[track_caller]
fn reason(text: &str, expected: bool) {
    let review = changed().review(&Response { id: "b".to_owned(), text: text.to_owned() }).unwrap();
    assert_eq!(review.points[1].status == Status::Contradicted, expected, "{text}: {:?}", review.points[1].evidence);
}

#[test]
fn no_change_with_all_alike_denies_the_changed_step() {
    reason("No change, because the malt works equally well in every jar.", true);
    reason(
        "The sweetness stays the same, since it is well stirred so every jar has the same number of active sites.",
        true,
    );
    reason("No change, because there is no malt any more.", false);
    reason("No change.", false);
    reason("No change, it stays level at every temperature.", false);
}

#[test]
fn the_new_relation_beside_a_wrong_prediction_is_not_the_old_one() {
    reason("The sweetness rises. The higher the temperature, the lower the rate at which starch is split.", false);
    reason("The sweetness rises. The higher the temperature, the higher the rate at which starch is split.", true);
}

#[test]
fn what_goes_as_it_did_for_a_reason_rests_on_the_old_one() {
    reason("The sweetness rises again because fewer active sites are left.", true);
    reason(
        "This malt unfolds in the heat, so the hotter it is the fewer active sites are left. It rises as before.",
        false,
    );
}
