//! `toehold new`: a commented beginning of a new part, or the program's concepts to work on.

use std::path::{Path, PathBuf};

use clap::{Args, ValueEnum};

use super::{Exit, Failure, World, files, store};
use crate::author::{Kind, skeleton};
use crate::concepts::{Graph, embedded, is_unfinished, load_and_check};

/// Begin a new part: a commented skeleton in which only what is to be filled in is at fault.
///
/// `toehold check FILE` says what is still to be filled in, and checks what is. With `concepts`, a copy of the program's
/// own concepts is written into a folder, to be changed and given to other commands with --concepts.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold new concepts --out mine
  toehold new influence warmth-loosens-gel --out mine/warmth.yaml
  toehold new principle loose-gels --field nucleic --out mine/loose-gels.yaml
  toehold check mine
  toehold explain --influence warmth-loosens-gel --concepts mine
  toehold generate --concepts mine --influence warmth-loosens-gel
  toehold new scenario my-plan --concepts mine --out my-plan.md
  toehold generate --concepts mine --from my-plan.md --out questions")]
pub struct Arguments {
    /// What is begun.
    #[arg(value_enum)]
    kind: Word,
    /// Its id, in kebab-case.
    #[arg(default_value = "my-new-part")]
    id: String,
    /// The field of a new principle: one that there is, or a new one.
    #[arg(long, value_name = "F", default_value = "my-field")]
    field: String,
    /// Write this file (for `concepts`: into this folder), instead of standard output.
    #[arg(long, value_name = "PATH")]
    out: Option<PathBuf>,
    /// Use the concepts of this folder instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
    /// Replace files that exist.
    #[arg(long)]
    force: bool,
}

/// What is begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Word {
    /// A thing that can be more or less.
    Quantity,
    /// A unit of knowing.
    Principle,
    /// A signed, lawful arrow.
    Influence,
    /// Invented people and reasons to investigate.
    Context,
    /// A plan for a question: `toehold generate --from` writes it.
    Scenario,
    /// A copy of the program's own concepts.
    Concepts,
}

/// Runs the command.
///
/// # Errors
/// A file that exists or cannot be written.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let kind = match arguments.kind {
        Word::Quantity => Kind::Quantity,
        Word::Principle => Kind::Principle,
        Word::Influence => Kind::Influence,
        Word::Context => Kind::Context,
        Word::Scenario => Kind::Scenario,
        Word::Concepts => return concepts(arguments, world),
    };
    let graph = known(arguments, world)?;
    let text = skeleton(&graph, kind, &arguments.id, &arguments.field);
    match &arguments.out {
        None => write!(world.out, "{text}")?,
        Some(path) => {
            if !arguments.force && begun(path) {
                let message = format!("`{}` was begun before and is still to be filled in", path.display());
                let hint = "fill it in; give another name with --out, or --force to begin it anew";
                return Err(Failure::new(message).hint(hint));
            }
            store::write(path, &text, arguments.force)?;
            writeln!(world.out, "{}", path.display())?;
            writeln!(world.err, "{}", next(kind, path))?;
        }
    }
    Ok(Exit::Done)
}

/// Whether an unfinished skeleton is there already.
fn begun(path: &Path) -> bool {
    files::scenario_text(path).is_ok_and(|text| is_unfinished(&text))
}

/// What to do with a skeleton that was written.
fn next(kind: Kind, path: &Path) -> String {
    if kind == Kind::Scenario {
        return format!("next: fill in its path, then `toehold generate --from {}`", path.display());
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    format!("next: fill it in; `toehold check {}` says what is left", folder.display())
}

/// The graph whose ids a skeleton names. A folder that holds other skeletons has faults: then the program's own is taken.
fn known(arguments: &Arguments, world: &mut World<'_>) -> Result<Graph, Failure> {
    let Some(folder) = &arguments.concepts else { return files::graph(None, world) };
    let sources = files::concepts(Some(folder))?;
    load_and_check(&sources).or_else(|faults| {
        let n = faults.len();
        let folder = folder.display();
        writeln!(world.err, "note: `{folder}` has {n} faults, so the program's own ids are named in the comments")?;
        files::graph(None, world)
    })
}

/// Writes the program's own concepts into a folder.
fn concepts(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let Some(folder) = &arguments.out else {
        return Err(Failure::new("a copy of the concepts needs a folder").hint("give one with --out"));
    };
    store::folder(folder)?;
    let sources = embedded();
    for id in sources.ids() {
        store::free(&folder.join(sources.name(id)), arguments.force)?;
    }
    for id in sources.ids() {
        let path = folder.join(sources.name(id));
        store::write(&path, sources.text(id), arguments.force)?;
        writeln!(world.out, "{}", path.display())?;
    }
    Ok(Exit::Done)
}
