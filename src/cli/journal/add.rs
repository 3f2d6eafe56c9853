//! `journal add`: more records for a journal, each named as soon as it is safe.
//!
//! The one command that shows something before it is done: whoever feeds it has to know what would survive now.

use super::line::{Excerpt, bad};
use super::{files, unwritable};
use crate::cli::args::TypedAdd;
use crate::cli::terminal::Terminal;
use crate::cli::{Ending, Output};
use crate::diag::{Code, Diagnostic, MOST_PROBLEMS, Sources, more};
use crate::journal::{Journal, Line, Lines, Outcome, Record, Writer};
use std::io::{BufReader, Read, stdin};

/// How many bytes are taken from standard input at once, and so how much is written and synced together.
const AT_ONCE: usize = 256 * 1024;

/// What standard input is called where a problem lies in it.
const INPUT: &str = "standard input";

pub(super) fn answer(typed: &TypedAdd, sources: &mut Sources) -> Result<Output, Vec<Diagnostic>> {
    let path = typed.file.as_ref().or(typed.journal.as_ref()).ok_or_else(|| vec![files::missing()])?;
    let mut adder = Adder { writer: Journal::at(path).writer(), waiting: Vec::new(), clashes: Vec::new() };
    let mut lines = Lines::new(BufReader::with_capacity(AT_ONCE, stdin().lock()));
    while let Some(line) = lines.next() {
        let line = line.map_err(|fault| {
            let problem = Diagnostic::error(Code("journal-unreadable"), format!("can't read {INPUT}: {fault}"));
            vec![problem.help("what was named before is safe; hand in the rest again")]
        })?;
        match line.record() {
            Ok(record) => adder.waiting.push((line, record)),
            Err(why) => {
                adder.write()?;
                let mut problems = adder.problems(sources);
                let text = line.text();
                let excerpt = Excerpt::new(INPUT, [(line.number, text.as_str())], sources);
                problems.push(bad(&why, line.number, &excerpt, sources));
                return Err(problems);
            }
        }
        if !has_a_line(lines.stream()) {
            adder.write()?;
        }
    }
    adder.write()?;
    let problems = adder.problems(sources);
    if problems.is_empty() { Ok(Output { text: String::new(), ending: Ending::Done }) } else { Err(problems) }
}

/// Whether another line can be read without waiting for anybody.
fn has_a_line<R: Read>(stream: &BufReader<R>) -> bool {
    stream.buffer().contains(&b'\n')
}

struct Adder {
    writer: Writer,
    /// Read, and not written yet.
    waiting: Vec<(Line, Record)>,
    /// Not written, because another record has their names; one more at most than is told.
    clashes: Vec<(Line, Record)>,
}

impl Adder {
    /// Writes what waits and names it.
    fn write(&mut self) -> Result<(), Vec<Diagnostic>> {
        let (lines, records): (Vec<Line>, Vec<Record>) = self.waiting.drain(..).unzip();
        let outcomes = self.writer.append(&records).map_err(|fault| vec![unwritable(&fault)])?;
        let mut told = String::new();
        for ((line, record), outcome) in lines.into_iter().zip(records).zip(outcomes) {
            match outcome {
                Outcome::Written | Outcome::Known => told += &format!("{}/{}\n", record.customer, record.number),
                Outcome::Clash if self.clashes.len() <= MOST_PROBLEMS => self.clashes.push((line, record)),
                Outcome::Clash => {}
            }
        }
        // A reader that went away is no error, here as elsewhere; what came in is written all the same.
        if Terminal.show(&told, Ending::Done) == Ending::CouldNot {
            let problem = Diagnostic::error(Code("journal-unwritable"), "what is safe can't be named any more");
            return Err(vec![problem.help("hand in everything again: what is there already isn't written twice")]);
        }
        Ok(())
    }

    fn problems(&self, sources: &mut Sources) -> Vec<Diagnostic> {
        let told = &self.clashes[..self.clashes.len().min(MOST_PROBLEMS)];
        let texts: Vec<(usize, String)> = told.iter().map(|(line, _)| (line.number, line.text())).collect();
        let lines = texts.iter().map(|(number, text)| (*number, text.as_str()));
        let excerpt = Excerpt::new(INPUT, lines, sources);
        let mut problems: Vec<_> =
            told.iter().map(|(line, record)| clashes(line.number, record, &excerpt, sources)).collect();
        if told.len() < self.clashes.len() {
            problems.push(more(None));
        }
        problems
    }
}

fn clashes(line: usize, record: &Record, excerpt: &Excerpt, sources: &Sources) -> Diagnostic {
    let (customer, number) = (record.customer, record.number);
    let message = format!("the journal has another record as try {number} of customer {customer}");
    Diagnostic::error(Code("journal-clash"), message)
        .at(excerpt.key(line, "customer", sources), "this one was not written")
        .help("two tills gave the same number: keep their journals as two files, every command reads several")
}
