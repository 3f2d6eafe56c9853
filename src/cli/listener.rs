//! Where answers come from: the keyboard, a pipe, or a file.

use super::terminal::Terminal;
use crate::diag::{Code, Diagnostic, Said, Sources};
use std::fs::File;
use std::io::{self, BufRead, BufReader, IsTerminal, Read};
use std::path::Path;

/// The longest answer, bytes; what is longer is no answer.
const LONGEST: u64 = 4096;

/// Whoever answers.
pub(super) struct Listener {
    from: Box<dyn BufRead>,
    is_person: bool,
    line: usize,
}

impl Listener {
    /// Answers from a file, or from standard input.
    pub(super) fn new(file: Option<&Path>) -> Result<Self, Vec<Diagnostic>> {
        let Some(path) = file else {
            let is_person = io::stdin().is_terminal();
            return Ok(Self { from: Box::new(BufReader::new(io::stdin())), is_person, line: 0 });
        };
        let opened = File::open(path).and_then(|file| {
            if file.metadata()?.is_dir() { Err(io::Error::from(io::ErrorKind::IsADirectory)) } else { Ok(file) }
        });
        let file = opened.map_err(|fault| unreadable(&format!("the answers in {}", path.display()), &fault))?;
        Ok(Self { from: Box::new(BufReader::new(file)), is_person: false, line: 0 })
    }

    /// Whether somebody at a keyboard can be asked again.
    pub(super) fn is_person(&self) -> bool {
        self.is_person
    }

    /// A mistake at the keyboard is explained, to be asked again; one in a file of answers ends the run, because whatever
    /// follows was meant for another question.
    pub(super) fn refuse(&self, problems: Vec<Diagnostic>, sources: &Sources) -> Result<(), Vec<Diagnostic>> {
        if !self.is_person {
            return Err(problems);
        }
        Terminal.explain(&problems, sources);
        Ok(())
    }

    /// The next answer; `None` where no more will come. One that nobody sees typed is handed to `echo`, to be shown behind
    /// the prompt, so that the page reads as at a keyboard.
    pub(super) fn hear(
        &mut self,
        sources: &mut Sources,
        echo: impl FnOnce(&str),
    ) -> Result<Option<Said>, Vec<Diagnostic>> {
        let mut bytes = Vec::new();
        let read = self.from.by_ref().take(LONGEST).read_until(b'\n', &mut bytes);
        if read.map_err(|fault| unreadable("the next answer", &fault))? == 0 {
            echo("\n");
            return Ok(None);
        }
        self.line += 1;
        let text = String::from_utf8_lossy(&bytes).trim().to_owned();
        if !self.is_person {
            echo(&format!("{}\n", text.escape_debug()));
        }
        Ok(Some(sources.say(format!("answer {}", self.line), text)))
    }
}

fn unreadable(what: &str, fault: &io::Error) -> Vec<Diagnostic> {
    let message = format!("can't read {what}: {fault}");
    vec![
        Diagnostic::error(Code("answers-unreadable"), message).help("check the path; the file holds one answer a line"),
    ]
}
