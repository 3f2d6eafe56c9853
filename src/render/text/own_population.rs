//! A population as a file of the profiles.

use super::paste::{comment, scalar};
use super::proposal::in_quotes;
use crate::head::{Component, Measure, Population};
use itertools::Itertools;

/// The whole text of `populations/<id>.yaml`.
#[must_use]
pub fn own_population(population: &Population) -> String {
    let mut text = String::new();
    let what = "From the readings of our customers, by `lidladder learn`. The means were moved and the standard deviations \
                multiplied together for all components; how the measures go together is the survey's.";
    comment(&mut text, 0, what);
    text.push_str(&format!(
        "schema: 1\nid: {}\nname: {}\nsource: {}\ncomponents:\n",
        scalar(population.id.as_str()),
        in_quotes(&population.name),
        in_quotes(&population.source)
    ));
    population.components().iter().for_each(|part| component(&mut text, part));
    text
}

fn component(text: &mut String, component: &Component) {
    let key = |measure: Measure| measure.name().replace(' ', "_");
    let mean = Measure::ALL.map(|measure| format!("{}: {:.4}", key(measure), component.heads.mean[measure.index()]));
    text.push_str(&format!("  - name: {}\n", in_quotes(&component.name)));
    text.push_str(&format!("    share: {}\n", component.share));
    text.push_str(&format!("    mean_mm: {{{}}}\n", mean.join(", ")));
    text.push_str("    # Rows and columns: circumference, length, breadth, face width.\n    covariance_mm2:\n");
    for measure in Measure::ALL {
        let row = component.heads.covariance[measure.index()].iter().map(|value| format!("{value:.4}")).join(", ");
        text.push_str(&format!("      {}: [{row}]\n", key(measure)));
    }
}
