//! Lints of running text, one a file.

pub(super) mod broken_sentence;
pub(super) mod dangling_opening;
pub(super) mod explained;
pub(super) mod false_precision;
pub(super) mod giveaway;
pub(super) mod missing_unit;
pub(super) mod mixed_tense;
pub(super) mod placeholder;
pub(super) mod reading_ease;
pub(super) mod reading_load;
pub(super) mod repeated_word;
pub(super) mod same_opening;
pub(super) mod stray_space;
pub(super) mod two_names;
pub(super) mod unbalanced;
pub(super) mod unintroduced;
pub(super) mod wrong_article;
