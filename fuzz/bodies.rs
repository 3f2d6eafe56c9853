//! What each fuzz target does with its bytes. The ordinary tests replay the corpus through the same functions.
//!
//! A body panics where something doesn't hold; bytes that are refused in good order are no mistake.

#![allow(dead_code, reason = "each target uses one of them")]

use lidladder::catalogue::{Catalogue, Origin, load, load_texts, read_texts};
use lidladder::check::check;
use lidladder::diag::{Diagnostic, Sources, Span, is_invisible};
use lidladder::head::read_measure;
use lidladder::profile;
use lidladder::range::{Chunk, Source, Table, TableFaults};
use lidladder::render::diagnostics::{Style, render};
use std::fmt::Debug;
use std::sync::LazyLock;

/// A text as one of the kinds of files that there are, by the first byte.
pub(crate) fn profile(data: &[u8]) {
    let Some((kind, bytes)) = data.split_first() else { return };
    match kind % 5 {
        0 => reads(bytes, |source, text| profile::helmets(source, text).trusted()),
        1 => reads(bytes, |source, text| profile::shop(source, text).trusted()),
        2 => reads(bytes, |source, text| profile::fallbacks(source, text).trusted()),
        3 => reads(bytes, |source, text| profile::population(source, text).trusted()),
        _ => reads(bytes, profile::customer),
    }
}

/// A measure with or without an error, as an option or a customer's notes have it.
pub(crate) fn measure(data: &[u8]) {
    let Ok(text) = str::from_utf8(data) else { return };
    match read_measure(text) {
        Ok(read) => {
            // That no head has 0 mm is the matter of what a measure can be.
            assert!(read.value.is_finite() && read.value.is_sign_positive(), "{read:?}");
            assert!(read.sd.is_none_or(|sd| sd.is_finite() && sd.is_sign_positive()), "{read:?}");
            assert_eq!(read_measure(text), Ok(read), "the same again");
            assert_eq!(read_measure(&format!(" {text}\t")), Ok(read), "whatever the room around it");
        }
        Err(fault) => assert!(text.get(fault.place.clone()).is_some(), "{fault:?} lies outside of the text"),
    }
}

/// A table of heads.
pub(crate) fn table(data: &[u8]) {
    static BUILT_IN: LazyLock<Catalogue> =
        LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).expect("the built-in range is in order"));
    let population = &BUILT_IN.populations()[0];
    let read = || -> Result<Vec<Chunk>, TableFaults> {
        let mut table = Table::open(data, None, population, 1)?;
        std::iter::from_fn(|| table.next()).map(|piece| piece.and_then(Table::<&[u8]>::heads)).collect()
    };
    let chunks = read();
    assert_eq!(read(), chunks, "the same again");
    match chunks {
        Ok(chunks) => {
            for head in chunks.iter().flat_map(|chunk| (0..chunk.heads.len()).map(|head| chunk.heads.head(head))) {
                assert!(head.to_array().iter().all(|mm| mm.is_finite()), "{head:?}");
            }
            let ends = chunks.iter().map(|chunk| chunk.first..chunk.first + chunk.heads.len() as u64);
            assert!(ends.clone().zip(ends.skip(1)).all(|(one, next)| one.end <= next.start), "no number twice");
        }
        Err(faults) => {
            assert!(!faults.told.is_empty(), "who refuses says why");
            for fault in faults.told {
                assert!(fault.text.get(fault.place.clone()).is_some(), "{fault:?} lies outside of its line");
            }
        }
    }
}

/// Begins a file of a set; its path goes up to the end of the line.
const MARKER: &str = "=== ";

/// A set of files, each behind a line `=== path`.
pub(crate) fn whole(data: &[u8]) {
    let Ok(text) = profile::text_of("set", data.to_vec()) else { return };
    let mut files = Vec::new();
    for part in text.split(MARKER).skip(1) {
        files.push(part.split_once('\n').unwrap_or((part, "")));
    }
    let mut sources = Sources::default();
    let read = load_texts(&files, "", &mut sources);
    if let Err(problems) = &read {
        are_drawn(problems, &sources);
    }
    assert_eq!(load_texts(&files, "", &mut Sources::default()), read, "the same again");
    is_checked(&files, read.is_err());
    // In whatever order they come.
    files.reverse();
    let other = load_texts(&files, "", &mut Sources::default());
    assert_eq!(other.is_ok(), read.is_ok(), "the order of files decides nothing");
}

/// Whatever the files say, `check` finds a way through them, and an error where and only where they can't be used.
fn is_checked(files: &[(&str, &str)], is_refused: bool) {
    let mut sources = Sources::default();
    let draft = read_texts(files, "", &mut sources);
    let findings = check(&draft, &sources);
    assert_eq!(findings.iter().any(Diagnostic::is_error), is_refused, "{findings:?}");
    if !findings.is_empty() {
        are_drawn(&findings, &sources);
    }
}

fn reads<T: Debug + PartialEq>(bytes: &[u8], read: fn(lidladder::diag::SourceId, &str) -> Result<T, Vec<Diagnostic>>) {
    let mut sources = Sources::default();
    let text = match profile::text_of("file.yaml", bytes.to_vec()) {
        Ok(text) => text,
        Err(problem) => return are_drawn(&[problem], &sources),
    };
    let source = sources.add("file.yaml", text);
    let text = &sources.get(source).text;
    let value = read(source, text);
    assert_eq!(read(source, text), value, "the same again");
    match value {
        Err(problems) => are_drawn(&problems, &sources),
        // A comment that sends the text the long way, behind a break that ends any text before it.
        Ok(value) => assert_eq!(read(source, &format!("{text}\n# &\n")), Ok(value), "a comment changes nothing"),
    }
}

/// Problems have places within their texts, and drawing them writes nothing that a terminal obeys.
pub(crate) fn are_drawn(problems: &[Diagnostic], sources: &Sources) {
    assert!(!problems.is_empty(), "who refuses says why");
    for problem in problems {
        for label in problem.place.iter().chain(&problem.related) {
            let Span { source, start, end } = label.span;
            assert!(sources.get(source).text.get(start..end).is_some(), "{problem:?} lies outside of the text");
        }
    }
    // Drawing two hundred takes longer than all the rest, and teaches nothing that ten don't.
    let drawing = render(&problems[..problems.len().min(10)], sources, Style::Plain);
    assert!(drawing.ends_with('\n'), "the last line counts");
    let obeyed = drawing.chars().find(|character| *character != '\n' && is_invisible(*character));
    assert_eq!(obeyed, None, "{drawing:?}");
}
