//! Which pads customers take.

use super::Place;
use crate::fit::{Candidate, Quote};
use crate::head::Particles;
use crate::range::answers::Answers;
use crate::range::shelf::{Column, Shelf, World, taken};
use crate::range::tally::real;
use crate::range::wear::{Dressed, Taken};
use crate::unit::Money;

/// Sizes on a shelf of their own, with what is taken of each.
pub(super) struct Wardrobe<'a> {
    /// A column for each size.
    shelf: Shelf<'a>,
    sizes: Vec<Dressed>,
    /// How often a model is taken where it fits, against the others; by its place.
    weights: Vec<f64>,
    /// What each pad of the drawer costs, minor units.
    worth: Vec<f64>,
}

/// What so many customers take, added up; each head counts as one customer.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Uses {
    heads: u64,
    standard: Sum,
    swapped: Sum,
    nothing: Sum,
    /// Customers whom no helmet fits with its standard pads, and some helmet with others.
    won: Sum,
    pads: Sum,
    spend: Sum,
    /// Of what is spent and won together: Σ spend × won.
    spend_won: f64,
    by_pad: Vec<Sum>,
}

/// A sum, and that of the squares.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Sum {
    sum: f64,
    squares: f64,
}

/// Means for one customer, each with its sampling error.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Means {
    pub(super) standard: Quote,
    pub(super) swapped: Quote,
    pub(super) nothing: Quote,
    pub(super) won: Quote,
    /// Pads that are swapped.
    pub(super) pads: Quote,
    /// What they cost, minor units.
    pub(super) spend: Quote,
    /// Customers won for each minor unit.
    pub(super) won_by_spending: Quote,
}

impl<'a> Wardrobe<'a> {
    /// The sizes of a shelf's models.
    pub(super) fn of(shelf: &Shelf<'a>, drawer: &[Place<'a>], weights: &[f64]) -> Self {
        let candidates = shelf.columns.iter().enumerate();
        let candidates = candidates.flat_map(|(model, column)| column.candidates.iter().map(move |size| (model, size)));
        let dressed = |(model, candidate): (usize, &Candidate<'a>)| {
            let lies = |pad| {
                drawer.iter().position(|place| {
                    (place.model, place.shell) == (model, candidate.shell_index)
                        && place.article.serves(pad, &candidate.size.label)
                })
            };
            Dressed::of(model, candidate, &shelf.rules, lies)
        };
        let alone = |(_, candidate): (usize, &Candidate<'a>)| Column {
            model: candidate.model,
            candidates: vec![candidate.clone()],
        };
        let minor = |money: Money| real(money.minor());
        Self {
            sizes: candidates.clone().map(dressed).collect(),
            shelf: Shelf::new(candidates.map(alone).collect(), shelf.rules),
            weights: weights.to_vec(),
            worth: drawer.iter().map(|place| minor(place.article.worth)).collect(),
        }
    }

    /// Worlds in which the profiles are off.
    pub(super) fn worlds(&self, count: usize, seed: u64) -> Vec<World> {
        self.shelf.worlds(count, seed)
    }

    /// What these heads take, the profiles at their word or off as in a world.
    pub(super) fn uses(&self, heads: &Particles, world: Option<&World>) -> Uses {
        let taken = taken(heads, self.shelf.rules.outline);
        let answers = Answers::of(&self.shelf, &taken, world);
        let cavities = self.shelf.cavities(world);
        let mut uses = Uses::none(self.worth.len());
        let mut fitting: Vec<Taken> = Vec::new();
        for (head, pattern) in answers.patterns().enumerate() {
            fitting.clear();
            for size in pattern.on_offer.iter() {
                let room = [0, 1, 2].map(|axis| cavities[size][axis] - taken[axis][head]);
                let new = self.sizes[size].on(size, room);
                match fitting.last_mut().filter(|known| self.sizes[known.size].model == self.sizes[size].model) {
                    None => fitting.push(new),
                    Some(known) if new.is_better_than(known) => *known = new,
                    Some(_) => {}
                }
            }
            uses.add(self, &fitting, !pattern.standard.is_empty());
        }
        uses
    }
}

impl Uses {
    fn none(pads: usize) -> Self {
        let none = Sum::default();
        Self {
            heads: 0,
            standard: none,
            swapped: none,
            nothing: none,
            won: none,
            pads: none,
            spend: none,
            spend_won: 0.0,
            by_pad: vec![none; pads],
        }
    }

    /// One more customer, with what would be taken of each model that fits.
    fn add(&mut self, wardrobe: &Wardrobe<'_>, fitting: &[Taken], fits_at_once: bool) {
        let all: f64 = fitting.iter().map(|taken| wardrobe.weights[wardrobe.sizes[taken.size].model]).sum();
        let (mut standard, mut pads, mut spend) = (0.0, 0.0, 0.0);
        for taken in fitting {
            let size = &wardrobe.sizes[taken.size];
            let share = wardrobe.weights[size.model] / all;
            standard += if taken.is_standard() { share } else { 0.0 };
            for pad in size.pads(taken) {
                self.by_pad[pad].add(share);
                pads += share;
                spend += share * wardrobe.worth[pad];
            }
        }
        let served = f64::from(u8::from(!fitting.is_empty()));
        let won = if fits_at_once { 0.0 } else { served };
        self.heads += 1;
        self.standard.add(standard);
        self.swapped.add(served - standard);
        self.nothing.add(1.0 - served);
        self.won.add(won);
        self.pads.add(pads);
        self.spend.add(spend);
        self.spend_won += spend * won;
    }

    /// How often each pad is taken, for one customer.
    pub(super) fn by_pad(&self) -> impl Iterator<Item = Quote> + '_ {
        self.by_pad.iter().map(|sum| sum.mean(self.heads))
    }

    /// What is taken on average.
    pub(super) fn means(&self) -> Means {
        let mean = |sum: Sum| sum.mean(self.heads);
        Means {
            standard: mean(self.standard),
            swapped: mean(self.swapped),
            nothing: mean(self.nothing),
            won: mean(self.won),
            pads: mean(self.pads),
            spend: mean(self.spend),
            won_by_spending: self.won_by_spending(),
        }
    }

    /// The ratio of two means on the same heads, its error from what each head is off the ratio (the delta method).
    fn won_by_spending(&self) -> Quote {
        if self.spend.sum <= 0.0 {
            return Quote::default();
        }
        let ratio = self.won.sum / self.spend.sum;
        let squares = self.won.squares - 2.0 * ratio * self.spend_won + ratio * ratio * self.spend.squares;
        Quote { value: ratio, error: 4.0 * squares.max(0.0).sqrt() / self.spend.sum }
    }
}

impl Sum {
    fn add(&mut self, value: f64) {
        self.sum += value;
        self.squares += value * value;
    }

    /// The mean, with four standard errors of independently drawn heads.
    fn mean(self, heads: u64) -> Quote {
        let heads = real(heads.max(1));
        let value = self.sum / heads;
        // As if one more head had shown it, so that what was never seen isn't sure never to be.
        let square = (self.squares + 1.0) / (heads + 2.0);
        Quote { value, error: 4.0 * ((square - value * value).max(0.0) / heads).sqrt() }
    }
}
