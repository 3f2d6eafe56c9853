//! Where every key and value of a document stands, and what stands there.

use super::first_pass::first_pass;
use crate::diag::{SourceId, Span};
use std::sync::OnceLock;

/// The number of a value in the order of the text; the whole document is number 0.
pub(super) type NodeId = u32;

pub(super) const ROOT: NodeId = 0;

/// First byte, and one past the last.
pub(super) type Stretch = (u32, u32);

/// Where every key and value of a document stands.
///
/// Paths are written as `serde_path_to_error` writes them: `models[2].shells[0].sizes[1].label`, and `` or
/// `.` for the whole document.
#[derive(Debug)]
pub(crate) struct Places<'t> {
    source: SourceId,
    /// The text of which the tree is built when the first place is asked for.
    text: &'t str,
    tree: OnceLock<Tree>,
}

/// The values of a document, in the order of the text.
#[derive(Debug)]
pub(super) struct Tree {
    nodes: Vec<Node>,
    /// The children of every value, one stretch of numbers after the other.
    children: Vec<NodeId>,
    /// The keys and scalars of the document with their quotes and escapes undone, one after the other.
    words: String,
}

/// One value of a document.
#[derive(Debug)]
pub(super) struct Node {
    pub(super) parent: NodeId,
    pub(super) kind: Kind,
    /// Whether the first pass refused the key, so that nobody need complain about the value.
    pub(super) is_refused: bool,
    pub(super) key: Option<Key>,
    /// Where the value stands in the source.
    pub(super) place: Stretch,
    /// Where a scalar stands in the words.
    pub(super) word: Stretch,
    /// Where the children stand among the children.
    pub(super) children: Stretch,
}

/// The key that a value stands under.
#[derive(Debug, Clone, Copy)]
pub(super) struct Key {
    pub(super) place: Stretch,
    pub(super) word: Stretch,
}

/// What a value is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    /// Keys with values.
    Group,
    List,
    /// A scalar without quotes, whose text decides whether it is a number.
    Plain,
    /// A scalar that is text whatever it says.
    Quoted,
    /// Something that the first pass refused, so that nobody need complain about it.
    Refused,
}

impl<'t> Places<'t> {
    /// Where the value of a path stands; of a path that isn't there, the nearest value around it.
    pub(crate) fn value(&self, path: &str) -> Span {
        self.value_of(self.find(path).0)
    }

    /// Where the key of a path stands; of a path that isn't there or has no key, as for its value.
    pub(crate) fn key(&self, path: &str) -> Span {
        match self.find(path) {
            (id, true) => self.key_of(id),
            (id, false) => self.value_of(id),
        }
    }

    pub(super) fn new(source: SourceId, tree: Tree) -> Self {
        Self { source, text: "", tree: OnceLock::from(tree) }
    }

    /// Places of a text that is in order; most runs never ask for one.
    pub(crate) fn later(source: SourceId, text: &'t str) -> Self {
        Self { source, text, tree: OnceLock::new() }
    }

    fn tree(&self) -> &Tree {
        self.tree.get_or_init(|| first_pass(self.source, self.text).tree)
    }

    /// How many values there are.
    pub(super) fn len(&self) -> usize {
        self.tree().nodes.len()
    }

    pub(super) fn node(&self, id: NodeId) -> &Node {
        &self.tree().nodes[id as usize]
    }

    pub(super) fn children(&self, id: NodeId) -> &[NodeId] {
        let (start, end) = self.node(id).children;
        &self.tree().children[start as usize..end as usize]
    }

    /// The text of a scalar; empty for anything else.
    pub(super) fn word(&self, id: NodeId) -> &str {
        piece(&self.tree().words, self.node(id).word)
    }

    /// The key of a value in a group.
    pub(super) fn key_word(&self, id: NodeId) -> Option<&str> {
        self.node(id).key.map(|key| piece(&self.tree().words, key.word))
    }

    pub(super) fn value_of(&self, id: NodeId) -> Span {
        // Only a document of which the first pass read nothing at all has no value 0.
        self.span(self.tree().nodes.get(id as usize).map_or((0, 0), |node| node.place))
    }

    pub(super) fn key_of(&self, id: NodeId) -> Span {
        self.node(id).key.map_or_else(|| self.value_of(id), |key| self.span(key.place))
    }

    pub(super) fn span(&self, (start, end): Stretch) -> Span {
        Span { source: self.source, start: start as usize, end: end as usize }
    }

    /// The value that a path leads to and true, or the last one on the way and false.
    fn find(&self, path: &str) -> (NodeId, bool) {
        let mut at = ROOT;
        let mut rest = if path == "." { "" } else { path };
        while !rest.is_empty() {
            let Some((child, behind)) = self.step(at, rest) else { return (at, false) };
            (at, rest) = (child, behind);
        }
        (at, self.len() > 0)
    }

    fn step<'p>(&self, from: NodeId, path: &'p str) -> Option<(NodeId, &'p str)> {
        if self.tree().nodes.get(from as usize)?.kind == Kind::List {
            let (index, behind) = path.strip_prefix('[')?.split_once(']')?;
            let child = self.children(from).get(index.parse::<usize>().ok()?)?;
            return Some((*child, behind));
        }
        let path = path.strip_prefix('.').unwrap_or(path);
        // A key may itself hold a point or a bracket; the longest key that fits is meant.
        let fitting = self.children(from).iter().filter_map(|child| {
            let behind = path.strip_prefix(self.key_word(*child)?)?;
            (behind.is_empty() || behind.starts_with(['.', '['])).then_some((*child, behind))
        });
        fitting.min_by_key(|(_, behind)| behind.len())
    }
}

impl Tree {
    /// Puts the nodes, each after its parent as the parser met them, in order by parent.
    pub(super) fn new(mut nodes: Vec<Node>, words: String) -> Self {
        for id in 1..nodes.len() {
            let parent = nodes[id].parent as usize;
            nodes[parent].children.1 += 1;
        }
        let mut total = 0;
        for node in &mut nodes {
            let count = node.children.1;
            node.children = (total, total);
            total += count;
        }
        let mut children = vec![ROOT; total as usize];
        for (id, number) in (1..nodes.len()).zip(1..) {
            let parent = nodes[id].parent as usize;
            let next = &mut nodes[parent].children.1;
            children[*next as usize] = number;
            *next += 1;
        }
        Self { nodes, children, words }
    }
}

/// The stretch that a word takes when it is added to the words, or a place between two byte offsets.
pub(super) fn stretch(start: usize, end: usize) -> Stretch {
    // No text is longer than the size cap, and undoing quotes and escapes never makes one longer.
    let short = |at: usize| u32::try_from(at).unwrap_or(u32::MAX);
    (short(start), short(end))
}

pub(super) fn piece(words: &str, (start, end): Stretch) -> &str {
    &words[start as usize..end as usize]
}
