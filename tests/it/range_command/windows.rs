//! `range windows`: boxes as a table.

use crate::support::{Folder, lidladder, once};
use lidladder::catalogue::{Catalogue, Origin, load};
use lidladder::diag::Sources;
use lidladder::fit::{Candidate, pad_sets};
use lidladder::range::{Pads, Room};
use std::collections::BTreeSet;

const HEADER: &str = "maker,model,shell,size,pads,length_from,length_to,breadth_from,breadth_to,face_width_from,\
                      face_width_to,minutes,price";

fn catalogue() -> Catalogue {
    load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order")
}

/// Cells of a table without quotes.
fn rows(text: &str) -> Vec<Vec<&str>> {
    text.lines().skip(1).map(|line| line.split(',').collect()).collect()
}

/// The numbers of a box, as they are read back.
fn spans(row: &[&str]) -> [u64; 6] {
    let number = |cell: &&str| cell.parse::<f64>().expect("a number");
    let numbers: Vec<_> = row[5..11].iter().map(number).map(f64::to_bits).collect();
    numbers.try_into().expect("six of them")
}

/// The same of a room.
fn boxes(room: &Room) -> Vec<[u64; 6]> {
    let mut boxes = Vec::new();
    for length in &room.axes[0] {
        for breadth in &room.axes[1] {
            for width in &room.axes[2] {
                let ends = [length.from, length.to, breadth.from, breadth.to, width.from, width.to];
                boxes.push(ends.map(|mm| mm.clamp(-1e9, 1e9).to_bits()));
            }
        }
    }
    boxes
}

#[test]
fn every_number_reads_back_as_the_one_that_heads_are_compared_with() {
    let run = once("range windows");
    assert!(run.good().starts_with(&format!("{HEADER}\r\n")));
    let rows = rows(run.good());
    let catalogue = catalogue();
    let mut seen = 0;
    for candidate in Candidate::of_models(catalogue.models(), &catalogue) {
        for (pads, word) in [(Pads::Standard, "standard"), (Pads::OnOffer, "on-offer")] {
            let is_meant = |row: &&Vec<&str>| {
                row[1..5]
                    == [candidate.model.id.as_str(), candidate.shell.id.as_str(), candidate.size.label.as_str(), word]
            };
            let found: Vec<_> = rows.iter().filter(is_meant).map(|row| spans(row)).collect();
            assert_eq!(found, boxes(&Room::of(&candidate, pads, &catalogue.shop.fit)), "{}", candidate.title());
            seen += found.len();
        }
    }
    assert_eq!(seen, rows.len(), "and there are no others");
}

#[test]
fn every_set_has_a_row_and_a_name_of_its_own() {
    let run = once("range windows --per set");
    let rows = rows(run.good());
    let catalogue = catalogue();
    let candidates = Candidate::of_models(catalogue.models(), &catalogue);
    let sets: usize = candidates.iter().map(|candidate| pad_sets(candidate.shell, candidate.size).len()).sum();
    assert_eq!(rows.len(), sets);
    let names: BTreeSet<_> = rows.iter().map(|row| row[1..5].to_vec()).collect();
    assert_eq!(names.len(), sets);
    let standard = rows.iter().filter(|row| row[4] == "standard");
    assert!(standard.clone().all(|row| row[11..] == ["0", "0.00"]));
    assert_eq!(standard.count(), candidates.len());
}

/// An axis without pads takes every head: it is written as a number, which every database compares with.
#[test]
fn an_axis_without_pads_is_open() {
    let folder = Folder::new();
    folder.run("init shop").good();
    let file = "shop/helmets/example.yaml";
    let text = std::fs::read_to_string(folder.path().join(file)).expect("the starter has a helmet");
    let lines =
        text.lines().filter(|line| !line.contains("zone: cheeks")).map(|line| match line.split_once(", cheeks: ") {
            Some((before, _)) => format!("{before}}}\n"),
            None => format!("{line}\n"),
        });
    folder.write(file, lines.collect::<String>());
    let run = folder.run("range windows --profiles shop");
    let rows = rows(&run.stdout);
    assert!(!rows.is_empty(), "{}", run.stderr);
    assert!(rows.iter().all(|row| row[9..11] == ["-1000000000", "1000000000"]), "{}", run.stdout);
}

#[test]
fn filters_leave_rows_out() {
    let all = once("range windows");
    let some = lidladder("range windows --type adventure --out-of-stock dunvarrick-gravel/M");
    let some = rows(some.good());
    assert!(!some.is_empty() && some.iter().all(|row| rows(&all.stdout).contains(row)));
    assert!(!some.iter().any(|row| row[1] == "dunvarrick-gravel" && row[3] == "M"));
    assert_eq!(lidladder("range windows --type slippers").status, 2);
}
