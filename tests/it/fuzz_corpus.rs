//! The corpus of the fuzz targets, replayed: what was found once is not found again. See docs/hostile-input.md.

#[path = "../../fuzz/bodies.rs"]
mod bodies;

use crate::support::{files_below, root};
use rstest::rstest;
use std::fs;
use std::panic::catch_unwind;

#[rstest]
#[case("profile", bodies::profile, 60)]
#[case("measure", bodies::measure, 30)]
#[case("table", bodies::table, 15)]
#[case("whole", bodies::whole, 10)]
fn what_was_found_once_is_not_found_again(#[case] target: &str, #[case] body: fn(&[u8]), #[case] least: usize) {
    let files = files_below(&root().join("fuzz/corpus").join(target));
    assert!(files.len() >= least, "the corpus of {target} has {} files only", files.len());
    for file in files {
        let bytes = fs::read(&file).expect("the corpus can be read");
        assert!(catch_unwind(|| body(&bytes)).is_ok(), "{} is found again", file.display());
    }
}

#[test]
fn the_corpus_is_small_and_its_names_say_what_it_is() {
    let files = files_below(&root().join("fuzz/corpus"));
    let length = |file| fs::metadata(file).expect("it is there").len();
    let all: u64 = files.iter().map(length).sum();
    assert!(all < 300_000, "the corpus has {all} bytes");
    for file in files {
        let name = file.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        let is_word = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        assert!(name.contains('-') && name.chars().all(is_word), "{} says nothing", file.display());
    }
}

/// The bodies would notice: each refuses something that doesn't hold.
#[test]
#[should_panic(expected = "who refuses says why")]
fn a_refusal_without_a_word_is_noticed() {
    bodies::are_drawn(&[], &lidladder::diag::Sources::default());
}
