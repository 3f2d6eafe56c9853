//! Laws of every layout.

use super::rows::{Content, Rows};
use super::*;
use proptest::prelude::*;

const SPACING: Spacing = Spacing { boxes: 20.0, lines: 10.0, rows: 25.0, straight: 5.0, rise: 0.1, reach: 50.0 };

/// Graphs with parallel lines, lines of a node to itself, ways round, and nodes without lines.
fn graphs() -> impl Strategy<Value = (Vec<Extent>, Vec<Line>)> {
    (0..14_usize).prop_flat_map(|count| {
        let extent = (10.0..120.0, 10.0..60.0).prop_map(|(width, height)| Extent { width, height });
        let nodes = prop::collection::vec(extent, count);
        let label = (0.0..150.0, 0.0..70.0).prop_map(|(width, height)| Extent { width, height });
        let line = (0..count.max(1), 0..count.max(1), 1..4_u32, label);
        let line = line.prop_map(|(from, to, weight, label)| Line { from, to, weight, label });
        let lines = prop::collection::vec(line, if count == 0 { 0..1 } else { 0..40 });
        (nodes, lines)
    })
}

/// Left, top, right and bottom.
fn sides(middle: Point, extent: Extent) -> [f64; 4] {
    let (w, h) = (extent.width / 2.0, extent.height / 2.0);
    [middle.x - w, middle.y - h, middle.x + w, middle.y + h]
}

/// Whether two boxes share more than an edge, a thousandth being forgiven.
fn overlap(a: [f64; 4], b: [f64; 4]) -> bool {
    let apart = |at: usize| a[at] + 1e-3 >= b[at + 2] || b[at] + 1e-3 >= a[at + 2];
    !apart(0) && !apart(1)
}

/// Whether a point lies on the edge of a box.
fn is_on_edge(point: Point, [left, top, right, bottom]: [f64; 4]) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
    let is_within = (left - 1e-6..=right + 1e-6).contains(&point.x) && (top - 1e-6..=bottom + 1e-6).contains(&point.y);
    is_within && (near(point.x, left) || near(point.x, right) || near(point.y, top) || near(point.y, bottom))
}

/// The box around a step of a way.
fn step_box(pair: &[Point]) -> [f64; 4] {
    let (a, b) = (pair[0], pair[1]);
    [a.x.min(b.x), a.y.min(b.y), a.x.max(b.x), a.y.max(b.y)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_line_goes_down_one_row_after_the_other(graph in graphs()) {
        let (nodes, lines) = graph;
        let turned = cycles::turned(nodes.len(), &lines);
        let ranks = ranks::ranks(&nodes, &lines, &turned, &SPACING);
        for (line, is_turned) in lines.iter().zip(&turned).filter(|(line, _)| line.from != line.to) {
            let (top, bottom) = if *is_turned { (line.to, line.from) } else { (line.from, line.to) };
            prop_assert!(ranks[top] < ranks[bottom]);
        }
        let mut rows = Rows::new(&nodes, &lines, &turned, &ranks, &SPACING).unwrap();
        for chain in rows.chains.iter().filter(|chain| !chain.is_empty()) {
            let at = |cell: &usize| rows.cells[*cell];
            prop_assert!(chain.windows(2).all(|pair| at(&pair[0]).row + 1 == at(&pair[1]).row));
            prop_assert_eq!(chain.iter().filter(|cell| at(cell).content == Content::Label).count(), 1);
        }
        let before = order::crossings(&rows);
        let after = order::order(&mut rows);
        prop_assert!(after <= before);
        prop_assert_eq!(after, order::crossings(&rows));
    }

    #[test]
    fn nothing_overlaps_and_lines_meet_only_their_own(graph in graphs()) {
        let (nodes, lines) = graph;
        let layout = layout(&nodes, &lines, &SPACING).unwrap();
        let frames = layout.nodes.iter().map(|frame| sides(frame.middle, frame.extent));
        let labels = lines.iter().zip(&layout.routes).map(|(line, route)| sides(route.label, line.label));
        let boxes: Vec<[f64; 4]> = frames.chain(labels).collect();
        for (at, a) in boxes.iter().enumerate() {
            prop_assert!(a.iter().all(|side| side.is_finite()));
            prop_assert!(a[0] >= -1e-3 && a[1] >= -1e-3);
            prop_assert!(a[2] <= layout.size.width + 1e-3 && a[3] <= layout.size.height + 1e-3);
            prop_assert!(boxes[at + 1..].iter().all(|b| !overlap(*a, *b)), "box {} is overlapped", at);
        }
        for (at, (line, route)) in lines.iter().zip(&layout.routes).enumerate() {
            let own = nodes.len() + at;
            prop_assert!(is_on_edge(route.before[0], boxes[line.from]), "{:?} {:?}", route, boxes[line.from]);
            prop_assert!(is_on_edge(*route.before.last().unwrap(), boxes[own]));
            prop_assert!(is_on_edge(route.after[0], boxes[own]));
            prop_assert!(is_on_edge(*route.after.last().unwrap(), boxes[line.to]));
            // A curve stays within the box around its ends, and that box lies between two rows.
            for step in route.before.windows(2).chain(route.after.windows(2)) {
                for (other, around) in boxes.iter().enumerate() {
                    prop_assert!(other == own || !overlap(step_box(step), *around), "{step:?} meets box {other}");
                }
            }
        }
    }

    #[test]
    fn the_same_graph_gives_the_same_drawing(graph in graphs()) {
        let (nodes, lines) = graph;
        prop_assert_eq!(layout(&nodes, &lines, &SPACING), layout(&nodes, &lines, &SPACING));
    }
}

#[test]
fn a_graph_beyond_any_drawing_is_refused() {
    let nodes = vec![Extent { width: 10.0, height: 10.0 }; 60];
    let pairs = (0..60).flat_map(|from| (0..60).filter(move |to| *to != from).map(move |to| (from, to)));
    let lines: Vec<Line> = pairs.map(|(from, to)| Line { from, to, weight: 1, label: Extent::default() }).collect();
    assert_eq!(layout(&nodes, &lines, &SPACING), Err(TooLarge));
    assert!(layout(&nodes, &lines[..300], &SPACING).is_ok());
}

#[test]
fn a_simple_graph_is_drawn_without_a_crossing() {
    let nodes = vec![Extent { width: 40.0, height: 20.0 }; 5];
    // A tree whose lines are given crosswise.
    let lines =
        [(0, 2), (0, 1), (1, 4), (2, 3)].map(|(from, to)| Line { from, to, weight: 1, label: Extent::default() });
    let layout = layout(&nodes, &lines, &SPACING).unwrap();
    assert_eq!(layout.crossings, 0);
    let y = |node: usize| layout.nodes[node].middle.y;
    assert!(y(0) < y(1) && y(1) < y(4) && (y(1) - y(2)).abs() < 1e-9);
}
