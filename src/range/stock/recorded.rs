//! How often a model is taken, from what was recorded.

use crate::journal::Record;
use crate::profile::Model;
use std::collections::BTreeMap;

/// By model the tries that ended with a good fit. A record that stands in several journals counts once.
#[must_use]
pub fn recorded_fits(records: &[Record], models: &[&Model]) -> Vec<u64> {
    let mut known: BTreeMap<(u64, u32), Vec<&Record>> = BTreeMap::new();
    let mut fits = vec![0; models.len()];
    for record in records.iter().filter(|record| record.fits()) {
        let same = known.entry((record.customer, record.number)).or_default();
        if same.contains(&record) {
            continue;
        }
        same.push(record);
        if let Some(model) = models.iter().position(|model| model.id == record.model) {
            fits[model] += 1;
        }
    }
    fits
}
