//! Whole numbers as words: `seven`, `twenty-five`. Higher ones are written in digits.

const ONES: [&str; 19] = [
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// The value of a word in small letters, from one to ninety-nine.
pub fn value(word: &str) -> Option<u32> {
    let place = |words: &[&str], word: &str| words.iter().position(|known| *known == word);
    let simple = |word: &str| {
        let ones = place(&ONES, word).map(|place| place + 1);
        ones.or_else(|| place(&TENS, word).map(|place| 10 * (place + 2)))
    };
    let number = simple(word).or_else(|| {
        let (tens, ones) = word.split_once('-')?;
        let (tens, ones) = (place(&TENS, tens)?, simple(ones).filter(|ones| *ones < 10)?);
        Some(10 * (tens + 2) + ones)
    });
    number.and_then(|number| u32::try_from(number).ok())
}

/// The word of a number from one to nineteen.
pub fn word(number: u32) -> Option<&'static str> {
    ONES.get(usize::try_from(number).ok()?.checked_sub(1)?).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_and_values_belong_together() {
        for number in 1..20 {
            assert_eq!(word(number).and_then(value), Some(number));
        }
        assert_eq!((word(0), word(20)), (None, None));
        assert_eq!((value("twenty"), value("twenty-five"), value("ninety-nine")), (Some(20), Some(25), Some(99)));
        assert_eq!((value("often"), value("two-year"), value("twenty-ten"), value("")), (None, None, None, None));
    }
}
