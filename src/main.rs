//! The program: hands the arguments and the streams to the library and exits with what it says.

use std::io::{self, BufReader, IsTerminal};
#[cfg(unix)]
use std::os::fd::AsFd as Stream;
#[cfg(windows)]
use std::os::windows::io::AsHandle as Stream;
use std::process::ExitCode;

use toehold::cli::{self, World};

fn main() -> ExitCode {
    let (stdin, stdout, stderr) = (io::stdin(), io::stdout(), io::stderr());
    let colour =
        stdout.is_terminal() && environment("NO_COLOR").is_none() && environment("TERM").as_deref() != Some("dumb");
    let (width, err_width) = (width_of(&stdout), width_of(&stderr));
    let (typed, interactive) = (stdin.is_terminal(), stderr.is_terminal());
    // Not locked: a command that reads standard input by itself may.
    let mut input = BufReader::new(stdin);
    let (out, err) = (&mut stdout.lock(), &mut stderr.lock());
    let mut world = World {
        input: &mut input,
        typed,
        out,
        err,
        colour,
        width,
        err_width,
        interactive,
        now: clock(),
        clock: &clock,
    };
    let exit = cli::run(std::env::args_os(), &mut world);
    ExitCode::from(exit as u8)
}

/// A variable of the environment; an empty one counts as none.
fn environment(name: &str) -> Option<String> {
    #[expect(clippy::disallowed_methods, reason = "the one door through which the environment enters")]
    std::env::var(name).ok().filter(|value| !value.is_empty())
}

/// Characters in a line of the terminal behind a stream.
fn width_of(stream: &impl Stream) -> Option<usize> {
    terminal_size::terminal_size_of(stream).map(|(width, _)| usize::from(width.0))
}

/// Nanoseconds since 1970.
fn clock() -> u64 {
    #[expect(clippy::disallowed_methods, reason = "the one door through which the clock enters")]
    let since_1970 = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
    u64::try_from(since_1970.as_nanos() % u128::from(u64::MAX)).unwrap_or(0)
}
