//! `lidladder fit` as a fitter and as a program meet it.

mod pictures;

use crate::plan_command::says_the_cautions;
use crate::support::{eighty_plain_columns, once};
use rstest::rstest;
use serde_json::Value;

/// A head that the Longways in M was made for, known exactly.
const MADE_FOR: &str = "-c 575±0 -l 204.2±0 -b 149.1±0 -w 139.2±0";

fn document(line: &str) -> Value {
    once(&format!("{line} --format json")).document()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

#[rstest]
#[case("fit lantreth-longways -c 58cm -l 205 -b 150", 0)]
#[case("fit wexmarsh-one", 0)]
#[case("fit dunvarrick-mud --size m -c 59cm -w 160 --wears wexmarsh-one/L/cheeks-squeeze", 1)]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str, #[case] status: i32) {
    let run = once(line);
    assert_eq!((run.status, run.stderr.as_str()), (status, ""), "{}", run.stdout);
    eighty_plain_columns(&run.stdout);
    let mut rest = run.stdout.as_str();
    for part in ["HEAD\n", "\nFIT  ", "\nZONES ", "\nPADS", "\nCAUTIONS\n"] {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
    says_the_cautions(rest);
    // A sum of nothing is -0 in floating point.
    assert!(!run.stdout.contains("-0 "), "{}", run.stdout);
}

#[test]
fn a_document_has_the_fields_that_programs_rely_on() {
    let document = document("fit lantreth-longways -c 58cm -l 205 -b 150");
    assert_eq!(document["schema"], "lidladder.fit/1");
    assert_eq!(document["model"], "lantreth-longways");
    assert_eq!(document["size"], "M");
    assert_eq!(document["fits"], true);
    assert_eq!(document["reason"], Value::Null);
    assert!((0.0..=1.0).contains(&number(&document["fit_probability"])));
    let pads = document["pads"].as_object().expect("a group");
    let zones = document["zones"].as_array().expect("a list");
    let names: Vec<&str> = zones.iter().filter_map(|zone| zone["zone"].as_str()).collect();
    assert_eq!(names, ["brow", "rear", "sides", "cheeks"]);
    for zone in zones {
        assert!(pads.contains_key(zone["zone"].as_str().expect("a word")));
        assert_eq!(zone["band"], "good");
        assert!((0.2..=0.6).contains(&number(&zone["strain"])), "{zone}");
        let shares = ["too_loose_probability", "good_probability", "too_tight_probability"].map(|k| number(&zone[k]));
        assert!((shares.iter().sum::<f64>() - 1.0).abs() < 3e-4, "{zone}");
    }
}

/// The strain on an axis by the method's formula, from the head that the size was made for:
/// ideal + (head − nominal) / foam, with the foam of all pads on the axis.
#[rstest]
#[case::made_for(MADE_FOR, true, None, [0.0, 0.0, 0.0])]
#[case::long("-c 589±0 -l 212.2±0 -b 149.1±0 -w 139.2±0", false, Some("brow-rear-press"), [8.0, 0.0, 0.0])]
#[case::short("-c 552.7±0 -l 191.2±0 -b 149.1±0 -w 139.2±0", false, Some("loose-front-to-back"), [-13.0, 0.0, 0.0])]
#[case::broad("-c 587±0 -l 204.2±0 -b 157.1±0 -w 139.2±0", false, Some("temples-press"), [0.0, 8.0, 0.0])]
#[case::narrow("-c 551.8±0 -l 204.2±0 -b 133.1±0 -w 139.2±0", false, Some("loose-sides"), [0.0, -16.0, 0.0])]
#[case::wide_face("-c 575±0 -l 204.2±0 -b 149.1±0 -w 165±0", false, Some("cheeks-squeeze"), [0.0, 0.0, 25.8])]
#[case::slim_face("-c 575±0 -l 204.2±0 -b 149.1±0 -w 115±0", false, Some("cheeks-loose"), [0.0, 0.0, -24.2])]
fn an_exact_head_fits_or_not_and_the_zone_says_why(
    #[case] head: &str,
    #[case] fits: bool,
    #[case] reason: Option<&str>,
    #[case] direction: [f64; 3],
) {
    let run = once(&format!("fit lantreth-longways --size M {head} --format json"));
    let document = run.document();
    assert_eq!((document["fits"].as_bool(), document["reason"].as_str()), (Some(fits), reason), "{document}");
    assert_eq!(run.status == 0, fits && document["warnings"] == serde_json::json!([]), "{document}");
    for zone in document["zones"].as_array().expect("a list") {
        let axis = match zone["zone"].as_str().expect("a word") {
            "brow" | "rear" => 0,
            "sides" => 1,
            _ => 2,
        };
        let bands: &[&str] = match direction[axis] {
            d if d > 0.0 => &["tight", "hot spot"],
            d if d < 0.0 => &["loose", "light"],
            _ => &["good"],
        };
        assert!(bands.contains(&zone["band"].as_str().expect("a word")), "{zone}");
    }
    let page = once(&format!("fit lantreth-longways --size M {head}"));
    assert_eq!(page.stdout.contains("the expected head fits, the profile taken"), fits, "{}", page.stdout);
    assert_eq!(page.status, run.status);
}

#[test]
fn with_everything_exact_the_strain_is_the_methods() {
    // Standard pads of the Longways in M come out best or not; whichever do, 2 mm more breadth is 2 mm less room.
    let [made_for, broader] =
        ["-c 575±0 -l 204.2±0 -b 149.1±0 -w 139.2±0", "-c 578.1±0 -l 204.2±0 -b 151.1±0 -w 139.2±0"]
            .map(|head| document(&format!("fit lantreth-longways --size M {head}")));
    let sides = |document: &Value| {
        let zones = document["zones"].as_array().expect("a list");
        let zone = zones.iter().find(|zone| zone["zone"] == "sides").expect("every helmet has side pads");
        (number(&zone["thickness_mm"]), number(&zone["strain"]))
    };
    // room = 2 · thickness · (1 − strain): docs of the method, section 3.
    let room = |(thickness, strain): (f64, f64)| 2.0 * thickness * (1.0 - strain);
    let liner = |(thickness, strain): (f64, f64), breadth: f64| room((thickness, strain)) + breadth;
    let (before, after) = (liner(sides(&made_for), 149.1), liner(sides(&broader), 151.1));
    assert!((before - after).abs() < 0.3, "the liner stays where it is: {before} and {after}");
}

#[test]
fn without_a_size_the_one_that_fits_most_often_is_shown() {
    let document = document("fit wexmarsh-one -c 57.5cm");
    let sizes = document["sizes"].as_array().expect("a list");
    let best = sizes.iter().map(|size| number(&size["fit_probability"])).fold(0.0, f64::max);
    assert!((number(&document["fit_probability"]) - best).abs() < 1e-9);
    let labels: Vec<&str> = sizes.iter().filter_map(|size| size["size"].as_str()).collect();
    assert_eq!(labels, ["XS", "S", "M", "L", "XL", "XXL"]);
}

#[rstest]
#[case("S")]
#[case("s")]
#[case("XXL")]
fn a_size_that_is_asked_for_is_shown(#[case] size: &str) {
    let document = document(&format!("fit wexmarsh-one --size {size} -c 57.5cm"));
    assert_eq!(document["size"], size.to_uppercase());
}

#[test]
fn pad_sets_go_from_the_best_to_the_worst() {
    let document = document("fit lantreth-longways -c 58cm -l 205 -b 150");
    let others = document["other_pads"].as_array().expect("a list");
    let fits: Vec<bool> = others.iter().filter_map(|set| set["fits"].as_bool()).collect();
    assert!(fits.len() == others.len() && fits.len() > 5);
    assert!(fits.windows(2).all(|pair| pair[0] >= pair[1]), "those that fit come first");
    let uneven: Vec<f64> =
        others.iter().filter(|set| set["fits"] == true).map(|set| number(&set["unevenness"])).collect();
    assert!(uneven.windows(2).all(|pair| pair[0] <= pair[1]), "{uneven:?}");
    assert!(others.iter().all(|set| set["reason"].is_null() == (set["fits"] == true)));
}
