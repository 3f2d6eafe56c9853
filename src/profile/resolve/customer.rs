//! A customer's notes: the head options of the command line, in a file.

use super::{Checker, resolve};
use crate::diag::{Diagnostic, Said, SourceId};
use crate::profile::raw::CustomerFile;
use crate::profile::yaml;

/// What the notes say, each with its place. What it means is decided where options are, too.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
#[expect(missing_docs, reason = "the names of the options")]
pub struct CustomerNotes {
    pub circumference: Option<Said>,
    pub length: Option<Said>,
    pub breadth: Option<Said>,
    pub face_width: Option<Said>,
    pub measured_by: Option<Said>,
    pub measured_with: Option<Said>,
    pub shape: Option<Said>,
    pub wears: Vec<Said>,
    pub population: Option<Said>,
    pub types: Vec<Said>,
    pub must: Vec<Said>,
    pub price_limit: Option<Said>,
    pub mass_limit: Option<Said>,
    pub out_of_stock: Vec<Said>,
}

/// How many words a list of the notes may have, and how many helmets may be out of stock.
const MOST_WORDS: usize = 50;
const MOST_ABSENT: usize = 2000;

/// Reads a customer's notes.
///
/// # Errors
///
/// Every problem of the text.
pub fn customer(source: SourceId, text: &str) -> Result<CustomerNotes, Vec<Diagnostic>> {
    let document = yaml::read::<CustomerFile>(source, text);
    resolve(source, document, |file| file.schema, |check, file| Some(notes(check, file))).trusted()
}

fn notes(check: &mut Checker<'_>, mut file: CustomerFile) -> CustomerNotes {
    check.bounded("wears", &mut file.wears, MOST_WORDS, "helmets");
    check.bounded("types", &mut file.types, MOST_WORDS, "types");
    check.bounded("must", &mut file.must, MOST_WORDS, "words");
    check.bounded("out_of_stock", &mut file.out_of_stock, MOST_ABSENT, "helmets");
    let one = |key: &str, value: Option<String>| value.map(|text| Said { text, span: check.span(key) });
    let many = |key: &str, values: Vec<String>| {
        let placed = |(at, text): (usize, String)| Said { text, span: check.span(&format!("{key}[{at}]")) };
        values.into_iter().enumerate().map(placed).collect()
    };
    CustomerNotes {
        circumference: one("circumference", file.circumference),
        length: one("length", file.length),
        breadth: one("breadth", file.breadth),
        face_width: one("face_width", file.face_width),
        measured_by: one("measured_by", file.measured_by),
        measured_with: one("measured_with", file.measured_with),
        shape: one("shape", file.shape),
        wears: many("wears", file.wears),
        population: one("population", file.population),
        types: many("types", file.types),
        must: many("must", file.must),
        price_limit: one("price_limit", file.price_limit),
        mass_limit: one("mass_limit", file.mass_limit),
        out_of_stock: many("out_of_stock", file.out_of_stock),
    }
}
