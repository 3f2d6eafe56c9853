//! Shape: the ellipse that a head's outline comes close to, and the room that a head takes in a helmet.

use super::Dimensions;
use std::f64::consts::PI;

/// How an outline relates to its ellipse. Both numbers are assumptions of the shop's file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outline {
    /// Circumference over the perimeter of the ellipse with axes length and breadth (κ).
    pub factor: f64,
    /// Share of the excess h = (C − κP)/π that counts on both axes (φ).
    pub excess_share: f64,
}

/// The room that a head takes between the pads, mm: length and breadth with the excess, and the face width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EffectiveHead {
    /// Length plus its share of the excess (`x_L`).
    pub length: f64,
    /// Breadth plus its share of the excess (`x_B`).
    pub breadth: f64,
    /// Face width as it is.
    pub face_width: f64,
}

impl Outline {
    /// The room that a head takes: hair and a full outline show in C but not in L and B, so the excess
    /// of C over the ellipse's perimeter is spread over both axes.
    #[must_use]
    pub fn effective(self, head: Dimensions) -> EffectiveHead {
        let excess = (head.circumference - self.factor * near_perimeter(head.length, head.breadth)) / PI;
        let share = self.excess_share * excess;
        EffectiveHead { length: head.length + share, breadth: head.breadth + share, face_width: head.face_width }
    }

    /// Length and breadth of the head of this circumference and shape index that has no excess.
    #[must_use]
    pub fn nominal(self, circumference: f64, shape_index: f64) -> (f64, f64) {
        let ratio = shape_index / 100.0;
        let length = circumference / (self.factor * near_perimeter(1.0, ratio));
        (length, length * ratio)
    }

    /// The circumference of the head of this length and breadth that has no excess.
    #[must_use]
    pub fn circumference(self, length: f64, breadth: f64) -> f64 {
        self.factor * ellipse_perimeter(length, breadth)
    }
}

/// Shape index, 100 × breadth / length: on a head the cephalic index, inside a helmet the interior's.
#[must_use]
pub fn shape_index(length: f64, breadth: f64) -> f64 {
    100.0 * breadth / length
}

/// Perimeter of the ellipse with these two axes (full axes, not half), in their unit; 0 and more.
///
/// By the arithmetic-geometric mean (Gauss; see NIST DLMF 19.8.6), to about 1e-15 of its value for every
/// ratio of the axes. A flat ellipse (one axis 0) has twice the other axis.
#[must_use]
pub fn ellipse_perimeter(axis_one: f64, axis_two: f64) -> f64 {
    let (long, short) = (axis_one.max(axis_two) / 2.0, axis_one.min(axis_two) / 2.0);
    if short <= 0.0 {
        return 4.0 * long.max(0.0);
    }
    let (mut a, mut g) = (long, short);
    let mut c = (long * long - short * short).max(0.0).sqrt();
    let mut weight = 0.5;
    let mut sum = weight * c * c;
    // The means close in quadratically: one more round after 1e-9 is exact, and they need never meet to the last bit.
    while c > 1e-9 * a {
        let next = f64::midpoint(a, g);
        c = (a - g) / 2.0;
        g = (a * g).sqrt();
        a = next;
        weight *= 2.0;
        sum += weight * c * c;
    }
    2.0 * PI * (long * long - sum) / a
}

/// The same perimeter by Ramanujan's second formula (1914), for the inner loops: two divisions and a
/// square root. Its relative error is about (3/2¹⁷) h⁵ with h the square of (a − b)/(a + b): below 1e-10
/// for every ratio of axes over 0.55, below 1e-13 for heads.
fn near_perimeter(axis_one: f64, axis_two: f64) -> f64 {
    let sum = axis_one + axis_two;
    let relative = (axis_one - axis_two) / sum;
    let h3 = 3.0 * relative * relative;
    PI / 2.0 * sum * (1.0 + h3 / (10.0 + (4.0 - h3).sqrt()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(0.60)]
    #[case(0.78)]
    #[case(1.0)]
    #[case(1.5)]
    fn the_fast_perimeter_is_the_exact_one(#[case] ratio: f64) {
        let exact = ellipse_perimeter(190.0, 190.0 * ratio);
        assert!((near_perimeter(190.0, 190.0 * ratio) / exact - 1.0).abs() < 1e-10);
    }

    #[test]
    fn a_circle_and_a_flat_ellipse() {
        assert!((ellipse_perimeter(2.0, 2.0) - 2.0 * PI).abs() < 1e-14);
        assert!((ellipse_perimeter(3.0, 0.0) - 6.0).abs() < 1e-14);
    }

    #[test]
    fn a_nominal_head_has_its_circumference_and_no_excess() {
        let outline = Outline { factor: 1.03, excess_share: 0.5 };
        let (length, breadth) = outline.nominal(575.0, 78.0);
        assert!((outline.circumference(length, breadth) - 575.0).abs() < 1e-9);
        let head = Dimensions { circumference: 575.0, length, breadth, face_width: 140.0 };
        assert!((outline.effective(head).length - length).abs() < 1e-9);
    }
}
