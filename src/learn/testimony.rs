//! What one visitor's tries say of one shell: for each possible helmet the probability of what was heard, head by head.

use crate::fit::{Candidate, Nominal};
use crate::head::{Outline, Particles};
use crate::journal::{Record, Round};
use crate::profile::{Axis, FitRules, Reason};
use crate::sketch::{excesses, good};

/// Heads that stand for a visitor. A tenth of what a sketch has: here many visitors add up, each with heads of his own.
pub(super) const HEADS: usize = 256;

const HEADS_U32: u32 = 256;

/// Every head is picked as if it explained this share of the mean.
const FORGOTTEN: f64 = 0.1;

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
    /// By axis, how much larger than the head that head is where the pads fit, mm.
    fits: [(f64, f64); 3],
    /// The same where the reason that was heard is true; `None` for a fit.
    fails: Option<[(f64, f64); 3]>,
}

/// A possible helmet, as it departs from its profile.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Departure {
    /// Of the shape index.
    pub(super) index: f64,
    /// Of the centres of the shell's sizes, mm of circumference.
    pub(super) centre: f64,
}

/// What becomes of a head in a round, beside what was heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Heard {
    /// A fit that is one.
    Fit,
    /// The true reason.
    Right,
    /// Another one.
    Wrong,
    /// A fit that is none, or a failure that is a fit.
    Slip,
}

/// How probable a report is. A fit is seen by the fitter; the reason of a failure may be another than the true one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Chances {
    /// Of a failure for its true reason.
    right: f32,
    /// For any other.
    wrong: f32,
    /// Of a fit that is none, or of a failure that is a fit: the foam isn't as simple as its bands.
    slip: f32,
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
    let rounds = record.rounds.iter().enumerate();
    let heard = rounds.filter(|(_, round)| round.reason.is_none_or(|reason| reason.direction().is_some()));
    let trial = |(at, round): (usize, &Round)| {
        let good = where_good(candidate, at, round, rules);
        let fails = round.reason.map(|reason| excesses(Some(reason), good));
        Trial { nominal: candidate.nominal, fits: excesses(None, good), fails }
    };
    heard.map(trial).collect()
}

/// Where the pads of a round are good. The first pads were chosen before anybody felt them. Those of a later round are
/// the ones that the fitter's hands found: that an axis is good with them says that it is good with some pads on offer,
/// and not that it was these.
fn where_good(candidate: &Candidate<'_>, at: usize, round: &Round, rules: &FitRules) -> [Option<(f64, f64)>; 3] {
    let mounted = good(&candidate.size.standard, &round.pads, rules);
    let found = found_by_hand(at, round.reason);
    [0, 1, 2].map(|axis| if found[axis] { on_offer(candidate, axis, rules) } else { mounted[axis] })
}

/// The axes on which the pads of a round were found by hand to be good.
pub(super) fn found_by_hand(round: usize, heard: Option<Reason>) -> [bool; 3] {
    let direction = heard.map_or([0; 3], |reason| reason.direction().unwrap_or([0; 3]));
    direction.map(|way| round > 0 && way == 0)
}

/// From the tightest that the thinnest pads take to the loosest that the thickest do: offers leave no gaps between.
fn on_offer(candidate: &Candidate<'_>, axis: usize, rules: &FitRules) -> Option<(f64, f64)> {
    let table = candidate.axes[axis].as_ref()?;
    let windows = table.options.iter().map(|option| rules.bands(Axis::ALL[axis]).window(option.foam));
    let whole = windows.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
    Some((whole.0 - candidate.room[axis], whole.1 - candidate.room[axis]))
}

impl Trial {
    /// Length, breadth and face width of the head that the helmet is truly made for, mm.
    fn helmet(&self, departure: Departure, outline: Outline) -> [f64; 3] {
        let nominal = Nominal {
            circumference: self.nominal.circumference + departure.centre,
            shape_index: self.nominal.shape_index + departure.index,
            ..self.nominal
        };
        nominal.dimensions(outline)
    }

    /// What was heard, if this is the head and that the helmet.
    pub(super) fn heard(&self, heads: &Heads, head: usize, departure: Departure, outline: Outline) -> Heard {
        let helmet = self.helmet(departure, outline);
        let head = [0, 1, 2].map(|axis| heads.taken[axis][head]);
        let fits = Box::of(helmet, self.fits).holds(head);
        match self.fails {
            None if fits => Heard::Fit,
            None => Heard::Slip,
            Some(_) if fits => Heard::Slip,
            Some(fails) if Box::of(helmet, fails).holds(head) => Heard::Right,
            Some(_) => Heard::Wrong,
        }
    }

    /// Whether it was a failure.
    pub(super) fn failed(&self) -> bool {
        self.fails.is_some()
    }
}

impl Chances {
    pub(super) fn of(misreport: f64) -> Self {
        let reasons = u32::try_from(Reason::GEOMETRIC).map_or(1.0, f64::from);
        Self {
            right: single((1.0 - misreport).max(LEAST)),
            wrong: single((misreport / (reasons - 1.0)).max(LEAST)),
            slip: single((misreport / reasons).max(LEAST)),
        }
    }
}

/// Heads of three measures: by axis from more than the first to the second, mm.
#[derive(Clone, Copy)]
struct Box([(f32, f32); 3]);

impl Box {
    fn of(helmet: [f64; 3], excess: [(f64, f64); 3]) -> Self {
        Self([0, 1, 2].map(|axis| (single(helmet[axis] - excess[axis].1), single(helmet[axis] - excess[axis].0))))
    }

    /// Numbers instead of branches: such a loop becomes vector code.
    fn holds(self, [length, breadth, face]: [f32; 3]) -> bool {
        let [l, b, w] = self.0;
        (length > l.0) & (length <= l.1) & (breadth > b.0) & (breadth <= b.1) & (face > w.0) & (face <= w.1)
    }
}

impl Heads {
    /// For each head the probability of all these reports together, if the helmet departs so from its profile.
    pub(super) fn probabilities(
        &self,
        trials: &[Trial],
        departure: Departure,
        (chances, outline): (Chances, Outline),
        probabilities: &mut [f32],
    ) {
        probabilities.fill(1.0);
        for trial in trials {
            let helmet = trial.helmet(departure, outline);
            let fits = Box::of(helmet, trial.fits);
            match trial.fails {
                None => self.multiply(probabilities, |head| if fits.holds(head) { 1.0 } else { chances.slip }),
                Some(fails) => {
                    let fails = Box::of(helmet, fails);
                    self.multiply(probabilities, |head| {
                        let failed = if fails.holds(head) { chances.right } else { chances.wrong };
                        if fits.holds(head) { chances.slip } else { failed }
                    });
                }
            }
        }
    }

    /// Some hundred of them, picked as often as they explain something, each with a weight that is as much smaller.
    pub(super) fn closely(&self, explains: &[f32]) -> Self {
        let mean = average(&self.weight, explains);
        // Heads that explain nothing are not forgotten: a misreport may be all that there is to explain.
        let explains = explains.iter().map(|explains| f64::from(*explains) + FORGOTTEN * mean).collect::<Vec<_>>();
        let shares = self.weight.iter().zip(&explains).map(|(weight, explains)| f64::from(*weight) * explains);
        let total: f64 = shares.clone().sum();
        let mut picked = Self { taken: Default::default(), weight: Vec::with_capacity(HEADS) };
        let (mut reached, mut next) = (0.0, 0.5);
        for (at, share) in shares.enumerate() {
            reached += share / total * f64::from(HEADS_U32);
            while next < reached && picked.weight.len() < HEADS {
                for (own, taken) in picked.taken.iter_mut().zip(&self.taken) {
                    own.push(taken[at]);
                }
                picked.weight.push(single(mean / explains[at]));
                next += 1.0;
            }
        }
        picked.fill_up();
        let total: f32 = picked.weight.iter().sum();
        picked.weight.iter_mut().for_each(|weight| *weight /= total);
        picked
    }

    /// Rounding may leave the last pick out.
    fn fill_up(&mut self) {
        while self.weight.len() < HEADS {
            for own in &mut self.taken {
                own.push(own.last().copied().unwrap_or_default());
            }
            self.weight.push(0.0);
        }
    }

    fn multiply(&self, probabilities: &mut [f32], chance: impl Fn([f32; 3]) -> f32) {
        let [lengths, breadths, faces] = &self.taken;
        let heads = lengths.iter().zip(breadths).zip(faces);
        for (probability, ((length, breadth), face)) in probabilities.iter_mut().zip(heads) {
            *probability *= chance([*length, *breadth, *face]);
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
