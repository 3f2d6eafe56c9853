//! Layered drawings of directed graphs: nodes in rows, lines that go down from row to row or back up, and room of its
//! own for every label.
//!
//! The steps are Sugiyama's (Sugiyama, Tagawa and Toda 1981). A few lines are turned round, so that no way leads back
//! (`cycles`). Every node gets a row, with a row for labels between two of them (`ranks`, `rows`). Each row is put into
//! an order with few crossings (`order`), and every cell at a place (`place`). A line is a chain of cells, one a row, so
//! nothing that is drawn along the chain meets a node or the label of another line (`turns`, `route`).
//!
//! Nothing here knows what is drawn. Lengths are in the unit of the caller. The same input gives the same output.

mod cycles;
mod order;
mod place;
mod ranks;
mod route;
mod rows;
#[cfg(test)]
mod tests;
mod turns;

use rows::Rows;

/// Size of a box.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Extent {
    /// From left to right.
    pub width: f64,
    /// From top to bottom.
    pub height: f64,
}

/// A place; y grows downwards.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
}

/// A line that is wanted, from a node to another one or to itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Number of the node that it leaves.
    pub from: usize,
    /// Number of the node that it leads to.
    pub to: usize,
    /// What it is worth that the line points down.
    pub weight: u32,
    /// The box of its label.
    pub label: Extent,
}

/// Distances that are kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spacing {
    /// Between two boxes side by side.
    pub boxes: f64,
    /// Between a line and what is beside it; a node is made wider where its lines need it.
    pub lines: f64,
    /// Between two rows.
    pub rows: f64,
    /// How far a line goes straight on when it leaves a row, and before it reaches the next; twice that is part of the
    /// distance between rows.
    pub straight: f64,
    /// How much further two rows are apart for every unit that a line between them goes sideways.
    pub rise: f64,
    /// How much wider a row of labels may be for a label to stand one row nearer to where its line begins.
    pub reach: f64,
}

/// A drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// What the drawing takes, from 0 on.
    pub size: Extent,
    /// The nodes, as wide as was asked for or wider.
    pub nodes: Vec<Frame>,
    /// The lines, in the order in which they were given.
    pub routes: Vec<Route>,
    /// How often two lines cross.
    pub crossings: usize,
}

/// A box and where it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Its middle.
    pub middle: Point,
    /// Its size.
    pub extent: Extent,
}

/// The way of a line. From one point to the next it goes straight where they have the same x or y, otherwise in an S
/// that begins and ends upright.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// From the edge of the first node to the edge of the label.
    pub before: Vec<Point>,
    /// Middle of the label.
    pub label: Point,
    /// From the edge of the label to the edge of the second node.
    pub after: Vec<Point>,
}

impl Route {
    /// How far it goes sideways, both ways added up.
    #[must_use]
    pub fn sideways(&self) -> f64 {
        let steps = [&self.before, &self.after].into_iter().flat_map(|way| way.windows(2));
        steps.map(|step| (step[0].x - step[1].x).abs()).sum()
    }
}

/// The graph has more lines over more rows than a drawing could show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("a drawing of this graph would have more than {MOST_CELLS} parts")]
pub struct TooLarge;

/// The most parts (nodes, labels, and bends of lines) that are laid out: beyond that nobody could follow a line.
pub const MOST_CELLS: usize = 20_000;

/// Lays a graph out.
///
/// # Errors
/// When it has more parts than [`MOST_CELLS`].
///
/// # Panics
/// When a line names a node that isn't there.
pub fn layout(nodes: &[Extent], lines: &[Line], spacing: &Spacing) -> Result<Layout, TooLarge> {
    let turned = cycles::turned(nodes.len(), lines);
    let ranks = ranks::ranks(nodes, lines, &turned, spacing);
    let nodes = widened(nodes, lines, &turned, spacing);
    let mut rows = Rows::new(&nodes, lines, &turned, &ranks, spacing)?;
    let crossings = order::order(&mut rows);
    let across = place::across(&rows, spacing);
    Ok(route::layout(&rows, &across, (&nodes, lines, &turned), spacing, crossings))
}

/// The nodes with room for their lines side by side at the top and at the bottom.
fn widened(nodes: &[Extent], lines: &[Line], turned: &[bool], spacing: &Spacing) -> Vec<Extent> {
    let mut ends = vec![[0_u32; 2]; nodes.len()];
    for (line, is_turned) in lines.iter().zip(turned).filter(|(line, _)| line.from != line.to) {
        ends[line.from][usize::from(*is_turned)] += 1;
        ends[line.to][usize::from(!is_turned)] += 1;
    }
    let wide = |(node, [below, above]): (&Extent, [u32; 2])| Extent {
        width: node.width.max(spacing.lines * f64::from(below.max(above) + 1)),
        ..*node
    };
    nodes.iter().zip(ends).map(wide).collect()
}
