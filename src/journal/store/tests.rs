use super::*;
use crate::journal::{BadLine, from_line, to_line};
use proptest::prelude::*;
use rstest::rstest;
use std::fs;
use std::io::Cursor;
use std::path::Path;
use std::sync::atomic::{AtomicU32, Ordering};

/// A folder that goes when it is dropped.
struct Folder(PathBuf);

impl Folder {
    fn new() -> Self {
        static COUNT: AtomicU32 = AtomicU32::new(0);
        let name = format!("lidladder-{}-{}", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed));
        let path = std::env::temp_dir().join(name);
        fs::create_dir_all(&path).unwrap();
        Self(path)
    }

    fn journal(&self) -> Journal {
        Journal::at(self.0.join("journal.jsonl"))
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}

fn record(customer: u64, number: u32) -> Record {
    from_line(&format!(
        r#"{{"schema":"lidladder.try/1","day":"2026-03-14","customer":{customer},"try":{number},"population":"adults","readings":[],"shape":null,"wears":[],"model":"wexmarsh-one","size":"M","fit_probability":null,"rounds":[{{"pads_mm":{{"brow":10.0,"rear":12.0,"sides":12.0,"crown":null,"cheeks":30.0}},"reason":null,"minutes":11.0}}]}}"#
    ))
    .unwrap()
}

fn records(journal: &Journal) -> Vec<Record> {
    journal.read().unwrap().records.into_iter().map(|(_, record)| record).collect()
}

fn cut(path: &Path, length: u64) {
    fs::OpenOptions::new().write(true).open(path).unwrap().set_len(length).unwrap();
}

fn length(journal: &Journal) -> u64 {
    fs::metadata(journal.path()).unwrap().len()
}

#[test]
fn what_is_handed_in_again_is_not_written_again() {
    let folder = Folder::new();
    let journal = folder.journal();
    let mut other = record(1, 1);
    other.fit_probability = Some(0.5);
    let all = [record(1, 1), record(1, 1), other.clone(), record(1, 2)];
    let outcomes = [Outcome::Written, Outcome::Known, Outcome::Clash, Outcome::Written];
    assert_eq!(journal.append(&all).unwrap(), outcomes);
    assert_eq!(journal.append(&all[1..]).unwrap(), [Outcome::Known, Outcome::Clash, Outcome::Known]);
    assert_eq!(records(&journal), [record(1, 1), record(1, 2)]);
}

#[test]
fn a_line_torn_at_any_byte_is_ended_and_takes_nothing_with_it() {
    let folder = Folder::new();
    let journal = folder.journal();
    journal.append(&[record(1, 1)]).unwrap();
    let before = length(&journal);
    journal.append(&[record(2, 1)]).unwrap();
    let after = length(&journal);
    let whole = fs::read(journal.path()).unwrap();
    for torn in before..=after {
        fs::write(journal.path(), &whole).unwrap();
        cut(journal.path(), torn);
        // All but the line break is enough.
        let is_whole = torn + 1 >= after;
        let seen = if is_whole { vec![record(1, 1), record(2, 1)] } else { vec![record(1, 1)] };
        assert_eq!(records(&journal), seen);
        journal.append(&[record(2, 1), record(3, 1)]).unwrap();
        let contents = journal.read().unwrap();
        let there: Vec<Record> = contents.records.into_iter().map(|(_, record)| record).collect();
        assert_eq!(there, [record(1, 1), record(2, 1), record(3, 1)], "{torn}");
        let is_clean = is_whole || torn == before;
        assert_eq!(contents.bad_lines, usize::from(!is_clean), "{torn}");
        if !is_clean {
            assert_eq!((contents.bad[0].line, &contents.bad[0].why), (2, &BadLine::CutOff));
            assert_eq!(&fs::read(journal.path()).unwrap()[..torn as usize], &whole[..torn as usize], "never rewritten");
        }
    }
}

#[test]
fn a_writer_sees_what_others_did_meanwhile() {
    let folder = Folder::new();
    let journal = folder.journal();
    let mut writer = journal.writer();
    writer.append(&[record(1, 1), record(2, 1)]).unwrap();
    journal.append(&[record(3, 1)]).unwrap();
    assert_eq!(writer.append(&[record(3, 1)]).unwrap(), [Outcome::Known]);
    // Somebody takes a customer out by hand, and the file grows again beyond where it was.
    let kept: String = [2, 3, 4, 5].map(|customer| to_line(&record(customer, 1)) + "\n").concat();
    fs::write(journal.path(), kept).unwrap();
    assert_eq!(writer.append(&[record(1, 1), record(5, 1)]).unwrap(), [Outcome::Written, Outcome::Known]);
}

#[rstest]
#[case::crlf("\r\n", "", 2)]
#[case::mark("\n", "\u{feff}", 2)]
#[case::empty_lines("\n\n \t\r\n\n", "\n", 6)]
fn other_editors_are_put_up_with(#[case] end: &str, #[case] start: &str, #[case] second: usize) {
    let lines = [record(1, 1), record(1, 2)].map(|record| to_line(&record));
    let text = format!("{start}{}", lines.join(end));
    let read: Vec<Line> = Lines::new(Cursor::new(text)).map(Result::unwrap).collect();
    assert_eq!(read.len(), 2);
    assert_eq!((read[1].record(), read[1].is_ended), (Ok(record(1, 2)), false));
    assert_eq!(read[1].number, second);
}

#[test]
fn garbage_is_a_bad_line_and_no_more() {
    let folder = Folder::new();
    let journal = folder.journal();
    let good = to_line(&record(1, 1));
    let long = "x".repeat(3 << 20);
    let mut bytes = [b"\xff\xfe\n".as_slice(), good.as_bytes(), b"\n", long.as_bytes(), b"\n\0\0\0\n"].concat();
    bytes.extend_from_slice(&[0; 100]);
    fs::write(journal.path(), bytes).unwrap();
    let contents = journal.read().unwrap();
    assert_eq!(contents.records, [(2, record(1, 1))]);
    assert_eq!(contents.bad.iter().map(|bad| bad.line).collect::<Vec<_>>(), [1, 3, 4, 5]);
    assert_eq!(contents.bad[1].why, BadLine::TooLong);
    assert!(contents.bad.iter().all(|bad| bad.excerpt.chars().count() <= 61));
}

#[test]
fn many_bad_lines_are_counted_and_some_kept() {
    let folder = Folder::new();
    let journal = folder.journal();
    fs::write(journal.path(), "x\n".repeat(MOST_BAD + 5)).unwrap();
    let contents = journal.read().unwrap();
    assert_eq!((contents.bad.len(), contents.bad_lines), (MOST_BAD, MOST_BAD + 5));
}

#[test]
fn a_folder_is_no_journal_and_a_missing_one_is_told() {
    let folder = Folder::new();
    let journal = Journal::at(&folder.0);
    assert!(matches!(journal.append(&[]), Err(StoreFault::NoFile { what: "a folder", .. })));
    assert!(matches!(journal.read(), Err(StoreFault::NoFile { .. })));
    assert!(matches!(folder.journal().read(), Err(StoreFault::System { step: "read", .. })));
    assert_eq!(folder.journal().open_sessions().unwrap(), []);
    assert!(!folder.journal().path().exists(), "looking makes nothing");
}

#[test]
fn numbers_go_on_from_whatever_shows_one() {
    let folder = Folder::new();
    let journal = folder.journal();
    let open = |notes: &[&str]| journal.open_session(notes).unwrap();
    assert_eq!(open(&[]).customer, 1, "and it stays open");
    journal.append(&[record(4, 1)]).unwrap();
    assert_eq!(open(&["a"]).customer, 5);
    let torn = &to_line(&record(90, 1))[..80];
    fs::write(journal.path(), format!("{torn}\n{{\"customer\" : x\n")).unwrap();
    assert_eq!(open(&[]).customer, 91);
    fs::write(journal.path().with_file_name("journal.jsonl.open").join("0100.jsonl"), "").unwrap();
    assert_eq!(open(&[]).customer, 92, "no name of ours");
    fs::write(journal.path(), to_line(&record(u64::MAX, 1))).unwrap();
    assert!(matches!(journal.open_session(&[]), Err(StoreFault::NoNumberLeft { highest: u64::MAX, .. })));
}

#[test]
fn a_session_is_taken_up_where_its_last_whole_note_ends() {
    let folder = Folder::new();
    let journal = folder.journal();
    let mut session = journal.open_session(&["who", "what"]).unwrap();
    session.note("").unwrap();
    session.note("temples press").unwrap();
    assert!(matches!(session.note("a\nb"), Err(StoreFault::NoteOfSeveralLines)));
    assert!(matches!(journal.resume(1), Err(StoreFault::InUse(1))));
    assert!(matches!(journal.resume(2), Err(StoreFault::NoSession(2))));
    let held = Waiting { customer: 1, first_note: Some("who".to_owned()), is_held: true };
    assert_eq!(journal.open_sessions().unwrap(), std::slice::from_ref(&held));
    let path = folder.0.join("journal.jsonl.open/1.jsonl");
    drop(session);
    assert_eq!(journal.open_sessions().unwrap(), [Waiting { is_held: false, ..held }]);
    let whole = fs::read(&path).unwrap();
    let last = whole.len() - "temples press\n".len();
    for torn in last..whole.len() {
        fs::write(&path, &whole[..torn]).unwrap();
        for _ in 0..2 {
            let (_, notes) = journal.resume(1).unwrap();
            assert_eq!(notes, ["who", "what", ""], "however often it is taken up");
        }
        let (mut session, _) = journal.resume(1).unwrap();
        session.note("loose").unwrap();
        drop(session);
        assert_eq!(journal.resume(1).unwrap().1, ["who", "what", "", "loose"]);
    }
}

/// Whatever was done when the program ended, finishing again makes the same journal.
#[test]
fn a_finish_that_was_cut_off_anywhere_is_done_by_the_next() {
    let folder = Folder::new();
    let journal = folder.journal();
    let tries = [record(1, 1), record(1, 2)];
    let lines: String = tries.iter().map(|record| to_line(record) + "\n").collect();
    for written in 0..=lines.len() {
        let session = journal.open_session(&["a"]).unwrap();
        assert_eq!(session.customer, 1);
        drop(session);
        fs::write(journal.path(), &lines[..written]).unwrap();
        let (session, _) = journal.resume(1).unwrap();
        session.finish(&tries).unwrap();
        assert_eq!(records(&journal), tries, "{written}");
        assert!(matches!(journal.resume(1), Err(StoreFault::NoSession(1))));
        assert_eq!(journal.open_sessions().unwrap(), []);
        fs::write(journal.path(), "").unwrap();
    }
}

#[test]
fn a_session_does_not_end_over_a_stranger_in_its_place() {
    let folder = Folder::new();
    let journal = folder.journal();
    let session = journal.open_session(&[]).unwrap();
    let mut stranger = record(1, 1);
    stranger.fit_probability = Some(0.1);
    journal.append(&[stranger]).unwrap();
    assert!(matches!(session.finish(&[record(1, 1)]), Err(StoreFault::Clash { customer: 1, number: 1 })));
    let (session, _) = journal.resume(1).unwrap();
    session.abandon().unwrap();
    assert_eq!(journal.open_sessions().unwrap(), []);
    assert_eq!(records(&journal).len(), 1);
}

#[test]
fn many_who_open_at_once_get_different_numbers() {
    let folder = Folder::new();
    let journal = folder.journal();
    let open = || (0..10).map(|_| journal.open_session(&["x"]).unwrap().customer).collect::<Vec<_>>();
    let mut numbers: Vec<u64> = std::thread::scope(|scope| {
        let tills: Vec<_> = (0..8).map(|_| scope.spawn(open)).collect();
        tills.into_iter().flat_map(|till| till.join().unwrap()).collect()
    });
    numbers.sort_unstable();
    assert_eq!(numbers, (1..=80).collect::<Vec<u64>>());
}

#[derive(Debug, Clone)]
enum Event {
    Append(Vec<(u64, u32)>),
    Tear(u64),
    Rubbish(Vec<u8>),
}

fn event() -> impl Strategy<Value = Event> {
    prop_oneof![
        4 => prop::collection::vec((1..6_u64, 1..4_u32), 0..5).prop_map(Event::Append),
        2 => (1..2000_u64).prop_map(Event::Tear),
        1 => prop::collection::vec(any::<u8>(), 0..40).prop_map(Event::Rubbish),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    /// Tearing takes from the end what was in the file; nothing else ever takes anything.
    #[test]
    fn whatever_happens_every_whole_record_stays_once(events in prop::collection::vec(event(), 1..12)) {
        let folder = Folder::new();
        let journal = folder.journal();
        let mut writer = journal.writer();
        fs::write(journal.path(), "").unwrap();
        for event in events {
            let before = fs::read(journal.path()).unwrap();
            match event {
                Event::Append(keys) => {
                    let handed_in: Vec<Record> = keys.iter().map(|(customer, number)| record(*customer, *number)).collect();
                    let there = records(&journal);
                    let outcomes = writer.append(&handed_in).unwrap();
                    let now = records(&journal);
                    prop_assert!(fs::read(journal.path()).unwrap().starts_with(&before));
                    prop_assert!(now.starts_with(&there));
                    for (record, outcome) in handed_in.iter().zip(outcomes) {
                        prop_assert_ne!(outcome, Outcome::Clash);
                        prop_assert_eq!(now.iter().filter(|other| *other == record).count(), 1);
                    }
                }
                Event::Tear(bytes) => cut(journal.path(), (before.len() as u64).saturating_sub(bytes)),
                Event::Rubbish(bytes) => fs::write(journal.path(), [before, bytes].concat()).unwrap(),
            }
        }
    }
}
