//! A population of heads.

use super::Checker;
use crate::diag::{Diagnostic, SourceId};
use crate::head::{Component, Gaussian, Population, PopulationFault};
use crate::profile::raw::{PopulationFile, RawComponent};
use crate::profile::{Place, yaml};

/// Heads that are usually 100 mm off their mean are none.
const MOST_VARIANCE: f64 = 10_000.0;

/// Two sexes, a few ages and a few origins.
const MOST_COMPONENTS: usize = 50;

/// Reads a population, with the place of its id.
pub fn population(source: SourceId, text: &str) -> Result<(Population, Place), Vec<Diagnostic>> {
    let (mut file, places) = yaml::read::<PopulationFile>(source, text)?;
    let mut check = Checker::new(source, places, file.schema);
    check.bounded("components", &mut file.components, MOST_COMPONENTS, "components");
    let id = check.id("id", file.id);
    let name = check.text("name", file.name);
    let origin = check.text("source", file.source);
    let mut components = Vec::new();
    for (at, raw) in file.components.into_iter().enumerate() {
        components.push(component(&mut check, &format!("components[{at}]"), raw));
    }
    let place = check.place("id");
    let fault = match Population::new(id, name, origin, components) {
        Ok(population) => return check.finish((population, place)),
        Err(fault) => fault,
    };
    let path = match fault {
        PopulationFault::Empty | PopulationFault::Shares => "components".to_owned(),
        PopulationFault::Mean(at) => format!("components[{at}].mean_mm"),
        PopulationFault::Covariance(at) => format!("components[{at}].covariance_mm2"),
    };
    check.error(
        "profile-population",
        &path,
        fault.to_string(),
        "see here",
        "compare with the survey that it comes from",
    );
    Err(check.problems)
}

fn component(check: &mut Checker<'_>, path: &str, raw: RawComponent) -> Component {
    let name = check.text(&format!("{path}.name"), raw.name);
    let share = check.number(&format!("{path}.share"), raw.share, 0.0..=1.0, "the share");
    let mean = [raw.mean_mm.circumference, raw.mean_mm.length, raw.mean_mm.breadth, raw.mean_mm.face_width];
    let rows = raw.covariance_mm2;
    let rows = [rows.circumference, rows.length, rows.breadth, rows.face_width];
    let mut covariance = [[0.0; 4]; 4];
    for (i, key) in ["circumference", "length", "breadth", "face_width"].into_iter().enumerate() {
        for (k, number) in rows[i].into_iter().enumerate() {
            let path = format!("{path}.covariance_mm2.{key}[{k}]");
            covariance[i][k] = check.number(&path, number, -MOST_VARIANCE..=MOST_VARIANCE, "the covariance");
        }
    }
    let heads = Gaussian { mean: mean.map(|n| n.0), covariance };
    Component { name, share, heads }
}
