//! A relation between two quantities: which way it goes, by what name, told from which end.

use super::*;

#[test]
fn directions_are_tied_to_their_quantity() {
    let salt = salt();
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
fn a_later_but_is_of_the_point_that_it_speaks_of() {
    let salt = salt();
    case(&salt, "Water leaves by osmosis so the volume falls. But the volume is less, as expected.", Status::Found);
    case(&salt, "Water leaves by osmosis so the volume falls. But the volume rises.", Status::Contradicted);
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
    Reviewer::new(
        &Guide { questions: vec![relation, later], ..Guide::default() },
        &Lexicon { terms, glossary: Vec::new() },
    )
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
fn a_quantity_is_told_by_another() {
    let dye = dye_in_time();
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
fn a_wrong_reason_costs_a_direction_nothing() {
    let foam = reviewer(
        "Describe how the volume of the foam depends on the dose.",
        "describe",
        "A larger dose makes more bubbles, so the volume of the foam is larger.",
        &["the direction alone, for this change or the opposite one"],
        &[
            "the foam swells because the bath is hot",
            "“A larger dose makes the foam thin” (a misconception: it does not)",
        ],
    );
    case(
        &foam,
        "The larger the dose the larger the volume of the foam, because hot foam swells in the bath.",
        Status::Found,
    );
    case(&foam, "The larger the dose the smaller the volume of the foam.", Status::Contradicted);
}

#[test]
fn a_longer_treatment_is_what_gives_it_longer() {
    let soak = reviewer(
        "Explain how the soak affects the fraction of the dye that has leaked out.",
        "explain",
        "What is inside has longer to diffuse out down its gradient, so a larger fraction has leaked out.",
        &["more time for net movement out"],
        &[],
    );
    case(&soak, "The longer the soak the more has leaked out.", Status::Found);
    case(&soak, "A short soak, so less of it leaks out.", Status::Found);
    case(&soak, "The longer the soak the less has leaked out.", Status::Contradicted);
}

#[test]
fn the_end_at_which_a_state_is_told_may_stand_behind_it() {
    let one = Point {
        id: "a".to_owned(),
        statement: "Over a longer time more dye comes out, so its concentration in the liquid rises.".to_owned(),
        accept: vec!["the direction alone, for this change or the opposite one".to_owned()],
        ..Point::default()
    };
    let ask = |id: &str, text: &str, term: &str, points: Vec<Point>| Question {
        id: id.to_owned(),
        text: text.to_owned(),
        command_term: term.to_owned(),
        points,
        ..Question::default()
    };
    let described = "Describe how the concentration of dye in the liquid depends on the time.";
    let again = "The series is run again. Predict how the concentration of dye then changes from 10 min to 60 min.";
    let questions =
        vec![ask("a", described, "describe", vec![one]), ask("b", again, "predict and justify", Vec::new())];
    let reviewer = Reviewer::new(&Guide { questions, ..Guide::default() }, &Lexicon::default());
    let status = |text: &str| {
        let review = reviewer.review(&Response { id: "a".to_owned(), text: text.to_owned() }).unwrap();
        review.points.first().unwrap().status
    };
    assert_eq!(status("The dye concentration is lower after 60 min."), Status::Contradicted);
    assert_eq!(status("The dye concentration is lower after 10 min."), Status::Found);
    assert_eq!(status("The dye concentration is higher after 60 min."), Status::Found);
}

#[test]
fn one_level_set_beside_another_tells_which_way() {
    relation(
        "With more enzyme it is split faster. A mix of 12 is split more slowly than one of 7.",
        Status::Contradicted,
    );
    relation("With more enzyme it is split faster. A mix of 12 is split faster than one of 7.", Status::Found);
    relation("With more enzyme the rate rises. At 5 it is fastest and at 80 the slowest.", Status::Contradicted);
    relation("With more enzyme the rate rises. Then the rate goes steadily down.", Status::Contradicted);
}

#[test]
fn what_leaks_out_does_not_go_in() {
    let point = reviewer(
        "Explain how a longer time changes how much dye is in the liquid.",
        "explain",
        "Over a longer time more dye has come out of the sacs, so its concentration in the liquid rises.",
        &[],
        &[],
    );
    let told = "Over a longer time more dye comes out, so its concentration in the liquid rises";
    case(&point, &format!("{told}."), Status::Found);
    case(&point, &format!("{told}. The dye then moves from the liquid into the sacs."), Status::Contradicted);
    case(&point, &format!("{told}. The dye doesn't move into the sacs."), Status::Found);
    case(&point, &format!("{told}. Water moves into the sacs."), Status::Found);
}

#[test]
fn what_others_believe_is_not_claimed() {
    let lamp = rising();
    case(&lamp, "You'd think it falls like in the first series, but no, the lamp gets brighter.", Status::Found);
    case(&lamp, "In series one it got dimmer. Here the brightness goes up.", Status::Found);
}

#[test]
fn the_guide_knows_where_the_treatment_ends() {
    let mut guide = reviewer(
        "Describe how the rate at which the substrate is split depends on the dose.",
        "describe",
        "A larger dose puts more sites to work, so the substrate is split faster.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    )
    .guide;
    guide.ends = Some(Ends { first: 5.0, last: 80.0, unit: "nmol/L".to_owned() });
    let told = Reviewer::new(&guide, &Lexicon::default());
    case(&told, "A larger dose splits it faster, and 80 is where it is split fastest.", Status::Found);
    case(&told, "A larger dose splits it faster, and 5 is where it is split fastest.", Status::Contradicted);
}

#[test]
fn what_shrinks_need_not_be_a_volume() {
    let gap = reviewer(
        "Describe how the gap between the plates depends on the load.",
        "describe",
        "A larger load squeezes the plates, so the gap between the plates falls.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&gap, "With a larger load the gap between the plates shrinks.", Status::Found);
}

#[test]
fn a_concentration_is_told_of_the_liquid_alone() {
    let bath = reviewer(
        "Explain how a change in the fraction that has leaked out changes the absorbance of the liquid.",
        "explain",
        "More inhibitor has come out into the bath, so its concentration in the liquid outside rises; the liquid takes up more of the \
         light, so its absorbance rises.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(&bath, "More inhibitor leaks out, so a higher conc outside. The absorbance is higher.", Status::Found);
    case(
        &bath,
        "More inhibitor leaks out, so the liquid outside is more concentrated. The absorbance is higher.",
        Status::Found,
    );
    case(
        &bath,
        "More inhibitor leaks out, so the liquid outside is less concentrated. The absorbance is lower.",
        Status::Contradicted,
    );
}

#[test]
fn a_clause_that_says_which_is_no_hedge() {
    let top = reviewer(
        "Explain how more enzyme changes the rate.",
        "explain",
        "More enzyme gives a higher maximum rate; with a higher maximum rate the substrate is split faster.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &top,
        "With more enzyme the top speed it could reach is higher and the substrate is split faster.",
        Status::Found,
    );
    let open = "With more enzyme the top speed could be higher and the substrate could be split faster.";
    case(&top, open, Status::LookAgain);
}

#[test]
fn how_far_it_does_not_get() {
    let run = reviewer(
        "Describe how the speed of the strands affects the distance that they run.",
        "describe",
        "Slower strands get less far in the same time, so the distance is shorter.",
        &["the direction alone, for this change or the opposite one"],
        &[],
    );
    case(&run, "If the strands go slower they don't reach so far.", Status::Found);
    case(&run, "If the strands go faster they don't reach so far.", Status::Contradicted);
}
