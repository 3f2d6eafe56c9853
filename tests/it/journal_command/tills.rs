//! Several tills at one journal, and some that are killed: what was acknowledged is there, whole and once.

use super::line;
use crate::support::{Folder, Program};
use lidladder::journal::{BadLine, Journal, Record, from_line, to_line};
use std::collections::{BTreeMap, BTreeSet};
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

const RECORDS: u64 = 2000;

/// The records of a till, by name.
fn of_till(till: u64) -> BTreeMap<String, String> {
    let customers = (1..=RECORDS / 4).map(|number| till * 10_000 + number);
    let tries = customers.flat_map(|customer| (1..=4).map(move |number| (customer, number)));
    tries.map(|(customer, number)| (format!("{customer}/{number}"), line(customer, number))).collect()
}

/// Hands records in until all are named or the process is killed, after so many names; returns the names.
fn feed(folder: &Path, records: &BTreeMap<String, String>, kill_after: Option<usize>) -> BTreeSet<String> {
    let mut command = Program::new().line("journal add j.jsonl").command(folder);
    let mut child = command.stdin(Stdio::piped()).stderr(Stdio::inherit()).spawn().expect("the program starts");
    let mut stdin = child.stdin.take().expect("it is piped");
    let mut names = BufReader::new(child.stdout.take().expect("it is piped"));
    let mut named = BTreeSet::new();
    thread::scope(|scope| {
        scope.spawn(move || {
            for record in records.values() {
                // Nobody listens once it is killed.
                if writeln!(stdin, "{record}").is_err() {
                    return;
                }
            }
        });
        let mut name = String::new();
        while names.read_line(&mut name).expect("names are UTF-8") > 0 {
            // A name may be cut off, too: then it was never said.
            if let Some(whole) = name.strip_suffix('\n') {
                named.insert(whole.to_owned());
            }
            name.clear();
            if Some(named.len()) == kill_after {
                child.kill().expect("it can be killed");
            }
        }
    });
    let status = child.wait().expect("it ends");
    assert!(status.success() || kill_after.is_some());
    named
}

#[test]
#[expect(clippy::print_stdout, reason = "how long it takes is said, not held to anything")]
fn four_tills_of_which_one_is_killed_again_and_again_lose_nothing() {
    let started = Instant::now();
    let folder = Folder::new();
    let tills: Vec<BTreeMap<String, String>> = (1..=4).map(of_till).collect();
    let mut kills = 0;
    thread::scope(|scope| {
        for records in &tills[1..] {
            scope.spawn(|| assert_eq!(feed(folder.path(), records, None).len() as u64, RECORDS));
        }
        let mut left = tills[0].clone();
        while !left.is_empty() {
            // Never the same place in a batch.
            let named = feed(folder.path(), &left, Some(1 + kills * 37 % 101));
            assert!(named.iter().all(|name| left.remove(name).is_some()));
            kills += 1;
        }
    });
    let contents = Journal::at(folder.path().join("j.jsonl")).read().expect("it can be read");
    let mut there: Vec<String> = contents.records.iter().map(|(_, record)| to_line(record)).collect();
    let mut expected: Vec<String> = tills.iter().flat_map(|till| till.values().cloned()).collect();
    there.sort();
    expected.sort();
    assert!(there == expected, "{} of {} records are there", there.len(), expected.len());
    assert!(kills > 1 && contents.bad_lines <= kills, "{} bad lines after {kills} kills", contents.bad_lines);
    assert!(contents.bad.iter().all(|bad| bad.why == BadLine::CutOff));
    let verified = folder.run("journal verify j.jsonl");
    assert_eq!(verified.stdout.matches("error[journal-line]: this line is cut off").count(), contents.bad_lines);
    assert_eq!(verified.status, i32::from(contents.bad_lines > 0), "{}", verified.stdout);
    println!(
        "{} records, {kills} kills, {} lines torn, {:.1} s",
        there.len(),
        contents.bad_lines,
        started.elapsed().as_secs_f64()
    );
}

const SESSIONS: u64 = 40;

fn tries_of(customer: u64) -> Vec<Record> {
    (1..=3).map(|number| from_line(&line(customer, number)).expect("a record")).collect()
}

/// A till of its own process: this test, started by another one that says where the journal is. It takes up what is
/// open, serves customers until there were enough, and says the numbers that it opened.
#[test]
#[ignore = "the process of another test"]
#[expect(clippy::print_stdout, reason = "the other test reads it")]
fn a_till() {
    let Some(path) = std::env::var_os("TILL_JOURNAL") else { return };
    let journal = Journal::at(path);
    for waiting in journal.open_sessions().expect("the sessions can be listed") {
        // Another till may hold it, or have ended it meanwhile.
        if let Ok((session, notes)) = journal.resume(waiting.customer) {
            serve(session, &notes);
        }
    }
    loop {
        let session = journal.open_session(&["hello"]).expect("a session can be opened");
        println!("\nopened {}", session.customer);
        if session.customer > SESSIONS {
            return session.abandon().expect("it can be removed");
        }
        serve(session, &["hello".to_owned()]);
    }
}

fn serve(mut session: lidladder::journal::OpenSession, notes: &[String]) {
    let tries = tries_of(session.customer);
    if notes.is_empty() {
        session.note("hello").expect("a note");
    }
    for record in &tries[notes.len().saturating_sub(1)..] {
        session.note(&to_line(record)).expect("a note");
    }
    session.finish(&tries).expect("it can be finished");
}

fn start_till(journal: &Path) -> Child {
    let mut command = Command::new(std::env::current_exe().expect("this binary"));
    command.args(["--exact", "journal_command::tills::a_till", "--ignored", "--nocapture"]);
    command.env("TILL_JOURNAL", journal).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::inherit());
    command.spawn().expect("it starts")
}

fn opened(till: Child) -> Vec<u64> {
    let said = till.wait_with_output().expect("it ends").stdout;
    let said = String::from_utf8(said).expect("UTF-8");
    said.lines().filter_map(|line| line.strip_prefix("opened ")?.parse().ok()).collect()
}

#[test]
fn sessions_of_tills_that_are_killed_make_the_same_journal() {
    let folder = Folder::new();
    let path = folder.path().join("j.jsonl");
    let journal = Journal::at(&path);
    let mut steady: Vec<Child> = (0..2).map(|_| start_till(&path)).collect();
    let mut numbers = Vec::new();
    let mut lives = 0;
    loop {
        let mut till = start_till(&path);
        thread::sleep(Duration::from_millis(5 + lives * 7 % 40));
        let is_done = till.try_wait().expect("it can be asked").is_some();
        till.kill().expect("it can be killed");
        numbers.extend(opened(till));
        lives += 1;
        if is_done || lives > 200 {
            break;
        }
    }
    for till in steady.drain(..) {
        numbers.extend(opened(till));
    }
    numbers.extend(opened(start_till(&path)));
    assert_eq!(journal.open_sessions().expect("they can be listed"), []);
    let contents = journal.read().expect("it can be read");
    let there: BTreeSet<String> = contents.records.iter().map(|(_, record)| to_line(record)).collect();
    let customers: BTreeSet<u64> = contents.records.iter().map(|(_, record)| record.customer).collect();
    assert!(customers.iter().max() >= Some(&SESSIONS), "{customers:?}");
    let expected: BTreeSet<String> =
        customers.iter().flat_map(|customer| tries_of(*customer)).map(|record| to_line(&record)).collect();
    assert_eq!(there, expected, "whole sessions only");
    assert_eq!(contents.records.len(), there.len(), "each once");
    numbers.retain(|number| *number <= SESSIONS);
    let different: BTreeSet<u64> = numbers.iter().copied().collect();
    assert_eq!(different.len(), numbers.len(), "no number was given twice");
}
