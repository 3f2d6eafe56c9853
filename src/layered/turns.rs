//! At which height lines go sideways between two rows, so that those that go the same way side by side don't run into
//! each other.

use super::Spacing;
use super::place::{Across, Link};
use super::rows::Rows;
use itertools::Itertools;

/// Vertical distance between two lines that go sideways, as a share of the distance of lines.
const STEP: f64 = 0.7;

/// Where the lines turn.
pub(super) struct Turns {
    /// For each link how far below the upper row its turn begins, and how far above the lower row it ends.
    pub(super) trims: Vec<(f64, f64)>,
    /// For each row the height that all turns below it need besides that of a single one.
    pub(super) heights: Vec<f64>,
}

impl Turns {
    /// A line that goes to the left turns before its neighbour at the right does, and the other way round: neither has to
    /// cross the other.
    pub(super) fn new(rows: &Rows, across: &Across, spacing: &Spacing) -> Self {
        let trims = vec![(spacing.straight, spacing.straight); across.links.len()];
        let mut turns = Self { trims, heights: vec![0.0; rows.rows.len()] };
        let by_row = across.links.iter().enumerate().into_group_map_by(|(_, link)| rows.cells[link.upper].row);
        for (row, links) in by_row.into_iter().sorted_by_key(|(row, _)| *row) {
            for direction in [-1.0, 1.0] {
                turns.stagger(row, &links, direction, across, spacing);
            }
        }
        turns
    }

    /// Spreads the turns of the lines that go one way.
    fn stagger(&mut self, row: usize, links: &[(usize, &Link)], direction: f64, across: &Across, spacing: &Spacing) {
        // Seen in a mirror where they go to the right, all lines go to the left.
        let ends = |link: &Link| (-direction * link.top(across), -direction * link.bottom(across));
        let goes_far = |link: &Link| ends(link).0 - ends(link).1 > 2.0 * spacing.lines;
        let far = links.iter().filter(|(_, link)| goes_far(link)).map(|(at, link)| (*at, ends(link)));
        let sorted = far.sorted_by(|(a, x), (b, y)| x.0.total_cmp(&y.0).then(x.1.total_cmp(&y.1)).then(a.cmp(b)));
        let mut groups: Vec<Vec<usize>> = Vec::new();
        let mut right = f64::NEG_INFINITY;
        for (at, (begin, end)) in sorted {
            match groups.last_mut().filter(|_| end < right + spacing.lines) {
                Some(group) => group.push(at),
                None => groups.push(vec![at]),
            }
            right = begin;
        }
        let step = STEP * spacing.lines;
        for group in groups {
            let most = (group.len() - 1) as f64 * step;
            self.heights[row] = self.heights[row].max(most);
            for (level, at) in group.into_iter().enumerate() {
                let above = level as f64 * step;
                self.trims[at] = (spacing.straight + above, spacing.straight + most - above);
            }
        }
    }
}
