//! `toehold read`: how the tool reads a text.

use std::io::Write;
use std::path::{Path, PathBuf};

use clap::Args;

use super::review::{Format, json};
use super::{Exit, Failure, World, files};
use crate::review::{self, Lexicon, Term, View};

/// Show how a text is read: sentences, numbers with units, terms, directions, negations, links.
#[derive(Debug, Args)]
#[command(after_help = "Places count characters (Unicode scalar values) from 0.

Examples:
  toehold read answer.txt
  echo 'The volume falls because water leaves.' | toehold read -")]
pub struct Arguments {
    /// A text; `-` for standard input.
    file: PathBuf,
    /// For readers, or for programs.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Take terms from the concept files of this folder instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
}

/// Runs the command.
///
/// # Errors
/// A text that cannot be read.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let text = if arguments.file == Path::new("-") { files::input()? } else { files::scenario_text(&arguments.file)? };
    let graph = files::graph(arguments.concepts.as_deref(), world)?;
    let quantities = graph.quantities().map(|(_, quantity)| {
        let forms = vec![quantity.name.clone()];
        Term { id: quantity.id.clone(), forms, quantity: true }
    });
    let mut glossary: Vec<String> = graph.principles().flat_map(|(_, principle)| principle.terms.clone()).collect();
    glossary.sort();
    glossary.dedup();
    let view = review::read(&text, &Lexicon { terms: quantities.collect(), glossary });
    match arguments.format {
        Format::Json => writeln!(world.out, "{}", json(&view)?)?,
        Format::Text => show(&view, world.out)?,
    }
    Ok(Exit::Done)
}

fn show(view: &View, out: &mut dyn Write) -> Result<(), Failure> {
    for (number, sentence) in view.sentences.iter().enumerate() {
        writeln!(out, "{}. {}", number + 1, sentence.text)?;
        let within = |start: usize| (sentence.start..sentence.end).contains(&start);
        for claim in view.directions.iter().filter(|claim| within(claim.start)) {
            let of = if claim.of.is_empty() { "(nothing named)".to_owned() } else { claim.of.join(", ") };
            let carried = if claim.carried { ", taken over from before" } else { "" };
            let aside = if claim.aside { ", told of another case" } else { "" };
            writeln!(out, "   direction {:?}: “{}”, of {of}{carried}{aside}", claim.direction, claim.text)?;
        }
        for number in view.numbers.iter().filter(|number| within(number.start)) {
            let unit = number.unit.as_deref().unwrap_or("none");
            writeln!(out, "   number {} (“{}”), unit {unit}", number.value, number.text)?;
        }
        let terms = view.terms.iter().filter(|term| within(term.start));
        let terms: Vec<String> =
            terms.map(|term| format!("{}{}", if term.negated { "not " } else { "" }, term.text)).collect();
        if !terms.is_empty() {
            writeln!(out, "   terms {}", terms.join(", "))?;
        }
        for negation in view.negations.iter().filter(|negation| within(negation.start)) {
            writeln!(out, "   negation “{}”", negation.text)?;
        }
        for link in view.links.iter().filter(|link| within(link.start)) {
            writeln!(out, "   link {:?}: “{}”", link.kind, link.text)?;
        }
    }
    Ok(())
}
