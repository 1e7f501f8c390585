//! Long lines folded between words. **Must not know**: what they say, where they are shown.

/// A line as several, none of more characters than `width` unless a word of its own is; those after the first are indented
/// by so many spaces. Spaces within a line stay.
pub fn folded(line: &str, width: usize, indent: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in line.split(' ') {
        match lines.last_mut() {
            // What holds no word yet is a line's own indentation.
            Some(last)
                if word.is_empty()
                    || last.trim_start().is_empty()
                    || last.chars().count() + 1 + word.chars().count() <= width =>
            {
                last.push(' ');
                last.push_str(word);
            }
            Some(last) => {
                last.truncate(last.trim_end().len());
                lines.push(format!("{:indent$}{word}", ""));
            }
            None => lines.push(word.to_owned()),
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(line: &str, indent: usize, expected: &[&str]) {
        assert_eq!(folded(line, 10, indent), expected);
    }

    #[test]
    fn lines_end_between_words() {
        case("", 0, &[""]);
        case("one two th", 0, &["one two th"]);
        case("one two three four", 0, &["one two", "three four"]);
        case("one two three four", 2, &["one two", "  three", "  four"]);
        case("  a  bbbb  ccc", 4, &["  a  bbbb", "    ccc"]);
        case("  unbreakable word", 0, &["  unbreakable", "word"]);
        case("ends   ", 0, &["ends   "]);
    }
}
