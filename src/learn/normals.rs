//! Small matrices: the inverse of a covariance.

/// A square matrix, row by row.
pub(super) type Matrix = Vec<Vec<f64>>;

/// Inverse and log determinant of a symmetric positive definite matrix (Gauss-Jordan; no pivoting is needed). `None`
/// where it isn't positive definite.
pub(super) fn inverse(matrix: &Matrix) -> Option<(Matrix, f64)> {
    let n = matrix.len();
    let mut left = matrix.clone();
    let mut right: Matrix = (0..n).map(|i| (0..n).map(|j| if i == j { 1.0 } else { 0.0 }).collect()).collect();
    let mut log_determinant = 0.0;
    for k in 0..n {
        let pivot = left[k][k];
        if pivot.is_nan() || pivot <= 0.0 {
            return None;
        }
        log_determinant += pivot.ln();
        left[k].iter_mut().chain(&mut right[k]).for_each(|x| *x /= pivot);
        let (row_left, row_right) = (left[k].clone(), right[k].clone());
        for i in (0..n).filter(|i| *i != k) {
            let factor = left[i][k];
            left[i].iter_mut().zip(&row_left).for_each(|(x, y)| *x -= factor * y);
            right[i].iter_mut().zip(&row_right).for_each(|(x, y)| *x -= factor * y);
        }
    }
    Some((right, log_determinant))
}

/// Matrix times vector.
pub(super) fn times(matrix: &Matrix, vector: &[f64]) -> Vec<f64> {
    matrix.iter().map(|row| row.iter().zip(vector).map(|(a, b)| a * b).sum()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inverse_undoes_and_a_singular_matrix_has_none() {
        let matrix = vec![vec![4.0, 1.0, 0.5], vec![1.0, 3.0, -0.2], vec![0.5, -0.2, 2.0]];
        let (inverse, log_determinant) = inverse(&matrix).unwrap();
        let back = times(&inverse, &times(&matrix, &[1.0, -2.0, 3.0]));
        assert!(back.iter().zip([1.0, -2.0, 3.0]).all(|(a, b)| (a - b).abs() < 1e-12), "{back:?}");
        // By hand, along the first row: 4 (6 - 0.04) - 1 (2 + 0.1) + 0.5 (-0.2 - 1.5).
        assert!((log_determinant - (4.0 * 5.96 - 2.1 - 0.85_f64).ln()).abs() < 1e-12);
        assert!(super::inverse(&vec![vec![1.0, 1.0], vec![1.0, 1.0]]).is_none());
    }
}
