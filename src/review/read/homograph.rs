//! Words that look like something else than they are here: "how fast" names a quantity, "stops the enzyme" denies nothing,
//! "in the same time" says what is kept alike.

use super::piece::{Piece, Role, Words, empty, name_by_deed};
use super::token::{Kind, Token};
use crate::review::meaning::{Direction, Grammar, Little, Meaning, Turn};
use crate::review::words;

/// What a mean may be taken of.
const AVERAGED: &[&str] = &[
    "length",
    "lengths",
    "distance",
    "value",
    "number",
    "brightness",
    "absorbance",
    "time",
    "rate",
    "size",
    "reading",
];

/// "leaves the bonds alone", "leaves the loops open".
fn left_so(behind: &[String]) -> bool {
    behind.iter().take(9).any(|word| {
        matches!(
            word.as_str(),
            "alone" | "open" | "closed" | "empty" | "behind" | "uncovered" | "covered" | "unchanged" | "shut"
        )
    })
}

/// "not so negative", "not as dark": less of it, and "just as permeable" the same, where no word of direction follows.
pub(super) fn not_so(all: &Words<'_>, at: usize) -> Option<Piece> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let rest = all.rest(at);
    let pair = mended.get(at..at + 2)?;
    let is_pair = matches!(pair, [not, so] if not == "not" && matches!(so.as_str(), "so" | "as" | "that" | "very"));
    let alike = matches!(pair, [just, so] if matches!(just.as_str(), "just" | "exactly") && so == "as");
    let follows = dictionary.longest(rest.get(2..)?);
    let plain =
        !matches!(follows, Some((_, Meaning::Turn(_) | Meaning::Little(_) | Meaning::Pronoun | Meaning::Link(_))));
    let longer = dictionary.longest(rest).is_some_and(|(length, _)| length > 1);
    if !(is_pair || alike) || !plain || longer || rest.len() < 3 {
        return None;
    }
    let direction = if alike { Direction::Same } else { Direction::Down };
    let turn = Turn { direction, grammar: Grammar::Comparative, about: "" };
    let bytes = own.get(at)?.bytes.start..own.get(at + 1)?.bytes.end;
    Some(Piece { bytes, role: Role::Turn(turn), ..empty(sentence, "not so") })
}

/// Words that look like something else than they are here: "how fast" names a quantity, "stops the enzyme" denies nothing,
/// what "leaves less" remains.
pub(super) fn turned_noun(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let rest = all.rest(at);
    let word = mended.get(at)?;
    let back = before(all, at);
    let turns = turn_at(all, at + 1).is_some_and(|turn| turn.grammar == Grammar::Comparative);
    // "stays tighter", "stays paired": a state, not what is left.
    let state = rest.get(1).is_some_and(|stem| {
        let key = dictionary.canonical(stem);
        dictionary.is_state(&key) && !dictionary.is_elsewhere(&key)
    });
    // "stay about the same".
    let turns = turns || turn_at(all, at + 1).is_some_and(|turn| turn.direction == Direction::Same);
    // "is left free".
    let left = *rest.first()? == "left" && state;
    if left || matches!(*rest.first()?, "stay" | "remain") && back != "to" && (turns || state) {
        let bytes = own.get(at)?.bytes.clone();
        return Some((1, Piece { bytes, role: Role::Copula, ..empty(sentence, word) }));
    }
    if let Some(found) = in_its_place(all, at).or_else(|| by_what_follows(all, at)).or_else(|| by_degree(all, at)) {
        return Some(found);
    }
    let direction = match word.as_str() {
        "up" => Some(Direction::Up),
        "down" => Some(Direction::Down),
        _ => None,
    };
    if let Some(direction) = direction.filter(|_| ends_so(all, at)) {
        let turn = Turn { direction, grammar: Grammar::Predicate, about: "" };
        let bytes = own.get(at)?.bytes.clone();
        return Some((1, Piece { bytes, role: Role::Turn(turn), ..empty(sentence, word) }));
    }
    by_meaning(all, at)
}

/// The same by what the word else means.
fn by_meaning(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let rest = all.rest(at);
    let word = mended.get(at)?;
    let next = mended.get(at + 1).map_or("", String::as_str);
    let back = before(all, at);
    let content = |key: String, verb: bool| {
        let bytes = own.get(at).map_or(0..0, |token| token.bytes.clone());
        Piece { bytes, role: Role::Content, keys: vec![key], verb, acts: verb, ..empty(sentence, word) }
    };
    // "leaves faster": it goes.
    let hurries = turn_at(all, at + 1).is_some_and(|turn| turn.about == "rate");
    let turns = |from: usize| turn_at(all, at + from).is_some_and(|turn| turn.grammar == Grammar::Comparative);
    // "The more dye leaves the less is there": it goes.
    let correlated = (1..at).any(|place| {
        mended.get(place - 1).is_some_and(|word| word == "the")
            && turn_at(all, place).is_some_and(|turn| turn.grammar == Grammar::Comparative)
    });
    match dictionary.longest(rest) {
        // "the mean length": which length.
        _ if word == "mean" && AVERAGED.contains(&next) => Some((1, content(dictionary.key("mean"), false))),
        // "a lower proportion of it": a share, and not "in proportion".
        _ if matches!(word.as_str(), "proportion" | "proportions") && !matches!(back, "in" | "direct" | "inverse") => {
            Some((1, content(dictionary.key("share"), false)))
        }
        Some((1, Meaning::Turn(turn))) if back == "how" && turn.grammar == Grammar::Comparative => {
            let about = if turn.about.is_empty() { "amount" } else { turn.about };
            Some((1, content(dictionary.key(about), false)))
        }
        // "the light gets stopped".
        Some((1, Meaning::Negator))
            if words::lists().hindering.contains(rest.first()?)
                && word.ends_with("ed")
                && matches!(back, "gets" | "get" | "is" | "are" | "being" | "be" | "was" | "been" | "got") =>
        {
            Some((1, content(dictionary.key("block"), true)))
        }
        // "fewer sites blocked, so …": what has been done to them.
        Some((1, Meaning::Negator)) if word == "blocked" && next != "from" && !next.ends_with("ing") => {
            Some((1, content(dictionary.key("block"), true)))
        }
        Some((1, Meaning::Negator)) if words::lists().hindering.contains(rest.first()?) => {
            let acts = next.ends_with("ing")
                || next.is_empty()
                || ["from", "and", ",", ".", "so", "in", "at", "after"].contains(&next);
            (!acts).then(|| (1, content(dictionary.key("block"), true)))
        }
        _ if rest.first() == Some(&"leav")
            && !hurries
            && (turns(1)
                || (matches!(next, "a" | "an" | "the") && turns(2) && !(next == "the" && correlated))
                || left_so(mended.get(at + 1..).unwrap_or_default())) =>
        {
            // "leaves more light for the meter": it is not held back.
            let light = mended.get(at + 1..).unwrap_or_default().iter().take(4).any(|word| word == "light");
            Some((1, content(dictionary.key(if light { "pass" } else { "stay" }), true)))
        }
        _ => None,
    }
}

/// The same by the words around: "as hard", "less light stopped", "parts more of them", "not so far".
fn by_degree(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let rest = all.rest(at);
    let word = mended.get(at)?;
    let next = mended.get(at + 1).map_or("", String::as_str);
    let back = before(all, at);
    let bytes = own.get(at)?.bytes.clone();
    let content = |key: String| Piece {
        bytes: bytes.clone(),
        role: Role::Content,
        keys: vec![key],
        verb: true,
        acts: true,
        ..empty(sentence, word)
    };
    let turn = |about: &'static str| Piece {
        bytes: bytes.clone(),
        role: Role::Turn(Turn { direction: Direction::Up, grammar: Grammar::Comparative, about }),
        keys: vec![dictionary.key(about)],
        ..empty(sentence, word)
    };
    let negator = matches!(dictionary.longest(rest), Some((1, Meaning::Negator)));
    let since = mended.get(at.saturating_sub(5)..at).unwrap_or_default();
    match word.as_str() {
        // "doesn't pull it as hard", but "hardly".
        "hard" if negator => Some((1, turn("strength"))),
        // "doesn't reach so far".
        "far" if matches!(back, "so" | "as" | "that" | "very") && since.iter().any(|word| denies(word)) => {
            Some((1, turn("distance")))
        }
        // "heat parts more of the pairs".
        "part" | "parts" | "parted"
            if (counts(next)
                || matches!(next, "the" | "them" | "most" | "all" | "many")
                || next == "a" && mended.get(at + 2).is_some_and(|word| word == "lot"))
                && !matches!(
                    back,
                    "a" | "the" | "larger" | "smaller" | "bigger" | "that" | "big" | "large" | "small"
                ) =>
        {
            Some((1, content(dictionary.key("apart"))))
        }
        // "less light stopped".
        _ if negator
            && words::lists().hindering.contains(rest.first()?)
            && word.ends_with("ed")
            && at.checked_sub(2).and_then(|place| mended.get(place)).is_some_and(|word| counts(word)) =>
        {
            Some((1, content(dictionary.key("block"))))
        }
        _ => None,
    }
}

fn denies(word: &str) -> bool {
    matches!(word, "not" | "never" | "doesnt" | "dont") || word.ends_with("n't")
}

fn counts(word: &str) -> bool {
    matches!(word, "more" | "less" | "fewer" | "much")
}

/// Words that only their place makes something else: "most loops", "No, it stays", "comes out lowest", "takes less heat", "in
/// dim light".
fn in_its_place(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let rest = all.rest(at);
    let word = mended.get(at)?;
    let next = mended.get(at + 1).map_or("", String::as_str);
    let back = before(all, at);
    let bytes = own.get(at)?.bytes.clone();
    let comparative = |direction: Direction, about: &'static str| {
        Role::Turn(Turn { direction, grammar: Grammar::Comparative, about })
    };
    let thing = |stem: &&str| {
        let meaning = dictionary.longest(&[*stem]);
        meaning.is_none_or(|(_, meaning)| matches!(meaning, Meaning::Term(_) | Meaning::Sense(_)))
    };
    let named = rest.get(1).is_some_and(thing) && !next.ends_with("ly") && next.ends_with('s');
    let follows = matches!(rest.get(1..).and_then(|rest| dictionary.longest(rest)), Some((_, Meaning::Pronoun)));
    let marked = own.get(at + 1).is_some_and(|token| token.kind == Kind::Mark);
    let turns = turn_at(all, at + 2).is_some_and(|turn| turn.grammar == Grammar::Comparative);
    match word.as_str() {
        "most" if named && !matches!(back, "the" | "at" | "what" | "be" | "is" | "are" | "for" | "") => {
            Some((1, Piece { bytes, role: comparative(Direction::Up, ""), ..empty(sentence, "most of") }))
        }
        "short" | "little" | "small" if matches!(next, "rna" | "rnas") => {
            Some((1, Piece { bytes, role: Role::Plain, ..empty(sentence, word) }))
        }
        "equally" if turn_at(all, at + 1).is_some_and(|turn| turn.grammar == Grammar::Comparative) => {
            let bytes = bytes.start..own.get(at + 1)?.bytes.end;
            let turn = Turn { direction: Direction::Same, grammar: Grammar::Predicate, about: "" };
            Some((2, Piece { bytes, role: Role::Turn(turn), ..empty(sentence, "equally") }))
        }
        // "the plus inhibitor": of that charge.
        "plus" | "minus"
            if matches!(back, "the" | "a" | "its" | "more" | "less" | "fewer") && rest.get(1).is_some_and(thing) =>
        {
            let keys = vec![dictionary.key(if word == "plus" { "positive" } else { "negative" })];
            Some((1, Piece { bytes, role: Role::Content, keys, ..empty(sentence, word) }))
        }
        "no" if at == 0 && (follows || marked) => {
            Some((1, Piece { bytes, role: Role::Plain, ..empty(sentence, word) }))
        }
        "come" | "comes" | "came" | "coming" if next == "out" && turns => {
            let bytes = bytes.start..own.get(at + 1)?.bytes.end;
            Some((2, Piece { bytes, role: Role::Copula, ..empty(sentence, "comes out") }))
        }
        // "you'd find a drop": seen, and not come upon.
        "find" | "found" | "finds"
            if matches!(next, "a" | "an" | "no")
                && turn_at(all, at + 2).is_some_and(|turn| turn.grammar != Grammar::Comparative) =>
        {
            Some((1, Piece { bytes, role: Role::Plain, ..empty(sentence, word) }))
        }
        "heat" if matches!(back, "less" | "more" | "little" | "extra" | "enough" | "fewer") => {
            let keys = vec![dictionary.key("temperature")];
            Some((1, Piece { bytes, role: Role::Content, keys, ..empty(sentence, word) }))
        }
        "dim" if matches!(back, "in" | "a" | "the" | "with" | "under" | "this" | "that") => {
            let keys = vec![dictionary.key("bright")];
            Some((1, Piece { bytes, role: comparative(Direction::Down, "bright"), keys, ..empty(sentence, word) }))
        }
        _ => None,
    }
}

/// "Most stays in", "and most have gone": most of it. "the plus blocker": a charge, and nothing added.
fn by_what_follows(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let word = mended.get(at)?;
    let bytes = own.get(at)?.bytes.clone();
    let mark = |token: &Token| token.kind == Kind::Mark;
    let opens = at.checked_sub(1).and_then(|before| own.get(before)).is_none_or(mark);
    let follows = all.stems.get(at + 1..).and_then(|rest| dictionary.longest(rest)).map(|(_, meaning)| meaning);
    match (word.as_str(), before(all, at)) {
        ("most", back) if opens || matches!(back, "and" | "so" | "but" | "because" | "then" | "while") => {
            let does = matches!(follows, Some(Meaning::Little(Little::Copula)))
                || all.stems.get(at + 1).is_some_and(|stem| dictionary.is_verb(stem));
            let turn = Turn { direction: Direction::Up, grammar: Grammar::Comparative, about: "" };
            does.then(|| (1, Piece { bytes, role: Role::Turn(turn), ..empty(sentence, "most of") }))
        }
        // "leaks least in the strongest bath", "shines most at the end".
        ("most" | "least", _) if at > 0 && dictionary.is_verb(all.stems.get(at - 1)?) => {
            let ended = own.get(at + 1).is_none_or(mark)
                || matches!(follows, Some(Meaning::Little(Little::Preposition) | Meaning::Link(_)));
            let direction = if word == "most" { Direction::Up } else { Direction::Down };
            let turn = Turn { direction, grammar: Grammar::Comparative, about: "" };
            let of = mended.get(at + 1).is_some_and(|next| next == "of");
            (ended && !of).then(|| (1, Piece { bytes, role: Role::Turn(turn), ..empty(sentence, word) }))
        }
        // "the greatest absorbance", but not "the greatest rate that it can reach".
        ("greatest", "the") if matches!(follows, None | Some(Meaning::Term(_) | Meaning::Sense(_))) => {
            let next = mended.get(at + 1).map_or("", String::as_str);
            let top = matches!(next, "rate" | "possible" | "speed" | "velocity" | "turnover");
            let turn = Turn { direction: Direction::Up, grammar: Grammar::Comparative, about: "" };
            (!top && own.get(at + 1).is_some_and(|token| !mark(token)))
                .then(|| (1, Piece { bytes, role: Role::Turn(turn), ..empty(sentence, word) }))
        }
        // "the more there are the easier it gets through".
        ("harder" | "easier", "the") if mended.get(at + 1).is_some_and(|next| next != "to") => {
            let direction = if word == "harder" { Direction::Down } else { Direction::Up };
            let turn = Turn { direction, grammar: Grammar::Comparative, about: "rate" };
            let keys = vec![dictionary.key("rate")];
            let alone = dictionary.longest(all.rest(at)).is_none_or(|(length, _)| length == 1);
            alone.then(|| (1, Piece { bytes, role: Role::Turn(turn), keys, ..empty(sentence, word) }))
        }
        // "harder to melt", "easier to unzip": how soon it does so.
        ("harder" | "easier" | "easy", _) if hard_to(all, at + 1).is_some() => {
            let verb = hard_to(all, at + 1).unwrap_or(false);
            let alone = dictionary.longest(all.rest(at)).is_none_or(|(length, _)| length == 1);
            let direction = if word == "harder" { Direction::Down } else { Direction::Up };
            let turn = Turn { direction, grammar: Grammar::Comparative, about: "rate" };
            let keys = vec![dictionary.key("rate")];
            (verb && alone).then(|| (1, Piece { bytes, role: Role::Turn(turn), keys, ..empty(sentence, word) }))
        }
        ("plus" | "+", "the" | "a" | "of" | "more" | "less" | "fewer" | "this" | "that") => {
            let named = matches!(follows, None | Some(Meaning::Term(_) | Meaning::Sense(_)));
            let keys = vec![dictionary.key("positive")];
            (named && own.get(at + 1).is_some_and(|token| !mark(token)))
                .then(|| (1, Piece { bytes, role: Role::Content, keys, ..empty(sentence, word) }))
        }
        _ => None,
    }
}

/// "to cross", "for the dye to cross": whether a deed is told that is hard or easy; `None` where nothing of the kind follows.
fn hard_to(all: &Words<'_>, from: usize) -> Option<bool> {
    let word = |at: usize| all.mended.get(at).map_or("", String::as_str);
    let reach = if word(from) == "for" { from + 6 } else { from + 1 };
    let to = (from..reach).find(|at| word(*at) == "to")?;
    Some(all.stems.get(to + 1).is_some_and(|stem| all.dictionary.is_verb(stem)))
}

/// The word before; empty at the beginning.
fn before<'a>(all: &Words<'a>, at: usize) -> &'a str {
    at.checked_sub(1).and_then(|before| all.mended.get(before)).map_or("", String::as_str)
}

/// The word of direction that begins here.
fn turn_at(all: &Words<'_>, at: usize) -> Option<Turn> {
    match all.stems.get(at..).and_then(|rest| all.dictionary.longest(rest)) {
        Some((_, Meaning::Turn(turn))) => Some(turn),
        _ => None,
    }
}

/// "Rate up", "brightness is down": a quantity stands before, and nothing of its clause behind.
fn ends_so(all: &Words<'_>, at: usize) -> bool {
    let Words { own, mended, dictionary, .. } = *all;
    let Some(before) = at.checked_sub(1) else { return false };
    let last = all.stems.get(before).copied().unwrap_or_default();
    let copula =
        mended.get(before).is_some_and(|word| ["is", "are", "was", "so", "therefore"].contains(&word.as_str()));
    let noun = own.get(before).is_some_and(|token| token.kind == Kind::Word)
        && !dictionary.is_verb(last)
        && !dictionary.is_little(last);
    let ended = match dictionary.longest(all.rest(at + 1)) {
        // "When the rate is up the …".
        Some((_, Meaning::Little(Little::Article))) => copula,
        Some((_, meaning)) => matches!(meaning, Meaning::Link(_)),
        None => own.get(at + 1).is_none_or(|token| token.kind == Kind::Mark),
    };
    // "slows it down": part of the verb; "the time is up" says when.
    let clause = mended.get(before.saturating_sub(4)..at).unwrap_or_default();
    let clause =
        clause.rsplit(|word| matches!(word.as_str(), "," | ";" | "and" | "so" | "→" | "->")).next().unwrap_or_default();
    // "→ leak up →", a note of two words: the first is what goes up.
    let note = clause.len() == 1 && !PARTICLED.contains(&last);
    let noun = noun || note && own.get(before).is_some_and(|token| token.kind == Kind::Word);
    let particle = !note
        && clause.iter().any(|word| {
            let stem = dictionary.stems.of(word);
            // "Mean length down".
            let verb = dictionary.is_verb(&stem) && word != "mean";
            matches!(stem.as_str(), "time" | "min" | "minut" | "hour")
                || verb
                || PARTICLED.contains(&stem.as_str())
                || matches!(dictionary.longest(&[stem.as_str()]), Some((_, Meaning::Turn(_))))
        });
    (copula || noun) && ended && !particle
}

/// A word of direction that tells of none here: "each further cut" counts cuts, "in the same time" says what is kept alike.
pub(super) fn is_background(at: usize, words: &[String]) -> bool {
    let back = |n: usize| at.checked_sub(n).and_then(|before| words.get(before)).map_or("", String::as_str);
    let before = if back(1) == "the" { back(2) } else { back(1) };
    let next = words.get(at + 1).map_or("", String::as_str);
    match back(0) {
        // "half-saturated".
        "half" => {
            // "the enzyme half comes off": a part.
            let part = matches!(back(2), "the" | "this" | "that" | "other") && next.ends_with('s') && next != "as";
            part || matches!(next, "saturated" | "full" | "empty" | "life")
        }
        // "Later nearly all are full": when.
        "later" => {
            let opens = at == 0 || matches!(back(1), "." | ";" | "," | "and" | "but" | ":");
            opens && next.chars().all(char::is_alphabetic) && !next.is_empty()
        }
        // "the two halves come apart", "lost as heat".
        "halves" => matches!(before, "the" | "two" | "both" | "these" | "its" | "their" | "of"),
        "heat" => matches!(back(1), "as" | "into" | "of" | "out" | "without" | "as much" | "much" | "body" | "waste"),
        "further" => ["each", "a", "every", "no", "any"].contains(&back(1)),
        // "the mass of DNA", but "masses of it".
        "mass" => back(1) == "the",
        // "at equal substrate".
        "equal" | "identical" => {
            let behind = words.get(at + 1).is_some_and(|next| next.chars().all(char::is_alphabetic));
            behind && ["at", "of", "for", "from", "into", "with", "over", "to"].contains(&back(1)) && next != "in"
        }
        // "At the same rate whatever …" denies; "in the same time" says what is kept alike.
        "same" => {
            let rest = words.get(at + 1..).unwrap_or_default();
            let denies = rest.iter().any(|word| matches!(word.as_str(), "whatever" | "however" | "regardless"));
            // "they all end up with the same": what comes of it.
            let ends = before == "with"
                && words.get(at.saturating_sub(5)..at).unwrap_or_default().iter().any(|word| {
                    matches!(word.as_str(), "end" | "ends" | "finish" | "finishes" | "left" | "ended" | "finished")
                });
            let denies = denies || ends;
            !denies && ["in", "at", "of", "for", "from", "into", "with", "by", "to", "on", "over"].contains(&before)
        }
        _ => false,
    }
}

/// Stems of verbs that take "up" and "down" without going that way: "shut up", "tied down".
const PARTICLED: &[&str] = &[
    "shut", "tie", "lock", "use", "eat", "snap", "light", "curl", "roll", "line", "end", "throw", "pour", "suck",
    "chop", "wrap", "block", "clog", "plug", "mess", "screw",
];

/// "more and more", "slower and slower": one word of direction.
pub(super) fn repeated(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let [one, and, other] = mended.get(at..at + 3)? else { return None };
    let Some((1, Meaning::Turn(turn))) = dictionary.longest(all.rest(at)) else { return None };
    if one != other || and != "and" || turn.grammar != Grammar::Comparative {
        return None;
    }
    let bytes = own.get(at)?.bytes.start..own.get(at + 2)?.bytes.end;
    // "harder and harder to cross": less and less of it.
    let hard = one == "harder" && hard_to(all, at + 3) == Some(true);
    let turn = if hard { Turn { direction: Direction::Down, about: "rate", ..turn } } else { turn };
    let keys = if turn.about.is_empty() { Vec::new() } else { vec![dictionary.key(turn.about)] };
    Some((3, Piece { bytes, role: Role::Turn(turn), keys, ..empty(sentence, one) }))
}

/// "what dims the dye", "the stuff that kills the glow": the quencher by what it does.
pub(super) fn by_deed(all: &Words<'_>, at: usize) -> Option<(usize, Piece)> {
    let Words { own, mended, sentence, dictionary, .. } = *all;
    let word = |place: usize| mended.get(at + place).map_or("", String::as_str);
    let relative = matches!(word(0), "what" | "that" | "which");
    let deed =
        matches!(word(1), "dims" | "dim" | "darkens" | "dulls" | "kills" | "quenches" | "lowers" | "steals" | "takes");
    let article = usize::from(matches!(word(2), "the" | "its" | "their"));
    let dimmed = matches!(word(2 + article), "dye" | "glow" | "light" | "brightness" | "fluorescence");
    let before = at.checked_sub(1).and_then(|before| mended.get(before)).map_or("", String::as_str);
    let named = matches!(before, "of" | "stuff" | "thing" | "substance" | "product" | "compound" | "molecules" | "the");
    let length = 3 + article;
    let bytes = own.get(at)?.bytes.start..own.get(at + length - 1)?.bytes.end;
    let keys = vec![dictionary.key("quench")];
    (relative && deed && dimmed && named).then(|| {
        let mut piece = Piece { bytes, role: Role::Content, keys, ..empty(sentence, "quencher") };
        name_by_deed(&mut piece, dictionary);
        (length, piece)
    })
}

/// What something goes up or down, without being more or less.
const PLACES: &[&str] = &[
    "tube",
    "tubes",
    "syringe",
    "cylinder",
    "column",
    "gel",
    "lane",
    "gradient",
    "gradients",
    "drain",
    "pipe",
    "sink",
    "well",
    "wells",
    "track",
    "needle",
    "chain",
];

/// "can't get out as quick": how fast, and not whether.
pub(super) fn is_manner(all: &Words<'_>, at: usize, (length, meaning): (usize, Meaning)) -> bool {
    let word = |place: usize| all.mended.get(place).map_or("", String::as_str);
    let so = matches!(word(at + length), "as" | "so" | "very" | "that");
    let turns = turn_at(all, at + length + usize::from(so)).is_some_and(|turn| turn.grammar == Grammar::Comparative);
    matches!(meaning, Meaning::Sense(_)) && length > 1 && word(at) == "not" && so && turns
}

/// "comes up the tube", "goes down its gradient": where to, not which way a quantity goes.
pub(super) fn is_way(all: &Words<'_>, at: usize, (length, meaning): (usize, Meaning)) -> bool {
    let mended = all.mended;
    let word = |place: usize| mended.get(place).map_or("", String::as_str);
    let particle = matches!(word(at + length - 1), "up" | "down");
    let article = matches!(word(at + length), "the" | "its" | "their" | "a");
    let place = PLACES.contains(&word(at + length + usize::from(article)));
    length == 2
        && matches!(meaning, Meaning::Turn(_))
        && particle
        && place
        && matches!(all.rest(at).first(), Some(&("go" | "come" | "move" | "run" | "creep" | "slide" | "climb")))
}
