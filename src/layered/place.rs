//! How far to the right every cell is: close to its neighbours in other rows, and clear of those in its own.

use super::Spacing;
use super::rows::{Content, Rows};
use itertools::Itertools;
use std::collections::HashMap;

/// Rounds over all rows, down and up in turn.
const ROUNDS: usize = 40;

/// Passes that straighten lines: each may make room for others.
const STRAIGHTENINGS: usize = 4;

/// Where everything stands from left to right.
pub(super) struct Across {
    /// Middles of the cells.
    pub(super) middle: Vec<f64>,
    /// The lines from row to row, chain by chain.
    pub(super) links: Vec<Link>,
}

/// A line from a cell to one in the row below.
pub(super) struct Link {
    pub(super) upper: usize,
    pub(super) lower: usize,
    /// How far right of the upper cell's middle it begins.
    pub(super) begins: f64,
    /// How far right of the lower cell's middle it ends.
    pub(super) ends: f64,
}

impl Link {
    /// Where it begins, from the left.
    pub(super) fn top(&self, across: &Across) -> f64 {
        across.middle[self.upper] + self.begins
    }

    /// Where it ends, from the left.
    pub(super) fn bottom(&self, across: &Across) -> f64 {
        across.middle[self.lower] + self.ends
    }
}

/// Places all cells, keeping the order of the rows and the distances.
///
/// Lines should be short sideways, above all where a line only passes through: the squares of the distances are added
/// up, with more weight on bends (the weights of Gansner, Koutsofios, North and Vo 1993). Row by row the sum is made as
/// small as it gets with the other rows held still; for one row that is isotonic regression.
pub(super) fn across(rows: &Rows, spacing: &Spacing) -> Across {
    let mut across = Across { middle: vec![0.0; rows.cells.len()], links: links(rows, spacing) };
    let mut of_cell = vec![Vec::new(); rows.cells.len()];
    for (at, link) in across.links.iter().enumerate() {
        of_cell[link.upper].push(at);
        of_cell[link.lower].push(at);
    }
    let count = rows.rows.len();
    for round in 0..ROUNDS {
        for step in 0..count {
            let row = if round % 2 == 0 { step } else { count - 1 - step };
            across.settle(&rows.rows[row], rows, &of_cell, spacing);
        }
    }
    for _ in 0..STRAIGHTENINGS {
        across.straighten(rows, spacing);
    }
    let left = (0..rows.cells.len()).map(|cell| across.middle[cell] - rows.cells[cell].extent.width / 2.0);
    let left = left.fold(f64::INFINITY, f64::min);
    across.middle.iter_mut().for_each(|middle| *middle -= left);
    across
}

impl Across {
    /// Puts the cells of one row where they are best off, given the others.
    fn settle(&mut self, row: &[usize], rows: &Rows, of_cell: &[Vec<usize>], spacing: &Spacing) {
        // Measured from where each cell would stand if all stood as far left as they may, the order alone counts.
        let steps = row.iter().tuple_windows().map(|(left, right)| distance(rows, *left, *right, spacing));
        let leftmost = std::iter::once(0.0).chain(steps).scan(0.0, |sum, step| {
            *sum += step;
            Some(*sum)
        });
        let leftmost = leftmost.collect_vec();
        let wishes = row.iter().zip(&leftmost).map(|(cell, leftmost)| {
            let (wish, weight) = self.wish(*cell, rows, &of_cell[*cell]);
            (wish - leftmost, weight)
        });
        let settled = isotonic(wishes.collect_vec());
        for ((cell, leftmost), settled) in row.iter().zip(leftmost).zip(settled) {
            self.middle[*cell] = settled + leftmost;
        }
    }

    /// Makes every line go straight down as far as the others let it: from where it begins, and from each place where it
    /// has to give way.
    fn straighten(&mut self, rows: &Rows, spacing: &Spacing) {
        let places = rows.places();
        let mut first = 0;
        for chain in rows.chains.iter().filter(|chain| !chain.is_empty()) {
            let mut here = self.middle[chain[0]] + self.links[first].begins;
            let inner = &chain[1..chain.len() - 1];
            let rooms = inner.iter().map(|cell| self.room(*cell, rows, &places, spacing)).collect_vec();
            for (at, cell) in inner.iter().enumerate() {
                let (least, most) = rooms[at];
                if !(least..=most).contains(&here) {
                    here = here.clamp(least, most.max(least));
                    here = held(here, &rooms[at..]);
                }
                self.middle[*cell] = here;
            }
            first += chain.len() - 1;
        }
    }

    /// Between which places a cell can move.
    fn room(&self, cell: usize, rows: &Rows, places: &[usize], spacing: &Spacing) -> (f64, f64) {
        let row = &rows.rows[rows.cells[cell].row];
        let at = places[cell];
        let left = at.checked_sub(1).map(|at| row[at]);
        let least = left.map(|left| self.middle[left] + distance(rows, left, cell, spacing));
        let right = row.get(at + 1);
        let most = right.map(|right| self.middle[*right] - distance(rows, cell, *right, spacing));
        (least.unwrap_or(f64::NEG_INFINITY), most.unwrap_or(f64::INFINITY))
    }

    /// Where a cell would stand if it had its row for itself, and how much that counts.
    fn wish(&self, cell: usize, rows: &Rows, links: &[usize]) -> (f64, f64) {
        let (mut sum, mut total) = (0.0, 0.0);
        for link in links.iter().map(|at| &self.links[*at]) {
            let place = if link.upper == cell {
                self.middle[link.lower] + link.ends - link.begins
            } else {
                self.middle[link.upper] + link.begins - link.ends
            };
            let weight = weight([link.upper, link.lower].map(|cell| rows.cells[cell].content));
            sum += weight * place;
            total += weight;
        }
        // A node without lines stays, but not at the price of others.
        if total > 0.0 { (sum / total, total) } else { (self.middle[cell], 1e-3) }
    }
}

/// The place nearest to this one that lies in the first of these rooms and in as many of the following as possible.
fn held(here: f64, rooms: &[(f64, f64)]) -> f64 {
    let (mut least, mut most) = (f64::NEG_INFINITY, f64::INFINITY);
    for room in rooms {
        let (next_least, next_most) = (least.max(room.0), most.min(room.1));
        if next_least > next_most {
            break;
        }
        (least, most) = (next_least, next_most);
    }
    here.clamp(least, most)
}

/// Numbers that don't fall, with the least sum of weighted squares from the given ones: neighbours that are in each
/// other's way are pooled and move as one (Ayer, Brunk, Ewing, Reid and Silverman 1955).
fn isotonic(numbers: Vec<(f64, f64)>) -> Vec<f64> {
    let mut pools: Vec<(f64, f64, usize)> = Vec::new();
    for (number, weight) in numbers {
        let mut pool = (number, weight, 1);
        while let Some((mean, before, count)) = pools.pop_if(|(mean, ..)| *mean > pool.0) {
            let weight = before + pool.1;
            pool = ((mean * before + pool.0 * pool.1) / weight, weight, count + pool.2);
        }
        pools.push(pool);
    }
    pools.into_iter().flat_map(|(mean, _, count)| std::iter::repeat_n(mean, count)).collect()
}

/// The lines from row to row, spread over the edges of the nodes.
fn links(rows: &Rows, spacing: &Spacing) -> Vec<Link> {
    let places = rows.places();
    let ends = |chain: &Vec<usize>| chain.len().checked_sub(2).map(|inner| (chain[1], chain[inner]));
    let mut begins = vec![0.0; rows.chains.len()];
    let mut arrives = vec![0.0; rows.chains.len()];
    let lines = || rows.chains.iter().enumerate().filter_map(|(line, chain)| Some((line, chain, ends(chain)?)));
    let below = lines().map(|(line, chain, (second, _))| (chain[0], (places[second], line)));
    spread(rows, spacing, below.into_group_map(), &mut begins);
    let above = lines().map(|(line, chain, (_, last))| (chain[chain.len() - 1], (places[last], line)));
    spread(rows, spacing, above.into_group_map(), &mut arrives);
    let of_line = |(line, chain): (usize, &Vec<usize>)| {
        let last = chain.len().saturating_sub(2);
        let link = |(at, (upper, lower)): (usize, (&usize, &usize))| Link {
            upper: *upper,
            lower: *lower,
            begins: if at == 0 { begins[line] } else { 0.0 },
            ends: if at == last { arrives[line] } else { 0.0 },
        };
        chain.iter().tuple_windows().enumerate().map(link).collect_vec()
    };
    rows.chains.iter().enumerate().flat_map(of_line).collect()
}

/// Most distance between two lines on the edge of a node, in distances that are kept.
const WIDEST_PORTS: f64 = 2.0;

/// Spreads lines over the edge of each node in the order of where they come from or lead to.
fn spread(rows: &Rows, spacing: &Spacing, lines: HashMap<usize, Vec<(usize, usize)>>, ports: &mut [f64]) {
    for (node, mut lines) in lines {
        lines.sort_unstable();
        let count = lines.len() as f64;
        let step = (rows.width(node) / (count + 1.0)).min(WIDEST_PORTS * spacing.lines);
        for (rank, (_, line)) in lines.into_iter().enumerate() {
            ports[line] = rows.anchor(node) + (rank as f64 - (count - 1.0) / 2.0) * step;
        }
    }
}

/// Least distance between the middles of two cells side by side.
fn distance(rows: &Rows, left: usize, right: usize, spacing: &Spacing) -> f64 {
    let [left, right] = [left, right].map(|cell| rows.cells[cell]);
    let gap = match (left.content, right.content) {
        (Content::Node, Content::Node) => spacing.boxes,
        _ => spacing.lines,
    };
    (left.extent.width + right.extent.width) / 2.0 + gap
}

/// What it is worth that a line goes straight down from the one to the other.
fn weight(ends: [Content; 2]) -> f64 {
    if ends.contains(&Content::Node) { 2.0 } else { 8.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_in_its_way_is_pooled() {
        // By hand: 3 and 1 meet at their weighted mean 1.5; 0 pulls all three to 1.2; 5 is in nobody's way.
        let pooled = isotonic(vec![(3.0, 1.0), (1.0, 3.0), (0.0, 1.0), (5.0, 1.0)]);
        let expected = [1.2, 1.2, 1.2, 5.0];
        assert!(pooled.iter().zip(expected).all(|(is, wanted)| (is - wanted).abs() < 1e-12), "{pooled:?}");
    }
}
