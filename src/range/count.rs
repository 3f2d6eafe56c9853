//! All heads of a source, counted.

use super::index::Index;
use super::kept::Kept;
use super::map::Map;
use super::shelf::{Shelf, World, taken};
use super::source::{Chunk, Source};
use super::tally::{Counting, Tally};
use crate::head::{Outline, Particles};
use crate::unit::Progress;
use itertools::Itertools;
use std::num::NonZeroUsize;
use std::sync::{Mutex, PoisonError};

/// What was counted.
#[derive(Debug, Clone, PartialEq)]
pub struct Counted {
    /// Heads by what fits them.
    pub tally: Tally,
    /// Heads and helmets by circumference and shape index.
    pub map: Map,
    /// Heads for a closer look: all of them, or every second, fourth ... with at most [`super::KEPT`].
    pub kept: Particles,
}

/// Counts every head of a source on a shelf, or says everything that is wrong with the source.
///
/// The same heads give the same answer whatever the number of threads: they share nothing but numbers of heads. Memory
/// grows with the number of different answers, not with that of heads.
pub fn count<S: Source>(
    shelf: &Shelf<'_>,
    source: S,
    threads: NonZeroUsize,
    progress: &mut (dyn FnMut(Progress) + Send),
) -> Result<Counted, Vec<S::Fault>> {
    let index = shelf.index(None);
    let outline = shelf.rules.outline;
    let source = Mutex::new((source, progress));
    let next = || {
        let mut guard = source.lock().unwrap_or_else(PoisonError::into_inner);
        let (source, progress) = &mut *guard;
        let piece = source.next();
        progress(source.progress());
        piece
    };
    let work = || {
        let mut part = Part::new();
        while let Some(piece) = next() {
            match piece.map_err(|fault| vec![fault]).and_then(S::heads) {
                Ok(chunk) => part.add(&index, outline, &chunk),
                Err(faults) => part.faults.extend(faults),
            }
        }
        part
    };
    let parts = std::thread::scope(|scope| {
        let helpers = (1..threads.get()).map(|_| scope.spawn(work)).collect_vec();
        let mut parts = vec![work()];
        for helper in helpers {
            parts.push(helper.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)));
        }
        parts
    });
    let whole = parts.into_iter().reduce(Part::merged).unwrap_or_else(Part::new);
    if whole.faults.is_empty() { Ok(whole.counted(shelf.words())) } else { Err(whole.faults) }
}

/// Heads at hand, counted on a shelf, with the profiles at their word or off as in a world.
#[must_use]
pub fn tally(shelf: &Shelf<'_>, taken: &[Vec<f64>; 3], world: Option<&World>) -> Tally {
    let mut answers = Vec::new();
    shelf.index(world).ask(taken, &mut answers);
    let mut counting = Counting::default();
    counting.add(2 * shelf.words(), 0, &answers);
    counting.tally(shelf.words())
}

/// What one thread counted.
struct Part<F> {
    counting: Counting,
    map: Map,
    kept: Kept,
    faults: Vec<F>,
    /// Room for the answers of a chunk.
    answers: Vec<u64>,
}

impl<F> Part<F> {
    fn new() -> Self {
        Self {
            counting: Counting::default(),
            map: Map::default(),
            kept: Kept::default(),
            faults: Vec::new(),
            answers: Vec::new(),
        }
    }

    fn add(&mut self, index: &Index, outline: Outline, chunk: &Chunk) {
        index.ask(&taken(&chunk.heads, outline), &mut self.answers);
        self.counting.add(index.words(), chunk.first, &self.answers);
        let count = |words: &[u64]| words.iter().map(|word| word.count_ones() as usize).sum();
        let helmets = self.answers.chunks_exact(index.words()).map(|answer| {
            let (on_offer, standard) = answer.split_at(index.words() / 2);
            (count(on_offer), count(standard))
        });
        self.map.add(&chunk.heads, helmets);
        self.kept.add(chunk.first, &chunk.heads);
    }

    fn merged(mut self, other: Self) -> Self {
        self.counting.merge(other.counting);
        self.map.merge(&other.map);
        self.kept.merge(other.kept);
        self.faults.extend(other.faults);
        self
    }

    fn counted(self, words: usize) -> Counted {
        Counted { tally: self.counting.tally(words), map: self.map, kept: self.kept.heads() }
    }
}
