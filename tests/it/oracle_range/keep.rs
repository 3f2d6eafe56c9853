//! Which few sets cover most, against all subsets and a textbook.

use crate::oracle_plan::dice::Dice;
use itertools::Itertools;
use lidladder::catalogue::{Origin, load};
use lidladder::diag::Sources;
use lidladder::fit::Quote;
use lidladder::range::{Best, Column, Counted, Cover, Drawn, Fewer, FewerWanted, Pads, Shelf, count, keep};
use rstest::rstest;
use std::num::NonZeroUsize;

/// More steps than small instances need, and hardly any.
const ENOUGH: u64 = 1 << 40;
const HARDLY_ANY: u64 = 1;

/// Set cover of the textbook (Cormen, Leiserson, Rivest, Stein, Introduction to Algorithms, chapter on approximation,
/// figure of an instance where greedy needs four sets; from memory): twelve things in six sets.
fn textbook() -> Cover {
    let sets: [&[usize]; 6] =
        [&[1, 2, 3, 4, 5, 6], &[5, 6, 8, 9], &[1, 4, 7, 10], &[2, 5, 7, 8, 11], &[3, 6, 9, 12], &[10, 11]];
    let lies_in = |thing: usize| (0..sets.len()).filter(|set| sets[*set].contains(&thing)).collect();
    Cover::new(6, (1..=12).map(|thing| (lies_in(thing), 1)))
}

#[test]
fn the_textbook_has_the_best_three_and_what_greedy_finds() {
    let best = textbook().best(&[], ENOUGH);
    assert_eq!(best.iter().map(|best| best.covers).collect_vec(), [0, 6, 9, 12, 12, 12, 12]);
    assert!(best.iter().all(Best::is_exact));
    assert_eq!(best[3].sets, [2, 3, 4], "sets three, four and five");
    let greedy = textbook().greedy(&[]);
    assert_eq!(greedy.iter().map(|sets| textbook().covered_by(sets)).collect_vec()[..5], [0, 6, 9, 11, 12]);
}

/// Things in sets, by bits.
struct Instance {
    count: usize,
    things: Vec<(u32, u64)>,
    always: u32,
}

fn bits(mask: u32) -> Vec<usize> {
    (0..32).filter(|bit| mask >> bit & 1 == 1).collect()
}

impl Instance {
    /// Up to 10 sets and 40 things, sparse or dense, equal or different weights, sometimes with sets that must be in.
    fn random(seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let count = 1 + dice.below(10);
        let most = dice.one_of(&[1, 1, 5, 1000]);
        let share = dice.one_of(&[0.1, 0.3, 0.6]);
        let mask = |dice: &mut Dice, share: f64| {
            (0..count).map(|set| u32::from(dice.between(0.0, 1.0) < share) << set).sum::<u32>()
        };
        let things = (0..dice.below(41)).map(|_| (mask(&mut dice, share), dice.below(most + 1) as u64)).collect();
        let always = if dice.below(3) == 0 { mask(&mut dice, 0.2) } else { 0 };
        Self { count, things, always }
    }

    fn cover(&self) -> Cover {
        Cover::new(self.count, self.things.iter().map(|(mask, weight)| (bits(*mask), *weight)))
    }

    fn covers(&self, chosen: u32) -> u64 {
        self.things.iter().filter(|(mask, _)| mask & chosen != 0).map(|(_, weight)| weight).sum()
    }

    /// The most that any subset of each number covers.
    fn optima(&self) -> Vec<u64> {
        let mut optima = vec![0; self.count + 1];
        for chosen in (0..1_u32 << self.count).filter(|chosen| chosen & self.always == self.always) {
            let optimum = &mut optima[chosen.count_ones() as usize];
            *optimum = self.covers(chosen).max(*optimum);
        }
        optima.split_off(self.always.count_ones() as usize)
    }
}

#[rstest]
#[case::with_enough_steps(ENOUGH)]
#[case::with_hardly_any(HARDLY_ANY)]
#[case::with_a_few(500)]
fn no_subset_is_better_than_what_is_claimed(#[case] steps: u64) {
    let mut exact = 0;
    for seed in 0..600 {
        let instance = Instance::random(seed);
        let (cover, optima, always) = (instance.cover(), instance.optima(), bits(instance.always));
        let best = cover.best(&always, steps);
        let greedy = cover.greedy(&always).iter().map(|sets| cover.covered_by(sets)).collect_vec();
        assert_eq!(best.len(), optima.len());
        for (number, (best, (optimum, greedy))) in (always.len()..).zip(best.iter().zip(optima.iter().zip(greedy))) {
            let mask = best.sets.iter().map(|set| 1 << set).sum::<u32>();
            assert_eq!((best.sets.len(), mask & instance.always), (number, instance.always), "{seed}");
            assert_eq!(instance.covers(mask), best.covers, "{seed}");
            assert!(best.at_most >= *optimum && *optimum >= best.covers && best.covers >= greedy, "{seed}: {best:?}");
            assert!(!best.is_exact() || best.covers == *optimum, "{seed}");
            assert!(steps < ENOUGH || best.is_exact(), "{seed}: {best:?}");
            exact += usize::from(best.is_exact());
        }
        assert!(best.windows(2).all(|pair| pair[0].covers <= pair[1].covers), "{seed}: more sets cover more");
    }
    assert!(exact > 1000, "{exact}");
}

/// Equal sets are taken in their order, whatever the search met first.
#[test]
fn of_equals_the_first_stays() {
    let twins = Cover::new(6, [(vec![1, 4], 5), (vec![2, 3, 5], 4), (vec![0], 1)]);
    let best = twins.best(&[], ENOUGH);
    assert_eq!(best.iter().map(|best| best.sets.clone()).collect_vec()[1..4], [vec![1], vec![1, 2], vec![0, 1, 2]]);
}

/// Nothing is covered, nothing is there, nothing may be chosen.
#[test]
fn nothing_is_no_trouble() {
    assert_eq!(Cover::new(0, []).best(&[], ENOUGH), [Best { sets: vec![], covers: 0, at_most: 0 }]);
    let nobody = Cover::new(2, [(vec![], 7), (vec![1], 0)]);
    assert!(nobody.best(&[], ENOUGH).iter().all(|best| best.covers == 0 && best.is_exact()));
    let given = Cover::new(2, [(vec![0, 1], 7)]).best(&[0, 1], ENOUGH);
    assert_eq!(given, [Best { sets: vec![0, 1], covers: 7, at_most: 7 }]);
}

/// The demo range: against every subset of its sixteen models, counted by sums over subsets.
#[test]
fn the_smallest_range_is_the_smallest() {
    let demo = load(&Origin::BuiltIn, &mut Sources::default()).expect("the demo range is in order");
    let shelf = Shelf::new(demo.models().iter().map(|model| Column::of(model, &demo)).collect(), demo.shop.fit);
    let adults = demo.population("adults").expect("part of the demo range");
    let threads = NonZeroUsize::MIN;
    let counted = count(&shelf, Drawn::new(adults, 16_384, 1), threads, &mut |_| {}).expect("nothing is wrong");
    let models = shelf.columns.len();
    for (pads, share) in [(Pads::OnOffer, 0.999), (Pads::OnOffer, 1.0), (Pads::Standard, 0.97)] {
        // Heads whose helmets all lie in a set of models: none of the others serves them.
        let mut within = vec![0_u64; 1 << models];
        for (pattern, [chose, _]) in counted.tally.halves() {
            within[pattern.with(pads).iter().map(|column| 1 << column).sum::<usize>()] += chose;
        }
        for model in 0..models {
            for set in (0..within.len()).filter(|set| set >> model & 1 == 1) {
                within[set] += within[set ^ (1 << model)];
            }
        }
        let all = within.len() - 1;
        let serves = |set: usize| within[all] - within[all ^ set];
        let most = |number: u32| (0..=all).filter(|set| set.count_ones() == number).map(serves).max().expect("some");
        let wanted = FewerWanted { keep: share, always: Vec::new(), pads, steps: ENOUGH };
        let fewer = keep(shelf.clone(), &counted, &wanted, 1);
        for (number, subset) in (1..).zip(&fewer.curve) {
            assert_eq!(serves(subset.columns.iter().map(|column| 1 << column).sum()), most(number), "{number}");
            assert_eq!((subset.at_most_more, subset.serves_all), (0.0, most(number) == serves(all)));
        }
        let is_enough = |number: u32| most(number) as f64 >= share * serves(all) as f64;
        let smallest = u32::try_from(fewer.smallest + 1).expect("a small number");
        assert!(is_enough(smallest) && !is_enough(smallest - 1) && fewer.is_smallest, "{smallest}");
        assert_eq!(fewer.stay.len() + fewer.go.len(), models);
        judged_on_the_other_half(&fewer, &counted, pads);
    }
}

/// Figures are those of the heads with odd numbers.
fn judged_on_the_other_half(fewer: &Fewer<'_>, counted: &Counted, pads: Pads) {
    let odd = |is_so: &dyn Fn(&[usize]) -> bool| {
        let patterns = counted.tally.halves().map(|(pattern, [_, odd])| (pattern.with(pads).iter().collect_vec(), odd));
        patterns.filter(|(fits, _)| is_so(fits)).map(|(_, odd)| odd).sum::<u64>()
    };
    let near = |quote: Quote, part: u64, whole: u64| assert!((quote.value - part as f64 / whole as f64).abs() < 1e-12);
    let all = odd(&|_| true);
    let chosen = &fewer.curve[fewer.smallest].columns;
    let is_served = |fits: &[usize]| fits.iter().any(|column| chosen.contains(column));
    near(fewer.curve[fewer.smallest].of_served, odd(&is_served), odd(&|fits| !fits.is_empty()));
    for worth in &fewer.stay {
        let is_alone = |fits: &[usize]| {
            fits.contains(&worth.column) && fits.iter().filter(|column| chosen.contains(column)).count() == 1
        };
        near(worth.share, odd(&is_alone), all);
    }
    for worth in &fewer.go {
        near(worth.share, odd(&|fits| fits.contains(&worth.column) && !is_served(fits)), all);
    }
}
