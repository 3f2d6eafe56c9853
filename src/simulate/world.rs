//! Helmets as they truly are.

use super::Chance;
use crate::catalogue::Catalogue;
use crate::fit::Candidate;
use crate::profile::Model;
use crate::unit::Id;
use std::collections::BTreeMap;

/// A shop's helmets as they truly are: each profile with its own true error.
#[derive(Debug, Clone)]
pub struct World<'a> {
    pub(super) catalogue: &'a Catalogue,
    helmets: Vec<Candidate<'a>>,
    offsets: BTreeMap<Id, Offset>,
}

/// How far the truth of a model lies from its profile.
#[derive(Debug, Clone, PartialEq)]
pub struct Offset {
    /// True shape index minus that of the profile: positive for a rounder one.
    pub shape_index: f64,
    /// By shell, in the order of the profile: true size centre minus the label's, mm of circumference.
    pub centre: Vec<f64>,
}

impl Offset {
    /// A model that is as its profile says.
    #[must_use]
    pub fn none(model: &Model) -> Self {
        Self { shape_index: 0.0, centre: vec![0.0; model.shells.len()] }
    }
}

impl<'a> World<'a> {
    /// Every helmet is as its profile says.
    #[must_use]
    pub fn as_written(catalogue: &'a Catalogue) -> Self {
        let offsets = catalogue.models().iter().map(|model| (model.id.clone(), Offset::none(model))).collect();
        Self { catalogue, helmets: Candidate::of_models(catalogue.models(), catalogue), offsets }
    }

    /// Every profile is off by its own draw: normal, with the standard deviations that the profile states times
    /// `times`. With 1 the shop's statements about its own errors are right.
    #[must_use]
    pub fn drawn(catalogue: &'a Catalogue, times: f64, seed: u64) -> Self {
        let mut world = Self::as_written(catalogue);
        for model in catalogue.models() {
            let Some(error) = world.of_model(&model.id).next().map(|helmet| helmet.error) else { continue };
            let mut chance = Chance::new(seed, model.id.as_str(), 0);
            let shape_index = times * error.shape_index * chance.normal();
            let centre = model.shells.iter().map(|_| times * error.centre * chance.normal()).collect();
            world.set(&model.id, Offset { shape_index, centre });
        }
        world
    }

    /// Makes a model as far off as this; a model that the shop doesn't have is left out.
    pub fn set(&mut self, model: &Id, offset: Offset) {
        let Some(known) = self.offsets.get_mut(model) else { return };
        for helmet in self.helmets.iter_mut().filter(|helmet| helmet.model.id == *model) {
            let centre = |offset: &Offset| offset.centre.get(helmet.shell_index).copied().unwrap_or(0.0);
            helmet.nominal.shape_index += offset.shape_index - known.shape_index;
            helmet.nominal.circumference += centre(&offset) - centre(known);
        }
        *known = offset;
    }

    /// How far the truth of a model lies from its profile.
    #[must_use]
    pub fn offset(&self, model: &Id) -> Option<&Offset> {
        self.offsets.get(model)
    }

    /// The profiles that it differs from.
    #[must_use]
    pub fn catalogue(&self) -> &'a Catalogue {
        self.catalogue
    }

    /// A model in a size as it truly is.
    #[must_use]
    pub fn helmet(&self, model: &Id, size: &Id) -> Option<&Candidate<'a>> {
        self.of_model(model).find(|helmet| helmet.size.label == *size)
    }

    fn of_model(&self, model: &Id) -> impl Iterator<Item = &Candidate<'a>> {
        self.helmets.iter().filter(move |helmet| helmet.model.id == *model)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;

    fn demo() -> Catalogue {
        load(&Origin::BuiltIn, &mut Sources::default()).unwrap()
    }

    #[test]
    fn errors_are_as_large_as_stated() {
        let catalogue = demo();
        let written = World::as_written(&catalogue);
        let (mut shapes, mut centres) = (Vec::new(), Vec::new());
        for seed in 0..200 {
            let world = World::drawn(&catalogue, 1.0, seed);
            for model in catalogue.models() {
                let error = written.of_model(&model.id).next().unwrap().error;
                let offset = world.offset(&model.id).unwrap();
                shapes.push(offset.shape_index / error.shape_index);
                centres.extend(offset.centre.iter().map(|mm| mm / error.centre));
            }
        }
        for values in [shapes, centres] {
            let count = values.len() as f64;
            let mean = values.iter().sum::<f64>() / count;
            let variance = values.iter().map(|value| value * value).sum::<f64>() / count;
            // Five standard errors of a mean, and of a variance of normals.
            assert!(mean.abs() < 5.0 / count.sqrt(), "{mean}");
            assert!((variance - 1.0).abs() < 5.0 * (2.0 / count).sqrt(), "{variance}");
        }
    }

    #[test]
    fn a_model_is_moved_as_a_whole_and_by_shell() {
        let catalogue = demo();
        let mut world = World::drawn(&catalogue, 1.0, 4);
        let model = catalogue.models().iter().find(|model| model.shells.len() > 1).unwrap();
        world.set(&model.id, Offset { shape_index: 3.0, centre: vec![0.0, 5.0] });
        let written = World::as_written(&catalogue);
        for (at, shell) in model.shells.iter().enumerate().take(2) {
            for size in &shell.sizes {
                let [truth, profile] = [&world, &written].map(|w| w.helmet(&model.id, &size.label).unwrap().nominal);
                assert!((truth.shape_index - profile.shape_index - 3.0).abs() < 1e-9);
                assert!((truth.circumference - profile.circumference - [0.0, 5.0][at]).abs() < 1e-9);
            }
        }
    }
}
