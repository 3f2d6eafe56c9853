//! The two parcels that together fit most heads, less the minutes of mounting: exact over the short list.
//!
//! A pair is chosen jointly. The second best single is often much like the best, and fits nearly the same heads; what
//! counts is whom one of them fits and the other doesn't.

use super::shortlist::Listed;
use itertools::Itertools;

/// The best pair of different helmets: places in the list, the likelier one first. `minute` as in the short list.
/// `None` where the list has no two models in sizes.
pub(super) fn best_pair(listed: &[Listed], weight: &[f64], minute: f64) -> Option<(usize, usize)> {
    // With the likeliest first, the sum of two chances bounds what a pair can be worth, and soon nothing more can be won.
    let order = (0..listed.len()).sorted_by(|a, b| listed[*b].chance.total_cmp(&listed[*a].chance)).collect_vec();
    let mut best: Option<(f64, usize, usize)> = None;
    for (at, first) in order.iter().enumerate() {
        for second in &order[at + 1..] {
            let (one, other) = (&listed[*first], &listed[*second]);
            let minutes = minute * (one.minutes + other.minutes);
            let is_worth = |value: f64| best.is_none_or(|(known, ..)| value > known + 1e-12);
            // Without minutes, because what comes behind may need none.
            if !is_worth((one.chance + other.chance).min(1.0)) {
                break;
            }
            if one.parcel.candidate == other.parcel.candidate || !is_worth(one.chance + other.chance - minutes) {
                continue;
            }
            let value = one.chance + beyond(other, one, weight) - minutes;
            if is_worth(value) {
                best = Some((value, *first, *second));
            }
        }
    }
    best.map(|(_, first, second)| (first, second))
}

/// Weight of the heads that one fits and the other doesn't.
fn beyond(one: &Listed, other: &Listed, weight: &[f64]) -> f64 {
    let mut sum = 0.0;
    for (word, (one, other)) in one.fits.iter().zip(&other.fits).enumerate() {
        let mut left = one & !other;
        while left != 0 {
            sum += weight[word * 64 + left.trailing_zeros() as usize];
            left &= left - 1;
        }
    }
    sum
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::away::parcel::Parcel;
    use rstest::rstest;

    fn listed(candidate: usize, heads: &[usize], weight: &[f64], minutes: f64) -> Listed {
        let mut fits = vec![0; weight.len().div_ceil(64)];
        heads.iter().for_each(|head| fits[head / 64] |= 1 << (head % 64));
        let chance = heads.iter().map(|head| weight[*head]).sum();
        Listed { parcel: Parcel { candidate, options: [0; 3] }, chance, minutes, fits }
    }

    #[test]
    fn a_pair_is_not_the_two_best_singles() {
        let weight = vec![0.01; 100];
        let long = (0..50).collect_vec();
        let list = [
            listed(0, &long, &weight, 0.0),
            listed(1, &(2..50).collect_vec(), &weight, 0.0),
            listed(2, &(60..90).collect_vec(), &weight, 0.0),
            // Fits the same heads as the best, only with other pads in it.
            listed(0, &(40..100).take(45).collect_vec(), &weight, 0.0),
        ];
        assert_eq!(best_pair(&list, &weight, 0.0), Some((0, 2)));
        assert_eq!(best_pair(&list[..1], &weight, 0.0), None);
    }

    #[rstest]
    fn the_search_agrees_with_looking_at_every_pair(#[values(0.0, 0.004)] minute: f64) {
        for seed in 0..200_u64 {
            let mut state = seed;
            let mut die = |sides: u64| {
                state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                (state >> 33) % sides
            };
            let total: f64 = 130.0;
            let weight = (0..130).map(|_| die(100) as f64 / 50.0 / total).collect_vec();
            let list = (0..2 + die(12))
                .map(|_| {
                    let from = die(130) as usize;
                    let heads = (from..130.min(from + 5 + die(60) as usize)).collect_vec();
                    listed(die(6) as usize, &heads, &weight, die(5) as f64)
                })
                .collect_vec();
            let value = |a: &Listed, b: &Listed| {
                let fits = (0..130).filter(|head| a.fits_head(*head) || b.fits_head(*head));
                fits.map(|head| weight[head]).sum::<f64>() - minute * (a.minutes + b.minutes)
            };
            let pairs = (0..list.len()).tuple_combinations();
            let values = pairs.filter(|(a, b)| list[*a].parcel.candidate != list[*b].parcel.candidate);
            let most = values.map(|(a, b)| value(&list[a], &list[b])).max_by(f64::total_cmp);
            let found = best_pair(&list, &weight, minute).map(|(a, b)| value(&list[a], &list[b]));
            assert_eq!(found.is_some(), most.is_some(), "seed {seed}");
            assert!(found.zip(most).is_none_or(|(found, most)| (found - most).abs() < 1e-9), "seed {seed}");
        }
    }
}
