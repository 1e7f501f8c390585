//! `toehold practise --page`: a folder of pages to practise on, with an index.

use std::path::PathBuf;

use clap::Args;

use super::{Exit, Failure, World, files, pages};
use crate::scenario::{Generator, Run, generate};
use crate::seed::{MOST, Seed};
use crate::technique::{Refusals, Wish};

/// Make pages to practise on: recall, predict, see the data, answer, score.
#[derive(Debug, Args)]
#[command(after_help = "Examples:
  toehold practise --page my-pages --count 6
  toehold practise --page my-pages week-3")]
pub struct Arguments {
    /// Scenario files, or folders of them; fresh ones are made where none is named.
    path: Vec<PathBuf>,
    /// Write the pages and `index.html` into this folder.
    #[arg(long, value_name = "DIR")]
    page: PathBuf,
    /// How many fresh scenarios.
    #[arg(long, value_name = "N", default_value_t = 6, value_parser = clap::value_parser!(u64).range(1..=1000))]
    count: u64,
    /// Same seed, same concepts, same version: the same pages. Drawn from the clock where it is not given.
    #[arg(long, value_name = "S", value_parser = clap::value_parser!(u64).range(0..MOST))]
    seed: Option<u64>,
    /// Use the concepts of this folder (and the templates in its `templates` folder) instead of the program's own.
    #[arg(long, value_name = "DIR")]
    concepts: Option<PathBuf>,
    /// Replace files that exist.
    #[arg(long)]
    force: bool,
}

/// Runs the command.
///
/// # Errors
/// A file that is no scenario, or a folder that cannot be written to.
pub fn run(arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    let graph = files::graph(arguments.concepts.as_deref(), world)?;
    let templates = files::templates(arguments.concepts.as_deref())?;
    let generator = Generator::new(graph);
    let subjects = if arguments.path.is_empty() {
        let seed = Seed(arguments.seed.unwrap_or_else(|| world.clock_seed() % MOST));
        if arguments.seed.is_none() {
            writeln!(world.err, "seed {} (give --seed {} to get the same again)", seed.0, seed.0)?;
        }
        let (mut run, mut refusals) = (Run::default(), Refusals::default());
        let made = (0..arguments.count)
            .map_while(|index| generate(&generator, &Wish::default(), seed, index, &mut run, &mut refusals));
        made.map(|scenario| pages::fresh(&templates, scenario)).collect::<Result<Vec<_>, _>>()?
    } else {
        pages::read(&generator, &templates, &arguments.path)?
    };
    for path in pages::write_pages(&arguments.page, generator.graph(), &templates, &subjects, arguments.force)? {
        writeln!(world.out, "{}", path.display())?;
    }
    Ok(Exit::Done)
}
