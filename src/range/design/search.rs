//! The best new model at every shape index: exact, over every set of sizes and every choice of tunable axes.
//!
//! For an index and a choice of axes each customer is served by some set of sizes. How many there are for each such set
//! says, for every choice of sizes at once, how many it leaves without: those whose set lies in the sizes left out (sums
//! over subsets, Yates 1937).

use super::blueprint::{Blueprint, Habits, Rung};
use crate::catalogue::Catalogue;
use crate::profile::SHAPE_INDEX;
use crate::range::room::Room;
use crate::range::tally::real;
use itertools::Itertools;

/// Points of the shape index from one design to the next.
pub(super) const INDEX_STEP: f64 = 0.5;

/// A design with what it wins of those who choose.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Chosen {
    /// The design.
    pub(super) blueprint: Blueprint,
    /// Customers that it wins.
    pub(super) won: u64,
    /// The same less what its parts must win; above 0 it is worth having.
    pub(super) net: f64,
}

impl Chosen {
    /// Whether it is the better one: by what it wins beyond its parts, then by fewer parts.
    fn beats(&self, other: &Self) -> bool {
        let parts = other.blueprint.parts().cmp(&self.blueprint.parts());
        self.net.total_cmp(&other.net).then(parts).is_gt()
    }
}

/// What is searched.
pub(super) struct Search<'s> {
    /// The room that the customers take whom the shelf doesn't fit.
    pub(super) taken: &'s [[f64; 3]],
    /// Sizes to choose from, at most [`crate::range::ladder::MOST_RUNGS`].
    pub(super) ladder: &'s [Rung],
    /// Pads.
    pub(super) habits: &'s Habits,
    /// Customers that a size or a tunable axis must win.
    pub(super) least: f64,
    /// The shop's rules of fit.
    pub(super) catalogue: &'s Catalogue,
}

/// Every index that a profile may have.
pub(super) fn indices() -> impl Iterator<Item = f64> {
    let first = *SHAPE_INDEX.start();
    itertools::iterate(first, |index| index + INDEX_STEP).take_while(|index| SHAPE_INDEX.contains(index))
}

impl Search<'_> {
    /// The best design with this index and at least one size; `None` where there are no sizes to choose from. Of equally
    /// good ones the one with fewer parts, then the one with fewer tunable axes, then that of the smaller sizes.
    ///
    /// Cost: customers × sizes, and 8 · n · 2ⁿ for n sizes.
    pub(super) fn best_at(&self, shape_index: f64) -> Option<Chosen> {
        let serving = self.serving(shape_index);
        let mut best: Option<Chosen> = None;
        for axes in (0..8_usize).sorted_by_key(|axes| axes.count_ones()) {
            let tunable = [0, 1, 2].map(|axis| axes >> axis & 1 == 1);
            let left = self.left_without(&serving, axes);
            for sizes in (1..left.len()).sorted_by_key(|sizes| sizes.count_ones()) {
                let won = self.taken.len() as u64 - left[left.len() - 1 - sizes];
                let parts = sizes.count_ones() + axes.count_ones();
                let net = real(won) - self.least * f64::from(parts);
                if best.as_ref().is_some_and(|best| net < best.net) {
                    continue;
                }
                let rungs = self.ladder.iter().enumerate().filter(|(at, _)| sizes >> at & 1 == 1);
                let rungs = rungs.map(|(_, rung)| rung.clone()).collect();
                let chosen = Chosen { blueprint: Blueprint { shape_index, sizes: rungs, tunable }, won, net };
                if best.as_ref().is_none_or(|best| chosen.beats(best)) {
                    best = Some(chosen);
                }
            }
        }
        best
    }

    /// For each customer and size the choices of tunable axes with which it fits, as bits.
    fn serving(&self, shape_index: f64) -> Vec<Vec<u8>> {
        let rooms = |tunable: bool| {
            let blueprint = Blueprint { shape_index, sizes: self.ladder.to_vec(), tunable: [tunable; 3] };
            super::rooms(&blueprint.model(self.habits), self.catalogue)
        };
        let sizes = rooms(false).into_iter().zip(rooms(true)).collect_vec();
        let choices = |taken: &[f64; 3], (plain, tuned): &(Room, Room)| {
            let mut choices = u8::MAX;
            for axis in 0..3 {
                let holds = |room: &Room| room.axes[axis].iter().any(|span| span.holds(taken[axis]));
                choices &= match (holds(plain), holds(tuned)) {
                    (true, _) => u8::MAX,
                    (false, true) => TUNABLE[axis],
                    (false, false) => 0,
                };
            }
            choices
        };
        self.taken.iter().map(|taken| sizes.iter().map(|size| choices(taken, size)).collect()).collect()
    }

    /// For each set of sizes how many customers are served by none but those in it.
    fn left_without(&self, serving: &[Vec<u8>], axes: usize) -> Vec<u64> {
        let mut left = vec![0; 1 << self.ladder.len()];
        for customer in serving {
            let bits = customer.iter().enumerate().filter(|(_, choices)| *choices >> axes & 1 == 1);
            left[bits.fold(0, |set, (size, _)| set | 1 << size)] += 1;
        }
        for size in 0..self.ladder.len() {
            for set in (0..left.len()).filter(|set| set >> size & 1 == 1) {
                left[set] += left[set ^ 1 << size];
            }
        }
        left
    }
}

/// For each axis the choices of tunable axes that it belongs to: bit k for the choice with the number k.
const TUNABLE: [u8; 3] = [0b1010_1010, 0b1100_1100, 0b1111_0000];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::{Origin, load};
    use crate::diag::Sources;
    use crate::head::{Particles, Posterior};
    use crate::range::ladder::ladder;
    use crate::range::shelf::taken;
    use rstest::rstest;

    fn demo() -> Catalogue {
        load(&Origin::BuiltIn, &mut Sources::default()).unwrap()
    }

    /// Heads as they come, none of them served: what is won is then what fits.
    fn heads(catalogue: &Catalogue, count: usize) -> Vec<[f64; 3]> {
        let anybody = Posterior::new(catalogue.population("adults").unwrap(), &[], None);
        let heads = Particles::draw(&anybody, count, 7, 0);
        let taken = taken(&heads, catalogue.shop.fit.outline);
        (0..count).map(|head| [taken[0][head], taken[1][head], taken[2][head]]).collect()
    }

    fn habits(catalogue: &Catalogue) -> Habits {
        let pads = catalogue.models()[0].shells[0].sizes[0].standard;
        Habits::new(pads, &catalogue.shop.buying, &catalogue.shop.plausible)
    }

    /// Every design built as a model, every head asked: slow and plain.
    fn by_force(search: &Search<'_>, shape_index: f64) -> Vec<(Blueprint, u64)> {
        let subsets = search.ladder.iter().cloned().powerset().filter(|sizes| !sizes.is_empty());
        let axes = [false, true].into_iter();
        let axes = axes.clone().cartesian_product(axes.clone()).cartesian_product(axes);
        let designs = subsets.cartesian_product(axes).map(|(sizes, ((length, breadth), face))| {
            let blueprint = Blueprint { shape_index, sizes, tunable: [length, breadth, face] };
            let rooms = crate::range::design::rooms(&blueprint.model(search.habits), search.catalogue);
            let won = search.taken.iter().filter(|taken| rooms.iter().any(|room| room.holds(**taken))).count();
            (blueprint, won as u64)
        });
        designs.collect()
    }

    #[rstest]
    #[case(74.0, 1.0)]
    #[case(78.5, 12.0)]
    #[case(83.0, 40.0)]
    fn the_search_agrees_with_building_every_design(#[case] shape_index: f64, #[case] least: f64) {
        let catalogue = demo();
        let ladder = ladder(catalogue.models());
        let (taken, habits) = (heads(&catalogue, 600), habits(&catalogue));
        let search = Search { taken: &taken, ladder: &ladder[1..4], habits: &habits, least, catalogue: &catalogue };
        let found = search.best_at(shape_index).unwrap();
        let all = by_force(&search, shape_index);
        let net = |(blueprint, won): &(Blueprint, u64)| real(*won) - least * real(blueprint.parts() as u64);
        let best = all.iter().map(net).max_by(f64::total_cmp).unwrap();
        assert!((found.net - best).abs() < 1e-9, "{found:?} against {best}");
        let (_, won) = all.iter().find(|(blueprint, _)| *blueprint == found.blueprint).unwrap();
        assert_eq!(found.won, *won);
        let parts = all.iter().filter(|design| net(design) >= best).map(|(blueprint, _)| blueprint.parts()).min();
        assert_eq!(found.blueprint.parts(), parts.unwrap(), "of equally good ones the simplest");
    }

    #[test]
    fn tunable_zones_and_sizes_never_lose_a_customer() {
        let catalogue = demo();
        let ladder = ladder(catalogue.models());
        let (taken, habits) = (heads(&catalogue, 2000), habits(&catalogue));
        let search = Search { taken: &taken, ladder: &ladder, habits: &habits, least: 0.0, catalogue: &catalogue };
        for shape_index in indices().step_by(10) {
            let serving = search.serving(shape_index);
            let left = (0..8).map(|axes| search.left_without(&serving, axes)).collect_vec();
            for (fewer, more) in (0..8_usize).cartesian_product(0..8).filter(|(fewer, more)| fewer & more == *fewer) {
                assert!(left[fewer].iter().zip(&left[more]).all(|(fewer, more)| fewer >= more));
            }
            let all = left[7].len() - 1;
            for set in 0..=all {
                assert!((0..ladder.len()).all(|size| left[7][set | 1 << size] >= left[7][set]));
            }
            assert_eq!(left[7][all], taken.len() as u64, "all sizes left out leave everybody without");
        }
    }
}
