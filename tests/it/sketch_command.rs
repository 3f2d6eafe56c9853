//! `lidladder sketch` as a fitter and as a program meet it.

use crate::support::{Folder, Run, eighty_plain_columns, lidladder, once};
use lidladder::catalogue::{Origin, load};
use lidladder::diag::Sources;
use rstest::rstest;
use serde_json::{Value, json};

/// Two sizes, a likeness, and three customers.
const STORY: &str = "sketch --size M=57-58 --size L=59-60 --like wexmarsh-one/rounder --tried M/575/fits \
                     --tried M/c=578,l=190,b=157/fits --tried L/c=590,b=160/temples-press";

fn document(line: &str) -> Value {
    once(&format!("{line} --format json")).document()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

fn codes(document: &Value) -> Vec<&str> {
    let warnings = document["warnings"].as_array().expect("a list");
    warnings.iter().filter_map(|warning| warning["code"].as_str()).collect()
}

#[rstest]
#[case(STORY, 0)]
#[case("sketch --size S=55-56", 1)]
#[case("sketch --size M=57-58 --like haspenfell-plum --shape long --tried M//loose-all-round/brow:9,cheeks:none", 1)]
fn a_page_has_its_parts_in_eighty_plain_columns(#[case] line: &str, #[case] status: i32) {
    let run = once(line);
    assert_eq!((run.status, run.stderr.as_str()), (status, ""), "{}", run.stdout);
    eighty_plain_columns(&run.stdout);
    let mut rest = run.stdout.as_str();
    for part in ["SAID of the shape\n", "\nSKETCH\n", "\nPASTE ", "\nCAUTIONS\n"] {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
    assert_eq!(run.stdout.contains("\nCUSTOMERS "), line.contains("--tried"), "{}", run.stdout);
    assert!(!run.stdout.contains("-0.0"), "{}", run.stdout);
}

#[test]
fn a_document_has_the_fields_that_programs_rely_on() {
    let document = document(STORY);
    assert_eq!(document["schema"], "lidladder.sketch/1");
    assert_eq!(document["said"][0]["model"], "wexmarsh-one");
    assert_eq!(document["said"][0]["comparison"], "rounder");
    assert!((number(&document["prior"]["shape_index"]) - 79.0).abs() < 1e-9);
    let labels: Vec<&Value> = document["sizes"].as_array().expect("a list").iter().map(|size| &size["size"]).collect();
    assert_eq!(labels, ["M", "L"]);
    assert_eq!(
        document["sizes"][1]["pads_from"],
        json!({"model": "wexmarsh-one", "size": "L", "type": null, "sizes": 1})
    );
    let customers = document["customers"].as_array().expect("a list");
    assert_eq!(customers.len(), 3);
    assert_eq!(customers[0]["reason"], Value::Null);
    assert_eq!(customers[2]["reason"], "temples-press");
    assert_eq!(customers[1]["measured"].as_array().map(Vec::len), Some(3));
    let interior = &document["interior"];
    assert!((number(&interior["shape_index"]) - number(&document["shape_index"]["mean"])).abs() <= 0.051);
    assert_eq!(interior["origin"], "by-eye");
    let page = once(STORY);
    let yaml = document["yaml"].as_str().expect("a text");
    assert!(page.good().contains(yaml), "the page shows the same text to paste");
}

/// A model of the built-in range with its interior and shells taken out and the proposal put in loads, and says what
/// was proposed.
#[rstest]
#[case(STORY)]
#[case("sketch --size 57=57.5-58.5 --size no=60 --shape long")]
#[case("sketch --size M=57-58 --type open-face --pads M=brow:9.5,cheeks:none,crown:none --tried M/575/fits")]
fn what_is_proposed_can_be_pasted_and_loaded(#[case] line: &str) {
    let document = document(line);
    let yaml = document["yaml"].as_str().expect("a text");
    let folder = Folder::with_profiles();
    // A rule of the shop names a size that the new model may lack.
    folder.write("profiles/fallbacks.yaml", "schema: 1\nedges: []\n");
    let path = folder.path().join("profiles/helmets/quorrie.yaml");
    let text = std::fs::read_to_string(&path).expect("part of the built-in range");
    let (before, from_plain) = text.split_once("    interior: ").expect("the first model's interior");
    let (_, attributes) = from_plain.split_once('\n').expect("one line");
    let (attributes, shells) = attributes.split_once("    shells:\n").expect("the first model's shells");
    let (_, other_models) = shells.split_once("\n\n").expect("the next model");
    std::fs::write(&path, format!("{before}{attributes}{yaml}\n{other_models}")).expect("it can be written");

    let pasted = load(&Origin::Folder(folder.path().join("profiles")), &mut Sources::default());
    let pasted = pasted.expect("what is proposed is a profile");
    let model = pasted.model("quorrie-plain").expect("the model that it was pasted into");
    let proposed = &document["interior"];
    assert!((model.interior.shape_index - number(&proposed["shape_index"])).abs() < 1e-9);
    assert!((model.interior.sd.expect("written") - number(&proposed["sd"])).abs() < 1e-9);
    assert!((model.interior.centre_sd.expect("written") - number(&proposed["centre_sd_mm"])).abs() < 1e-9);
    let sizes = document["sizes"].as_array().expect("a list");
    assert_eq!(model.sizes().count(), sizes.len());
    for ((_, size), said) in model.sizes().zip(sizes) {
        assert_eq!(size.label.as_str(), said["size"]);
        assert!((size.circumference.0 - number(&said["circumference_mm"][0])).abs() < 1e-6);
        let pads = size.standard.iter().filter_map(|(zone, mm)| mm.map(|mm| (zone.name().to_owned(), json!(mm))));
        assert_eq!(Value::Object(pads.collect()), said["standard_pads_mm"]);
    }
    let planned = folder.run("fit quorrie-plain --profiles profiles -c 575");
    assert_eq!(planned.stderr, "", "{}", planned.stdout);
}

#[test]
fn the_same_words_give_the_same_bytes_and_another_seed_others() {
    let line = "sketch --size M=57-58 --like wexmarsh-one --tried M/575/loose-sides --format json";
    assert_eq!(lidladder(line), lidladder(line));
    let other = lidladder(&format!("{line} --seed 2"));
    assert_ne!(lidladder(line).stdout, other.stdout);
    assert!(!other.stdout.contains("202"), "no date: {}", other.stdout);
}

#[test]
fn a_file_of_tries_says_the_same_as_options() {
    let folder = Folder::new();
    folder.write("tries.yaml", "schema: 1\ntries:\n  - M/575/fits\n  - 'M/c=578,l=190,b=157/fits'\n");
    let line = "sketch --size M=57-58 --format json";
    let file = folder.run(&format!("{line} --tried M/575/fits --tries tries.yaml"));
    let typed = lidladder(&format!("{line} --tried M/575/fits --tried M/575/fits --tried M/c=578,l=190,b=157/fits"));
    assert_eq!(file, typed);
}

#[test]
fn words_in_other_ways_mean_the_same() {
    let line = "sketch --size M=57-58 --like wexmarsh-one/same --tried M/c=575,b=152,shape=round/fits --format json";
    let other = "sketch --size M=57cm–58cm --like wexmarsh-one --tried m/shape=round,breadth=15.2cm,circumference=575/fits \
                 --measured-by staff --measured-with caliper --population adults --seed 1 --format json";
    assert_eq!(lidladder(line), lidladder(other));
    let rough = "sketch --size M=57-58 --like wexmarsh-one --tried M/575±3,b=152±1.5,shape=round/fits --format json";
    assert_eq!(lidladder(line), lidladder(rough));
    let customer = lidladder(&format!("{line} --measured-by customer"));
    assert_ne!(lidladder(line).stdout, customer.stdout, "a customer's own measures are worse");
}

#[rstest]
#[case("", "sketch-little-learned", "No customer is named")]
#[case("--like wexmarsh-one --tried M/575/fits", "sketch-little-learned", "tell hardly anything")]
#[case(
    "--like haspenfell-plum/much-rounder --shape long --tried M/c=575,l=199,b=153/fits",
    "sketch-at-odds",
    "side by side"
)]
#[case(
    "--tried M/c=578,l=199,b=154/too-oval --tried M/c=578,l=199,b=154/too-oval --tried M/c=578,l=199,b=154/too-oval",
    "sketch-far-moved",
    "look at the empty helmet again"
)]
#[case(
    "--tried M/c=566/loose-all-round --tried M/c=566/loose-all-round --tried M/c=566/loose-all-round --tried \
     M/c=566/loose-all-round --tried M/c=566/loose-all-round --tried M/c=566/loose-all-round",
    "sketch-far-moved",
    "larger than labelled"
)]
#[case(
    "--tried M/c=575,l=202,b=147/fits --tried M/c=575,l=189,b=158/fits --tried M/c=574,l=202,b=147/fits --tried \
     M/c=574,l=189,b=158/fits --tried M/c=576,l=202,b=147/fits --tried M/c=576,l=189,b=158/fits",
    "sketch-two-humps",
    "another customer would tell"
)]
#[case(
    "--tried M/c=575,l=202,b=147/fits --tried M/c=575,l=189,b=158/fits --tried M/c=574,l=202,b=147/fits --tried \
     M/c=574,l=189,b=158/fits --tried M/c=576,l=202,b=147/fits --tried M/c=576,l=189,b=158/fits",
    "sketch-odd-reports",
    "contradict each other"
)]
#[case(
    "--like wexmarsh-one --tried M/c=575,l=205,b=145/too-oval --tried M/c=575,l=186,b=160/too-round",
    "sketch-odd-reports",
    "contradict what is said of the helmet"
)]
#[case("--tried M/c=52cm,l=215/loose-all-round", "rare-head", "customer 1: check it")]
fn what_can_not_be_believed_is_said(#[case] words: &str, #[case] code: &str, #[case] message: &str) {
    let line = format!("sketch --size M=57-58 {words}");
    let document = document(&line);
    assert!(codes(&document).contains(&code), "{:?}", document["warnings"]);
    let run = once(&line);
    assert_eq!(run.status, 1);
    let flat = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(run.stdout.starts_with("LOOK HERE  ") && flat.contains(message), "{}", run.stdout);
}

/// The good near misses: customers who agree with the words and each other.
#[test]
fn what_goes_together_brings_no_warning() {
    assert_eq!(codes(&document(STORY)), [""; 0]);
    let agreed = "sketch --size M=57-58 --like wexmarsh-one --shape intermediate --tried M/c=575,l=198,b=153/fits --tried \
                  M/c=572,l=190,b=156/temples-press";
    assert_eq!(codes(&document(agreed)), [""; 0]);
}

fn told(run: &Run, code: &str, words: &str) {
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    let flat = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(&format!("error[{code}]: ")) && flat.contains(words), "{code} {words}: {}", run.stderr);
}

/// The bounds of a proposal are those of the reader: what is just inside loads, what is outside is not proposed.
#[test]
fn nothing_is_proposed_that_no_profile_can_say() {
    let folder = Folder::with_profiles();
    let plum = "profiles/helmets/haspenfell.yaml";
    folder.edit(plum, "shape_index: 84, origin: by-eye", "shape_index: 95, origin: by-eye");
    let line = "sketch --size M=57-58 --profiles profiles --like haspenfell-plum";
    assert_eq!(folder.run(line).status, 1, "95 is a profile's last index");
    told(
        &folder.run(&format!("{line}/rounder")),
        "sketch-bounds",
        "a shape index of 96.5, and a profile takes 65 to 95",
    );
    let shop = "profiles/shop.yaml";
    folder.edit(shop, "comparison_sd: 1.0", "comparison_sd: 5.0");
    told(&folder.run(line), "sketch-bounds", "open to ±5.1, and a profile takes at most 5");
    folder.edit(shop, "comparison_sd: 5.0", "comparison_sd: 1.0");
    folder.edit(shop, "by_eye: {shape_index: 1.0, centre_mm: 3.0}", "by_eye: {shape_index: 1.0, centre_mm: 15.0}");
    let customers = "--shape round --tried M/c=540/fits --tried M/c=538/fits --tried M/c=537/fits";
    let line = "sketch --size M=57-58 --profiles profiles";
    told(&folder.run(&format!("{line} {customers}")), "sketch-bounds", "mm from their labels");
}

/// A range with nothing to go by: one model, whose sizes have no cheek pads.
#[test]
fn a_range_of_one_model_is_enough() {
    let folder = Folder::with_profiles();
    for family in ["dunvarrick", "haspenfell", "lantreth", "umberlow", "wexmarsh"] {
        std::fs::remove_file(folder.path().join(format!("profiles/helmets/{family}.yaml"))).expect("it was copied");
    }
    folder.write("profiles/fallbacks.yaml", "schema: 1\nedges: []\n");
    let quorrie = folder.path().join("profiles/helmets/quorrie.yaml");
    let text = std::fs::read_to_string(&quorrie).expect("part of the built-in range");
    let (plain, _) = text.split_once("\n\n  # The Plain with a peak").expect("the second model");
    let bare = |line: &str| match line.split_once(", cheeks: 3").or_else(|| line.split_once(", cheeks: 2")) {
        Some((before, _)) => format!("{before}}}\n"),
        None => format!("{line}\n"),
    };
    std::fs::write(&quorrie, plain.lines().map(bare).collect::<String>()).expect("it can be written");
    for words in ["", "--like quorrie-plain/longer", "--type off-road"] {
        let run = folder
            .run(&format!("sketch --profiles profiles --size M=57-58 {words} --tried M/c=575,w=150/cheeks-squeeze"));
        assert_eq!((run.status, run.stderr.as_str()), (1, ""), "{}", run.stdout);
        assert!(run.stdout.contains("crown") && !run.stdout.contains("cheeks:"), "{}", run.stdout);
    }
}
