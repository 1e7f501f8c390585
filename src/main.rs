//! The program: hands the arguments and the streams to the library and exits with what it says.

use std::io::{self, IsTerminal};
use std::process::ExitCode;

use toehold::cli::{self, World};

fn main() -> ExitCode {
    let (stdout, stderr) = (io::stdout(), io::stderr());
    #[expect(clippy::disallowed_methods, reason = "the one door through which the environment enters")]
    let no_colour = std::env::var("NO_COLOR").is_ok_and(|value| !value.is_empty());
    let colour = stdout.is_terminal() && !no_colour;
    let interactive = stderr.is_terminal();
    #[expect(clippy::disallowed_methods, reason = "the one door through which the clock enters")]
    let since_1970 = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap_or_default();
    let now = u64::try_from(since_1970.as_nanos() % u128::from(u64::MAX)).unwrap_or(0);
    let mut world = World { out: &mut stdout.lock(), err: &mut stderr.lock(), colour, interactive, now };
    let exit = cli::run(std::env::args_os(), &mut world);
    ExitCode::from(exit as u8)
}
