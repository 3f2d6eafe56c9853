//! `lidladder journal` as a fitter, a spreadsheet and a second till meet it.

mod add;
mod tills;

use crate::support::{Folder, Program, Run, root};
use rstest::rstest;
use serde_json::Value;
use std::fs;
use unicode_width::UnicodeWidthStr;

/// A record as its line; the customer may be any number.
fn line(customer: u64, number: u32) -> String {
    let day = format!("2026-03-{:02}", customer % 28 + 1);
    format!(
        r#"{{"schema":"lidladder.try/1","day":"{day}","customer":{customer},"try":{number},"population":"adults","readings":[{{"measure":"circumference","mm":575.0,"sd_mm":3.0,"by":"staff","with":"tape"}}],"shape":null,"wears":[],"model":"wexmarsh-one","size":"M","fit_probability":0.88,"rounds":[{{"pads_mm":{{"brow":14.0,"rear":18.0,"sides":15.5,"crown":12.0,"cheeks":34.5}},"reason":"temples-press","minutes":11.0}},{{"pads_mm":{{"brow":14.0,"rear":18.0,"sides":11.5,"crown":12.0,"cheeks":34.5}},"reason":null,"minutes":5.0}}]}}"#
    )
}

/// A folder with the two examples.
fn examples() -> Folder {
    let folder = Folder::new();
    for name in ["journal.jsonl", "doubtful.jsonl"] {
        fs::copy(root().join("docs/examples").join(name), folder.path().join(name)).expect("the example is there");
    }
    folder
}

fn example(line: &str) -> Run {
    examples().run(line)
}

const TABLE: &str = "\
JOURNAL journal.jsonl
day        customer try  model                 size  outcome           pads  min
2026-03-14        2   2  lantreth-longways     M     fits                 0   11
2026-03-16        3   2  lantreth-hush         L     fits                 0   11

IN ALL
  2 customers, 2 tries, 2 good fits, 22 minutes, from 2026-03-14 to 2026-03-16
";

#[test]
fn tries_are_listed_and_summed_up() {
    let run =
        example("journal journal.jsonl --reason fits --since 2026-03-14 --until 2026-03-16 --size m --customer 2");
    assert!(run.good().contains("  1 customer, 1 try, 1 good fit, 11 minutes, on 2026-03-14\n"), "{}", run.stdout);
    let run = example("journal journal.jsonl --reason fits");
    assert_eq!(
        run.good()
            .replace("2026-03-14        1   1  wexmarsh-one          M     fits                 1   16\n", "")
            .replace("  3 customers, 3 tries, 3 good fits, 38", "  2 customers, 2 tries, 2 good fits, 22"),
        TABLE
    );
}

#[rstest]
#[case("--model wexmarsh-one", &[1, 2, 4])]
#[case("--model Wexmarsh-One", &[])]
#[case("--size l", &[4, 5])]
#[case("--reason fits", &[1, 3, 5])]
#[case("--reason loose-sides", &[2])]
#[case("--customer 3", &[4, 5])]
#[case("--since 2026-03-16", &[4, 5, 6])]
#[case("--until 2026-03-14", &[1, 2, 3])]
#[case("--since 2026-03-16 --until 2026-03-16 --reason fits", &[5])]
fn filters_take_what_they_say(#[case] filters: &str, #[case] lines: &[u64]) {
    let document = example(&format!("journal journal.jsonl --format json {filters}")).document();
    let tries = document["journals"][0]["tries"].as_array().expect("a list");
    assert_eq!(tries.iter().filter_map(|tried| tried["line"].as_u64()).collect::<Vec<_>>(), lines);
    assert_eq!(document["totals"]["tries"], lines.len());
}

#[test]
fn the_same_number_in_two_journals_is_two_customers() {
    let folder = examples();
    let both = ["journal journal.jsonl doubtful.jsonl --format json", "journal [dj]*.jsonl --format json"];
    for line in both {
        let run = folder.run(line);
        let totals = &run.document()["totals"];
        assert_eq!((&totals["customers"], &totals["tries"], &totals["bad_lines"]), (&7.into(), &12.into(), &2.into()));
        assert_eq!(run.status, 1, "there are bad lines");
    }
    let text = folder.run("journal doubtful.jsonl journal.jsonl").stdout;
    assert!(
        text.contains("LOOK HERE  2 lines are no records: lidladder journal verify tells which and why\n"),
        "{text}"
    );
    assert!(text.lines().all(|line| line.width() <= 80), "{text}");
}

#[test]
fn a_journal_of_the_surroundings_is_read_where_none_is_named() {
    let folder = examples();
    for line in ["journal", "journal verify"] {
        let run = Program::new().line(line).set("LIDLADDER_JOURNAL", "journal.jsonl").inside(folder.path()).run();
        assert!(run.good().contains("6 tries"), "{}", run.stdout);
    }
    let run = Program::new().line("journal doubtful.jsonl").set("LIDLADDER_JOURNAL", "journal.jsonl");
    assert!(!run.inside(folder.path()).run().stdout.contains("JOURNAL journal.jsonl"));
}

/// A reader of its own, after the grammar of RFC 4180.
fn cells(text: &str) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let (mut row, mut cell) = (Vec::new(), String::new());
    let mut is_quoted = false;
    let mut characters = text.chars().peekable();
    while let Some(character) = characters.next() {
        match character {
            '"' if is_quoted && characters.peek() == Some(&'"') => {
                characters.next();
                cell.push('"');
            }
            '"' => is_quoted = !is_quoted,
            ',' if !is_quoted => row.push(std::mem::take(&mut cell)),
            '\r' if !is_quoted => {
                assert_eq!(characters.next(), Some('\n'), "a line ends with both");
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            other => cell.push(other),
        }
    }
    assert!(row.is_empty() && cell.is_empty(), "the last line has an end");
    rows
}

#[test]
fn a_table_has_a_row_for_every_round() {
    let folder = examples();
    fs::rename(folder.path().join("journal.jsonl"), folder.path().join("=a,\"b\".jsonl")).expect("a name");
    let run = Program::new().arguments(["journal", "=a,\"b\".jsonl", "--format", "csv"]).inside(folder.path()).run();
    let rows = cells(run.good());
    assert!(rows.iter().all(|row| row.len() == 17));
    assert_eq!(rows.len(), 1 + 8, "six tries, two of them with two sets of pads");
    let wanted = [
        "'=a,\"b\".jsonl",
        "1",
        "2026-03-14",
        "1",
        "1",
        "wexmarsh-one",
        "M",
        "0.88",
        "2",
        "1",
        "fits",
        "5",
        "14",
        "18",
        "11.5",
        "12",
        "34.5",
    ];
    assert_eq!(rows[2], wanted);
    let last = rows[1..].iter().filter(|row| row[9] == "1").count();
    assert_eq!(last, 6, "so many tries");
}

#[test]
fn every_doubt_is_told_with_its_line() {
    let run = example("journal verify doubtful.jsonl --format json");
    assert_eq!(run.status, 1);
    let document = run.document();
    let findings = document["findings"].as_array().expect("a list");
    let told = |finding: &Value| {
        let line = finding["place"]["line"].as_u64().unwrap();
        (line, finding["code"].as_str().unwrap().to_owned(), finding["severity"].as_str().unwrap().to_owned())
    };
    let expected = [
        (2, "journal-days", "warning"),
        (2, "journal-readings", "warning"),
        (2, "journal-unknown", "warning"),
        (4, "journal-twice", "error"),
        (5, "journal-line", "error"),
        (6, "journal-gap", "warning"),
        (7, "journal-line", "error"),
        (8, "journal-unknown", "warning"),
    ];
    let expected = expected.map(|(line, code, severity)| (line, code.to_owned(), severity.to_owned()));
    assert_eq!(findings.iter().map(told).collect::<Vec<_>>(), expected);
    assert_eq!((&document["errors"], &document["warnings"]), (&3.into(), &5.into()));
    let text = example("journal verify doubtful.jsonl journal.jsonl").stdout;
    assert!(text.lines().all(|line| line.width() <= 80), "{text}");
    assert!(text.ends_with("\n2 files with 12 tries: 3 errors, 5 warnings\n"), "{text}");
    assert!(example("journal verify doubtful.jsonl --strict").stdout.ends_with("8 errors\n"));
    let good = example("journal verify journal.jsonl");
    assert_eq!(good.good(), "1 file with 6 tries: nothing to complain about\n");
}

#[test]
fn what_is_no_journal_is_told_line_by_line_up_to_a_point() {
    let folder = Folder::new();
    folder.write("x.jsonl", "\u{1b}[2J nonsense\n".repeat(3000));
    let run = folder.run("journal verify x.jsonl");
    assert_eq!(run.status, 1);
    assert!(!run.stdout.contains('\u{1b}'), "nothing reaches a terminal");
    assert_eq!(run.stdout.matches("error[journal-line]").count(), 200);
    assert!(run.stdout.contains("error[more-problems]"));
    assert!(folder.run("journal x.jsonl").stdout.contains("3000 lines are no records"));
    folder.write("long.jsonl", format!("{}\n{}\n", "[".repeat(4 << 20), line(1, 1)));
    let run = folder.run("journal verify long.jsonl");
    assert!(run.stdout.contains("this line is longer than 65536 bytes"), "{}", run.stdout);
    assert!(run.stdout.contains("1 file with 1 try: 1 error"));
}

#[rstest]
#[case("journal", "journal-unnamed", "which journal is meant?")]
#[case("journal add", "journal-unnamed", "which journal is meant?")]
#[case("journal nowhere.jsonl", "journal-unreadable", "can't read nowhere.jsonl: ")]
#[case("journal verify .", "journal-unreadable", ". is a folder, not a file")]
#[case("journal no*.jsonl", "journal-unreadable", "no file is called like no*.jsonl")]
#[case("journal ***.jsonl", "journal-unreadable", "***.jsonl is no pattern: ")]
#[case("journal add .", "journal-unwritable", ". is a folder, not a file")]
#[case("journal add nowhere/a.jsonl", "journal-unwritable", "can't open nowhere/a.jsonl: ")]
#[case("journal x --model ../x", "not-a-name", "this is no name of a model or a size")]
#[case("journal x --since 14.3.2026", "not-a-day", "there is no such day")]
#[case("journal x --until 2026-02-30", "not-a-day", "there is no such day")]
#[case("journal x --reason fit", "unknown-reason", "did you mean `fits`?")]
fn what_cannot_be_done_is_told(#[case] line: &str, #[case] code: &str, #[case] words: &str) {
    let run = Folder::new().run(line);
    assert_eq!((run.status, run.stdout.as_str()), (2, ""), "{}", run.stderr);
    assert!(run.stderr.contains(&format!("error[{code}]: ")), "{}", run.stderr);
    let flat = run.stderr.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains(words.trim_end()), "{flat}");
}
