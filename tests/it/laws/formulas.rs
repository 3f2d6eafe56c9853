//! The formulas of the method, sections 2 to 4, written down once more and as plainly as they stand there.

use super::RANGE;
use itertools::{Itertools, iproduct};
use lidladder::fit::Candidate;
use lidladder::head::Dimensions;
use lidladder::profile::{ByZone, FitRules, Reason, Shell, Size, Zone};
use std::f64::consts::TAU;

/// Perimeter of an ellipse by its arc length, summed at equal steps; for a smooth closed curve that is exact.
pub(super) fn perimeter(length: f64, breadth: f64) -> f64 {
    let steps = 256;
    let speed = |k: i32| {
        let angle = TAU * f64::from(k) / f64::from(steps);
        (length / 2.0 * angle.sin()).hypot(breadth / 2.0 * angle.cos())
    };
    (0..steps).map(speed).sum::<f64>() * TAU / f64::from(steps)
}

/// The room that a head takes: `[x_L, x_B, W]`.
pub(super) fn room_taken(head: Dimensions, rules: &FitRules) -> [f64; 3] {
    let ellipse = rules.outline.factor * perimeter(head.length, head.breadth);
    let excess = (head.circumference - ellipse) / std::f64::consts::PI;
    let share = rules.outline.excess_share * excess;
    [head.length + share, head.breadth + share, head.face_width]
}

/// `[L0, B0, W0]` of a size with its standard pads.
pub(super) fn nominal(candidate: &Candidate<'_>, rules: &FitRules) -> [f64; 3] {
    let size = candidate.size;
    let kappa = rules.outline.factor;
    let (length, breadth) = match size.measured {
        // Measured between uncompressed pads: the nominal head takes up the ideal share of their thickness.
        Some(empty) => {
            let [front_back, sides, _] = foam(&size.standard);
            (empty.length + rules.ideal * front_back, empty.breadth + rules.ideal * sides)
        }
        None => {
            let shape = candidate.model.interior.shape_index / 100.0;
            let centre = f64::midpoint(size.circumference.0, size.circumference.1);
            let length = centre / (kappa * perimeter(1.0, shape));
            (length, length * shape)
        }
    };
    let face_width = size.face_width.unwrap_or_else(|| mean_face(kappa * perimeter(length, breadth), breadth));
    [length, breadth, face_width]
}

/// E[W | C, B] of the population that nominal faces come from, by solving the two normal equations.
fn mean_face(circumference: f64, breadth: f64) -> f64 {
    let heads = RANGE.population(RANGE.shop.face_width_from.as_str()).unwrap().components()[0].heads;
    let v = heads.covariance;
    let (c, b) = (circumference - heads.mean[0], breadth - heads.mean[2]);
    // Breadth with its part along the circumference taken out.
    let slope = v[2][0] / v[0][0];
    let (rest, rest_variance) = (b - slope * c, v[2][2] - slope * v[0][2]);
    heads.mean[3] + v[3][0] / v[0][0] * c + (v[3][2] - slope * v[3][0]) / rest_variance * rest
}

/// Total foam by axis: brow + rear, both sides, both cheeks.
pub(super) fn foam(pads: &ByZone<Option<f64>>) -> [f64; 3] {
    let mm = |zone| pads.get(zone).unwrap_or(0.0);
    [mm(Zone::Brow) + mm(Zone::Rear), 2.0 * mm(Zone::Sides), 2.0 * mm(Zone::Cheeks)]
}

/// ε = ε* + (x − x0)/T by axis, x0 moved by what the pads differ from the standard ones; nothing without foam.
pub(super) fn strain(
    pads: &ByZone<Option<f64>>,
    standard: &ByZone<Option<f64>>,
    nominal: [f64; 3],
    taken: [f64; 3],
    ideal: f64,
) -> [Option<f64>; 3] {
    let (now, before) = (foam(pads), foam(standard));
    [0, 1, 2].map(|axis| {
        let moved = nominal[axis] - (now[axis] - before[axis]) * (1.0 - ideal);
        (now[axis] > 0.0).then(|| ideal + (taken[axis] - moved) / now[axis])
    })
}

/// +1 where the foam is too tight, −1 where it is too loose.
pub(super) fn direction(strain: [Option<f64>; 3], rules: &FitRules) -> [i8; 3] {
    [0, 1, 2].map(|axis| {
        let bands = if axis == 2 { rules.cheeks } else { rules.head };
        let Some(strain) = strain[axis] else { return 0 };
        i8::from(strain > bands.tight_above) - i8::from(strain < bands.light_below)
    })
}

/// The table of reasons. Cheeks are named only where all else is good.
pub(super) fn reason(direction: [i8; 3]) -> Option<Reason> {
    match direction {
        [0, 0, 0] => None,
        [0, 0, 1] => Some(Reason::CheeksSqueeze),
        [0, 0, _] => Some(Reason::CheeksLoose),
        [1, 1, _] => Some(Reason::TightAllRound),
        [-1, -1, _] => Some(Reason::LooseAllRound),
        [1, -1, _] => Some(Reason::TooRound),
        [-1, 1, _] => Some(Reason::TooOval),
        [1, _, _] => Some(Reason::BrowRearPress),
        [-1, _, _] => Some(Reason::LooseFrontToBack),
        [_, 1, _] => Some(Reason::TemplesPress),
        _ => Some(Reason::LooseSides),
    }
}

/// Every set of pads for a size: the standard thickness of each zone or one on offer for the size. The crown stays.
pub(super) fn sets(shell: &Shell, size: &Size) -> Vec<ByZone<Option<f64>>> {
    let on_offer = |zone: Zone| {
        let offered = shell.pads.iter().filter(|pad| pad.zone == zone);
        let offered = offered.filter(|pad| pad.sizes.as_ref().is_none_or(|sizes| sizes.contains(&size.label)));
        let Some(standard) = *size.standard.get(zone) else { return vec![None] };
        let all = offered.map(|pad| pad.thickness).chain([standard]).sorted_by(f64::total_cmp);
        all.dedup_by(|a, b| (a - b).abs() < 1e-9).map(Some).collect_vec()
    };
    let [brow, rear, sides, cheeks] = [Zone::Brow, Zone::Rear, Zone::Sides, Zone::Cheeks].map(on_offer);
    iproduct!(brow, rear, sides, cheeks)
        .map(|(brow, rear, sides, cheeks)| {
            ByZone::from_fn(|zone| match zone {
                Zone::Brow => brow,
                Zone::Rear => rear,
                Zone::Sides => sides,
                Zone::Cheeks => cheeks,
                Zone::Crown => *size.standard.get(Zone::Crown),
            })
        })
        .collect()
}
