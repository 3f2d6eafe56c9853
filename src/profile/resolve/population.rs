//! A population of heads.

use super::{Checker, Read, resolve};
use crate::diag::SourceId;
use crate::head::{Component, Gaussian, Population, PopulationFault};
use crate::profile::bounds::SHARE;
use crate::profile::raw::{PopulationFile, RawComponent};
use crate::profile::{Placed, yaml};

/// Reads a population.
pub fn population(source: SourceId, text: &str) -> Read<Placed<Population>> {
    let document = yaml::read::<PopulationFile>(source, text);
    resolve(source, document, |file| file.schema, |check, file| make(check, file))
}

/// Heads that are usually 100 mm off their mean are none.
const MOST_VARIANCE: f64 = 10_000.0;

/// Two sexes, a few ages and a few origins.
const MOST_COMPONENTS: usize = 50;

fn make(check: &mut Checker<'_>, mut file: PopulationFile) -> Option<Placed<Population>> {
    check.bounded("components", &mut file.components, MOST_COMPONENTS, "components");
    let id = check.id("id", file.id);
    let name = check.text("name", file.name);
    let origin = check.text("source", file.source);
    let mut components = Vec::new();
    for (at, raw) in file.components.into_iter().enumerate() {
        components.push(component(check, &format!("components[{at}]"), raw));
    }
    let fault = match Population::new(id, name, origin, components) {
        Ok(population) => return Some(check.placed(population, "")),
        Err(fault) => fault,
    };
    let path = match fault {
        PopulationFault::Empty | PopulationFault::Shares => "components".to_owned(),
        PopulationFault::Mean(at) => format!("components[{at}].mean_mm"),
        PopulationFault::Covariance(at) => format!("components[{at}].covariance_mm2"),
    };
    let help = "compare with the survey that it comes from";
    check.error("profile-population", &path, fault.to_string(), "see here", help);
    None
}

fn component(check: &mut Checker<'_>, path: &str, raw: RawComponent) -> Component {
    let name = check.text(&format!("{path}.name"), raw.name);
    let share = check.number(&format!("{path}.share"), raw.share, SHARE, "the share");
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
