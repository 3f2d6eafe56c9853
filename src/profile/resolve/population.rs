//! A population of heads.

use super::Checker;
use crate::diag::{Diagnostic, SourceId};
use crate::head::{Component, Gaussian, Population, PopulationFault};
use crate::profile::bounds::SHARE;
use crate::profile::raw::{PopulationFile, RawComponent};
use crate::profile::{Place, yaml};

/// Reads a population, with the place of its id.
pub fn population(source: SourceId, text: &str) -> Result<(Population, Place), Vec<Diagnostic>> {
    let (file, places) = yaml::read::<PopulationFile>(source, text)?;
    let mut check = Checker::new(source, places, file.schema);
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
    let share = check.number(&format!("{path}.share"), raw.share, SHARE, "the share");
    let mean = [raw.mean_mm.circumference, raw.mean_mm.length, raw.mean_mm.breadth, raw.mean_mm.face_width];
    let rows = raw.covariance_mm2;
    let covariance = [rows.circumference, rows.length, rows.breadth, rows.face_width];
    let heads = Gaussian { mean: mean.map(|n| n.0), covariance: covariance.map(|row| row.map(|n| n.0)) };
    Component { name, share, heads }
}
