//! Which heads a model fits, by size and by the words for shapes.

use super::counts::Counts;
use super::ladder::{Ladder, Rung};
use super::people::{People, fits};
use super::tries::Try;
use crate::fit::{Candidate, Quote};
use crate::profile::{Reason, Size};
use crate::range::share;
use itertools::Itertools;

/// Which heads a model fits in some size.
#[derive(Debug, Clone, PartialEq)]
pub struct Suits<'a> {
    /// Before the labels, in each size, behind the labels. All heads lie in one of them.
    pub rows: Vec<Row<'a>>,
    /// How many heads that is.
    pub heads: u64,
    /// Long, intermediate and round ovals in its sizes, those that it fits most often first.
    pub by_word: Vec<OfWord>,
}

/// Heads by what a tape says of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Row<'a> {
    /// What it says.
    pub which: Which<'a>,
    /// Long, intermediate and round ovals.
    pub by_word: [Counts; 3],
}

/// What a tape says of a head and a model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Which<'a> {
    /// Smaller than every label.
    Under,
    /// This size.
    In(&'a Size),
    /// Larger than every label.
    Over,
}

/// Heads of one shape.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OfWord {
    /// 0 for a long, 1 for an intermediate, 2 for a round oval.
    pub word: usize,
    /// Those in the labels, and how many of them fit.
    pub counts: Counts,
    /// Why those fail, mostly, who fit no size of it with any pads; with the share of those who do.
    pub mostly: Option<(Reason, Quote)>,
}

impl Row<'_> {
    /// All of its heads.
    #[must_use]
    pub fn all(&self) -> Counts {
        self.by_word.into_iter().fold(Counts::default(), Counts::and)
    }
}

impl<'a> Suits<'a> {
    /// The model at this place of the shelf.
    pub(super) fn of(people: &People<'_>, model: usize, candidates: &[Candidate<'a>], tries: &[Try<'_>]) -> Self {
        let ladder = Ladder::of(candidates, people.label_step);
        let own = people.set_of(model);
        let mut sizes = vec![[Counts::default(); 3]; candidates.len()];
        let (mut under, mut over) = ([Counts::default(); 3], [Counts::default(); 3]);
        for (person, pattern) in people.each() {
            let row = match ladder.rung(person.circumference) {
                Rung::Under => &mut under,
                Rung::At(size) => &mut sizes[size],
                Rung::Over => &mut over,
            };
            row[person.word].add(fits(pattern, &own));
        }
        let of_size = |size: usize| Row { which: Which::In(candidates[size].size), by_word: sizes[size] };
        let rows = std::iter::once(Row { which: Which::Under, by_word: under })
            .chain(ladder.sizes().map(of_size))
            .chain([Row { which: Which::Over, by_word: over }]);
        let of_word = |word: usize| OfWord {
            word,
            counts: sizes.iter().fold(Counts::default(), |sum, row| sum.and(row[word])),
            mostly: mostly(tries.iter().filter(|tried| tried.word == word && !fits(tried.fits, &own)[1])),
        };
        let often = |of: &OfWord| of.counts.shares().map_or(-1.0, |[_, on_offer]| on_offer.value);
        let by_word = (0..3).map(of_word).sorted_by(|a, b| often(b).total_cmp(&often(a)));
        Self { rows: rows.collect(), heads: people.count() as u64, by_word: by_word.collect() }
    }
}

/// The reason that most of them have with the best pads, the first of equal ones.
fn mostly<'t, 'p: 't>(tries: impl Iterator<Item = &'t Try<'p>>) -> Option<(Reason, Quote)> {
    let counts = tries.filter_map(|tried| tried.best).counts();
    let all = counts.values().sum::<usize>();
    let (reason, count) = counts.into_iter().sorted().rev().max_by_key(|(_, count)| *count)?;
    Some((reason, share(count as u64, all as u64)))
}
