//! A multivariate normal over the four measures, and what one reading does to it.

use super::Reading;

/// A normal distribution over C, L, B, W (mm and mm²). The covariance is symmetric and never negative;
/// exact readings make it singular, which every method here allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gaussian {
    /// Mean, in the order C, L, B, W.
    pub mean: [f64; 4],
    /// Covariance, rows and columns in the same order.
    pub covariance: [[f64; 4]; 4],
}

/// What a reading said about the distribution that it updated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Evidence {
    /// Log density of the reading before it was taken.
    pub(super) log_density: f64,
    /// Squared distance of the reading from what was expected, in its standard deviations.
    pub(super) distance2: f64,
}

impl Gaussian {
    /// The distribution after a reading, and the reading's evidence: one scalar Kalman step, no inverse.
    pub(super) fn condition(&self, reading: Reading) -> (Self, Evidence) {
        let k = reading.measure.index();
        let variance = self.covariance[k][k] + reading.sd * reading.sd;
        let surprise = reading.value - self.mean[k];
        if variance <= f64::EPSILON {
            // Known exactly already: a second exact reading can only agree or contradict.
            let distance2 = if surprise.abs() < 1e-9 { 0.0 } else { f64::INFINITY };
            return (*self, Evidence { log_density: -distance2, distance2 });
        }
        let gain = self.covariance.map(|row| row[k] / variance);
        let mut next = *self;
        for (i, gain) in gain.into_iter().enumerate() {
            next.mean[i] += gain * surprise;
            for (to, from) in next.covariance[i].iter_mut().zip(self.covariance[k]) {
                *to -= gain * from;
            }
        }
        if reading.sd <= 0.0 {
            next.pin(k, reading.value);
        }
        let distance2 = surprise * surprise / variance;
        let log_density = -0.5 * (distance2 + (std::f64::consts::TAU * variance).ln());
        (next, Evidence { log_density, distance2 })
    }

    /// Lower triangular factor A with A Aᵀ = covariance; a direction without variance gets a zero column.
    /// `None` where the matrix is not a covariance (a clearly negative pivot).
    #[must_use]
    pub fn factor(&self) -> Option<[[f64; 4]; 4]> {
        let mut a = [[0.0; 4]; 4];
        for j in 0..4 {
            let pivot = self.covariance[j][j] - a[j][..j].iter().map(|x| x * x).sum::<f64>();
            let tiny = 1e-9 * (1.0 + self.covariance[j][j].abs());
            if pivot < -tiny || pivot.is_nan() {
                return None;
            }
            if pivot <= tiny {
                continue;
            }
            a[j][j] = pivot.sqrt();
            for i in j + 1..4 {
                let dot: f64 = (0..j).map(|k| a[i][k] * a[j][k]).sum();
                a[i][j] = (self.covariance[i][j] - dot) / a[j][j];
            }
        }
        Some(a)
    }

    /// After an exact reading the rounding of the update must not leave a crumb of variance.
    fn pin(&mut self, k: usize, value: f64) {
        self.mean[k] = value;
        for i in 0..4 {
            self.covariance[i][k] = 0.0;
            self.covariance[k][i] = 0.0;
        }
    }
}
