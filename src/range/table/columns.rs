//! The first line of a table: which measure stands in which column.

use super::blocks::Blocks;
use super::faults::{TableFault, TableFaultKind, TableFaults};
use super::quotes::cell;
use super::rows::{reader, shown};
use crate::head::Measure;
use csv::ByteRecord;
use itertools::Itertools;
use std::io::Read;

/// Which measure stands in which column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Columns {
    /// By measure.
    pub(super) places: [Option<usize>; 4],
    /// How many columns there are.
    pub(super) count: usize,
    /// Names of those that are no measure.
    pub(super) others: Vec<String>,
}

/// Reads the first line that isn't blank, and leaves the others where they are.
pub(super) fn columns<R: Read>(blocks: &mut Blocks<R>) -> Result<Columns, TableFaults> {
    let nothing = |line| TableFaults::from(TableFault::new(TableFaultKind::Empty, line, b"", 0..0));
    let mut block = blocks.next().ok_or_else(|| nothing(1))??;
    if block.bytes.starts_with(b"\xff\xfe") || block.bytes.starts_with(b"\xfe\xff") {
        let line = &block.bytes[..block.bytes.len().min(30)];
        return Err(TableFault::new(TableFaultKind::Encoding, 1, line, 0..line.len()).into());
    }
    if block.bytes.starts_with(b"\xef\xbb\xbf") {
        block.bytes.drain(..3);
    }
    let mut header = ByteRecord::new();
    let mut reader = reader(&block.bytes);
    if !reader.read_byte_record(&mut header).is_ok_and(|is_there| is_there) {
        return Err(nothing(block.line));
    }
    let end = usize::try_from(reader.position().byte()).unwrap_or(block.bytes.len());
    let (line, bytes) = shown(&block, &header, &reader);
    let meant = meant(&header).map_err(|faults| {
        let mut told = TableFaults::default();
        for (kind, number) in faults {
            told.push(|| TableFault::new(kind, line, bytes, cell(bytes, number)));
        }
        told
    })?;
    blocks.give_back(block, end);
    Ok(meant)
}

/// What the names mean, or what is wrong with which of them.
fn meant(header: &ByteRecord) -> Result<Columns, Vec<(TableFaultKind, usize)>> {
    let names = header.iter().map(String::from_utf8_lossy).collect_vec();
    let mut columns = Columns { places: [None; 4], count: names.len(), others: Vec::new() };
    let mut faults = Vec::new();
    for (number, name) in names.iter().enumerate() {
        match measure(name) {
            Some((measure, Unit::Millimetres)) => {
                let place = &mut columns.places[measure.index()];
                if place.is_some() {
                    faults.push((TableFaultKind::Twice(measure), number));
                }
                *place = Some(number);
            }
            Some((measure, Unit::Other)) => faults.push((TableFaultKind::Unit(measure), number)),
            None => columns.others.push(name.trim().to_owned()),
        }
    }
    if faults.is_empty() && columns.places[Measure::Circumference.index()].is_none() {
        faults.extend(separated(&names[0]).map(|sign| (TableFaultKind::Separator(sign), 0)));
        if faults.is_empty() {
            faults.push((TableFaultKind::NoCircumference, 0));
        }
    }
    if faults.is_empty() { Ok(columns) } else { Err(faults) }
}

/// What separates cells instead of commas.
fn separated(text: &str) -> Option<char> {
    [';', '\t', '|']
        .into_iter()
        .find(|sign| text.contains(*sign) && text.split(*sign).any(|name| measure(name).is_some()))
}

enum Unit {
    Millimetres,
    Other,
}

/// The measure that a name stands for, however its words are joined and written: `face-width`, `Face width (mm)`.
fn measure(name: &str) -> Option<(Measure, Unit)> {
    let words = name.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    let plain = words.map(str::to_lowercase).join(" ");
    let of = |name: &str| Measure::ALL.into_iter().find(|measure| measure.name() == name);
    let bare = of(plain.strip_suffix(" mm").unwrap_or(&plain)).map(|measure| (measure, Unit::Millimetres));
    let other = || plain.rsplit_once(' ').filter(|(_, unit)| ["cm", "in", "inch", "inches", "m"].contains(unit));
    bare.or_else(|| Some((of(other()?.0)?, Unit::Other)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    fn of(line: &str) -> Result<Columns, Vec<TableFaultKind>> {
        let faults = |faults: TableFaults| faults.told.into_iter().map(|fault| fault.kind).collect();
        columns(&mut Blocks::of(line.as_bytes())).map_err(faults)
    }

    #[rstest]
    #[case("circumference,length,breadth,face-width", [Some(0), Some(1), Some(2), Some(3)])]
    #[case("\u{feff}Face width (mm),name,\"Circumference_MM\"\r\n", [Some(2), None, None, Some(0)])]
    #[case("\n\r\n breadth , circumference\n560,150", [Some(1), None, Some(0), None])]
    fn columns_are_known_by_name(#[case] line: &str, #[case] places: [Option<usize>; 4]) {
        assert_eq!(of(line).unwrap().places, places);
    }

    #[rstest]
    #[case("", TableFaultKind::Empty)]
    #[case("\r\n\n", TableFaultKind::Empty)]
    #[case("length,breadth", TableFaultKind::NoCircumference)]
    #[case("circumference;length", TableFaultKind::Separator(';'))]
    #[case("name\tcircumference", TableFaultKind::Separator('\t'))]
    #[case("circumference_cm", TableFaultKind::Unit(Measure::Circumference))]
    #[case("circumference,length,Length mm", TableFaultKind::Twice(Measure::Length))]
    fn what_is_wrong_with_them_is_said(#[case] line: &str, #[case] kind: TableFaultKind) {
        assert_eq!(of(line), Err(vec![kind]));
    }

    #[test]
    fn other_columns_are_named() {
        assert_eq!(of("name,circumference,lenght\n").unwrap().others, ["name", "lenght"]);
    }
}
