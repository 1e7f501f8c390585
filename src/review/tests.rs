//! Short cases of the reviewer as a whole.

use super::*;

pub(super) fn reviewer(
    question: &str,
    command_term: &str,
    statement: &str,
    accept: &[&str],
    reject: &[&str],
) -> Reviewer {
    let list = |texts: &[&str]| texts.iter().map(|text| (*text).to_owned()).collect();
    let point = Point {
        id: "p".to_owned(),
        statement: statement.to_owned(),
        accept: list(accept),
        reject: list(reject),
        ..Point::default()
    };
    let question = Question {
        text: question.to_owned(),
        command_term: command_term.to_owned(),
        points: vec![point],
        ..Question::default()
    };
    Reviewer::new(&Guide { questions: vec![question] }, &Lexicon::default())
}

fn review(reviewer: &Reviewer, text: &str) -> Review {
    reviewer.review(&Response { id: "x".to_owned(), text: text.to_owned() }).unwrap()
}

#[track_caller]
pub(super) fn case(reviewer: &Reviewer, text: &str, expected: Status) {
    let got = review(reviewer, text);
    assert_eq!(got.points[0].status, expected, "{text}: {:?}", got.points[0].evidence);
}

#[test]
fn directions_are_tied_to_their_quantity() {
    let salt = reviewer(
        "Explain what happens to the volume of the vesicles when salt is added outside.",
        "explain",
        "Water leaves the vesicles by osmosis, so their volume falls.",
        &[],
        &[],
    );
    case(&salt, "Water leaves by osmosis so the volume goes down.", Status::Found);
    case(&salt, "Water moves out through osmosis, and because of this they shrink.", Status::Found);
    case(&salt, "Water leaves by osmosis so the volume rises.", Status::Contradicted);
    case(
        &salt,
        "Water leaves by osmosis so the volume falls. But the volume of the vesicles rises.",
        Status::Contradicted,
    );
    case(&salt, "It is about biology.", Status::NotFound);
    case(&salt, "", Status::NotFound);
}

#[test]
fn no_change_is_a_direction() {
    let flat = reviewer(
        "Predict how the brightness then changes.",
        "predict",
        "The brightness does not change. The direction alone earns.",
        &["“stays the same”; “no effect”"],
        &["“it rises”"],
    );
    for text in
        ["It stays the same.", "No change.", "no effect", "The brightness is unchanged.", "It doesn't change at all"]
    {
        case(&flat, text, Status::Found);
    }
    for text in ["It rises.", "The brightness goes down.", "It gets brighter"] {
        case(&flat, text, Status::Contradicted);
    }
    case(&flat, "It might rise.", Status::LookAgain);
}

#[test]
fn the_relation_may_be_told_the_other_way_round() {
    let enzyme = reviewer(
        "Describe how the concentration of enzyme affects the rate.",
        "describe",
        "More enzyme puts more active sites into the mix, so the rate rises.",
        &["the same relation stated for the opposite change"],
        &["the enzyme is used up"],
    );
    case(&enzyme, "More enzyme means more active sites, so the rate goes up.", Status::Found);
    case(&enzyme, "With less enzyme there are fewer active sites and the rate falls.", Status::Found);
    case(&enzyme, "More enzyme means more active sites, so the rate falls.", Status::Contradicted);
}

#[test]
fn a_chain_is_told_either_way_and_the_wrong_step_is_shown() {
    let point = |id: &str, statement: &str| Point { id: id.into(), statement: statement.into(), ..Point::default() };
    let points = vec![
        point("1", "More dye has leaked out, so less of it stays inside; less dye is left, so less light is absorbed."),
        point(
            "2",
            "Less light is absorbed, so more of it passes through; more light reaches the leaves, so oxygen is given off faster.",
        ),
    ];
    let text = "Explain how a change in the fraction that has leaked leads to a change in the rate of oxygen release.";
    let question =
        Question { text: text.to_owned(), command_term: "explain".to_owned(), points, ..Question::default() };
    let one = Reviewer::new(&Guide { questions: vec![question] }, &Lexicon::default());
    let statuses = |text: &str| review(&one, text).points.iter().map(|point| point.status).collect::<Vec<Status>>();
    let right = "If more dye leaks, less stays inside, so less light is soaked up. More light gets to the leaves and they \
                 give off oxygen faster.";
    assert_eq!(statuses(right), [Status::Found, Status::Found]);
    let other = "If less dye leaks, more stays inside, so more light is absorbed. Less light gets through to the leaves, so \
                 oxygen is given off more slowly.";
    assert_eq!(statuses(other), [Status::Found, Status::Found]);
    let wrong = "If more dye leaks, less stays inside, so less light is absorbed. More light gets to the leaves, so oxygen is \
                 given off more slowly.";
    assert_eq!(statuses(wrong), [Status::Found, Status::Contradicted]);
}

#[test]
fn no_effect_denies_a_relation() {
    let one = reviewer(
        "Describe how the rate depends on the concentration of substrate.",
        "describe",
        "More substrate fills more active sites, so the rate rises.",
        &[],
        &[],
    );
    case(&one, "The rate does not depend on the substrate.", Status::Contradicted);
    case(&one, "More substrate fills more sites but has no effect on the rate.", Status::Contradicted);
    case(&one, "More active sites are filled by more substrate, so the rate is higher.", Status::Found);
}

#[test]
fn spelling_costs_nothing_and_terms_stay_apart() {
    let water = reviewer("What is the bath?", "describe", "The bath is hypertonic to the cytoplasm.", &[], &[]);
    case(&water, "the bath is hypertonic to the cytoplasm", Status::Found);
    case(&water, "teh bath is hypertonik to the cytoplasm", Status::Found);
    assert_ne!(review(&water, "the bath is hypotonic to the cytoplasm").points[0].status, Status::Found);
}

#[test]
fn habits_are_named() {
    let why = reviewer("Predict and justify how the rate changes.", "predict and justify", "The rate falls.", &[], &[]);
    let kinds = |text: &str| -> Vec<String> {
        let all = review(&why, text).habits;
        all.iter().map(|habit| serde_json::to_value(habit).unwrap()["kind"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(kinds(""), ["blank"]);
    assert_eq!(kinds("- it falls\n- because there is less enzyme"), ["bullets"]);
    assert_eq!(kinds("Predict and justify how the rate changes"), ["restates", "no-reason"]);
}

#[test]
fn only_as_many_as_asked_for_are_read() {
    let mut guide =
        reviewer("Identify the dependent variable.", "identify", "The absorbance.", &[], &["the dye"]).guide;
    guide.questions[0].count = Some(1);
    let one = Reviewer::new(&guide, &Lexicon::default());
    case(&one, "absorbance", Status::Found);
    case(&one, "the dye, the absorbance", Status::NotFound);
    let habits = review(&one, "the dye, the absorbance").habits;
    assert_eq!(habits, [Habit::OverCount { asked: 1, given: 2 }]);
}

#[test]
fn ideas_by_hand_are_all_needed() {
    let point = Point {
        id: "p".to_owned(),
        statement: "Its volume falls to 4 mL because water leaves.".to_owned(),
        ideas: vec![
            Idea { terms: vec!["volume|size".to_owned()], direction: Some(Direction::Down), ..Idea::default() },
            Idea { terms: vec!["water".to_owned()], link: true, ..Idea::default() },
            Idea { value: Some(4.0), unit: "mL".to_owned(), ..Idea::default() },
        ],
        ..Point::default()
    };
    let question = Question { points: vec![point], ..Question::default() };
    let one = Reviewer::new(&Guide { questions: vec![question] }, &Lexicon::default());
    case(&one, "The volume goes down to 0.004 L because water leaves.", Status::Found);
    case(&one, "The volume goes down because water leaves.", Status::LookAgain);
    case(&one, "The volume goes up to 4 mL because water leaves.", Status::Contradicted);
}

#[test]
fn the_missing_step_shows() {
    let point = |id: &str, statement: &str| Point { id: id.into(), statement: statement.into(), ..Point::default() };
    let points = vec![
        point("1", "The concentration of sugar rises."),
        point("2", "The pressure falls."),
        point("3", "The volume falls."),
    ];
    let question = Question { points, ..Question::default() };
    let one = Reviewer::new(&Guide { questions: vec![question] }, &Lexicon::default());
    let chain = review(&one, "The concentration of sugar rises, so the volume falls.").chain;
    let states: Vec<StepState> = chain.iter().map(|step| step.state).collect();
    assert_eq!(states, [StepState::Said, StepState::Missing, StepState::Said]);
}

#[test]
fn json_in_and_out() {
    assert!(review_json("{").starts_with("{\"version\":1,\"error\":"));
    let request = r#"{"guide": {"questions": [{"points": [{"id": "p", "statement": "The rate falls."}]}]},
        "responses": [{"id": "a", "text": "The rate falls."}]}"#;
    let reply = review_json(request);
    assert!(reply.contains("\"status\":\"found\"") && reply.contains("\"start\":"), "{reply}");
}

#[test]
fn no_text_panics() {
    let one = reviewer("Why?", "explain", "The rate falls because 5 mL leave.", &["5 to 6 mL"], &[]);
    for text in
        ["−", "1e", "10^(", "½", "5 m/", "µ", "…", "not not not", "so so", "(a", "\u{0}", "5 5 5 5", "e9999", "1e999 m"]
    {
        review(&one, text);
    }
}

/// A question whose guide lets the direction earn by itself, with levels in a later part.
fn dose() -> Reviewer {
    let point = Point {
        id: "p".to_owned(),
        statement: "More enzyme puts more active sites to work, so the substrate is split faster.".to_owned(),
        accept: vec!["the direction alone, for this change or the opposite one".to_owned()],
        ..Point::default()
    };
    let text =
        "**Describe** how the rate at which the substrate is split depends on the concentration of enzyme in the mix.";
    let relation = Question {
        id: "a".to_owned(),
        text: text.to_owned(),
        command_term: "describe".to_owned(),
        points: vec![point],
        ..Question::default()
    };
    let later = Question {
        id: "b".to_owned(),
        text: "**Predict** how the rate then changes from 5 nmol/L to 80 nmol/L.".to_owned(),
        ..Question::default()
    };
    let term = |id: &str, forms: &[&str]| Term {
        id: id.to_owned(),
        forms: forms.iter().map(|form| (*form).to_owned()).collect(),
        quantity: true,
    };
    let terms = vec![
        term("dose", &["the concentration of enzyme in the mix", "dose", "[e]"]),
        term("rate", &["the rate at which the substrate is split", "speed of reaction", "v"]),
    ];
    Reviewer::new(&Guide { questions: vec![relation, later] }, &Lexicon { terms, glossary: Vec::new() })
}

#[track_caller]
fn relation(text: &str, expected: Status) {
    let review = dose().review(&Response { id: "a".to_owned(), text: text.to_owned() }).unwrap();
    assert_eq!(review.points[0].status, expected, "{text}: {:?}", review.points[0].evidence);
}

#[test]
fn quantities_are_known_by_other_names_and_symbols() {
    relation("A bigger dose gives a higher speed of reaction.", Status::Found);
    relation("[E]↑ → v↑", Status::Found);
    relation("[E] up, v down", Status::Contradicted);
    relation("v is proportional to the dose.", Status::Found);
    relation("The rate falls with the dose.", Status::Contradicted);
    relation("As the dose goes up so does the rate.", Status::Found);
    relation("Enzyme slows the reaction down.", Status::Contradicted);
}

#[test]
fn an_end_of_the_treatment_tells_a_relation() {
    relation("The substrate is split fastest at 80 nmol/L.", Status::Found);
    relation("The substrate is split fastest at 5 nmol/L.", Status::Contradicted);
    relation("At 80 it is split faster than at 5.", Status::Found);
    relation("More enzyme makes it faster. At 80 it is split more slowly than at 5.", Status::Contradicted);
}

#[test]
fn words_are_known_by_their_sound() {
    relation("mor enzime makes teh reacshun quiker", Status::Found);
}

#[test]
fn chi_square_decides_by_the_value_that_the_answer_has() {
    let claim = reviewer(
        "Evaluate the claim that the share is the same at both.",
        "evaluate",
        "χ² is larger than 3.84 (1 degree of freedom), so the claim is rejected: the shares differ.",
        &["a verdict that follows from a wrong value"],
        &[],
    );
    case(&claim, "χ² = 5.7, above 3.84, so reject the claim.", Status::Found);
    case(&claim, "χ² = 2.7, below 3.84, so the claim is not rejected.", Status::Found);
    case(&claim, "χ² = 5.7, above 3.84, so we accept the claim.", Status::Contradicted);
    case(&claim, "The critical value is 3.84.", Status::LookAgain);
    case(&claim, "They differ.", Status::NotFound);
    for right in [
        "χ² = 1.2, below 3.84, so there is no significant difference.",
        "χ² = 1.2, below 3.84, so the difference is not significant.",
        "χ² = 1.2, below 3.84, so any difference is by chance.",
        "χ² = 1.2, below 3.84, so we fail to reject the claim.",
        "χ² = 9.5, above 3.84: significant and unlikely to be by chance.",
        "χ² = 9.5, above 3.84, so the claim that the shares are the same is rejected.",
    ] {
        case(&claim, right, Status::Found);
    }
    case(&claim, "χ² = 1.2, below 3.84, so there is a significant difference.", Status::Contradicted);
    case(&claim, "χ² = 1.2, below 3.84, so the claim is accepted and proved for certain.", Status::NotFound);
}

#[test]
fn one_claim_that_stands_alone_is_no_turn() {
    let chain = reviewer(
        "Explain how more cooling changes the brightness of the lamp.",
        "explain",
        "A colder bath slows the pump, so less fuel arrives; less fuel makes the flame shorter; a shorter flame makes the lamp dimmer.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &chain,
        "The pump is slower so less fuel arrives, the flame is shorter and the lamp is dimmer.",
        Status::Found,
    );
    case(
        &chain,
        "The pump is slower so less fuel arrives, the flame is shorter and the lamp is brighter.",
        Status::Contradicted,
    );
}

#[test]
fn a_later_but_is_of_the_point_that_it_speaks_of() {
    let salt = reviewer(
        "Explain what happens to the volume of the vesicles when salt is added outside.",
        "explain",
        "Water leaves the vesicles by osmosis, so their volume falls.",
        &[],
        &[],
    );
    case(&salt, "Water leaves by osmosis so the volume falls. But the volume is less, as expected.", Status::Found);
    case(&salt, "Water leaves by osmosis so the volume falls. But the volume rises.", Status::Contradicted);
}

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
fn a_setup_that_divides_is_another() {
    let product = reviewer(
        "Calculate the product.",
        "calculate",
        "Setup: P = (5 µmol/(L·min))(20 min). Earns even if the arithmetic fails.",
        &[],
        &["a bare answer"],
    );
    case(&product, "P = 5 × 20 = 100 µmol/L", Status::Found);
    case(&product, "P = 5 / 20 = 0.25 µmol/L", Status::NotFound);
}
