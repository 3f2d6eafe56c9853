//! A session that is killed in the middle ends as if it had not been.

use super::{Folder, journal, session, session_resumed};
use crate::support::Program;
use rstest::rstest;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, Stdio};
use std::sync::LazyLock;

/// Six steps: other pads, a reading, a stop, a helmet of the fitter's own choice, other pads, a fit.
const ANSWERS: [&str; 6] = ["6", "m breadth=158", "s2", "t haspenfell-lift M", "9", "f"];

/// Answers so many, waits until the page after the last of them is there, and kills the program: at that page the
/// answer counts as taken.
fn kill_after(folder: &Folder, answers: usize) {
    let options = "counter -c 57.5cm --journal j.jsonl --day 2026-03-14";
    let mut command = Program::new().line(options).command(folder.path());
    let mut child = command.stdin(Stdio::piped()).spawn().expect("the program starts");
    let mut pages = Pages::of(&mut child);
    let mut keyboard = child.stdin.take().expect("a pipe");
    pages.await_prompt();
    for answer in &ANSWERS[..answers] {
        writeln!(keyboard, "{answer}").expect("it listens");
        pages.await_prompt();
    }
    child.kill().expect("it can be killed");
    child.wait().expect("it is dead");
}

/// What the program prints, prompt by prompt.
struct Pages(BufReader<std::process::ChildStdout>);

impl Pages {
    fn of(child: &mut Child) -> Self {
        Self(BufReader::new(child.stdout.take().expect("a pipe")))
    }

    /// Reads up to the next prompt: `> ` at the beginning of a line.
    fn await_prompt(&mut self) {
        let mut last = [b'\n', b'\n'];
        loop {
            let buffer = self.0.fill_buf().expect("it prints");
            assert!(!buffer.is_empty(), "it ended before the prompt");
            let mut used = 0;
            let mut is_there = false;
            for byte in buffer {
                used += 1;
                is_there = last == [b'\n', b'>'] && *byte == b' ';
                last = [last[1], *byte];
                if is_there {
                    break;
                }
            }
            self.0.consume(used);
            if is_there {
                return;
            }
        }
    }
}

#[rstest]
fn a_killed_session_ends_with_the_same_journal(#[values(0, 1, 2, 3, 4, 5, 6)] answered: usize) {
    let killed = Folder::new();
    kill_after(&killed, answered);
    let rest = session_resumed(&killed, &ANSWERS[answered..]);
    assert_eq!((rest.status, rest.stderr.as_str()), (0, ""), "{}", rest.stdout);
    assert_eq!(journal(&killed), *WHOLE);
    assert_eq!(journal(&killed).lines().count(), 2);
}

/// The journal of a session that nobody killed.
static WHOLE: LazyLock<String> = LazyLock::new(|| {
    let folder = Folder::new();
    assert_eq!(session(&folder, "-c 57.5cm", &ANSWERS).status, 0);
    journal(&folder)
});

#[test]
fn two_tills_cannot_resume_the_same_session() {
    let folder = Folder::new();
    session(&folder, "-c 57.5cm", &["6", "q"]);
    let mut command = Program::new().line("counter --resume --journal j.jsonl").command(folder.path());
    let mut first = command.stdin(Stdio::piped()).spawn().expect("the program starts");
    Pages::of(&mut first).await_prompt();
    let second = session_resumed(&folder, &["f"]);
    first.kill().expect("it can be killed");
    first.wait().expect("it is dead");
    assert_eq!(second.status, 2, "{}", second.stdout);
    assert!(second.stderr.contains("error["), "{}", second.stderr);
    assert_eq!(session_resumed(&folder, &["f"]).status, 0, "after that it is free again");
}
