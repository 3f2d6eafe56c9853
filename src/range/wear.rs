//! What a customer takes of each model that fits: one size, and its pads.

use crate::fit::{AxisTable, Candidate};
use crate::profile::FitRules;
use crate::supply::Kind;
use itertools::Itertools;

/// A size, ready to be dressed for any head.
#[derive(Debug, Clone)]
pub(super) struct Dressed {
    /// Where its model stands on the shelf.
    pub(super) model: usize,
    axes: [Option<Choices>; 3],
    ideal: f64,
}

/// Every pad choice of an axis.
#[derive(Debug, Clone)]
struct Choices {
    breaks: Vec<f64>,
    /// By cell: whether some choice is good.
    is_good: Vec<bool>,
    /// By cell: the good choices with the fewest minutes, of them those with the fewest swaps.
    quickest: Vec<Vec<usize>>,
    options: Vec<Choice>,
}

#[derive(Debug, Clone)]
struct Choice {
    foam: f64,
    minutes: f64,
    swaps: u32,
    /// Pads that aren't standard, by their place in the drawer.
    pads: Vec<usize>,
}

/// What a customer takes of a model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Taken {
    /// Where the size stands.
    pub(super) size: usize,
    minutes: f64,
    swaps: u32,
    unevenness: f64,
    /// Its choice of pads on each axis.
    pub(super) options: [usize; 3],
}

impl Dressed {
    /// A size; `article` says where a pad of it lies in the drawer.
    pub(super) fn of(
        model: usize,
        candidate: &Candidate<'_>,
        rules: &FitRules,
        article: impl Fn(Kind) -> Option<usize>,
    ) -> Self {
        let standard = &candidate.size.standard;
        let is_swapped =
            |(zone, mm): &&(_, f64)| standard.get(*zone).is_none_or(|standard: f64| (standard - mm).abs() > 1e-9);
        let choices = |table: &AxisTable| Choices {
            breaks: table.breaks.clone(),
            is_good: table.cells.iter().map(|cell| cell.class == 0).collect(),
            quickest: table.cells.iter().map(|cell| quickest(table, cell.good, cell.option)).collect(),
            options: table
                .options
                .iter()
                .map(|option| Choice {
                    foam: option.foam,
                    minutes: option.minutes,
                    swaps: option.swaps,
                    pads: option.pads.iter().filter(is_swapped).filter_map(|pad| article(*pad)).collect(),
                })
                .collect(),
        };
        Self { model, axes: candidate.axes.each_ref().map(|table| table.as_ref().map(choices)), ideal: rules.ideal }
    }

    /// Whether some pads are good for a head that leaves such rooms, mm.
    pub(super) fn fits(&self, room: [f64; 3]) -> bool {
        let axes = self.axes.iter().zip(room);
        axes.filter_map(|(choices, room)| Some(choices.as_ref()?.is_good(room))).all(|is_good| is_good)
    }

    /// What a head takes that it fits: the fewest minutes of swapping, then the fewest zones, then the most even fit, then
    /// the first. `room` is what the head leaves on each axis, mm.
    pub(super) fn on(&self, size: usize, room: [f64; 3]) -> Taken {
        let mut taken = Taken { size, minutes: 0.0, swaps: 0, unevenness: 0.0, options: [0; 3] };
        for (axis, choices) in self.axes.iter().enumerate() {
            let Some(choices) = choices else { continue };
            let cell = choices.cell(room[axis]);
            let uneven = |option: usize| {
                let strain = 1.0 - room[axis] / choices.options[option].foam - self.ideal;
                strain * strain
            };
            let quickest = choices.quickest[cell].iter().map(|option| (*option, uneven(*option)));
            let Some((option, unevenness)) = quickest.min_by(|a, b| a.1.total_cmp(&b.1)) else { continue };
            taken.minutes += choices.options[option].minutes;
            taken.swaps += choices.options[option].swaps;
            taken.unevenness += unevenness;
            taken.options[axis] = option;
        }
        taken
    }

    /// The pads that are swapped, by their place in the drawer.
    pub(super) fn pads(&self, taken: &Taken) -> impl Iterator<Item = usize> + '_ {
        let options = taken.options;
        let axes = self.axes.iter().zip(options);
        axes.filter_map(|(choices, option)| choices.as_ref().map(|choices| &choices.options[option].pads))
            .flatten()
            .copied()
    }
}

impl Choices {
    fn cell(&self, room: f64) -> usize {
        self.breaks.partition_point(|edge| *edge <= room)
    }

    fn is_good(&self, room: f64) -> bool {
        self.is_good[self.cell(room)]
    }
}

impl Taken {
    /// Whether the helmet stays as it came.
    pub(super) fn is_standard(&self) -> bool {
        self.swaps == 0
    }

    /// Whether a customer would rather have this than another size of the model.
    pub(super) fn is_better_than(&self, other: &Self) -> bool {
        let minutes = self.minutes.total_cmp(&other.minutes).then(self.swaps.cmp(&other.swaps));
        minutes.then(self.unevenness.total_cmp(&other.unevenness)).is_lt()
    }
}

/// Where nothing is good, which only rounding at an edge brings about, the least bad choice stands.
fn quickest(table: &AxisTable, good: u64, least_bad: usize) -> Vec<usize> {
    let effort = |option: &usize| (table.options[*option].minutes, table.options[*option].swaps);
    let good = (0..table.options.len()).filter(|option| good >> option & 1 == 1);
    let best = good.min_set_by(|a, b| {
        let (a, b) = (effort(a), effort(b));
        a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))
    });
    if best.is_empty() { vec![least_bad] } else { best }
}
