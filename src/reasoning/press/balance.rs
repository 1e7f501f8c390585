//! Settles responses that terms alone leave open, by equations that the responses of a stable community obey.
//!
//! Let N be the inverse of −A for one strongly connected part of a stable community: N at (j, i) is the response of j to a
//! lasting push on i. The part is stable by itself (A is block-triangular), so det(−A) > 0 and:
//!
//! - A·N = −1 and N·A = −1 (at rest the effects on each thing cancel; only on the pushed one they cancel the push);
//! - N(c,a)·N(d,b) − N(c,b)·N(d,a) is the minor of −A without rows a, b and columns c, d, over det(−A), times
//!   (−1)^(a+b+c+d) (Jacobi's theorem on complementary minors);
//! - the diagonal of N adds up to more than nought (the last but one coefficient of the characteristic polynomial over the
//!   last).
//!
//! Each is a sum of products that is nought. Where all its terms but one have signs, and those agree, the last term has the
//! other sign. Every conclusion is noted as a [`Step`] that `verify` replays.
//!
//! # Source
//! Jacobi's theorem: Horn & Johnson, *Matrix Analysis*, section 0.8.4 (from memory).

use std::collections::BTreeMap;

use super::terms::{Answer, Budget, Cause, Matrix, only};
use crate::reasoning::Sign;

/// One equation between responses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Equation {
    /// The effects on `on`, when `pushed` is pushed, cancel.
    On {
        /// The thing at rest.
        on: usize,
        /// The thing pushed.
        pushed: usize,
    },
    /// The effects of `of`, weighted by what their targets do to `seen`, cancel.
    Of {
        /// The thing whose effects are followed.
        of: usize,
        /// The thing that responds.
        seen: usize,
    },
    /// Jacobi's theorem for two things that respond and two that are pushed.
    Minor {
        /// Rows of N, rising.
        respond: (usize, usize),
        /// Columns of N, rising.
        pushed: (usize, usize),
    },
    /// The responses of all things to a push on themselves add up to more than nought.
    Diagonal,
}

/// One conclusion: this response has this sign by this equation, given what was known before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Step {
    /// Which response: (responding, pushed).
    pub cell: (usize, usize),
    /// What is concluded.
    pub sign: Sign,
    /// By what.
    pub by: Equation,
}

/// Responses within one part, by (responding, pushed).
pub(super) type Table = BTreeMap<(usize, usize), Answer>;

/// What the terms alone say of every response of the part.
pub(super) fn by_terms(matrix: &Matrix, budget: &mut Budget) -> Table {
    let size = matrix.size();
    let mut table = Table::new();
    for pushed in 0..size {
        for responding in 0..size {
            let tally = matrix.minor(only(pushed), only(responding), budget);
            let place = Answer::Sign(if (pushed + responding) % 2 == 0 { Sign::Plus } else { Sign::Minus });
            let answer = tally.map_or(Answer::Open(Cause::Unfinished), |tally| tally.answer().times(place));
            table.insert((responding, pushed), answer);
        }
    }
    table
}

/// Adds to the table whatever the equations settle, until nothing more follows; returns the steps in order.
pub(super) fn settle(matrix: &Matrix, table: &mut Table, budget: &mut Budget) -> Vec<Step> {
    let mut ledger = Ledger { matrix, minors: BTreeMap::new(), steps: Vec::new() };
    let places = || 0..matrix.size();
    let mut rows = vec![Equation::Diagonal];
    for a in places() {
        rows.extend(places().map(|b| Equation::On { on: a, pushed: b }));
        rows.extend(places().map(|b| Equation::Of { of: a, seen: b }));
    }
    loop {
        if !has_open(table) {
            break;
        }
        let before = ledger.steps.len();
        for &equation in &rows {
            ledger.conclude(equation, table, budget);
        }
        if ledger.steps.len() == before {
            for equation in minors_at_open(matrix.size(), table) {
                ledger.conclude(equation, table, budget);
            }
        }
        if ledger.steps.len() == before {
            break;
        }
    }
    ledger.steps
}

/// Whether the signs found break one of the equations: then no community with these signs is stable, and what was concluded
/// of one tells nothing.
pub(super) fn is_at_odds(matrix: &Matrix, table: &Table, budget: &mut Budget) -> bool {
    let mut ledger = Ledger { matrix, minors: BTreeMap::new(), steps: Vec::new() };
    let size = matrix.size();
    let pairs = || (0..size).flat_map(|a| (0..size).map(move |b| (a, b)));
    let mut equations = vec![Equation::Diagonal];
    equations.extend(pairs().map(|(a, b)| Equation::On { on: a, pushed: b }));
    equations.extend(pairs().map(|(a, b)| Equation::Of { of: a, seen: b }));
    if equations.iter().any(|equation| is_broken(&ledger.responses(*equation), table)) {
        return true;
    }
    let rising = || pairs().filter(|(a, b)| a < b);
    rising().any(|respond| {
        rising().any(|pushed| {
            let equation = Equation::Minor { respond, pushed };
            let mut terms = ledger.responses(equation);
            // The minor costs: it is worked out only where the rest is known.
            if matches!(sum(&terms, table), None | Some(Answer::Open(_))) {
                return false;
            }
            terms.push((ledger.minor(respond, pushed, budget).times(Answer::Sign(Sign::Minus)), Vec::new()));
            is_broken(&terms, table)
        })
    })
}

/// Whether terms that should add up to nought cannot.
fn is_broken(terms: &[Term], table: &Table) -> bool {
    matches!(sum(terms, table), Some(Answer::Sign(_)))
}

/// The sum of an equation's terms; none where a response in it is not in the table.
fn sum(terms: &[Term], table: &Table) -> Option<Answer> {
    terms.iter().try_fold(Answer::Zero, |sum, (factor, cells)| {
        let term = cells.iter().try_fold(*factor, |product, cell| Some(product.times(*table.get(cell)?)))?;
        Some(sum.plus(term))
    })
}

fn has_open(table: &Table) -> bool {
    table.values().any(|answer| matches!(answer, Answer::Open(_)))
}

fn rising(a: usize, b: usize) -> (usize, usize) {
    (a.min(b), a.max(b))
}

/// Jacobi's equations in which an open response meets a settled one across.
fn minors_at_open(size: usize, table: &Table) -> Vec<Equation> {
    let mut equations = Vec::new();
    for (&(c, a), _) in table.iter().filter(|(_, answer)| matches!(answer, Answer::Open(_))) {
        for d in (0..size).filter(|d| *d != c) {
            for b in (0..size).filter(|b| *b != a) {
                if matches!(table.get(&(d, b)), Some(Answer::Sign(_))) {
                    equations.push(Equation::Minor { respond: rising(c, d), pushed: rising(a, b) });
                }
            }
        }
    }
    equations
}

/// One term of an equation: a known factor times responses.
type Term = (Answer, Vec<(usize, usize)>);

struct Ledger<'a> {
    matrix: &'a Matrix,
    minors: BTreeMap<(u64, u64), Answer>,
    steps: Vec<Step>,
}

impl Ledger<'_> {
    fn conclude(&mut self, by: Equation, table: &mut Table, budget: &mut Budget) {
        let mut terms = self.responses(by);
        let Some(mut found) = solve(&terms, table) else { return };
        if let Equation::Minor { respond, pushed } = by {
            // Only now is the minor worth its cost: with it the equation could settle something.
            terms.push((self.minor(respond, pushed, budget).times(Answer::Sign(Sign::Minus)), Vec::new()));
            let Some(whole) = solve(&terms, table) else { return };
            found = whole;
        }
        if let Found { cell, sign: Some(sign) } = found {
            table.insert(cell, Answer::Sign(sign));
            self.steps.push(Step { cell, sign, by });
        }
    }

    /// The equation's terms (for Jacobi's, without the minor).
    fn responses(&self, equation: Equation) -> Vec<Term> {
        let own = |same: bool| same.then_some((Answer::PLUS, Vec::new()));
        let effect = |sign: Option<Sign>| Answer::from(sign.map(Sign::flipped));
        match equation {
            Equation::On { on, pushed } => {
                let effects = self.matrix.row(on).iter().map(|&(by, sign)| (effect(sign), vec![(by, pushed)]));
                effects.chain(own(on == pushed)).collect()
            }
            Equation::Of { of, seen } => {
                let targets = (0..self.matrix.size()).flat_map(|to| {
                    let entries = self.matrix.row(to).iter().filter(move |(from, _)| *from == of);
                    entries.map(move |&(_, sign)| (effect(sign), vec![(seen, to)]))
                });
                targets.chain(own(of == seen)).collect()
            }
            Equation::Minor { respond: (c, d), pushed: (a, b) } => {
                vec![(Answer::PLUS, vec![(c, a), (d, b)]), (Answer::Sign(Sign::Minus), vec![(c, b), (d, a)])]
            }
            Equation::Diagonal => {
                let own = (0..self.matrix.size()).map(|place| (Answer::PLUS, vec![(place, place)]));
                own.chain([(Answer::Sign(Sign::Minus), Vec::new())]).collect()
            }
        }
    }

    /// The sign of N(c,a)·N(d,b) − N(c,b)·N(d,a) by the terms of the complementary minor of −A.
    fn minor(&mut self, (c, d): (usize, usize), (a, b): (usize, usize), budget: &mut Budget) -> Answer {
        let (rows, columns) = (only(a) | only(b), only(c) | only(d));
        let matrix = self.matrix;
        *self.minors.entry((rows, columns)).or_insert_with(|| {
            let place = Answer::Sign(if (a + b + c + d) % 2 == 0 { Sign::Plus } else { Sign::Minus });
            let tally = matrix.minor(rows, columns, budget);
            tally.map_or(Answer::Open(Cause::Unfinished), |tally| tally.answer().times(place))
        })
    }
}

/// The one open response of an equation, and its sign where the other terms settle it.
struct Found {
    cell: (usize, usize),
    sign: Option<Sign>,
}

/// Solves "the terms add up to nought" for the one open response in it. `None` where there is not exactly one, or where the
/// other terms pull both ways.
fn solve(terms: &[Term], table: &Table) -> Option<Found> {
    let mut open = None;
    let mut rest = Answer::Zero;
    for (factor, cells) in terms {
        let mut known = *factor;
        let mut unknown = None;
        for cell in cells {
            match table.get(cell)? {
                Answer::Open(_) if unknown.is_some() => return None,
                Answer::Open(_) => unknown = Some(*cell),
                answer => known = known.times(*answer),
            }
        }
        match (known, unknown) {
            (Answer::Zero, _) => {}
            (Answer::Sign(sign), Some(cell)) if open.is_none() => open = Some((sign, cell)),
            (Answer::Sign(_), None) => rest = rest.plus(known),
            _ => return None,
        }
    }
    let (factor, cell) = open?;
    match rest {
        Answer::Zero => Some(Found { cell, sign: None }),
        Answer::Sign(sign) => Some(Found { cell, sign: Some(sign.flipped().times(factor)) }),
        Answer::Open(_) => None,
    }
}
