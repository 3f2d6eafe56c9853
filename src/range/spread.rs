//! What a figure may be when profiles are off as far as they say.

use super::count::tally;
use super::shelf::{Shelf, taken};
use super::tally::Tally;
use crate::head::Particles;
use itertools::Itertools;

/// A figure over the worlds in which profiles are off: its mean, and where nine in ten of its values lie.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spread {
    /// The mean.
    pub mean: f64,
    /// One world in twenty has less.
    pub from: f64,
    /// One world in twenty has more.
    pub to: f64,
}

/// Worlds that are looked at: the ends of a spread come out right to about a tenth of its width.
pub const WORLDS: usize = 200;

/// Heads in each of them, the same ones.
pub const WORLD_HEADS: usize = 16_384;

/// What figures of a tally may be. All are taken from the same worlds and the same heads (the first of those that are
/// given, thinned evenly), so a difference of two shares is a figure of its own.
#[must_use]
pub fn spreads(shelf: &Shelf<'_>, heads: &Particles, seed: u64, figures: impl Fn(&Tally) -> Vec<f64>) -> Vec<Spread> {
    let taken = taken(&heads.thinned(WORLD_HEADS), shelf.rules.outline);
    let worlds = shelf.worlds(WORLDS, seed);
    let rows = worlds.iter().map(|world| figures(&tally(shelf, &taken, Some(world)))).collect_vec();
    let columns = rows.first().map_or(0, Vec::len);
    (0..columns).map(|column| Spread::of(rows.iter().map(|row| row[column]))).collect()
}

impl Spread {
    /// Of equally probable values.
    #[must_use]
    pub fn of(values: impl Iterator<Item = f64>) -> Self {
        let sorted = values.sorted_by(f64::total_cmp).collect_vec();
        if sorted.is_empty() {
            return Self::default();
        }
        #[expect(clippy::cast_precision_loss, reason = "a few hundred")]
        let mean = sorted.iter().sum::<f64>() / sorted.len() as f64;
        let tail = sorted.len() / 20;
        Self { mean, from: sorted[tail], to: sorted[sorted.len() - 1 - tail] }
    }
}
