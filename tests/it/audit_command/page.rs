//! The audit as a page: the figures of the document, the words of the text.

use super::{AUDIT, document, list, number};
use crate::markup::{is_sound, named, parsed, rows, sections, words};
use crate::support::once;

/// A figure as it is written, without its error.
fn value(cell: &str) -> f64 {
    cell.split(['±', ' ']).next().and_then(|text| text.parse().ok()).unwrap_or_else(|| panic!("{cell}"))
}

#[test]
fn a_page_has_the_figures_of_the_document() {
    let run = once(&format!("{AUDIT} --format html"));
    assert_eq!((run.status, run.stderr.as_str()), (1, ""), "rules mislead");
    is_sound(&run.stdout);
    let page = parsed(&run.stdout);
    let document = document(AUDIT);
    for (row, key) in rows(&page, "takes").iter().zip(["shop_rules", "fixed_order", "computed_plan"]) {
        let figures =
            ["tries", "minutes", "no_fit", "minutes_in_all"].map(|name| number(&document[key][name]["value"]));
        let shown = [1, 2, 3, 4].map(|column| value(&row[column]));
        let [tries, minutes, no_fit, in_all] = figures;
        for (shown, figure) in shown.into_iter().zip([tries, minutes, 100.0 * no_fit, in_all]) {
            assert!((shown - figure).abs() <= 0.0501, "{row:?}: {figure}");
        }
    }
    let changes = rows(&page, "changes");
    assert_eq!(changes.len(), list(&document["together"]).len());
    for (row, change) in changes.iter().zip(list(&document["together"])) {
        assert!((value(&row[1]) - number(&change["saves"]["value"])).abs() <= 0.0051, "{row:?}");
        assert!(row[0].contains(change["reason"].as_str().expect("a reason")) && row[0].contains('→'), "{row:?}");
    }
    let misleading = named(&page, "h3").map(words).collect::<Vec<_>>();
    assert_eq!(misleading.len(), list(&document["misleading"]).len());
    let often = list(&document["rules"]).iter().filter(|rule| number(&rule["used"]) >= 0.0001).count();
    assert_eq!(rows(&page, "followed").len(), often);
    let silences = rows(&page, "silences");
    let share: f64 = list(&document["silences"]).iter().map(|silence| 1000.0 * number(&silence["share"])).sum();
    let shown: f64 = silences.iter().map(|row| row[1].trim_start_matches('<').parse::<f64>().expect("a number")).sum();
    assert!((share - shown).abs() < 0.05 * share, "{share} and {shown}");
}

#[test]
fn a_page_says_what_the_text_says() {
    let page = once(&format!("{AUDIT} --format html")).stdout.clone();
    let page = parsed(&page);
    let words = words(page.root_element());
    let plain = once(AUDIT).stdout.split_whitespace().collect::<Vec<_>>().join(" ").replace("->", "→");
    let (_, misleading) = plain.split_once("RULES THAT MISLEAD ").expect("they are told");
    let (misleading, _) = misleading.split_once(" NO RULE").expect("what comes behind");
    for sentence in misleading.split(". ").filter(|sentence| !sentence.contains('"')) {
        assert!(words.contains(sentence.trim_end_matches('.')), "{sentence}");
    }
    let expected = [
        "What customers take",
        "What would help most",
        "Rules that mislead",
        "No rule, and the customer leaves",
        "Rules as they are followed",
        "The other rules",
        "Who came in",
        "Cautions",
    ];
    assert_eq!(sections(&page), expected);
}
