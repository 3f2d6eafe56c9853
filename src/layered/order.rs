//! The order within each row: the fewer lines cross, the better.

use super::rows::{Rows, Towards};
use itertools::Itertools;

/// Sweeps of a small drawing from each beginning; a large one gets fewer.
const MOST_SWEEPS: usize = 32;
const FEWEST_SWEEPS: usize = 4;

/// Sweeps times cells that are worth their time.
const EFFORT: usize = 40_000;

/// Passes of exchanging neighbours in one sweep.
const EXCHANGES: usize = 6;

/// Orders the cells of every row and returns how many crossings are left: never more than before.
///
/// Sweeps go down and up in turn; each puts the cells of a row where the middle of their neighbours in the row before is
/// (Sugiyama, Tagawa and Toda 1981: the mean; Eades and Wormald 1994: the median), and then exchanges neighbours as long
/// as that saves crossings (Gansner, Koutsofios, North and Vo 1993). This is done from two beginnings, and the best order
/// of all is kept.
pub(super) fn order(rows: &mut Rows) -> usize {
    let sweeps = (EFFORT / rows.cells.len().max(1)).clamp(FEWEST_SWEEPS, MOST_SWEEPS);
    let mut best = (crossings(rows), rows.rows.clone());
    for beginning in [Towards::Bottom, Towards::Top] {
        rows.arrange(beginning);
        for sweep in 0..sweeps {
            if best.0 == 0 {
                break;
            }
            let is_along = sweep % 2 == 0;
            let towards = if is_along == (beginning == Towards::Bottom) { Towards::Bottom } else { Towards::Top };
            sort(rows, towards, if sweep % 4 < 2 { mean } else { median });
            exchange(rows);
            let crossings = crossings(rows);
            if crossings < best.0 {
                best = (crossings, rows.rows.clone());
            }
        }
    }
    rows.rows = best.1;
    best.0
}

/// How often lines between any two rows cross.
pub(super) fn crossings(rows: &Rows) -> usize {
    let places = rows.places();
    let between = |row: &Vec<usize>| {
        let ends = row.iter().flat_map(|cell| rows.below[*cell].iter().map(|below| places[*below]).sorted());
        inversions(&ends.collect_vec())
    };
    rows.rows.iter().map(between).sum()
}

/// Pairs that stand in the wrong order, counted by a tree of partial sums (Fenwick 1994).
fn inversions(numbers: &[usize]) -> usize {
    let most = numbers.iter().max().map_or(0, |most| most + 1);
    let mut tree = vec![0; most + 1];
    let mut count = 0;
    for (seen, number) in numbers.iter().enumerate() {
        let mut smaller_or_equal = 0;
        let mut at = number + 1;
        while at > 0 {
            smaller_or_equal += tree[at];
            at &= at - 1;
        }
        count += seen - smaller_or_equal;
        at = number + 1;
        while at <= most {
            tree[at] += 1;
            at += at & at.wrapping_neg();
        }
    }
    count
}

/// Puts every row into the order of the middles of its neighbours in the row before. Cells without any stay.
fn sort(rows: &mut Rows, towards: Towards, middle: fn(&[usize]) -> f64) {
    let mut places = rows.places();
    let count = rows.rows.len();
    for step in 1..count {
        let row = if towards == Towards::Bottom { step } else { count - 1 - step };
        let neighbours = if towards == Towards::Bottom { &rows.above } else { &rows.below };
        let wish = |cell: usize| {
            let at = neighbours[cell].iter().map(|other| places[*other]).sorted().collect_vec();
            (!at.is_empty()).then(|| middle(&at))
        };
        let wishes = rows.rows[row].iter().map(|cell| (wish(*cell), *cell)).collect_vec();
        let mut moving = wishes.iter().filter(|(wish, _)| wish.is_some()).copied().collect_vec();
        moving.sort_by(|(a, _), (b, _)| a.unwrap_or_default().total_cmp(&b.unwrap_or_default()));
        let mut moving = moving.into_iter();
        let place = |(wish, cell): (Option<f64>, usize)| match wish {
            Some(_) => moving.next().map_or(cell, |(_, next)| next),
            None => cell,
        };
        rows.rows[row] = wishes.into_iter().map(place).collect();
        rows.rows[row].iter().enumerate().for_each(|(place, cell)| places[*cell] = place);
    }
}

fn mean(sorted: &[usize]) -> f64 {
    sorted.iter().map(|place| *place as f64).sum::<f64>() / sorted.len() as f64
}

fn median(sorted: &[usize]) -> f64 {
    let half = sorted.len() / 2;
    if sorted.len() % 2 == 1 { sorted[half] as f64 } else { mean(&sorted[half - 1..=half]) }
}

/// Exchanges cells side by side as long as that saves crossings.
fn exchange(rows: &mut Rows) {
    let mut places = rows.places();
    for _ in 0..EXCHANGES {
        let mut has_gained = false;
        for row in 0..rows.rows.len() {
            for left in 1..rows.rows[row].len() {
                let [a, b] = [rows.rows[row][left - 1], rows.rows[row][left]];
                let count = |first: usize, second: usize| {
                    [&rows.above, &rows.below]
                        .iter()
                        .map(|neighbours| pair_crossings(&neighbours[first], &neighbours[second], &places))
                        .sum::<usize>()
                };
                if count(b, a) < count(a, b) {
                    rows.rows[row].swap(left - 1, left);
                    places.swap(a, b);
                    has_gained = true;
                }
            }
        }
        if !has_gained {
            break;
        }
    }
}

/// Crossings of the lines of two cells side by side, the first being at the left.
fn pair_crossings(first: &[usize], second: &[usize], places: &[usize]) -> usize {
    if let ([a], [b]) = (first, second) {
        return usize::from(places[*b] < places[*a]);
    }
    let [first, second] = [first, second].map(|cells| cells.iter().map(|cell| places[*cell]).sorted().collect_vec());
    let mut before = 0;
    let mut count = 0;
    for place in first {
        while before < second.len() && second[before] < place {
            before += 1;
        }
        count += before;
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case(&[], 0)]
    #[case(&[0, 1, 2], 0)]
    #[case(&[2, 1, 0], 3)]
    #[case(&[1, 0, 1, 0], 3)]
    #[case(&[4, 4, 0], 2)]
    fn inversions_are_pairs_in_the_wrong_order(#[case] numbers: &[usize], #[case] expected: usize) {
        assert_eq!(inversions(numbers), expected);
    }

    #[test]
    fn crossings_of_a_pair_are_counted_as_those_of_all() {
        let places = [0, 1, 2, 3, 4, 5];
        assert_eq!(pair_crossings(&[1, 4, 5], &[0, 1, 4], &places), 1 + 2 + 3);
        assert_eq!(pair_crossings(&[0], &[5], &places) + pair_crossings(&[5], &[0], &places), 1);
    }
}
