//! Replays the steps by which `balance` settled responses. A small checker that shares no code with the engine.
//!
//! Each step says: this response has this sign, by this equation. The checker writes the equation out itself, puts nought
//! and then the opposite sign in place of the response, and sees that every term that is left then pulls one way: such a sum
//! cannot be nought, so the step is right. Signs that the step rests on are those of earlier steps, or else are worked out
//! here by plain Laplace expansion.

use std::collections::BTreeMap;

use super::balance::{Equation, Step};
use crate::reasoning::Sign;

/// −1, 0 or 1.
type Unit = i8;

/// Whether every step holds for the part with these effects (from, to, sign) among `size` things. Also `false` where the
/// check would take too long.
pub(super) fn replay(size: usize, effects: &[(usize, usize, Option<Sign>)], steps: &[Step]) -> bool {
    let entries = effects.iter().map(|&(from, to, sign)| ((to, from), sign.map(|sign| -unit(sign)))).collect();
    let mut checker = Checker { size, entries, proved: BTreeMap::new(), left: WORK };
    steps.iter().all(|step| checker.accept(*step).is_some())
}

/// Products that one replay may look at.
const WORK: u64 = 3_000_000;

fn unit(sign: Sign) -> Unit {
    match sign {
        Sign::Plus => 1,
        Sign::Minus => -1,
    }
}

struct Checker {
    size: usize,
    /// Entries of −A by (row, column); `None` is an entry of unknown sign.
    entries: BTreeMap<(usize, usize), Option<Unit>>,
    proved: BTreeMap<(usize, usize), Unit>,
    left: u64,
}

impl Checker {
    fn accept(&mut self, step: Step) -> Option<()> {
        for supposed in [0, -unit(step.sign)] {
            let terms = self.terms(step, supposed)?;
            let one_way = terms.iter().all(|term| *term >= 0) || terms.iter().all(|term| *term <= 0);
            if !one_way || terms.iter().all(|term| *term == 0) {
                return None;
            }
        }
        self.proved.insert(step.cell, unit(step.sign));
        Some(())
    }

    /// The signs of the terms of the step's equation when its response is supposed to be `supposed`.
    fn terms(&mut self, step: Step, supposed: Unit) -> Option<Vec<Unit>> {
        let mut terms = Vec::new();
        let response = |checker: &mut Self, row, column| checker.response((row, column), step.cell, supposed);
        match step.by {
            Equation::On { on, pushed } => {
                terms.push(Unit::from(on == pushed));
                for by in 0..self.size {
                    let Some(&entry) = self.entries.get(&(on, by)) else { continue };
                    let caused = response(self, by, pushed);
                    terms.push(-times(entry, caused)?);
                }
            }
            Equation::Of { of, seen } => {
                terms.push(Unit::from(of == seen));
                for to in 0..self.size {
                    let Some(&entry) = self.entries.get(&(to, of)) else { continue };
                    let caused = response(self, seen, to);
                    terms.push(-times(entry, caused)?);
                }
            }
            Equation::Minor { respond: (c, d), pushed: (a, b) } => {
                let straight = (response(self, c, a), response(self, d, b));
                let crossed = (response(self, c, b), response(self, d, a));
                terms.push(times(straight.0, straight.1)?);
                terms.push(-times(crossed.0, crossed.1)?);
                terms.push(-self.minor(&[a, b], &[c, d])?);
            }
            Equation::Diagonal => {
                terms.push(-1);
                for place in 0..self.size {
                    terms.push(response(self, place, place)?);
                }
            }
        }
        Some(terms)
    }

    fn response(&mut self, cell: (usize, usize), asked: (usize, usize), supposed: Unit) -> Option<Unit> {
        if cell == asked {
            return Some(supposed);
        }
        if let Some(&sign) = self.proved.get(&cell) {
            return Some(sign);
        }
        let (responding, pushed) = cell;
        self.minor(&[pushed], &[responding])
    }

    /// The sign of the minor of −A without these rows and columns, with its place's sign; `None` where it has none.
    fn minor(&mut self, without_rows: &[usize], without_columns: &[usize]) -> Option<Unit> {
        let keep = |without: &[usize]| (0..self.size).filter(|place| !without.contains(place)).collect::<Vec<_>>();
        let (rows, columns) = (keep(without_rows), keep(without_columns));
        let places: usize = without_rows.iter().chain(without_columns).sum();
        let signs = self.expand(&rows, &columns)?;
        let sign = match signs {
            (false, false) => 0,
            (true, false) => 1,
            (false, true) => -1,
            (true, true) => return None,
        };
        Some(if places.is_multiple_of(2) { sign } else { -sign })
    }

    /// Whether the determinant of these rows and columns has positive terms, and negative ones.
    fn expand(&mut self, rows: &[usize], columns: &[usize]) -> Option<(bool, bool)> {
        let Some((row, below)) = rows.split_first() else { return Some((true, false)) };
        self.left = self.left.checked_sub(1)?;
        let mut signs = (false, false);
        for (place, column) in columns.iter().enumerate() {
            let Some(&entry) = self.entries.get(&(*row, *column)) else { continue };
            let others: Vec<usize> = columns.iter().filter(|other| *other != column).copied().collect();
            let (plus, minus) = self.expand(below, &others)?;
            if !plus && !minus {
                continue;
            }
            let turned = (entry? < 0) != (place % 2 == 1);
            let (plus, minus) = if turned { (minus, plus) } else { (plus, minus) };
            signs = (signs.0 || plus, signs.1 || minus);
        }
        Some(signs)
    }
}

/// A product, nought if either factor is, and otherwise without a sign if either has none.
fn times(a: Option<Unit>, b: Option<Unit>) -> Option<Unit> {
    match (a, b) {
        (Some(0), _) | (_, Some(0)) => Some(0),
        (Some(a), Some(b)) => Some(a * b),
        _ => None,
    }
}
