//! The answer as a whole: habits, lists, spelling, ideas by hand, plain data in and out.

use super::*;

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
fn spelling_costs_nothing_and_terms_stay_apart() {
    let water = reviewer("What is the bath?", "describe", "The bath is hypertonic to the cytoplasm.", &[], &[]);
    case(&water, "the bath is hypertonic to the cytoplasm", Status::Found);
    case(&water, "teh bath is hypertonik to the cytoplasm", Status::Found);
    assert_ne!(review(&water, "the bath is hypotonic to the cytoplasm").points[0].status, Status::Found);
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
    let one = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
    case(&one, "The volume goes down to 0.004 L because water leaves.", Status::Found);
    case(&one, "The volume goes down because water leaves.", Status::LookAgain);
    case(&one, "The volume goes up to 4 mL because water leaves.", Status::Contradicted);
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

#[test]
fn evidence_stands_where_it_says() {
    let lamp = rising();
    // Letters that change their length as they change their case.
    for text in ["İİİİ no wait, up", "Ɐ no wait, down İİ", "Up İ ẞ", "İ It falls. Actually it İ still rises"]
    {
        for one in &review(&lamp, text).points[0].evidence {
            let there: String = text.chars().skip(one.start).take(one.end.saturating_sub(one.start)).collect();
            assert!(one.start < one.end && there == one.text, "{text}: {one:?}");
        }
    }
}

#[test]
fn one_word_for_all_of_an_alternative_says_none_of_it() {
    let lamp = reviewer(
        "Explain how a change in the heat of the fire affects the brightness of the lamp.",
        "explain",
        "More soot means more of the filter around the lamp, so the lamp is dimmer.",
        &["the soot filters the lamp"],
        &[],
    );
    case(&lamp, "More of the soot filters the lamp.", Status::Found);
    case(&lamp, "A hotter fire, so more filter.", Status::LookAgain);
}
