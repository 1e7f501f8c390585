//! Command terms of a text, and the skill that each calls on.

use super::Item;

/// Command terms with the skill that they call on, as the questions of this program use them.
const TERMS: &[(&str, &str)] = &[
    ("calculate", "mathematical routines"),
    ("compare", "explaining concepts"),
    ("construct", "representing data"),
    ("describe", "explaining concepts"),
    ("design", "designing investigations"),
    ("determine", "analysing methods"),
    ("draw", "representing data"),
    ("estimate", "representing data"),
    ("evaluate", "statistical tests and data analysis"),
    ("explain", "explaining concepts"),
    ("identify", "analysing methods"),
    ("justify", "argumentation"),
    ("plot", "representing data"),
    ("predict", "argumentation"),
    ("propose", "designing investigations"),
    ("state", "explaining concepts"),
    ("suggest", "argumentation"),
    ("support", "argumentation"),
];

/// The skill that a command term calls on; a pair of terms (`predict and justify`) has that of its first.
pub fn skill(term: &str) -> Option<&'static str> {
    let first = term.split_whitespace().next().unwrap_or_default();
    TERMS.iter().find(|(known, _)| *known == first).map(|(_, skill)| *skill)
}

/// Notes the terms that a stretch of questions asks with: those in `**` first; where there are none, those with which a
/// sentence begins.
pub(super) fn note(item: &mut Item, questions: &str) {
    let marked: Vec<String> = questions.split("**").skip(1).step_by(2).map(|term| term.trim().to_lowercase()).collect();
    let mut terms: Vec<String> = marked.into_iter().filter(|term| skill(term).is_some()).collect();
    if terms.is_empty() {
        let starts = questions.split(['.', '?', '!', '\n', ')', ';']).filter_map(first_word);
        terms = starts.filter(|word| skill(word).is_some()).collect();
    }
    for term in terms {
        if let Some(skill) = skill(&term).filter(|skill| !item.skills.iter().any(|known| known == skill)) {
            item.skills.push(skill.to_owned());
        }
        if !item.command_terms.contains(&term) {
            item.command_terms.push(term);
        }
    }
}

/// The first word of a sentence, marks of lists and of emphasis passed over.
fn first_word(sentence: &str) -> Option<String> {
    let word = sentence.split_whitespace().find(|word| word.chars().filter(|c| c.is_alphabetic()).count() > 1)?;
    Some(word.trim_matches(|c: char| !c.is_alphabetic()).to_lowercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn case(questions: &str, expected: &[&str]) {
        let mut item = Item {
            file: String::new(),
            part: None,
            title: String::new(),
            principles: Vec::new(),
            fields: Vec::new(),
            command_terms: Vec::new(),
            skills: Vec::new(),
            difficulty: None,
        };
        note(&mut item, questions);
        assert_eq!(item.command_terms, expected, "{questions}");
    }

    #[test]
    fn terms_are_found_marked_or_at_the_start() {
        case(
            "(a) **Explain** why it falls. **Predict and justify** what happens.",
            &["explain", "predict and justify"],
        );
        case("1. Calculate the rate. (b) Explain why.", &["calculate", "explain"]);
        case("The explanation may state what is so.", &[]);
        case("**Note** that explain is a word.", &[]);
    }
}
