//! The outline of a head, or of a helmet's inside, from above: a smooth closed curve.

use itertools::Itertools;
use std::f64::consts::{FRAC_PI_2, TAU};

/// The superellipse |2x/breadth|ⁿ + |2y/length|ⁿ = 1 (Lamé's curve); x to the right, y to the front, mm, (0, 0) in its middle.
///
/// With n = 2 it is an ellipse, with more it is fuller. A head that is 1.029 times as long around as its ellipse (ANSUR II men,
/// docs/method.md, section 2) has n = 2.34.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contour {
    /// Front to back, mm.
    pub length: f64,
    /// Side to side, mm.
    pub breadth: f64,
    /// The exponent n.
    pub fullness: f64,
}

/// The least full and the fullest curve that are drawn: around 0.95 and 1.17 times the ellipse, which no head comes near.
const LEAST: f64 = 1.5;
const MOST: f64 = 7.0;

/// Points of a quarter of the outline that is measured: good for 0.01 mm around a head.
const QUARTER: u16 = 96;

/// Halvings of the exponent's range: to 1e-9.
const HALVINGS: u32 = 32;

impl Contour {
    /// The curve of this length and breadth that is as long around as `circumference`, all in mm; where none is, the
    /// curve that comes nearest.
    #[must_use]
    pub fn through(length: f64, breadth: f64, circumference: f64) -> Self {
        let (mut low, mut high) = (LEAST, MOST);
        for _ in 0..HALVINGS {
            let fullness = f64::midpoint(low, high);
            let is_too_short = Self { length, breadth, fullness }.perimeter() < circumference;
            *(if is_too_short { &mut low } else { &mut high }) = fullness;
        }
        Self { length, breadth, fullness: f64::midpoint(low, high) }
    }

    /// The same curve with another length and breadth, mm; of nothing where they are below 0.
    #[must_use]
    pub fn sized(self, length: f64, breadth: f64) -> Self {
        Self { length: length.max(0.0), breadth: breadth.max(0.0), ..self }
    }

    /// The length of the whole curve, mm.
    #[must_use]
    pub fn perimeter(self) -> f64 {
        let points = (0..=QUARTER).map(|at| self.point(FRAC_PI_2 * f64::from(at) / f64::from(QUARTER)));
        4.0 * points.tuple_windows().map(|(from, to)| (to[0] - from[0]).hypot(to[1] - from[1])).sum::<f64>()
    }

    /// The point at an angle: 0 at the right, a quarter turn at the front.
    #[must_use]
    pub fn point(self, angle: f64) -> [f64; 2] {
        let (sin, cos) = angle.sin_cos();
        let full = |part: f64| part.signum() * part.abs().powf(2.0 / self.fullness);
        [self.breadth / 2.0 * full(cos), self.length / 2.0 * full(sin)]
    }

    /// So many steps around, from the right over the front; the last point is the first once more.
    #[must_use]
    pub fn points(self, steps: u16) -> Vec<[f64; 2]> {
        (0..=steps).map(|at| self.point(TAU * f64::from(at) / f64::from(steps))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::head::ellipse_perimeter;
    use rstest::rstest;

    #[rstest]
    #[case(574.4, 199.5, 154.3)]
    #[case(520.0, 176.0, 143.0)]
    #[case(640.0, 221.0, 168.0)]
    fn the_curve_goes_through_all_three_measures(
        #[case] circumference: f64,
        #[case] length: f64,
        #[case] breadth: f64,
    ) {
        let contour = Contour::through(length, breadth, circumference);
        assert!((contour.perimeter() - circumference).abs() < 1e-6, "{contour:?}");
        let points = contour.points(720);
        let reach = |axis: usize| points.iter().map(|point| point[axis]).fold(0.0, f64::max);
        assert!((2.0 * reach(0) - breadth).abs() < 1e-9 && (2.0 * reach(1) - length).abs() < 1e-9);
        assert_eq!(points.len(), 721);
    }

    /// 1.0291: ANSUR II men (docs/method.md, section 2).
    #[rstest]
    fn a_head_as_full_as_heads_are_has_an_exponent_of_2_34(#[values(72.0, 77.0, 84.0)] index: f64) {
        let ellipse = ellipse_perimeter(200.0, 2.0 * index);
        let contour = Contour::through(200.0, 2.0 * index, 1.0291 * ellipse);
        assert!((contour.fullness - 2.34).abs() < 0.01, "{contour:?}");
        // With n = 2 it is the ellipse, whose perimeter is known another way.
        let round = Contour { fullness: 2.0, ..contour };
        assert!((round.perimeter() - ellipse).abs() < 0.02, "{}", round.perimeter() - ellipse);
    }

    /// The area 4ab Γ(1 + 1/n)² / Γ(1 + 2/n) (Dirichlet's integral; DLMF 5.14.1 with two variables), by a library's Γ; and
    /// the perimeter 7.0177 of the curve x⁴ + y⁴ = 1 (from memory).
    #[rstest]
    fn the_curve_is_the_superellipse_of_the_books(#[values(1.5, 2.0, 2.34, 4.0, 7.0)] fullness: f64) {
        use statrs::function::gamma::gamma;
        let contour = Contour { length: 200.0, breadth: 150.0, fullness };
        let points = contour.points(2000);
        let area: f64 =
            points.windows(2).map(|pair| pair[0][0] * pair[1][1] - pair[1][0] * pair[0][1]).sum::<f64>() / 2.0;
        let known = 4.0 * 100.0 * 75.0 * gamma(1.0 + 1.0 / fullness).powi(2) / gamma(1.0 + 2.0 / fullness);
        assert!((area / known - 1.0).abs() < 1e-4, "{area} {known}");
        let squircle = Contour { length: 2.0, breadth: 2.0, fullness: 4.0 };
        assert!((squircle.perimeter() - 7.0177).abs() < 2e-4, "{}", squircle.perimeter());
    }

    #[rstest]
    #[case(300.0, LEAST)]
    #[case(900.0, MOST)]
    fn what_no_curve_does_is_come_near(#[case] circumference: f64, #[case] fullness: f64) {
        let contour = Contour::through(197.0, 152.0, circumference);
        assert!((contour.fullness - fullness).abs() < 1e-6, "{contour:?}");
        assert!(contour.points(90).iter().flatten().all(|mm| mm.is_finite()));
    }

    #[test]
    fn the_front_is_a_quarter_turn_from_the_right() {
        let contour = Contour { length: 200.0, breadth: 150.0, fullness: 2.3 };
        let [right, front] = [0.0, FRAC_PI_2].map(|angle| contour.point(angle));
        assert!((right[0] - 75.0).abs() < 1e-9 && right[1].abs() < 1e-9 && (front[1] - 100.0).abs() < 1e-9);
    }
}
