//! The picture of a head in a helmet, measured again.

use crate::markup::{is_one_whole_page, named, parsed, points, title, titled, words};
use crate::support::{Folder, once};
use itertools::Itertools;
use roxmltree::{Document, Node};
use rstest::rstest;
use serde_json::Value;

/// Px for a mm.
const SCALE: f64 = 1.2;

/// Coordinates have one decimal.
const ROUGH: f64 = 0.2;

const HEADS: [&str; 5] = [
    "fit wexmarsh-one -c 57.5cm",
    "fit haspenfell-plum -c 58cm -l 205 -b 150",
    "fit lantreth-longways --size XS -c 62cm -l 200 -b 172 -w 160",
    "fit dunvarrick-gravel --size XXL -c 51cm -l 172 -b 140",
    "fit quorrie-plain -c 60cm -l 213 -b 148",
];

fn svg(line: &str) -> String {
    once(&format!("{line} --format svg")).stdout.clone()
}

fn document(line: &str) -> Value {
    once(&format!("{line} --format json")).document()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// The path of the only node of a class, or of the first.
fn outline(picture: &Document<'_>, class: &str) -> Vec<[f64; 2]> {
    let node = picture.descendants().find(|node| node.attribute("class") == Some(class));
    let path = node.and_then(|node| node.attribute("d")).unwrap_or_else(|| panic!("no path of class {class}"));
    points(path).remove(0)
}

/// From the one end to the other, by axis.
fn reach(points: &[[f64; 2]]) -> [f64; 2] {
    [0, 1].map(|axis| {
        let (low, high) = points.iter().map(|point| point[axis]).minmax().into_option().expect("points");
        high - low
    })
}

/// The closed line through the points.
fn around(points: &[[f64; 2]]) -> f64 {
    points.iter().circular_tuple_windows().map(|(a, b)| (b[0] - a[0]).hypot(b[1] - a[1])).sum()
}

/// The outline goes through length and breadth and is as long around as the tape says; the figures are those of the document.
#[rstest]
fn the_head_is_drawn_to_its_measures(#[values(0, 1, 2, 4)] at: usize) {
    let (picture, document) = (svg(HEADS[at]), document(HEADS[at]));
    let head = outline(&parsed(&picture), "head");
    let mean = &document["head"]["estimate"]["mean"];
    let [breadth, length] = reach(&head).map(|px| px / SCALE);
    assert!((length - number(&mean["length_mm"])).abs() < ROUGH, "{length} {mean}");
    assert!((breadth - number(&mean["breadth_mm"])).abs() < ROUGH, "{breadth} {mean}");
    // A polygon of 120 corners is a little shorter than the curve.
    let (drawn, tape) = (around(&head) / SCALE, number(&mean["circumference_mm"]));
    assert!((drawn / tape - 1.0).abs() < 0.002, "{drawn} {tape}");
}

/// The band is one and two standard deviations wide, on both sides.
#[test]
fn the_soft_band_is_as_wide_as_the_head_is_unsure() {
    let (picture, document) = (svg(HEADS[0]), document(HEADS[0]));
    let picture = parsed(&picture);
    let bands = picture.descendants().filter(|node| node.attribute("class") == Some("spread")).collect_vec();
    assert_eq!(bands.len(), 2);
    let sd = &document["head"]["estimate"]["sd"];
    for (band, sds) in bands.iter().zip([2.0, 1.0]) {
        let [outer, inner] = &points(band.attribute("d").expect("a path"))[..] else { panic!("two outlines") };
        let [breadth, length] = [0, 1].map(|axis| (reach(outer)[axis] - reach(inner)[axis]) / SCALE);
        assert!((length - 2.0 * sds * number(&sd["length_mm"])).abs() < 2.0 * ROUGH, "{length} {sd}");
        assert!((breadth - 2.0 * sds * number(&sd["breadth_mm"])).abs() < 2.0 * ROUGH, "{breadth} {sd}");
    }
}

/// Every zone once, with what the document says of it.
#[rstest]
fn every_zone_has_its_title(#[values(0, 1, 2, 3, 4)] at: usize) {
    let (picture, document) = (svg(HEADS[at]), document(HEADS[at]));
    let zones = titled(parsed(&picture).root_element(), "data-zone");
    assert_eq!(zones.keys().collect_vec(), ["brow", "cheeks", "crown", "rear", "sides"]);
    for zone in document["zones"].as_array().expect("a list") {
        let name = zone["zone"].as_str().expect("a word");
        let (said, strain) = (&zones[name], number(&zone["strain"]));
        assert!(said.contains(zone["band"].as_str().expect("a word")), "{said}");
        assert!(said.contains(&format!("pad {} mm", number(&zone["thickness_mm"]))), "{said}");
        if (0.0..0.995).contains(&strain) {
            assert!(said.contains(&format!("strain {strain:.2}")), "{said} {strain}");
        }
        let beyond = number(&zone["beyond_good_mm"]);
        let side = if beyond > 0.0 { "too tight" } else { "too loose" };
        // Figures of the document have two decimals, those of the picture one.
        assert_eq!(said.contains(side), beyond.abs() >= 0.05, "{said} {beyond}");
        assert_eq!(beyond.abs() > 0.0, zone["band"] != "good", "{zone}");
    }
}

/// Where the foam is pressed it is drawn as thick as the strain leaves it: sides, half of both.
#[rstest]
fn foam_is_drawn_as_thick_as_it_is(#[values(0, 1, 2, 3, 4)] at: usize) {
    let (picture, document) = (svg(HEADS[at]), document(HEADS[at]));
    let picture = parsed(&picture);
    let foam = |zone: &str| {
        let node = picture.descendants().find(|node| node.attribute("data-zone") == Some(zone)).expect("a zone");
        let path = node.children().find_map(|child: Node<'_, '_>| child.attribute("d")).expect("a path");
        points(path)
    };
    for zone in document["zones"].as_array().expect("a list") {
        let name = zone["zone"].as_str().expect("a word");
        let strain = number(&zone["strain"]);
        let left = number(&zone["thickness_mm"]) * (1.0 - strain.clamp(0.0, 1.0));
        let drawn = match name {
            "cheeks" => continue,
            "sides" => {
                let parts = foam(name);
                assert_eq!(parts.len(), 2, "left and right");
                let middle = parts[0].len() / 4;
                let [outer, inner] = [parts[0][middle], parts[0][parts[0].len() - 1 - middle]];
                (outer[0] - inner[0]).abs()
            }
            _ => {
                let parts = foam(name);
                let middle = parts[0].len() / 4;
                let [outer, inner] = [parts[0][middle], parts[0][parts[0].len() - 1 - middle]];
                (outer[1] - inner[1]).abs()
            }
        };
        assert!((drawn / SCALE - left).abs() < ROUGH, "{name}: {drawn} px for {left} mm");
    }
}

#[rstest]
fn a_picture_is_whole_in_itself(#[values(0, 1, 2, 3, 4)] at: usize) {
    let text = svg(HEADS[at]);
    let picture = parsed(&text);
    assert!(text.len() < 32_000, "{} bytes", text.len());
    let root = picture.root_element();
    assert!(title(root).ends_with(", from above"));
    assert!(root.children().any(|node| node.tag_name().name() == "desc" && words(node).len() > 300));
    let numbers =
        picture.descendants().flat_map(|node| node.attributes()).filter(|at| ["x", "y", "d"].contains(&at.name()));
    for attribute in numbers {
        let parts =
            attribute.value().split(|c: char| c.is_ascii_alphabetic() || c == ' ').filter(|text| !text.is_empty());
        assert!(parts.clone().all(|text| text.parse::<f64>().is_ok_and(f64::is_finite)), "{attribute:?}");
    }
    assert_eq!(text, once(&format!("{}  --format svg", HEADS[at])).stdout, "the same bytes");
}

/// A page says what the text says.
#[rstest]
fn a_page_has_the_figures_of_the_document(#[values(0, 1, 2, 4)] at: usize) {
    let run = once(&format!("{} --format html", HEADS[at]));
    assert!(run.status < 2 && run.stderr.is_empty());
    is_one_whole_page(&run.stdout);
    let page = parsed(&run.stdout);
    let (all, document) = (words(page.root_element()), document(HEADS[at]));
    let plain = once(HEADS[at]).stdout.split_whitespace().join(" ");
    for fact in named(&page, "dd").map(words) {
        assert!(plain.contains(&fact), "{fact}");
    }
    let percent = |value: &Value| match (100.0 * number(value)).round() {
        none if none < 1.0 && number(value) > 0.0 => "<1 %".to_owned(),
        percent => format!("{percent} %"),
    };
    for size in document["sizes"].as_array().expect("a list") {
        let row = format!("{}{}", size["size"].as_str().expect("a label"), percent(&size["fit_probability"]));
        assert!(named(&page, "tr").map(words).any(|words| words.replace(' ', "") == row.replace(' ', "")), "{row}");
    }
    for caution in document["cautions"].as_array().expect("a list") {
        assert!(all.contains(caution.as_str().expect("a sentence")), "{caution}");
    }
    assert_eq!(titled(page.root_element(), "data-zone").len(), 5);
}

#[test]
fn a_name_is_no_markup() {
    const NAME: &str = "<b>&\\\"'</svg><script>";
    let folder = Folder::with_profiles();
    folder.edit("profiles/helmets/wexmarsh.yaml", "name: Wexmarsh One", &format!("name: \"{NAME}\""));
    for format in ["svg", "html"] {
        let run = folder.run(&format!("fit wexmarsh-one -c 57.5cm --profiles profiles --format {format}"));
        let page = parsed(run.good());
        assert!(!page.descendants().any(|node| ["b", "script"].contains(&node.tag_name().name())));
        assert!(words(page.root_element()).contains("<b>&\"'</svg><script> in M"), "{format}");
    }
}
