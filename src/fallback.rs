//! The shop's own graph: after this model failed for this reason, try that one.
//!
//! Nodes are models, edges are rules; parallel edges differ by their reason. Nothing outside this module knows
//! the graph library behind it.

use crate::profile::{Edge, Model, Size, SizeHint};
use crate::unit::Id;
use petgraph::Direction;
use petgraph::stable_graph::{NodeIndex, StableDiGraph};
use std::collections::BTreeMap;

/// The shop's rules as a graph.
#[derive(Debug, Clone)]
pub struct Fallbacks<'a> {
    graph: StableDiGraph<&'a Id, usize>,
    node: BTreeMap<&'a Id, NodeIndex>,
    edges: &'a [Edge],
}

impl<'a> Fallbacks<'a> {
    /// The graph of these rules; a rule is known by its place among them.
    #[must_use]
    pub fn new(edges: &'a [Edge]) -> Self {
        let mut graph = StableDiGraph::new();
        let mut node: BTreeMap<&Id, NodeIndex> = BTreeMap::new();
        for (rule, edge) in edges.iter().enumerate() {
            let [from, to] = [&edge.from, &edge.to].map(|id| *node.entry(id).or_insert_with(|| graph.add_node(id)));
            graph.add_edge(from, to, rule);
        }
        Self { graph, node, edges }
    }

    /// The rules for a model that failed, in the order of the file.
    #[must_use]
    pub fn from(&self, model: &Id) -> Vec<(usize, &'a Edge)> {
        let Some(node) = self.node.get(model) else { return Vec::new() };
        let leaving = self.graph.edges_directed(*node, Direction::Outgoing).map(|edge| *edge.weight());
        let mut rules: Vec<_> = leaving.map(|rule| (rule, &self.edges[rule])).collect();
        rules.sort_by_key(|(rule, _)| *rule);
        rules
    }
}

/// Whether a rule allows this size of its target after `failed` failed. Labels differ between makers, so "up"
/// and "down" go by the labelled circumference: the next one of the target beyond the middle of the one that failed.
#[must_use]
pub fn allows_size(edge: &Edge, failed: &Size, target: &Model, size: &Size) -> bool {
    let centres = || target.sizes().map(|(_, other)| other.centre());
    // Two ladders need not be cut at the same millimetre.
    let clearly = 5.0;
    match &edge.size {
        None => true,
        Some(SizeHint::Same) => size.label == failed.label,
        Some(SizeHint::Label(label)) => size.label == *label,
        Some(SizeHint::Up) => {
            let next = centres().filter(|c| *c > failed.centre() + clearly).min_by(f64::total_cmp);
            next.is_some_and(|next| (size.centre() - next).abs() < f64::EPSILON)
        }
        Some(SizeHint::Down) => {
            let next = centres().filter(|c| *c < failed.centre() - clearly).max_by(f64::total_cmp);
            next.is_some_and(|next| (size.centre() - next).abs() < f64::EPSILON)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::profile::Reason;

    fn edge(from: &str, to: &str, reason: Reason) -> Edge {
        let id = |text| Id::try_from(text).unwrap();
        Edge { from: id(from), to: id(to), reason, note: "n".to_owned(), size: None }
    }

    #[test]
    fn parallel_edges_cycles_and_strangers() {
        let edges =
            [edge("a", "b", Reason::TooRound), edge("b", "a", Reason::TooOval), edge("a", "b", Reason::TooNoisy)];
        let fallbacks = Fallbacks::new(&edges);
        let reasons = |id: &str| {
            let rules = fallbacks.from(&Id::try_from(id).unwrap());
            rules.into_iter().map(|(rule, edge)| (rule, edge.reason)).collect::<Vec<_>>()
        };
        assert_eq!(reasons("a"), [(0, Reason::TooRound), (2, Reason::TooNoisy)]);
        assert_eq!(reasons("b"), [(1, Reason::TooOval)]);
        assert!(reasons("stranger").is_empty());
    }
}
