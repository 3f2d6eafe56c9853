//! The order as a page.

use crate::markup::{is_sound, parsed, rows, says_as_much, sections};
use crate::support::{Folder, once};
use itertools::Itertools;
use rstest::rstest;
use serde_json::Value;

#[rstest]
#[case("pads wexmarsh-one M sides=9.5 cheeks=27.5")]
#[case("pads dunvarrick-gravel M brow=7 rear=12 cheeks=27 --sets 2 --in-drawer brow=7")]
#[case("pads wexmarsh-one M sides=9.5 sides=17.5 --stock --sets 20")]
#[case("pads wexmarsh-one M sides=9.5 --in-drawer sides=9.5")]
fn a_page_has_the_figures_of_the_document(#[case] line: &str) {
    let run = once(&format!("{line} --format html"));
    is_sound(run.good());
    says_as_much(&run.stdout, &once(line).stdout);
    let page = parsed(&run.stdout);
    assert_eq!(sections(&page).last().map(String::as_str), Some("Cautions"));
    let document = once(&format!("{line} --format json")).document();
    let number = |value: &Value| value.as_u64().expect("a whole number");
    let lines = document["best"]["order"].as_array().expect("a list").iter();
    let amount = |minor: u64| format!("{}.{:02}", minor / 100, minor % 100);
    let expected = lines.map(|line| {
        [number(&line["count"]).to_string(), amount(number(&line["count"]) * number(&line["price_minor"]))]
    });
    let expected = expected.collect_vec();
    let mut shown = rows(&page, "order").into_iter().map(|row| [row[1].clone(), row[2].clone()]).collect_vec();
    if expected.len() > 1 {
        let sum = shown.pop().expect("the sum");
        assert_eq!(sum, [String::new(), amount(number(&document["best"]["bill_minor"]))]);
    }
    assert_eq!(shown, expected);
}

#[test]
fn names_are_texts_and_nothing_else() {
    let folder = Folder::with_profiles();
    let name = "<b>&'</dl>";
    folder.edit("profiles/helmets/quorrie.yaml", "maker: Tollern", &format!("maker: \"{name}\""));
    folder.edit("profiles/helmets/quorrie.yaml", "name: Quorrie Peak", &format!("name: \"{name}\""));
    let page = folder.run("pads quorrie-peak M cheeks=29.5 --profiles profiles --format html");
    if page.status == 0 {
        is_sound(&page.stdout);
        assert!(sections(&parsed(&page.stdout)).contains(&format!("Order from {name}")));
    } else {
        panic!("{}", page.stderr);
    }
}
