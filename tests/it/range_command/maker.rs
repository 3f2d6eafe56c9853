//! `range maker`.

use crate::support::{Folder, eighty_plain_columns, lidladder, once};
use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::{Particles, Posterior};
use lidladder::range::{Column, MakerSheet, Missing, Shelf, maker_sheet, taken, tally};
use rstest::rstest;
use serde_json::Value;
use std::fs;

const HEADS: usize = 8192;

fn catalogue(folder: &Folder) -> Catalogue {
    load(&Origin::Folder(folder.path().join("profiles")), &mut Sources::default()).expect("the profiles are good")
}

fn shelf(catalogue: &Catalogue) -> Shelf<'_> {
    Shelf::new(catalogue.models().iter().map(|model| Column::of(model, catalogue)).collect(), catalogue.shop.fit)
}

fn heads(catalogue: &Catalogue) -> Particles {
    let anybody = Posterior::new(catalogue.population("adults").expect("the demo population"), &[], None);
    Particles::draw(&anybody, HEADS, 3, 0)
}

fn sheet<'a>(catalogue: &'a Catalogue, maker: &str) -> MakerSheet<'a> {
    maker_sheet(maker, &shelf(catalogue), &heads(catalogue), catalogue, 3)
}

/// The share of the heads that judge whom a helmet of the maker fits, and whom any does: counted by the core.
fn served(catalogue: &Catalogue, maker: &str) -> [f64; 2] {
    let shelf = shelf(catalogue);
    let all = heads(catalogue);
    let judges = Particles::of((1..all.len()).step_by(2).map(|head| all.head(head)));
    let tally = tally(&shelf, &taken(&judges, shelf.rules.outline), None);
    let own = |column: usize| shelf.columns[column].model.maker == maker;
    [
        tally.share(|pattern| pattern.on_offer.iter().any(own)).value,
        tally.share(|pattern| !pattern.on_offer.is_empty()).value,
    ]
}

/// Writes what is missing into the file of a family: behind the line of the model, and of the shell, the first `pads:`.
fn write(text: &str, model: &str, missing: &Missing) -> String {
    let behind = |text: &str, from: usize, line: &str| {
        let at = text[from..].find(line).unwrap_or_else(|| panic!("{line:?} is missing"));
        from + at + line.len()
    };
    let pads = |text: String, shell: &str, zone: &str, thicknesses: &[f64]| {
        let at = behind(&text, behind(&text, 0, &format!("  - id: {model}\n")), &format!("      - id: {shell}\n"));
        let shell_end = text[at..].find("      - id: ").map_or(text.len(), |end| at + end);
        let lines =
            thicknesses.iter().map(|mm| format!("          - {{zone: {zone}, thickness_mm: {mm}, price: 20.00}}\n"));
        let lines: String = lines.collect();
        match text[at..shell_end].find("        pads:\n") {
            Some(pads) => {
                let at = at + pads + "        pads:\n".len();
                format!("{}{lines}{}", &text[..at], &text[at..])
            }
            None => {
                // Behind the last pads of a size.
                let last = text[at..shell_end].rfind("standard_pads_mm").expect("a size") + at;
                let at = last + text[last..].find('\n').expect("an end of the line") + 1;
                format!("{}        pads:\n{lines}{}", &text[..at], &text[at..])
            }
        }
    };
    match missing {
        Missing::Pad { shell, zone, thickness } => pads(text.to_owned(), shell.as_str(), zone.name(), &[*thickness]),
        Missing::Zone { zone, pads: shells } => shells
            .iter()
            .fold(text.to_owned(), |text, (shell, thicknesses)| pads(text, shell.as_str(), zone.name(), thicknesses)),
        Missing::Size { .. } => panic!("no size is written here"),
    }
}

/// What the sheet says of a pad or a zone is what the count says once it stands in the profile.
#[rstest]
#[case("Tollern", &["wexmarsh", "quorrie"])]
#[case("Pellgrave", &["haspenfell"])]
fn what_is_written_into_the_profile_wins_what_was_said(#[case] maker: &str, #[case] files: &[&str]) {
    let folder = Folder::with_profiles();
    let before = catalogue(&folder);
    let told = sheet(&before, maker);
    let base = served(&before, maker);
    assert!((told.served.value - base[0]).abs() < 1e-12);
    let lines = told.lines.iter().filter(|line| !matches!(line.missing, Missing::Size { .. })).collect_vec();
    assert!(lines.iter().any(|line| matches!(line.missing, Missing::Pad { .. })));
    assert!(lines.iter().any(|line| matches!(line.missing, Missing::Zone { .. })));
    for line in lines {
        let file = files.iter().find(|file| line.model.id.as_str().starts_with(**file)).expect("the family's file");
        let path = folder.path().join(format!("profiles/helmets/{file}.yaml"));
        let text = fs::read_to_string(&path).expect("the file is there");
        fs::write(&path, write(&text, line.model.id.as_str(), &line.missing)).expect("it can be written");
        let after = served(&catalogue(&folder), maker);
        fs::write(&path, text).expect("it can be written");
        let won = [after[0] - base[0], after[1] - base[1]];
        let said = [line.gain.for_maker.value, line.gain.for_shop.value];
        let apart = won.iter().zip(said).map(|(won, said)| (won - said).abs()).fold(0.0, f64::max);
        assert!(apart < 1e-12, "{:?} of {}: {won:?}, but {said:?} was said", line.missing, line.model.id);
    }
}

#[test]
fn a_missing_size_wins_what_was_said() {
    let folder = Folder::with_profiles();
    let before = catalogue(&folder);
    let told = sheet(&before, "Tollern");
    let is_size = |model: &str, label: &str| {
        told.lines.iter().find(|line| {
            line.model.id.as_str() == model
                && matches!(&line.missing, Missing::Size { rung, .. } if rung.label.as_str() == label)
        })
    };
    let line = is_size("wexmarsh-two-flip", "XS").expect("the flip-front begins with S");
    // As its S, with the pads that its shell has for S: single here, since packs count for nothing.
    let size = "      - id: xs\n        sizes:\n          - label: XS\n            circumference_cm: [53, 54]\n            \
                standard_pads_mm: {brow: 14, rear: 18.5, sides: 16, crown: 11, cheeks: 35}\n        pads:\n";
    let model = before.model("wexmarsh-two-flip").expect("the model");
    let pads = model.shells[0].pads.iter().map(|pad| {
        format!("          - {{zone: {}, thickness_mm: {}, price: 20.00}}\n", pad.zone.name(), pad.thickness)
    });
    let size = format!("{size}{}", pads.collect::<String>());
    let path = folder.path().join("profiles/helmets/wexmarsh.yaml");
    let text = fs::read_to_string(&path).expect("the file is there");
    let at = text.find("      - id: s-m\n").expect("its first shell");
    fs::write(&path, format!("{}{size}{}", &text[..at], &text[at..])).expect("it can be written");
    let (base, after) = (served(&before, "Tollern"), served(&catalogue(&folder), "Tollern"));
    assert!((after[0] - base[0] - line.gain.for_maker.value).abs() < 1e-12);
    assert!((after[1] - base[1] - line.gain.for_shop.value).abs() < 1e-12);
}

#[test]
fn lines_are_ordered_and_add_up_to_no_less_than_all_of_them() {
    let folder = Folder::with_profiles();
    let catalogue = catalogue(&folder);
    for maker in catalogue.models().iter().map(|model| model.maker.as_str()).unique() {
        let told = sheet(&catalogue, maker);
        let sum: f64 = told.lines.iter().map(|line| line.gain.for_maker.value).sum();
        let most = told.lines.iter().map(|line| line.gain.for_maker.value).fold(0.0, f64::max);
        let together = told.together.for_maker.value;
        assert!(together >= most, "{maker}: {together} against {most} for one");
        assert!(told.lines.iter().all(|line| line.gain.for_shop.value <= line.gain.for_maker.value), "{maker}");
        assert!(together <= 1.0 - told.served.value + 1e-12, "{maker}: {together}");
        assert!(sum > 0.0, "{maker}");
    }
}

#[test]
fn a_sheet_is_plain_and_names_its_shop() {
    let run = once("range maker tollern --heads 8192");
    let page = run.good();
    eighty_plain_columns(page);
    let parts = [
        "FOR TOLLERN",
        "From: Helmet counter of the demo town",
        "WHAT WOULD WIN CUSTOMERS",
        "PACKS",
        "SINGLE PADS",
        "HOW WE KNOW",
    ];
    let mut rest = page;
    for part in parts {
        rest = rest.split_once(part).unwrap_or_else(|| panic!("{part:?} is missing from {rest}")).1;
    }
    assert!(!page.contains("WHAT CUSTOMERS SAID"), "no journal was given");
}

const YEAR: &str = "range maker Tollern --heads 4096 --journal docs/examples/year/journal.jsonl";

/// The counts of the sheet against a plain reading of the lines.
#[test]
fn complaints_are_those_of_the_journal() {
    let folder = Folder::for_documents();
    let document = folder.run(&format!("{YEAR} --format json")).document();
    let text = fs::read_to_string(folder.path().join("docs/examples/year/journal.jsonl")).expect("the journal");
    let tries: Vec<Value> = text.lines().map(|line| serde_json::from_str(line).expect("a record")).collect();
    let complaints = &document["complaints"];
    let heard = complaints["heard"].as_array().expect("complaints");
    assert!(!heard.is_empty());
    for one in heard {
        let own =
            tries.iter().filter(|entry| entry["model"] == one["model"] && entry["size"] == one["size"]).collect_vec();
        let has = |entry: &&&Value| {
            entry["rounds"].as_array().expect("rounds").iter().any(|round| round["reason"] == one["reason"])
        };
        assert_eq!(one["tries"], own.len(), "{one}");
        assert_eq!(one["heard"], own.iter().filter(has).count(), "{one}");
        let with: u64 =
            one["with"].as_array().expect("sets").iter().map(|set| set["tries"].as_u64().expect("a count")).sum();
        assert_eq!(one["heard"], with, "{one}");
    }
    let known = document["models"].as_array().expect("models");
    assert_eq!(complaints["tries"], tries.iter().filter(|entry| known.contains(&entry["model"])).count());
}

#[test]
fn a_journal_that_is_named_twice_counts_once() {
    let folder = Folder::for_documents();
    let [once, twice] =
        ["", " docs/examples/year/journal.jsonl"].map(|more| folder.run(&format!("{YEAR}{more}")).stdout);
    assert!(once.contains("WHAT CUSTOMERS SAID") && once == twice, "{twice}");
    eighty_plain_columns(&once);
}

#[rstest]
#[case("range maker tolern", "did you mean `Tollern`?")]
#[case("range maker Skarnes --type full-face", "these filters leave no helmet of Skarnes")]
#[case("range maker Tollern --journal nowhere.jsonl", "error[journal-unreadable]")]
fn mistakes_are_told(#[case] line: &str, #[case] told: &str) {
    let run = lidladder(line);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""));
    assert!(run.stderr.contains(told), "{}", run.stderr);
}

#[test]
fn lines_that_are_no_records_are_counted() {
    let folder = Folder::for_documents();
    folder.write("torn.jsonl", "no record\n");
    let run = folder.run("range maker Tollern --heads 4096 --journal torn.jsonl");
    assert_eq!(run.status, 1);
    assert!(run.stdout.contains("1 line of our journals could not"), "{}", run.stdout);
}
