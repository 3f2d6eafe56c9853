//! Low-discrepancy normals: the only source of randomness, and it comes from a seed.

use statrs::distribution::{ContinuousCDF, Normal};
use std::sync::LazyLock;

/// Strata of [`Stream::stratified_normals`]: one for each head of a set.
const STRATA: usize = super::PARTICLES;

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

    /// One standard normal for each head, without end: of every 4096 heads the middle quantiles of as many strata in a
    /// random order, another one for each `dimension` (a Latin hypercube; McKay, Beckman and Conover 1979). For the many
    /// small profile errors, where a look-up is worth more than the ends of the tails (3.7 sd).
    pub fn stratified_normals(self, dimension: u32) -> impl Iterator<Item = f64> {
        (0..).flat_map(move |lap: u32| {
            let lap = if lap == 0 { 0 } else { mix(lap) };
            let keys = [1, 2, 3].map(|round| mix(self.0 ^ lap ^ mix(dimension.wrapping_mul(4) + round)));
            (0..STRATA).map(move |index| QUANTILES[keys.iter().fold(index, |at, key| shuffled(at, *key))])
        })
    }
}

/// One round of a bijection on the strata: multiply by an odd number, add, fold the high bits down.
fn shuffled(index: usize, key: u32) -> usize {
    let turned = index.wrapping_mul((key | 1) as usize).wrapping_add((key >> 16) as usize) % STRATA;
    turned ^ (turned >> 5)
}

/// A finaliser in the manner of murmur3: every bit of the input reaches every bit of the output.
fn mix(mut x: u32) -> u32 {
    x = (x ^ (x >> 16)).wrapping_mul(0x85eb_ca6b);
    x = (x ^ (x >> 13)).wrapping_mul(0xc2b2_ae35);
    x ^ (x >> 16)
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
        let draw = |seed, name| Stream::new(seed, 1, name).uniforms(17, 0).map(f64::to_bits);
        assert_eq!(draw(1, "head"), draw(1, "head"));
        assert_ne!(draw(1, "head"), draw(2, "head"));
        assert_ne!(draw(1, "head"), draw(1, "other"));
    }

    #[test]
    fn each_stratum_is_hit_once() {
        let drawn: Vec<f64> = Stream::new(9, 0, "m").stratified_normals(2).take(3 * STRATA).collect();
        for lap in drawn.chunks(STRATA) {
            let mut seen = lap.to_vec();
            seen.sort_by(f64::total_cmp);
            seen.dedup();
            assert_eq!(seen.len(), STRATA);
            assert!(seen.iter().sum::<f64>().abs() < 1e-6);
        }
        assert_ne!(drawn[..STRATA], drawn[STRATA..2 * STRATA], "each lap has an order of its own");
    }

    #[test]
    fn dimensions_streams_and_neighbours_are_not_correlated() {
        // 4096 pairs of independent normals: a correlation beyond 0.06 has a chance of 1 in 8000.
        let normals =
            |name, dimension| Stream::new(9, 0, name).stratified_normals(dimension).take(STRATA).collect::<Vec<_>>();
        let correlation = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>() / 4096.0;
        let all: Vec<_> =
            ["a", "b", "c", "d"].into_iter().flat_map(|name| [0, 1, 2].map(|d| normals(name, d))).collect();
        for (k, one) in all.iter().enumerate() {
            assert!(all[..k].iter().all(|other| correlation(one, other).abs() < 0.06));
            assert!(correlation(&one[1..], one).abs() < 0.06 && correlation(&one[64..], one).abs() < 0.06);
        }
    }
}
