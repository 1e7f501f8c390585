//! Plain guides: statements without a direction, their terms, lists told in sentences, chains beside numbers.

use super::*;

#[test]
fn a_term_may_not_be_missing() {
    let buds = reviewer("Say what is known.", "state", "Buds are made by mitosis.", &[], &[]);
    case(&buds, "Buds are made by mitosis.", Status::Found);
    case(&buds, "Mitosis makes the buds.", Status::Found);
    case(&buds, "Buds are made.", Status::LookAgain);
    let prompted = reviewer("How are buds made?", "state", "Buds are made by mitosis.", &[], &[]);
    case(&prompted, "Buds are made.", Status::NotFound);
    case(&prompted, "by mitosis", Status::Found);
}

#[test]
fn a_counterpart_stands_for_no_term() {
    let buds = reviewer("Say what is known.", "state", "Buds are made by mitosis.", &[], &[]);
    case(&buds, "Buds are made by meiosis.", Status::Contradicted);
    case(&buds, "Buds are made by mitosis, not by meiosis.", Status::Found);
    let sap = reviewer("Say what is known.", "state", "Sap climbs through the xylem.", &[], &[]);
    case(&sap, "Sap climbs through the xylem.", Status::Found);
    case(&sap, "Sap climbs through the phloem.", Status::LookAgain);
}

#[test]
fn a_later_sentence_takes_away_what_was_earned() {
    let water = reviewer("Say what happens.", "explain", "Water leaves the sac by osmosis.", &[], &[]);
    case(&water, "Water leaves the sac by osmosis.", Status::Found);
    for text in [
        "Water leaves the sac by osmosis. Water enters the sac by osmosis.",
        "Water leaves the sac by osmosis. Then water enters the sac.",
        "Water leaves the sac by osmosis. Water does not leave the sac.",
    ] {
        let evidence = &review(&water, text).points[0].evidence;
        let roles: Vec<EvidenceRole> = evidence.iter().map(|one| one.role).collect();
        assert!(roles.contains(&EvidenceRole::Earns) && roles.contains(&EvidenceRole::Denies), "{text}: {evidence:?}");
        case(&water, text, Status::Contradicted);
    }
    case(&water, "Water leaves the sac by osmosis. If the bath were pure, water would enter the sac.", Status::Found);
    case(&water, "Water enters the sac. No, water leaves the sac by osmosis.", Status::Found);
    case(&water, "Water enters the sac by osmosis.", Status::Contradicted);
}

#[test]
fn a_correction_is_a_contradiction_whatever_is_rejected() {
    for reject in [&[][..], &["hypotonic"]] {
        let bath = reviewer("What is the bath?", "describe", "The bath is hypertonic to the sap.", &[], reject);
        case(&bath, "The bath is hypertonic to the sap. It is not hypotonic.", Status::Found);
        case(&bath, "The bath is hypertonic to the sap. Actually it is hypotonic to it.", Status::Contradicted);
        case(&bath, "The bath is isotonic to the sap.", Status::Contradicted);
    }
}

#[test]
fn what_is_compared_may_be_told_from_the_other_side() {
    let bath = reviewer("Say what is known.", "describe", "The bath is hypertonic to the sap.", &[], &[]);
    case(&bath, "The sap is hypotonic to the bath.", Status::Found);
    case(&bath, "The sap is hypertonic to the bath.", Status::Contradicted);
    case(&bath, "the bath is hypetonic to the sap", Status::LookAgain);
}

/// A guide of three things, of which two are asked for.
fn two_of_three() -> Reviewer {
    let things = ["The depth of the pond.", "The shade.", "The width of the pond."];
    let points: Vec<Point> =
        things.iter().enumerate().map(|(at, text)| point(&at.to_string(), PointKind::Statement, text, &[])).collect();
    let question = Question {
        text: "Identify two things that must be kept the same.".to_owned(),
        command_term: "identify".to_owned(),
        count: Some(2),
        points,
        ..Question::default()
    };
    Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default())
}

#[track_caller]
fn counted(text: &str, given: Option<usize>) {
    let got = review(&two_of_three(), text);
    let over = got.habits.iter().find_map(|habit| match habit {
        Habit::OverCount { given, .. } => Some(*given),
        _ => None,
    });
    assert_eq!(over, given, "{text}");
    let earned = got.points.iter().filter(|point| point.status == Status::Found).count();
    assert!(earned <= 2, "{text}: {:?}", got.points);
}

#[test]
fn things_told_in_sentences_are_counted() {
    counted("Depth. Shade.", None);
    counted("Depth. Shade. Width.", Some(3));
    counted("Depth\nShade\nWidth", Some(3));
    counted("Depth and shade. Width.", Some(3));
    counted("It is the depth. It is the shade. It is the width.", Some(3));
    counted("The depth must be the same. The shade must be kept the same. The width too.", Some(3));
    counted("Depth. It is measured with a stick. Shade.", None);
    counted("Depth. The stick shows how deep it is. Shade.", None);
    let third = review(&two_of_three(), "Shade. Depth. Width.").points;
    assert_eq!(third.iter().map(|point| point.status).collect::<Vec<_>>()[2], Status::NotFound);
}

#[test]
fn numbers_are_no_steps_and_what_is_found_is_not_missing() {
    let points = vec![
        point("n", PointKind::Statement, "Answer: 7.5 mL; accept 7.4 to 7.6 mL.", &[]),
        point("a", PointKind::Statement, "Less light falls on the leaf; it makes less sugar.", &[]),
        Point {
            accept: vec!["fewer hops".to_owned()],
            ..point("b", PointKind::Statement, "The frog jumps less.", &[])
        },
    ];
    let question = Question {
        text: "Calculate the volume, and explain.".to_owned(),
        command_term: "calculate and explain".to_owned(),
        points,
        ..Question::default()
    };
    let frog = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
    let got = review(&frog, "7.5 mL. Less light falls on the leaf, so it makes less sugar. Fewer hops.");
    assert!(got.points.iter().all(|point| point.status == Status::Found), "{:?}", got.points);
    let steps: Vec<(&str, StepState)> = got.chain.iter().map(|step| (step.point.as_str(), step.state)).collect();
    assert_eq!(steps, [("a", StepState::Said), ("a", StepState::Said), ("b", StepState::Said)]);
}
