//! Directions in words: what rises, falls, or stays as it is.

use super::fact::{Direction, Fact, Kind, Token, Way};

/// Verbs and sayings, longest first where one begins another.
const VERBS: &[(Way, &[&str])] = &[
    (
        Way::Up,
        &[
            "goes up",
            "go up",
            "going up",
            "went up",
            "gone up",
            "rises",
            "rise",
            "rising",
            "rose",
            "risen",
            "raises",
            "raise",
            "raising",
            "raised",
            "increases",
            "increase",
            "increasing",
            "increased",
            "climbs",
            "climb",
            "climbing",
            "climbed",
            "grows",
            "grow",
            "growing",
            "grew",
            "grown",
            "mounts",
        ],
    ),
    (
        Way::Down,
        &[
            "goes down",
            "go down",
            "going down",
            "went down",
            "gone down",
            "falls",
            "fall",
            "falling",
            "fell",
            "fallen",
            "lowers",
            "lowering",
            "lowered",
            "decreases",
            "decrease",
            "decreasing",
            "decreased",
            "drops",
            "dropping",
            "dropped",
            "declines",
            "decline",
            "declining",
            "declined",
            "sinks",
            "sink",
            "sinking",
            "sank",
            "shrinks",
            "shrink",
            "shrinking",
            "shrank",
            "reduces",
            "reduce",
            "reducing",
            "reduced",
            "diminishes",
            "diminish",
        ],
    ),
    (
        Way::Level,
        &[
            "does not change",
            "do not change",
            "did not change",
            "will not change",
            "doesn't change",
            "doesn’t change",
            "not changed",
            "never changes",
            "no change",
            "no effect",
            "not affected",
            "unaffected",
            "unchanged",
        ],
    ),
];

/// Verbs that tell of no change together with one of [`SAME`].
const STAY: &[&str] = &["stays", "stay", "stayed", "remains", "remain", "remained", "keeps", "keep", "is", "are"];
/// What may stand between the two.
const BETWEEN: &[&str] =
    &["the", "very", "much", "about", "almost", "nearly", "roughly", "quite", "exactly", "just", "entirely", "still"];
/// How something stays.
const SAME: &[&str] = &["same", "unchanged", "constant", "steady", "flat", "level"];
/// Where or how it stays, after a verb that means nothing else.
const WHERE: &[&str] = &["near", "at", "as", "close", "where"];

/// Comparatives: they tell a direction too, but a sentence may be turned round and use the other one.
const COMPARATIVES: &[(Way, &[&str])] = &[
    (Way::Down, &["more slowly", "more weakly", "more dimly"]),
    (Way::Up, &["less slowly"]),
    (
        Way::Up,
        &[
            "more", "higher", "larger", "greater", "longer", "bigger", "faster", "brighter", "stronger", "farther",
            "further", "deeper", "wider", "heavier", "warmer", "hotter", "saltier", "quicker",
        ],
    ),
    (
        Way::Down,
        &[
            "less", "fewer", "lower", "smaller", "shorter", "slower", "dimmer", "weaker", "paler", "narrower",
            "lighter", "cooler", "colder",
        ],
    ),
];

/// Puts directions in place of the words that say them.
pub(super) fn directions(tokens: &[Token]) -> Vec<Token> {
    let mut out: Vec<Token> = Vec::with_capacity(tokens.len());
    let mut rest = tokens;
    while let [token, after @ ..] = rest {
        let Some((direction, n)) = at_start(rest, out.last()) else {
            out.push(token.clone());
            rest = after;
            continue;
        };
        let (said, after) = rest.split_at(n);
        let mut span = token.span.clone();
        span.end = said.last().map_or(span.end, |last| last.span.end);
        let mut direction = direction;
        // "does not rise", "no longer falls".
        if let Some(words) = negation(&out, direction) {
            for _ in 0..words {
                span.start = out.pop().map_or(span.start, |gone| gone.span.start);
            }
            direction.way = if direction.way == Way::Up { Way::NotUp } else { Way::NotDown };
        }
        out.push(Token { span, kind: Kind::Fact(Fact::Direction(direction)) });
        rest = after;
    }
    out
}

/// The direction that the tokens begin with, and how many of them say it.
fn at_start(tokens: &[Token], before: Option<&Token>) -> Option<(Direction, usize)> {
    // "Sucrose up: ...", "Sucrose up → ...": the short form of the chain.
    if let [one, next, ..] = tokens
        && let (Kind::Word(word), Kind::Mark(':' | '→')) = (&one.kind, &next.kind)
    {
        let way = match word.as_str() {
            "up" => Some(Way::Up),
            "down" => Some(Way::Down),
            "stays" => Some(Way::Level),
            _ => None,
        };
        if let Some(way) = way {
            return Some((Direction { way, verb: true }, 1));
        }
    }
    let word = |token: Option<&Token>| match token.map(|token| &token.kind) {
        Some(Kind::Word(word)) => word.clone(),
        _ => String::new(),
    };
    let (last, first) = (word(before), word(tokens.first()));
    // "Few drops" are things, and "no longer" is no length.
    let thing = first == "drops" && ["few", "some", "of", "the", "these", "several"].contains(&last.as_str());
    if thing || (last == "no" && (first == "longer" || first == "more")) {
        return None;
    }
    let listed = |table: &[(Way, &[&str])], verb: bool| {
        table.iter().find_map(|(way, sayings)| {
            let n = sayings.iter().find_map(|saying| says(tokens, saying))?;
            Some((Direction { way: *way, verb }, n))
        })
    };
    let stays = stays(tokens).map(|n| (Direction { way: Way::Level, verb: true }, n));
    listed(VERBS, true).or(stays).or_else(|| listed(COMPARATIVES, false))
}

/// How many tokens say that something stays as it is.
fn stays(tokens: &[Token]) -> Option<usize> {
    let word = |n: usize| match tokens.get(n).map(|token| &token.kind) {
        Some(Kind::Word(word)) => word.as_str(),
        _ => "",
    };
    let verb = word(0);
    if !STAY.contains(&verb) {
        return None;
    }
    let n = (1..=4).find(|n| !BETWEEN.contains(&word(*n)))?;
    let is_only = matches!(verb, "is" | "are");
    // "Is the same as" compares two things; "is constant" does not.
    let ends = if is_only { SAME.contains(&word(n)) && word(n) != "same" } else { SAME.contains(&word(n)) };
    let somewhere = n == 1 && !is_only && !verb.starts_with("keep") && WHERE.contains(&word(1));
    (ends || somewhere).then_some(n + 1)
}

/// How many tokens say this.
fn says(tokens: &[Token], saying: &str) -> Option<usize> {
    let mut n = 0;
    for word in saying.split(' ') {
        match tokens.get(n).map(|token| &token.kind) {
            Some(Kind::Word(here)) if here == word => n += 1,
            _ => return None,
        }
    }
    Some(n)
}

/// How many words before a verb deny it.
fn negation(before: &[Token], direction: Direction) -> Option<usize> {
    if !direction.verb || !matches!(direction.way, Way::Up | Way::Down) {
        return None;
    }
    let word = |n: usize| match before.iter().rev().nth(n).map(|token| &token.kind) {
        Some(Kind::Word(word)) => word.as_str(),
        _ => "",
    };
    match (word(1), word(0)) {
        ("does" | "do" | "did" | "will" | "would", "not") | ("no", "longer") => Some(2),
        (_, "doesn't" | "doesn’t" | "never" | "not" | "neither" | "nor") => Some(1),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::token::tokens;
    use super::*;

    #[track_caller]
    fn case(text: &str, expected: &[Way]) {
        let found: Vec<Way> = tokens(text, &(0..text.len()))
            .iter()
            .filter_map(|token| match token.fact() {
                Some(Fact::Direction(direction)) => Some(direction.way),
                _ => None,
            })
            .collect();
        assert_eq!(found, expected, "{text}");
    }

    #[test]
    fn directions_are_found() {
        case("the volume **goes up / goes down / stays the same**.", &[Way::Up, Way::Down, Way::Level]);
        case("*Chain.* Salt up → … → Brightness ____", &[Way::Up]);
        case("*Chain:* Salt up: brightness falls", &[Way::Up, Way::Down]);
        case("More of it is split more slowly, so it does not change", &[Way::Up, Way::Down, Way::Level]);
        case("It does not rise; it no longer falls", &[Way::NotUp, Way::NotDown]);
        case("It takes up light and lights up a drop", &[]);
        case("Salt stays: volume is unchanged", &[Way::Level, Way::Level]);
    }
}
