//! All heads of a source, counted.

use super::answers::Answers;
use super::index::Index;
use super::kept::Kept;
use super::map::Map;
use super::shelf::{Shelf, World, taken};
use super::source::{Chunk, Source};
use super::tally::{Counting, Pattern, Tally};
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
    /// By measure: how many heads of a table lack it and got one that was drawn.
    pub drawn: [u64; 4],
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
) -> Result<Counted, S::Fault> {
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
        let mut part = Part::<S>::new();
        while let Some(piece) = next() {
            match piece.and_then(S::heads) {
                Ok(chunk) => part.add(&index, outline, &chunk),
                Err(fault) => part.blame(fault),
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
    whole.counted(shelf.words())
}

/// Heads at hand, counted on a shelf, with the profiles at their word or off as in a world.
#[must_use]
pub fn tally(shelf: &Shelf<'_>, taken: &[Vec<f64>; 3], world: Option<&World>) -> Tally {
    let mut counting = Counting::default();
    counting.add(2 * shelf.words(), 0, Answers::of(shelf, taken, world).bits());
    counting.tally(shelf.words())
}

/// What one thread counted.
struct Part<S: Source> {
    counting: Counting,
    map: Map,
    kept: Kept,
    drawn: [u64; 4],
    fault: Option<S::Fault>,
    /// Room for the answers of a chunk.
    answers: Vec<u64>,
}

impl<S: Source> Part<S> {
    fn new() -> Self {
        Self {
            counting: Counting::default(),
            map: Map::default(),
            kept: Kept::default(),
            drawn: [0; 4],
            fault: None,
            answers: Vec::new(),
        }
    }

    fn add(&mut self, index: &Index, outline: Outline, chunk: &Chunk) {
        index.ask(&taken(&chunk.heads, outline), &mut self.answers);
        self.counting.add(index.words(), chunk.first, &self.answers);
        let helmets = self.answers.chunks_exact(index.words()).map(|answer| {
            let pattern = Pattern::of(answer, index.words() / 2);
            (pattern.on_offer.count(), pattern.standard.count())
        });
        self.map.add(&chunk.heads, helmets);
        self.kept.add(chunk.first, &chunk.heads);
        self.more_drawn(chunk.drawn);
    }

    fn more_drawn(&mut self, drawn: [u64; 4]) {
        self.drawn.iter_mut().zip(drawn).for_each(|(all, more)| *all += more);
    }

    fn blame(&mut self, fault: S::Fault) {
        self.fault = Some(match self.fault.take() {
            None => fault,
            Some(before) => S::both(before, fault),
        });
    }

    fn merged(mut self, other: Self) -> Self {
        self.counting.merge(&other.counting);
        self.map.merge(&other.map);
        self.kept.merge(other.kept);
        self.more_drawn(other.drawn);
        if let Some(fault) = other.fault {
            self.blame(fault);
        }
        self
    }

    fn counted(self, words: usize) -> Result<Counted, S::Fault> {
        let Self { counting, map, kept, drawn, fault, .. } = self;
        fault.map_or_else(|| Ok(Counted { tally: counting.tally(words), map, kept: kept.heads(), drawn }), Err)
    }
}
