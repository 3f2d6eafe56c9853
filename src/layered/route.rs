//! From places to a drawing: heights of the rows, and the ways of the lines.

use super::place::{Across, Link};
use super::rows::{Content, Rows, own_lines};
use super::turns::Turns;
use super::{Extent, Frame, Layout, Line, Point, Route, Spacing};
use itertools::Itertools;

/// How much of its least height the distance of two rows may grow where lines go far sideways.
const MOST_RISE: f64 = 1.5;

pub(super) fn layout(
    rows: &Rows,
    across: &Across,
    (nodes, lines, turned): (&[Extent], &[Line], &[bool]),
    spacing: &Spacing,
    crossings: usize,
) -> Layout {
    let turns = Turns::new(rows, across, spacing);
    let heights = Heights::new(rows, across, &turns, spacing);
    let middle = |cell: usize| Point { x: across.middle[cell], y: heights.middle(rows.cells[cell].row) };
    let node = |node: usize| Point { x: middle(node).x + rows.anchor(node), y: middle(node).y };
    let mut routes = vec![Route { before: Vec::new(), label: Point::default(), after: Vec::new() }; lines.len()];
    let mut first = 0;
    for (at, chain) in rows.chains.iter().enumerate().filter(|(_, chain)| !chain.is_empty()) {
        let links = first..first + chain.len() - 1;
        let trims = &turns.trims[links.clone()];
        first = links.end;
        routes[at] = along(&across.links[links], trims, rows, across, &heights, nodes);
        if turned[at] {
            let Route { before, after, .. } = &mut routes[at];
            std::mem::swap(before, after);
            before.reverse();
            after.reverse();
        }
    }
    for (own, beside) in own_lines(lines) {
        let labels = beside.iter().map(|at| lines[*at].label).collect_vec();
        for (at, route) in beside.iter().zip(around(node(own), nodes[own], &labels, spacing)) {
            routes[*at] = route;
        }
    }
    let right = (0..rows.cells.len()).map(|cell| across.middle[cell] + rows.cells[cell].extent.width / 2.0);
    let size = Extent { width: right.fold(0.0, f64::max), height: heights.bottom() };
    let frames = nodes.iter().enumerate().map(|(at, extent)| Frame { middle: node(at), extent: *extent });
    Layout { size, nodes: frames.collect(), routes, crossings }
}

/// Tops and bottoms of the rows.
struct Heights(Vec<(f64, f64)>);

impl Heights {
    /// Rows are further apart where lines go far sideways, so that no line lies flat.
    fn new(rows: &Rows, across: &Across, turns: &Turns, spacing: &Spacing) -> Self {
        let mut sideways = vec![0.0_f64; rows.rows.len()];
        for link in &across.links {
            let row = &mut sideways[rows.cells[link.upper].row];
            *row = row.max((link.top(across) - link.bottom(across)).abs());
        }
        let mut heights = Vec::new();
        let mut top = 0.0;
        for (at, row) in rows.rows.iter().enumerate() {
            let height = row.iter().map(|cell| rows.cells[*cell].extent.height).fold(0.0, f64::max);
            heights.push((top, top + height));
            // No label stands below nodes without lines.
            let gap = if row.is_empty() { 0.0 } else { spacing.rows };
            let rise = spacing.rise * sideways[at];
            top += height + gap + turns.heights[at] + rise.min(MOST_RISE * spacing.rows);
        }
        Self(heights)
    }

    fn middle(&self, row: usize) -> f64 {
        (self.0[row].0 + self.0[row].1) / 2.0
    }

    fn bottom(&self) -> f64 {
        self.0.last().map_or(0.0, |(_, bottom)| *bottom)
    }
}

/// The way of a line from the top to the bottom.
fn along(
    links: &[Link],
    trims: &[(f64, f64)],
    rows: &Rows,
    across: &Across,
    heights: &Heights,
    nodes: &[Extent],
) -> Route {
    let mut route = Route { before: Vec::new(), label: Point::default(), after: Vec::new() };
    let mut way = Vec::new();
    for (link, (above, below)) in links.iter().zip(trims) {
        let [upper, lower] = [link.upper, link.lower].map(|cell| rows.cells[cell]);
        let (top, bottom) = (link.top(across), link.bottom(across));
        let half = |cell: usize, content| match content {
            Content::Node => nodes[cell].height / 2.0,
            Content::Label => rows.cells[cell].extent.height / 2.0,
            Content::Bend => 0.0,
        };
        if upper.content == Content::Label {
            route.label = Point { x: top, y: heights.middle(upper.row) };
            route.before = std::mem::take(&mut way);
        }
        way.push(Point { x: top, y: heights.middle(upper.row) + half(link.upper, upper.content) });
        way.push(Point { x: top, y: heights.0[upper.row].1 + above });
        way.push(Point { x: bottom, y: heights.0[lower.row].0 - below });
        way.push(Point { x: bottom, y: heights.middle(lower.row) - half(link.lower, lower.content) });
    }
    route.after = way;
    [&mut route.before, &mut route.after].into_iter().for_each(without_needless);
    route
}

/// Leaves out points on the straight way from the one before to the one behind.
fn without_needless(way: &mut Vec<Point>) {
    let mut kept: Vec<Point> = Vec::new();
    for point in way.drain(..) {
        let is_upright = |a: &Point, b: &Point| (a.x - b.x).abs() < 0.05 && (b.x - point.x).abs() < 0.05;
        if let [.., a, b] = kept[..]
            && is_upright(&a, &b)
        {
            kept.pop();
        }
        if kept.last().is_some_and(|last| (last.x - point.x).abs() < 1e-6 && (last.y - point.y).abs() < 1e-6) {
            kept.pop();
        }
        kept.push(point);
    }
    *way = kept;
}

/// The ways of a node's own lines: out at its right edge to the label, and back below.
fn around(node: Point, extent: Extent, labels: &[Extent], spacing: &Spacing) -> Vec<Route> {
    let right = node.x + extent.width / 2.0;
    let all: f64 = labels.iter().map(|label| label.height + spacing.lines).sum();
    let mut top = node.y - all / 2.0;
    let step = extent.height / (2.0 * labels.len() as f64 + 1.0);
    let mut routes = Vec::new();
    for (at, label) in labels.iter().enumerate() {
        let middle =
            Point { x: right + 2.0 * spacing.boxes + label.width / 2.0, y: top + (label.height + spacing.lines) / 2.0 };
        let bend = right + spacing.boxes;
        let way = |port: f64, offset: f64| {
            let from = node.y - extent.height / 2.0 + port * step;
            let to = middle.y + offset * (step / 2.0).min(label.height / 2.0);
            let left = middle.x - label.width / 2.0;
            vec![
                Point { x: right, y: from },
                Point { x: bend, y: from },
                Point { x: bend, y: to },
                Point { x: left, y: to },
            ]
        };
        let mut after = way(2.0 * at as f64 + 2.0, 1.0);
        after.reverse();
        routes.push(Route { before: way(2.0 * at as f64 + 1.0, -1.0), label: middle, after });
        top += label.height + spacing.lines;
    }
    routes
}
