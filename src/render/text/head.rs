//! The head as inferred, for people.

use super::page::{Page, mm, percent};
use crate::catalogue::Catalogue;
use crate::fit::{Customer, Estimate};
use crate::head::Reading;
use crate::profile::ShapeWords;
use itertools::Itertools;

/// What was measured, and what it says about the head.
pub(super) fn head(page: &mut Page, catalogue: &Catalogue, customer: &Customer<'_>, estimate: &Estimate) {
    page.heading("HEAD");
    page.wrapped("  known     ", &known(catalogue, customer));
    let names = ["circumference", "length", "breadth", "face width", "shape index"];
    page.line(&format!("            {}", names.map(|name| format!("{name:>13}")).concat()));
    let means = estimate.mean.map(|quote| format!("{:>13.1}", quote.value)).concat();
    let sds = estimate.sd.map(|quote| format!("{:>13}", format!("±{:.1}", quote.value))).concat();
    page.line(&format!("  inferred  {means}"));
    page.line(&format!("  sd        {sds}"));
    let words = ShapeWords::NAMES.iter().zip(estimate.words);
    let words = words.map(|(word, share)| format!("{word} oval {}", percent(share.value))).join(", ");
    page.wrapped("  shape     ", &words);
}

/// What was measured and said, and whose heads are expected.
pub(in crate::render) fn known(catalogue: &Catalogue, customer: &Customer<'_>) -> String {
    let mut known = readings(&customer.readings);
    if let Some(eye) = customer.head.by_eye() {
        known.push(format!("{} by eye", catalogue.shop.words.word(eye.mean)));
    }
    for worn in &customer.worn {
        let outcome = worn.reason.map_or_else(|| "it fits".to_owned(), |reason| reason.words().to_owned());
        known.push(format!("wears {} in {}: {outcome}", worn.model.name, worn.size));
    }
    if known.is_empty() {
        known.push("nothing yet: the average customer".to_owned());
    }
    let population = catalogue.population(customer.population.as_str());
    let population = population.map_or_else(|| customer.population.to_string(), |population| population.name.clone());
    format!("{} (population: {population})", known.join("; "))
}

/// Each reading with its error.
pub(super) fn readings(readings: &[Reading]) -> Vec<String> {
    let written = |reading: &Reading| format!("{} {}±{} mm", reading.measure.name(), mm(reading.value), mm(reading.sd));
    readings.iter().map(written).collect()
}
