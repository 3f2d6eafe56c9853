//! Picking a few candidates out of many: the best ones, and then those that serve whom the others leave out.

use crate::fit::FIT;
use itertools::Itertools;

/// Picks at most `most` candidates that fit at least the share `least` of the heads: first `by_fit` of them by the weight of the heads
/// they fit, then each time the one that fits the most of those heads which the fewest picked ones fit.
/// `outcome` is by candidate and head. In ascending order; ties go to the lower number.
pub(super) fn pick(weight: &[f64], outcome: &[Vec<u8>], least: f64, by_fit: usize, most: usize) -> Vec<usize> {
    let served = |outcome: &[u8], by: &[f64]| -> f64 {
        outcome.iter().zip(by).filter(|(reason, _)| **reason == FIT).map(|(_, weight)| weight).sum()
    };
    let fits = outcome.iter().map(|outcome| served(outcome, weight)).collect_vec();
    let mut useful = (0..outcome.len()).filter(|candidate| fits[*candidate] >= least).collect_vec();
    if useful.len() <= most {
        return useful;
    }
    useful.sort_by(|a, b| fits[*b].total_cmp(&fits[*a]).then(a.cmp(b)));
    let mut picked = useful.iter().copied().take(by_fit.min(most)).collect_vec();
    let mut left = useful.split_off(picked.len());
    let mut worth = weight.to_vec();
    for candidate in &picked {
        discount(&mut worth, &outcome[*candidate]);
    }
    while picked.len() < most && !left.is_empty() {
        let gains = left.iter().map(|candidate| served(&outcome[*candidate], &worth));
        let best = gains.enumerate().max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)));
        let Some((at, _)) = best else { break };
        let candidate = left.remove(at);
        discount(&mut worth, &outcome[candidate]);
        picked.push(candidate);
    }
    picked.sort_unstable();
    picked
}

/// A head that one more candidate fits is worth a quarter of what it was: whom nobody serves comes first.
fn discount(worth: &mut [f64], outcome: &[u8]) {
    worth.iter_mut().zip(outcome).filter(|(_, reason)| **reason == FIT).for_each(|(worth, _)| *worth /= 4.0);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whom_the_best_leave_out_comes_first() {
        // Candidates 0 and 1 fit the same two heads, 2 fits the third, 3 nobody.
        let outcome = [vec![0, 0, 1], vec![0, 0, 1], vec![1, 1, 0], vec![1, 1, 1]];
        assert_eq!(pick(&[0.35, 0.35, 0.3], &outcome, 0.1, 1, 2), [0, 2]);
        assert_eq!(pick(&[0.35, 0.35, 0.3], &outcome, 0.1, 1, 9), [0, 1, 2]);
    }
}
