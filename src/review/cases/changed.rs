//! Reasons of a changed experiment in which a step leaves all levels alike, or lets other shares be tested.

use super::*;

/// What becomes of the reason behind a prediction of no change.
#[track_caller]
fn reason(text: &str, expected: bool) {
    let step = Point {
        accept: vec![
            "the step from the rate at which the dough is kneaded to the amount of bread in the oven named as the one that \
             no longer works"
                .to_owned(),
        ],
        ..point(
            "b2",
            PointKind::Reason,
            "At the end every oven holds the same amount of bread, however fast the dough was kneaded. The amount of bread \
             in the oven therefore no longer changes.",
            &["The faster the dough is kneaded, the more bread there is."],
        )
    };
    let points =
        vec![point("b1", PointKind::Statement, "The smell does not change. The direction alone earns.", &[]), step];
    let got =
        last_of("Predict and justify how the smell then changes from 5 to 40.", "predict and justify", points, text);
    assert_eq!(got == Status::Contradicted, expected, "{text}: {got:?}");
}

#[test]
fn what_still_moves_behind_no_change() {
    reason("The smell stays the same. By morning the oven at 40 has the most bread.", true);
    reason("The smell stays the same. By morning the oven at 40 has the most bread of all.", true);
    reason("The smell stays the same. By morning every oven has as much bread, more than it had before.", false);
    reason("The smell stays the same. The dough keeps making more bread all night.", true);
    reason("The smell stays the same. Then at 40 the oven has more bread so the smell rises.", true);
}

#[test]
fn when_it_is_done_decides_nothing_else() {
    reason("It stays the same. The rate at which dough is kneaded only decides when an oven is full.", false);
    reason("It stays the same. The rate at which dough is kneaded decides it all.", true);
}

/// What becomes of a reason of other shares: the liquid holds what stayed.
#[track_caller]
fn shares(text: &str, expected: Status) {
    let step = Point {
        accept: vec![
            "the step from the leak of the dye to the dye in the tested liquid named as the one that changes"
                .to_owned(),
        ],
        ..point(
            "b2",
            PointKind::Reversal,
            "The liquid now tested holds the dye that stayed inside, and the more has got out, the less is left. The \
             concentration of dye in the tested liquid therefore changes in the opposite direction.",
            &["The more dye gets out, the more of it the tested liquid holds, as before."],
        )
    };
    let points = vec![
        point("b1", PointKind::Statement, "The colour now fades. The direction alone earns.", &["“it deepens”"]),
        step,
    ];
    let got =
        last_of("Predict and justify how the colour then changes from 5 to 40.", "predict and justify", points, text);
    assert_eq!(got, expected, "{text}");
}

#[test]
fn what_has_come_out_and_what_is_there() {
    shares("It fades. A lot of dye has come out, so there's a lot of it in the liquid.", Status::Contradicted);
    shares("It fades. More dye has leaked out, so there's less of it in the liquid.", Status::Found);
    shares("It fades. The leaky ones have lost more of their dye so the liquid is weaker.", Status::Found);
    shares(
        "It deepens. The liquid has the dye left inside. As more lime keeps more dye in, the liquid has more dye.",
        Status::Found,
    );
}

#[test]
fn more_that_does_not_help_moves_nothing() {
    reason("It stays the same. The dough is kneaded faster already so giving them more bread doesn't help.", false);
}

#[test]
fn what_is_said_to_be_measured() {
    shares("It deepens. A lot of dye leaked and that's what we measure in the end.", Status::Contradicted);
    shares("It fades. The dye of the bath drifts into the sacs with time, so they hold more.", Status::Contradicted);
}

#[test]
fn strands_with_a_partner_and_without() {
    let told = |text: &str| {
        let statement = "The enzyme that meets the starch is now that of the paired strands, which stays on the beads. The \
                         enzyme in the assay therefore changes in the opposite direction.";
        let points = vec![
            point("b1", PointKind::Statement, "The glow now rises. The direction alone earns.", &["“it falls”"]),
            point("b2", PointKind::Reversal, statement, &["More pairing still keeps enzyme out of the assay."]),
        ];
        last_of("Predict and justify how the glow then changes from 5 to 40.", "predict and justify", points, text)
    };
    assert_eq!(told("It rises. The beads hold the enzyme of the paired strands."), Status::Found);
    for swapped in [
        "It rises. The beads now carry the enzyme of the strands without a partner.",
        "It rises. The beads are used. The paired strands lose their enzyme to the liquid.",
        "It rises. The paired strands' enzyme is no longer on the beads.",
    ] {
        assert_eq!(told(swapped), Status::Contradicted, "{swapped}");
    }
}
