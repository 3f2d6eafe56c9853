//! Which heads come up: as often as they come into the shop, or every kind alike.

use crate::head::{Dimensions, PARTICLES, Particles, Population, Posterior, shape_index};
use crate::profile::ShapeWords;
use crate::simulate::{Chance, Heads};
use itertools::Itertools;

/// Which customers come in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spread {
    /// Rare heads as often as common ones: each shape in small, middle and large comes once in nine customers.
    Even,
    /// As often as they come into the shop.
    AsTheyCome,
}

/// A population cut into shapes and sizes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Strata {
    heads: Heads,
    words: ShapeWords,
    /// Thirds of the circumference, mm.
    thirds: [f64; 2],
    /// Strata that are common enough to be met, as `3 × shape + size`.
    met: Vec<usize>,
}

/// Draws until a head of a stratum that is met at all would have come up.
const MOST_DRAWN: usize = 50_000;

/// A stratum is met if it has at least this many of the heads that cut the population: 1 in 1000.
const LEAST: usize = PARTICLES / 1000;

impl Strata {
    /// The seed is no matter of chance: the same population is always cut in the same way.
    pub(super) fn of(population: &Population, words: ShapeWords) -> Self {
        let heads = Particles::draw(&Posterior::new(population, &[], None), PARTICLES, 1, 0);
        let sorted = heads.circumference.iter().copied().sorted_by(f64::total_cmp).collect_vec();
        let third = |k: usize| sorted.get(k * sorted.len() / 3).copied().unwrap_or(0.0);
        let mut strata = Self { heads: Heads::of(population), words, thirds: [third(1), third(2)], met: Vec::new() };
        let counts = (0..heads.len()).map(|head| strata.place(heads.head(head))).counts();
        strata.met = (0..9).filter(|place| counts.get(place).is_some_and(|count| *count >= LEAST)).collect();
        strata
    }

    /// A head for the customer of this number; one of a shape (0 long, 1 intermediate, 2 round) where that is wanted.
    pub(super) fn head(&self, spread: Spread, wanted: Option<usize>, (seed, number): (u64, u64)) -> Dimensions {
        let mut chance = Chance::new(seed, "practice head", number);
        let stratum = self.stratum(seed, number);
        let is_wanted = |head: Dimensions| match (wanted, spread) {
            (Some(shape), _) => self.place(head) / 3 == shape,
            (None, Spread::Even) => stratum.is_none_or(|stratum| self.place(head) == stratum),
            (None, Spread::AsTheyCome) => true,
        };
        let mut head = self.heads.draw(&mut chance);
        for _ in 0..MOST_DRAWN {
            if is_wanted(head) {
                break;
            }
            head = self.heads.draw(&mut chance);
        }
        head
    }

    /// A head as they come.
    pub(super) fn any(&self, chance: &mut Chance) -> Dimensions {
        self.heads.draw(chance)
    }

    /// The strata come in turn, each round in another order.
    fn stratum(&self, seed: u64, number: u64) -> Option<usize> {
        turn(&self.met, seed, "strata", number)
    }

    fn place(&self, head: Dimensions) -> usize {
        let shape = self.words.place(shape_index(head.length, head.breadth));
        let size = self.thirds.iter().filter(|third| head.circumference >= **third).count();
        3 * shape + size
    }
}

/// What comes at the turn of this number (from 1) where all things come once in a round, each round in another order.
pub(super) fn turn<T: Copy>(things: &[T], seed: u64, name: &str, number: u64) -> Option<T> {
    let round = u64::try_from(things.len()).ok().filter(|len| *len > 0)?;
    let mut chance = Chance::new(seed, name, (number - 1) / round);
    let order = things.iter().map(|thing| (chance.uniform(), *thing)).sorted_by(|a, b| a.0.total_cmp(&b.0));
    let place = usize::try_from((number - 1) % round).ok()?;
    order.map(|(_, thing)| thing).nth(place)
}
