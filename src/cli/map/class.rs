//! `toehold map --class`: the matrix of a class from progress files.

use super::{Arguments, Exit, Failure, Format, World, files, store};
use crate::concepts::Graph;
use crate::coverage::Class;
use crate::coverage::report::{class_csv, class_json, class_table};

/// Reads the files and prints the matrix; a file with a fault is told and the others are counted.
///
/// # Errors
/// A file that cannot be read, a format that a class does not have.
pub(super) fn run(graph: &Graph, arguments: &Arguments, world: &mut World<'_>) -> Result<Exit, Failure> {
    if matches!(arguments.format, Format::Html | Format::Svg) {
        return Err(
            Failure::new("the matrix of a class is no page and no picture").hint("give --format table, csv or json")
        );
    }
    let mut class = Class::default();
    let mut n_faults = 0;
    for path in &arguments.paths {
        let text = files::scenario_text(path)?;
        if let Err(error) = class.add(graph, &text) {
            n_faults += 1;
            writeln!(world.err, "error: {}:{error}", path.display())?;
            writeln!(world.err, "hint: give files that `toehold progress export` or the student's page wrote")?;
        }
    }
    if !class.unknown.is_empty() {
        let list: Vec<&str> = class.unknown.iter().map(String::as_str).collect();
        writeln!(world.err, "note: these concepts have no principle {}: left out", list.join(", "))?;
    }
    let mut bytes = Vec::new();
    match arguments.format {
        Format::Csv => class_csv(graph, &class, &mut bytes)?,
        Format::Json => bytes.extend(format!("{:#}\n", class_json(graph, &class)).into_bytes()),
        Format::Table | Format::Html | Format::Svg => class_table(graph, &class, &mut bytes)?,
    }
    match &arguments.out {
        None => world.out.write_all(&bytes)?,
        Some(path) => {
            store::write_bytes(path, &bytes, arguments.force)?;
            writeln!(world.out, "{}", path.display())?;
        }
    }
    Ok(if n_faults > 0 { Exit::Bad } else { Exit::Done })
}
