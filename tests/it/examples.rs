//! Pictures in the documents are those that the program draws; `LIDLADDER_UPDATE=1` draws them anew.

use crate::support::{once, root};
use rstest::rstest;
use std::fs;

#[rstest]
#[case("cut.svg", "fit haspenfell-plum --circumference 58cm --length 205 --breadth 150 --format svg")]
#[case("plan.svg", "plan --circumference 57.5cm --format svg")]
#[case("fallbacks.svg", "fallbacks --format svg")]
#[case("range-map.svg", "range --format svg")]
fn a_picture_of_the_documents_is_the_one_of_today(#[case] file: &str, #[case] line: &str) {
    let path = root().join("docs/examples").join(file);
    let run = once(line);
    if std::env::var_os("LIDLADDER_UPDATE").is_some() {
        fs::write(&path, &run.stdout).expect("the picture can be written");
    }
    let there = fs::read_to_string(&path).unwrap_or_default();
    assert!(there == run.stdout, "docs/examples/{file} is out of date: run this test with LIDLADDER_UPDATE=1");
}
