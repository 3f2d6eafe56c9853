//! One page about each model: whom it suits, what pads it takes, how it fails, and where to go then.
//!
//! Every head of a population is asked which sizes of all models fit it, and is tried in the size of the model that a tape
//! picks. Profiles are taken at their word, nobody names a wrong reason, and what is chosen is quoted on other heads.

mod complaints;
mod counts;
mod ladder;
mod next;
mod pads;
mod people;
mod suits;
mod tries;

pub use complaints::{Complaint, Complaints, Swap, Turn};
pub use counts::Counts;
pub use next::{Next, ShopsNext};
pub use pads::{PadChoice, ShellPads, ZonePads};
pub use suits::{OfWord, Row, Suits, Which};

use crate::catalogue::Catalogue;
use crate::fallback::Fallbacks;
use crate::fit::Candidate;
use crate::profile::{Edge, Model, Nature, ProfileError, Shell, Size};
use crate::range::{Counted, Own, Shelf, served};
use people::People;

/// Cards of some models of a shelf.
#[derive(Debug, Clone, PartialEq)]
pub struct Cards<'a> {
    /// In the order in which they were asked for.
    pub cards: Vec<Card<'a>>,
    /// How many models there are to go to.
    pub models: usize,
    /// Heads that were counted.
    pub heads: u64,
    /// How many of them were tried one by one: everything but the shares of all customers rests on these.
    pub looked_at: usize,
}

/// What is worth knowing of a model.
#[derive(Debug, Clone, PartialEq)]
pub struct Card<'a> {
    /// The model.
    pub model: &'a Model,
    /// Whom it serves of all customers.
    pub own: Own<'a>,
    /// Its sizes that are there, in the order of the profile.
    pub sizes: Vec<MadeFor<'a>>,
    /// How far its profile may be off; of several shells the one that is known least.
    pub error: ProfileError,
    /// Which heads it fits, by size and shape.
    pub suits: Suits<'a>,
    /// What pads it takes, shell by shell.
    pub pads: Vec<ShellPads<'a>>,
    /// What is heard of it that follows from geometry, and where to go then.
    pub complaints: Complaints<'a>,
    /// The shop's rules for what no geometry tells, with their places in the file.
    pub other_rules: Vec<(usize, &'a Edge)>,
}

/// A size and the head for which all of its standard pads sit at their ideal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MadeFor<'a> {
    /// Its shell.
    pub shell: &'a Shell,
    /// The size.
    pub size: &'a Size,
    /// Circumference, length, breadth and face width of that head, mm.
    pub head: [f64; 4],
    /// Its shape index.
    pub shape_index: f64,
}

/// The cards of the models at these places of a shelf. The shelf is also where a next model is looked for, and what is
/// counted must have been counted on it.
#[must_use]
pub fn cards<'a>(
    catalogue: &'a Catalogue,
    shelf: &Shelf<'a>,
    counted: &Counted,
    asked: &[usize],
    seed: u64,
) -> Cards<'a> {
    let people = People::of(shelf, &counted.kept, catalogue);
    let served = served(catalogue, shelf, counted, seed);
    let graph = Fallbacks::new(catalogue.edges());
    let card = |column: &usize| {
        let column = *column;
        let model = shelf.columns[column].model;
        let candidates = &shelf.columns[column].candidates;
        let tries = tries::tries(&people, candidates);
        let rules = graph.from(&model.id);
        let (geometric, other_rules): (Vec<_>, Vec<_>) =
            rules.into_iter().partition(|(_, edge)| edge.reason.nature() == Nature::Geometric);
        Card {
            model,
            own: served.models[column].clone(),
            sizes: candidates.iter().map(|candidate| MadeFor::of(candidate, catalogue)).collect(),
            error: largest(candidates),
            suits: Suits::of(&people, column, candidates, &tries),
            pads: pads::by_shell(model, candidates),
            complaints: Complaints::of(&people, column, candidates, &tries, &geometric),
            other_rules,
        }
    };
    Cards {
        cards: asked.iter().map(card).collect(),
        models: shelf.columns.len(),
        heads: counted.tally.heads(),
        looked_at: counted.kept.len(),
    }
}

impl<'a> MadeFor<'a> {
    fn of(candidate: &Candidate<'a>, catalogue: &Catalogue) -> Self {
        let [length, breadth, face_width] = candidate.nominal.dimensions(catalogue.shop.fit.outline);
        Self {
            shell: candidate.shell,
            size: candidate.size,
            head: [candidate.nominal.circumference, length, breadth, face_width],
            shape_index: candidate.nominal.shape_index,
        }
    }
}

fn largest(candidates: &[Candidate<'_>]) -> ProfileError {
    let most =
        |of: fn(&ProfileError) -> f64| candidates.iter().map(|candidate| of(&candidate.error)).fold(0.0, f64::max);
    ProfileError { shape_index: most(|error| error.shape_index), centre: most(|error| error.centre) }
}
