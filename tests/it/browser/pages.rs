//! The pages and pictures that the program makes. A new one is a row here.

use super::rules::Rule;
use crate::plan_command::{shown_edges, shown_steps};
use crate::support::{Folder, Program};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

/// The keys that follow from a document.
type KeysIn = fn(&Value) -> BTreeSet<String>;

/// A page or picture, and what stands on it.
pub(super) struct Page {
    /// The command, without its format.
    pub(super) line: &'static str,
    /// `html` or `svg`.
    pub(super) format: &'static str,
    pub(super) profiles: Profiles,
    /// The kinds of marks on its shapes (`data-edge` has the kind `edge`), each with the keys that follow from the document
    /// that the same command makes with `--format json`.
    pub(super) marks: &'static [(&'static str, KeysIn)],
    /// Another command whose document has the keys, where that of the same command hasn't: of the same heads.
    pub(super) document: Option<&'static str>,
    /// How many sheets of A4 it takes, where that is a promise.
    pub(super) sheets: Option<usize>,
    /// Rules that it breaks until somebody mends it.
    pub(super) known: &'static [Rule],
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Profiles {
    BuiltIn,
    /// Names that are long, mean something to markup, or run from right to left.
    Hostile,
}

use Profiles::{BuiltIn, Hostile};

/// A page without marks and flaws.
const PLAIN: Page =
    Page { line: "", format: "html", profiles: BuiltIn, marks: &[], document: None, sheets: None, known: &[] };

pub(super) const PAGES: &[Page] = &[
    // A sheet for each model.
    Page { line: "cards --heads 5000", sheets: Some(16), ..PLAIN },
    Page { line: "cards wexmarsh-one --heads 5000", sheets: Some(1), ..PLAIN },
    Page { line: "cards quorrie-plain --heads 1000", profiles: Hostile, ..PLAIN },
    Page { line: "away sheet", sheets: Some(1), ..PLAIN },
    Page { line: "away sheet", profiles: Hostile, ..PLAIN },
    Page { line: "range --heads 20000", format: "svg", marks: MAP, ..PLAIN },
    Page { line: "range --heads 20000", format: "svg", marks: MAP, profiles: Hostile, ..PLAIN },
    Page { line: "range --heads 20000", marks: MAP, ..PLAIN },
    Page { line: "range --heads 20000", marks: MAP, profiles: Hostile, ..PLAIN },
    Page { line: "range --heads 20000 --type flip-front", marks: MAP, ..PLAIN },
    Page {
        line: "range --heads 20000 --drop wexmarsh-one,lantreth-longways --add wexmarsh-one@83/S/M",
        marks: CHANGED,
        document: Some("range --heads 20000"),
        ..PLAIN
    },
    Page {
        line: "range --heads 20000 --drop haspenfell-plum",
        format: "svg",
        marks: CHANGED,
        document: Some("range --heads 20000"),
        ..PLAIN
    },
    Page { line: "range keep --heads 20000", ..PLAIN },
    Page { line: "range keep --heads 20000", format: "svg", profiles: Hostile, ..PLAIN },
    Page { line: "range keep --heads 20000", profiles: Hostile, ..PLAIN },
    Page { line: "range design --heads 20000", ..PLAIN },
    Page { line: "range design --heads 20000", format: "svg", ..PLAIN },
    Page { line: "range stock --heads 20000", ..PLAIN },
    Page { line: "range stock --heads 20000", format: "svg", profiles: Hostile, ..PLAIN },
    Page { line: "range stock --heads 20000 --type off-road", profiles: Hostile, ..PLAIN },
    Page { line: "range maker Tollern --heads 20000", ..PLAIN },
    Page { line: "fallbacks", marks: &[("edge", edges)], ..PLAIN },
    Page { line: "fallbacks", marks: &[("edge", edges)], profiles: Hostile, ..PLAIN },
    Page { line: "fallbacks --from wexmarsh-one", marks: &[("edge", edges)], ..PLAIN },
    Page { line: "fallbacks --from wexmarsh-one --if too-round --if cheeks-loose", marks: &[("edge", edges)], ..PLAIN },
    Page { line: "fallbacks audit --customers 5000", ..PLAIN },
    Page { line: "fallbacks audit --customers 5000", profiles: Hostile, ..PLAIN },
    Page { line: "away order -c 58cm", ..PLAIN },
    Page { line: "away order -c 58cm -l 205 -b 150", profiles: Hostile, ..PLAIN },
    Page { line: "pads wexmarsh-one M sides=17.5 cheeks=37.5", ..PLAIN },
    Page { line: "fallbacks", format: "svg", marks: &[("edge", edges)], ..PLAIN },
    Page { line: "fallbacks", format: "svg", marks: &[("edge", edges)], profiles: Hostile, ..PLAIN },
    Page { line: "fallbacks --from wexmarsh-one", format: "svg", marks: &[("edge", edges)], ..PLAIN },
    Page { line: "plan -c 57.5cm", marks: PLAN, ..PLAIN },
    Page { line: "plan -c 57.5cm", format: "svg", marks: TREE, ..PLAIN },
    Page { line: "plan -c 57.5cm", profiles: Hostile, marks: PLAN, ..PLAIN },
    // A large round head, a long narrow one that nothing is worth a try on, and one that is smaller than the range.
    Page { line: "plan -c 64cm -l 200 -b 172", marks: PLAN, ..PLAIN },
    Page { line: "plan -c 55cm -l 205 -b 138 -w 120", marks: PLAN, ..PLAIN },
    Page { line: "plan -c 51cm -l 172 -b 140", marks: PLAN, ..PLAIN },
    Page { line: "plan -c 57.5cm --why=loose-sides", marks: &[("zone", zones)], ..PLAIN },
    Page { line: "fit wexmarsh-one -c 57.5cm", marks: &[("zone", zones)], ..PLAIN },
    Page { line: "fit wexmarsh-one -c 57.5cm", format: "svg", marks: &[("zone", zones)], ..PLAIN },
    Page { line: "fit quorrie-peak -c 57.5cm", format: "svg", marks: &[("zone", zones)], profiles: Hostile, ..PLAIN },
    Page { line: "fit quorrie-peak -c 57.5cm", marks: &[("zone", zones)], profiles: Hostile, ..PLAIN },
    Page { line: "fit lantreth-longways --size XS -c 64cm -l 200 -b 172 -w 160", marks: &[("zone", zones)], ..PLAIN },
    Page { line: "fit dunvarrick-gravel --size XXL -c 51cm -l 172 -b 140", marks: &[("zone", zones)], ..PLAIN },
    Page { line: "fit haspenfell-plum -c 55cm -l 205 -b 138 -w 120", marks: &[("zone", zones)], ..PLAIN },
    Page {
        line: "fallbacks --from quorrie-plain",
        format: "svg",
        marks: &[("edge", edges)],
        profiles: Hostile,
        ..PLAIN
    },
];

/// What stands on a plan: its tree, and a head in a helmet for each step.
const PLAN: &[(&str, KeysIn)] = &[("step", steps), ("edge", ways), ("zone", zones)];
const TREE: &[(&str, KeysIn)] = &[("step", steps), ("edge", ways)];

/// What stands on a map.
const MAP: &[(&str, KeysIn)] = &[("cell", cells), ("gap", gaps)];

/// What stands on a map of what would be.
const CHANGED: &[(&str, KeysIn)] = &[("cell", cells)];

/// The numbers of the first four gaps that are not of some faces only and have a cell on the map.
fn gaps(document: &Value) -> BTreeSet<String> {
    let cells = cells(document);
    let cells = cells.iter().map(|key| {
        let (row, column) = key.split_once(' ').expect("row and column");
        [row, column].map(|number| number.parse::<f64>().expect("a number") + 0.5)
    });
    let cells = cells.collect::<Vec<_>>();
    let within = |ends: &Value, at: f64| {
        let [from, to] = [0, 1].map(|end| ends[end].as_f64());
        from.is_none_or(|from| at > from) && to.is_none_or(|to| at < to)
    };
    let is_drawn = |region: &Value| {
        let here = |[row, column]: &[f64; 2]| {
            within(&region["circumference_mm"], row * 10.0) && within(&region["shape_index"], *column)
        };
        region["face_width_mm"] == serde_json::json!([null, null]) && cells.iter().any(here)
    };
    let gaps = document["gaps"].as_array().expect("gaps").iter().zip(1..);
    gaps.filter(|(gap, _)| is_drawn(&gap["region"])).take(4).map(|(_, number)| number.to_string()).collect()
}

/// Numbers of the steps that are shown.
fn steps(document: &Value) -> BTreeSet<String> {
    (1..=shown_steps(document).len()).map(|number| number.to_string()).collect()
}

/// Step and reason of each thing that may be heard.
fn ways(document: &Value) -> BTreeSet<String> {
    shown_edges(document).into_iter().collect()
}

/// The zones of a helmet, whatever the head.
fn zones(_: &Value) -> BTreeSet<String> {
    ["brow", "rear", "sides", "crown", "cheeks"].map(str::to_owned).into()
}

/// From, reason and to of each rule, with a number behind those that say so once more.
fn edges(document: &Value) -> BTreeSet<String> {
    let rules = document["rules"].as_array().expect("rules");
    let mut seen = BTreeMap::new();
    let key = |rule: &Value| {
        let key = ["from", "reason", "to"].map(|key| rule[key].as_str().expect("a word")).join(" ");
        let times = seen.entry(key.clone()).and_modify(|times| *times += 1).or_insert(1);
        if *times == 1 { key } else { format!("{key} {times}") }
    };
    rules.iter().map(key).collect()
}

/// Circumference and shape index at which each cell begins that has heads, between the first and the last row and column
/// with one head in 2,000.
fn cells(document: &Value) -> BTreeSet<String> {
    let number = |cell: &Value, key: &str| cell[key].as_u64().expect("a whole number");
    let cells = document["map"].as_array().expect("a map");
    let cells = cells
        .iter()
        .map(|cell| (number(cell, "circumference_mm") / 10, number(cell, "shape_index"), number(cell, "heads")));
    let cells: Vec<(u64, u64, u64)> = cells.collect();
    let (mut rows, mut columns) = (BTreeMap::new(), BTreeMap::new());
    for (row, column, heads) in &cells {
        *rows.entry(*row).or_insert(0) += heads;
        *columns.entry(*column).or_insert(0) += heads;
    }
    let all: u64 = rows.values().sum();
    let shown = |lines: &BTreeMap<u64, u64>| {
        let full = lines.iter().filter(|(_, heads)| **heads >= all / 2000).map(|(line, _)| *line);
        let full: Vec<u64> = full.collect();
        full[0]..=full[full.len() - 1]
    };
    let (rows, columns) = (shown(&rows), shown(&columns));
    let is_shown =
        |(row, column, heads): &&(u64, u64, u64)| *heads > 0 && rows.contains(row) && columns.contains(column);
    cells.iter().filter(is_shown).map(|(row, column, _)| format!("{row} {column}")).collect()
}

impl Page {
    pub(super) fn name(&self) -> String {
        let hostile = if self.profiles == Hostile { " (hostile names)" } else { "" };
        format!("{} --format {}{hostile}", self.line, self.format)
    }

    /// The page itself.
    pub(super) fn made(&self, hostile: &Folder) -> String {
        self.output(self.line, self.format, hostile)
    }

    /// The keys that must be on it, by their kind.
    pub(super) fn keys(&self, hostile: &Folder) -> BTreeMap<String, BTreeSet<String>> {
        if self.marks.is_empty() {
            return BTreeMap::new();
        }
        let document = serde_json::from_str(&self.output(self.document.unwrap_or(self.line), "json", hostile));
        let document = document.expect("the output is JSON");
        self.marks.iter().map(|(kind, keys)| ((*kind).to_owned(), keys(&document))).collect()
    }

    fn output(&self, line: &str, format: &str, hostile: &Folder) -> String {
        let line = format!("{line} --format {format}");
        let run = match self.profiles {
            BuiltIn => crate::support::once(&line),
            Hostile => Program::new().line(&line).line("--profiles profiles").inside(hostile.path()).run().into(),
        };
        assert!(run.status < 2 && run.stderr.is_empty(), "{line}: {}", run.stderr);
        run.stdout.clone()
    }
}

/// The demo range with names that nobody would give.
pub(super) fn hostile() -> Folder {
    let folder = Folder::with_profiles();
    let markup = r#"<b>&"'</b></title><script>x</script>"#;
    // As long as profiles allow, and without a place to break it.
    let long = "W".repeat(200);
    let right_to_left = "קסדה (סגורה) مرحبا 2";
    let many_words = "The long name of a thing ".repeat(8);
    let quoted = |text: &str| format!("'{}'", text.replace('\'', "''"));
    for (file, old, name) in [
        ("helmets/quorrie.yaml", "maker: Tollern", markup),
        ("helmets/quorrie.yaml", "name: Quorrie Plain", &format!("{markup}{right_to_left}")),
        ("helmets/quorrie.yaml", "name: Quorrie Peak", &long),
        ("helmets/wexmarsh.yaml", "name: Wexmarsh One", right_to_left),
        ("helmets/wexmarsh.yaml", "name: Wexmarsh Slender", &many_words),
        ("populations/adults.yaml", "name: Adults, as many women as men", &many_words),
        ("shop.yaml", "shop: Helmet counter of the demo town (invented)", &long),
    ] {
        let key = old.split(':').next().unwrap_or_default();
        folder.edit(&format!("profiles/{file}"), old, &format!("{key}: {}", quoted(name.trim())));
    }
    let sizes = folder.path().join("profiles/helmets/quorrie.yaml");
    let text = std::fs::read_to_string(&sizes).expect("the profile is there");
    folder.write("profiles/helmets/quorrie.yaml", text.replace("label: M\n", &format!("label: {}\n", "L".repeat(48))));
    folder
}
