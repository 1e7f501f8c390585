//! Every answer given is right for every stable set of magnitudes that is tried: whole numbers, worked out exactly.

use proptest::prelude::*;
use toehold::reasoning::Sign::{self, Minus, Plus};
use toehold::reasoning::press::press_all;

use super::{Arrow, answers, diagram};

/// A small generator for the tests alone (`SplitMix64`; Steele, Lea & Flood 2014, from memory).
struct Draws(u64);

impl Draws {
    fn below(&mut self, limit: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % limit
    }

    fn place(&mut self, size: usize) -> usize {
        usize::try_from(self.below(size as u64)).unwrap()
    }

    fn sign(&mut self, percent_plus: u64) -> Sign {
        if self.below(100) < percent_plus { Plus } else { Minus }
    }
}

/// A diagram like a food web: a tree of links, mostly of eater and eaten, some more arrows, and self-effects on some things
/// or all.
fn web(draws: &mut Draws, size: usize, limited: u64, feeding: u64) -> Vec<Arrow> {
    let mut arrows: Vec<Arrow> = Vec::new();
    let mut add = |from: usize, sign: Sign, to: usize| {
        if !arrows.iter().any(|(f, _, t)| (*f, *t) == (from, to)) {
            arrows.push((from, sign, to));
        }
    };
    for thing in 0..size {
        if draws.below(100) < limited {
            add(thing, draws.sign(feeding), thing);
        }
        if thing > 0 {
            let other = draws.place(thing);
            let up = if draws.below(100) < 85 { Plus } else { draws.sign(50) };
            add(other, up, thing);
            if draws.below(100) < 85 {
                add(thing, if up == Plus { Minus } else { draws.sign(50) }, other);
            }
        }
    }
    for _ in 0..draws.place(size) {
        let (from, to) = (draws.place(size), draws.place(size));
        if from != to {
            add(from, draws.sign(50), to);
        }
    }
    arrows
}

type Rows = Vec<Vec<i128>>;

/// Coefficients of det(s − A) from the highest power on, and the adjugate of −A (Faddeev and `LeVerrier`, in whole numbers).
fn characteristic(a: &Rows) -> (Vec<i128>, Rows) {
    let size = a.len();
    let one = |row: usize, column: usize| i128::from(row == column);
    let mut coefficients = vec![1];
    let mut b: Rows = (0..size).map(|row| (0..size).map(|column| one(row, column)).collect()).collect();
    loop {
        let product: Rows = (0..size)
            .map(|row| (0..size).map(|column| (0..size).map(|k| a[row][k] * b[k][column]).sum()).collect())
            .collect();
        let trace: i128 = (0..size).map(|place| product[place][place]).sum();
        let next = -trace / i128::try_from(coefficients.len()).unwrap();
        coefficients.push(next);
        if coefficients.len() > size {
            return (coefficients, b);
        }
        b = (0..size)
            .map(|row| (0..size).map(|column| product[row][column] + next * one(row, column)).collect())
            .collect();
    }
}

fn divisor(a: i128, b: i128) -> i128 {
    if b == 0 { a.abs() } else { divisor(b, a % b) }
}

/// Routh's test without fractions; `None` where the numbers grow too large.
fn stable(coefficients: &[i128]) -> Option<bool> {
    if coefficients.iter().any(|c| *c <= 0) {
        return Some(false);
    }
    let every_second = |skip: usize| coefficients.iter().skip(skip).step_by(2).copied().collect::<Vec<i128>>();
    let (mut upper, mut lower) = (every_second(0), every_second(1));
    while let Some(&head) = lower.first() {
        if head <= 0 {
            return Some(false);
        }
        let mut next = Vec::new();
        for k in 1..upper.len() {
            let right = lower.get(k).copied().unwrap_or(0);
            next.push(head.checked_mul(upper[k])?.checked_sub(upper[0].checked_mul(right)?)?);
        }
        let common = next.iter().fold(0, |d, x| divisor(d, *x)).max(1);
        (upper, lower) = (lower, next.iter().map(|x| x / common).collect());
    }
    Some(true)
}

/// Answers given that some stable magnitudes were set against, and how many were wrong.
fn confront(size: usize, arrows: &[Arrow], draws: &mut Draws, rounds: u64) -> (u64, Vec<String>) {
    let given = answers(size, arrows);
    let (mut compared, mut wrong) = (0, Vec::new());
    for round in 0..rounds {
        let mut a = vec![vec![0; size]; size];
        let held = |thing: usize| !arrows.iter().any(|(_, _, to)| *to == thing);
        for thing in (0..size).filter(|thing| held(*thing)) {
            a[thing][thing] = -1;
        }
        for &(from, sign, to) in arrows {
            // Spread out, small numbers being as likely as large ones.
            let size = 1 + i128::from(draws.below(1 << (1 + round % 6)));
            a[to][from] = if sign == Plus { size } else { -size };
        }
        let (coefficients, adjugate) = characteristic(&a);
        if stable(&coefficients) != Some(true) {
            continue;
        }
        for (source, row) in given.iter().enumerate() {
            for (target, answer) in row.iter().enumerate().filter(|(_, answer)| **answer != "?") {
                compared += 1;
                let truth = match adjugate[target][source].signum() {
                    1 => "+",
                    0 => "0",
                    _ => "-",
                };
                if truth != *answer {
                    wrong.push(format!("{source}>{target} said {answer}, is {truth}: {arrows:?}, {a:?}"));
                }
            }
        }
    }
    (compared, wrong)
}

#[test]
fn no_answer_is_wrong_for_any_stable_magnitudes_tried() {
    let mut compared = 0;
    for seed in 0..3_000 {
        let mut draws = Draws(seed);
        let size = 2 + draws.place(5);
        let limited = [40, 70, 100][draws.place(3)];
        let feeding = [0, 30][draws.place(2)];
        let arrows = web(&mut draws, size, limited, feeding);
        let (some, wrong) = confront(size, &arrows, &mut draws, 40);
        assert!(wrong.is_empty(), "seed {seed}: {wrong:?}");
        compared += some;
    }
    assert!(compared > 300_000, "only {compared} answers met a stable community");
}

/// Whether turning round what "more" of one thing means turns its responses round and no others.
fn turned(size: usize, arrows: &[Arrow], thing: usize) -> (Vec<Vec<&'static str>>, Vec<Vec<&'static str>>) {
    let flip = |place: usize| if place == thing { Minus } else { Plus };
    let other: Vec<Arrow> =
        arrows.iter().map(|&(from, sign, to)| (from, sign.times(flip(from)).times(flip(to)), to)).collect();
    let mut expected = answers(size, arrows);
    for (source, row) in expected.iter_mut().enumerate() {
        for (target, answer) in row.iter_mut().enumerate() {
            if (source == thing) != (target == thing) {
                *answer = match *answer {
                    "+" => "-",
                    "-" => "+",
                    same => same,
                };
            }
        }
    }
    (expected, answers(size, &other))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn answers_do_not_hang_on_the_order_of_things_or_arrows(seed in any::<u64>(), size in 2_usize..8, by in 1_usize..7) {
        // Some things are not held back: of a web that can never come to rest contradictions may be proved, and then nothing
        // is said of it, whichever of them is met first.
        let arrows = web(&mut Draws(seed), size, 60, 30);
        let shifted = |place: usize| (place + by) % size;
        let mut other: Vec<Arrow> = arrows.iter().map(|&(from, sign, to)| (shifted(from), sign, shifted(to))).collect();
        other.reverse();
        let (plain, moved) = (answers(size, &arrows), answers(size, &other));
        for source in 0..size {
            for target in 0..size {
                prop_assert_eq!(plain[source][target], moved[shifted(source)][shifted(target)]);
            }
        }
    }

    #[test]
    fn counting_less_of_a_thing_as_more_turns_its_signs_alone(seed in any::<u64>(), size in 2_usize..8, thing in 0_usize..8) {
        let arrows = web(&mut Draws(seed), size, 60, 30);
        let (expected, found) = turned(size, &arrows, thing % size);
        prop_assert_eq!(expected, found);
    }

    #[test]
    fn turning_every_arrow_round_swaps_source_and_target(seed in any::<u64>(), size in 2_usize..8) {
        // Every thing holds itself back, so that no part fails to settle and none is held from outside.
        let arrows = web(&mut Draws(seed), size, 100, 0);
        let round: Vec<Arrow> = arrows.iter().map(|&(from, sign, to)| (to, sign, from)).collect();
        let (plain, turned) = (answers(size, &arrows), answers(size, &round));
        for source in 0..size {
            for target in 0..size {
                prop_assert_eq!(plain[source][target], turned[target][source]);
            }
        }
    }

    #[test]
    fn any_arrows_at_all_get_an_answer_and_every_refusal_a_reason(
        size in 1_usize..30,
        raw in prop::collection::vec((0_usize..30, any::<bool>(), 0_usize..30), 0..90),
    ) {
        let sign = |plus: bool| if plus { Plus } else { Minus };
        let arrows: Vec<Arrow> = raw.iter().map(|&(f, plus, t)| (f % size, sign(plus), t % size)).collect();
        for response in press_all(&diagram(size, &arrows)).values() {
            if let toehold::reasoning::press::Response::Withheld(reason) = response {
                prop_assert!(!reason.to_string().is_empty());
            }
        }
    }
}
