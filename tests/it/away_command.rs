//! `lidladder away`: a measuring sheet for home, and what to send a customer who is away.

mod customers;
mod page;

use crate::plan_command::says_the_cautions;
use crate::support::{Folder, eighty_plain_columns, once};
use itertools::Itertools;
use rstest::rstest;
use serde_json::Value;

const MEASURED: &str = "-c 575,578,574 -l 197,199,196 -b 153,152,154";

fn document(line: &str) -> Value {
    once(&format!("{line} --format json")).document()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[track_caller]
fn is_plain_and_narrow(text: &str) {
    eighty_plain_columns(text);
}

#[rstest]
#[case::one(&format!("away order {MEASURED}"), 0, "\nSEND ONE")]
#[case::two("away order -c 575 --profiles cheap", 0, "\nSEND TWO")]
#[case::none("away order -c 575 --type off-road", 1, "\nCOME IN")]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str, #[case] status: i32, #[case] verdict: &str) {
    let run = with_visits_at("400.00").run(line);
    assert_eq!((run.status, run.stderr.as_str()), (status, ""), "{}", run.stdout);
    is_plain_and_narrow(&run.stdout);
    let mut rest = run.stdout.as_str();
    for part in ["HEAD\n", verdict, "\nWAYS", "\nCAUTIONS\n"] {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
    says_the_cautions(rest);
    assert_eq!(run.stdout.contains("\nAT HOME"), status == 0, "whoever gets a helmet is told what to look for");
}

/// A folder with the demo range as `cheap`, where a visit costs another sum.
fn with_visits_at(visit: &str) -> Folder {
    let folder = Folder::with_profiles();
    let shop = std::fs::read_to_string(folder.path().join("profiles/shop.yaml")).expect("the demo range");
    std::fs::rename(folder.path().join("profiles"), folder.path().join("cheap")).expect("a folder can be renamed");
    folder.write("cheap/shop.yaml", shop.replace("visit: 80.00", &format!("visit: {visit}")));
    folder
}

#[test]
fn the_sheet_tells_all_four_measures_and_fits_on_paper() {
    let run = once("away sheet");
    let page = run.good();
    is_plain_and_narrow(page);
    assert!(page.lines().count() <= 66, "{} lines are more than a sheet of A4", page.lines().count());
    for measure in ["Circumference", "Length", "Breadth", "Face width"] {
        let row = page.lines().find(|line| line.starts_with(&format!("  {measure}  "))).expect("a line to write into");
        assert_eq!(row.matches("_______").count(), 3, "three readings: {row}");
    }
    // 1.96 · √(2 · 0.3) · 7 mm = 10.6 for the tape, and · 4 mm = 6.1 for the books.
    assert!(page.contains("more than 11 mm") && page.matches("more than 7 mm").count() == 3);
}

#[test]
fn the_sheet_as_a_page_is_one_file_without_scripts() {
    let folder = with_visits_at("80.00");
    let shop = std::fs::read_to_string(folder.path().join("cheap/shop.yaml")).expect("the demo range");
    let name = "shop: Helmet counter of the demo town (invented)";
    folder.write("cheap/shop.yaml", shop.replace(name, "shop: '<img src=x> & \"Sons\"'"));
    let run = folder.run("away sheet --format html --profiles cheap");
    let (_, body) = run.good().split_once('\n').expect("the kind of document");
    let page = roxmltree::Document::parse(body).expect("every element is closed");
    let named = |name: &'static str| page.descendants().filter(move |node| node.has_tag_name(name));
    for name in ["script", "img", "link", "iframe", "object"] {
        assert_eq!(named(name).count(), 0, "{name}");
    }
    assert!(page.descendants().flat_map(|node| node.attributes()).all(|at| !at.name().starts_with("on")));
    assert!(!body.contains("://"), "nothing comes from elsewhere");
    assert_eq!(named("tr").count(), 5, "a head and four measures");
    let shown = named("p").filter_map(|node| node.text()).find(|text| text.contains("Sons"));
    assert_eq!(shown, Some("from <img src=x> & \"Sons\""));
    let words = named("li").filter_map(|node| node.text()).join(" ");
    let text = once("away sheet").stdout.split_whitespace().join(" ");
    assert!(words.split_whitespace().all(|word| text.contains(word)), "both say the same");
}

#[test]
fn a_document_has_the_fields_that_programs_rely_on() {
    let document = document(&format!("away order {MEASURED}"));
    assert_eq!(
        (document["schema"].as_str(), document["verdict"].as_str()),
        (Some("lidladder.away/1"), Some("send-one"))
    );
    let (one, two) = (&document["one"], &document["two"]);
    assert_eq!([one, two].map(|way| way["helmets"].as_array().expect("a list").len()), [1, 2]);
    let chance = |way: &Value| number(&way["fit_probability"]);
    assert!(chance(two) > chance(one));
    // One of two fits: the first does, or only the second.
    let helmets = two["helmets"].as_array().expect("a list");
    let either = number(&helmets[0]["fit_probability"]) + number(&helmets[1]["only_fit_probability"]);
    assert!((either - chance(two)).abs() < 2e-4, "{either} {}", chance(two));
    // What a single costs, from the shop's assumptions: 7 to send, 7 + 12 + 80 where it doesn't fit, pads and minutes.
    let least = 700.0 + (1.0 - chance(one)) * 9_900.0;
    let pads = number(&one["helmets"][0]["pads_price_minor"]) + 80.0 * number(&one["helmets"][0]["swap_minutes"]);
    let cost = number(&one["expected_cost_minor"]);
    assert!((least - 2.0..=least + pads + 2.0).contains(&cost), "{cost}: {least} and pads {pads}");
}

#[test]
fn what_a_customer_measures_is_less_exact_than_what_staff_does() {
    let sd = |line: &str| number(&document(line)["head"]["measured"][0]["sd_mm"]);
    assert!((sd("away order -c 575") - 7.0).abs() < 1e-9);
    assert!((sd("away order -c 575 --measured-by staff") - 3.0).abs() < 1e-9);
    assert!((sd("away order -c 575±1") - 1.0).abs() < 1e-9);
    // The mean of three: 7 · √(0.7 + 0.3/3) = 6.261, not 7/√3 = 4.041: most of the error is the same each time.
    assert!((sd("away order -c 575,578,574") - 6.261).abs() < 1e-9);
    assert!((sd("away order -b 153,152,154") - 4.0 * 0.8_f64.sqrt()).abs() < 1e-3, "books and ruler: 4 mm");
}

#[test]
fn readings_far_apart_are_told() {
    let near = document("away order -c 575,585");
    assert_eq!(near["warnings"], serde_json::json!([]));
    let run = once("away order -c 575,587");
    assert!(run.stdout.starts_with("LOOK HERE  The readings of the circumference are 12 mm apart"), "{}", run.stdout);
    assert_eq!(run.status, 1);
}

#[rstest]
#[case::decimal_comma("-c 57,5cm", "measure-comma")]
#[case::decimal_comma_in_mm("-b 152,5", "measure-comma")]
#[case::one_of_them_is_no_head("-c 575,57,574", "measure-human")]
#[case::one_of_them_is_no_number("-c 575,x,574", "measure-number")]
#[case::nothing_behind_a_comma("-c 575,576,", "measure-number")]
#[case::too_many(
    "-c 575,575,575,575,575,575,575,575,575,575,575,575,575,575,575,575,575,575,575,575,575",
    "measure-number"
)]
#[case::nothing_left("-c 575 --price-limit 1", "nothing-left")]
fn a_mistake_is_told(#[case] head: &str, #[case] code: &str) {
    let run = once(&format!("away order {head}"));
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains(&format!("error[{code}]")), "{}", run.stderr);
}

#[test]
fn the_same_question_has_the_same_answer() {
    let line = format!("away order {MEASURED} --seed 7");
    assert_eq!(once(&line).stdout, with_visits_at("80.00").run(&line).stdout);
}
