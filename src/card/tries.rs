//! A model on every head in its sizes: the size that a tape picks, as it comes and with the best pads.

use super::ladder::{Ladder, Rung};
use super::people::People;
use crate::fit::{Candidate, Reach};
use crate::head::EffectiveHead;
use crate::profile::Reason;
use crate::range::Pattern;
use itertools::Itertools;

/// A head in the size that a tape picks.
pub(super) struct Try<'p> {
    /// The head's number.
    pub(super) number: usize,
    /// The size's place among those of the model.
    pub(super) size: usize,
    /// 0 for a long, 1 for an intermediate, 2 for a round oval.
    pub(super) word: usize,
    /// The room that the head takes.
    pub(super) room: EffectiveHead,
    /// Every size of every model that fits it.
    pub(super) fits: Pattern<'p>,
    /// Why it fails with the standard pads; `None` where it fits.
    pub(super) standard: Option<Reason>,
    /// Why it fails with the best pads on offer; `None` where it fits.
    pub(super) best: Option<Reason>,
}

/// Every head within the labels of a model.
pub(super) fn tries<'p>(people: &'p People<'_>, candidates: &[Candidate<'_>]) -> Vec<Try<'p>> {
    let ladder = Ladder::of(candidates, people.label_step);
    let rules = people.rules();
    let reaches = candidates.iter().map(|candidate| {
        let as_it_comes = candidate.clone().mounted(&candidate.size.standard, rules, 0.0);
        [as_it_comes, candidate.clone()].map(|candidate| Reach::of(&candidate, rules))
    });
    let reaches = reaches.collect_vec();
    let tried = people.each().enumerate().filter_map(|(number, (person, fits))| {
        let Rung::At(size) = ladder.rung(person.circumference) else { return None };
        let [as_it_comes, on_offer] = &reaches[size];
        let standard = as_it_comes.reason(person.room);
        // The standard pads are some of those on offer.
        let best = standard.and_then(|_| on_offer.reason(person.room));
        Some(Try { number, size, word: person.word, room: person.room, fits, standard, best })
    });
    tried.collect()
}
