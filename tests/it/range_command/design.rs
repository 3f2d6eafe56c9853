//! `range design`.

use crate::support::{Folder, eighty_plain_columns, lidladder, once};
use rstest::rstest;
use serde_json::Value;

fn document(line: &str) -> Value {
    once(&format!("{line} --format json")).document()
}

fn share(value: &Value) -> f64 {
    value["value"].as_f64().unwrap_or_else(|| panic!("{value} is no share"))
}

#[rstest]
#[case::worth_having("range design --heads 8192 --type adventure", 0, &["CUSTOMERS WITHOUT A HELMET", "THE NEW MODEL THAT WOULD WIN MOST", "WHAT EACH PART OF IT WINS", "ANOTHER SHAPE", "THE BEST MODEL OF EACH SHAPE", "A MODEL THAT EXISTS", "HOW SURE", "CAUTIONS"])]
#[case::nothing_to_win("range design --heads 8192", 1, &["CUSTOMERS WITHOUT A HELMET", "NO NEW MODEL IS WORTH HAVING", "HOW SURE", "CAUTIONS"])]
fn a_page_has_its_parts(#[case] line: &str, #[case] status: i32, #[case] parts: &[&str]) {
    let run = once(line);
    assert_eq!((run.status, run.stderr.as_str()), (status, ""), "{}", run.stdout);
    eighty_plain_columns(&run.stdout);
    let mut rest = run.stdout.as_str();
    for part in parts {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
}

#[rstest]
#[case("range design --heads 16384 --type adventure")]
#[case("range design --heads 16384 --price-limit 200 --seed 5")]
#[case("range design --heads 16384 --type off-road --type open-face --population men")]
fn nobody_is_won_who_is_not_there_to_win(#[case] line: &str) {
    let document = document(line);
    let gap = share(&document["gap"]);
    let best = &document["best"];
    let gain = share(&best["wins"]);
    assert!(0.0 < gain && gain <= gap, "{gain} of {gap}");
    for part in best["parts"].as_array().expect("parts") {
        let lost = share(&part["loses"]);
        assert!((0.0..=gain).contains(&lost), "{part} of {gain}");
    }
    for at in document["by_shape_index"].as_array().expect("a curve") {
        assert!(share(&at["wins"]) <= gap, "{at}");
    }
    let spread = &best["wins_spread"];
    let [from, mean, to] = ["from", "mean", "to"].map(|key| spread[key].as_f64().expect("a number"));
    assert!(0.0 <= from && from <= mean && mean <= to, "{spread}");
}

#[test]
fn the_next_best_has_another_shape() {
    let document = document("range design --heads 16384 --type adventure");
    let index = |design: &Value| design["design"]["shape_index"].as_f64().expect("an index");
    // profile_error.by_eye.shape_index of the demo shop.
    assert!((index(&document["best"]) - index(&document["next"])).abs() >= 1.0);
    let more = share(&document["lead"]["more"]);
    let difference = share(&document["best"]["wins"]) - share(&document["next"]["wins"]);
    assert!((more - difference).abs() < 3e-5, "{more} against {difference}");
}

#[test]
fn the_number_of_threads_changes_nothing() {
    let line = "range design --heads 40000 --type adventure --format json";
    let [one, three] = [1, 3].map(|threads| lidladder(&format!("{line} --threads {threads}")).stdout);
    assert!(one == three);
}

/// A design that is bought leaves its customers no gap: written as a profile, it wins what was said.
#[test]
fn a_design_that_is_built_wins_its_customers() {
    let folder = Folder::with_profiles();
    let ask = "range design --profiles profiles --type adventure --format json";
    let before = folder.run(ask).document();
    let design = &before["best"]["design"];
    folder.write("profiles/helmets/new.yaml", profile(&before));
    let after = folder.run(ask).document();
    let won = share(&before["gap"]) - share(&after["gap"]);
    assert!((won - share(&before["best"]["wins"])).abs() < 3e-5, "{won} for {design}");
}

/// The best design as a file of helmets.
fn profile(document: &Value) -> String {
    let design = &document["best"]["design"];
    let number = |value: &Value| value.as_f64().expect("a number");
    let standard = document["standard_pads_mm"].as_object().expect("pads");
    let pads: Vec<String> = standard.iter().map(|(zone, mm)| format!("{zone}: {mm}")).collect();
    let tunable = design["tunable"].as_array().expect("zones").iter().map(|zone| zone.as_str().expect("a zone"));
    // Two thinner and two thicker pads, 2 mm apart, as in the demo shop.
    let offered = tunable.flat_map(|zone| {
        let middle = number(&standard[zone]);
        [-4.0, -2.0, 0.0, 2.0, 4.0]
            .map(|more| format!("          - {{zone: {zone}, thickness_mm: {}, price: 20.00}}\n", middle + more))
    });
    let offered: String = offered.collect();
    let offered = if offered.is_empty() { offered } else { format!("        pads:\n{offered}") };
    let sizes = design["sizes"].as_array().expect("sizes").iter().map(|label| {
        let rung = document["ladder"].as_array().expect("a ladder").iter().find(|rung| rung["label"] == *label);
        let range = &rung.expect("the size is one of the ladder")["circumference_mm"];
        format!(
            "      - id: {}\n        sizes:\n          - label: {}\n            circumference_cm: [{}, {}]\n            \
             standard_pads_mm: {{{}}}\n{offered}",
            label.as_str().expect("a label").to_lowercase(),
            label.as_str().expect("a label"),
            number(&range[0]) / 10.0,
            number(&range[1]) / 10.0,
            pads.join(", ")
        )
    });
    format!(
        "schema: 1\nmaker: Nobody\nfamily: New\npads_trade: sale\nswap_minutes: {{brow: 1, rear: 1, sides: 1, crown: 1, \
         cheeks: 1}}\nmodels:\n  - id: new-one\n    name: New One\n    type: adventure\n    price: 300.00\n    interior: \
         {{shape_index: {}, origin: by-eye}}\n    attributes:\n      mass_g: 1500\n      spectacle_channel: true\n      \
         intercom_ready: true\n      chin_room: medium\n      approvals: [UN R22.06]\n    shells:\n{}",
        design["shape_index"],
        sizes.collect::<String>()
    )
}

#[test]
fn filters_that_leave_nothing_are_told() {
    let run = lidladder("range design --type adventure --price-limit 1");
    assert_eq!(run.status, 2);
    assert!(run.stderr.contains("error[nothing-left]"), "{}", run.stderr);
}
