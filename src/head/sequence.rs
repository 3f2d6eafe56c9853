//! Low-discrepancy normals: the only source of randomness, and it comes from a seed.

use statrs::distribution::{ContinuousCDF, Normal};
use std::sync::LazyLock;

/// Points per scramble that [`Stream::coarse_normals`] resolves: one normal quantile per stratum.
const STRATA: usize = 4096;

/// One Owen-scrambled, shuffled Sobol sequence. Streams with different names are independent.
#[derive(Debug, Clone, Copy)]
pub struct Stream(u32);

impl Stream {
    /// The stream for a seed, a scramble of it and a name (a model's id, or "head").
    #[must_use]
    pub fn new(seed: u64, scramble: u32, name: &str) -> Self {
        // FNV-1a over the parts: stable on every machine and every version, unlike the standard hasher.
        let bytes = seed.to_le_bytes().into_iter().chain(scramble.to_le_bytes()).chain(name.bytes());
        let hash = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |h, b| (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3));
        Self(u32::try_from((hash >> 32) ^ (hash & 0xffff_ffff)).unwrap_or(0))
    }

    /// Four uniform numbers in (0, 1) of point `index` in the given block of four dimensions.
    #[must_use]
    pub fn uniforms(self, index: u32, block: u32) -> [f64; 4] {
        // The middle of the step of 2⁻²⁴ that an f32 of the sequence stands for: never 0, never 1.
        sobol_burley::sample_4d(index, block, self.0).map(|u| f64::from(u) + 0.5 / f64::from(1_u32 << 24))
    }

    /// Four standard normals of point `index`, each the middle quantile of its stratum of 1/4096: for the
    /// many small profile errors, where a look-up is worth more than the ends of the tails (3.7 sd).
    #[must_use]
    pub fn coarse_normals(self, index: u32, block: u32) -> [f64; 4] {
        sobol_burley::sample_4d(index, block, self.0).map(|u| {
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "u lies in [0, 1)")]
            let stratum = (f64::from(u) * STRATA as f64) as usize;
            QUANTILES[stratum.min(STRATA - 1)]
        })
    }
}

/// The standard normal quantile of a probability in (0, 1).
#[must_use]
pub fn normal_quantile(probability: f64) -> f64 {
    STANDARD.inverse_cdf(probability)
}

static STANDARD: LazyLock<Normal> = LazyLock::new(Normal::standard);

static QUANTILES: LazyLock<Vec<f64>> = LazyLock::new(|| {
    #[expect(clippy::cast_precision_loss, reason = "at most 4096")]
    (0..STRATA).map(|k| normal_quantile((k as f64 + 0.5) / STRATA as f64)).collect()
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn streams_repeat_and_differ() {
        let draw = |seed, name| Stream::new(seed, 1, name).uniforms(17, 0);
        assert_eq!(draw(1, "head"), draw(1, "head"));
        assert_ne!(draw(1, "head"), draw(2, "head"));
        assert_ne!(draw(1, "head"), draw(1, "other"));
    }

    #[test]
    fn each_stratum_is_hit_once() {
        let stream = Stream::new(9, 0, "m");
        let mut seen: Vec<f64> = (0..4096).map(|i| stream.coarse_normals(i, 0)[2]).collect();
        seen.sort_by(f64::total_cmp);
        seen.dedup();
        assert_eq!(seen.len(), STRATA);
        assert!(seen.iter().sum::<f64>().abs() < 1e-6);
    }

    #[test]
    fn two_streams_are_not_correlated() {
        let (a, b) = (Stream::new(9, 0, "a"), Stream::new(9, 0, "b"));
        let dot: f64 = (0..4096).map(|i| a.coarse_normals(i, 0)[0] * b.coarse_normals(i, 0)[0]).sum();
        assert!((dot / 4096.0).abs() < 0.06, "correlation {}", dot / 4096.0);
    }
}
