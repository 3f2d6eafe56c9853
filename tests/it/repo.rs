//! The repository's own rules, held by reading it.

mod documents;
mod imports;

use crate::oracle_head::{MEN, WOMEN};
use crate::support::{files_below, root};
use lidladder::catalogue::{BUILT_IN, Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::Gaussian;
use lidladder::profile::{Kind, Model, Nature, Supply, Zone};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn demo() -> Catalogue {
    load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order")
}

/// A path below the repository's folder, with `/` between its parts.
fn name(path: &Path) -> String {
    let below = path.strip_prefix(root()).expect("it lies below");
    below.components().map(|part| part.as_os_str().to_string_lossy()).collect::<Vec<_>>().join("/")
}

/// The source files with their names below `src` and their texts.
fn sources() -> Vec<(String, String)> {
    let files = files_below(&root().join("src"));
    let read = |path: &PathBuf| {
        let text = fs::read_to_string(path).expect("source is text");
        (name(path).trim_start_matches("src/").to_owned(), text)
    };
    let is_program = |path: &&PathBuf| {
        path.extension().is_some_and(|ext| ext == "rs") && path.file_name().is_some_and(|name| name != "tests.rs")
    };
    let all: Vec<_> = files.iter().filter(is_program).map(read).collect();
    assert!(all.len() > 50, "the search for source files found {} only", all.len());
    all
}

/// A source without its comments and its tests.
fn code(text: &str) -> String {
    let whole = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let is_comment = |line: &&str| line.trim_start().starts_with("//");
    whole.lines().filter(|line| !is_comment(line)).collect::<Vec<_>>().join("\n")
}

#[test]
fn no_source_file_is_long_and_main_is_short() {
    for (file, text) in sources() {
        let most = if file == "main.rs" { 30 } else { 500 };
        assert!(text.lines().count() <= most, "{file} has {} lines, more than {most}", text.lines().count());
    }
}

#[test]
fn every_profile_is_part_of_the_program() {
    let folder = root().join("profiles");
    let files: BTreeSet<String> =
        files_below(&folder).iter().map(|path| name(path).trim_start_matches("profiles/").to_owned()).collect();
    let built_in: BTreeSet<String> = BUILT_IN.iter().map(|(path, _)| (*path).to_owned()).collect();
    assert_eq!(built_in, files);
    assert_eq!(BUILT_IN.len(), files.len(), "none is listed twice");
    for (path, text) in BUILT_IN {
        assert_eq!(fs::read_to_string(folder.join(path)).expect("a profile is text"), *text, "{path}");
    }
}

/// The built-in texts skip the first pass of the reader: read as files they go through it.
#[test]
fn the_built_in_range_reads_without_a_problem_as_files_too() {
    let mut sources = Sources::default();
    let written = load(&Origin::Folder(root().join("profiles")), &mut sources);
    assert_eq!(written.as_ref(), Ok(&demo()));
}

#[test]
fn the_demo_range_shows_what_helmets_can_be_like() {
    let demo = demo();
    let models = demo.models();
    let different = |what: &dyn Fn(&Model) -> String| models.iter().map(what).collect::<BTreeSet<_>>().len();
    assert!(models.len() >= 14);
    assert_eq!(different(&|model| model.family.clone()), 6);
    assert_eq!(different(&|model| model.maker.clone()), 5);
    assert_eq!(different(&|model| model.kind.name().to_owned()), Kind::ALL.len());
    let shapes = || models.iter().map(|model| model.interior.shape_index);
    assert!(shapes().fold(f64::INFINITY, f64::min) <= 73.0 && shapes().fold(0.0, f64::max) >= 84.0);
    let shells: BTreeSet<usize> = models.iter().map(|model| model.shells.len()).collect();
    assert_eq!(shells, BTreeSet::from([1, 2, 3, 4]));
}

#[test]
fn the_demo_range_shows_every_way_of_selling_pads() {
    let demo = demo();
    let has = |what: &dyn Fn(&Model) -> bool| demo.models().iter().any(what);
    let pads = |model: &Model| model.shells.iter().flat_map(|shell| shell.pads.clone()).collect::<Vec<_>>();
    assert!(has(&|model| pads(model).is_empty()), "a model without pads");
    assert!(
        has(&|model| !pads(model).is_empty() && pads(model).iter().all(|pad| pad.zone == Zone::Sides)),
        "sides only"
    );
    assert!(has(&|model| pads(model).iter().any(|pad| pad.sizes.is_some())), "pads for some sizes");
    let in_packs = |model: &Model| {
        let head: Vec<_> = pads(model).into_iter().filter(|pad| pad.zone != Zone::Cheeks).collect();
        !head.is_empty() && head.iter().all(|pad| matches!(pad.supply, Supply::Pack(_)))
    };
    assert!(has(&in_packs), "head pads in packs only");
    assert!(has(&|model| pads(model).iter().any(|pad| matches!(pad.supply, Supply::Single(_)))), "pads sold singly");
    let differ = |model: &Model| {
        let of = |at: usize| {
            model.shells.get(at).map(|shell| shell.pads.iter().map(|pad| pad.thickness).collect::<Vec<_>>())
        };
        of(1).is_some() && of(0) != of(1)
    };
    assert!(has(&differ), "shells whose pads differ");
}

#[test]
fn the_demo_rules_speak_for_many_reasons() {
    let demo = demo();
    assert!(demo.edges().len() >= 60, "{} rules", demo.edges().len());
    let reasons: BTreeSet<_> = demo.edges().iter().map(|edge| edge.reason.id()).collect();
    assert!(reasons.len() >= 12, "{reasons:?}");
    assert!(demo.edges().iter().any(|edge| edge.reason.nature() == Nature::Experience));
    assert!(demo.edges().iter().any(|edge| edge.reason.nature() == Nature::Geometric));
    assert!(demo.models().iter().all(|model| demo.edges().iter().any(|edge| edge.from == model.id)));
}

#[test]
fn the_populations_are_those_of_the_survey() {
    let demo = demo();
    let parts = |id: &str| {
        let population = demo.population(id).expect("part of the demo range");
        let parts = population.components().iter().map(|part| (part.share.to_bits(), part.heads));
        parts.collect::<Vec<(u64, Gaussian)>>()
    };
    assert_eq!(parts("men"), [(1.0_f64.to_bits(), MEN)]);
    assert_eq!(parts("women"), [(1.0_f64.to_bits(), WOMEN)]);
    assert_eq!(parts("adults"), [(0.5_f64.to_bits(), MEN), (0.5_f64.to_bits(), WOMEN)]);
    for population in demo.populations() {
        assert!(population.source.contains("NATICK/TR-15/007"), "{} names its source", population.id);
    }
}
