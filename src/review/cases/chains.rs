//! Chains of steps: told either way round, one step wrong, back after a slip, one step missing.

use super::*;

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
    let question = Question {
        id: "x".to_owned(),
        text: text.to_owned(),
        command_term: "explain".to_owned(),
        points,
        ..Question::default()
    };
    let one = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
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
fn the_missing_step_shows() {
    let point = |id: &str, statement: &str| Point { id: id.into(), statement: statement.into(), ..Point::default() };
    let points = vec![
        point("1", "The concentration of sugar rises."),
        point("2", "The pressure falls."),
        point("3", "The volume falls."),
    ];
    let question = Question { id: "x".to_owned(), points, ..Question::default() };
    let one = Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default());
    let chain = review(&one, "The concentration of sugar rises, so the volume falls.").chain;
    let states: Vec<StepState> = chain.iter().map(|step| step.state).collect();
    assert_eq!(states, [StepState::Said, StepState::Missing, StepState::Said]);
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
fn going_back_after_one_slip_is_no_second_one() {
    let chain = chain();
    case(&chain, "A larger dose opens more pores, more dye leaks out and the juice holds more dye.", Status::Found);
    case(&chain, "A larger dose opens more pores, less dye leaks out and the juice is paler.", Status::Contradicted);
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
fn the_occasion_ends_before_what_follows() {
    let view = read("If it's low, the dye leaks out slower.", &Lexicon::default());
    assert!(view.links.iter().any(|link| link.text == "If"));
    let chain = chain();
    case(&chain, "When it's small, fewer pores open, less dye leaks out and the juice is paler.", Status::Found);
    assert_eq!(ways("Every time the dose rises the light falls."), [Direction::Up, Direction::Down]);
    assert_eq!(ways("It is slower and since it is a quencher the light falls."), [Direction::Down, Direction::Down]);
}

#[test]
fn what_is_kept_alike_denies_nothing() {
    let chain = chain();
    let alike = "A larger dose opens more pores, more dye leaks out and, because the pressure and the time are constant, the \
                 juice holds more dye.";
    case(&chain, alike, Status::Found);
    case(
        &chain,
        "More pores open, more dye leaks out, there's the same volume of water, so the juice is darker.",
        Status::Found,
    );
}

#[test]
fn what_has_left_is_told_beside_what_stays() {
    let chain = reviewer(
        "Explain, step by step, how the width of the gates affects the colour of the buffer.",
        "explain",
        "Wider gates let what is inside out faster, so a larger fraction has leaked out when the time is up; less dye has stayed inside, so the buffer holds less dye.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &chain,
        "Wider gates let it out faster, more dye leaks out, less dye is left inside and the buffer holds less dye.",
        Status::Found,
    );
    case(
        &chain,
        "Wider gates let it out faster, less dye leaks out, more dye is left inside and the buffer holds more dye.",
        Status::Contradicted,
    );
}

#[test]
fn a_state_tells_a_step_where_the_answer_goes_that_way() {
    let hooks = reviewer(
        "Explain how the heat of the bath affects the light.",
        "explain",
        "A hotter bath melts more of the hooks, so a smaller share of the hooks is paired; less enzyme is carried over, so the light is dimmer.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &hooks,
        "In a hotter bath the hooks come apart. Less enzyme is carried over and the light is dimmer.",
        Status::Found,
    );
    // By itself it shows no change, and so no wrong one either.
    let alone = hooks.review(&Response { id: String::new(), text: "The hooks come apart.".to_owned() });
    let status = alone.and_then(|review| review.points.first().map(|point| point.status));
    assert!(!matches!(status, Some(Status::Found | Status::Contradicted)), "{status:?}");
}

#[test]
fn a_hasty_answer_leaves_out_what_it_does_not_name() {
    let lamp = reviewer(
        "Explain, step by step, how the amount of salt affects the brightness of the lamp.",
        "explain",
        "More salt keeps more of the valves open, so more juice is let through; more juice turns the wheel faster, so the lamp is \
         brighter.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(&lamp, "With more salt the lamp is brighter.", Status::LookAgain);
    case(&lamp, "More salt lets more juice through, so the lamp is brighter.", Status::Found);
    let long = "Say somebody puts plenty more salt in. It props up those flaps along the pipe, that gives a proper gush where \
                there was a trickle, and so the lamp is brighter.";
    case(&lamp, long, Status::Found);
}

/// How a warmer bath comes to a dimmer lamp, in two points.
fn two_points() -> Reviewer {
    let points = vec![
        point(
            "1",
            PointKind::Statement,
            "A warmer bath makes the valves wider, so more fuel leaks out; more fuel leaks out, so the pool is deeper.",
            &[],
        ),
        point("2", PointKind::Statement, "A deeper pool slows the wheel; a slower wheel makes the lamp dimmer.", &[]),
    ];
    let text = "Explain how warming the bath changes the brightness of the lamp.";
    let question = Question {
        id: "x".to_owned(),
        text: text.to_owned(),
        command_term: "explain".to_owned(),
        points,
        ..Question::default()
    };
    Reviewer::new(&Guide { questions: vec![question], ..Guide::default() }, &Lexicon::default())
}

#[test]
fn a_slip_lies_at_the_first_step_that_was_not_told_rightly() {
    let statuses = |text: &str| review(&two_points(), text).points.iter().map(|one| one.status).collect::<Vec<_>>();
    // The lamp is named before the pool; the pool is where it goes wrong.
    let early = "In a warmer bath the valves are wider and more fuel leaks out. The lamp is brighter then, the pool is less \
                 deep and the wheel is faster.";
    assert_eq!(statuses(early), [Status::Contradicted, Status::Found]);
    // What was told rightly, and is told otherwise later on.
    let later = "A warmer bath makes the valves wider, more fuel leaks out and the pool is deeper. The wheel is slower and the \
                 lamp dimmer. Since the bath is open the pool would be less deep there.";
    assert_eq!(statuses(later), [Status::Contradicted, Status::Found]);
}

#[test]
fn what_does_not_matter_was_told_rightly_itself() {
    let statuses = |text: &str| review(&two_points(), text).points.iter().map(|one| one.status).collect::<Vec<_>>();
    let text = "The warmer bath makes the valves wider, more fuel leaks out and the pool is deeper. But the depth of the pool \
                doesn't matter, so the lamp is the same.";
    assert_eq!(statuses(text), [Status::Found, Status::Contradicted]);
}

#[test]
fn what_corrects_itself_is_told_wrongly() {
    let statuses = |text: &str| review(&two_points(), text).points.iter().map(|one| one.status).collect::<Vec<_>>();
    let first = "A warmer bath makes the valves wider, so more fuel leaks out, or actually less. A deeper pool makes the wheel \
                 slower and the lamp dimmer.";
    assert_eq!(statuses(first), [Status::Contradicted, Status::Found]);
    let second = "A warmer bath makes the valves wider, so more fuel leaks out and the pool is deeper. The wheel is slower and \
                  the lamp dimmer. Then again the lamp is brighter when the wheel is slow.";
    assert_eq!(statuses(second), [Status::Found, Status::Contradicted]);
    // The same words at the beginning of an answer correct nothing.
    let none = "Actually the valves are wider in a warmer bath, so more fuel leaks out and the pool is deeper. The wheel is \
                slower and the lamp dimmer.";
    assert_eq!(statuses(none), [Status::Found, Status::Found]);
}

#[test]
fn a_sentence_that_opens_with_a_case_tells_of_that_case() {
    let chain = chain();
    let right = "A larger dose opens more pores, so dye leaks out faster, more dye leaks out and the colour is deeper.";
    case(&chain, right, Status::Found);
    case(
        &chain,
        &format!("{right} A smaller dose opens even more pores and even more dye leaks out."),
        Status::Contradicted,
    );
    case(&chain, &format!("{right} They all lose the same amount of it."), Status::Contradicted);
}

#[test]
fn what_the_guide_says_is_alike_denies_nothing() {
    let bath = reviewer(
        "Explain how a change in the fraction that has leaked out changes the colour of the bath.",
        "explain",
        "More dye has come out into the same volume of bath, so its concentration in the bath rises; the bath holds more dye, so \
         its colour is deeper.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &bath,
        "More dye is out. The volume of the bath is the same, so the concentration of dye is higher and the colour is deeper.",
        Status::Found,
    );
    case(
        &bath,
        "More dye has leaked. Its concentration in the bath is the same, so the colour stays the same.",
        Status::Contradicted,
    );
    let rate = reviewer(
        "Explain how a change in the dose changes the rate at which the substrate is split.",
        "explain",
        "More enzyme can reach a higher maximum rate; at the same substrate concentration the same share of the sites is busy, so \
         the substrate is split faster.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &rate,
        "More enzyme means the maximum rate is higher and at equal substrate the substrate is split faster.",
        Status::Found,
    );
}

#[test]
fn what_is_told_beside_the_chain_denies_nothing() {
    let heat = reviewer(
        "Explain how warming the buffer changes the amount of enzyme on the beads.",
        "explain",
        "Heat motion parts more of the strands at a higher temperature, so a smaller share of them is paired; fewer of the strands \
         are paired, so less enzyme stays on the beads.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &heat,
        "At low temperatures nearly all the strands are paired, so more enzyme stays on the beads. Go up and it is the other way about.",
        Status::Found,
    );
    case(&heat, "When it is warmer more of the strands come apart, so less enzyme stays on the beads.", Status::Found);
    case(
        &heat,
        "When it is warmer more of the strands pair up, so more enzyme stays on the beads.",
        Status::Contradicted,
    );
    let leak = dye_in_time();
    case(
        &leak,
        "Over a longer time more dye moves out to where there is less of it, so its concentration in the liquid rises.",
        Status::Found,
    );
    case(&leak, "It rises steeply at first and then less and less.", Status::Found);
    case(&leak, "It rises at first; later nearly all of it is out.", Status::Found);
    case(&leak, "It rises at first and then it falls.", Status::Contradicted);
}

#[test]
fn a_denial_ends_where_so_begins() {
    let site = reviewer(
        "Explain how less inhibitor changes the rate.",
        "explain",
        "Less inhibitor blocks fewer of the active sites, so the substrate is split faster.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(&site, "With less inhibitor fewer active sites are blocked so the substrate is split faster.", Status::Found);
    case(&site, "With less inhibitor fewer sites get blockd so the substrate is split faster.", Status::Found);
    case(
        &site,
        "With less inhibitor fewer active sites are blocked so the substrate is split slower.",
        Status::Contradicted,
    );
}

#[test]
fn light_that_is_taken_up_does_not_arrive() {
    let shade = reviewer(
        "Explain how a change in the dye in the liquid changes the rate of the leaves.",
        "explain",
        "The liquid holds less dye, which takes up less of the light; the leaves behind it receive more light; more light makes the \
         leaves work faster.",
        &["the same argued from the opposite change"],
        &[],
    );
    case(
        &shade,
        "A liquid with more dye swallows much of the light, so the leaves get less light and work slowly.",
        Status::Found,
    );
}
