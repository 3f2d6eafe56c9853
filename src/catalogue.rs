//! Everything that the shop's profiles say, by id.

mod agree;
mod beside;
mod built_in;
mod draft;
mod files;
mod load;
mod read;
mod starter;

pub use agree::{AGREEMENTS, Agreement};
pub use beside::helmets_beside;
pub use built_in::BUILT_IN;
pub use draft::{Draft, DraftFile, FileKind, Look};
pub use files::{MOST_BYTES_OF_ALL, MOST_FILES, read_capped};
pub use load::{load, load_texts};
pub use read::{Origin, read, read_files, read_texts};
pub use starter::{Beginning, NewFile, beginning};

use crate::head::Population;
use crate::profile::{Edge, Model, Shop};
use crate::unit::Id;

/// A whole set of profiles that agree with each other: every name that one file uses, another defines.
#[derive(Debug, Clone, PartialEq)]
pub struct Catalogue {
    /// The shop's assumptions.
    pub shop: Shop,
    models: Vec<Model>,
    populations: Vec<Population>,
    edges: Vec<Edge>,
}

impl Catalogue {
    /// All models, in the order of their ids.
    #[must_use]
    pub fn models(&self) -> &[Model] {
        &self.models
    }

    /// The model of this id.
    #[must_use]
    pub fn model(&self, id: &str) -> Option<&Model> {
        self.models.iter().find(|model| model.id.as_str() == id)
    }

    /// All populations, in the order of their ids.
    #[must_use]
    pub fn populations(&self) -> &[Population] {
        &self.populations
    }

    /// The population of this id.
    #[must_use]
    pub fn population(&self, id: &str) -> Option<&Population> {
        self.populations.iter().find(|population| population.id.as_str() == id)
    }

    /// The shop's rules in the order of the file.
    #[must_use]
    pub fn edges(&self) -> &[Edge] {
        &self.edges
    }

    /// How wide the face of a nominal head is: `[constant, per mm of circumference, per mm of breadth]`.
    #[must_use]
    pub fn face_width_rule(&self) -> [f64; 3] {
        self.population(self.shop.face_width_from.as_str()).map_or([140.0, 0.0, 0.0], Population::face_width_rule)
    }

    /// The same rules with other assumptions, models and populations, which must agree with each other.
    pub(crate) fn with(&self, shop: Shop, models: Vec<Model>, populations: Vec<Population>) -> Self {
        Self::of_parts(shop, models, populations, self.edges.clone())
    }

    /// The parts put together as they are; nothing is checked here.
    fn of_parts(shop: Shop, mut models: Vec<Model>, mut populations: Vec<Population>, edges: Vec<Edge>) -> Self {
        models.sort_by(|a, b| a.id.cmp(&b.id));
        populations.sort_by(|a, b| a.id.cmp(&b.id));
        Self { shop, models, populations, edges }
    }

    /// The size label of a model whatever the case it was typed in.
    #[must_use]
    pub fn size_label<'a>(model: &'a Model, typed: &str) -> Option<&'a Id> {
        model.sizes().map(|(_, size)| &size.label).find(|label| label.as_str().eq_ignore_ascii_case(typed))
    }
}
