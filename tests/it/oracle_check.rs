//! What `check` counts, counted again by plain loops, and held against what is known outside of the program.

use crate::support::{Folder, once, root};
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::fit::{Candidate, Verdict, verdict};
use lidladder::head::{Particles, Posterior};
use lidladder::profile::Reason;
use rstest::rstest;
use serde_json::Value;
use std::fs;

fn demo() -> Catalogue {
    load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order")
}

/// Every head of the population in the size of a model that a tape would pick, judged pad set by pad set.
fn verdicts(catalogue: &Catalogue, model: &str) -> Vec<Verdict> {
    let population = catalogue.population("adults").expect("part of the demo range");
    let heads = Particles::draw(&Posterior::new(population, &[], None), 4096, 1, 0);
    let candidates = Candidate::of_models(catalogue.model(model), catalogue);
    let judged = (0..heads.len()).map(|at| {
        let head = heads.head(at);
        let off = |candidate: &&Candidate<'_>| (candidate.size.centre() - head.circumference).abs();
        let size = candidates.iter().min_by(|a, b| off(a).total_cmp(&off(b))).expect("a model has sizes");
        verdict(size, catalogue.shop.fit.outline.effective(head), &catalogue.shop.fit)
    });
    judged.collect()
}

/// Heads that fail in one model for a reason, and how many of them fit another one in the size that a tape picks.
fn plain_count(from: &str, reason: Reason, to: &str) -> (usize, usize) {
    let catalogue = demo();
    let pairs = verdicts(&catalogue, from).into_iter().zip(verdicts(&catalogue, to));
    let failed: Vec<_> = pairs.filter(|(before, _)| before.best().reason == Some(reason)).collect();
    (failed.len(), failed.iter().filter(|(_, after)| after.best().fits()).count())
}

/// Both planted rules lead to the same label, and the ladders of both models are the same: a tape picks that label.
#[rstest]
#[case("wexmarsh-two-flip", Reason::TooRound, "haspenfell-lift")]
#[case("dunvarrick-gravel", Reason::TemplesPress, "umberlow-drove")]
fn the_heads_of_a_bad_rule_are_those_of_plain_loops(#[case] from: &str, #[case] reason: Reason, #[case] to: &str) {
    let document = once("check --format json").document();
    let findings = document["findings"].as_array().expect("a list").iter();
    let told = findings.filter_map(|finding| finding["help"].as_str()).find(|help| help.contains(from));
    let (heads, fit) = plain_count(from, reason, to);
    let told = told.expect("the rule is found");
    assert!(told.contains(&format!("of 4096 sampled heads {heads} fail so;")), "{heads}: {told}");
    assert!(told.contains(&format!("in {to}, where {fit} of them fit")), "{fit}: {told}");
    assert!(heads >= 10);
}

fn codes(document: &Value) -> Vec<&str> {
    document["findings"].as_array().expect("a list").iter().filter_map(|finding| finding["code"].as_str()).collect()
}

/// A model with two sizes in one shell.
fn two_sizes(medium: &str, large: &str) -> String {
    format!(
        "schema: 1\nmaker: Ostrey\nfamily: Sandpiper\npads_trade: sale\nswap_minutes: {{}}\nmodels:\n  \
         - id: sandpiper\n    name: Sandpiper\n    type: open-face\n    price: 200\n    \
         interior: {{shape_index: 78, origin: by-eye}}\n    \
         attributes: {{mass_g: 1100, spectacle_channel: true, intercom_ready: true, approvals: [UN R22.06]}}\n    \
         shells:\n      - id: one\n        sizes:\n          \
         - {{label: M, circumference_cm: [57, 58], standard_pads_mm: {{{medium}}}}}\n          \
         - {{label: L, circumference_cm: [59, 60], standard_pads_mm: {{{large}}}}}\n"
    )
}

/// Pads that are 5 mm thinner all round make the next size of the same shell (common practice, no source).
#[rstest]
#[case::five_thinner("brow: 10, rear: 10, sides: 10", 0)]
#[case::as_thick("brow: 15, rear: 15, sides: 15", 1)]
#[case::two_sizes_thinner("brow: 5, rear: 5, sides: 5", 1)]
fn one_size_is_five_millimetres_of_foam(#[case] large: &str, #[case] doubts: usize) {
    let folder = Folder::new();
    folder.write("sandpiper.yaml", two_sizes("brow: 15, rear: 15, sides: 15", large));
    let document = folder.run("check sandpiper.yaml --format json").document();
    assert_eq!(codes(&document).iter().filter(|code| **code == "shell-contradiction").count(), doubts, "{document}");
}

/// A population made of measured people is none to doubt: 90 men; Rencher (1995), Methods of Multivariate Analysis, table
/// 8.3, through the R package heplots. (Face widths are not in the data; those of the 2012 survey stand in.)
#[test]
fn a_population_of_real_men_is_not_doubted() {
    let text = fs::read_to_string(root().join("tests/data/foot_head.csv")).expect("part of the repository");
    let rows = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    let men: Vec<[f64; 3]> = rows
        .map(|row| {
            let fields: Vec<&str> = row.split(',').collect();
            [1, 2, 3].map(|at| fields[at].parse().expect("a number"))
        })
        .collect();
    assert_eq!(men.len(), 90);
    let mean = |k: usize| men.iter().map(|man| man[k]).sum::<f64>() / 90.0;
    let covariance =
        |i: usize, j: usize| men.iter().map(|man| (man[i] - mean(i)) * (man[j] - mean(j))).sum::<f64>() / 89.0;
    let row =
        |i: usize, face: f64| format!("[{}, {}, {}, {face}]", covariance(i, 0), covariance(i, 1), covariance(i, 2));
    let population = format!(
        "schema: 1\nid: players\nname: Players\nsource: Rencher 1995\ncomponents:\n  - name: men\n    share: 1\n    \
         mean_mm: {{circumference: {}, length: {}, breadth: {}, face_width: 142.6}}\n    covariance_mm2:\n      \
         circumference: {}\n      length: {}\n      breadth: {}\n      face_width: [20, 5, 10, 38.7]\n",
        mean(0),
        mean(1),
        mean(2),
        row(0, 20.0),
        row(1, 5.0),
        row(2, 10.0),
    );
    let folder = Folder::new();
    folder.write("players.yaml", &population);
    assert_eq!(codes(&folder.run("check players.yaml --format json").document()), [""; 0], "{population}");
    // A standard deviation where the variance belongs.
    let slip = population.replace("face_width: [20, 5, 10, 38.7]", "face_width: [20, 5, 10, 6.2]");
    folder.write("players.yaml", slip);
    assert_ne!(codes(&folder.run("check players.yaml --format json").document()), [""; 0]);
}
