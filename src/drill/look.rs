//! A head as it looks from above.

use super::Person;
use crate::head::{Contour, Measure};

/// The outline of a head from above, as an eye takes it in: as large as the tape says, as broad as it seems.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Front to back, mm.
    pub length: f64,
    /// Side to side, mm.
    pub breadth: f64,
}

/// How full the outline is: as full as men's heads are ([`Contour`]; ANSUR II, docs/method.md, section 2).
const FULLNESS: f64 = 2.34;

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
        let length = circumference / unit.contour().perimeter();
        Self { length, breadth: length * unit.breadth }
    }

    /// So many points of the outline, in order and back at the first: mm to the right of the left edge, and behind the brow.
    #[must_use]
    pub fn outline(&self, points: u16) -> Vec<[f64; 2]> {
        let points = self.contour().points(points);
        points.into_iter().map(|[x, y]| [self.breadth / 2.0 + x, self.length / 2.0 - y]).collect()
    }

    fn contour(&self) -> Contour {
        Contour { length: self.length, breadth: self.breadth, fullness: FULLNESS }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    fn the_outline_is_as_long_around_as_the_tape_says(#[values(520.0, 575.0, 640.0)] tape: f64) {
        let look = Look::new(tape, 78.0);
        assert!((look.contour().perimeter() - tape).abs() < 1e-6 && (look.breadth / look.length - 0.78).abs() < 1e-9);
        let points = look.outline(400);
        let reach = |axis: usize| points.iter().map(|point| point[axis]).fold(0.0, f64::max);
        assert!((reach(0) - look.breadth).abs() < 1e-9 && (reach(1) - look.length).abs() < 1e-9);
        assert!(points.iter().flatten().all(|mm| *mm > -1e-9));
    }
}
