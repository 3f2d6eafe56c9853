//! What customers take, by looking at every pad set of every size, and a drawer that is lived from.

use crate::laws::RANGE;
use crate::oracle_plan::dice::Dice;
use itertools::Itertools;
use lidladder::fit::{Candidate, SetVerdict, changed, pad_sets, verdict};
use lidladder::head::{Particles, Posterior};
use lidladder::profile::StockingRules;
use lidladder::range::stock::{Drawer, DrawerQuestion, Place, drawer};
use lidladder::range::{Column, Shelf};
use lidladder::supply::Kind;
use rstest::rstest;
use std::cmp::Ordering;

fn shelf(ids: &[&str]) -> Shelf<'static> {
    let models = ids.iter().map(|id| RANGE.model(id).expect("part of the demo range"));
    Shelf::new(models.map(|model| Column::of(model, &RANGE)).collect(), RANGE.shop.fit)
}

fn heads(count: usize) -> Particles {
    let population = RANGE.population(RANGE.shop.population.as_str()).expect("the shop has one");
    Particles::draw(&Posterior::new(population, &[], None), count, 7, 3)
}

fn asked(shelf: &Shelf<'static>, heads: &Particles, weights: &[f64], rules: StockingRules) -> Drawer<'static> {
    let question = DrawerQuestion { rules, weights: weights.to_vec(), budget: None, seed: 1 };
    drawer(shelf, heads, &question).expect("the shop's rules have a best stock")
}

/// What a customer takes of a model: its size and set.
struct Choice<'a> {
    candidate: &'a Candidate<'a>,
    set: SetVerdict,
}

/// The quickest of all sets of all sizes that fit; of equally quick ones with the fewest swaps, then the most even, then the
/// first in the order of sizes and sets.
fn choice<'a>(column: &'a Column<'static>, heads: &Particles, head: usize) -> Option<Choice<'a>> {
    let rules = &RANGE.shop.fit;
    let taken = rules.outline.effective(heads.head(head));
    let mut best: Option<Choice<'a>> = None;
    for candidate in &column.candidates {
        let sets = verdict(candidate, taken, rules).sets;
        for pads in pad_sets(candidate.shell, candidate.size) {
            let set = sets.iter().find(|set| set.pads == pads).expect("every set is judged");
            if set.fits() && best.as_ref().is_none_or(|best| order(set, &best.set) == Ordering::Less) {
                best = Some(Choice { candidate, set: set.clone() });
            }
        }
    }
    best
}

fn order(a: &SetVerdict, b: &SetVerdict) -> Ordering {
    let minutes = a.minutes.total_cmp(&b.minutes).then(a.swaps.cmp(&b.swaps));
    // Sets with as much foam on every axis are as even, whatever rounding says.
    let is_as_even = (a.unevenness - b.unevenness).abs() < 1e-12;
    minutes.then(if is_as_even { Ordering::Equal } else { a.unevenness.total_cmp(&b.unevenness) })
}

/// Shell and pad of everything that is swapped in.
fn swapped<'a>(choice: &'a Choice<'_>) -> impl Iterator<Item = (usize, Kind)> + 'a {
    let shell = choice.candidate.shell_index;
    changed(&choice.candidate.size.standard, &choice.set.pads).map(move |kind| (shell, kind))
}

#[rstest]
#[case::alike(&["haspenfell-plum", "wexmarsh-one", "dunvarrick-mud"], &[1.0, 1.0, 1.0])]
#[case::one_sells_well(&["dunvarrick-gravel", "lantreth-longways"], &[12.0, 1.0])]
#[case::pads_for_some_sizes(&["haspenfell-lift", "umberlow-drove"], &[1.0, 3.0])]
fn what_is_taken_is_found_by_looking_at_every_set(#[case] ids: &[&str], #[case] weights: &[f64]) {
    const HEADS: usize = 256;
    let (shelf, heads) = (shelf(ids), heads(HEADS));
    let drawer = asked(&shelf, &heads, weights, RANGE.shop.stocking);
    let mut used = vec![0.0; drawer.pads.len()];
    let (mut standard, mut nothing) = (0.0, 0.0);
    for head in 0..HEADS {
        let choices = shelf.columns.iter().map(|column| choice(column, &heads, head)).collect_vec();
        let all: f64 =
            choices.iter().zip(weights).filter(|(choice, _)| choice.is_some()).map(|(_, weight)| weight).sum();
        nothing += f64::from(u8::from(all <= 0.0));
        for (model, choice) in choices.iter().enumerate() {
            let Some(choice) = choice else { continue };
            let share = weights[model] / all;
            standard += if choice.set.swaps == 0 { share } else { 0.0 };
            for (shell, kind) in swapped(choice) {
                let label = &choice.candidate.size.label;
                let is_it = |place: &Place<'_>| {
                    (place.model, place.shell) == (model, shell) && place.article.serves(kind, label)
                };
                used[drawer.pads.iter().position(|pad| is_it(&pad.place)).expect("it is on offer")] += share;
            }
        }
    }
    let of_one = HEADS as f64;
    for (pad, used) in drawer.pads.iter().zip(&used) {
        let place = &pad.place;
        assert!(
            (pad.used.value - used / of_one).abs() < 1e-9,
            "{:?}: {} {}",
            place.article,
            pad.used.value,
            used / of_one
        );
    }
    let one = &drawer.customer;
    assert!((one.standard.quote.value - standard / of_one).abs() < 1e-9);
    assert!((one.nothing.quote.value - nothing / of_one).abs() < 1e-9);
    let sum = one.standard.quote.value + one.swapped.quote.value + one.nothing.quote.value;
    assert!((sum - 1.0).abs() < 1e-9, "everybody leaves somehow");
    let pads = used.iter().sum::<f64>() / of_one;
    assert!((one.pads.quote.value - pads).abs() < 1e-9 && pads > 0.1);
    let spend = drawer.pads.iter().map(|pad| pad.used.value * pad.place.article.worth.minor() as f64).sum::<f64>();
    assert!((one.spend.quote.value - spend).abs() < 1e-6, "{} {spend}", one.spend.quote.value);
}

/// A Poisson number, by counting uniform numbers (Knuth's product).
fn poisson(dice: &mut Dice, mean: f64) -> usize {
    let mut product = dice.unit();
    let mut count = 0;
    while product > (-mean).exp() {
        product *= dice.unit();
        count += 1;
    }
    count
}

/// Customers come in, each with a head of the population, and take what they take: how often a pad's stock is enough is what
/// was said, for all pads within four standard errors.
#[test]
fn a_drawer_that_is_lived_from_is_as_good_as_it_says() {
    const TIMES: usize = 20_000;
    let (shelf, heads) = (shelf(&["haspenfell-plum"]), heads(128));
    let rules = StockingRules { customers_per_week: 40.0, ..RANGE.shop.stocking };
    let drawer = asked(&shelf, &heads, &[1.0], rules);
    let takes = (0..heads.len()).map(|head| {
        let choice = choice(&shelf.columns[0], &heads, head);
        let lies = |(shell, kind): (usize, Kind), label: &_| {
            let mut places = drawer.pads.iter().map(|pad| &pad.place);
            places.position(|place| place.shell == shell && place.article.serves(kind, label)).expect("it is on offer")
        };
        choice
            .iter()
            .flat_map(|choice| swapped(choice).map(|pad| lies(pad, &choice.candidate.size.label)))
            .collect_vec()
    });
    let takes = takes.collect_vec();
    let mut dice = Dice::new(11);
    let mut short = vec![0_usize; drawer.pads.len()];
    let (mut wanted, mut missing) = (0_usize, 0_usize);
    for _ in 0..TIMES {
        let mut left = drawer.pads.iter().map(|pad| i64::from(pad.stock)).collect_vec();
        for _ in 0..poisson(&mut dice, drawer.customers) {
            for pad in &takes[dice.below(heads.len())] {
                left[*pad] -= 1;
                wanted += 1;
            }
        }
        for (short, left) in short.iter_mut().zip(&left) {
            *short += usize::from(*left < 0);
            missing += usize::try_from(-left).unwrap_or(0);
        }
    }
    for (pad, short) in drawer.pads.iter().zip(&short) {
        let enough = 1.0 - *short as f64 / TIMES as f64;
        let error = 4.0 * (pad.enough * (1.0 - pad.enough) / TIMES as f64).sqrt() + 1e-3;
        assert!(
            (enough - pad.enough).abs() < error,
            "{:?}: {enough} instead of {}",
            pad.place.article.kind,
            pad.enough
        );
        assert!(pad.enough >= rules.service_level && enough > rules.service_level - error);
    }
    let filled = 1.0 - missing as f64 / wanted as f64;
    assert!((filled - drawer.filled()).abs() < 0.01, "{filled} instead of {}", drawer.filled());
    assert!(drawer.pads.iter().any(|pad| pad.stock > 1), "the case is no trifle");
}

/// Kits are chosen on one half of the heads and judged on the other, where more pads can't lose anybody either.
#[test]
fn kits_only_win_and_never_more_than_all_pads_on_offer() {
    let (shelf, heads) = (shelf(&["haspenfell-plum", "wexmarsh-one", "umberlow-drove"]), heads(8_192));
    let drawer = asked(&shelf, &heads, &[1.0; 3], RANGE.shop.stocking);
    let order = &drawer.order;
    let served = std::iter::once(&order.before).chain(order.steps.iter().map(|step| &step.served));
    let served = served.map(|figure| figure.quote.value).collect_vec();
    assert!(served.is_sorted() && served.len() > 2, "{served:?}");
    for (step, (before, after)) in order.steps.iter().zip(served.iter().tuple_windows()) {
        assert!((step.won.value - (after - before)).abs() < 1e-9);
    }
    let on_offer = served[0] + drawer.customer.won.quote.value;
    assert!(served[served.len() - 1] <= on_offer + 0.01, "halves of the heads are a little apart");
}
