//! Two things set beside each other as equals: "is as fast at 80 as at none".

use super::piece::{Piece, Role, Words, empty};
use crate::review::meaning::{Direction, Grammar, Meaning, Turn};

/// Words within which the second "as" must stand.
const REACH: usize = 7;

/// Words of measure that are none of direction, and the kind of quantity that they speak of.
const MEASURES: &[(&str, &str)] = &[
    ("fast", "rate"),
    ("quick", "rate"),
    ("quickly", "rate"),
    ("rapid", "rate"),
    ("bright", "bright"),
    ("brightly", "bright"),
    ("dark", "bright"),
    ("dim", "bright"),
    ("far", "distance"),
    ("much", ""),
    ("many", ""),
    ("high", ""),
    ("low", ""),
    ("big", ""),
    ("large", ""),
    ("concentrated", ""),
    ("long", "length"),
    ("strong", "strength"),
];

/// "as" between a form of "to be", or a verb of working, and a word of measure, with another "as" behind: the same. "As soon as"
/// and "as well as" compare nothing, and "twice as fast as" is no equal.
pub(super) fn as_much_as(all: &Words<'_>, at: usize) -> Option<Piece> {
    let word = |place: usize| all.mended.get(place).map_or("", String::as_str);
    let before = at.checked_sub(1).map_or("", word);
    let is = matches!(
        before,
        "is" | "are" | "was" | "were" | "be" | "stays" | "stay" | "works" | "work" | "runs" | "run" | "goes" | "go"
    );
    // "has as much of it as before".
    let counts = matches!(word(at + 1), "much" | "many")
        && matches!(
            before,
            "has" | "have" | "had" | "holds" | "hold" | "contains" | "contain" | "gives" | "give" | "makes" | "make"
        );
    let is = is || counts;
    // "They are as long as they were", but not "it goes on as long as …".
    let long = matches!(before, "is" | "are" | "was" | "were" | "be") && word(at + 1) == "long" && word(at + 2) == "as";
    let measure = long
        || !matches!(
            word(at + 1),
            "soon"
                | "long"
                | "well"
                | "if"
                | "though"
                | "a"
                | "an"
                | "the"
                | "they"
                | "it"
                | "before"
                | "usual"
                | "such"
        );
    let behind = (at + 2..at + REACH).map(word).take_while(|word| !matches!(*word, "." | ","));
    if word(at) != "as" || !is || !measure || !behind.into_iter().any(|word| word == "as") {
        return None;
    }
    let measured = word(at + 1);
    let about = match all.dictionary.longest(all.rest(at + 1)) {
        Some((_, Meaning::Turn(turn))) => turn.about,
        _ => MEASURES.iter().find(|(one, _)| *one == measured).map(|(_, about)| *about)?,
    };
    let turn = Turn { direction: Direction::Same, grammar: Grammar::Comparative, about };
    let bytes = all.own.get(at)?.bytes.start..all.own.get(at + 1)?.bytes.end;
    Some(Piece { bytes, role: Role::Turn(turn), ..empty(all.sentence, "as") })
}

/// "lets no more through than before", "is no brighter than that": the same, for all that it sounds like a denial.
pub(super) fn no_more_than(all: &Words<'_>, at: usize) -> Option<Piece> {
    let word = |place: usize| all.mended.get(place).map_or("", String::as_str);
    let turn = match all.dictionary.longest(all.rest(at + 1)) {
        Some((1, Meaning::Turn(turn))) if turn.grammar == Grammar::Comparative => turn,
        _ => return None,
    };
    let further = word(at + 1).ends_with("er") && word(at + 1) != "longer" || matches!(word(at + 1), "more" | "less");
    let than = all.mended.iter().enumerate().skip(at + 2).find(|(_, word)| *word == "than")?.0;
    // "no more than 5 of them", "no brighter or dimmer than that".
    let counts = than == at + 2 || matches!(word(at + 2), "or" | "nor");
    let moves = matches!(turn.direction, Direction::Up | Direction::Down);
    if word(at) != "no" || !further || !moves || counts {
        return None;
    }
    let turn = Turn { direction: Direction::Same, ..turn };
    let keys = if turn.about.is_empty() { Vec::new() } else { vec![all.dictionary.key(turn.about)] };
    let bytes = all.own.get(at)?.bytes.start..all.own.get(at + 1)?.bytes.end;
    Some(Piece { bytes, role: Role::Turn(turn), keys, ..empty(all.sentence, word(at + 1)) })
}

/// "however permeable they are", "however little there is": whichever way it goes, what follows holds. It stands apart as what is
/// set off by a comma does.
pub(super) fn however(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let word = |place: usize| all.mended.get(place).map_or("", String::as_str);
    let subject = matches!(word(at + 2), "they" | "it" | "these" | "this" | "there");
    let is = matches!(word(at + 3), "is" | "are" | "was" | "were" | "gets" | "get" | "be" | "may" | "becomes");
    let measure = !matches!(word(at + 1), "," | "they" | "it" | "the" | "a" | "this" | "if" | "when");
    let bytes = all.own.get(at)?.bytes.start..all.own.get(at + 3)?.bytes.end;
    let piece = Piece { bytes, role: Role::Mark(','), ..empty(all.sentence, "however") };
    (word(at) == "however" && subject && is && measure).then_some((4, piece))
}
