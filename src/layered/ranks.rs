//! Which row each node stands in.

use super::{Extent, Line, Spacing};

/// A row for each node, the top one being 0: every line that isn't a node's own goes down when it is turned where it has
/// to be. Nodes without lines to others stand in rows of their own below the rest.
pub(super) fn ranks(nodes: &[Extent], lines: &[Line], turned: &[bool], spacing: &Spacing) -> Vec<usize> {
    let down: Vec<Down> = lines.iter().zip(turned).filter(|(line, _)| line.from != line.to).map(Down::new).collect();
    let mut ranks = Links::new(nodes.len(), &down).longest_ways();
    Links::new(nodes.len(), &down).shorten(&mut ranks);
    let mut has_lines = vec![false; nodes.len()];
    down.iter().for_each(|line| [line.above, line.below].into_iter().for_each(|node| has_lines[node] = true));
    put_below(nodes, &has_lines, &mut ranks, spacing);
    ranks
}

/// A line as it points when it points down.
struct Down {
    above: usize,
    below: usize,
    weight: i64,
}

impl Down {
    fn new((line, is_turned): (&Line, &bool)) -> Self {
        let (above, below) = if *is_turned { (line.to, line.from) } else { (line.from, line.to) };
        Self { above, below, weight: i64::from(line.weight.max(1)) }
    }
}

struct Links<'a> {
    above: Vec<Vec<&'a Down>>,
    below: Vec<Vec<&'a Down>>,
}

impl<'a> Links<'a> {
    fn new(nodes: usize, down: &'a [Down]) -> Self {
        let mut links = Self { above: vec![Vec::new(); nodes], below: vec![Vec::new(); nodes] };
        for line in down {
            links.above[line.below].push(line);
            links.below[line.above].push(line);
        }
        links
    }

    /// As far up as every node can stand.
    fn longest_ways(&self) -> Vec<usize> {
        let mut ranks = vec![0; self.above.len()];
        let mut waiting: Vec<usize> = self.above.iter().map(Vec::len).collect();
        let mut ready: Vec<usize> = (0..waiting.len()).filter(|node| waiting[*node] == 0).collect();
        while let Some(node) = ready.pop() {
            for line in &self.below[node] {
                ranks[line.below] = ranks[line.below].max(ranks[node] + 1);
                waiting[line.below] -= 1;
                if waiting[line.below] == 0 {
                    ready.push(line.below);
                }
            }
        }
        ranks
    }

    /// Moves nodes, and what hangs together with them without slack, as long as lines get shorter by it.
    fn shorten(&self, ranks: &mut [usize]) {
        // Every move shortens the lines by at least one row, and there are not that many of them.
        for _ in 0..ranks.len() {
            let mut has_moved = false;
            for node in 0..ranks.len() {
                let pull = |lines: &[&Down]| lines.iter().map(|line| line.weight).sum::<i64>();
                let (up, down) = (pull(&self.above[node]), pull(&self.below[node]));
                let highest = self.above[node].iter().map(|line| ranks[line.above] + 1).max();
                let lowest = self.below[node].iter().map(|line| ranks[line.below] - 1).min();
                let wanted = if up > down {
                    highest
                } else if down > up {
                    lowest
                } else {
                    None
                };
                if let Some(rank) = wanted.filter(|rank| *rank != ranks[node]) {
                    ranks[node] = rank;
                    has_moved = true;
                }
            }
            if !has_moved {
                break;
            }
        }
    }
}

/// Puts nodes without lines into rows that are about as wide as the widest of the others.
fn put_below(nodes: &[Extent], has_lines: &[bool], ranks: &mut [usize], spacing: &Spacing) {
    let step = |node: usize| nodes[node].width + spacing.boxes;
    let rows = (0..nodes.len()).filter(|node| has_lines[*node]).map(|node| ranks[node] + 1).max().unwrap_or_default();
    let mut widths = vec![0.0; rows];
    (0..nodes.len()).filter(|node| has_lines[*node]).for_each(|node| widths[ranks[node]] += step(node));
    let lone: Vec<usize> = (0..nodes.len()).filter(|node| !has_lines[*node]).collect();
    let area: f64 = lone.iter().map(|node| step(*node) * (nodes[*node].height + spacing.rows)).sum();
    let most = widths.iter().copied().fold(1.5 * area.sqrt(), f64::max);
    let (mut rank, mut width) = (rows, 0.0);
    for node in lone {
        if width > 0.0 && width + step(node) > most {
            (rank, width) = (rank + 1, 0.0);
        }
        ranks[node] = rank;
        width += step(node);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    const SPACING: Spacing = Spacing { boxes: 10.0, lines: 5.0, rows: 20.0, straight: 5.0, rise: 0.0, reach: 0.0 };

    #[rstest]
    #[case::a_chain(&[(0, 1), (1, 2), (2, 3)], &[0, 1, 2, 3])]
    #[case::a_late_source_stands_right_above(&[(0, 1), (1, 2), (3, 2)], &[0, 1, 2, 1])]
    #[case::alone_below(&[(0, 1), (2, 2)], &[0, 1, 2, 2])]
    // By hand: four times 40 by 40 is an area of 6400, so that a row is at most 1.5 times 80 wide.
    #[case::nothing(&[], &[0, 0, 0, 1])]
    fn lines_go_down_and_are_short(#[case] lines: &[(usize, usize)], #[case] expected: &[usize]) {
        let line = |(from, to): &(usize, usize)| Line { from: *from, to: *to, weight: 1, label: Extent::default() };
        let lines: Vec<Line> = lines.iter().map(line).collect();
        let nodes = [Extent { width: 30.0, height: 20.0 }; 4];
        assert_eq!(ranks(&nodes, &lines, &vec![false; lines.len()], &SPACING), expected);
    }
}
