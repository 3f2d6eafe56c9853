//! `range keep` as a buyer and as a program meet it.

use crate::support::{eighty_plain_columns, once};
use rstest::rstest;
use serde_json::Value;

const KEEP: &str = "range keep --heads 20000";

fn document(line: &str) -> Value {
    once(&format!("{line} --format json")).document()
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is no list"))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[rstest]
#[case(KEEP)]
#[case("range keep --heads 5000 --share 100")]
#[case("range keep --heads 5000 --pads standard --population men --always quorrie-peak,wexmarsh-one")]
#[case("range keep --heads 1000 --type off-road")]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str) {
    let page = once(line);
    eighty_plain_columns(page.good());
    let mut rest = page.good();
    for part in
        ["CUSTOMERS ", "\nHOW MANY MODELS SERVE HOW MANY", "\nTHE SMALLEST RANGE ", "\nLEFT OUT\n", "\nCAUTIONS\n"]
    {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
}

#[test]
fn the_curve_rises_to_all_and_the_smallest_range_is_on_it() {
    let document = document(KEEP);
    let curve = list(&document["curve"]);
    assert_eq!(curve.len(), list(&document["models"]).len());
    assert!(curve.iter().zip(1..).all(|(subset, models)| list(&subset["models"]).len() == models));
    assert!(curve.iter().all(|subset| subset["exact"] == true && number(&subset["at_most_more"]) == 0.0));
    assert!(number(&curve[0]["of_served"]["value"]) < 0.95);
    assert_eq!(curve[curve.len() - 1]["of_served"]["value"], 1.0);
    let smallest = &document["smallest"];
    let count = smallest["count"].as_u64().expect("a count") as usize;
    let stay = list(&smallest["stay"]).iter().map(|worth| &worth["model"]).collect::<Vec<_>>();
    assert_eq!(list(&curve[count - 1]["models"]).iter().collect::<Vec<_>>(), stay);
    assert_eq!(stay.len() + list(&smallest["go"]).len(), curve.len());
    let [wanted, has] = [&document["wanted"], &curve[count - 1]["of_served"]["value"]].map(number);
    assert!(has > wanted - 0.005, "{has} of {wanted} on heads that had no part in choosing");
    let spread = &smallest["of_served_spread"];
    assert!(number(&spread["from"]) < number(&spread["mean"]) && number(&spread["mean"]) < number(&spread["to"]));
}

#[test]
fn a_larger_share_takes_more_models_and_what_is_asked_to_stay_stays() {
    let count = |line: &str| document(line)["smallest"]["count"].as_u64().expect("a count");
    let counts = ["95", "99", "99.9", "100%"].map(|share| count(&format!("{KEEP} --share {share}")));
    assert!(counts.is_sorted() && counts[0] < counts[3], "{counts:?}");
    let always = document(&format!("{KEEP} --always quorrie-peak,haspenfell-penny,quorrie-peak"));
    let names = ["haspenfell-penny", "quorrie-peak"];
    assert_eq!(list(&always["curve"])[0]["models"], serde_json::json!(names));
    for subset in list(&always["curve"]) {
        assert!(names.iter().all(|name| list(&subset["models"]).contains(&Value::from(*name))));
    }
}

/// With the pads that the helmets come with more models are needed: a pad replaces a model.
#[test]
fn without_swaps_it_takes_more_models() {
    let count = |line: &str| document(line)["smallest"]["count"].as_u64().expect("a count");
    assert!(count(KEEP) + 3 < count(&format!("{KEEP} --pads standard")));
}

#[test]
fn the_answer_is_the_same_on_any_number_of_threads() {
    let run = |threads: u8| once(&format!("range keep --heads 40000 --threads {threads}"));
    assert_eq!(run(1).good(), run(3).good());
}

#[rstest]
#[case("--share 0", "not-a-number", "a share in percent")]
#[case("--share 101", "not-a-share", "101 % are more than all")]
#[case("--share most", "not-a-number", "`most`")]
#[case("--always wexmarsh-on", "unknown-model", "did you mean `wexmarsh-one`?")]
#[case("--always wexmarsh-one --type off-road", "not-asked-for", "Wexmarsh One is none of the models")]
fn what_makes_no_sense_is_told(#[case] options: &str, #[case] code: &str, #[case] words: &str) {
    let run = once(&format!("{KEEP} {options}"));
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains(&format!("error[{code}]")) && run.stderr.contains(words), "{}", run.stderr);
}
