//! Who is served, by the program and by a database, an array library and another database, side by side.
//!
//! `cargo bench --bench coverage`: 40 generated models with six sizes each and all their pads, 1,000,000 heads. Everybody
//! gets the same heads and the same boxes (docs/windows.md) and gives the same counts: heads served with standard pads and
//! with the pads on offer, and by each model. Wall time, heads and boxes in memory already; nothing here is an assertion
//! but that the counts are the same. `coverage.py` does the part in Python, as far as numpy and duckdb are there for
//! `python3`, or for the one that LIDLADDER_PYTHON names.

#![allow(clippy::print_stdout, clippy::cast_precision_loss, missing_docs)]

mod common;
#[path = "common/generated.rs"]
mod generated;

use generated::large_range;
use itertools::Itertools;
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::Particles;
use lidladder::range::{CHUNK, Chunk, Column, Counted, Drawn, Shelf, Source, count, size_windows};
use lidladder::render::csv;
use lidladder::unit::Progress;
use rusqlite::functions::FunctionFlags;
use rusqlite::{Connection, params_from_iter};
use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::num::NonZeroUsize;
use std::path::Path;
use std::process::Command;
use std::sync::Arc;
use std::time::Instant;

const HEADS: u64 = 1_000_000;
const ROUNDS: usize = 5;

/// Heads by pads (`standard`, `on-offer`) and model; under no model those that any model fits.
type Answer = BTreeMap<(String, String), u64>;

fn main() {
    let folder = large_range(40);
    let catalogue = load(&Origin::Folder(folder.clone()), &mut Sources::default()).expect("a generated range");
    let columns = catalogue.models().iter().map(|model| Column::of(model, &catalogue)).collect_vec();
    let shelf = Shelf::new(columns, catalogue.shop.fit);
    let heads = drawn(&catalogue);
    let candidates = shelf.columns.iter().flat_map(|column| column.candidates.clone()).collect_vec();
    let boxes = csv::windows(&size_windows(&candidates, &catalogue.shop.fit));
    println!("{HEADS} heads, {} models, {} boxes; wall seconds", catalogue.models().len(), boxes.lines().count() - 1);
    let mut answers = Vec::new();
    for threads in [1, 2] {
        let (seconds, counted) = best(|| held(&shelf, &heads, threads));
        println!("  {:<44} {seconds:>8.3}", format!("index and tally, {threads} threads (best of {ROUNDS})"));
        answers.push(answer(&counted, &shelf));
    }
    answers.extend(python(&heads, &boxes));
    answers.push(sqlite(&heads, &boxes));
    assert!(answers.iter().all_equal(), "all count the same heads");
    println!("  all {} count the same heads", answers.len());
    whole(&folder);
    let _ = fs::remove_dir_all(folder);
}

fn drawn(catalogue: &Catalogue) -> Arc<Vec<Particles>> {
    let mut source = Drawn::new(catalogue.population("adults").expect("copied"), HEADS, 1);
    let chunks = std::iter::from_fn(|| source.next()).map(|lot| {
        let Ok(chunk) = lot.and_then(Drawn::heads);
        chunk.heads
    });
    Arc::new(chunks.collect())
}

fn best<T>(work: impl Fn() -> T) -> (f64, T) {
    let rounds = (0..ROUNDS).map(|_| {
        let start = Instant::now();
        let made = work();
        (start.elapsed().as_secs_f64(), made)
    });
    rounds.min_by(|a, b| a.0.total_cmp(&b.0)).expect("some rounds")
}

/// Heads that are in memory already.
struct Held {
    chunks: Arc<Vec<Particles>>,
    next: usize,
}

impl Source for Held {
    type Piece = (Arc<Vec<Particles>>, usize);
    type Fault = std::convert::Infallible;

    fn next(&mut self) -> Option<Result<Self::Piece, Self::Fault>> {
        self.next += 1;
        (self.next <= self.chunks.len()).then(|| Ok((Arc::clone(&self.chunks), self.next - 1)))
    }

    fn heads((chunks, at): Self::Piece) -> Result<Chunk, Self::Fault> {
        Ok(Chunk { first: at as u64 * CHUNK, heads: chunks[at].clone(), drawn: [0; 4] })
    }

    fn both(one: Self::Fault, _: Self::Fault) -> Self::Fault {
        match one {}
    }

    fn progress(&self) -> Progress {
        Progress { done: self.next, of: self.chunks.len() }
    }
}

fn held(shelf: &Shelf<'_>, heads: &Arc<Vec<Particles>>, threads: usize) -> Counted {
    let source = Held { chunks: Arc::clone(heads), next: 0 };
    let Ok(counted) = count(shelf, source, NonZeroUsize::new(threads).expect("a thread"), &mut |_| {});
    counted
}

fn answer(counted: &Counted, shelf: &Shelf<'_>) -> Answer {
    let mut answer = Answer::new();
    for (pattern, heads) in counted.tally.patterns() {
        for (pads, columns) in [("standard", pattern.standard), ("on-offer", pattern.on_offer)] {
            let any = (!columns.is_empty()).then_some(String::new());
            let models = columns.iter().map(|column| shelf.columns[column].model.id.to_string());
            for model in any.into_iter().chain(models) {
                *answer.entry((pads.to_owned(), model)).or_default() += heads;
            }
        }
    }
    answer
}

/// SQLite within this process, by the statements of the document; filling its tables doesn't count.
fn sqlite(heads: &[Particles], boxes: &str) -> Answer {
    let document = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/windows.md");
    let text = fs::read_to_string(document).expect("part of the repository");
    let blocks = text.split("```sql\n").skip(1).filter_map(|rest| rest.split_once("```")).map(|(block, _)| block);
    let [tables, room, fits, all, each, _] = blocks.collect_array().expect("the document has six statements");
    let database = Connection::open_in_memory().expect("a database");
    let flags = FunctionFlags::SQLITE_DETERMINISTIC;
    let made = database.create_scalar_function("sqrt", 1, flags, |context| Ok(context.get::<f64>(0)?.sqrt()));
    made.expect("a function");
    database.execute_batch(tables).expect("the tables");
    database.execute_batch("BEGIN").expect("quick");
    let mut insert_head = database.prepare("INSERT INTO heads VALUES (?, ?, ?, ?, ?)").expect("a table");
    let all_heads = heads.iter().flat_map(|heads| (0..heads.len()).map(|at| heads.head(at)));
    for (id, head) in (1_i64..).zip(all_heads) {
        insert_head.execute((id, head.circumference, head.length, head.breadth, head.face_width)).expect("a row");
    }
    let insert = format!("INSERT INTO boxes VALUES ({})", ["?"; 13].join(", "));
    let mut insert_box = database.prepare(&insert).expect("a table");
    for line in boxes.lines().skip(1) {
        insert_box.execute(params_from_iter(line.split(','))).expect("a row");
    }
    drop((insert_head, insert_box));
    database.execute_batch("COMMIT").expect("quick");
    let start = Instant::now();
    database.execute_batch(room).expect("the room of heads");
    database.execute_batch(fits).expect("what fits whom");
    let mut answer =
        rows(&database, all, |row| Ok(((row.get(0)?, String::new()), row.get::<_, i64>(1)?.unsigned_abs())));
    answer.extend(rows(&database, each, |row| Ok(((row.get(0)?, row.get(1)?), row.get::<_, i64>(2)?.unsigned_abs()))));
    println!("  {:<44} {:>8.3}", "SQLite, in process", start.elapsed().as_secs_f64());
    answer
}

type Row = ((String, String), u64);

fn rows(database: &Connection, statement: &str, row: fn(&rusqlite::Row<'_>) -> rusqlite::Result<Row>) -> Answer {
    let mut query = database.prepare(statement).expect("a statement");
    query.query_map((), row).expect("rows").map(|row| row.expect("a row")).collect()
}

/// numpy and DuckDB, as far as they are there.
fn python(heads: &[Particles], boxes: &str) -> Vec<Answer> {
    let folder = std::env::temp_dir().join(format!("lidladder-coverage-{}", std::process::id()));
    fs::create_dir_all(&folder).expect("a folder for the bench");
    let mut file = std::io::BufWriter::new(fs::File::create(folder.join("heads.f64")).expect("the folder is ours"));
    for head in heads.iter().flat_map(|heads| (0..heads.len()).map(|at| heads.head(at))) {
        for mm in head.to_array() {
            file.write_all(&mm.to_le_bytes()).expect("room on the disk");
        }
    }
    file.flush().expect("room on the disk");
    fs::write(folder.join("boxes.csv"), boxes).expect("the folder is ours");
    let python = std::env::var("LIDLADDER_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let run = Command::new(&python)
        .arg(root.join("benches/coverage.py"))
        .args([&folder, &root.join("docs/windows.md")])
        .output();
    let _ = fs::remove_dir_all(&folder);
    let said = match run {
        Ok(run) if run.status.success() => String::from_utf8_lossy(&run.stdout).into_owned(),
        Ok(run) => format!("not there: {}", String::from_utf8_lossy(&run.stderr)),
        Err(fault) => format!("not there: {python}: {fault}"),
    };
    let mut answers = Vec::new();
    for line in said.lines() {
        // A name, the seconds, and for each pads/model the heads.
        let parts = line.split('\t').collect_vec();
        let [name, seconds, counts @ ..] = &parts[..] else {
            println!("  {line}");
            continue;
        };
        println!("  {name:<44} {:>8.3}", seconds.parse::<f64>().unwrap_or(f64::NAN));
        let count = |text: &&str| {
            let (place, heads) = text.split_once('=').expect("a place and heads");
            let (pads, model) = place.split_once('/').expect("pads and a model");
            ((pads.to_owned(), model.to_owned()), heads.parse().expect("a number"))
        };
        answers.push(counts.iter().map(count).collect());
    }
    answers
}

/// The program as it is started, drawing the heads included.
fn whole(profiles: &Path) {
    println!("\nthe whole program, heads drawn; wall seconds (best of {ROUNDS})");
    for threads in ["1", "2"] {
        let run = || {
            let mut command = Command::new(env!("CARGO_BIN_EXE_lidladder"));
            command.args(["range", "--heads", "1000000", "--threads", threads, "--profiles"]).arg(profiles);
            command.output().expect("the program starts")
        };
        println!("  {:<44} {:>8.3}", format!("{threads} threads"), best(run).0);
    }
    let (milliseconds, megabytes) = common::process(
        env!("CARGO_BIN_EXE_lidladder"),
        &["range", "--heads", "1000000", "--profiles", profiles.to_str().unwrap_or(".")],
        ROUNDS as u32,
    );
    println!("  CPU {milliseconds:.0} ms, peak memory {megabytes:.0} MB");
}
