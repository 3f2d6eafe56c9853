//! The profiles with what was learned in them.

use super::helmets::HelmetBelief;
use super::population::{Measured, moved};
use crate::catalogue::Catalogue;
use crate::head::Population;
use crate::profile::{CENTRE_MM, CENTRE_SD_MM, INDEX_SD, MISREPORT, Model, Origin, SHAPE_INDEX, Shop};
use crate::unit::Id;
use std::ops::RangeInclusive;

/// With the errors of measuring and the population as measured; what says nothing new changes nothing.
pub(super) fn with_readings(catalogue: &Catalogue, population: &Population, measured: &Measured) -> Catalogue {
    let mut shop = catalogue.shop.clone();
    for (line, ([_, now], told)) in shop.measuring.iter_mut().zip(&measured.lines) {
        if *told > 0 {
            line.2 = now.mean;
        }
    }
    let mut populations = catalogue.populations().to_vec();
    if measured.heads > 0
        && let Some(own) = own_population(catalogue, population, measured)
    {
        shop.population = own.id.clone();
        populations.push(own);
    }
    catalogue.with(shop, catalogue.models().to_vec(), populations)
}

/// The shop's own population; `None` where its numbers would be none of people.
pub(super) fn own_population(catalogue: &Catalogue, from: &Population, measured: &Measured) -> Option<Population> {
    let components = moved(from, measured.shift.map(|shift| shift.mean), measured.spread[1].mean);
    let name = format!("Our customers, from {} measured ones", measured.heads);
    let source: String =
        format!("learned from {} customers of this shop, beginning with: {}", measured.heads, from.source);
    // As much of it as a profile takes.
    let source = source.chars().take(200).collect();
    Population::new(free_id(catalogue), name, source, components).ok()
}

/// `own`, or `own-2` where that is taken, and so on.
fn free_id(catalogue: &Catalogue) -> Id {
    let names = std::iter::once("own".to_owned()).chain((2..).map(|k| format!("own-{k}")));
    let ids = names.filter_map(|name| Id::try_from(name.as_str()).ok());
    let mut free = ids.filter(|id| catalogue.population(id.as_str()).is_none());
    free.next().unwrap_or_else(|| catalogue.shop.population.clone())
}

/// With another misreport rate.
pub(super) fn with_misreport(catalogue: &Catalogue, rate: f64) -> Catalogue {
    let shop = Shop { misreport: within(rate, &MISREPORT), ..catalogue.shop.clone() };
    catalogue.with(shop, catalogue.models().to_vec(), catalogue.populations().to_vec())
}

/// With the interiors as learned.
pub(super) fn with_helmets(catalogue: &Catalogue, beliefs: &[HelmetBelief]) -> Catalogue {
    let mut models = catalogue.models().to_vec();
    for belief in beliefs {
        apply(&mut models[belief.model], belief);
    }
    catalogue.with(catalogue.shop.clone(), models, catalogue.populations().to_vec())
}

fn apply(model: &mut Model, belief: &HelmetBelief) {
    if !is_measured(model) {
        model.interior.origin = Origin::Learned;
        model.interior.shape_index = within(model.interior.shape_index + belief.index[1].mean, &SHAPE_INDEX);
        model.interior.sd = Some(within(belief.index[1].sd, &INDEX_SD));
    }
    // A shell that nobody tried is as doubtful as before.
    let untried = belief.shells.first().map(|shell| shell.centre[0].sd);
    model.interior.centre_sd = model.interior.centre_sd.or(untried);
    for learned in &belief.shells {
        let shell = &mut model.shells[learned.shell];
        shell.centre_sd = Some(within(learned.centre[1].sd, &CENTRE_SD_MM));
        for size in &mut shell.sizes {
            size.runs_larger = within(size.runs_larger + learned.centre[1].mean, &CENTRE_MM);
        }
    }
}

/// Whether any size has an interior that was measured: that comes before the shape index.
pub(super) fn is_measured(model: &Model) -> bool {
    model.sizes().any(|(_, size)| size.measured.is_some())
}

fn within(value: f64, bounds: &RangeInclusive<f64>) -> f64 {
    value.clamp(*bounds.start(), *bounds.end())
}
