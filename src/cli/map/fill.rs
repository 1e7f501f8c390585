//! Scenarios that fill the gaps of a map.

use super::{Arguments, Failure, Report, ScenarioFormat, World, files, rendered, store};
use crate::concepts::PrincipleIx;
use crate::coverage::target;
use crate::render;
use crate::scenario::{Generator, Run, Scenario, generate};
use crate::seed::{MOST, Seed};
use crate::technique::{Refusals, Wish};

/// Makes scenarios until no gap is left that a path can fill, each for as many gaps as one path holds; prints them, or
/// writes them into a folder and prints what each fills.
pub(super) fn gaps(
    arguments: &Arguments,
    generator: &Generator,
    report: &Report<'_>,
    world: &mut World<'_>,
) -> Result<(), Failure> {
    let seed = Seed(arguments.seed.unwrap_or_else(|| world.clock_seed() % MOST));
    if arguments.seed.is_none() {
        writeln!(world.err, "seed {} (give --seed {} to get the same again)", seed.0, seed.0)?;
    }
    let templates = files::templates(arguments.concepts.as_deref())?;
    if let Some(folder) = &arguments.out {
        store::folder(folder)?;
    }
    let name = |principle: &PrincipleIx| report.graph.principle(*principle).name.as_str();
    let mut missing = report.matrix.gaps();
    let (mut run, mut refusals) = (Run::default(), Refusals::default());
    let mut unfilled: Vec<PrincipleIx> = Vec::new();
    let mut index = 0;
    while !missing.is_empty() {
        let wanted = target(report.graph, generator.catalogue(), &missing);
        let Some(first) = wanted.first().copied() else {
            // No path holds any of these.
            unfilled.append(&mut missing);
            break;
        };
        let made = make(generator, &wanted, seed, index, &mut run, &mut refusals);
        index += 1;
        let Some((scenario, filled)) = made else {
            // No draw holds even this one.
            missing.retain(|one| *one != first);
            unfilled.push(first);
            continue;
        };
        let new: Vec<&str> = missing.iter().filter(|one| filled.contains(one)).map(name).collect();
        let text = rendered(&templates, &scenario, ScenarioFormat::Md)?;
        match &arguments.out {
            None => write!(world.out, "{text}")?,
            Some(folder) => {
                let path = folder.join(format!("{}.md", scenario.id));
                store::write(&path, &text, arguments.force)?;
                for (ending, picture) in render::pictures(&scenario) {
                    let picture_path = folder.join(format!("{}{ending}.svg", scenario.id));
                    store::write(&picture_path, &picture.file(), arguments.force)?;
                }
                writeln!(world.out, "{}\n  fills: {}", path.display(), new.join("; "))?;
            }
        }
        missing.retain(|one| !filled.contains(one));
    }
    if !unfilled.is_empty() {
        let names: Vec<&str> = unfilled.iter().map(name).collect();
        writeln!(
            world.err,
            "note: not filled, since no path holds them or no draw of this seed did (try another --seed): {}",
            names.join("; ")
        )?;
    }
    Ok(())
}

/// A scenario for all of these principles, or else for the first alone, and what it exercises.
fn make(
    generator: &Generator,
    wanted: &[PrincipleIx],
    seed: Seed,
    index: u64,
    run: &mut Run,
    refusals: &mut Refusals,
) -> Option<(Scenario, Vec<PrincipleIx>)> {
    let graph = generator.graph();
    let first = wanted.get(..1).unwrap_or_default();
    // Seeds of a run are told apart by their place in it: tries have places of their own.
    let tries = [(wanted, 0), (first, 1), (first, 2), (first, 3)];
    let made = tries.into_iter().find_map(|(principles, n)| {
        let wish = Wish { principles: principles.to_vec(), ..Wish::default() };
        generate(generator, &wish, seed, index * 4 + n, run, refusals)
    })?;
    let steps = made.path.iter().filter_map(|id| graph.find_influence(id));
    let exercised: Vec<PrincipleIx> = steps.map(|step| graph.influence(step).principle).collect();
    Some((made, exercised))
}
