//! Boxes in a database: docs/windows.md's own statements count the same heads as the program, to the head.

use crate::support::{lidladder, root};
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::{Dimensions, Particles};
use lidladder::profile::{Kind, Model};
use lidladder::range::{Column, Counted, Drawn, Pattern, Shelf, Source, count};
use rstest::rstest;
use rusqlite::Connection;
use rusqlite::functions::FunctionFlags;
use std::collections::BTreeMap;
use std::fs;
use std::num::NonZeroUsize;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order"));

fn drawn(heads: u64) -> Drawn {
    Drawn::new(CATALOGUE.population("adults").expect("part of the demo range"), heads, 1)
}

/// The heads that are counted, in their order.
fn heads(mut source: Drawn) -> impl Iterator<Item = Dimensions> {
    let chunks = std::iter::from_fn(move || source.next()).map(|lot| {
        let Ok(chunk) = lot.and_then(Drawn::heads);
        chunk.heads
    });
    chunks.flat_map(|heads: Particles| (0..heads.len()).map(|at| heads.head(at)).collect::<Vec<_>>())
}

/// The statements of the document, in their order.
fn statements() -> Vec<String> {
    let text = fs::read_to_string(root().join("docs/windows.md")).expect("the document is there");
    let blocks = text.split("```sql\n").skip(1).filter_map(|rest| rest.split_once("```"));
    blocks.map(|(block, _)| block.to_owned()).collect()
}

/// A database with heads, and with boxes as the program writes them: text, of which the database makes numbers.
fn database(heads: impl Iterator<Item = Dimensions>, boxes: &str) -> Connection {
    let database = Connection::open_in_memory().expect("a database");
    // The one that comes with the tests is built without it.
    let flags = FunctionFlags::SQLITE_DETERMINISTIC;
    let made = database.create_scalar_function("sqrt", 1, flags, |context| Ok(context.get::<f64>(0)?.sqrt()));
    made.expect("a function");
    let [tables, room, ..] = &statements()[..] else { panic!("the document has statements") };
    database.execute_batch(tables).expect("the tables");
    database.execute_batch("BEGIN").expect("quick");
    let mut insert_head = database.prepare("INSERT INTO heads VALUES (?, ?, ?, ?, ?)").expect("the table");
    for (id, head) in (1_i64..).zip(heads) {
        insert_head.execute((id, head.circumference, head.length, head.breadth, head.face_width)).expect("a row");
    }
    let marks = ["?"; 13].join(", ");
    let mut insert_box = database.prepare(&format!("INSERT INTO boxes VALUES ({marks})")).expect("the table");
    for line in boxes.lines().skip(1) {
        // Names of the demo range have no commas.
        insert_box.execute(rusqlite::params_from_iter(line.split(','))).expect("a row");
    }
    drop((insert_head, insert_box));
    database.execute_batch("COMMIT").expect("quick");
    database.execute_batch(room).expect("the room that heads take");
    database
}

/// Rows of a statement: words, then counts.
fn rows<const WORDS: usize>(database: &Connection, statement: &str) -> BTreeMap<[String; WORDS], [u64; 2]> {
    let mut query = database.prepare(statement).expect("a statement");
    let words = |row: &rusqlite::Row<'_>| std::array::from_fn(|at| row.get(at).expect("a word"));
    let count = |row: &rusqlite::Row<'_>, at| u64::try_from(row.get::<_, i64>(at).expect("a count")).expect("a count");
    let counts = |row: &rusqlite::Row<'_>| [WORDS, WORDS + 1].map(|at| count(row, at));
    query.query_map((), |row| Ok((words(row), counts(row)))).expect("rows").map(|row| row.expect("a row")).collect()
}

/// By pads: what fits heads of a pattern.
const PADS: [&str; 2] = ["on-offer", "standard"];

fn columns<'t>(pads: &str, pattern: Pattern<'t>) -> lidladder::range::Columns<'t> {
    if pads == "standard" { pattern.standard } else { pattern.on_offer }
}

fn served(counted: &Counted) -> BTreeMap<[String; 1], [u64; 2]> {
    let of = |pads| {
        let some = counted.tally.count(|pattern| !columns(pads, pattern).is_empty());
        ([pads.to_owned()], [some, counted.tally.count(|pattern| columns(pads, pattern).only().is_some())])
    };
    PADS.map(of).into()
}

fn by_model(counted: &Counted, shelf: &Shelf<'_>) -> BTreeMap<[String; 2], [u64; 2]> {
    let of = |pads: &str, (at, column): (usize, &Column<'_>)| {
        let fits = counted.tally.count(|pattern| columns(pads, pattern).has(at));
        let only = counted.tally.count(|pattern| columns(pads, pattern).only() == Some(at));
        ([pads.to_owned(), column.model.id.to_string()], [fits, only])
    };
    let all = PADS.iter().flat_map(|pads| shelf.columns.iter().enumerate().map(move |column| of(pads, column)));
    all.filter(|(_, [fits, _])| *fits > 0).collect()
}

/// A database takes a second for three million pairs of head and model, so a million heads meet a few models only here.
/// `cargo bench --bench coverage` holds a million against 40 models.
#[rstest]
#[case::a_million_heads("--type open-face", |model: &Model| model.kind == Kind::OpenFace, 1_000_000)]
#[case::every_model("", |_: &Model| true, 100_000)]
fn the_documents_statements_count_the_same_heads(
    #[case] filter: &str,
    #[case] is_meant: fn(&Model) -> bool,
    #[case] number: u64,
) {
    let models = CATALOGUE.models().iter().filter(|model| is_meant(model));
    let shelf = Shelf::new(models.map(|model| Column::of(model, &CATALOGUE)).collect(), CATALOGUE.shop.fit);
    let Ok(counted) = count(&shelf, drawn(number), NonZeroUsize::MIN, &mut |_| {});
    let database = database(heads(drawn(number)), lidladder(&format!("range windows {filter}")).good());
    let [_, _, fits, all, each, _] = &statements()[..] else { panic!("the document has six statements") };
    database.execute_batch(fits).expect("what fits whom");
    let served = served(&counted);
    assert_eq!(rows(&database, all), served);
    assert_eq!(rows(&database, each), by_model(&counted, &shelf));
    assert!(served.values().all(|[some, _]| (number / 10..number).contains(some)), "some are served and some aren't");
}

/// The numbers in the document's statements are those of the demo range.
#[test]
fn the_document_has_the_shops_numbers() {
    let outline = CATALOGUE.shop.fit.outline;
    let room = &statements()[1];
    assert!(room.contains(&format!("{:?} * ((circumference - {:?} *", outline.excess_share, outline.factor)), "{room}");
}

/// A size fits with some pads on offer where one of its sets fits.
#[test]
fn the_sets_of_a_size_are_its_pads_on_offer() {
    let of_size = |per: &str| {
        let text = lidladder(&format!("range windows --per {per}")).good().to_owned();
        let is_meant = |line: &&str| line.contains(",wexmarsh-one,") && line.contains(",M,");
        text.lines()
            .take(1)
            .chain(text.lines().skip(1).filter(is_meant))
            .map(|line| format!("{line}\n"))
            .collect::<String>()
    };
    let fits = |boxes: &str, pads: &str| -> Vec<i64> {
        let database = database(heads(drawn(20_000)), boxes);
        let statement = format!(
            "SELECT DISTINCT id FROM room JOIN boxes ON x BETWEEN length_from AND length_to AND y BETWEEN breadth_from \
             AND breadth_to AND z BETWEEN face_width_from AND face_width_to WHERE pads {pads} ORDER BY id"
        );
        let mut query = database.prepare(&statement).expect("a statement");
        query.query_map((), |row| row.get(0)).expect("rows").map(|row| row.expect("a row")).collect()
    };
    let (size, set) = (of_size("size"), of_size("set"));
    assert!(set.lines().count() > 50, "every set has a row");
    let any = fits(&size, "= 'on-offer'");
    assert!(any.len() > 4_000, "{}", any.len());
    assert_eq!(fits(&set, "<> 'on-offer'"), any);
    assert_eq!(fits(&set, "= 'standard'"), fits(&size, "= 'standard'"));
}

#[test]
fn the_sets_for_one_head_are_those_that_fit_it() {
    let text = lidladder("range windows --per set").good().to_owned();
    let head = Dimensions { circumference: 575.0, length: 197.0, breadth: 153.0, face_width: 140.0 };
    let database = database(std::iter::once(head), &text);
    database.execute_batch("ALTER TABLE boxes RENAME TO sets").expect("another name");
    let mut query = database.prepare(&statements()[5]).expect("a statement");
    let found = query.query_map((), |row| Ok((row.get(0)?, row.get(1)?, row.get(3)?))).expect("rows");
    let found: Vec<(String, String, f64)> = found.map(|row| row.expect("a row")).collect();
    assert!(found.is_sorted_by(|a, b| a.2 <= b.2), "the quickest first");
    let room = CATALOGUE.shop.fit.outline.effective(head);
    let fits = CATALOGUE.models().iter().flat_map(|model| {
        let candidates = Column::of(model, &CATALOGUE).candidates;
        let sets = candidates.into_iter().map(move |candidate| {
            let verdict = lidladder::fit::verdict(&candidate, room, &CATALOGUE.shop.fit);
            verdict.sets.iter().filter(|set| set.fits()).count()
        });
        sets.collect::<Vec<_>>()
    });
    assert_eq!(found.len(), fits.sum::<usize>(), "as many as plain loops over every set find");
}
