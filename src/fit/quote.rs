//! Figures with their sampling error.

use itertools::Itertools;

/// A figure with its sampling error: four standard errors, from independent scrambles of the heads.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Quote {
    /// The figure.
    pub value: f64,
    /// Its sampling error.
    pub error: f64,
}

impl Quote {
    /// The mean of values from independent scrambles.
    #[must_use]
    pub fn of(values: impl Iterator<Item = f64>) -> Self {
        let values = values.collect_vec();
        #[expect(clippy::cast_precision_loss, reason = "a handful")]
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        let variance = values.iter().map(|value| (value - mean).powi(2)).sum::<f64>() / (n - 1.0).max(1.0);
        Self { value: mean, error: 4.0 * (variance / n).sqrt() }
    }

    /// Σ part / Σ whole over the scrambles, with the scatter of their own ratios as the error; 0 where there is
    /// no whole.
    #[must_use]
    pub fn ratio(pairs: impl Iterator<Item = (f64, f64)>) -> Self {
        let pairs = pairs.collect_vec();
        let (parts, wholes) = pairs.iter().fold((0.0, 0.0), |(part, whole), pair| (part + pair.0, whole + pair.1));
        if wholes <= 0.0 {
            return Self::default();
        }
        let scatter = Self::of(pairs.iter().filter(|pair| pair.1 > 0.0).map(|(part, whole)| part / whole));
        Self { value: parts / wholes, error: scatter.error }
    }
}
