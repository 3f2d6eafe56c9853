//! Ranges of any size, made up: the shapes of the demo range, spread out.

use itertools::Itertools;
use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

/// Profiles of so many models with six sizes each, ten in a file, with six rules a model, as a shop's own folder: the
/// shapes of the demo range, spread out.
pub(crate) fn large_range(models: usize) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("lidladder-bench-{}-{models}", std::process::id()));
    let here = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
    for sub in ["helmets", "populations"] {
        fs::create_dir_all(folder.join(sub)).expect("a folder for the bench");
    }
    for file in ["shop.yaml", "populations/adults.yaml", "populations/men.yaml", "populations/women.yaml"] {
        fs::copy(here.join(file), folder.join(file)).expect("part of the repository");
    }
    for family in 0..models / 10 {
        let mut text = format!(
            "schema: 1\nmaker: Maker {family}\nfamily: Family {family}\npads_trade: sale\n\
             swap_minutes: {{brow: 1.5, rear: 2, sides: 2, crown: 1.5, cheeks: 1}}\nmodels:\n"
        );
        (0..10).for_each(|model| text.push_str(&large_model(family, model)));
        fs::write(folder.join(format!("helmets/family-{family}.yaml")), text).expect("the folder is ours");
    }
    let mut edges = String::new();
    for (at, (reason, step)) in (0..models).cartesian_product(RULES) {
        // Only rules that point the right way, so that little is found.
        let next = at.saturating_add_signed(step) % models;
        if next != at && (large_shape(next) > large_shape(at)) == (step > 0) {
            let rule = format!("{{from: model-{at}, reason: {reason}, to: model-{next}, note: \"another shape\"}}");
            let _ = writeln!(edges, "  - {rule}");
        }
    }
    fs::write(folder.join("fallbacks.yaml"), format!("schema: 1\nedges:\n{edges}")).expect("the folder is ours");
    folder
}

const RULES: [(&str, isize); 6] = [
    ("temples-press", 3),
    ("too-oval", 3),
    ("loose-front-to-back", 3),
    ("too-round", -3),
    ("loose-sides", -3),
    ("brow-rear-press", -3),
];

fn large_shape(model: usize) -> f64 {
    73.0 + (model as f64 * 0.37) % 11.0
}

fn large_model(family: usize, model: usize) -> String {
    let at = family * 10 + model;
    let shape = large_shape(at);
    let mut text = format!(
        "  - id: model-{at}\n    name: Model {at}\n    type: full-face\n    price: 300\n    interior: {{shape_index: {shape:.2}, origin: by-eye}}\n    \
         attributes: {{mass_g: 1500, noise_db: 100, spectacle_channel: true, intercom_ready: true, chin_room: medium, approvals: [UN R22.06]}}\n    shells:\n"
    );
    for shell in 0..3 {
        let _ = writeln!(text, "      - id: shell-{shell}\n        sizes:");
        for (size, [brow, rear, sides, cheeks]) in [(0, [13.0, 18.0, 15.0, 34.0]), (1, [9.0, 11.5, 11.0, 30.5])] {
            let cm = 53 + 4 * shell + 2 * size;
            let label = ["XS", "S", "M", "L", "XL", "XXL"][2 * shell + size];
            let _ = writeln!(
                text,
                "          - label: {label}\n            circumference_cm: [{cm}, {}]\n            \
                 standard_pads_mm: {{brow: {brow}, rear: {rear}, sides: {sides}, crown: 10, cheeks: {cheeks}}}",
                cm + 1
            );
        }
        let _ = writeln!(text, "        pads:");
        for (zone, mm) in [
            ("rear", 11.5),
            ("rear", 18.0),
            ("sides", 9.0),
            ("sides", 11.0),
            ("sides", 15.0),
            ("cheeks", 30.5),
            ("cheeks", 34.0),
        ] {
            let _ = writeln!(text, "          - {{zone: {zone}, thickness_mm: {mm}, price: 20}}");
        }
    }
    text
}
