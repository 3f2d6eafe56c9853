//! The two parcels that are expected to cost least together: exact over the short list.
//!
//! A pair is chosen jointly. The second best single is often much like the best, and fits nearly the same heads; what
//! counts is whom one of them fits and the other doesn't.

use super::costs::Costs;
use super::shortlist::{Listed, weight_of};
use itertools::Itertools;

/// The best pair of different helmets: places in the list, the likelier one first, which is kept where both fit. `None`
/// where the list has no two models in sizes.
pub(super) fn best_pair(listed: &[Listed], weight: &[f64], costs: Costs) -> Option<(usize, usize)> {
    // With the likeliest first, the sum of two chances bounds what a pair can cost, and soon nothing more can be won.
    let order = (0..listed.len()).sorted_by(|a, b| listed[*b].chance.total_cmp(&listed[*a].chance)).collect_vec();
    let mut best: Option<(f64, usize, usize)> = None;
    for (at, first) in order.iter().enumerate() {
        let one = &listed[*first];
        let mounting = mounting(one, weight_of(one.needs.iter().copied(), weight), costs);
        for second in &order[at + 1..] {
            let other = &listed[*second];
            let is_less = |cost: f64| best.is_none_or(|(known, ..)| cost < known - 1e-9);
            if !is_less(costs.two((one.chance + other.chance).min(1.0), mounting)) {
                break;
            }
            if one.parcel.candidate == other.parcel.candidate {
                continue;
            }
            let cost = pair_cost(one, other, mounting, weight, costs);
            if is_less(cost) {
                best = Some((cost, *first, *second));
            }
        }
    }
    best.map(|(_, first, second)| (first, second))
}

/// What a pair costs; `own` is what mounting the first one costs.
fn pair_cost(one: &Listed, other: &Listed, own: f64, weight: &[f64], costs: Costs) -> f64 {
    let beyond = |bits: &[u64]| weight_of(bits.iter().zip(&one.fits).map(|(bits, kept)| bits & !kept), weight);
    let chance = one.chance + beyond(&other.fits);
    costs.two(chance, own + mounting(other, beyond(&other.needs), costs))
}

fn mounting(listed: &Listed, needed: f64, costs: Costs) -> f64 {
    costs.mounting(listed.minutes, listed.price, needed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::away::parcel::Parcel;
    use crate::profile::AwayRules;
    use crate::unit::Money;
    use rstest::rstest;

    fn listed(candidate: usize, heads: &[usize], weight: &[f64], minutes: f64) -> Listed {
        let mut fits = vec![0; weight.len().div_ceil(64)];
        heads.iter().for_each(|head| fits[head / 64] |= 1 << (head % 64));
        let chance = heads.iter().map(|head| weight[*head]).sum();
        // Every second head needs the pads.
        let needs = fits.iter().map(|bits: &u64| bits & 0x5555_5555_5555_5555).collect();
        let price = Money::of_minor(if minutes > 0.0 { 1_500 } else { 0 });
        Listed { parcel: Parcel { candidate, options: [0; 3] }, chance, minutes, price, fits, needs }
    }

    #[test]
    fn a_pair_is_not_the_two_best_singles() {
        let weight = vec![0.01; 100];
        let long = (0..50).collect_vec();
        let list = [
            listed(0, &long, &weight, 0.0),
            listed(1, &(10..50).collect_vec(), &weight, 0.0),
            listed(2, &(60..90).collect_vec(), &weight, 0.0),
            // The very complement, but it is the same helmet with other pads: nobody is sent two of one.
            listed(0, &(50..82).collect_vec(), &weight, 0.0),
        ];
        assert_eq!(best_pair(&list, &weight, costs(0)), Some((0, 2)));
        assert_eq!(best_pair(&list[..1], &weight, costs(0)), None);
    }

    #[rstest]
    fn the_search_agrees_with_looking_at_every_pair(#[values(0, 80)] minute: u64) {
        for seed in 0..200_u64 {
            let mut state = seed;
            let mut die = |sides: u64| {
                state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
                (state >> 33) % sides
            };
            let weight = (0..130).map(|_| die(100) as f64 / 6_500.0).collect_vec();
            let list = (0..2 + die(12))
                .map(|_| {
                    let from = die(130) as usize;
                    let heads = (from..130.min(from + 5 + die(60) as usize)).collect_vec();
                    listed(die(6) as usize, &heads, &weight, die(3) as f64)
                })
                .collect_vec();
            let bit = |bits: &[u64], head: usize| bits[head / 64] >> (head % 64) & 1 == 1;
            // Head by head: the likelier one is kept where it fits, else the other; pads that aren't needed are lost.
            let cost = |a: &Listed, b: &Listed| {
                let (first, then) = if a.chance >= b.chance { (a, b) } else { (b, a) };
                let pads = |listed: &Listed| listed.price.minor() as f64;
                let mut cost = 1_400.0 + 1_900.0 + minute as f64 * (a.minutes + b.minutes) + pads(a) + pads(b);
                cost += 9_900.0 * (1.0 - weight.iter().sum::<f64>());
                for (head, weight) in weight.iter().enumerate() {
                    let kept = [first, then].into_iter().find(|listed| bit(&listed.fits, head));
                    let needed = kept.filter(|kept| bit(&kept.needs, head)).map_or(0.0, pads);
                    cost += weight * if kept.is_none() { 9_900.0 } else { -needed };
                }
                cost
            };
            let pairs = (0..list.len()).array_combinations();
            let others = pairs.filter(|[a, b]| list[*a].parcel.candidate != list[*b].parcel.candidate);
            let least = others.map(|[a, b]| cost(&list[a], &list[b])).min_by(f64::total_cmp);
            let found = best_pair(&list, &weight, costs(minute)).map(|(a, b)| cost(&list[a], &list[b]));
            assert_eq!(found.is_some(), least.is_some(), "seed {seed}");
            assert!(found.zip(least).is_none_or(|(found, least)| (found - least).abs() < 1e-6), "seed {seed}");
        }
    }

    fn costs(minute: u64) -> Costs {
        let [postage, handling, visit, minute] = [700, 1_200, 8_000, minute].map(Money::of_minor);
        let (postage_out, postage_back) = (postage, postage);
        Costs::of(&AwayRules {
            postage_out,
            postage_back,
            handling,
            visit,
            minute,
            least_chance: 0.5,
            repeated_error: 0.5,
        })
    }
}
