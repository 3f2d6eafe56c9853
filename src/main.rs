//! The `lidladder` program: all of it is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(lidladder::cli::run(std::env::args_os()))
}
