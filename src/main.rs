//! The program: hands the arguments and the streams to the library and exits with what it says.

use std::io::{self, BufReader, IsTerminal};
use std::process::ExitCode;

use toehold::cli::{self, World};

fn main() -> ExitCode {
    let (stdin, stdout, stderr) = (io::stdin(), io::stdout(), io::stderr());
    #[expect(clippy::disallowed_methods, reason = "the one door through which the environment enters")]
    let no_colour = std::env::var("NO_COLOR").is_ok_and(|value| !value.is_empty());
    let colour = stdout.is_terminal() && !no_colour;
    let (typed, interactive) = (stdin.is_terminal(), stderr.is_terminal());
    // Not locked: a command that reads standard input by itself may.
    let mut input = BufReader::new(stdin);
    let (out, err) = (&mut stdout.lock(), &mut stderr.lock());
    let mut world = World { input: &mut input, typed, out, err, colour, interactive, now: clock(), clock: &clock };
    let exit = cli::run(std::env::args_os(), &mut world);
    ExitCode::from(exit as u8)
}

/// Nanoseconds since 1970.
fn clock() -> u64 {
    #[expect(clippy::disallowed_methods, reason = "the one door through which the clock enters")]
    let since_1970 = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
    u64::try_from(since_1970.as_nanos() % u128::from(u64::MAX)).unwrap_or(0)
}
