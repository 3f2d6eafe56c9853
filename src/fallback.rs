//! The shop's own graph: after this model failed for this reason, try that one.
//!
//! Nodes are models, edges are rules; parallel edges differ by their reason. Nothing outside this module knows
//! the graph library behind it.

mod excerpt;

pub use excerpt::{Excerpt, Onward, Question, Step};

use crate::profile::{Edge, Model, Size, SizeHint};
use crate::unit::Id;
use petgraph::Direction;
use petgraph::algo::tarjan_scc;
use petgraph::stable_graph::{NodeIndex, StableDiGraph};
use petgraph::visit::EdgeRef;
use std::collections::{BTreeMap, VecDeque};

/// The shop's rules as a graph.
#[derive(Debug, Clone)]
pub struct Fallbacks<'a> {
    graph: StableDiGraph<&'a Id, usize>,
    node: BTreeMap<&'a Id, NodeIndex>,
    edges: &'a [Edge],
}

/// Models whose rules lead to each other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Circle<'a> {
    /// All of them, in the order of the rules.
    pub models: Vec<&'a Id>,
    /// A shortest way round from the first of them, rule by rule.
    pub rules: Vec<usize>,
}

impl<'a> Fallbacks<'a> {
    /// The graph of these rules; a rule is known by its place among them.
    #[must_use]
    pub fn new(edges: &'a [Edge]) -> Self {
        Self::of(edges, 0..edges.len())
    }

    /// The graph of some of its rules, given by their places.
    #[must_use]
    pub fn part(&self, rules: &[usize]) -> Self {
        Self::of(self.edges, rules.iter().copied())
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

    /// All circles of more than one model: the strongly connected components, in the order of their first models.
    /// Cost: linear in rules, and a search in each circle.
    #[must_use]
    pub fn circles(&self) -> Vec<Circle<'a>> {
        self.circles_among(|members| members.len() > 1)
    }

    /// Circles that no rule leaves: the strongly connected components without a way out, in the order of their first
    /// models. A model with rules to itself only is one, too. Cost: linear in rules, and a search in each circle.
    #[must_use]
    pub fn closed_circles(&self) -> Vec<Circle<'a>> {
        self.circles_among(|members| self.is_closed(members))
    }

    fn of(edges: &'a [Edge], rules: impl Iterator<Item = usize>) -> Self {
        let mut graph = StableDiGraph::new();
        let mut node: BTreeMap<&Id, NodeIndex> = BTreeMap::new();
        for rule in rules {
            let Edge { from, to, .. } = &edges[rule];
            let [from, to] = [from, to].map(|id| *node.entry(id).or_insert_with(|| graph.add_node(id)));
            graph.add_edge(from, to, rule);
        }
        Self { graph, node, edges }
    }

    fn circles_among(&self, is_meant: impl Fn(&[NodeIndex]) -> bool) -> Vec<Circle<'a>> {
        let mut circles: Vec<_> = tarjan_scc(&self.graph)
            .into_iter()
            .map(|mut members| {
                members.sort();
                members
            })
            .filter(|members| is_meant(members))
            .collect();
        circles.sort();
        let circle = |members: Vec<NodeIndex>| Circle {
            rules: self.way_round(members[0]),
            models: members.iter().map(|node| self.graph[*node]).collect(),
        };
        circles.into_iter().map(circle).collect()
    }

    /// Whether rules leave these models, and all of them lead back.
    fn is_closed(&self, members: &[NodeIndex]) -> bool {
        let mut leaving =
            members.iter().flat_map(|node| self.graph.edges_directed(*node, Direction::Outgoing)).peekable();
        leaving.peek().is_some() && leaving.all(|edge| members.binary_search(&edge.target()).is_ok())
    }

    /// A shortest way from a model back to it, breadth first.
    fn way_round(&self, start: NodeIndex) -> Vec<usize> {
        let mut reached_by: BTreeMap<NodeIndex, (NodeIndex, usize)> = BTreeMap::new();
        let mut queue = VecDeque::from([start]);
        while let Some(node) = queue.pop_front() {
            let mut leaving: Vec<_> = self.graph.edges_directed(node, Direction::Outgoing).collect();
            leaving.sort_by_key(|edge| *edge.weight());
            for edge in leaving {
                let is_new = !reached_by.contains_key(&edge.target());
                if is_new {
                    reached_by.insert(edge.target(), (node, *edge.weight()));
                    queue.push_back(edge.target());
                }
            }
        }
        let mut way = Vec::new();
        let mut at = start;
        while let Some((before, rule)) = reached_by.get(&at) {
            way.push(*rule);
            at = *before;
            if at == start {
                break;
            }
        }
        way.reverse();
        way
    }
}

/// Whether a rule allows this size of its target after `failed` failed.
#[must_use]
pub fn allows_size(edge: &Edge, failed: &Size, target: &Model, size: &Size) -> bool {
    edge.size.as_ref().is_none_or(|hint| is_hinted(hint, failed, target, size))
}

/// Whether this size of a model is the one that is meant after `failed` failed. Labels differ between makers, so "up"
/// and "down" go by the labelled circumference: the next one of the target beyond the middle of the one that failed.
#[must_use]
pub fn is_hinted(hint: &SizeHint, failed: &Size, target: &Model, size: &Size) -> bool {
    let centres = || target.sizes().map(|(_, other)| other.centre());
    // Two ladders need not be cut at the same millimetre.
    let clearly = 5.0;
    match hint {
        SizeHint::Same => size.label == failed.label,
        SizeHint::Label(label) => size.label == *label,
        SizeHint::Up => {
            let next = centres().filter(|c| *c > failed.centre() + clearly).min_by(f64::total_cmp);
            next.is_some_and(|next| (size.centre() - next).abs() < f64::EPSILON)
        }
        SizeHint::Down => {
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

    #[test]
    fn a_closed_circle_has_no_way_out() {
        let why = Reason::TooRound;
        let closed =
            [edge("x", "a", why), edge("a", "b", why), edge("b", "c", why), edge("c", "a", why), edge("b", "a", why)];
        let circles = Fallbacks::new(&closed).closed_circles();
        assert_eq!(circles.len(), 1);
        assert_eq!(circles[0].models.iter().map(|id| id.as_str()).collect::<Vec<_>>(), ["a", "b", "c"]);
        assert_eq!(circles[0].rules, [1, 4], "the shortest way round");
        let open = [closed.as_slice(), &[edge("c", "d", why)]].concat();
        assert!(Fallbacks::new(&open).closed_circles().is_empty());
        let own = [edge("a", "a", why)];
        assert_eq!(Fallbacks::new(&own).closed_circles()[0].rules, [0]);
    }
}
