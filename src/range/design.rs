//! The new model that would win most customers.
//!
//! It is searched among the customers that the shelf doesn't fit: every shape index, every set of the usual sizes, every
//! choice of tunable axes. Heads with an even number choose, the others judge; only theirs is told.

mod blueprint;
mod search;

pub(super) use blueprint::steps;
pub use blueprint::{Blueprint, Part, Rung};

use super::lacking::{Lack, Lacking, judges};
use super::ladder::ladder;
use super::room::{Pads, Room};
use super::shelf::{Column, Shelf};
use super::spread::{Spread, spreads};
use super::tally::{Change, Tally, real};
use crate::catalogue::Catalogue;
use crate::fit::{Candidate, PadSet, Quote, typical_pads};
use crate::head::Particles;
use crate::profile::Model;
use blueprint::Habits;
use itertools::Itertools;
use search::{Chosen, Search, indices};

/// What a new model could win.
#[derive(Debug, Clone, PartialEq)]
pub struct Designs<'a> {
    /// Heads that judge.
    pub judges: u64,
    /// The share of all customers that the shelf fits with no pads on offer.
    pub gap: Quote,
    /// The same with the profiles of the shelf off as far as they say.
    pub gap_spread: Spread,
    /// The sizes to choose from.
    pub ladder: Vec<Rung>,
    /// The standard pads of every size.
    pub pads: PadSet,
    /// The best design; `None` where every customer is served, or no size is known.
    pub best: Option<Design>,
    /// The best one whose shape a fitter tells from that of the best.
    pub next: Option<Design>,
    /// How much more the best one wins than the next, on the same heads.
    pub lead: Option<Lead>,
    /// For each shape index the best design there.
    pub by_index: Vec<(Blueprint, Quote)>,
    /// The model of the shelf that would win most with the shape of the best design, in its own sizes and with its own pads.
    pub reshaped: Option<(&'a Model, Quote)>,
}

/// A design and what it is worth.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// What it is.
    pub blueprint: Blueprint,
    /// Whether every part of it was worth having for the heads that chose it.
    pub pays: bool,
    /// The share of all customers that it fits and nothing on the shelf does.
    pub gain: Quote,
    /// The same with the profiles of the shelf off as far as they say; the design itself is as drawn.
    pub spread: Spread,
    /// For each part the customers that are lost without it.
    pub parts: Vec<(Part, Quote)>,
}

/// How far apart two designs are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lead {
    /// The share of all customers by which the first wins more.
    pub quote: Quote,
    /// The same over worlds.
    pub spread: Spread,
}

impl Lead {
    /// The same the other way round.
    #[must_use]
    pub fn turned(self) -> Self {
        let Spread { mean, from, to } = self.spread;
        let quote = Quote { value: -self.quote.value, ..self.quote };
        Self { quote, spread: Spread { mean: -mean, from: -to, to: -from } }
    }
}

/// Looks for the best new model beside a shelf, for heads of equal weight.
#[must_use]
pub fn design<'a>(shelf: &Shelf<'a>, heads: &Particles, catalogue: &'a Catalogue, seed: u64) -> Designs<'a> {
    let lacking = Lacking::of(shelf, heads, &(0..shelf.columns.len()).collect_vec());
    let pads = typical_pads(models(shelf).flat_map(Model::sizes).map(|(_, size)| size));
    let drawing = Drawing {
        shelf,
        catalogue,
        habits: Habits::new(pads, &catalogue.shop.buying, &catalogue.shop.plausible),
        ladder: ladder(models(shelf)),
        lacking,
    };
    drawing.designs(&judges(heads), seed)
}

fn models<'s, 'a>(shelf: &'s Shelf<'a>) -> impl Iterator<Item = &'a Model> + use<'s, 'a> {
    shelf.columns.iter().map(|column| column.model)
}

/// Everything that designs are drawn from.
struct Drawing<'d, 'a> {
    shelf: &'d Shelf<'a>,
    catalogue: &'a Catalogue,
    habits: Habits,
    ladder: Vec<Rung>,
    lacking: Lacking,
}

impl<'a> Drawing<'_, 'a> {
    fn designs(self, judges: &Particles, seed: u64) -> Designs<'a> {
        let chosen = self.chosen();
        let (best, next) = self.two(&chosen);
        let won = [best, next].map(|chosen| chosen.map_or_else(Vec::new, |chosen| self.fits(&chosen.blueprint)));
        let spreads = self.spreads([best, next], judges, seed);
        let [first, second] = [best.zip(Some(1)), next.zip(Some(2))]
            .map(|chosen| chosen.map(|(chosen, figure)| self.weighed(chosen, spreads[figure])));
        Designs {
            judges: self.lacking.of[1],
            gap: self.lacking.judged(|_| true).quote(),
            gap_spread: spreads[0],
            by_index: chosen.iter().map(|at| (at.blueprint.clone(), self.gain(&at.blueprint).quote())).collect(),
            reshaped: best.and_then(|best| self.reshaped(best.blueprint.shape_index)),
            lead: next.map(|_| Lead { quote: self.lead(&won), spread: spreads[3] }),
            best: first,
            next: second,
            ladder: self.ladder,
            pads: self.habits.pads,
        }
    }

    /// The best design at each index, on the heads that choose.
    fn chosen(&self) -> Vec<Chosen> {
        let choosers = self.lacking.heads.iter().filter(|lack| !lack.judges).map(|lack| lack.taken).collect_vec();
        let search = Search {
            taken: &choosers,
            ladder: &self.ladder,
            habits: &self.habits,
            least: self.catalogue.shop.buying.least_gain * real(self.lacking.of[0]),
            catalogue: self.catalogue,
        };
        indices().filter_map(|index| search.best_at(index)).filter(|chosen| chosen.won > 0).collect()
    }

    /// The best of all, and the best whose shape can be told from it and that is worth having.
    fn two<'c>(&self, chosen: &'c [Chosen]) -> (Option<&'c Chosen>, Option<&'c Chosen>) {
        let by_net = chosen.iter().sorted_by(|a, b| b.net.total_cmp(&a.net)).collect_vec();
        let best = by_net.first().copied();
        let apart = self.catalogue.shop.profile_errors.by_eye.shape_index;
        let index = |chosen: &Chosen| chosen.blueprint.shape_index;
        let is_apart = |other: &&&Chosen| best.is_some_and(|best| (index(other) - index(best)).abs() >= apart);
        (best, by_net.iter().filter(is_apart).find(|other| other.net > 0.0).copied())
    }

    fn weighed(&self, chosen: &Chosen, spread: Spread) -> Design {
        let own = self.fits(&chosen.blueprint);
        let parts = chosen.blueprint.without_each().map(|(part, less)| {
            let less = self.fits(&less);
            (part, self.change(|head| own[head] && !less[head]).quote())
        });
        Design {
            blueprint: chosen.blueprint.clone(),
            pays: chosen.net > 0.0,
            gain: self.gain(&chosen.blueprint).quote(),
            spread,
            parts: parts.collect(),
        }
    }

    /// What a design wins of the heads that judge.
    fn gain(&self, blueprint: &Blueprint) -> Change {
        let fits = self.fits(blueprint);
        self.change(|head| fits[head])
    }

    fn lead(&self, [best, next]: &[Vec<bool>; 2]) -> Quote {
        let won = self.change(|head| best[head] && !next[head]).won;
        let lost = self.change(|head| next[head] && !best[head]).won;
        Change { won, lost, of: self.lacking.of[1] }.quote()
    }

    /// Those of the customers without a helmet that judge and are so.
    fn change(&self, is_so: impl Fn(usize) -> bool) -> Change {
        let places = self.lacking.heads.iter().enumerate();
        let won = places.filter(|(head, lack)| lack.judges && is_so(*head)).count();
        Change { won: won as u64, lost: 0, of: self.lacking.of[1] }
    }

    /// Which of the customers without a helmet it fits.
    fn fits(&self, blueprint: &Blueprint) -> Vec<bool> {
        let model = blueprint.model(&self.habits);
        let rooms = rooms(&model, self.catalogue);
        self.lacking.heads.iter().map(|lack| is_held(&rooms, lack)).collect()
    }

    /// The model that would win most of those who choose with this index. A measured interior has no other one.
    fn reshaped(&self, shape_index: f64) -> Option<(&'a Model, Quote)> {
        let by_label = models(self.shelf).filter(|model| model.sizes().all(|(_, size)| size.measured.is_none()));
        let won = by_label.map(|model| {
            let mut other = model.clone();
            other.interior.shape_index = shape_index;
            let rooms = rooms(&other, self.catalogue);
            let choosers = self.lacking.heads.iter().filter(|lack| !lack.judges && is_held(&rooms, lack)).count();
            (choosers, model, self.lacking.judged(|lack| is_held(&rooms, lack)))
        });
        // Of equally good ones the first.
        let best = won.reduce(|best, other| if other.0 > best.0 { other } else { best });
        best.filter(|(choosers, ..)| *choosers > 0).map(|(_, model, change)| (model, change.quote()))
    }

    /// In worlds where the shelf is off: the gap, what each design wins, and how much more the first of them does.
    fn spreads(&self, designs: [Option<&Chosen>; 2], judges: &Particles, seed: u64) -> [Spread; 4] {
        let drawn = designs.iter().flatten().map(|chosen| chosen.blueprint.model(&self.habits)).collect_vec();
        let known = self.shelf.columns.len();
        let added = drawn.iter().map(|model| Column::of(model, self.catalogue));
        let shelf = Shelf::new(self.shelf.columns.iter().cloned().chain(added).collect(), self.shelf.rules);
        let figures = |tally: &Tally| {
            let lacks = |pattern: super::Pattern<'_>| pattern.on_offer.iter().all(|column| column >= known);
            let gain = |column: usize| tally.share(|p| lacks(p) && p.on_offer.has(column)).value;
            let [first, second] = [gain(known), gain(known + 1)];
            vec![tally.share(lacks).value, first, second, first - second]
        };
        let spreads = spreads(&shelf, judges, seed, figures);
        [0, 1, 2, 3].map(|figure| spreads.get(figure).copied().unwrap_or_default())
    }
}

/// The heads that each size of a model fits with the pads on offer.
pub(super) fn rooms(model: &Model, catalogue: &Catalogue) -> Vec<Room> {
    let candidates = Candidate::of_models([model], catalogue);
    candidates.iter().map(|candidate| Room::of(candidate, Pads::OnOffer, &catalogue.shop.fit)).collect()
}

fn is_held(rooms: &[Room], lack: &Lack) -> bool {
    rooms.iter().any(|room| room.holds(lack.taken))
}
