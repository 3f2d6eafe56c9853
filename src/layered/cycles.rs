//! Which lines are turned round, so that no way leads back to where it began.

use super::Line;

/// Passes over all nodes that look for a better place in the row of nodes.
const PASSES: usize = 8;

/// For each line whether it points up. Lines of a node to itself are not among them.
///
/// The nodes are put in a row in which little weight points backwards: sinks to the end, sources to the start, then the
/// node with the most weight leaving it more than reaching it (Eades, Lin and Smyth 1993). Then every node moves to where
/// it does best.
pub(super) fn turned(nodes: usize, lines: &[Line]) -> Vec<bool> {
    let weights = Weights::new(nodes, lines);
    let mut row = weights.greedy_row();
    for _ in 0..PASSES {
        if !weights.sift(&mut row) {
            break;
        }
    }
    let mut at = vec![0; nodes];
    row.iter().enumerate().for_each(|(place, node)| at[*node] = place);
    lines.iter().map(|line| at[line.from] > at[line.to]).collect()
}

/// What leads from each node to others, and back, summed up.
struct Weights {
    leaving: Vec<Vec<(usize, i64)>>,
    reaching: Vec<Vec<(usize, i64)>>,
}

impl Weights {
    fn new(nodes: usize, lines: &[Line]) -> Self {
        let mut weights = Self { leaving: vec![Vec::new(); nodes], reaching: vec![Vec::new(); nodes] };
        for line in lines.iter().filter(|line| line.from != line.to) {
            weights.leaving[line.from].push((line.to, i64::from(line.weight)));
            weights.reaching[line.to].push((line.from, i64::from(line.weight)));
        }
        weights
    }

    fn greedy_row(&self) -> Vec<usize> {
        let sum = |to: &Vec<(usize, i64)>| to.iter().map(|(_, weight)| weight).sum::<i64>();
        let mut leaving: Vec<i64> = self.leaving.iter().map(sum).collect();
        let mut reaching: Vec<i64> = self.reaching.iter().map(sum).collect();
        let mut left: Vec<usize> = (0..self.leaving.len()).collect();
        let (mut start, mut end) = (Vec::new(), Vec::new());
        while !left.is_empty() {
            // The last of the sinks goes to the end first, so that equals keep their order.
            let sink = left.iter().rposition(|node| leaving[*node] == 0 && reaching[*node] > 0);
            let best = || {
                let gain = |at: &usize| leaving[left[*at]] - reaching[left[*at]];
                let is_source = |at: &usize| reaching[left[*at]] == 0;
                (0..left.len()).rev().max_by_key(|at| (is_source(at), gain(at))).unwrap_or_default()
            };
            let node = left.remove(sink.unwrap_or_else(best));
            if sink.is_some() {
                end.push(node)
            } else {
                start.push(node)
            }
            self.leaving[node].iter().for_each(|(to, weight)| reaching[*to] -= weight);
            self.reaching[node].iter().for_each(|(from, weight)| leaving[*from] -= weight);
        }
        start.extend(end.into_iter().rev());
        start
    }

    /// Moves every node to where the least weight points backwards; says whether any moved.
    fn sift(&self, row: &mut Vec<usize>) -> bool {
        let mut has_moved = false;
        let mut pull = vec![0; row.len()];
        for node in 0..row.len() {
            let Some(here) = row.iter().position(|other| *other == node) else { continue };
            // What a step to the right, past a node, adds to the weight that points backwards.
            self.leaving[node].iter().for_each(|(to, weight)| pull[*to] += weight);
            self.reaching[node].iter().for_each(|(from, weight)| pull[*from] -= weight);
            let (mut best, mut there) = (0, here);
            let mut cost = 0;
            for place in here + 1..row.len() {
                cost += pull[row[place]];
                if cost < best {
                    (best, there) = (cost, place);
                }
            }
            cost = 0;
            for place in (0..here).rev() {
                cost -= pull[row[place]];
                if cost < best {
                    (best, there) = (cost, place);
                }
            }
            if there != here {
                row.remove(here);
                row.insert(there, node);
                has_moved = true;
            }
            self.leaving[node].iter().for_each(|(to, _)| pull[*to] = 0);
            self.reaching[node].iter().for_each(|(from, _)| pull[*from] = 0);
        }
        has_moved
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layered::Extent;
    use rstest::rstest;

    fn line((from, to, weight): (usize, usize, u32)) -> Line {
        Line { from, to, weight, label: Extent::default() }
    }

    #[rstest]
    #[case::nothing(&[], &[])]
    #[case::a_chain_the_wrong_way(&[(2, 1, 1), (1, 0, 1)], &[false, false])]
    #[case::a_cycle_of_two(&[(0, 1, 1), (1, 0, 3)], &[true, false])]
    #[case::itself(&[(1, 1, 1)], &[false])]
    // By hand: turning 2 -> 0 alone breaks both ways round.
    #[case::two_ways_round(&[(0, 1, 2), (1, 2, 2), (2, 0, 1), (0, 2, 1)], &[false, false, true, false])]
    fn the_least_weight_is_turned(#[case] lines: &[(usize, usize, u32)], #[case] expected: &[bool]) {
        let lines: Vec<Line> = lines.iter().copied().map(line).collect();
        assert_eq!(turned(3, &lines), expected);
    }
}
