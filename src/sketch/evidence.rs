//! What one customer's report says of the helmet: for each possible helmet the probability of the report, averaged
//! over the heads that the customer may have.

use super::grid::{Grid, Point};
use super::{Experience, Tried};
use crate::catalogue::Catalogue;
use crate::fit::{JUDGES, Nominal, PadSet, foam};
use crate::head::{Outline, Particles};
use crate::profile::{Axis, FitRules, Reason};
use itertools::{Itertools, izip};

/// Independent sets of heads; the scatter between them is the sampling error.
pub(super) const SETS: usize = JUDGES as usize;

/// A report is never taken to be less probable than this, so that none rules a helmet out altogether.
const LEAST: f64 = 1e-6;

/// A customer, ready for any number of possible helmets.
pub(super) struct Witness {
    sets: Vec<Heads>,
    /// Labelled middle of the size, mm.
    centre: f64,
    face_rule: [f64; 3],
    /// By axis, how much larger than the head the helmet's nominal head is where the pads are good, mm: from the
    /// tightest to the loosest. `None` without pads.
    good: [Option<(f64, f64)>; 3],
    reason: Option<Reason>,
}

/// The room that heads take, and their weights in whole parts: sums of whole numbers may be taken in any order, so the
/// loop over them becomes vector code. In f32: exact to 0.00001 mm here, and twice as fast to compare.
struct Heads {
    taken: [Vec<f32>; 3],
    weight: Vec<u32>,
}

/// Parts that a whole weight has.
const PARTS: f64 = 1_073_741_824.0;

impl Witness {
    pub(super) fn call(catalogue: &Catalogue, experience: &Experience<'_>, tried: &Tried, heads: usize) -> Self {
        let rules = &catalogue.shop.fit;
        let size = &experience.sizes[tried.size];
        let draw = |set| Particles::draw(&tried.head, heads, experience.seed, set);
        Self {
            sets: (1..=JUDGES).map(|set| Heads::of(&draw(set), rules.outline)).collect(),
            centre: size.centre(),
            face_rule: catalogue.face_width_rule(),
            good: good(&size.standard, tried.mounted.as_ref().unwrap_or(&size.standard), rules),
            reason: tried.reason,
        }
    }

    /// Logs of the report's probability at every point, from all sets of heads together; those from each set alone are
    /// added to what the sets hold already.
    pub(super) fn testify(&self, grid: &Grid, catalogue: &Catalogue, by_set: &mut [Vec<f64>; SETS]) -> Vec<f64> {
        let misreport = catalogue.shop.misreport;
        let testimony = grid.points().iter().enumerate().map(|(at, point)| {
            let shares = self.shares(self.reason, *point, catalogue);
            for (logs, share) in by_set.iter_mut().zip(shares) {
                logs[at] += chance(share, misreport).ln();
            }
            chance(mean(shares), misreport).ln()
        });
        testimony.collect()
    }

    /// How probable the report is for one possible helmet.
    pub(super) fn chance(&self, point: Point, catalogue: &Catalogue) -> f64 {
        chance(mean(self.shares(self.reason, point, catalogue)), catalogue.shop.misreport)
    }

    /// The same, and every outcome's probability: a fit, then the geometric reasons.
    pub(super) fn chances(&self, point: Point, catalogue: &Catalogue) -> (f64, Vec<f64>) {
        let outcomes = std::iter::once(None).chain(Reason::geometric().iter().copied().map(Some));
        let chance = |reason| chance(mean(self.shares(reason, point, catalogue)), catalogue.shop.misreport);
        (self.chance(point, catalogue), outcomes.map(chance).collect())
    }

    /// For how many of the heads of each set such a report is true.
    fn shares(&self, reason: Option<Reason>, point: Point, catalogue: &Catalogue) -> [f64; SETS] {
        let nominal =
            Nominal { circumference: self.centre + point.offset, shape_index: point.index, face_width: self.face_rule };
        let heads = self.heads_that(wanted(reason), nominal.dimensions(catalogue.shop.fit.outline));
        std::array::from_fn(|set| self.sets[set].share(heads))
    }

    /// The heads whose axes are as wanted: by axis from more than the first to the second, mm.
    fn heads_that(&self, wanted: [Wanted; 3], helmet: [f64; 3]) -> [(f64, f64); 3] {
        [0, 1, 2].map(|axis| {
            let (least, most) = wanted[axis].excess(self.good[axis]);
            (helmet[axis] - most, helmet[axis] - least)
        })
    }
}

/// What has to become of an axis for a report to be true.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Wanted {
    Tight,
    Good,
    Loose,
    Whatever,
}

impl Wanted {
    /// How much larger than the head the helmet's nominal head then is: from the first to below the second.
    fn excess(self, good: Option<(f64, f64)>) -> (f64, f64) {
        const NEVER: (f64, f64) = (f64::INFINITY, f64::INFINITY);
        const ALWAYS: (f64, f64) = (f64::NEG_INFINITY, f64::INFINITY);
        match (self, good) {
            (Self::Whatever, _) | (Self::Good, None) => ALWAYS,
            (_, None) => NEVER,
            (Self::Tight, Some((tightest, _))) => (f64::NEG_INFINITY, tightest),
            (Self::Good, Some(good)) => good,
            (Self::Loose, Some((_, loosest))) => (loosest, f64::INFINITY),
        }
    }
}

/// What a report says of length, breadth and face width: the cheeks are named only where all else is good. A reason
/// about which geometry is silent is true of every head.
fn wanted(reason: Option<Reason>) -> [Wanted; 3] {
    let direction = match reason {
        None => [0, 0, 0],
        Some(reason) => match reason.direction() {
            None => return [Wanted::Whatever; 3],
            Some(direction) => direction,
        },
    };
    let wanted = direction.map(|way| match way {
        1 => Wanted::Tight,
        -1 => Wanted::Loose,
        _ => Wanted::Good,
    });
    match wanted {
        [Wanted::Good, Wanted::Good, _] => wanted,
        [length, breadth, _] => [length, breadth, Wanted::Whatever],
    }
}

/// Where a report is true: by axis, how much larger than the head the helmet's nominal head then is, from the first to
/// below the second, mm; `good` says where the pads are good, in the same way.
pub(crate) fn excesses(reason: Option<Reason>, good: [Option<(f64, f64)>; 3]) -> [(f64, f64); 3] {
    let wanted = wanted(reason);
    [0, 1, 2].map(|axis| wanted[axis].excess(good[axis]))
}

/// By axis, how much larger than the head the nominal head is where the pads are good, mm: from the tightest to the
/// loosest. The cavity follows from the standard pads; how much of it is good, from those that are in it.
pub(crate) fn good(standard: &PadSet, mounted: &PadSet, rules: &FitRules) -> [Option<(f64, f64)>; 3] {
    Axis::ALL.map(|axis| {
        let depth = foam(mounted, axis);
        let room = foam(standard, axis) * (1.0 - rules.ideal);
        let (tightest, loosest) = rules.bands(axis).window(depth);
        (depth > 0.0).then_some((tightest - room, loosest - room))
    })
}

#[expect(clippy::cast_precision_loss, reason = "a handful")]
fn mean(shares: [f64; SETS]) -> f64 {
    shares.iter().sum::<f64>() / SETS as f64
}

/// The probability of a report that is true for this share of the heads; see `fit::heads`.
fn chance(share: f64, misreport: f64) -> f64 {
    let others = u32::try_from(Reason::GEOMETRIC).map_or(1.0, f64::from);
    (share * (1.0 - misreport) + (1.0 - share) * misreport / others).max(LEAST)
}

impl Heads {
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 0 to 2³⁰")]
    fn of(particles: &Particles, outline: Outline) -> Self {
        let rooms = (0..particles.len()).map(|at| outline.effective(particles.head(at))).collect_vec();
        Self {
            taken: [
                rooms.iter().map(|room| single(room.length)).collect(),
                rooms.iter().map(|room| single(room.breadth)).collect(),
                rooms.iter().map(|room| single(room.face_width)).collect(),
            ],
            weight: particles.weight.iter().map(|weight| (weight * PARTS).round() as u32).collect(),
        }
    }

    /// The weight of the heads in a box. Numbers instead of branches: four times as fast.
    fn share(&self, heads: [(f64, f64); 3]) -> f64 {
        let [length, breadth, face] = heads.map(|(above, to)| (single(above), single(to)));
        let [lengths, breadths, faces] = &self.taken;
        let mut sum = 0_u32;
        for (l, b, w, weight) in izip!(lengths, breadths, faces, &self.weight) {
            let is_inside = u32::from(*l > length.0)
                & u32::from(*l <= length.1)
                & u32::from(*b > breadth.0)
                & u32::from(*b <= breadth.1)
                & u32::from(*w > face.0)
                & u32::from(*w <= face.1);
            sum += is_inside * weight;
        }
        f64::from(sum) / PARTS
    }
}

#[expect(clippy::cast_possible_truncation, reason = "see `Heads`")]
fn single(value: f64) -> f32 {
    value as f32
}
