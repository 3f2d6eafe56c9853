//! Cards as pages for paper and for documents.

use super::{deck, list};
use crate::markup::{is_one_whole_page, named, parsed, words};
use itertools::Itertools;

#[test]
fn a_page_is_one_file_without_scripts() {
    is_one_whole_page(deck("html").good());
}

/// Every model once, in the order of the document.
#[test]
fn every_card_is_there_once() {
    let run = deck("html");
    let page = parsed(run.good());
    let ids = named(&page, "article").map(|card| card.attribute("id").expect("an id")).collect_vec();
    let document = deck("json").document();
    let known = list(&document["cards"]).iter().map(|card| card["model"].as_str().expect("an id")).collect_vec();
    assert_eq!(ids, known);
}

/// The same words and figures on every kind of page.
#[test]
fn all_formats_say_the_same() {
    let run = deck("html");
    let page = parsed(run.good());
    let plain = deck("text").stdout.split_whitespace().join(" ");
    for item in named(&page, "li").map(words) {
        assert!(plain.contains(&item.split_whitespace().join(" ")), "{item}");
    }
    let marked = deck("markdown").stdout.replace('\\', "");
    for node in named(&page, "td").chain(named(&page, "li")).map(words) {
        let written = node.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
        assert!(marked.contains(&written), "{node}");
    }
}

/// Rows of a table have as many cells as its head, and a card stands below its own heading.
#[test]
fn tables_of_documents_are_whole() {
    let run = deck("markdown");
    let cells = |line: &str| line.replace("\\|", "").matches('|').count();
    let lines = run.good().lines().collect_vec();
    let mut tables = 0;
    for (above, below) in lines.iter().tuple_windows() {
        if above.starts_with('|') && below.starts_with('|') {
            assert_eq!(cells(above), cells(below), "{above}\n{below}");
        }
        tables += usize::from(below.starts_with("| :---"));
    }
    assert_eq!(tables, 3 * 16, "whom it suits, pads, what is heard");
    assert_eq!(lines.iter().filter(|line| line.starts_with("## ")).count(), 16);
}

/// Words on their grounds, light and dark: a contrast of 4.5 to 1 at least (WCAG 2.2, success criterion 1.4.3).
#[test]
fn every_ground_lets_its_words_be_read() {
    let run = deck("html");
    let style = run.good().split_once("<style>").and_then(|(_, rest)| rest.split_once("</style>")).expect("a style").0;
    let colour = |scheme: &str, name: &str| {
        let value = scheme.split(&format!("--{name}: #")).nth(1).unwrap_or_else(|| panic!("--{name} in {scheme}"));
        let digits: String = value.chars().take_while(char::is_ascii_hexdigit).collect();
        let digits = if digits.len() == 3 { digits.chars().flat_map(|digit| [digit, digit]).collect() } else { digits };
        [0, 2, 4].map(|at| f64::from(u8::from_str_radix(&digits[at..at + 2], 16).expect("a byte")) / 255.0)
    };
    let light = |rgb: [f64; 3]| {
        let linear = rgb.map(|part| if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) });
        0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
    };
    let mut schemes = style.split(":root {").skip(1).collect_vec();
    assert_eq!(schemes.len(), 2, "light, which paper has, too, and dark");
    for scheme in schemes.drain(..) {
        let own = ["s1", "s2", "s3", "s4"].map(|ground| (format!("on-{ground}"), ground));
        let others = ["ink", "soft", "mark"]
            .into_iter()
            .flat_map(|words| ["paper", "panel"].map(|ground| (words.to_owned(), ground)));
        for (words, ground) in own.into_iter().chain(others) {
            let [a, b] = [words.as_str(), ground].map(|name| light(colour(scheme, name)));
            let contrast = (a.max(b) + 0.05) / (a.min(b) + 0.05);
            assert!(contrast >= 4.5, "{words} on {ground}: {contrast}");
        }
    }
}
