//! The two streams. Colours go only where they are shown; a reader that went away is no error.

use super::Ending;
use crate::diag::{Diagnostic, Sources};
use crate::render::diagnostics::{Style, render};
use std::io::{self, ErrorKind, Write};

pub(super) struct Terminal;

impl Terminal {
    /// Writes an output and returns how the run ended: as it was, unless the output could not be written.
    pub(super) fn show(&self, text: &str, ending: Ending) -> Ending {
        let mut out = anstream::stdout().lock();
        match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
            Ok(()) => ending,
            Err(fault) if fault.kind() == ErrorKind::BrokenPipe => ending,
            Err(fault) => {
                self.say(&format!("lidladder: can't write the output: {fault}\n"));
                Ending::CouldNot
            }
        }
    }

    /// Writes a message beside the output.
    pub(super) fn say(&self, text: &str) {
        // Nobody is left to tell when standard error is gone.
        let _: io::Result<()> = anstream::stderr().lock().write_all(text.as_bytes());
    }

    /// Draws problems beside the output.
    pub(super) fn explain(&self, problems: &[Diagnostic], sources: &Sources) {
        self.say(&render(problems, sources, Style::Coloured));
    }
}

/// A text without colours.
pub(super) fn plain(text: &str) -> String {
    anstream::adapter::strip_str(text).to_string()
}
