//! What one visitor's tries say of one shell: for each possible helmet the probability of what was heard, head by head.

use crate::fit::{Candidate, Nominal};
use crate::head::{Outline, Particles};
use crate::journal::Record;
use crate::profile::FitRules;
use crate::sketch::excesses;

/// Heads that stand for a visitor. A tenth of what a sketch has: here many visitors add up, each with heads of his own.
pub(super) const HEADS: usize = 256;

/// No report is taken to be less probable than this for a head that it isn't true of.
const LEAST: f64 = 1e-6;

/// The room that a visitor's heads take, mm, and their weights. In f32: exact to 0.0001 mm here.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Heads {
    taken: [Vec<f32>; 3],
    pub(super) weight: Vec<f32>,
}

/// One pad set on the head, and which heads it is true of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Trial {
    /// The head that the profile says the size is made for.
    nominal: Nominal,
    /// By axis, how much larger than the head that head is where the report is true, mm.
    excess: [(f64, f64); 3],
}

/// A possible helmet, as it departs from its profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Departure {
    /// Of the shape index.
    pub(super) index: f64,
    /// Of the centres of the shell's sizes, mm of circumference.
    pub(super) centre: f64,
}

/// How probable a report is for a head that it is true of, and for the others; see `fit::heads`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Chances {
    agrees: f32,
    differs: f32,
}

impl Heads {
    pub(super) fn of(particles: &Particles, outline: Outline) -> Self {
        let rooms = (0..particles.len()).map(|at| outline.effective(particles.head(at))).collect::<Vec<_>>();
        Self {
            taken: [
                rooms.iter().map(|room| single(room.length)).collect(),
                rooms.iter().map(|room| single(room.breadth)).collect(),
                rooms.iter().map(|room| single(room.face_width)).collect(),
            ],
            weight: particles.weight.iter().map(|weight| single(*weight)).collect(),
        }
    }
}

/// The rounds of a record about which geometry speaks.
pub(super) fn trials(candidate: &Candidate<'_>, record: &Record, rules: &FitRules) -> Vec<Trial> {
    let heard = record.rounds.iter().filter(|round| round.reason.is_none_or(|reason| reason.direction().is_some()));
    let trial = |round: &crate::journal::Round| Trial {
        nominal: candidate.nominal,
        excess: excesses(round.reason, (&candidate.size.standard, &round.pads), rules),
    };
    heard.map(trial).collect()
}

impl Chances {
    pub(super) fn of(misreport: f64) -> Self {
        let others = u32::try_from(crate::profile::Reason::GEOMETRIC).map_or(1.0, f64::from);
        Self { agrees: single((1.0 - misreport).max(LEAST)), differs: single((misreport / others).max(LEAST)) }
    }
}

/// For each head the probability of all these reports together, if the helmet departs so from its profile.
pub(super) fn probabilities(
    trials: &[Trial],
    departure: Departure,
    heads: &Heads,
    (chances, outline): (Chances, Outline),
    probabilities: &mut [f32; HEADS],
) {
    probabilities.fill(1.0);
    for trial in trials {
        let nominal = Nominal {
            circumference: trial.nominal.circumference + departure.centre,
            shape_index: trial.nominal.shape_index + departure.index,
            ..trial.nominal
        };
        let helmet = nominal.dimensions(outline);
        let [length, breadth, face] = [0, 1, 2].map(|axis| {
            let (least, most) = trial.excess[axis];
            (single(helmet[axis] - most), single(helmet[axis] - least))
        });
        let [lengths, breadths, faces] = &heads.taken;
        let taken = lengths.iter().zip(breadths).zip(faces);
        // Numbers instead of branches: such a loop becomes vector code.
        for (probability, ((l, b), w)) in probabilities.iter_mut().zip(taken) {
            let is_true = (*l > length.0)
                & (*l <= length.1)
                & (*b > breadth.0)
                & (*b <= breadth.1)
                & (*w > face.0)
                & (*w <= face.1);
            *probability *= if is_true { chances.agrees } else { chances.differs };
        }
    }
}

/// Σ weight × value, in eight sums side by side: always in the same order, and fast.
pub(super) fn average(weights: &[f32], values: &[f32]) -> f64 {
    let mut sums = [0.0_f32; 8];
    for (weights, values) in weights.chunks_exact(8).zip(values.chunks_exact(8)) {
        for (sum, (weight, value)) in sums.iter_mut().zip(weights.iter().zip(values)) {
            *sum += weight * value;
        }
    }
    sums.iter().copied().map(f64::from).sum()
}

#[expect(clippy::cast_possible_truncation, reason = "see `Heads`")]
fn single(value: f64) -> f32 {
    value as f32
}
