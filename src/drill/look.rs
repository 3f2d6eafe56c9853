//! A head as it looks from above.

use super::Person;
use crate::head::Measure;
use std::f64::consts::TAU;

/// The outline of a head from above, as an eye takes it in: as large as the tape says, as broad as it seems.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Front to back, mm.
    pub length: f64,
    /// Side to side, mm.
    pub breadth: f64,
}

/// How full the outline is: |x/a|ⁿ + |y/b|ⁿ = 1 with this n; an ellipse has 2. Men's circumference is 1.029 of the ellipse's
/// perimeter (ANSUR II, docs/method.md, section 2), and this n has that perimeter.
const FULLNESS: f64 = 2.34;

/// Points of an outline that is measured.
const POINTS: u16 = 720;

impl Look {
    /// How a customer looks; `None` where nobody looks, or no tape was taken.
    #[must_use]
    pub fn of(person: &Person<'_>) -> Option<Self> {
        let tape = person.known.readings.iter().find(|read| read.measure == Measure::Circumference)?;
        Some(Self::new(tape.value, person.seen?))
    }

    /// The outline of this circumference, mm, with this shape index.
    #[must_use]
    pub fn new(circumference: f64, shape_index: f64) -> Self {
        let unit = Self { length: 1.0, breadth: shape_index / 100.0 };
        let length = circumference / unit.perimeter();
        Self { length, breadth: length * unit.breadth }
    }

    /// So many points of the outline, in order and back at the first: mm to the right of the left edge, and behind the brow.
    #[must_use]
    pub fn outline(&self, points: u16) -> Vec<[f64; 2]> {
        let point = |at: u16| {
            let (sin, cos) = (TAU * f64::from(at) / f64::from(points)).sin_cos();
            let full = |part: f64| part.signum() * part.abs().powf(2.0 / FULLNESS);
            [self.breadth / 2.0 * (1.0 + full(cos)), self.length / 2.0 * (1.0 - full(sin))]
        };
        (0..=points).map(point).collect()
    }

    fn perimeter(&self) -> f64 {
        let points = self.outline(POINTS);
        points.windows(2).map(|pair| (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1])).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::head::ellipse_perimeter;
    use rstest::rstest;

    /// 1.0291: ANSUR II men (docs/method.md, section 2).
    #[rstest]
    fn the_outline_is_as_full_as_heads_are(#[values(72.0, 77.0, 84.0)] index: f64) {
        let unit = Look { length: 1.0, breadth: index / 100.0 };
        let ratio = unit.perimeter() / ellipse_perimeter(1.0, index / 100.0);
        assert!((ratio - 1.0291).abs() < 1e-3, "{ratio}");
    }

    #[rstest]
    fn the_outline_is_as_long_around_as_the_tape_says(#[values(520.0, 575.0, 640.0)] tape: f64) {
        let look = Look::new(tape, 78.0);
        assert!((look.perimeter() - tape).abs() < 1e-6 && (look.breadth / look.length - 0.78).abs() < 1e-9);
        let points = look.outline(400);
        let reach = |axis: usize| points.iter().map(|point| point[axis]).fold(0.0, f64::max);
        assert!((reach(0) - look.breadth).abs() < 1e-9 && (reach(1) - look.length).abs() < 1e-9);
        assert!(points.iter().flatten().all(|mm| *mm > -1e-9));
    }
}
