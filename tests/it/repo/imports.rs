//! Imports go one way, and each crate from outside has one place.

use super::{code, sources};
use rstest::rstest;
use std::collections::BTreeSet;

/// What each module may name of the others.
const MAY_USE: &[(&str, &[&str])] = &[
    ("unit", &[]),
    ("diag", &[]),
    ("head", &["unit"]),
    ("profile", &["head", "unit", "diag"]),
    ("catalogue", &["profile", "head", "unit", "diag"]),
    ("supply", &["profile", "unit"]),
    ("fit", &["supply", "catalogue", "profile", "head", "unit"]),
    ("fallback", &["profile", "unit"]),
    ("layered", &[]),
    ("check", &["fallback", "fit", "catalogue", "profile", "head", "unit", "diag"]),
    ("plan", &["fallback", "fit", "catalogue", "profile", "head", "unit"]),
    ("audit", &["plan", "fallback", "fit", "catalogue", "profile", "head", "unit"]),
    ("sketch", &["fit", "catalogue", "profile", "head", "unit"]),
    ("journal", &["profile", "head", "unit"]),
    ("away", &["plan", "fit", "catalogue", "profile", "head", "unit"]),
    ("counter", &["supply", "journal", "plan", "fallback", "fit", "catalogue", "profile", "head", "unit"]),
    ("score", &[]),
    ("range", &["score", "journal", "supply", "fit", "catalogue", "profile", "head", "unit"]),
    ("simulate", &["score", "journal", "plan", "fit", "catalogue", "profile", "head", "unit"]),
    ("card", &["range", "supply", "fallback", "fit", "catalogue", "profile", "head", "unit"]),
    (
        "drill",
        &[
            "counter",
            "simulate",
            "score",
            "journal",
            "supply",
            "plan",
            "fallback",
            "fit",
            "catalogue",
            "profile",
            "head",
            "unit",
        ],
    ),
    ("learn", &["sketch", "score", "journal", "fit", "catalogue", "profile", "head", "unit", "diag"]),
    (
        "render",
        &[
            "drill",
            "card",
            "counter",
            "range",
            "learn",
            "away",
            "supply",
            "simulate",
            "score",
            "journal",
            "audit",
            "sketch",
            "plan",
            "check",
            "layered",
            "fallback",
            "fit",
            "catalogue",
            "profile",
            "head",
            "unit",
            "diag",
        ],
    ),
    (
        "cli",
        &[
            "render",
            "drill",
            "card",
            "counter",
            "range",
            "learn",
            "away",
            "supply",
            "simulate",
            "score",
            "journal",
            "audit",
            "sketch",
            "plan",
            "check",
            "fallback",
            "fit",
            "catalogue",
            "profile",
            "head",
            "unit",
            "diag",
        ],
    ),
    ("main", &["cli"]),
    ("lib", &[]),
];

/// The module that a file belongs to, right below the root.
fn module(file: &str) -> &str {
    file.split(['/', '.']).next().unwrap_or_default()
}

/// The modules right below the root that a source names, as `crate::x`, from a group, or by going up to the root.
fn named(file: &str, code: &str) -> BTreeSet<String> {
    let depth = file.trim_end_matches(".rs").split('/').count();
    let roots = ["crate::".to_owned(), "lidladder::".to_owned(), "super::".repeat(depth)];
    let mut found = BTreeSet::new();
    for root in roots {
        for (at, _) in code.match_indices(&root) {
            // `super::super::` holds `super::` further on, and `pub(crate)` holds no path.
            if code[..at].ends_with("::") || code[..at].ends_with(|c: char| c.is_alphanumeric() || c == '_') {
                continue;
            }
            found.extend(first_names(&code[at + root.len()..]));
        }
    }
    found
}

/// The name that a path goes on with, or the first names of a group of paths.
fn first_names(rest: &str) -> Vec<String> {
    let word =
        |text: &str| text.trim_start().split(|c: char| !c.is_alphanumeric() && c != '_').next().map(str::to_owned);
    let Some(group) = rest.strip_prefix('{') else { return word(rest).into_iter().collect() };
    let mut names = Vec::new();
    let mut depth = 0;
    let mut start = 0;
    for (at, c) in group.char_indices() {
        match c {
            '{' => depth += 1,
            ',' if depth == 0 => {
                names.extend(word(&group[start..at]));
                start = at + 1;
            }
            '}' if depth == 0 => {
                names.extend(word(&group[start..at]).filter(|name| !name.is_empty()));
                break;
            }
            '}' => depth -= 1,
            _ => {}
        }
    }
    names
}

#[test]
fn modules_name_only_what_lies_below_them() {
    let known: BTreeSet<&str> = MAY_USE.iter().map(|(module, _)| *module).collect();
    let mut used = BTreeSet::new();
    for (file, text) in sources() {
        let own = module(&file);
        let (_, allowed) = MAY_USE.iter().find(|(module, _)| *module == own).unwrap_or_else(|| panic!("{own} is new"));
        for name in named(&file, &code(&text)) {
            assert!(known.contains(name.as_str()), "{file} names crate::{name}, which is no module");
            assert!(name == own || allowed.contains(&name.as_str()), "src/{file} must not use crate::{name}");
            used.insert((own.to_owned(), name));
        }
    }
    // The search would find a mistake: what is known to be used was found.
    for (user, name) in [("main", "cli"), ("cli", "render"), ("render", "plan"), ("plan", "fallback"), ("fit", "head")]
    {
        assert!(used.contains(&(user.to_owned(), name.to_owned())), "{user} uses {name}: {used:?}");
    }
}

#[test]
fn a_path_is_found_however_it_is_written() {
    let names = |file: &str, code: &str| named(file, code).into_iter().collect::<Vec<_>>();
    assert_eq!(names("fit/axis.rs", "use crate::head;\nlet a = crate::plan::x(); pub(crate) fn y()"), ["head", "plan"]);
    assert_eq!(names("fit.rs", "use crate::{unit::{Id, Money}, render::text,\n    head};"), ["head", "render", "unit"]);
    assert_eq!(names("fit/axis.rs", "use super::super::cli::run; use super::Candidate;"), ["cli"]);
    assert_eq!(names("fit.rs", "use super::plan::Plan;"), ["plan"]);
    assert_eq!(names("fit/a/b.rs", "use super::super::candidate;"), [""; 0]);
}

#[rstest]
#[case("petgraph", &["fallback"])]
#[case("serde_yaml", &["profile/yaml"])]
#[case("saphyr_parser", &["profile/yaml"])]
#[case("serde_path_to_error", &["profile/yaml"])]
#[case("clap", &["cli/args"])]
#[case("annotate_snippets", &["render/diagnostics"])]
#[case("schemars", &["render/json", "profile/raw", "profile/schema", "journal/line.rs", "journal/parts.rs", "drill/results.rs"])]
#[case("serde_json", &["render/json", "profile/schema", "journal/line.rs", "counter/note.rs", "drill/results.rs"])]
#[case("anstream", &["cli/terminal.rs"])]
#[case("indicatif", &["cli/meter.rs"])]
#[case("sobol_burley", &["head/"])]
#[case("rand_pcg", &["simulate/chance.rs"])]
#[case("jiff", &["journal/day.rs", "cli/"])]
#[case("glob", &["cli/journal"])]
// The module that writes such tables has the same name.
#[case("use csv", &["range/table"])]
fn a_crate_from_outside_has_one_place(#[case] name: &str, #[case] places: &[&str]) {
    let mut users = 0;
    for (file, text) in sources() {
        let names_it = code(&text).match_indices(name).any(|(at, _)| {
            let (before, after) = (&code(&text)[..at], &code(&text)[at + name.len()..]);
            after.starts_with("::") && !before.ends_with(|c: char| c.is_alphanumeric() || matches!(c, '_' | ':'))
        });
        if names_it {
            assert!(places.iter().any(|place| file.starts_with(place)), "src/{file} uses {name}");
            users += 1;
        }
    }
    assert!(users > 0, "nothing uses {name}");
}

#[test]
fn few_places_write_files() {
    const WRITERS: [&str; 3] = ["cli/init.rs", "cli/output.rs", "journal/store/"];
    let mut found = BTreeSet::new();
    for (file, text) in sources() {
        let ways = ["create_new", "fs::write", "File::create", "OpenOptions", "fs::rename", "fs::remove", "create_dir"];
        if ways.iter().any(|way| code(&text).contains(way)) {
            let writer = WRITERS.iter().find(|writer| file.starts_with(**writer));
            found.insert(writer.unwrap_or_else(|| panic!("src/{file} writes files")));
        }
    }
    assert_eq!(found.len(), WRITERS.len(), "the search finds {found:?} only");
}

#[test]
fn what_computes_reads_no_file_no_clock_and_no_environment() {
    for (file, text) in sources() {
        let is_pure = [
            "unit", "head", "fit", "fallback", "layered", "plan", "sketch", "journal", "supply", "away", "counter",
            "score", "simulate", "learn", "range", "render", "drill",
        ]
        .contains(&module(&file))
            && !file.starts_with("journal/store");
        for name in ["std::fs", "std::env", "std::time", "std::net", "std::process", "std::thread"] {
            // The one place that shares work out: what it adds up is whole numbers.
            let is_shared = name == "std::thread" && file == "range/count.rs";
            assert!(!is_pure || is_shared || !code(&text).contains(name), "src/{file} uses {name}");
        }
    }
}
