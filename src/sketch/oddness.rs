//! How odd a set of reports is, whatever the shape.

/// Steps to one unit of a log probability.
const STEPS: f64 = 20.0;

/// How probable it is that customers report something at most as probable as they did, each given with the
/// probability of the report and those of all outcomes. 1 without customers.
///
/// Log probabilities are rounded to twentieths, so that the distribution of their sum can be added up customer by
/// customer: exact but for the rounding, which both sides of the comparison share.
pub(super) fn oddness(customers: &[(f64, Vec<f64>)]) -> f64 {
    let mut chances = vec![1.0];
    let mut reported = 0;
    for (report, outcomes) in customers {
        reported += depth(*report);
        let deepest = outcomes.iter().map(|chance| depth(*chance)).max().unwrap_or(0);
        let mut next = vec![0.0; chances.len() + deepest];
        for chance in outcomes {
            let down = depth(*chance);
            for (at, before) in chances.iter().enumerate() {
                next[at + down] += before * chance;
            }
        }
        chances = next;
    }
    let total: f64 = chances.iter().sum();
    chances.iter().skip(reported).sum::<f64>() / total
}

/// How far the log of a probability lies below 0, in steps.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "some hundred at most")]
fn depth(chance: f64) -> usize {
    (-chance.ln() * STEPS).round().max(0.0) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_most_probable_reports_are_not_odd_and_nobody_is_not() {
        assert!((oddness(&[]) - 1.0).abs() < 1e-12);
        assert!((oddness(&[(0.7, vec![0.7, 0.2, 0.1]), (0.5, vec![0.5, 0.3, 0.2])]) - 1.0).abs() < 1e-12);
    }

    /// Two coins with 0.8 and 0.2: at most as probable as two rare sides are only these.
    #[test]
    fn sums_are_those_of_counting() {
        let coin = |report: f64| (report, vec![0.8, 0.2]);
        assert!((oddness(&[coin(0.2), coin(0.2)]) - 0.04).abs() < 1e-12);
        assert!((oddness(&[coin(0.2), coin(0.8)]) - 0.36).abs() < 1e-12);
    }
}
