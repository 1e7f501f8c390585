//! Plain guides: statements without a direction, their terms, lists told in sentences, chains beside numbers.

use super::*;

#[test]
fn a_term_may_not_be_missing() {
    let buds = plain("Say what is known.", "state", "Buds are made by mitosis.", &[], &[]);
    case(&buds, "Buds are made by mitosis.", Status::Found);
    case(&buds, "Mitosis makes the buds.", Status::Found);
    case(&buds, "Buds are made.", Status::LookAgain);
    let prompted = plain("How are buds made?", "state", "Buds are made by mitosis.", &[], &[]);
    case(&prompted, "Buds are made.", Status::NotFound);
    case(&prompted, "by mitosis", Status::Found);
}

#[test]
fn a_counterpart_stands_for_no_term() {
    let buds = plain("Say what is known.", "state", "Buds are made by mitosis.", &[], &[]);
    case(&buds, "Buds are made by meiosis.", Status::Contradicted);
    case(&buds, "Buds are made by mitosis, not by meiosis.", Status::Found);
    let sap = plain("Say what is known.", "state", "Sap climbs through the xylem.", &[], &[]);
    case(&sap, "Sap climbs through the xylem.", Status::Found);
    case(&sap, "Sap climbs through the phloem.", Status::LookAgain);
}

#[test]
fn a_later_sentence_takes_away_what_was_earned() {
    let water = plain("Say what happens.", "explain", "Water leaves the sac by osmosis.", &[], &[]);
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
        let bath = plain("What is the bath?", "describe", "The bath is hypertonic to the sap.", &[], reject);
        case(&bath, "The bath is hypertonic to the sap. It is not hypotonic.", Status::Found);
        case(&bath, "The bath is hypertonic to the sap. Actually it is hypotonic to it.", Status::Contradicted);
        case(&bath, "The bath is isotonic to the sap.", Status::Contradicted);
    }
}

#[test]
fn what_is_compared_may_be_told_from_the_other_side() {
    let bath = plain("Say what is known.", "describe", "The bath is hypertonic to the sap.", &[], &[]);
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

const STATE: &str = "Say what is known.";

#[track_caller]
fn plainly(statement: &str, text: &str, expected: Status) {
    case(&plain(STATE, "state", statement, &[], &[]), text, expected);
}

#[test]
fn another_thing_in_a_things_place_is_for_a_person_to_see() {
    for (statement, text) in [
        ("The scales protect the bud.", "The petals protect the bud."),
        ("Fungi decompose dead leaves.", "Fungi decompose living leaves."),
        ("Water leaves the sac by osmosis.", "Salt leaves the sac by osmosis."),
        ("The owls eat the voles.", "The voles eat the owls."),
        ("The gland makes sap into wax.", "The gland makes wax into sap."),
        ("The coat is shed before winter.", "The coat is shed after winter."),
        ("The pores carry sap to the stalk.", "The pores carry sap from the stalk."),
        ("Sugar falls because the hormone is released.", "Sugar falls because the hormone is not released."),
    ] {
        plainly(statement, text, Status::LookAgain);
        plainly(statement, statement, Status::Found);
    }
    plainly("The owls eat the voles.", "The voles are eaten by the owls.", Status::Found);
    plainly("Buds are haploid.", "Buds are diploid and roots haploid.", Status::LookAgain);
}

#[test]
fn a_sentence_that_turns_it_round_is_not_passed_over() {
    for text in [
        "The pores carry sap to the stalk. The pores carry sap from the stalk.",
        "The owls eat the voles. The voles eat the owls.",
    ] {
        let statement = text.split_inclusive(". ").next().unwrap().trim();
        plainly(statement, text, Status::LookAgain);
    }
    plainly(
        "Sap moves from a high level to a low level.",
        "Sap moves from a low level to a high level.",
        Status::LookAgain,
    );
    plainly("A leaf is one cell thick.", "A leaf is two cells thick.", Status::LookAgain);
    plainly("Hunters return salt to the soil.", "Growers return salt to the soil.", Status::LookAgain);
    let respires = plain(STATE, "state", "It releases energy from sugar.", &[], &["makes energy"]);
    case(&respires, "It makes energy from sugar.", Status::NotFound);
}

#[test]
fn a_number_must_be_the_guides() {
    plainly("The stalk has 46 ribs.", "The stalk has 23 ribs.", Status::NotFound);
    plainly("The stalk has 46 ribs.", "46", Status::Found);
    plainly("The stalk has 46 ribs.", "The stalk has ribs.", Status::LookAgain);
    plainly("The stalk has 46 ribs.", "It does not have 46 ribs.", Status::Contradicted);
    plainly("The potential is -70 mV.", "-70 mV", Status::Found);
    plainly("The potential is -70 mV.", "The potential is -65 mV.", Status::NotFound);
}

#[test]
fn what_speaks_of_another_case_denies_nothing_surely() {
    for text in [
        "The pores close. In wet soil the pores open.",
        "The pores close. Otherwise the pores would open.",
        "The pores close, they do not open.",
    ] {
        let got = review(&plain(STATE, "state", "The pores close.", &[], &[]), text).points[0].status;
        assert_ne!(got, Status::Contradicted, "{text}");
    }
    plainly("The pores close.", "The pores close. The pores open.", Status::Contradicted);
    plainly("The rate rises and then stays the same.", "The rate rises and then stays the same.", Status::Found);
}

#[test]
fn no_change_in_a_quantity_is_denied_by_a_change() {
    plainly("There is no change in the rate.", "The rate falls.", Status::Contradicted);
    plainly("There is no change in the rate.", "The rate stays the same.", Status::Found);
}

#[test]
fn what_is_refused_word_for_word_earns_nothing() {
    let enzyme = plain(STATE, "state", "The enzyme is denatured.", &[], &["the enzyme is killed"]);
    case(&enzyme, "The enzyme is killed.", Status::NotFound);
    case(&enzyme, "The enzyme is denatured.", Status::Found);
}

#[test]
fn what_explains_a_thing_is_not_counted() {
    counted("The depth, which matters for the light, and the shade, which matters too.", None);
    counted("Depth, because ponds, lakes and rivers differ. Shade.", None);
    counted("depth. shade. width.", Some(3));
    counted("depth & shade & width", Some(3));
    counted("depth, not the shade", None);
}

#[test]
fn a_unit_with_a_stroke_is_no_setup_and_a_prediction_no_reason() {
    let points = vec![
        point("s", PointKind::Statement, "Setup: v = (12 cm3)/(4 min).", &[]),
        point("v", PointKind::Statement, "Answer: 3 cm3/min; accept 2.9 to 3.1 cm3/min.", &[]),
    ];
    let kinds = |term: &str, points: &[Point], text: &str| -> Vec<String> {
        let question = Question { command_term: term.to_owned(), points: points.to_vec(), ..Question::default() };
        let one = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
        let all = review(&one, text).habits;
        all.iter().map(|habit| serde_json::to_value(habit).unwrap()["kind"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(kinds("calculate", &points, "3 cm3/min"), ["no-setup"]);
    assert!(kinds("calculate", &points, "12/4 = 3 cm3/min").is_empty());
    let points = vec![
        point("a", PointKind::Statement, "The rate falls.", &[]),
        point("b", PointKind::Statement, "Light is limiting.", &[]),
    ];
    assert_eq!(kinds("predict and justify", &points, "The rate falls."), ["no-reason"]);
    assert!(kinds("predict and justify", &points, "The rate falls. Light is limiting.").is_empty());
}
