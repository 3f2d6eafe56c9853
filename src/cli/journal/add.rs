//! `journal add`: more records for a journal, each named as soon as it is safe.
//!
//! The one command that shows something before it is done: whoever feeds it has to know what would survive now.

use super::line::{Excerpt, bad};
use super::{files, unwritable};
use crate::cli::args::TypedAdd;
use crate::cli::terminal::Terminal;
use crate::cli::{Ending, Output};
use crate::diag::{Code, Diagnostic, Sources};
use crate::journal::{Journal, Line, Lines, Outcome, Record, Writer};
use std::io::{BufReader, Read, stdin};

/// How many bytes are taken from standard input at once, and so how much is written and synced together.
const AT_ONCE: usize = 256 * 1024;

pub(super) fn answer(typed: &TypedAdd, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    let path = typed.file.as_ref().or(typed.journal.as_ref()).ok_or_else(|| vec![files::missing()])?;
    let mut adder = Adder { writer: Journal::at(path).writer(), waiting: Vec::new() };
    let mut lines = Lines::new(BufReader::with_capacity(AT_ONCE, stdin().lock()));
    while let Some(line) = lines.next() {
        let line = line.map_err(|fault| {
            let problem = Diagnostic::error(Code("journal-unreadable"), format!("can't read standard input: {fault}"));
            vec![problem.help("what was named before is safe; hand in the rest again")]
        })?;
        match line.record() {
            Ok(record) => adder.waiting.push((line, record)),
            Err(why) => {
                adder.write(sources)?;
                let (number, text) = (line.number, line.text());
                let excerpt = Excerpt::new(INPUT, [(number, text.as_str())], sources);
                return Err(vec![bad(&why, number, &excerpt, sources)]);
            }
        }
        if !has_a_line(lines.stream()) {
            adder.write(sources)?;
        }
    }
    adder.write(sources)?;
    Ok(Output { text: String::new(), ending: Ending::Done })
}

const INPUT: &str = "standard input";

/// Whether another line can be read without waiting for anybody.
fn has_a_line<R: Read>(stream: &BufReader<R>) -> bool {
    stream.buffer().contains(&b'\n')
}

struct Adder {
    writer: Writer,
    /// Read, and not written yet.
    waiting: Vec<(Line, Record)>,
}

impl Adder {
    /// Writes what waits and names it.
    fn write(&mut self, sources: &mut Sources) -> Result<(), Vec<Diagnostic>> {
        let (lines, records): (Vec<Line>, Vec<Record>) = self.waiting.drain(..).unzip();
        let outcomes = self.writer.append(&records).map_err(|fault| vec![unwritable(&fault)])?;
        let mut told = String::new();
        let mut clash = None;
        for (line, record, outcome) in itertools::izip!(&lines, &records, outcomes) {
            match outcome {
                Outcome::Written | Outcome::Known => told += &format!("{}/{}\n", record.customer, record.number),
                Outcome::Clash => clash = clash.or(Some((line, record))),
            }
        }
        // A reader that went away is no error, here as elsewhere; what came in is written all the same.
        if Terminal.show(&told, Ending::Done) == Ending::CouldNot {
            let problem = Diagnostic::error(Code("journal-unwritable"), "what is safe can't be named any more");
            return Err(vec![problem.help("hand in everything again: what is there already isn't written twice")]);
        }
        clash.map_or(Ok(()), |(line, record)| Err(vec![clashes(line, record, sources)]))
    }
}

fn clashes(line: &Line, record: &Record, sources: &mut Sources) -> Diagnostic {
    let text = line.text();
    let excerpt = Excerpt::new(INPUT, [(line.number, text.as_str())], sources);
    let (customer, number) = (record.customer, record.number);
    let message = format!("the journal has another record as try {number} of customer {customer}");
    Diagnostic::error(Code("journal-clash"), message)
        .at(excerpt.key(line.number, "customer", sources), "this one was not written")
        .help(
            "two tills gave the same number: keep their journals as two files, every command reads several; what was \
             named is safe, lines further on may be missing",
        )
}
