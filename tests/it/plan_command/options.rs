//! Every option of a plan does what its help says.

use super::{document, each_step, near, number, numbers, strings, text};
use crate::support::{Folder, Program, once};
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::profile::Model;
use rstest::rstest;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// A plan that is made quickly.
fn off_road(options: &str) -> Value {
    document(&format!("plan --type off-road --steps 1 {options}"))
}

/// The head alone: `fit` reads the same options, and is quicker still.
fn head(options: &str) -> Value {
    let run = once(&format!("fit quorrie-plain {options} --format json"));
    run.document()["head"].clone()
}

/// The mean (or sd) of one field of the head.
fn estimate(head: &Value, summary: &str, field: &str) -> f64 {
    number(&head["estimate"][summary][field])
}

fn demo() -> Catalogue {
    load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order")
}

fn ranked(document: &Value) -> Vec<(String, String)> {
    let rows = document["ranking"].as_array().expect("a list");
    rows.iter().map(|row| (text(&row["model"]).to_owned(), text(&row["size"]).to_owned())).collect()
}

/// Every model and size that a document names as something to try.
fn tried(document: &Value) -> BTreeSet<(String, String)> {
    let mut names: BTreeSet<_> = ranked(document).into_iter().collect();
    each_step(&document["plan"]["first"], 1, &mut |step, _| {
        names.insert((text(&step["model"]).to_owned(), text(&step["size"]).to_owned()));
    });
    names
}

#[rstest]
#[case("-c 57.5cm", 575.0, 3.0)]
#[case("--circumference 575mm", 575.0, 3.0)]
#[case("-c 575", 575.0, 3.0)]
#[case("-c 22.6in", 574.04, 3.0)]
#[case("-c 22.6\"", 574.04, 3.0)]
#[case("-c 575±4", 575.0, 4.0)]
#[case("-c 575+-4", 575.0, 4.0)]
#[case("-c 575+/-4", 575.0, 4.0)]
#[case("-c 57.5cm±0.4", 575.0, 4.0)]
#[case("-c 57.5cm±4mm", 575.0, 4.0)]
#[case("-c 575±0", 575.0, 0.0)]
#[case("-c 575 --measured-by staff", 575.0, 3.0)]
#[case("-c 575 --measured-by customer", 575.0, 7.0)]
#[case("-c 575±4 --measured-by customer", 575.0, 4.0)]
// The tape stays a tape: the tool is that of the other measures.
#[case("-c 575 --measured-with phone", 575.0, 3.0)]
fn a_circumference_is_read_in_every_form(#[case] options: &str, #[case] value: f64, #[case] sd: f64) {
    assert_eq!(head(options)["measured"], json!([{"measure": "circumference", "value_mm": value, "sd_mm": sd}]));
}

#[rstest]
#[case("--length 197", "length", "length_mm", 1.5)]
#[case("-l 197 --measured-with caliper", "length", "length_mm", 1.5)]
#[case("-l 197 --measured-with ruler", "length", "length_mm", 4.0)]
#[case("-l 197 --measured-with phone", "length", "length_mm", 4.0)]
#[case("-l 197 --measured-with caliper --measured-by customer", "length", "length_mm", 3.0)]
#[case("--breadth 152 --measured-with phone", "breadth", "breadth_mm", 4.0)]
#[case("-b 15.2cm", "breadth", "breadth_mm", 1.5)]
#[case("--face-width 139", "face width", "face_width_mm", 1.5)]
#[case("-w 139 --measured-with ruler", "face width", "face_width_mm", 4.0)]
fn the_error_of_a_reading_follows_from_who_and_what(
    #[case] options: &str,
    #[case] measure: &str,
    #[case] field: &str,
    #[case] sd: f64,
) {
    let head = head(options);
    assert_eq!(head["measured"][0]["measure"], measure);
    near(number(&head["measured"][0]["sd_mm"]), sd, 1e-9, "the sd of the reading");
    let inferred = estimate(&head, "sd", field);
    assert!(inferred < sd && inferred > 0.5 * sd, "a reading with sd {sd} leaves {inferred}");
}

#[test]
fn an_exact_reading_stays_as_it_is() {
    let head = head("-c 575±0");
    near(estimate(&head, "mean", "circumference_mm"), 575.0, 1e-9, "the mean");
    near(estimate(&head, "sd", "circumference_mm"), 0.0, 1e-9, "the sd");
}

#[test]
fn a_worse_reading_leaves_a_wider_head() {
    let sd = |options: &str| estimate(&head(options), "sd", "circumference_mm");
    let sds = ["-c 575±0", "-c 575", "-c 575 --measured-by customer", ""].map(sd);
    assert!(sds.windows(2).all(|pair| pair[0] + 0.5 < pair[1]), "{sds:?}");
}

#[test]
fn a_shape_by_eye_shifts_the_index_its_way() {
    let index = |options: &str| estimate(&head(options), "mean", "shape_index");
    let shifted = ["long", "intermediate", "round"].map(|word| index(&format!("-c 575 --shape {word}")));
    let without = index("-c 575");
    assert!(shifted[0] + 1.0 < without && without + 1.0 < shifted[2], "{shifted:?}, {without} without");
    assert!(shifted[0] < shifted[1] && shifted[1] < shifted[2], "{shifted:?}");
}

#[rstest]
#[case("quorrie-peak/M/temples-press", "breadth_mm", 1.0)]
#[case("quorrie-peak/M/loose-sides", "breadth_mm", -1.0)]
#[case("quorrie-peak/M/brow-rear-press", "length_mm", 1.0)]
#[case("quorrie-peak/M/loose-front-to-back", "length_mm", -1.0)]
#[case("quorrie-plain/M/cheeks-loose", "face_width_mm", -1.0)]
#[case("quorrie-plain/s/tight-all-round", "length_mm", 1.0)]
fn a_worn_helmet_is_evidence(#[case] worn: &str, #[case] field: &str, #[case] direction: f64) {
    let fits = worn.rsplit_once('/').expect("a reason").0;
    let [hurts, fits] = [worn, fits].map(|worn| head(&format!("-c 575 --wears {worn}")));
    let shift = estimate(&hurts, "mean", field) - estimate(&fits, "mean", field);
    assert!(shift * direction > 1.0, "{field} shifts by {shift} mm");
    assert_eq!(hurts["wears"][0]["model"], worn.split('/').next().expect("a model"));
    assert_eq!(fits["wears"][0]["reason"], Value::Null);
}

/// Means of ANSUR II (NATICK/TR-15/007), which a customer of whom nothing is known has.
#[rstest]
#[case("--population men", [574.37, 199.50, 154.33, 142.62])]
#[case("--population women", [561.12, 189.82, 147.77, 133.77])]
#[case("--population adults", [567.75, 194.66, 151.05, 138.19])]
#[case("", [567.75, 194.66, 151.05, 138.19])]
fn without_a_reading_the_head_is_the_average_of_its_population(#[case] option: &str, #[case] mean: [f64; 4]) {
    let head = head(option);
    let fields = ["circumference_mm", "length_mm", "breadth_mm", "face_width_mm"];
    for (field, mean) in fields.into_iter().zip(mean) {
        near(estimate(&head, "mean", field), mean, 0.1, field);
    }
    assert_eq!(head["measured"], json!([]));
}

#[test]
fn a_customer_file_says_the_same_as_options_and_options_come_first() {
    let folder = Folder::new();
    folder.write(
        "anna.yaml",
        "schema: 1\ncircumference: 60cm±2mm\nlength: '201'\nbreadth: 15.5cm\nface_width: '141'\nmeasured_by: customer\n\
         measured_with: ruler\nshape: long\nwears: [quorrie-peak/M/too-round]\npopulation: men\ntypes: [off-road]\n\
         must: [chin-room]\nprice_limit: '300'\nmass_limit: '1500'\nout_of_stock: [umberlow-furrow/S]\n",
    );
    let written = folder.run("plan --customer anna.yaml --steps 2 --format json");
    let typed = folder.run(
        "plan -c 60cm±2mm -l 201 -b 15.5cm -w 141 --measured-by customer --measured-with ruler --shape long --wears \
         quorrie-peak/M/too-round --population men --type off-road --must chin-room --price-limit 300 --mass-limit 1500 \
         --out-of-stock umberlow-furrow/S --steps 2 --format json",
    );
    assert_eq!(written, typed);
    let mixed =
        folder.run("plan --customer anna.yaml -c 575 --population women --type open-face --format json").document();
    let measured = mixed["head"]["measured"].as_array().expect("a list");
    assert_eq!(measured[0], json!({"measure": "circumference", "value_mm": 575.0, "sd_mm": 7.0}));
    assert_eq!(measured[1], json!({"measure": "length", "value_mm": 201.0, "sd_mm": 4.0}));
    assert_eq!(mixed["head"]["population"], "women");
    assert!(ranked(&mixed).iter().all(|(model, _)| kind_of(model) == "open-face"));
}

fn kind_of(model: &str) -> &'static str {
    demo().model(model).expect("part of the demo range").kind.name()
}

#[rstest]
#[case("--type off-road", |model: &Model| model.kind.name() == "off-road")]
#[case("--type off-road,open-face", |model: &Model| matches!(model.kind.name(), "off-road" | "open-face"))]
#[case("--type off-road --type open-face", |model: &Model| matches!(model.kind.name(), "off-road" | "open-face"))]
#[case("--must spectacle-channel --type adventure,off-road", |model: &Model| model.attributes.spectacle_channel)]
#[case("--must intercom-ready --type adventure,off-road", |model: &Model| model.attributes.intercom_ready)]
#[case("--must spectacle-channel,intercom-ready --type full-face", |model: &Model| {
    model.attributes.spectacle_channel && model.attributes.intercom_ready
})]
#[case("--price-limit 219", |model: &Model| model.price.minor() <= 21_900)]
#[case("--mass-limit 1250", |model: &Model| model.attributes.mass_g <= 1250.0)]
fn a_filter_leaves_what_it_says(#[case] filter: &str, #[case] wanted: impl Fn(&Model) -> bool) {
    let demo = demo();
    let document = once(&format!("plan {filter} --steps 1 --format json")).document();
    let tried = tried(&document);
    assert!(!tried.is_empty());
    for (model, _) in &tried {
        assert!(wanted(demo.model(model).expect("part of the demo range")), "{model}");
    }
    let left_out = demo.models().iter().filter(|model| !wanted(model)).count();
    assert!(left_out > 0, "the filter has something to do");
}

#[rstest]
#[case("dunvarrick-mud", "dunvarrick-mud", None)]
#[case("dunvarrick-mud/M", "dunvarrick-mud", Some("M"))]
#[case("dunvarrick-mud/m,umberlow-furrow", "umberlow-furrow", None)]
fn what_is_out_of_stock_is_not_planned(#[case] absent: &str, #[case] model: &str, #[case] size: Option<&str>) {
    let gone = |name: &(String, String)| name.0 == model && size.is_none_or(|size| name.1 == size);
    let before = tried(&once("plan --type off-road -c 57.5cm --format json").document());
    assert!(before.iter().any(gone));
    let document = once(&format!("plan --type off-road -c 57.5cm --out-of-stock {absent} --format json")).document();
    let after = tried(&document);
    assert!(!after.iter().any(gone) && !after.is_empty(), "{after:?}");
    // The other sizes of the model are still there.
    assert_eq!(after.iter().any(|name| name.0 == model), size.is_some());
}

#[rstest]
#[case(1)]
#[case(2)]
#[case(3)]
#[case(8)]
fn a_plan_has_no_more_steps_than_asked_for(#[case] steps: usize) {
    let document = once(&format!("plan --type off-road -c 59cm --steps {steps} --format json")).document();
    let mut deepest = 0;
    each_step(&document["plan"]["first"], 1, &mut |step, depth| {
        deepest = deepest.max(depth);
        if depth == steps {
            assert!(step["on"].as_array().expect("a list").iter().all(|branch| branch["next"].is_null()));
        }
    });
    assert!(deepest <= steps && deepest >= steps.min(3), "{deepest} steps");
    assert!(number(&document["plan"]["expected_tries"]) <= steps as f64);
}

#[test]
fn a_short_session_keeps_to_its_minutes() {
    let mut before = 0.0;
    for minutes in [20.0, 25.0, 40.0, 500.0] {
        let document = document(&format!("plan --type off-road -c 59cm --minutes {minutes}"));
        // On other heads than those that chose, a step may take a little longer than was planned for.
        let longest = longest(&document["plan"]["first"]);
        assert!(longest <= minutes + 1.0, "{longest} of {minutes} minutes");
        let expected = number(&document["plan"]["expected_minutes"]);
        assert!(expected >= before, "{expected} minutes after {before}");
        before = expected;
    }
    let unlimited = document("plan --type off-road -c 59cm");
    assert!(longest(&unlimited["plan"]["first"]) > 21.0, "a limit of 20 minutes has something to do");
    let none = once("plan --type off-road -c 59cm --minutes 4 --format json");
    assert_eq!((none.status, &none.document()["plan"]["first"]), (1, &Value::Null));
}

/// Minutes of the longest way through a plan.
fn longest(step: &Value) -> f64 {
    let branches = step["on"].as_array().expect("a list").iter();
    let next = branches.filter(|branch| !branch["next"].is_null()).map(|branch| longest(&branch["next"]));
    number(&step["minutes"]) + next.fold(0.0, f64::max)
}

#[rstest]
#[case("shop-first", &["computed", "none", "shop"])]
#[case("shop-only", &["none", "shop"])]
#[case("computed-only", &["computed", "none"])]
fn the_lead_says_whose_word_counts(#[case] lead: &str, #[case] allowed: &[&str]) {
    let document = document(&format!("plan --type off-road,adventure -c 59cm -b 155 --lead {lead}"));
    assert_eq!(document["method"]["lead"], lead);
    let mut sources = BTreeSet::new();
    each_step(&document["plan"]["first"], 1, &mut |step, _| {
        sources.extend(step["on"].as_array().expect("a list").iter().map(|branch| text(&branch["source"]).to_owned()));
    });
    assert_eq!(sources.iter().map(String::as_str).collect::<Vec<_>>(), allowed);
}

#[test]
fn another_seed_gives_figures_within_the_stated_error() {
    let [one, two] = ["-c 575", "-c 575 --seed 2"].map(off_road);
    assert_eq!([&one["method"]["seed"], &two["method"]["seed"]], [1, 2]);
    assert_ne!(one["head"]["estimate"], two["head"]["estimate"]);
    for field in ["expected_tries", "expected_minutes", "no_fit_probability"] {
        let [a, b] = [&one, &two].map(|document| number(&document["plan"][field]));
        let errors = [&one, &two].map(|document| number(&document["plan"][format!("{field}_error")]));
        near(a, b, errors.iter().sum(), field);
    }
    assert_eq!(off_road("-c 575 --seed 18446744073709551615")["method"]["seed"], u64::MAX);
}

#[test]
fn a_folder_of_profiles_takes_the_place_of_the_built_in_range() {
    let folder = Folder::with_profiles();
    folder.edit("profiles/helmets/dunvarrick.yaml", "name: Dunvarrick Mud", "name: Dunvarrick Größe");
    let line = "plan --type off-road --steps 1 -c 575";
    let by_option = folder.run(&format!("{line} --profiles profiles"));
    assert!(by_option.good().contains("Dunvarrick Größe in M"));
    assert_eq!(by_option.stdout.replace("Größe in", "Mud in  ").replace("  ", ""), once(line).stdout.replace("  ", ""));
    let by_name = Program::new().line(line).inside(folder.path()).set("LIDLADDER_PROFILES", "profiles");
    assert_eq!(by_name.run(), by_option);
    let both = Program::new().line(line).line("--profiles profiles").inside(folder.path());
    assert_eq!(both.set("LIDLADDER_PROFILES", "nowhere").run(), by_option);
}

#[test]
fn the_next_measurement_is_one_that_is_not_taken() {
    let document = document("plan -c 57.5cm");
    let measures: Vec<&str> =
        document["next_measurements"].as_array().expect("a list").iter().map(|next| text(&next["measure"])).collect();
    assert_eq!(measures.iter().collect::<BTreeSet<_>>(), BTreeSet::from([&"breadth", &"face width", &"length"]));
    let gains = numbers(&document["next_measurements"], "first_fit_probability");
    assert!(gains.windows(2).all(|pair| pair[0] >= pair[1]), "{gains:?}");
    let all = off_road("-c 575 -l 197 -b 152 -w 139");
    assert_eq!(all["next_measurements"], json!([]));
    assert_eq!(strings(&all["cautions"]).len(), strings(&document["cautions"]).len());
}
