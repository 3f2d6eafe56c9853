//! `journal add`: what is named is safe, what is wrong is told, and nothing stands there twice.

use super::line;
use crate::support::{Folder, Program, Run};
use rstest::rstest;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::process::Stdio;

/// Hands a text in.
fn add(folder: &Folder, input: &str) -> Run {
    let mut command = Program::new().line("journal add j.jsonl").command(folder.path());
    let mut child = command.stdin(Stdio::piped()).spawn().expect("the program starts");
    let mut stdin = child.stdin.take().expect("it is piped");
    // Whoever finds a bad line reads no further.
    let _ = stdin.write_all(input.as_bytes());
    drop(stdin);
    let output = child.wait_with_output().expect("it ends");
    Run {
        stdout: String::from_utf8(output.stdout).expect("UTF-8"),
        stderr: String::from_utf8(output.stderr).expect("UTF-8"),
        status: output.status.code().expect("no signal ended it"),
    }
}

fn journal(folder: &Folder) -> String {
    fs::read_to_string(folder.path().join("j.jsonl")).expect("there is a journal")
}

#[test]
fn records_come_in_once_however_often_they_are_handed_in() {
    let folder = Folder::new();
    let input = [line(1, 1), line(1, 2), line(2, 1)].join("\n");
    for _ in 0..2 {
        assert_eq!(add(&folder, &input).good(), "1/1\n1/2\n2/1\n");
        assert_eq!(journal(&folder), format!("{input}\n"));
    }
    assert_eq!(add(&folder, "").good(), "");
    assert_eq!(add(&folder, &format!("\u{feff}{}\r\n\r\n", line(3, 1))).good(), "3/1\n");
}

#[test]
fn each_is_named_while_more_is_waited_for() {
    let folder = Folder::new();
    let mut command = Program::new().line("journal add j.jsonl").command(folder.path());
    let mut child = command.stdin(Stdio::piped()).spawn().expect("the program starts");
    let mut stdin = child.stdin.take().expect("it is piped");
    let mut names = BufReader::new(child.stdout.take().expect("it is piped")).lines();
    for customer in 1..=3 {
        writeln!(stdin, "{}", line(customer, 1)).expect("it listens");
        assert_eq!(names.next().expect("a name").expect("UTF-8"), format!("{customer}/1"));
        assert_eq!(journal(&folder).lines().count() as u64, customer);
    }
    drop(stdin);
    assert!(child.wait().expect("it ends").success());
}

#[rstest]
#[case::garbage("nonsense", "this line is no record: expected ident", "standard input:3:2")]
#[case::cut_off(&line(3, 1)[..50], "this line is cut off", "standard input:3:51")]
#[case::a_bad_day(&line(3, 1).replace("-03-", "-13-"), "in this line `day` a day is written", "standard input:3:29")]
#[case::a_newer_one(&line(3, 1).replace("try/1", "try/2"), "this line says `lidladder.try/2`", "standard input:3:2")]
fn a_bad_line_is_told_after_what_went_before_was_written(#[case] bad: &str, #[case] words: &str, #[case] place: &str) {
    let folder = Folder::new();
    let run = add(&folder, &[line(1, 1), line(1, 2), bad.to_owned(), line(4, 1)].join("\n"));
    assert_eq!((run.status, run.stdout.as_str()), (2, "1/1\n1/2\n"), "{}", run.stderr);
    assert!(run.stderr.starts_with("error[journal-line]: "), "{}", run.stderr);
    let flat = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(words) && flat.contains(place), "{}", run.stderr);
    assert_eq!(journal(&folder).lines().count(), 2);
}

#[test]
fn another_record_of_the_same_name_is_told_and_not_written() {
    let folder = Folder::new();
    add(&folder, &line(1, 1)).good();
    let run = add(&folder, &[line(2, 1), line(1, 1).replace("0.88", "0.5"), line(3, 1)].join("\n"));
    assert_eq!((run.status, run.stdout.as_str()), (2, "2/1\n3/1\n"));
    assert!(
        run.stderr.contains("error[journal-clash]: ") && run.stderr.contains("standard input:2:48"),
        "{}",
        run.stderr
    );
    assert_eq!(journal(&folder).lines().count(), 3);
}

#[test]
fn a_line_that_was_cut_off_stays_and_is_ended() {
    let folder = Folder::new();
    let torn = &line(1, 2)[..99];
    folder.write("j.jsonl", format!("{}\n{torn}", line(1, 1)));
    assert_eq!(add(&folder, &line(1, 2)).good(), "1/2\n");
    assert_eq!(journal(&folder), format!("{}\n{torn}\n{}\n", line(1, 1), line(1, 2)));
    let run = folder.run("journal verify j.jsonl");
    assert!(run.status == 1 && run.stdout.contains("--> j.jsonl:2:100\n"), "{}", run.stdout);
}

#[cfg(target_os = "linux")]
mod linux {
    use super::*;
    use std::os::unix::fs::PermissionsExt;
    use std::process::Command;

    /// A limit for the length of a file ends a write in its midst, as a full disk does.
    #[test]
    fn a_full_disk_is_told_and_takes_nothing_that_was_named() {
        let folder = Folder::new();
        let records: Vec<String> = (1..=30).map(|customer| line(customer, 1)).collect();
        folder.write("in.jsonl", records.join("\n") + "\n");
        let program = env!("CARGO_BIN_EXE_lidladder");
        // Blocks of 512 or of 1024 bytes, as the shell has it; the signal that would end the program is ignored.
        let script = format!("trap '' XFSZ; ulimit -f 12; exec {program} journal add j.jsonl < in.jsonl");
        let run = Command::new("sh").args(["-c", &script]).current_dir(folder.path()).output().expect("a shell");
        let told = String::from_utf8(run.stderr).expect("UTF-8");
        assert_eq!((run.status.code(), run.stdout.as_slice()), (Some(2), b"".as_slice()), "{told}");
        assert!(told.contains("error[journal-unwritable]: can't write to"), "{told}");
        let written = journal(&folder);
        assert!(!written.is_empty() && !written.ends_with('\n'), "the write ended in the midst of a line");
        let names: String = (1..=30).map(|customer| format!("{customer}/1\n")).collect();
        assert_eq!(add(&folder, &records.join("\n")).good(), names);
        assert!(journal(&folder).starts_with(&written));
        let whole = journal(&folder).lines().filter(|line| records.iter().any(|record| record == line)).count();
        assert_eq!((whole, journal(&folder).lines().count()), (30, 31));
    }

    #[test]
    fn a_full_device_and_other_strange_files_are_not_written_to() {
        let folder = Folder::new();
        for path in ["/dev/full", "/dev/zero"] {
            let run = folder.run(&format!("journal add {path}"));
            assert!(run.status == 2 && run.stderr.contains("is a pipe, a socket or a device"), "{}", run.stderr);
        }
    }

    #[test]
    #[expect(clippy::print_stdout, reason = "a skipped check must be seen")]
    fn a_file_that_may_only_be_read_is_told() {
        let folder = Folder::new();
        let path = folder.write("j.jsonl", line(1, 1) + "\n");
        fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).expect("it is ours");
        if fs::OpenOptions::new().append(true).open(&path).is_ok() {
            println!("skipped: this user may write everything");
            return;
        }
        let run = add(&folder, &line(2, 1));
        assert!(run.status == 2 && run.stderr.contains("can't open j.jsonl: Permission denied"), "{}", run.stderr);
        assert!(folder.run("journal j.jsonl").good().contains("1 try"));
    }

    /// What can't be named has been written all the same, and can be handed in again.
    #[test]
    fn a_name_that_cannot_be_told_is_a_fault() {
        let folder = Folder::new();
        folder.write("in.jsonl", line(1, 1) + "\n");
        let program = env!("CARGO_BIN_EXE_lidladder");
        let script = format!("{program} journal add j.jsonl < in.jsonl > /dev/full");
        let run = Command::new("sh").args(["-c", &script]).current_dir(folder.path()).output().expect("a shell");
        assert_eq!(run.status.code(), Some(2));
        assert_eq!(journal(&folder), line(1, 1) + "\n");
    }
}
