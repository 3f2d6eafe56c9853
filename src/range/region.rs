//! Regions of heads: from, to, in circumference, shape index and face width.

use crate::head::{Dimensions, shape_index};
use itertools::iproduct;
use std::ops::Range;

/// Heads between two circumferences, two shape indices and two face widths; an end may be open.
#[derive(Debug, Clone, PartialEq)]
pub struct Region {
    /// Bounds of circumference (mm), shape index and face width (mm), by step of the grid: from, to (not included).
    steps: [Range<usize>; 3],
}

/// One measure in equal steps; the outermost ones take what lies beyond.
struct Ruler {
    start: f64,
    step: f64,
    count: usize,
}

/// Circumference by centimetres, shape index by points, face width by two millimetres.
const RULERS: [Ruler; 3] = [
    Ruler { start: 480.0, step: 10.0, count: 20 },
    Ruler { start: 64.0, step: 1.0, count: 32 },
    Ruler { start: 112.0, step: 2.0, count: 32 },
];

/// Heads on a grid, and those of them that fit nothing.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    /// By step of circumference, index and face width: all heads, and those that fit nothing.
    cells: Vec<(u64, u64)>,
    heads: u64,
}

/// A region in fewer words is as good when it weighs at least this share of the heaviest.
const SIMPLER: f64 = 0.9;

impl Region {
    /// All heads.
    pub const EVERYBODY: Self = Self { steps: [0..RULERS[0].count, 0..RULERS[1].count, 0..RULERS[2].count] };

    /// From and to in mm of circumference; `None` where the end is open.
    #[must_use]
    pub fn circumference(&self) -> [Option<f64>; 2] {
        self.bounds(0)
    }

    /// From and to as shape index; `None` where the end is open.
    #[must_use]
    pub fn shape_index(&self) -> [Option<f64>; 2] {
        self.bounds(1)
    }

    /// From and to in mm of face width; `None` where the end is open.
    #[must_use]
    pub fn face_width(&self) -> [Option<f64>; 2] {
        self.bounds(2)
    }

    /// Whether a head lies in it.
    #[must_use]
    pub fn holds(&self, head: &Dimensions) -> bool {
        self.steps.iter().zip(steps(head)).all(|(steps, step)| steps.contains(&step))
    }

    fn bounds(&self, ruler: usize) -> [Option<f64>; 2] {
        let Ruler { start, step, count } = RULERS[ruler];
        #[expect(clippy::cast_precision_loss, reason = "a few dozen")]
        let at = |steps: usize| Some(start + step * steps as f64).filter(|_| steps > 0 && steps < count);
        [at(self.steps[ruler].start), at(self.steps[ruler].end)]
    }
}

impl Grid {
    /// Heads, each with whether something fits it.
    pub(super) fn of(heads: impl Iterator<Item = (Dimensions, bool)>) -> Self {
        let cells = RULERS.iter().map(|ruler| ruler.count).product();
        let mut grid = Self { cells: vec![(0, 0); cells], heads: 0 };
        for (head, is_served) in heads {
            let cell = &mut grid.cells[place(steps(&head))];
            cell.0 += 1;
            cell.1 += u64::from(!is_served);
            grid.heads += 1;
        }
        grid
    }

    /// How many heads it was made of.
    pub(super) fn heads(&self) -> u64 {
        self.heads
    }

    /// Heads in a region, and those of them that fit nothing.
    pub(super) fn counts(&self, region: &Region) -> (u64, u64) {
        let cells = places(region).map(|place| self.cells[place]);
        cells.fold((0, 0), |(all, lost), cell| (all + cell.0, lost + cell.1))
    }

    /// Forgets the heads of a region.
    pub(super) fn clear(&mut self, region: &Region) {
        places(region).for_each(|place| self.cells[place] = (0, 0));
    }

    /// The region in which most heads fit nothing, heads that something fits counting against it: the lost ones less the
    /// share `from` of all of them, at most. (The box of greatest weight, exactly; the fewest words of nearly the same
    /// weight.) `None` where no region loses such a share.
    ///
    /// Cost: the pairs of steps on two axes, times the steps of the third.
    pub(super) fn heaviest(&self, from: f64) -> Option<Region> {
        let [rows, columns, depth] = [0, 1, 2].map(|ruler| RULERS[ruler].count);
        let mut best: Option<(f64, Region)> = None;
        for first in 0..rows {
            // Sums over the rows from the first one, by column and depth.
            let mut layer = vec![0.0; columns * depth];
            for last in first..rows {
                for (sum, place) in layer.iter_mut().zip(last * columns * depth..) {
                    *sum += self.weight(place, from);
                }
                for left in 0..columns {
                    let mut line = vec![0.0; depth];
                    for right in left..columns {
                        for (sum, weight) in line.iter_mut().zip(&layer[right * depth..]) {
                            *sum += weight;
                        }
                        let (weight, stretch) = heaviest_stretch(&line);
                        if weight > best.as_ref().map_or(0.0, |(known, _)| *known) {
                            best = Some((weight, Region { steps: [first..last + 1, left..right + 1, stretch] }));
                        }
                    }
                }
            }
        }
        best.map(|(weight, region)| self.simpler(region, from, SIMPLER * weight))
    }

    /// Opens every end that may be opened while the region weighs enough.
    fn simpler(&self, mut region: Region, from: f64, enough: f64) -> Region {
        for ruler in [2, 1, 0] {
            let count = RULERS[ruler].count;
            let Range { start, end } = region.steps[ruler].clone();
            for steps in [0..count, 0..end, start..count] {
                let mut wider = region.clone();
                wider.steps[ruler] = steps;
                if places(&wider).map(|place| self.weight(place, from)).sum::<f64>() >= enough {
                    region = wider;
                    break;
                }
            }
        }
        region
    }

    #[expect(clippy::cast_precision_loss, reason = "counts far below 2⁵²")]
    fn weight(&self, place: usize, from: f64) -> f64 {
        let (all, lost) = self.cells[place];
        lost as f64 - from * all as f64
    }
}

/// The stretch with the greatest sum (Kadane's algorithm: Bentley 1984), the first of equal ones.
fn heaviest_stretch(line: &[f64]) -> (f64, Range<usize>) {
    let mut best = (0.0, 0..0);
    let mut current = (0.0, 0);
    for (at, weight) in line.iter().enumerate() {
        if current.0 <= 0.0 {
            current = (0.0, at);
        }
        current.0 += weight;
        if current.0 > best.0 {
            best = (current.0, current.1..at + 1);
        }
    }
    best
}

fn steps(head: &Dimensions) -> [usize; 3] {
    let values = [head.circumference, shape_index(head.length, head.breadth), head.face_width];
    [0, 1, 2].map(|ruler| RULERS[ruler].step(values[ruler]))
}

impl Ruler {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "what is too small ends in the first step"
    )]
    fn step(&self, value: f64) -> usize {
        (((value - self.start) / self.step) as usize).min(self.count - 1)
    }
}

fn place([row, column, depth]: [usize; 3]) -> usize {
    (row * RULERS[1].count + column) * RULERS[2].count + depth
}

fn places(region: &Region) -> impl Iterator<Item = usize> + use<> {
    let [rows, columns, depth] = region.steps.clone();
    iproduct!(rows, columns, depth).map(|(row, column, depth)| place([row, column, depth]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_heaviest_stretch_of_a_textbook() {
        // Bentley, Programming Pearls (1984): 31 -41 59 26 -53 58 97 -93 -23 84; the best is 187 (from memory).
        let line = [31.0, -41.0, 59.0, 26.0, -53.0, 58.0, 97.0, -93.0, -23.0, 84.0];
        assert_eq!(heaviest_stretch(&line), (187.0, 2..7));
        assert_eq!(heaviest_stretch(&[-1.0, -2.0]), (0.0, 0..0), "nothing is better than a loss");
    }

    fn head(circumference: f64, index: f64, face_width: f64) -> Dimensions {
        Dimensions { circumference, length: 200.0, breadth: 2.0 * index, face_width }
    }

    /// Heads in the middle of every cell, one each.
    fn everywhere() -> impl Iterator<Item = Dimensions> {
        let middles = |ruler: &'static Ruler| {
            (0..ruler.count).map(|at| ruler.start + ruler.step * (f64::from(u32::try_from(at).unwrap()) + 0.5))
        };
        iproduct!(middles(&RULERS[0]), middles(&RULERS[1]), middles(&RULERS[2])).map(|(c, i, w)| head(c, i, w))
    }

    #[test]
    fn a_planted_gap_is_found_in_the_fewest_words() {
        let is_lost = |head: &Dimensions| head.circumference > 610.0 && shape_index(head.length, head.breadth) > 82.0;
        let mut grid = Grid::of(everywhere().map(|head| (head, !is_lost(&head))));
        let region = grid.heaviest(0.5).unwrap();
        assert_eq!(region.circumference(), [Some(610.0), None]);
        assert_eq!(region.shape_index(), [Some(82.0), None]);
        assert_eq!(region.face_width(), [None, None]);
        let (all, lost) = grid.counts(&region);
        assert_eq!((all, lost), (7 * 14 * 32, 7 * 14 * 32));
        assert!(everywhere().all(|head| region.holds(&head) == is_lost(&head)));
        grid.clear(&region);
        assert_eq!(grid.heaviest(0.5), None, "nobody else goes without");
    }

    /// Against every box of a corner of the grid, weighed one by one.
    #[test]
    fn the_heaviest_box_is_that_of_a_plain_search() {
        let cells: Vec<_> = iproduct!(0..4_u32, 0..4_u32, 0..4_u32).collect();
        let heads = cells.iter().map(|&(c, i, w)| {
            let head = head(505.0 + 10.0 * f64::from(c), 70.5 + f64::from(i), 131.0 + 2.0 * f64::from(w));
            (head, (c * 7 + i * 5 + w * 3 + c * i * w) % 3 != 0)
        });
        let grid = Grid::of(heads);
        let weight = |region: &Region| {
            let (all, lost) = grid.counts(region);
            2 * i64::try_from(lost).unwrap() - i64::try_from(all).unwrap()
        };
        let stretches =
            |from: usize| iproduct!(0..4, 0..4).filter(|(a, b)| a <= b).map(move |(a, b)| from + a..from + b + 1);
        let boxes = iproduct!(stretches(2), stretches(6), stretches(9)).map(|(a, b, c)| Region { steps: [a, b, c] });
        let best = boxes.map(|region| weight(&region)).max().unwrap();
        let found = weight(&grid.heaviest(0.5).unwrap());
        assert!(best > 2 && found * 10 >= best * 9, "{found} of {best}: in fewer words a tenth may be lost");
    }
}
