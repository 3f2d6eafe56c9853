//! What is known of a customer, as it was written: options and a file, each word with its place.

use super::args::{TypedFilter, TypedHead};
use crate::catalogue::read_capped;
use crate::diag::{Code, Diagnostic, Said, Sources};
use crate::profile::{CustomerNotes, customer, text_of};
use std::path::Path;

/// The same fields from both.
pub(super) type Notes = CustomerNotes;

/// Options come before the file, field by field.
pub(super) fn notes(head: &TypedHead, filter: &TypedFilter, sources: &mut Sources) -> Result<Notes, Vec<Diagnostic>> {
    let file = match &head.customer {
        Some(path) => read(path, sources)?,
        None => Notes::default(),
    };
    let mut one = |name: &str, typed: &Option<String>, written: Option<Said>| {
        typed.as_ref().map(|text| sources.say(format!("--{name}"), text.clone())).or(written)
    };
    let circumference = one("circumference", &head.circumference, file.circumference);
    let length = one("length", &head.length, file.length);
    let breadth = one("breadth", &head.breadth, file.breadth);
    let face_width = one("face-width", &head.face_width, file.face_width);
    let measured_by = one("measured-by", &head.measured_by, file.measured_by);
    let measured_with = one("measured-with", &head.measured_with, file.measured_with);
    let shape = one("shape", &head.shape, file.shape);
    let population = one("population", &head.population, file.population);
    let price_limit = one("price-limit", &filter.price_limit, file.price_limit);
    let mass_limit = one("mass-limit", &filter.mass_limit, file.mass_limit);
    let mut many = |name: &str, typed: &[String], written: Vec<Said>| {
        if typed.is_empty() {
            return written;
        }
        typed.iter().map(|text| sources.say(format!("--{name}"), text.clone())).collect()
    };
    Ok(Notes {
        wears: many("wears", &head.wears, file.wears),
        types: many("type", &filter.types, file.types),
        must: many("must", &filter.must, file.must),
        out_of_stock: many("out-of-stock", &filter.out_of_stock, file.out_of_stock),
        circumference,
        length,
        breadth,
        face_width,
        measured_by,
        measured_with,
        shape,
        population,
        price_limit,
        mass_limit,
    })
}

fn read(path: &Path, sources: &mut Sources) -> Result<Notes, Vec<Diagnostic>> {
    let name = path.to_string_lossy().into_owned();
    let bytes = read_capped(path).map_err(|fault| {
        let message = format!("can't read the customer file {name}: {fault}");
        vec![
            Diagnostic::error(Code("customer-unreadable"), message)
                .help("check the path; the file is YAML with the head options as keys"),
        ]
    })?;
    let text = text_of(&name, bytes).map_err(|problem| vec![problem])?;
    let source = sources.add(name, text);
    customer(source, &sources.get(source).text)
}
