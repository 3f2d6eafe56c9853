//! Lines of a table as heads.

use super::Meaning;
use super::blocks::Block;
use super::faults::{TableFault, TableFaultKind, TableFaults};
use super::fill::filled;
use super::quotes::cell;
use crate::head::{Measure, Particles};
use crate::range::source::Chunk;
use csv::{ByteRecord, Reader, ReaderBuilder};

/// The heads of a block, or what is wrong with its lines.
pub(super) fn heads(block: &Block, meaning: &Meaning) -> Result<Chunk, TableFaults> {
    // A line is a head, so heads are numbered without anybody counting those of earlier blocks: blank lines leave gaps.
    let first = block.line - meaning.first_line;
    let mut heads = Vec::new();
    let mut drawn = [0; 4];
    let mut faults = TableFaults::default();
    let mut record = ByteRecord::new();
    let mut reader = reader(&block.bytes);
    while reader.read_byte_record(&mut record).is_ok_and(|is_there| is_there) {
        match known(&record, meaning) {
            Ok(None) => {}
            Ok(Some(known)) => {
                let number = first + heads.len() as u64;
                heads.push(filled(known, &meaning.population, meaning.seed, number));
                for (drawn, known) in drawn.iter_mut().zip(known) {
                    *drawn += u64::from(known.is_none());
                }
            }
            Err(wrong) => {
                let (line, bytes) = shown(block, &record, &reader);
                for (kind, number) in wrong {
                    faults.push(|| TableFault::new(kind, line, bytes, cell(bytes, number)));
                }
            }
        }
    }
    if faults.told.is_empty() { Ok(Chunk { first, heads: Particles::of(heads), drawn }) } else { Err(faults) }
}

/// Cells of whole lines.
pub(super) fn reader(bytes: &[u8]) -> Reader<&[u8]> {
    ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes)
}

/// The line that was read last, with its number.
pub(super) fn shown<'b>(block: &'b Block, record: &ByteRecord, reader: &Reader<&[u8]>) -> (u64, &'b [u8]) {
    let offset = |byte: u64| usize::try_from(byte).unwrap_or(usize::MAX).min(block.bytes.len());
    let start = record.position().map_or(0, |position| offset(position.byte()));
    let bytes = &block.bytes[start..offset(reader.position().byte())];
    // Blank lines before it were read with it.
    let blank = bytes.iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).count();
    let is_break = |byte: &&u8| **byte == b'\n';
    let before = block.bytes[..start + blank].iter().filter(is_break).count() as u64;
    (block.line + before, bytes[blank..].trim_ascii_end())
}

type Known = [Option<f64>; 4];

/// The measures of a line, `None` for a line without anything in it, or what is wrong with which cells.
fn known(record: &ByteRecord, meaning: &Meaning) -> Result<Option<Known>, Vec<(TableFaultKind, usize)>> {
    let columns = &meaning.columns;
    if record.len() != columns.count {
        let kind = TableFaultKind::Cells(record.len(), columns.count);
        return if is_blank(record) { Ok(None) } else { Err(vec![(kind, columns.count.min(record.len()))]) };
    }
    let mut known = [None; 4];
    let mut wrong = Vec::new();
    for (measure, place) in Measure::ALL.into_iter().zip(columns.places) {
        let Some(place) = place else { continue };
        match value(measure, record[place].trim_ascii()) {
            Ok(value) => known[measure.index()] = value,
            Err(kind) => wrong.push((kind, place)),
        }
    }
    match wrong.is_empty() {
        true => Ok(Some(known)),
        false if is_blank(record) => Ok(None),
        false => Err(wrong),
    }
}

fn is_blank(record: &ByteRecord) -> bool {
    record.iter().all(|cell| cell.trim_ascii().is_empty())
}

/// What stands in a cell, mm.
fn value(measure: Measure, cell: &[u8]) -> Result<Option<f64>, TableFaultKind> {
    if cell.is_empty() {
        return if measure == Measure::Circumference { Err(TableFaultKind::Missing) } else { Ok(None) };
    }
    let parse = |cell: &[u8]| str::from_utf8(cell).ok()?.parse::<f64>().ok().filter(|value| value.is_finite());
    let Some(value) = parse(cell) else {
        let with_point: Vec<u8> = cell.iter().map(|byte| if *byte == b',' { b'.' } else { *byte }).collect();
        return Err(match parse(&with_point) {
            Some(_) => TableFaultKind::Comma(measure),
            None => TableFaultKind::NotANumber(measure),
        });
    };
    let (least, most) = measure.human_range();
    if (least..=most).contains(&value) { Ok(Some(value)) } else { Err(TableFaultKind::NoHead(measure)) }
}
