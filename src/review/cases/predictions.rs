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
