//! Predictions: at the ends of the treatment, against the first series, denied by a later sentence.

use super::*;

#[test]
fn a_prediction_is_read_at_the_ends_of_the_treatment() {
    let rise = rising();
    case(&rise, "At 0 it is dim. At 40 it is bright.", Status::Found);
    case(&rise, "With no dose it is dim, so it rises.", Status::Found);
    case(&rise, "The reading gets bigger.", Status::Found);
    case(&rise, "It won't change at all.", Status::Contradicted);
    case(&rise, "No, it stays the same.", Status::Contradicted);
}

#[test]
fn a_later_sentence_denies_a_prediction() {
    let flat = prediction("does not change", "“stays the same”", "“it rises”");
    case(&flat, "The brightness stays the same, as nothing reaches it.", Status::Found);
    case(&flat, "It stays about the same.", Status::Found);
    case(&flat, "The brightness stays the same. So the one at 40 comes out brightest.", Status::Contradicted);
    case(&flat, "It stays the same. But at 40 there is so much that it does rise there.", Status::Contradicted);
    case(&flat, "In the first run it got dimmer and dimmer. The brightness now stays the same.", Status::Found);
}

#[test]
fn a_prediction_told_backwards_or_of_one_end() {
    let rise = rising();
    case(&rise, "From 40 down to 0 it gets dimmer.", Status::Found);
    case(&rise, "From 40 down to 0 it gets brighter.", Status::Contradicted);
    case(&rise, "Untreated ones are the dimmest.", Status::Found);
    case(&rise, "It gets lighter.", Status::Found);
    case(&rise, "It will be lower than in the first series.", Status::LookAgain);
}

#[test]
fn a_prediction_is_not_told_by_other_series_or_other_quantities() {
    let flat = prediction("does not change", "“stays the same”", "“it rises”");
    case(&flat, "It is brighter than in the first series, but the same for all.", Status::Found);
    case(&flat, "It gets brighter from one to the next.", Status::Contradicted);
}

#[test]
fn a_later_sentence_may_predict_the_other_way() {
    let shine = rising();
    case(&shine, "It rises, as less soot stays.", Status::Found);
    case(&shine, "It rises, as less soot stays. So the 40 min jar will be the dimmest one.", Status::Contradicted);
    case(
        &shine,
        "It rises, as less soot stays. But more soot comes in from the liquid, so it gets darker.",
        Status::Contradicted,
    );
}

#[test]
fn less_to_do_it_is_not_that_it_is_done() {
    case(&rising(), "Brighter. More soot escaped -> less left inside -> less to dim the lantern", Status::Found);
}

#[test]
fn a_later_sentence_that_names_nothing_predicts_again() {
    let flat = prediction("does not change", "“stays the same”", "“it rises”");
    let told = "The brightness does not change, as there is plenty of time for the soot to settle.";
    case(&flat, told, Status::Found);
    for again in [
        "But at 40 it will be higher than at 0.",
        "By 40 it will have dropped to 12 %.",
        "So overall we would see a fall from 0 to 40.",
        "That is, it climbs from 0 up to 40.",
        "But the 40 min ones would be a bit higher.",
    ] {
        case(&flat, &format!("{told} {again}"), Status::Contradicted);
    }
    // Of what it names, of how fast.
    case(&flat, &format!("{told} At 40 the draught is higher than at 0."), Status::Found);
    case(&flat, &format!("{told} At 40 it just happens faster."), Status::Found);
}

#[test]
fn a_prediction_needs_no_verb() {
    let rise = rising();
    case(&rise, "Up. The soot is swept out by then.", Status::Found);
    case(&rise, "Not down but up, since the soot is swept out.", Status::Found);
    case(&rise, "Down, since the soot is swept in.", Status::Contradicted);
}

#[test]
fn readings_at_both_levels_tell_a_prediction() {
    let rise = prediction("now rises, from about 20 % to about 60 %", "“goes up”", "“it falls”");
    let told = "It rises, as the soot is swept out.";
    case(&rise, "At 0 we would read 20 % and at 40 about 58 %.", Status::Found);
    case(&rise, &format!("{told} So at 40 it is around 20 % and at 0 about 60 %."), Status::Contradicted);
    case(&rise, &format!("{told} I would put the 40 min lamp well under the 0 min one."), Status::Contradicted);
    case(&rise, &format!("{told} At 40 it is lower than at 0."), Status::Contradicted);
    let apart = "At 0 the liquid above is darker, at 40 it is clear. So the brightness rises.";
    assert_ne!(review(&rise, apart).points[0].status, Status::Contradicted);
    // Numbers of something else.
    case(&rise, &format!("{told} At 40 there are 9000 grains and at 0 only 100000."), Status::Found);
}

#[test]
fn a_prediction_is_taken_back() {
    let told = "The brightness rises, as the soot is swept out.";
    case(&rising(), &format!("{told} Actually it still falls."), Status::Contradicted);
    case(&rising(), &format!("{told} Well no, on second thoughts it stays level."), Status::Contradicted);
    case(&rising(), "The brightness rises, no wait, down. The soot is swept in.", Status::Contradicted);
    case(&rising(), &format!("{told} Actually it rises a lot."), Status::Found);
}

#[test]
fn the_first_time_is_another_case() {
    let rise = rising();
    case(&rise, "In the first batch it got dimmer. Here the lamp gets brighter.", Status::Found);
    case(&rise, "You'd think it would fall but no. The brightness rises.", Status::Found);
}

#[test]
fn what_shows_the_reading_tells_the_prediction() {
    let rise = rising();
    let told = "More soot is swept out, so the lamp is brighter.";
    case(&rise, told, Status::Found);
    case(&rise, &format!("{told} So the curve would slope down from left to right."), Status::Contradicted);
    case(&rise, "The meter will sink from 0 to 40, as more light is lost.", Status::Contradicted);
    case(&rise, "The soot is swept out by then. I predict it goes up with the time.", Status::Found);
    case(&rise, "The curve will be higher than in the first series.", Status::LookAgain);
}

#[test]
fn nothing_anywhere_is_no_change() {
    let rise = rising();
    case(&rise, "There will be none at any dose, because the lamp is gone.", Status::Contradicted);
    case(&rise, "No brightness in any of the jars as the lamp is gone.", Status::Contradicted);
    case(&rise, "No soot is left in any jar.", Status::NotFound);
    case(&rise, "No further soot gets in and it does not matter any more.", Status::NotFound);
}

#[test]
fn a_slope_or_a_find_tells_which_way() {
    let rise = rising();
    case(&rise, "The brightness slopes down from 0 to 40.", Status::Contradicted);
    case(&rise, "From 0 to 40 we'd find a drop in brightness.", Status::Contradicted);
    case(&rise, "From 0 to 40 we'd find a rise in brightness.", Status::Found);
}

#[test]
fn a_level_gone_to_and_a_number_that_is_none() {
    let rise = rising();
    case(&rise, "Going down to 40 would free no soot. The lamp gets brighter.", Status::Found);
    case(&rise, "It goes up. 90 is lower than the heat of the flame.", Status::Found);
    let flat = prediction("does not change", "“stays the same”", "“it rises”");
    case(&flat, "It stays the same, so they are all equally dim.", Status::Found);
}

#[test]
fn a_case_put_first_ends_where_you_see_what_follows() {
    case(&rising(), "Since more soot is in them at 40 you get the weakest lamp.", Status::Contradicted);
    case(&rising(), "It goes up. So less soot and less light stopped.", Status::Found);
}

#[test]
fn beside_the_first_series_is_not_along_this_one() {
    let flat = prediction("does not change", "“stays the same”", "“it rises”");
    case(&flat, "Higher than before at each dose. The lamp gets all of it.", Status::LookAgain);
    case(&flat, "All of them come out brighter than in the first run.", Status::LookAgain);
    case(&flat, "The brightness falls less than before.", Status::Contradicted);
    case(&flat, "The soot is swept out, so that is what decides how the brightness changes.", Status::NotFound);
}
