//! Exact expansion of determinants of signs: how many terms are positive, how many negative.
//!
//! A minor of −A is a sum of products of arrows; no two of its terms are the same product, so terms of one sign cannot
//! cancel and a minor whose terms all have one sign has that sign whatever the magnitudes. The terms are counted, not
//! listed: row by row, over the sets of columns already used, which stay few in a diagram as sparse as a food web.

use crate::reasoning::Sign;

/// What is known of one quantity from signs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Answer {
    /// Nought, whatever the magnitudes.
    Zero,
    /// Of this sign, whatever the magnitudes (in a stable community).
    Sign(Sign),
    /// Not settled.
    Open(Cause),
}

/// Why an answer is not settled; the later ones outrank the earlier.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Cause {
    /// It hangs on an arrow that is given with both signs.
    Unsigned,
    /// Terms of both signs.
    Opposed,
    /// The expansion was too long.
    Unfinished,
}

impl Answer {
    pub(super) const PLUS: Self = Self::Sign(Sign::Plus);

    /// The answer for a product.
    pub(super) fn times(self, other: Self) -> Self {
        match (self, other) {
            (Self::Zero, _) | (_, Self::Zero) => Self::Zero,
            (Self::Open(a), Self::Open(b)) => Self::Open(a.max(b)),
            (Self::Open(cause), Self::Sign(_)) | (Self::Sign(_), Self::Open(cause)) => Self::Open(cause),
            (Self::Sign(a), Self::Sign(b)) => Self::Sign(a.times(b)),
        }
    }

    /// The answer for a sum.
    pub(super) fn plus(self, other: Self) -> Self {
        match (self, other) {
            (Self::Zero, x) | (x, Self::Zero) => x,
            (Self::Open(a), Self::Open(b)) => Self::Open(a.max(b)),
            (Self::Open(cause), Self::Sign(_)) | (Self::Sign(_), Self::Open(cause)) => Self::Open(cause),
            (Self::Sign(a), Self::Sign(b)) if a == b => self,
            (Self::Sign(_), Self::Sign(_)) => Self::Open(Cause::Opposed),
        }
    }
}

impl From<Option<Sign>> for Answer {
    fn from(sign: Option<Sign>) -> Self {
        sign.map_or(Self::Open(Cause::Unsigned), Self::Sign)
    }
}

/// Terms of a sum by sign. Counts stop at the largest number rather than wrap.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Tally {
    /// Positive terms.
    pub plus: u64,
    /// Negative terms.
    pub minus: u64,
    /// Terms that hold an arrow of unknown sign.
    pub unsigned: u64,
}

impl Tally {
    const ONE: Self = Self { plus: 1, minus: 0, unsigned: 0 };

    pub(super) fn answer(self) -> Answer {
        match (self.plus > 0, self.minus > 0, self.unsigned > 0) {
            (true, true, _) => Answer::Open(Cause::Opposed),
            (_, _, true) => Answer::Open(Cause::Unsigned),
            (true, false, false) => Answer::Sign(Sign::Plus),
            (false, true, false) => Answer::Sign(Sign::Minus),
            (false, false, false) => Answer::Zero,
        }
    }

    fn times(self, sign: Option<Sign>, odd: bool) -> Self {
        let Some(sign) = sign else {
            let unsigned = self.plus.saturating_add(self.minus).saturating_add(self.unsigned);
            return Self { plus: 0, minus: 0, unsigned };
        };
        if (sign == Sign::Minus) == odd { self } else { Self { plus: self.minus, minus: self.plus, ..self } }
    }

    fn add(&mut self, other: Self) {
        self.plus = self.plus.saturating_add(other.plus);
        self.minus = self.minus.saturating_add(other.minus);
        self.unsigned = self.unsigned.saturating_add(other.unsigned);
    }
}

/// How much work is left, in partial products looked at: the same on every machine.
#[derive(Debug, Clone, Copy)]
pub(super) struct Budget {
    left: u64,
}

impl Budget {
    pub(super) const fn new(left: u64) -> Self {
        Self { left }
    }

    /// Takes `amount`; `None` once nothing is left.
    pub(super) fn spend(&mut self, amount: usize) -> Option<()> {
        let amount = u64::try_from(amount).unwrap_or(u64::MAX);
        let left = self.left.checked_sub(amount);
        self.left = left.unwrap_or(0);
        left.map(|_| ())
    }
}

/// The signs of −A of one strongly connected part, row by row: row = the thing affected, column = the one that affects.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(super) struct Matrix {
    rows: Vec<Vec<(usize, Option<Sign>)>>,
    /// For each column the set of rows in which it has an entry.
    columns: Vec<u64>,
}

/// The set that holds one place.
pub(super) fn only(place: usize) -> u64 {
    u32::try_from(place).ok().and_then(|place| 1_u64.checked_shl(place)).unwrap_or(0)
}

fn odd_above(used: u64, column: usize) -> bool {
    let above = u32::try_from(column).ok().and_then(|column| used.checked_shr(column)).unwrap_or(0);
    above.count_ones() % 2 == 1
}

/// The most partial sums of one minor that are held at once, at the first try and at the second.
const NARROW: usize = 64;
const WIDE: usize = 200_000;

impl Matrix {
    /// The largest number of rows: sets of columns are bits of one word.
    pub(super) const LARGEST: usize = 63;

    /// From effects (from, to, sign) between places below `size`: the sign of each entry of −A is the effect's, flipped.
    pub(super) fn new(size: usize, effects: &[(usize, usize, Option<Sign>)]) -> Self {
        let mut matrix = Self { rows: vec![Vec::new(); size], columns: vec![0; size] };
        for &(from, to, sign) in effects {
            if let (Some(row), Some(column)) = (matrix.rows.get_mut(to), matrix.columns.get_mut(from)) {
                row.push((from, sign.map(Sign::flipped)));
                *column |= only(to);
            }
        }
        matrix
    }

    pub(super) fn size(&self) -> usize {
        self.rows.len()
    }

    /// The entries of a row as (column, sign).
    pub(super) fn row(&self, row: usize) -> &[(usize, Option<Sign>)] {
        self.rows.get(row).map_or(&[], Vec::as_slice)
    }

    /// The terms of the minor that is left without these rows and columns (as many of one as of the other). Once terms of
    /// both signs are found the rest need not be counted.
    pub(super) fn minor(&self, without_rows: u64, without_columns: u64, budget: &mut Budget) -> Option<Tally> {
        let (some, whole) = self.expand(without_rows, without_columns, NARROW, budget)?;
        if whole || some.answer() == Answer::Open(Cause::Opposed) {
            return Some(some);
        }
        let (all, whole) = self.expand(without_rows, without_columns, WIDE, budget)?;
        (whole || all.answer() == Answer::Open(Cause::Opposed)).then_some(all)
    }

    /// Terms of the minor, holding at most `width` partial sums at once, and whether these are all its terms.
    fn expand(&self, rows: u64, columns: u64, width: usize, budget: &mut Budget) -> Option<(Tally, bool)> {
        let mut states = vec![(0_u64, Tally::ONE)];
        let mut whole = true;
        for (place, row) in self.rows.iter().enumerate() {
            if rows & only(place) != 0 {
                continue;
            }
            let due = self.due(place, rows) & !columns;
            let mut next = Vec::new();
            for (used, tally) in &states {
                for &(column, sign) in row {
                    let now = used | only(column);
                    if (used | columns) & only(column) == 0 && due & !now == 0 {
                        next.push((now, tally.times(sign, odd_above(*used, column))));
                    }
                }
            }
            budget.spend(next.len() + 1)?;
            states = merge(next);
            if states.len() > width {
                whole = false;
                // Partial sums that hold both signs already are the likeliest to show that terms disagree.
                states.sort_by_key(|(_, tally)| tally.plus == 0 || tally.minus == 0);
                states.truncate(width);
            }
        }
        Some((states.first().map_or(Tally::default(), |(_, tally)| *tally), whole))
    }

    /// Columns that no kept row below this one can fill any more.
    fn due(&self, row: usize, without_rows: u64) -> u64 {
        let later = !without_rows & !(only(row) | (only(row).wrapping_sub(1)));
        let closed = |(_, rows): &(usize, &u64)| *rows & later == 0;
        self.columns.iter().enumerate().filter(closed).fold(0, |set, (column, _)| set | only(column))
    }

    /// For each k from 1 to the size, whether the sum of the principal minors of k things can be positive at all.
    /// Each of these sums is a coefficient of the characteristic polynomial, and all are positive in a stable community.
    pub(super) fn can_settle(&self, budget: &mut Budget) -> Option<bool> {
        if (0..self.size()).all(|place| self.row(place).contains(&(place, Some(Sign::Plus)))) {
            return Some(true);
        }
        let mut states = vec![((0_u64, 0_usize), Tally::ONE)];
        for (place, row) in self.rows.iter().enumerate() {
            // The row left out takes its own column, so columns further on may yet be filled there.
            let due = self.due(place, 0) & (only(place) | only(place).wrapping_sub(1));
            let mut next = Vec::new();
            for ((used, order), tally) in &states {
                let left_out = (place, Some(Sign::Plus), 0);
                for (column, sign, step) in row.iter().map(|&(column, sign)| (column, sign, 1)).chain([left_out]) {
                    let now = used | only(column);
                    if used & only(column) == 0 && due & !now == 0 {
                        next.push(((now, order + step), tally.times(sign, odd_above(*used, column))));
                    }
                }
            }
            budget.spend(next.len() + 1)?;
            states = merge(next);
            if states.len() > WIDE {
                return None;
            }
        }
        let positive =
            |order: usize| states.iter().any(|((_, k), tally)| *k == order && (tally.plus > 0 || tally.unsigned > 0));
        Some((1..=self.size()).all(positive))
    }
}

/// Adds up the tallies of equal keys; the result is in the order of the keys.
fn merge<K: Ord + Copy>(mut states: Vec<(K, Tally)>) -> Vec<(K, Tally)> {
    states.sort_unstable_by_key(|(key, _)| *key);
    let mut merged: Vec<(K, Tally)> = Vec::with_capacity(states.len());
    for (key, tally) in states {
        match merged.last_mut() {
            Some((last, sum)) if *last == key => sum.add(tally),
            _ => merged.push((key, tally)),
        }
    }
    merged
}
