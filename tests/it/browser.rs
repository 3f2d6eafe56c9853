//! Every page and picture in a real browser. What is there is measured by `tests/browser`, and judged here.

mod bad;
mod facts;
mod pages;
mod rules;
mod seen;

use bad::{BAD, GOOD};
use rstest::rstest;
use rules::Rule;
use seen::{Seen, all};

fn broken<'a>(rule: Rule, pages: impl IntoIterator<Item = &'a Seen>) -> Vec<String> {
    let lines = |seen: &Seen| rule.broken(seen).into_iter().map(|what| format!("{}: {what}", seen.name)).collect();
    pages.into_iter().flat_map(|seen: &Seen| -> Vec<String> { lines(seen) }).collect()
}

#[rstest]
#[case::says_nothing(Rule::SaysNothing)]
#[case::asks_for_nothing(Rule::AsksForNothing)]
#[case::no_sideways_scroll(Rule::NoSidewaysScroll)]
#[case::texts_inside(Rule::TextsInside)]
#[case::texts_apart(Rule::TextsApart)]
#[case::texts_readable(Rule::TextsReadable)]
#[case::pictures_named(Rule::PicturesNamed)]
#[case::marks_as_data(Rule::MarksAsData)]
#[case::headings_in_order(Rule::HeadingsInOrder)]
#[case::one_main(Rule::OneMain)]
#[case::stops_in_order(Rule::StopsInOrder)]
#[case::targets_large(Rule::TargetsLarge)]
#[case::accessible(Rule::Accessible)]
#[case::sheets_whole(Rule::SheetsWhole)]
#[case::nothing_beside_the_sheet(Rule::NothingBesideTheSheet)]
#[case::nothing_cut_by_a_sheet(Rule::NothingCutByASheet)]
fn a_rule_holds_on_every_page_and_catches_what_breaks_it(#[case] rule: Rule) {
    let Some(all) = all() else { return };
    let (known, other): (Vec<&Seen>, Vec<&Seen>) = all.ours.iter().partition(|seen| seen.known.contains(&rule));
    let found = broken(rule, other);
    assert!(found.is_empty(), "{rule:?} is broken:\n{}", found.join("\n"));
    for seen in known {
        assert!(!rule.broken(seen).is_empty(), "{} keeps {rule:?} now: take it off its list of known flaws", seen.name);
    }

    // A page that is all right, nearly broken in every way, and at least one that breaks this rule.
    assert_eq!(broken(rule, [&all.good]), [""; 0]);
    let bad: Vec<_> = BAD.iter().zip(&all.bad).filter(|(bad, _)| bad.rule == rule).collect();
    assert!(!bad.is_empty(), "no bad page for {rule:?}");
    for (bad, seen) in bad {
        let found = rule.broken(seen).join("\n");
        assert!(found.contains(bad.told), "{rule:?} tells {found:?} of {}", bad.body);
    }
}

/// The measuring itself: every page was looked at, at all widths, and what is on it was found.
#[test]
fn the_facts_are_there() {
    let Some(all) = all() else { return };
    for seen in all.ours.iter().chain(&all.bad) {
        assert_eq!(seen.facts.looks.iter().map(|look| look.width).collect::<Vec<_>>(), [360, 768, 1280]);
    }
    let look = &all.good.facts.looks[0];
    assert_eq!((look.pictures.len(), look.pictures[0].texts.len(), look.pictures[0].marks.len()), (1, 3, 2));
    assert_eq!(look.targets.len(), 3);
    assert_eq!(look.landmarks, ["header", "main", "footer", "nav"]);
    let stops: Vec<&str> = all.good.facts.stops.iter().map(|stop| stop.name.as_str()).collect();
    assert_eq!(stops, ["a \"the rows\"", "summary \"More\"", "a \"top\""]);
    let print = all.good.facts.print.as_ref().expect("it is a page");
    assert_eq!((print.sheets.len(), print.rows.len(), GOOD.matches("<tr").count()), (2, 3, 3));
    assert!(print.printed_rows[0].len() > 1, "the head of the table stands on both sheets");
}
