//! What to send, as a page.

use super::{MEASURED, number, with_visits_at};
use crate::markup::{is_sound, named, parsed, rows, says_as_much, words};
use crate::support::Folder;
use itertools::Itertools;
use rstest::rstest;

#[rstest]
#[case::one(&format!("away order {MEASURED}"), 0, "Send one")]
#[case::two("away order -c 575 --profiles cheap", 0, "Send two, one comes back")]
#[case::none("away order -c 575 --type off-road", 1, "Come in")]
fn a_page_begins_with_the_answer_and_has_the_figures_of_the_document(
    #[case] line: &str,
    #[case] status: i32,
    #[case] verdict: &str,
) {
    let folder = if line.contains("cheap") { with_visits_at("400.00") } else { Folder::new() };
    let run = folder.run(&format!("{line} --format html"));
    assert_eq!((run.status, run.stderr.as_str()), (status, ""));
    is_sound(&run.stdout);
    says_as_much(&run.stdout, &folder.run(line).stdout);
    let page = parsed(&run.stdout);
    assert_eq!(named(&page, "h1").next().map(words).as_deref(), Some(verdict));
    let document = folder.run(&format!("{line} --format json")).document();
    let ways = rows(&page, "ways");
    let proposals = ["one", "two"].into_iter().filter(|way| !document[way].is_null()).collect_vec();
    assert_eq!(ways.len(), proposals.len() + 1, "and a visit");
    for (row, way) in ways.iter().zip(proposals) {
        let chance = 100.0 * number(&document[way]["fit_probability"]);
        let cost = number(&document[way]["expected_cost_minor"]) / 100.0;
        let shown =
            |cell: &str| cell.split(['±', ' ']).next().and_then(|text| text.parse::<f64>().ok()).expect("a number");
        assert!((shown(&row[1]) - chance).abs() <= 0.501 && (shown(&row[3]) - cost).abs() <= 0.0101, "{row:?}");
    }
}

#[test]
fn names_are_texts_and_nothing_else() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/shop.yaml", "shop: Helmet counter of the demo town (invented)", r#"shop: '<b>&"'"#);
    let run = folder.run(&format!("away order {MEASURED} --profiles profiles --format html"));
    is_sound(run.good());
    assert!(run.stdout.contains("from &lt;b&gt;&amp;&quot;</p>"));
}
