//! Rows of cells: nodes, labels, and the places where a line passes through a row.

use super::{Extent, Line, MOST_CELLS, Spacing, TooLarge};
use itertools::Itertools;

/// What a cell holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Content {
    Node,
    Label,
    Bend,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cell {
    pub(super) content: Content,
    pub(super) row: usize,
    pub(super) extent: Extent,
}

/// Which way something goes from row to row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Towards {
    Bottom,
    Top,
}

/// Nodes stand in the even rows, labels in the odd ones. The cells of the nodes come first, in their order.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Rows {
    pub(super) cells: Vec<Cell>,
    /// The cells of each row from left to right.
    pub(super) rows: Vec<Vec<usize>>,
    /// Neighbours of each cell in the row above it.
    pub(super) above: Vec<Vec<usize>>,
    /// Neighbours of each cell in the row below it.
    pub(super) below: Vec<Vec<usize>>,
    /// The cells of each line from the top to the bottom, both nodes included; none for a node's own line.
    pub(super) chains: Vec<Vec<usize>>,
    /// Widths of the nodes without the room for their own lines.
    widths: Vec<f64>,
}

impl Rows {
    /// The cells of a graph whose nodes have their ranks, in the order in which one meets them on the way down.
    pub(super) fn new(
        nodes: &[Extent],
        lines: &[Line],
        turned: &[bool],
        ranks: &[usize],
        spacing: &Spacing,
    ) -> Result<Self, TooLarge> {
        let ends = |at: usize| {
            let Line { from, to, .. } = lines[at];
            if turned[at] { (to, from) } else { (from, to) }
        };
        let height = |at: &usize| ranks[ends(*at).1] - ranks[ends(*at).0];
        let others = (0..lines.len()).filter(|at| lines[*at].from != lines[*at].to).collect_vec();
        if nodes.len() + others.iter().map(|at| 2 * height(at) - 1).sum::<usize>() > MOST_CELLS {
            return Err(TooLarge);
        }
        let count = ranks.iter().max().map_or(0, |most| 2 * most + 1);
        let mut rows = Self {
            cells: Vec::new(),
            rows: vec![Vec::new(); count],
            above: Vec::new(),
            below: Vec::new(),
            chains: vec![Vec::new(); lines.len()],
            widths: nodes.iter().map(|node| node.width).collect(),
        };
        let loops = loops(lines, nodes, spacing);
        for (node, extent) in loops.into_iter().enumerate() {
            rows.add(Cell { content: Content::Node, row: 2 * ranks[node], extent });
        }
        let mut widths = vec![0.0_f64; count];
        // Short lines have no choice where their labels are, and are asked first.
        for at in others.into_iter().sorted_by_key(height) {
            let (top, bottom) = ends(at);
            let inner = 2 * ranks[top] + 1..2 * ranks[bottom];
            let begin = 2 * ranks[lines[at].from];
            let cost = |row: &usize| widths[*row] + spacing.reach * row.abs_diff(begin) as f64;
            let label = inner.clone().step_by(2).min_by(|a, b| cost(a).total_cmp(&cost(b))).unwrap_or_default();
            rows.chains[at].push(top);
            for row in inner {
                let (content, extent) =
                    if row == label { (Content::Label, lines[at].label) } else { (Content::Bend, Extent::default()) };
                let cell = rows.add(Cell { content, row, extent });
                rows.chains[at].push(cell);
                widths[row] += extent.width + spacing.lines;
            }
            rows.chains[at].push(bottom);
        }
        for (upper, lower) in rows.chains.iter().flat_map(|chain| chain.iter().copied().tuple_windows()) {
            rows.below[upper].push(lower);
            rows.above[lower].push(upper);
        }
        rows.arrange(Towards::Bottom);
        Ok(rows)
    }

    /// Place of each cell within its row.
    pub(super) fn places(&self) -> Vec<usize> {
        let mut places = vec![0; self.cells.len()];
        for row in &self.rows {
            row.iter().enumerate().for_each(|(place, cell)| places[*cell] = place);
        }
        places
    }

    /// How far the middle of a node is right of the middle of its cell, which has room for the node's own lines.
    pub(super) fn anchor(&self, node: usize) -> f64 {
        (self.widths[node] - self.cells[node].extent.width) / 2.0
    }

    /// Width of a node without the room for its own lines.
    pub(super) fn width(&self, node: usize) -> f64 {
        self.widths[node]
    }

    /// Orders every row as one comes upon its cells by going down from the top, or up from the bottom, as far as one can.
    pub(super) fn arrange(&mut self, towards: Towards) {
        let mut is_met = vec![false; self.cells.len()];
        self.rows = vec![Vec::new(); self.rows.len()];
        let neighbours = if towards == Towards::Bottom { &self.below } else { &self.above };
        let mut starts = (0..self.cells.len()).sorted_by_key(|cell| (self.cells[*cell].row, *cell)).collect_vec();
        if towards == Towards::Top {
            starts.reverse();
        }
        for start in starts {
            let mut waiting = vec![start];
            while let Some(cell) = waiting.pop() {
                if std::mem::replace(&mut is_met[cell], true) {
                    continue;
                }
                self.rows[self.cells[cell].row].push(cell);
                waiting.extend(neighbours[cell].iter().rev());
            }
        }
    }

    fn add(&mut self, cell: Cell) -> usize {
        self.cells.push(cell);
        self.above.push(Vec::new());
        self.below.push(Vec::new());
        self.cells.len() - 1
    }
}

/// Extents of the nodes, with the room at the right for their own lines.
fn loops(lines: &[Line], nodes: &[Extent], spacing: &Spacing) -> Vec<Extent> {
    let mut extents = nodes.to_vec();
    for (node, own) in own_lines(lines).into_iter() {
        let width = own.iter().map(|at| lines[*at].label.width).fold(0.0, f64::max);
        let height: f64 = own.iter().map(|at| lines[*at].label.height + spacing.lines).sum();
        extents[node].width += 2.0 * spacing.boxes + width;
        extents[node].height = extents[node].height.max(height);
    }
    extents
}

/// The lines that lead from nodes to themselves.
pub(super) fn own_lines(lines: &[Line]) -> Vec<(usize, Vec<usize>)> {
    let own = (0..lines.len()).filter(|at| lines[*at].from == lines[*at].to);
    own.into_group_map_by(|at| lines[*at].from).into_iter().sorted().collect()
}
