//! Laws of coverage.

use super::{counted, heads, shelf};
use crate::laws::RANGE;
use crate::oracle_plan::dice::Dice;
use lidladder::head::Particles;
use lidladder::profile::{Model, Pad, Supply, Zone};
use lidladder::range::{Change, ColumnSet, Spread, Tally, served, share, spreads};
use lidladder::range::{Counted, Drawn, count};
use std::num::NonZeroUsize;

fn is_served(tally: &Tally) -> u64 {
    tally.count(|pattern| !pattern.on_offer.is_empty())
}

#[test]
fn another_model_never_serves_fewer() {
    let heads = heads(4096);
    let mut dice = Dice::new(3);
    for _ in 0..20 {
        let mut models = Vec::new();
        let mut before = (0, 0);
        for _ in 0..6 {
            models.push(dice.one_of(&RANGE.models().iter().collect::<Vec<_>>()).clone());
            let tally = counted(&models, &heads);
            let after = (is_served(&tally), tally.count(|pattern| !pattern.standard.is_empty()));
            assert!(after.0 >= before.0 && after.1 >= before.1, "{before:?} {after:?}");
            assert!(after.1 <= after.0, "standard pads are pads on offer");
            before = after;
        }
    }
}

#[test]
fn another_pad_never_serves_fewer() {
    let heads = heads(4096);
    let mut models: Vec<Model> = RANGE.models().to_vec();
    let mut dice = Dice::new(4);
    let mut before = counted(&models, &heads);
    let mut won = 0;
    for _ in 0..8 {
        for model in &mut models {
            let price = model.price;
            for shell in &mut model.shells {
                let zone = dice.one_of(&[Zone::Brow, Zone::Rear, Zone::Sides, Zone::Cheeks]);
                let usual = shell.sizes[0].standard.get(zone).unwrap_or(12.0);
                let thickness = (usual + dice.between(-6.0, 6.0)).max(3.0);
                shell.pads.push(Pad { zone, thickness, supply: Supply::Single(price), sizes: None });
            }
        }
        let after = counted(&models, &heads);
        for (column, model) in models.iter().enumerate() {
            let [old, new] = [&before, &after].map(|tally| tally.count(|pattern| pattern.on_offer.has(column)));
            assert!(new >= old, "{}: {old} {new}", model.id);
            won += new - old;
            let [old, new] = [&before, &after].map(|tally| tally.count(|pattern| pattern.standard.has(column)));
            assert_eq!(old, new, "a pad on offer isn't the standard one");
        }
        before = after;
    }
    assert!(won > 1000, "{won}: pads that change nothing test nothing");
}

#[test]
fn served_and_gap_are_everybody_and_unique_ones_are_served() {
    let tally = counted(RANGE.models(), &heads(8192));
    let gap = tally.count(|pattern| pattern.on_offer.is_empty());
    assert_eq!(is_served(&tally) + gap, 8192);
    let unique: u64 =
        (0..RANGE.models().len()).map(|column| tally.count(|pattern| pattern.on_offer.only() == Some(column))).sum();
    assert!(0 < unique && unique <= is_served(&tally));
    assert_eq!(unique, tally.count(|pattern| pattern.on_offer.count() == 1));
    let halves = tally.halves().fold([0, 0], |sum, (_, [even, odd])| [sum[0] + even, sum[1] + odd]);
    assert_eq!(halves, [4096, 4096]);
}

#[test]
fn the_order_of_heads_and_models_changes_nothing() {
    let heads = heads(4096);
    let backwards = Particles::of((0..heads.len()).rev().map(|head| heads.head(head)));
    let models: Vec<_> = RANGE.models().iter().rev().cloned().collect();
    let [forth, back] = [counted(RANGE.models(), &heads), counted(&models, &backwards)];
    assert_eq!(is_served(&forth), is_served(&back));
    for column in 0..models.len() {
        let mirrored = models.len() - 1 - column;
        assert_eq!(
            forth.count(|pattern| pattern.on_offer.only() == Some(column)),
            back.count(|pattern| pattern.on_offer.only() == Some(mirrored))
        );
    }
}

#[test]
fn a_change_is_the_difference_of_its_shares() {
    let tally = counted(RANGE.models(), &heads(8192));
    let few: ColumnSet = [3, 5].into_iter().collect();
    let change = tally.change(|pattern| pattern.on_offer.has_any(few.columns()), |pattern| pattern.on_offer.has(0));
    let [before, after] = [
        tally.count(|pattern| pattern.on_offer.has_any(few.columns())),
        tally.count(|pattern| pattern.on_offer.has(0)),
    ];
    assert_eq!(change.won + before, change.lost + after);
    let expected = (after as f64 - before as f64) / 8192.0;
    assert!((change.quote().value - expected).abs() < 1e-12);
    let apart = share(before, 8192).error.hypot(share(after, 8192).error);
    assert!(change.quote().error < apart, "the same heads tell more of a difference than two samples");
}

/// 437 of 980 (Gelman et al., Bayesian Data Analysis, 2.4; from memory): the uniform prior's posterior has the mean
/// 0.446029 and the sd 0.015854, close to what is stated of a share.
#[test]
fn the_error_of_a_share_is_four_standard_errors() {
    let quote = share(437, 980);
    assert!((quote.value - 437.0 / 980.0).abs() < 1e-12);
    assert!((quote.error / 4.0 - 0.015_854).abs() < 3e-5, "{}", quote.error / 4.0);
    assert!(share(0, 1000).error > 0.0, "none of 1,000 doesn't mean never");
    let change = Change { won: 30, lost: 10, of: 1000 }.quote();
    // b + c − (b − c)²/n over n²: the variance of a paired difference (McNemar 1947).
    let textbook = 4.0 * (40.0 - 400.0 / 1000.0_f64).sqrt() / 1000.0;
    assert!((change.value - 0.02).abs() < 1e-12 && (change.error / textbook - 1.0).abs() < 0.02);
}

/// Ten seeds scatter by no more than is stated: heads are spread more evenly than by chance.
#[test]
fn stated_errors_hold_over_seeds() {
    let shelf = shelf(RANGE.models());
    let shares: Vec<_> = (0..10)
        .map(|seed| {
            let counted = drawn(&shelf, 20_000, seed);
            counted.tally.share(|pattern| !pattern.standard.is_empty())
        })
        .collect();
    let mean = shares.iter().map(|quote| quote.value).sum::<f64>() / 10.0;
    for quote in &shares {
        assert!((quote.value - mean).abs() < quote.error / 2.0, "{} {mean}", quote.value);
    }
    assert!(shares.iter().any(|quote| (quote.value - mean).abs() > 1e-6), "seeds differ");
}

fn drawn(shelf: &lidladder::range::Shelf<'_>, number: u64, seed: u64) -> Counted {
    let population = super::adults();
    count(shelf, Drawn::new(population, number, seed), NonZeroUsize::MIN, &mut |_| {}).expect("heads are drawn")
}

/// A spread holds nine in ten of its values, and profiles that are exact have none.
#[test]
fn spreads_come_from_the_errors_of_profiles() {
    assert_eq!(Spread::of((0..100).map(f64::from)), Spread { mean: 49.5, from: 5.0, to: 94.0 });
    let heads = heads(4096);
    let exact: Vec<_> = crate::laws::taken_at_their_word();
    let any = |tally: &Tally| vec![is_served(tally) as f64 / tally.heads() as f64];
    let [none] = spreads(&shelf(&exact), &heads, 1, any)[..] else { panic!("one figure") };
    let word = is_served(&counted(&exact, &heads)) as f64 / 4096.0;
    assert!((none.from - word).abs() < 1e-12 && (none.to - word).abs() < 1e-12, "{none:?} {word}");
    let [some] = spreads(&shelf(RANGE.models()), &heads, 1, any)[..] else { panic!("one figure") };
    assert!(some.from < some.to && (some.from..=some.to).contains(&some.mean));
}

/// What is told of a range hangs together.
#[test]
fn the_parts_of_a_range_add_up() {
    let shelf = shelf(RANGE.models());
    let counted = drawn(&shelf, 30_000, 2);
    let served = served(&RANGE, &shelf, &counted, 2);
    assert!((served.gaps.lost.value + served.on_offer.quote.value - 1.0).abs() < 0.002, "gaps are counted on one half");
    let in_gaps: f64 = served.gaps.gaps.iter().map(|gap| gap.lost.value).sum();
    assert!((in_gaps + served.gaps.elsewhere.value - served.gaps.lost.value).abs() < 1e-9);
    let best: f64 = served.models.iter().map(|own| own.best.value).sum();
    assert!((best - served.on_offer.quote.value).abs() < 1e-9, "whoever is served is served best by one");
    for (one, own) in served.models.iter().enumerate() {
        assert!(own.only.quote.value <= own.on_offer.quote.value && own.standard.value <= own.on_offer.quote.value);
        assert!((served.overlap[one][one] - 1.0).abs() < 1e-12);
    }
    for (_, family, own) in &served.families {
        let alone: f64 = served
            .models
            .iter()
            .filter(|model| model.models[0].family == *family)
            .map(|own| own.only.quote.value)
            .sum();
        assert!(own.only.quote.value >= alone - 1e-12, "what one of them serves alone, they do");
    }
    let dearest = served.by_price.last().expect("models have prices");
    assert_eq!(dearest.on_offer, served.on_offer.quote);
    assert!(served.by_price.windows(2).all(|pair| pair[0].on_offer.value <= pair[1].on_offer.value));
}
