//! Proof: does an edited scenario file still say what follows from its front matter?
//!
//! Comes in: a file, what makes scenarios, the templates. Goes out: every number, unit, sign, direction and point total
//! that no longer agrees, and every row, question, step or section that is gone, each with its place.
//! **Must not know**: where the file came from. It works out nothing itself: the scenario is made again from the front
//! matter and rendered, and the two texts are compared fact by fact. Wording is the teacher's own.
//!
//! One check is one file under `check/` and one row of `CHECKS`.

mod alike;
mod check;
mod compare;
mod direction;
mod fact;
mod fit;
mod front;
mod matching;
mod number;
mod page;
mod report;
mod token;
mod unit;

use std::collections::BTreeSet;
use std::ops::Range;

use crate::concepts::unreadable;
use crate::diagnostic::{Diagnostic, Severity, code};
use crate::render::{RenderError, Templates, markdown};
use crate::scenario::{Generator, Scenario};
use crate::source::{FileId, Sources, Span};
use fact::{Fact, Token};
use matching::{Matching, matching};
use page::{Page, Section};

pub use alike::{TOO_ALIKE, too_alike};
pub use front::has_front_matter;

/// Faults shown of one file at most.
const MOST_FAULTS: usize = 60;

/// Finds faults of one kind.
type Check = fn(&Proof<'_>, &mut Vec<Diagnostic>);

/// Every check, in the order of the manual.
const CHECKS: &[Check] = &[
    check::sections::check,
    check::points::check,
    check::prose::check,
    check::data::check,
    check::questions::check,
    check::steps::check,
    check::guide::check,
    check::wording::check,
];

/// A file on the table, and beside it the scenario that its front matter names.
struct Proof<'a> {
    file: FileId,
    text: &'a str,
    page: Page,
    /// Keys of all facts of the page.
    pool: BTreeSet<String>,
    /// None where the front matter does not make a scenario: then the page is checked against itself alone.
    made: Option<Made>,
}

/// The scenario made again.
struct Made {
    scenario: Scenario,
    text: String,
    page: Page,
    pool: BTreeSet<String>,
    /// Sections of its page and of the file.
    sections: Matching,
}

/// Everything that is wrong in a scenario file, by place.
///
/// # Errors
/// A template at fault.
pub fn proofread(
    sources: &Sources,
    file: FileId,
    generator: &Generator,
    templates: &Templates,
) -> Result<Vec<Diagnostic>, RenderError> {
    if let Some(fault) = unreadable(sources, file) {
        let hint = "a scenario of this program is a hundred times smaller: is it the right file?";
        let too_large = *fault.code == code::FILE_TOO_LARGE;
        return Ok(vec![if too_large { Diagnostic { hints: vec![hint.to_owned()], ..fault } } else { fault }]);
    }
    let text = sources.text(file);
    let mut front = front::read(file, text);
    let mut faults = std::mem::take(&mut front.faults);
    let Some(body) = front.body else { return Ok(faults) };
    let scenario = fit::fit(generator, &front, &mut faults);
    let page = Page::read(text, body);
    let made = match scenario {
        Some(scenario) => Some(Made::new(scenario, templates, &page)?),
        None => None,
    };
    let proof = Proof { file, text, pool: pool(text, body), page, made };
    for check in CHECKS {
        check(&proof, &mut faults);
    }
    faults.sort_by(|a, b| a.order().cmp(&b.order()));
    faults.dedup_by(|a, b| a.order() == b.order());
    if faults.len() > MOST_FAULTS {
        // What is wrong goes before what could be better.
        faults.sort_by_key(|fault| fault.severity);
        faults.truncate(MOST_FAULTS);
        faults.sort_by(|a, b| a.order().cmp(&b.order()));
    }
    Ok(faults)
}

/// How many of these are faults; the rest are to be looked at.
pub fn n_faults(diagnostics: &[Diagnostic]) -> usize {
    diagnostics.iter().filter(|diagnostic| diagnostic.severity == Severity::Error).count()
}

impl Made {
    fn new(scenario: Scenario, templates: &Templates, written: &Page) -> Result<Self, RenderError> {
        let text = markdown(templates, &scenario)?;
        let body = front::body(&text).unwrap_or(0);
        let page = Page::read(&text, body);
        let keys = |page: &Page| page.sections.iter().map(|section| section.key.clone()).collect::<Vec<_>>();
        let sections = matching(&keys(&page), &keys(written));
        Ok(Self { pool: pool(&text, body), scenario, text, page, sections })
    }

    /// A fact as the scenario writes it.
    fn shown(&self, token: &Token) -> String {
        shown(&self.text, token)
    }

    fn tokens(&self, range: &Range<usize>) -> Vec<Token> {
        token::tokens(&self.text, range)
    }

    fn slice(&self, range: &Range<usize>) -> &str {
        self.text.get(range.clone()).unwrap_or_default()
    }
}

impl Proof<'_> {
    fn span(&self, range: Range<usize>) -> Span {
        Span { file: self.file, start: range.start, end: range.end }
    }

    /// A fact as the file writes it.
    fn shown(&self, token: &Token) -> String {
        shown(self.text, token)
    }

    fn tokens(&self, range: &Range<usize>) -> Vec<Token> {
        token::tokens(self.text, range)
    }

    fn slice(&self, range: &Range<usize>) -> &str {
        self.text.get(range.clone()).unwrap_or_default()
    }

    /// The sections that belong together: of the scenario made again, and of the file.
    fn pairs(&self) -> Vec<(&Made, &Section, &Section)> {
        let Some(made) = &self.made else { return Vec::new() };
        let both = made.sections.both.iter();
        both.filter_map(|(i, j)| Some((made, made.page.sections.get(*i)?, self.page.sections.get(*j)?))).collect()
    }
}

/// The words of a fact on one line; a number in a list gets the unit that it shares.
fn shown(text: &str, token: &Token) -> String {
    let words = text.get(token.span.clone()).unwrap_or_default();
    let words = words.replace(['*', '`', '_'], "").split_whitespace().collect::<Vec<_>>().join(" ");
    match token.fact() {
        Some(Fact::Number(number)) if words.ends_with(|c: char| c.is_ascii_digit()) => {
            number.unit.as_ref().map_or(words.clone(), |unit| unit.attach(&words))
        }
        _ => words,
    }
}

fn pool(text: &str, body: usize) -> BTreeSet<String> {
    let tokens = token::tokens(text, &(body..text.len()));
    tokens.iter().filter_map(Token::fact).map(Fact::key).collect()
}
