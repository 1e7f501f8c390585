//! Reasons: refused ones, reasons of a changed experiment, everyday words that the guide has.

use super::*;

#[test]
fn a_refused_sentence_is_said_by_one_clause() {
    let enzyme = reviewer(
        "Explain how more enzyme changes the brightness of the dye.",
        "explain",
        "More enzyme makes more quencher, so the dye becomes dimmer.",
        &[],
        &["the enzyme splits the dye"],
    );
    case(
        &enzyme,
        "With more enzyme, after quicker splitting, there is more quencher, and so the dye is dimmer.",
        Status::Found,
    );
}

#[test]
fn a_refused_reason_is_told_in_any_order() {
    let lamp = reviewer(
        "Explain why the lamp gets brighter.",
        "explain",
        "A larger flame heats more of the oil, so the lamp gets brighter.",
        &[],
        &["the moth paints the wick", "the glass is more permeable"],
    );
    let told = "A larger flame heats more of the oil, so the lamp gets brighter";
    case(&lamp, &format!("{told}."), Status::Found);
    case(&lamp, &format!("{told}. The wick is painted by the moth."), Status::NotFound);
    case(&lamp, &format!("The glass is less permeable. {told}."), Status::NotFound);
    case(&lamp, &format!("{told}. The wick is not painted by the moth."), Status::Found);
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
        let reviewer =
            Reviewer::new(&Guide { questions: vec![question(point)], ..Guide::default() }, &Lexicon::default());
        reviewer.review(&Response { id: "x".to_owned(), text: text.to_owned() }).unwrap().points[0].status
    };
    assert_eq!(judged(&reason, "There are always spare bricks lying about."), Status::Found);
    assert_eq!(judged(&reason, "Perhaps there are spare bricks lying about."), Status::LookAgain);
    reason.accept.clear();
    assert_ne!(judged(&reason, "There are always spare bricks lying about."), Status::Found);
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
    Reviewer::new(&Guide { questions: vec![first, second], ..Guide::default() }, &Lexicon::default())
}

#[track_caller]
fn reason(text: &str, expected: bool) {
    let review = changed().review(&Response { id: "b".to_owned(), text: text.to_owned() }).unwrap();
    assert_eq!(review.points[1].status == Status::Contradicted, expected, "{text}: {:?}", review.points[1].evidence);
}

#[test]
fn what_opens_as_it_was_keeps_the_old_step() {
    reason("It rises again. Fewer active sites are left unfolded in the heat.", true);
    reason("The sweetness goes up the same way. Hot malt has its active sites unfolded.", true);
    reason("The sweetness goes down. It was up in the first series, once more active sites were there.", false);
}

#[test]
fn no_change_with_all_alike_denies_the_changed_step() {
    reason("No change, because the malt works equally well in every jar.", true);
    reason(
        "The sweetness stays the same, since it is well stirred so every jar has the same number of active sites.",
        true,
    );
    reason("No change. The malt is thrown away, so there are no active sites at any temperature.", true);
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

#[test]
fn a_prediction_taken_back_leaves_its_reason() {
    let told =
        "The sweetness falls, as the malt unfolds in the heat, so the hotter it is the fewer active sites are left.";
    reason(&format!("{told} So overall it rises from 60 to 90."), false);
    reason(&format!("{told} So the sweetness at 90 is higher than at 60."), false);
    reason(
        &format!("{told} Then again the hotter malt has more active sites left, so the sweetness rises from 60 to 90."),
        true,
    );
}

#[test]
fn a_sentence_may_set_itself_against_the_reason_in_many_ways() {
    let told = "The sweetness falls, as the malt unfolds and active sites are lost.";
    reason(told, false);
    for opening in ["But", "Still,", "Then again", "On the other hand", "Even so,", "That said,"] {
        reason(&format!("{told} {opening} more active sites are left at 90 than at 60."), true);
    }
    // Of the reading alone.
    reason(&format!("{told} At 90 it would still be a bit higher than at 60."), false);
    reason("The sweetness still rises, though the malt unfolds in the heat and fewer active sites are left.", false);
    reason("It falls. The malt still has active sites, but they are lost in the heat so there are fewer.", false);
}

#[test]
fn the_shares_of_a_changed_experiment_may_be_swapped() {
    let reversal = |statement: &str, text: &str| {
        let step = Point {
            accept: vec![
                "the step from the leak of the dye to the dye in the tested liquid named as the one that changes"
                    .to_owned(),
            ],
            ..point("b", PointKind::Reversal, statement, &[])
        };
        last_of("Predict and justify how the colour then changes.", "predict and justify", vec![step], text)
    };
    let out = "The liquid now tested holds the dye that has come out, so the more dye has come out, the more this liquid holds. \
               The concentration of dye in the tested liquid therefore changes in the opposite direction.";
    let swapped = [
        "Up, the liquid tested has the dye that stayed in, so the more dye comes out the more this liquid holds.",
        "Up, the dye that got out is thrown away, so the more dye comes out the more the liquid holds.",
        "Up, the sacs hold what leaked and the bath holds the dye that stayed inside, the more comes out the more dye it holds.",
    ];
    for text in swapped {
        assert_eq!(reversal(out, text), Status::Contradicted, "{text}");
    }
    let right = [
        "Up, the liquid tested has the dye that leaked, so the more dye comes out the more this liquid holds.",
        "Up, the liquid tested has the dye that didn't stay in, so the more dye has come out the more this liquid holds.",
        "Up, the dye that stayed in is thrown away, so the more dye has come out the more this liquid holds.",
        "Up. In the first series the dye that stayed in was tested, now the more dye has come out the more this liquid holds.",
    ];
    for text in right {
        assert_eq!(reversal(out, text), Status::Found, "{text}");
    }
}

#[test]
fn nothing_at_all_levels_or_no_say_denies_a_step_that_turns_round() {
    reason("It stays the same, since malt of this kind doesn't care about the heat.", true);
    reason("No change, because the active sites have no say in it.", true);
    reason("It won't change. You boil all of it, so 60 or 90 gives the same number of active sites.", true);
    reason("No change. There are no active sites left at all.", false);
}

#[test]
fn the_old_step_beside_the_right_prediction() {
    reason("The sweetness falls. The higher the temperature, the higher the rate at which starch is split.", true);
    reason("The sweetness falls. The higher the temperature, the lower the rate at which starch is split.", false);
}
