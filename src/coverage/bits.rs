//! A set of small numbers: principles by their place.

/// A set of numbers from 0.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Bits {
    // INVARIANT: the last word, if any, is not 0, so that equal sets are equal values.
    words: Vec<u64>,
}

impl Bits {
    /// All numbers below `n`.
    pub fn all(n: usize) -> Self {
        (0..n).collect()
    }

    /// Adds a number.
    pub fn insert(&mut self, number: usize) {
        let place = number / 64;
        if self.words.len() <= place {
            self.words.resize(place + 1, 0);
        }
        if let Some(word) = self.words.get_mut(place) {
            *word |= 1 << (number % 64);
        }
    }

    /// Whether it holds a number.
    pub fn contains(&self, number: usize) -> bool {
        self.words.get(number / 64).is_some_and(|word| word >> (number % 64) & 1 == 1)
    }

    /// How many numbers it holds.
    pub fn len(&self) -> usize {
        self.words.iter().map(|word| word.count_ones() as usize).sum()
    }

    /// Whether it holds none.
    pub fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    /// How many numbers both hold.
    pub fn n_shared(&self, other: &Self) -> usize {
        self.words.iter().zip(&other.words).map(|(one, two)| (one & two).count_ones() as usize).sum()
    }

    /// Whether the other holds all of its numbers.
    pub fn is_subset(&self, other: &Self) -> bool {
        self.words.len() <= other.words.len() && self.words.iter().zip(&other.words).all(|(one, two)| one & !two == 0)
    }

    /// What both hold.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        Self::trimmed(self.words.iter().zip(&other.words).map(|(one, two)| one & two).collect())
    }

    /// What it holds and the other does not.
    #[must_use]
    pub fn without(&self, other: &Self) -> Self {
        let others = other.words.iter().copied().chain(std::iter::repeat(0));
        Self::trimmed(self.words.iter().zip(others).map(|(one, two)| one & !two).collect())
    }

    /// Its numbers, rising.
    pub fn iter(&self) -> impl Iterator<Item = usize> + '_ {
        self.words
            .iter()
            .enumerate()
            .flat_map(|(place, word)| (0..64).filter(move |bit| word >> bit & 1 == 1).map(move |bit| place * 64 + bit))
    }

    fn trimmed(mut words: Vec<u64>) -> Self {
        while words.last() == Some(&0) {
            words.pop();
        }
        Self { words }
    }
}

impl FromIterator<usize> for Bits {
    fn from_iter<T: IntoIterator<Item = usize>>(numbers: T) -> Self {
        let mut bits = Self::default();
        for number in numbers {
            bits.insert(number);
        }
        bits
    }
}

impl Extend<usize> for Bits {
    fn extend<T: IntoIterator<Item = usize>>(&mut self, numbers: T) {
        for number in numbers {
            self.insert(number);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_behave_as_sets() {
        let one: Bits = [1, 64, 130].into_iter().collect();
        let two: Bits = [1, 130].into_iter().collect();
        assert_eq!(one.iter().collect::<Vec<_>>(), [1, 64, 130]);
        assert!(two.is_subset(&one) && !one.is_subset(&two));
        assert_eq!(one.without(&two).iter().collect::<Vec<_>>(), [64]);
        assert_eq!(one.and(&two), two);
        assert_eq!(one.n_shared(&two), 2);
        assert!(two.without(&one).is_empty() && two.len() == 2);
        assert!(Bits::default().is_subset(&two) && !two.contains(500));
    }
}
