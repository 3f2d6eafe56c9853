//! A figure that is known with an error.

/// Mean and standard deviation of a figure.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Belief {
    /// The mean.
    pub mean: f64,
    /// The standard deviation.
    pub sd: f64,
}

impl Belief {
    /// Of values with weights, which need not add up to 1. Of nothing it is 0±0.
    pub(super) fn of(weighted: &[(f64, f64)]) -> Self {
        let total: f64 = weighted.iter().map(|(weight, _)| weight).sum();
        if total <= 0.0 {
            return Self::default();
        }
        let average = |of: &dyn Fn(f64) -> f64| weighted.iter().map(|(w, value)| w * of(*value)).sum::<f64>() / total;
        let mean = average(&|value| value);
        Self { mean, sd: average(&|value| (value - mean).powi(2)).sqrt() }
    }

    /// Of values with log densities, without overflow.
    pub(super) fn of_logs(logs: &[(f64, f64)]) -> Self {
        let top = logs.iter().map(|(log, _)| *log).fold(f64::NEG_INFINITY, f64::max);
        Self::of(&logs.iter().map(|(log, value)| ((log - top).exp(), *value)).collect::<Vec<_>>())
    }
}

/// ln Σ exp, in one pass.
pub(super) fn log_sum(logs: impl Iterator<Item = f64>) -> f64 {
    let (mut top, mut sum) = (f64::NEG_INFINITY, 0.0);
    for log in logs {
        if log > top {
            sum = sum * (top - log).exp() + 1.0;
            top = log;
        } else if top > f64::NEG_INFINITY {
            sum += (log - top).exp();
        }
    }
    top + f64::ln(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_in_logarithms_do_not_overflow() {
        assert!(
            (log_sum([1000.0, 1000.0, 990.0].into_iter()) - (1000.0 + (2.0 + (-10.0_f64).exp()).ln())).abs() < 1e-12
        );
        assert!(log_sum([f64::NEG_INFINITY; 2].into_iter()).is_infinite());
        assert!(log_sum(std::iter::empty()).is_infinite());
    }

    #[test]
    fn weights_need_not_add_up() {
        let belief = Belief::of(&[(3.0, 1.0), (1.0, 5.0)]);
        assert!((belief.mean - 2.0).abs() < 1e-12 && (belief.sd - 3.0_f64.sqrt()).abs() < 1e-12);
        assert_eq!(Belief::of(&[]), Belief::default());
    }
}
