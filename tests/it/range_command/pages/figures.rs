//! Every figure of a page is the one of the document.

use super::{table, tables};
use crate::markup::{parsed, words};
use crate::support::once;
use serde_json::Value;
use std::collections::BTreeMap;

/// The tables of a page and the document of the same question.
fn both(line: &str) -> (BTreeMap<String, Vec<Vec<String>>>, Value) {
    let page = once(&format!("{line} --format html"));
    (tables(&parsed(&page.stdout)), once(&format!("{line} --format json")).document())
}

fn list(value: &Value) -> &[Value] {
    value.as_array().unwrap_or_else(|| panic!("{value} is no list"))
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// A number as a page has it is the exact one, rounded; documents round at the fifth decimal of a share.
#[track_caller]
fn is_rounded(words: &str, exact: f64) {
    if words == "<.01" || words == "<0.01" {
        assert!((0.0..0.011).contains(&exact), "{exact}");
        return;
    }
    let shown: f64 = words.parse().unwrap_or_else(|_| panic!("{words:?} is no number"));
    let decimals = words.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    assert!((shown - exact).abs() <= 0.5 * 0.1_f64.powi(decimals as i32) + 1e-3, "{words} for {exact}");
}

/// `91.8±0.4` is a share with its error, of 100; errors are rounded up.
#[track_caller]
fn is_share(words: &str, share: &Value) {
    let (value, error) = words.trim_end_matches(" %").split_once('±').unwrap_or_else(|| panic!("{words:?}"));
    is_rounded(value, 100.0 * number(&share["value"]));
    let (shown, exact) = (error.parse::<f64>().expect("an error"), 100.0 * number(&share["error"]));
    let decimals = error.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    assert!(shown >= exact - 1e-3 && shown <= exact + 0.1_f64.powi(decimals as i32) + 1e-3, "{words} for {exact}");
}

/// `89.8 to 93.2` is where nine in ten worlds lie, of 100.
#[track_caller]
fn is_spread(words: &str, spread: &Value) {
    let (from, to) = words.trim_end_matches(" %").split_once(" to ").unwrap_or_else(|| panic!("{words:?}"));
    is_rounded(from, 100.0 * number(&spread["from"]));
    is_rounded(to, 100.0 * number(&spread["to"]));
}

fn minor(value: &Value) -> String {
    let minor = value.as_u64().expect("an amount");
    format!("{}.{:02}", minor / 100, minor % 100)
}

const RANGE: &str = "range --heads 20000";

#[test]
fn who_is_served() {
    let (tables, document) = both(RANGE);
    let rows = table(&tables, "Who is served");
    for (row, key) in rows.iter().zip(["served_with_standard_pads", "served_with_pads_on_offer"]) {
        is_share(&row[1], &document[key]["share"]);
        is_spread(&row[2], &document[key]["if_profiles_are_off"]);
    }
    let large = once(&format!("{RANGE} --format html"));
    let large =
        large.stdout.split("<b>").skip(1).map(|rest| rest.split("</b>").next().expect("an end")).collect::<Vec<_>>();
    is_share(large[0], &document["served_with_pads_on_offer"]["share"]);
    is_share(large[1], &document["served_with_standard_pads"]["share"]);
    let [standard, any] =
        ["served_with_standard_pads", "served_with_pads_on_offer"].map(|key| number(&document[key]["share"]["value"]));
    is_rounded(large[2], 100.0 * (any - standard));
    is_rounded(large[3], 100.0 * (1.0 - any));
    for (caption, key) in [("Of 100 customers who take", "by_type"), ("Of 100 customers who pay", "by_price")] {
        let rows = table(&tables, caption);
        assert_eq!(rows.len(), list(&document[key]).len());
        for (row, part) in rows.iter().zip(list(&document[key])) {
            assert_eq!(row[1], part["models"].to_string());
            is_share(&row[2], &part["served_with_standard_pads"]);
            is_share(&row[3], &part["served_with_pads_on_offer"]);
        }
    }
}

#[test]
fn models_families_and_what_each_is_worth() {
    let (tables, document) = both(RANGE);
    let models = list(&document["models"]);
    let families = list(&document["families"]).iter().filter(|known| list(&known["models"]).len() > 1);
    let rows = table(&tables, "Each model").iter().zip(models);
    let rows = rows.chain(table(&tables, "Families together").iter().zip(families));
    let mut count = 0;
    for (row, own) in rows {
        let share = |path: &str| 100.0 * own.pointer(path).and_then(Value::as_f64).expect("a share");
        is_rounded(&row[1], share("/served_with_standard_pads/value"));
        is_rounded(&row[2], share("/served_with_pads_on_offer/share/value"));
        is_rounded(&row[3], share("/served_only_by_it/share/value"));
        is_rounded(&row[4], share("/best_fit/value"));
        count += 1;
    }
    assert_eq!(count, 16 + 6);
    let worth = table(&tables, "Customers whom nothing else here serves");
    let by_name = |name: &str| models.iter().find(|model| model["name"] == name).expect("a model");
    for row in worth {
        let own = by_name(&row[0]);
        is_share(&row[1], &own["served_only_by_it"]["share"]);
        is_spread(&row[2], &own["served_only_by_it"]["if_profiles_are_off"]);
        is_rounded(&row[3], 100.0 * number(&own["best_fit"]["value"]));
    }
    let missed = models.iter().filter(|own| number(&own["served_only_by_it"]["share"]["value"]) > 0.0);
    assert_eq!(worth.len(), missed.count());
    let overlap = table(&tables, "Of 100 customers whom the row serves");
    for (row, one) in overlap.iter().zip(models) {
        assert!(row[0].ends_with(one["name"].as_str().expect("a name")));
        for (cell, other) in row[1..].iter().zip(models) {
            let id = other["model"].as_str().expect("an id");
            match one["also_served_by"].get(id) {
                None => assert_eq!(cell, "·"),
                Some(share) => is_rounded(cell, 100.0 * number(share)),
            }
        }
    }
}

#[test]
fn gaps_and_the_first_kits() {
    let line = format!("{RANGE} --type flip-front");
    let (tables, document) = both(&line);
    let gaps = list(&document["gaps"]);
    let rows = table(&tables, "Where most customers");
    assert_eq!(rows.len(), gaps.len());
    for (row, gap) in rows.iter().zip(gaps) {
        is_share(&row[1], &gap["lost"]);
        is_rounded(&row[2], 100.0 * number(&gap["lost"]["value"]) / number(&gap["customers"]["value"]));
        assert!(row[3].contains(&format!(" in {}, but ", gap["nearest"]["size"].as_str().expect("a size"))), "{row:?}");
    }
    let stock = once(&format!("{} --format json", line.replace("range", "range stock"))).document();
    let rows = table(&tables, "Kits in the order to buy them");
    is_rounded(&rows[0][3], 100.0 * number(&stock["served_before"]["value"]));
    assert_eq!(rows.len(), 1 + list(&stock["order"]).len().min(5));
    for (row, step) in rows[1..].iter().zip(list(&stock["order"])) {
        assert_eq!(row[1], minor(&step["spent_minor"]));
        is_rounded(&row[2], 100.0 * number(&step["won"]));
        is_rounded(&row[3], 100.0 * number(&step["served"]["value"]));
    }
}

#[test]
fn what_changes() {
    let line = "range --heads 20000 --drop wexmarsh-slender,lantreth-longways --add wexmarsh-one@83/S/M";
    let (tables, document) = both(line);
    for (row, key) in table(&tables, "Served").iter().zip(["standard", "on_offer"]) {
        let effect = &document["together"][key];
        is_share(&row[1], &effect["before"]);
        is_share(&row[2], &effect["after"]);
        is_share(&row[3], &effect["change"]);
        is_spread(&row[4], &effect["change_spread"]);
    }
    let alone = table(&tables, "Each change by itself");
    assert_eq!(alone.len(), 3);
    for (row, change) in alone.iter().zip(list(&document["changes"])) {
        assert_eq!(row[0], change["name"].as_str().expect("a name"));
        is_share(&row[2], &change["alone"]["standard"]["change"]);
        is_share(&row[3], &change["alone"]["on_offer"]["change"]);
    }
    for key in ["won", "lost"] {
        for (row, group) in table(&tables, key).iter().zip(list(&document[key])).take(4) {
            assert!(row[0].starts_with(&format!("{} (about ", group["size"].as_str().expect("a size"))), "{row:?}");
            is_rounded(row[1].trim_end_matches(" %"), 100.0 * number(&group["share"]));
        }
    }
}

/// The map is that of the range afterwards, cell by cell, and each title has the shares of both.
#[test]
fn the_map_has_both_ranges() {
    let line = "range --heads 20000 --drop lantreth-longways,haspenfell-plum";
    let page = once(&format!("{line} --format html"));
    let now = once("range --heads 20000 --format json").document();
    let page = parsed(page.good());
    let mut marks = [0, 0];
    for cell in page.descendants().filter(|node| node.has_attribute("data-cell")) {
        let place = cell.attribute("data-cell").expect("a place").split_once(' ').expect("two numbers");
        let [cm, index] = [place.0, place.1].map(|text| text.parse::<f64>().expect("a number"));
        let known = list(&now["map"]).iter().find(|known| {
            number(&known["circumference_mm"]) as u64 == (10.0 * cm) as u64
                && number(&known["shape_index"]) as u64 == index as u64
        });
        let known = known.expect("the same heads");
        let heads = number(&known["heads"]);
        let title = words(cell.children().find(|node| node.has_tag_name("title")).expect("a title"));
        let lost = |start: &str| {
            let rest = title.split(start).nth(1).unwrap_or_else(|| panic!("{title}"));
            rest.split(" %").next().and_then(|text| text.parse::<f64>().ok()).expect("a share")
        };
        let (after, before) = (lost("nothing fits "), lost("of them (now: "));
        assert!(
            (before - 100.0 * (heads - number(&known["served_with_pads_on_offer"])) / heads).abs() <= 0.51,
            "{title}"
        );
        assert!(after >= before, "what is dropped wins nobody: {title}");
        let has = |class: &str| cell.children().any(|node| node.attribute("class") == Some(class));
        assert!(!has("won"));
        assert!(has("lost") || after - before <= 1.5, "{title}");
        marks = [marks[0] + usize::from(has("lost")), marks[1] + 1];
    }
    assert!(marks[0] > 20 && marks[1] > 200, "{marks:?}");
}

#[test]
fn how_few_models() {
    let (tables, document) = both("range keep --heads 20000");
    let rows = table(&tables, "The best choice");
    for row in rows {
        let count: usize = row[0].parse().expect("a count");
        let subset = &document["curve"][count - 1];
        is_share(&row[2], &subset["on_offer"]);
        is_share(&row[3], &subset["standard"]);
        is_share(&row[4], &subset["of_served"]);
        assert_eq!(row[1].ends_with(" - enough"), Some(count as u64) == document["smallest"]["count"].as_u64());
    }
    for (caption, key) in [("What stays", "stay"), ("What goes", "go")] {
        let known = list(&document["smallest"][key]);
        let rows = table(&tables, caption);
        assert_eq!(rows.len(), known.len());
        let mut shares: Vec<_> = known.iter().map(|worth| &worth["share"]).collect();
        shares.sort_by(|a, b| number(&b["value"]).total_cmp(&number(&a["value"])));
        rows.iter().zip(shares).for_each(|(row, share)| is_share(&row[1], share));
    }
}

#[test]
fn the_new_model() {
    let (tables, document) = both("range design --heads 20000 --type flip-front");
    let best = &document["best"];
    for (row, part) in table(&tables, "What each part").iter().zip(list(&best["parts"])) {
        is_share(&row[1], &part["loses"]);
    }
    assert_eq!(table(&tables, "What each part").len(), list(&best["parts"]).len());
    let shapes = table(&tables, "The best model of each");
    assert!(shapes.len() > 10);
    for row in shapes {
        let at = |known: &&Value| number(&known["design"]["shape_index"]).to_string() == row[0];
        let known = list(&document["by_shape_index"]).iter().find(at).expect("a design");
        is_share(&row[2], &known["wins"]);
    }
}

#[test]
fn the_drawer() {
    let (tables, document) = both("range stock --heads 20000");
    let (kits, order) = (list(&document["kits"]), list(&document["order"]));
    let rows = table(&tables, "Kits in the order to buy them");
    assert_eq!(rows.len(), 1 + order.len());
    for (row, step) in rows[1..].iter().zip(order) {
        let kit = &kits[step["kit"].as_u64().expect("a place") as usize];
        assert_eq!((&row[2], &row[3]), (&minor(&kit["bill_minor"]), &minor(&step["spent_minor"])));
        is_rounded(&row[4], 100.0 * number(&step["won"]));
        is_rounded(&row[5], 100.0 * number(&step["served"]["value"]));
    }
    assert_eq!(table(&tables, "What lies in the kits").len(), kits.len());
    let customer = &document["customer"];
    let keys =
        ["leaves_with_standard_pads", "leaves_with_other_pads", "leaves_with_nothing", "served_by_pads_alone", "pads"];
    for (row, key) in table(&tables, "Of 100 customers, by").iter().zip(keys) {
        let (value, _) = row[1].split_once('±').expect("an error");
        is_rounded(value, 100.0 * number(&customer[key]["value"]));
        is_spread(&row[2], &customer[key]);
    }
    let (tables, document) = both("range stock --heads 20000 --model haspenfell-plum");
    let pads = list(&document["pads"]);
    let rows: Vec<_> = tables.values().flatten().collect();
    assert_eq!(rows.len(), pads.len());
    for pad in pads {
        let name = format!("{} {}", pad["zone"].as_str().expect("a zone"), number(&pad["thickness_mm"]));
        let sizes = list(&pad["sizes"]).iter().filter_map(Value::as_str).collect::<Vec<_>>().join(", ");
        let row = rows.iter().find(|row| row[0] == name && row[1] == sizes).expect("a row");
        is_rounded(row[2].split_once('±').expect("an error").0, 100.0 * number(&pad["used"]));
        is_rounded(&row[3], number(&pad["wanted"]));
        assert_eq!(row[4], pad["stock"].to_string());
        assert_eq!(row[6].trim_end_matches('*'), minor(&pad["worth_minor"]));
    }
}

#[test]
fn the_sheet_for_a_maker() {
    let (tables, document) = both("range maker tollern --heads 20000");
    let rows = table(&tables, "Customers won");
    let lines = list(&document["missing"]);
    assert_eq!(rows.len(), lines.len() + 1);
    for (row, line) in rows.iter().zip(lines.iter().map(|line| &line["wins"]).chain([&document["together"]])) {
        is_share(&row[2], &line["for_maker"]);
        is_share(&row[3], &line["for_shop"]);
    }
    for (row, line) in rows.iter().zip(lines) {
        match &line["wins_spread"] {
            Value::Null => assert_eq!(row[4], ""),
            spread => is_spread(&row[4], spread),
        }
    }
}
