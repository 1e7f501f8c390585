//! Support of the scaffold, and how it fades with success.
//!
//! Source: worked examples that fade into problems, step by step (Renkl & Atkinson 2003, Educational Psychologist 38:15-22,
//! doi `10.1207/S15326985EP3801_3`). The thresholds are common practice, no source.

/// How much of the way is shown, most first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Support {
    /// Each question of each step, with its answer as soon as one was written.
    Full,
    /// The principle is asked for; what plays its part here is told; the step is to be completed.
    Completion,
    /// The questions only; answers come after the prediction.
    Prompts,
    /// Straight to the prediction.
    None,
}

/// Levels in order.
const LEVELS: [Support; 4] = [Support::Full, Support::Completion, Support::Prompts, Support::None];

/// Directions right in a row after which a step has one level less.
const ROW: usize = 2;

impl Support {
    /// As written.
    pub fn word(self) -> &'static str {
        match self {
            Self::Full => "full",
            Self::Completion => "completion",
            Self::Prompts => "prompts",
            Self::None => "none",
        }
    }

    /// From the word.
    pub fn find(word: &str) -> Option<Self> {
        LEVELS.into_iter().find(|level| level.word() == word)
    }

    fn less(self) -> Self {
        match self {
            Self::Full => Self::Completion,
            Self::Completion => Self::Prompts,
            Self::Prompts | Self::None => Self::None,
        }
    }

    fn more(self) -> Self {
        match self {
            Self::Full | Self::Completion => Self::Full,
            Self::Prompts => Self::Completion,
            Self::None => Self::Prompts,
        }
    }

    /// Support for the next step of a scenario that began at this level, after these directions: one level less after two
    /// right in a row, one more after a wrong one. Within a scenario the questions never vanish, and a scenario that began
    /// without steps has none.
    #[must_use]
    pub fn after(self, directions: &[bool]) -> Self {
        let mut level = self;
        let mut row = 0;
        for right in directions {
            row = if *right { row + 1 } else { 0 };
            if !right {
                level = level.more();
            } else if row == ROW {
                row = 0;
                level = if level.less() == Self::None { level } else { level.less() };
            }
        }
        level
    }

    /// Support at the beginning of the next scenario: one level less after one in which the prediction and all directions
    /// were right and at least 70 % of the points were earned, one more where less than 40 % were or the prediction was
    /// wrong.
    #[must_use]
    pub fn next(self, directions: &[bool], prediction: bool, (earned, of): (u32, u32)) -> Self {
        let (earned, of) = (u64::from(earned), u64::from(of));
        if !prediction || 10 * earned < 4 * of {
            self.more()
        } else if directions.iter().all(|right| *right) && 10 * earned >= 7 * of {
            self.less()
        } else {
            self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn support_fades_within_a_scenario_and_comes_back() {
        let full = Support::Full;
        for (directions, then) in [
            (&[][..], Support::Full),
            (&[true], Support::Full),
            (&[true, true], Support::Completion),
            (&[true, true, true, true], Support::Prompts),
            (&[true, true, true, true, true, true], Support::Prompts),
            (&[true, true, false], Support::Full),
            (&[true, false, true], Support::Full),
        ] {
            assert_eq!(full.after(directions), then, "{directions:?}");
        }
    }

    #[test]
    fn support_fades_from_one_scenario_to_the_next() {
        for (from, directions, prediction, points, then) in [
            (Support::Full, &[true, true][..], true, (4, 4), Support::Completion),
            (Support::Prompts, &[true], true, (7, 10), Support::None),
            (Support::Prompts, &[true], true, (6, 10), Support::Prompts),
            (Support::Prompts, &[false], true, (10, 10), Support::Prompts),
            (Support::None, &[], false, (10, 10), Support::Prompts),
            (Support::Completion, &[true], true, (1, 4), Support::Full),
        ] {
            assert_eq!(from.next(directions, prediction, points), then, "{from:?} {directions:?} {points:?}");
        }
    }
}
