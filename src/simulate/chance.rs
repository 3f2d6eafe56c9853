//! Independent draws from a named generator.

use crate::head::normal_quantile;
use rand_pcg::Pcg64;
use rand_pcg::rand_core::{Rng, SeedableRng};

/// A run of independent numbers: PCG XSL 128/64 (LCG), the same on every machine.
#[derive(Debug, Clone)]
pub struct Chance(Pcg64);

impl Chance {
    /// The run of a seed, a name and a number; others are independent of it.
    #[must_use]
    pub fn new(seed: u64, name: &str, number: u64) -> Self {
        // FNV-1a over the parts: stable on every machine and every version, unlike the standard hasher.
        let bytes = seed.to_le_bytes().into_iter().chain(number.to_le_bytes()).chain(name.bytes());
        let hash = bytes.fold(0xcbf2_9ce4_8422_2325_u64, |h, b| (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3));
        Self(Pcg64::seed_from_u64(hash))
    }

    /// A whole number, each as probable as any other: a seed for something else.
    pub fn number(&mut self) -> u64 {
        self.0.next_u64()
    }

    /// A uniform number in (0, 1).
    pub fn uniform(&mut self) -> f64 {
        // The middle of one of 2⁵² steps: never 0, never 1.
        #[expect(clippy::cast_precision_loss, reason = "52 bits are exact")]
        let step = (self.0.next_u64() >> 12) as f64;
        (step + 0.5) / (1_u64 << 52) as f64
    }

    /// A standard normal number.
    pub fn normal(&mut self) -> f64 {
        normal_quantile(self.uniform())
    }

    /// Whether something of this probability happens.
    pub fn happens(&mut self, probability: f64) -> bool {
        self.uniform() < probability
    }

    /// A place among these weights, each as probable as its weight; 0 without any.
    pub fn pick(&mut self, weights: &[f64]) -> usize {
        let mut left = self.uniform() * weights.iter().sum::<f64>();
        let found = weights.iter().position(|weight| {
            left -= weight;
            left < 0.0
        });
        found.unwrap_or(weights.len().saturating_sub(1))
    }

    /// One of these; `None` of none.
    pub fn one_of<'t, T>(&mut self, things: &'t [T]) -> Option<&'t T> {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to below the length")]
        things.get((self.uniform() * things.len() as f64) as usize)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_generator_is_the_published_one() {
        // The first numbers of pcg64 with state 42 and stream 54: the test suite of the reference implementation in C.
        let mut published = Pcg64::new(42, 54);
        assert_eq!(
            [published.next_u64(), published.next_u64(), published.next_u64()],
            [0x86b1_da1d_7206_2b68, 0x1304_aa46_c985_3d39, 0xa367_0e9e_0dd5_0358]
        );
    }

    #[test]
    fn runs_repeat_and_differ() {
        let draw = |seed, name, number| Chance::new(seed, name, number).uniform().to_bits();
        assert_eq!(draw(1, "head", 1), draw(1, "head", 1));
        for other in [draw(2, "head", 1), draw(1, "report", 1), draw(1, "head", 2)] {
            assert_ne!(draw(1, "head", 1), other);
        }
    }

    #[test]
    fn neighbouring_runs_are_normal_and_independent() {
        // 20,000 pairs: means and correlations beyond 0.03, and variances off by 0.05, have a chance below 1 in 10,000.
        let first: Vec<f64> = (0..20_000).map(|number| Chance::new(7, "x", number).normal()).collect();
        let mean = |values: &mut dyn Iterator<Item = f64>| values.sum::<f64>() / 20_000.0;
        assert!(mean(&mut first.iter().copied()).abs() < 0.03);
        assert!((mean(&mut first.iter().map(|z| z * z)) - 1.0).abs() < 0.05);
        assert!(mean(&mut first.iter().zip(&first[1..]).map(|(a, b)| a * b)).abs() < 0.03);
    }

    #[test]
    fn a_pick_follows_its_weights() {
        let mut chance = Chance::new(3, "pick", 0);
        let picked = (0..10_000).filter(|_| chance.pick(&[1.0, 0.0, 3.0]) == 2).count();
        assert!((7250..7750).contains(&picked), "{picked}: 7500 give or take 43");
        let picked = (0..10_000).filter(|_| chance.one_of(&[1, 2, 3, 4]) == Some(&4)).count();
        assert!((2300..2700).contains(&picked), "{picked}: 2500 give or take 43");
        assert_eq!(chance.one_of::<u8>(&[]), None);
    }
}
