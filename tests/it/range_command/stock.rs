//! `lidladder range stock`: pads for the drawer.

use crate::support::{Folder, Run, eighty_plain_columns, once};
use itertools::Itertools;
use rstest::rstest;
use serde_json::Value;
use std::collections::BTreeMap;

const FEW: &str = "range stock --heads 4000";

#[rstest]
#[case::the_range("", &["KITS, in the order to buy them", "WHAT LIES IN THEM", "WITHOUT A ZONE'S PADS", "at once"])]
#[case::a_budget("--budget 300", &["FOR 300.00 EUR", "no other choice for the money wins more"])]
#[case::nothing_to_spend("--budget 1", &["nothing: no kit is so cheap"])]
#[case::with_a_margin("--margin 0.35", &["one that is missing loses 35 % of its price", "expected until the next delivery"])]
#[case::one_model("--model wexmarsh-one", &["SHELL small", "used by 100"])]
#[case::both_ways("--model dunvarrick-gravel", &["brow 7, 18.00 singly, 14.50 in the pack slim"])]
#[case::a_crowd("--customers-per-week 100000 --delivery-days 300", &["so many are needed that not all ways to buy them could be weighed"])]
#[case::hardly_anybody("--customers-per-week 0.1", &["0 pads of 0 kinds in 0 kits"])]
#[case::one_type("--type open-face", &["DRAWER"])]
fn a_page_says_what_it_is_asked_in_eighty_plain_columns(#[case] options: &str, #[case] parts: &[&str]) {
    let run = once(&format!("{FEW} {options}"));
    let page = run.good();
    eighty_plain_columns(page);
    let words = page.split_whitespace().join(" ");
    for part in parts {
        assert!(words.contains(part), "{part} is missing in\n{page}");
    }
    assert!(words.contains("Only the maker's own pads for that model and size; never stack, cut or mix them"));
    assert!(words.contains("a customer takes one of the models that fit"), "the assumption is named");
}

#[rstest]
#[case::no_number("--margin much", "stock-bounds", "from 0 to 1")]
#[case::not_a_number("--margin NaN", "stock-bounds", "from 0 to 1")]
#[case::never_out_of_stock("--service-level 1", "stock-bounds", "from 0.5 to 0.9999")]
#[case::before_it_is_ordered("--delivery-days -1", "stock-bounds", "from 0.1 to 365")]
#[case::nobody("--customers-per-week 0", "stock-bounds", "from 0.1 to 100000")]
#[case::a_third_decimal("--budget 1.005", "not-a-price", "--budget")]
#[case::no_model("--model wexmarsh-won", "unknown-model", "wexmarsh-one")]
#[case::filtered_away("--type off-road --model wexmarsh-one", "nothing-left", "loosen a filter")]
#[case::no_journal("--journal nowhere.jsonl", "journal-unreadable", "nowhere.jsonl")]
fn a_mistake_is_told_with_what_to_do(#[case] options: &str, #[case] code: &str, #[case] help: &str) {
    let run = once(&format!("{FEW} {options}"));
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    let words = run.stderr.split_whitespace().join(" ");
    assert!(words.contains(&format!("error[{code}]")) && words.contains(help), "{}", run.stderr);
}

#[test]
fn all_mistakes_are_told_at_once() {
    let run = once(&format!("{FEW} --margin 2 --delivery-days soon --budget free"));
    assert!(run.stderr.contains("3 errors"), "{}", run.stderr);
}

#[test]
fn where_leftovers_lose_nothing_a_margin_has_no_best_stock() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/shop.yaml", "left_over_loss: 0.1 ", "left_over_loss: 0.0 ");
    let line = format!("{FEW} --profiles profiles");
    assert_eq!(folder.run(&line).status, 0, "the service level needs no such loss");
    let run = folder.run(&format!("{line} --margin 0.3"));
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains("error[stock-without-limit]"), "{}", run.stderr);
}

fn document(options: &str) -> Value {
    once(&format!("{FEW} {options} --format json")).document()
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn list<'v>(value: &'v Value, key: &str) -> &'v Vec<Value> {
    value[key].as_array().expect("a list")
}

#[test]
fn the_figures_of_a_document_agree_with_each_other() {
    let drawer = document("");
    let one = &drawer["customer"];
    let ways = ["leaves_with_standard_pads", "leaves_with_other_pads", "leaves_with_nothing"];
    assert!((ways.map(|way| number(&one[way]["value"])).iter().sum::<f64>() - 1.0).abs() < 2e-5);
    let used: f64 = list(&drawer, "pads").iter().map(|pad| number(&pad["used"])).sum();
    assert!((used - number(&one["pads"]["value"])).abs() < 1e-3);
    let spent: f64 = list(&drawer, "pads").iter().map(|pad| number(&pad["used"]) * number(&pad["worth_minor"])).sum();
    assert!((spent - number(&one["spent_minor"]["value"])).abs() < 1.0);
    let stock: u64 = list(&drawer, "pads").iter().filter_map(|pad| pad["stock"].as_u64()).sum();
    assert_eq!(drawer["totals"]["pads"], stock);
    let kits = list(&drawer, "kits");
    let bill: u64 = kits.iter().filter_map(|kit| kit["bill_minor"].as_u64()).sum();
    assert_eq!(drawer["totals"]["bill_minor"], bill);
    let mut spent = 0;
    for step in list(&drawer, "order") {
        spent += kits[step["kit"].as_u64().expect("a place") as usize]["bill_minor"].as_u64().expect("an amount");
        assert_eq!(step["spent_minor"], spent);
    }
    assert_eq!(list(&drawer, "order").len() + list(&drawer, "idle_kits").len(), kits.len());
}

/// Shell and pad with how many to have.
fn stocks(drawer: &Value) -> BTreeMap<String, u64> {
    let name =
        |pad: &Value| ["model", "shell", "zone", "thickness_mm", "sizes"].map(|key| pad[key].to_string()).concat();
    list(drawer, "pads").iter().map(|pad| (name(pad), pad["stock"].as_u64().expect("a count"))).collect()
}

#[rstest]
#[case::service("--service-level 0.8", "--service-level 0.99")]
#[case::customers("--customers-per-week 5", "--customers-per-week 80")]
#[case::delivery("--delivery-days 2", "--delivery-days 30")]
#[case::margin("--margin 0.1", "--margin 0.9")]
fn whoever_wants_to_be_surer_never_has_fewer(#[case] less: &str, #[case] more: &str) {
    let (few, many) = (stocks(&document(less)), stocks(&document(more)));
    assert_eq!(few.len(), many.len());
    assert!(few.iter().all(|(pad, stock)| stock <= &many[pad]));
    assert!(few.values().sum::<u64>() < many.values().sum());
}

#[test]
fn a_budget_is_kept() {
    for budget in [50, 300, 1_000] {
        let bought = &document(&format!("--budget {budget}"))["budget"];
        assert!(bought["spent_minor"].as_u64().expect("an amount") <= budget * 100);
        assert!(number(&bought["at_most_times"]) >= 1.0);
    }
}

#[test]
fn one_model_is_shown_as_it_stands_in_the_range() {
    let (all, one) = (document(""), document("--model wexmarsh-one"));
    let of_it = list(&all, "pads").iter().filter(|pad| pad["model"] == "wexmarsh-one").cloned().collect_vec();
    assert_eq!(list(&one, "pads"), &of_it);
    assert_eq!(one["totals"], all["totals"]);
}

fn with_journal(folder: &Folder, options: &str) -> Run {
    folder.run(&format!("{FEW} --profiles profiles --format json {options}"))
}

#[test]
fn what_was_taken_is_taken_again() {
    let folder = Folder::for_documents();
    let plain = with_journal(&folder, "").document();
    let journal = "--journal docs/examples/journal.jsonl";
    let told = with_journal(&folder, journal).document();
    let weights = |drawer: &Value| list(drawer, "models").iter().map(|model| number(&model["weight"])).collect_vec();
    assert!(weights(&plain).iter().all(|weight| (weight - 1.0).abs() < 1e-9));
    let best = weights(&told).into_iter().position_max_by(f64::total_cmp).expect("there are models");
    assert!(weights(&told)[best] > 1.0);
    let id = &list(&told, "models")[best]["model"];
    let used = |drawer: &Value| -> f64 {
        list(drawer, "pads").iter().filter(|pad| pad["model"] == *id).map(|pad| number(&pad["used"])).sum()
    };
    assert!(used(&told) > used(&plain));
    // The same journal twice says no more than once.
    assert_eq!(with_journal(&folder, &format!("{journal} {journal}")).document(), told);
}

#[test]
fn lines_that_are_no_records_are_left_out_and_told() {
    let folder = Folder::for_documents();
    let run = with_journal(&folder, "--journal docs/examples/doubtful.jsonl");
    assert_eq!(run.status, 1);
    assert_eq!(run.document()["warnings"][0]["code"], "learn-left-out");
}

#[test]
fn threads_change_nothing() {
    let with = |threads: u32| once(&format!("range stock --heads 40000 --threads {threads} --format json"));
    assert_eq!(with(1).good(), with(3).good());
}
