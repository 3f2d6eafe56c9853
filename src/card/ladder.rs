//! Which size of a model a tape picks.

use crate::fit::Candidate;
use itertools::Itertools;

/// The sizes of a model by their labels.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Ladder {
    /// Middles of the labelled ranges in mm with the sizes' places, ascending; of two alike the first.
    middles: Vec<(f64, usize)>,
    /// Circumferences in mm beyond which the labels end.
    ends: (f64, f64),
}

/// Where a circumference lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rung {
    /// Before the smallest label.
    Under,
    /// In the labels; the size at this place is nearest.
    At(usize),
    /// Behind the largest label.
    Over,
}

impl Ladder {
    /// Of some sizes. A label is taken to reach half of the usual step beyond its ends, as the labels beside it would.
    pub(super) fn of(candidates: &[Candidate<'_>], label_step: f64) -> Self {
        let middles = candidates.iter().enumerate().map(|(at, candidate)| (candidate.size.centre(), at));
        let middles = middles.sorted_by(|a, b| a.0.total_cmp(&b.0)).dedup_by(|a, b| a.0.total_cmp(&b.0).is_eq());
        let labels = candidates.iter().map(|candidate| candidate.size.circumference);
        let ends =
            labels.fold((f64::INFINITY, f64::NEG_INFINITY), |ends, (from, to)| (ends.0.min(from), ends.1.max(to)));
        Self { middles: middles.collect(), ends: (ends.0 - label_step / 2.0, ends.1 + label_step / 2.0) }
    }

    /// The size whose middle is nearest, the smaller one of two.
    pub(super) fn rung(&self, circumference: f64) -> Rung {
        if circumference < self.ends.0 {
            return Rung::Under;
        }
        let off = |(middle, _): &&(f64, usize)| (middle - circumference).abs();
        let nearest = self.middles.iter().min_by(|a, b| off(a).total_cmp(&off(b)));
        nearest.filter(|_| circumference <= self.ends.1).map_or(Rung::Over, |(_, at)| Rung::At(*at))
    }

    /// The sizes, the smallest first; of two with one label the second is none of them.
    pub(super) fn sizes(&self) -> impl Iterator<Item = usize> + '_ {
        self.middles.iter().map(|(_, at)| *at)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(524.9, Rung::Under)]
    #[case(525.0, Rung::At(1))]
    #[case(545.0, Rung::At(1))]
    #[case(545.1, Rung::At(0))]
    #[case(570.0, Rung::At(0))]
    #[case(570.1, Rung::Over)]
    fn a_tape_picks_the_nearest_label_between_the_ends(#[case] circumference: f64, #[case] rung: Rung) {
        let ladder = Ladder { middles: vec![(535.0, 1), (555.0, 0)], ends: (525.0, 570.0) };
        assert_eq!(ladder.rung(circumference), rung);
    }
}
