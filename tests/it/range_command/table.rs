//! `range --heads-from`: tables of heads.

use crate::support::{Folder, Program, Run};
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::head::{Dimensions, Measure};
use lidladder::range::{Column, Counted, Drawn, MOST_TOLD, Shelf, Table, TableFaultKind, TableFaults, count};
use proptest::prelude::*;
use rstest::rstest;
use std::fmt::Write as _;
use std::io::Write as _;
use std::num::NonZeroUsize;
use std::process::Stdio;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> =
    LazyLock::new(|| load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order"));

fn shelf() -> Shelf<'static> {
    let columns = CATALOGUE.models().iter().map(|model| Column::of(model, &CATALOGUE));
    Shelf::new(columns.collect(), CATALOGUE.shop.fit)
}

/// Counts a table on so many threads.
fn counted(table: &[u8], threads: usize) -> Result<Counted, TableFaults> {
    let population = CATALOGUE.population("adults").expect("part of the demo range");
    let table = Table::open(table, None, population, 1)?;
    count(&shelf(), table, NonZeroUsize::new(threads).expect("a thread"), &mut |_| {})
}

/// So many heads, drawn.
fn drawn(heads: u64) -> Counted {
    let population = CATALOGUE.population("adults").expect("part of the demo range");
    let Ok(counted) = count(&shelf(), Drawn::new(population, heads, 7), NonZeroUsize::MIN, &mut |_| {});
    counted
}

/// Heads as a table of these measures, every number as it reads back.
fn written(counted: &Counted, measures: &[Measure]) -> String {
    let names: Vec<_> = measures.iter().map(|measure| measure.name().replace(' ', "-")).collect();
    let mut text = names.join(",") + "\n";
    for head in 0..counted.kept.len() {
        let cells: Vec<_> = measures.iter().map(|measure| counted.kept.values(*measure)[head].to_string()).collect();
        writeln!(text, "{}", cells.join(",")).expect("a text takes it");
    }
    text
}

#[test]
fn heads_from_a_table_count_as_the_same_heads_drawn() {
    let drawn = drawn(50_000);
    let mut measures = Measure::ALL;
    for _ in 0..4 {
        measures.rotate_left(1);
        let read = counted(written(&drawn, &measures).as_bytes(), 2).expect("a good table");
        assert_eq!(read, drawn, "whatever the order of the columns");
    }
}

#[rstest]
#[case(1)]
#[case(2)]
#[case(3)]
fn threads_change_nothing(#[case] threads: usize) {
    let table = written(&drawn(60_000), &[Measure::Length, Measure::Circumference]);
    let one = counted(table.as_bytes(), 1).expect("a good table");
    assert_eq!(counted(table.as_bytes(), threads).expect("a good table"), one);
    assert_eq!(one.drawn, [0, 0, 60_000, 60_000]);
}

/// Who has the tape of the population and nothing else measured is, filled up, the population again.
#[test]
fn what_is_missing_is_drawn_as_the_population_has_it() {
    let whole = drawn(65_536);
    let filled = counted(written(&whole, &[Measure::Circumference]).as_bytes(), 2).expect("a good table");
    let (a, b) = (whole.kept.moments(), filled.kept.moments());
    for k in 0..5 {
        // Four standard errors of a difference of independent means and of sds, twice as much as there should be.
        let error = 4.0 * a.sd[k] * (2.0_f64 / 65_536.0).sqrt();
        assert!((a.mean[k] - b.mean[k]).abs() < error, "{k}: {a:?} {b:?}");
        assert!((a.sd[k] - b.sd[k]).abs() < error, "{k}: {a:?} {b:?}");
    }
    let product = |counted: &Counted, x: Measure, y: Measure| {
        let (x, y) = (counted.kept.values(x), counted.kept.values(y));
        let means = [x, y].map(|values| values.iter().sum::<f64>() / 65_536.0);
        x.iter().zip(y).map(|(x, y)| (x - means[0]) * (y - means[1])).sum::<f64>() / 65_536.0
    };
    for (x, y) in [
        (Measure::Circumference, Measure::Length),
        (Measure::Length, Measure::Breadth),
        (Measure::Breadth, Measure::FaceWidth),
    ] {
        let (one, other) = (product(&whole, x, y), product(&filled, x, y));
        // The sd of such a product of normals is at most √2 times the product of their sds.
        let error = 4.0 * 2.0_f64.sqrt() * a.sd[x.index()] * a.sd[y.index()] * (2.0_f64 / 65_536.0).sqrt();
        assert!((one - other).abs() < error, "{x:?} with {y:?}: {one} {other}, {error}");
    }
    let share = |counted: &Counted| counted.tally.share(|pattern| !pattern.standard.is_empty());
    let (a, b) = (share(&whole), share(&filled));
    assert!((a.value - b.value).abs() < a.error + b.error, "{a:?} {b:?}");
}

#[test]
fn what_was_measured_is_kept_to_the_bit() {
    let whole = drawn(2_000);
    let filled = counted(written(&whole, &[Measure::FaceWidth, Measure::Circumference]).as_bytes(), 1).expect("good");
    assert_eq!(filled.kept.circumference, whole.kept.circumference);
    assert_eq!(filled.kept.face_width, whole.kept.face_width);
    assert_ne!(filled.kept.length, whole.kept.length);
}

#[rstest]
#[case::plain("circumference,length,breadth,face-width\n575,196,152,140\n600,207,,141\n")]
#[case::windows("circumference,length,breadth,face-width\r\n575,196,152,140\r\n600,207,,141\r\n")]
#[case::mark("\u{feff}circumference,length,breadth,face-width\n575,196,152,140\n600,207,,141\n")]
#[case::no_end("circumference,length,breadth,face-width\n575,196,152,140\n600,207,,141")]
#[case::quotes("\"circumference\",\"length\",\"breadth\",\"face-width\"\n\"575\",\"196\",152,140\n600,207,\"\",141\n")]
#[case::other_columns(
    "name,circumference,length,breadth,face_width_mm\n\"a,\nb\",575,196,152,140\n\"c\"\"\",600,207,,141\n"
)]
#[case::room(" circumference , length,Breadth (mm),Face Width\n 575.0 ,196,1.52e2,+140\n600,207,  ,141\n")]
fn a_table_is_read_however_it_is_written(#[case] text: &str) {
    let counted = counted(text.as_bytes(), 1).expect("a good table");
    let first = Dimensions { circumference: 575.0, length: 196.0, breadth: 152.0, face_width: 140.0 };
    assert_eq!((counted.kept.len(), counted.kept.head(0)), (2, first));
    assert_eq!(counted.drawn, [0, 0, 1, 0]);
}

#[test]
fn blank_lines_are_no_heads() {
    let counted = counted(b"\n\ncircumference,length\n\n575,196\r\n,\n  \n\r\n580,200\n,\n", 1).expect("a good table");
    assert_eq!(counted.kept.circumference, [575.0, 580.0]);
}

#[rstest]
#[case("575,196\nabc,196", 3, "abc", TableFaultKind::NotANumber(Measure::Circumference))]
#[case("575,nan", 2, "nan", TableFaultKind::NotANumber(Measure::Length))]
#[case("575,196 mm", 2, "196 mm", TableFaultKind::NotANumber(Measure::Length))]
#[case("\n57.5,196", 3, "57.5", TableFaultKind::NoHead(Measure::Circumference))]
#[case("575,-196", 2, "-196", TableFaultKind::NoHead(Measure::Length))]
#[case("\"a\n\",1\n,196", 4, "", TableFaultKind::Missing)]
#[case("\"575,5\",196", 2, "\"575,5\"", TableFaultKind::Comma(Measure::Circumference))]
#[case("575,5,196", 2, "196", TableFaultKind::Cells(3, 2))]
#[case("575", 2, "", TableFaultKind::Cells(1, 2))]
fn mistakes_are_told_where_they_stand(
    #[case] lines: &str,
    #[case] line: u64,
    #[case] place: &str,
    #[case] kind: TableFaultKind,
) {
    let faults = counted(format!("circumference,length\n{lines}\n").as_bytes(), 1).expect_err("a mistake");
    let told = faults.told.iter().find(|fault| fault.kind == kind).unwrap_or_else(|| panic!("{faults:?}"));
    assert_eq!((told.line, &told.text[told.place.clone()]), (line, place));
}

#[test]
fn the_first_mistakes_are_told_and_the_others_counted() {
    // Wrong every third line, in several blocks.
    let lines = |line: usize| if line.is_multiple_of(3) { "575,x\n" } else { "575,196\n" };
    let table = "circumference,length\n".to_owned() + &(0..150_000).map(lines).collect::<String>();
    let one = counted(table.as_bytes(), 1).expect_err("mistakes");
    assert_eq!((one.told.len(), one.more), (MOST_TOLD, 50_000 - MOST_TOLD as u64));
    assert!(one.told.iter().map(|fault| fault.line).eq((0..20).map(|k| 2 + 3 * k)));
    assert_eq!(counted(table.as_bytes(), 3), Err(one), "whoever found them");
}

proptest! {
    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = counted(&[b"circumference\n", bytes.as_slice()].concat(), 1);
        let _ = counted(&bytes, 1);
    }

    #[test]
    fn any_cells_are_read_or_refused(text in "([cl]?,|circumference|length|575|19\\.5|\"|\n|\r\n|,| ){0,40}") {
        if let Ok(counted) = counted(format!("circumference,length\n{text}").as_bytes(), 2) {
            prop_assert!(counted.kept.circumference.iter().all(|mm| (mm - 575.0).abs() < 1e-9));
        }
    }
}

fn fed(line: &str, input: &str) -> Run {
    let folder = Folder::new();
    let mut command = Program::new().line(line).command(folder.path());
    let mut child = command.stdin(Stdio::piped()).spawn().expect("the program starts");
    // A program that refuses the first line doesn't wait for the others.
    let _ = child.stdin.take().expect("a pipe").write_all(input.as_bytes());
    let output = child.wait_with_output().expect("it ends");
    Run {
        stdout: String::from_utf8(output.stdout).expect("UTF-8"),
        stderr: String::from_utf8(output.stderr).expect("UTF-8"),
        status: output.status.code().expect("no signal ended it"),
    }
}

#[test]
fn a_file_and_standard_input_give_the_same_bytes() {
    let table = written(&drawn(3_000), &Measure::ALL);
    let folder = Folder::new();
    folder.write("our.csv", &table);
    let from_file = folder.run("range --heads-from our.csv");
    let piped = fed("range --heads-from - --threads 1", &table);
    assert_eq!(piped.good().replace("table on standard input", "table our.csv"), from_file.good());
}

#[test]
fn what_was_drawn_and_what_was_not_read_is_said() {
    let run = fed("range --heads-from -", "name,circumference,lenght\nA,575,196\nB,580,199\n");
    assert_eq!(run.status, 0, "{}", run.stderr);
    assert_eq!(
        run.stderr,
        "standard input: length drawn from `adults` for 2 of 2 heads\n\
         standard input: breadth drawn from `adults` for 2 of 2 heads\n\
         standard input: face width drawn from `adults` for 2 of 2 heads\n\
         standard input: columns not read: `name`, `lenght` (did you mean `length`?)\n"
    );
}

#[rstest]
#[case("range --heads-from nobody.csv", "", "table-unreadable")]
#[case("range --heads-from .", "", "table-unreadable")]
#[case("range --heads-from -", "", "table-empty")]
#[case("range --heads-from -", "circumference\n\n", "table-empty")]
#[case("range --heads-from -", "length\n195\n", "table-header")]
fn a_table_without_heads_is_refused(#[case] line: &str, #[case] input: &str, #[case] code: &str) {
    let run = fed(line, input);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    assert!(run.stderr.contains(&format!("error[{code}]")), "{}", run.stderr);
}
