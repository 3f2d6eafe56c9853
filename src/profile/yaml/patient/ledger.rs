//! What is known to be wrong with a document, from one round of decoding to the next.

use super::super::MOST_PROBLEMS;
use super::super::places::{Kind, NodeId, Places, ROOT};
use super::super::wording::{self, Needs};
use super::fault::{Fault, Why};
use crate::diag::{Diagnostic, nearest};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

/// The problems so far, and what is filled in because of them.
pub(super) struct Ledger<'p> {
    pub(super) places: &'p Places<'p>,
    known: RefCell<Known>,
}

#[derive(Default)]
struct Known {
    problems: Vec<Diagnostic>,
    /// Values in whose place a harmless one is read.
    filled: BTreeSet<NodeId>,
    /// Entries that their list does without.
    dropped: BTreeSet<NodeId>,
    /// Keys that are added to a group.
    absent: BTreeMap<NodeId, Vec<&'static str>>,
    /// Keys that a group has under a mistyped name, so that nobody need call them missing as well.
    mistyped: BTreeMap<NodeId, Vec<&'static str>>,
}

impl<'p> Ledger<'p> {
    pub(super) fn new(places: &'p Places<'p>) -> Self {
        let ids = 0..NodeId::try_from(places.len()).unwrap_or(NodeId::MAX);
        let filled = ids.filter(|id| places.node(*id).kind == Kind::Refused).collect();
        Self { places, known: RefCell::new(Known { filled, ..Known::default() }) }
    }

    pub(super) fn into_problems(self) -> Vec<Diagnostic> {
        let Known { mut problems, absent, mistyped, .. } = self.known.into_inner();
        for (id, mut keys) in absent {
            keys.retain(|key| !mistyped.get(&id).is_some_and(|known| known.contains(key)));
            if !keys.is_empty() {
                problems.push(wording::missing_keys(self.places, id, &keys));
            }
        }
        problems
    }

    /// Whether the value is known to be of no use.
    pub(super) fn is_filled(&self, id: NodeId) -> bool {
        self.known.borrow().filled.contains(&id)
    }

    /// Whether its list does without it.
    pub(super) fn is_dropped(&self, id: NodeId) -> bool {
        self.known.borrow().dropped.contains(&id)
    }

    /// Whether any list does without an entry.
    pub(super) fn has_dropped(&self) -> bool {
        !self.known.borrow().dropped.is_empty()
    }

    /// A key that is added to a group, by its number.
    pub(super) fn absent(&self, id: NodeId, number: usize) -> Option<&'static str> {
        self.known.borrow().absent.get(&id)?.get(number).copied()
    }

    /// Notes a value that its place can't use.
    pub(super) fn misfit(&self, id: NodeId, needs: Needs) {
        self.note_once(id, || wording::misfit(self.places, id, needs));
    }

    /// Notes a key that its group doesn't know.
    pub(super) fn unknown_key(&self, id: NodeId, known: &'static [&'static str]) {
        self.note_once(id, || {
            let meant = self.meant(id, known);
            if let Some(meant) = meant {
                let parent = self.places.node(id).parent;
                self.known.borrow_mut().mistyped.entry(parent).or_default().push(meant);
            }
            wording::unknown_key(self.places, id, known, meant)
        });
    }

    /// Makes sure that the next round gets past a fault; false when it can't.
    pub(super) fn settle(&self, fault: Fault) -> bool {
        let id = fault.node.unwrap_or(ROOT);
        if self.known.borrow().problems.len() >= MOST_PROBLEMS {
            return false;
        }
        match fault.why {
            Why::MissingKey(key) if !self.is_filled(id) => self.missing_key(id, key),
            Why::Needs(words) if !self.is_filled(id) => {
                self.note_once(id, || wording::misfit_of_type(self.places, id, &words));
                true
            }
            Why::Said(words) if !self.is_filled(id) => {
                self.note_once(id, || wording::refused(self.places, id, &words));
                true
            }
            _ => self.give_up(id),
        }
    }

    fn missing_key(&self, id: NodeId, key: &'static str) -> bool {
        let mut known = self.known.borrow_mut();
        let absent = known.absent.entry(id).or_default();
        if absent.contains(&key) {
            return false;
        }
        absent.push(key);
        true
    }

    /// Fills in a value without a word. One that is filled in and still no use goes with what is around it,
    /// except that a list can do without an entry.
    fn give_up(&self, mut id: NodeId) -> bool {
        let mut known = self.known.borrow_mut();
        while !known.filled.insert(id) {
            let parent = self.places.node(id).parent;
            let can_be_dropped = id != ROOT && self.places.node(parent).kind == Kind::List;
            if can_be_dropped && known.dropped.insert(id) {
                return true;
            }
            if id == ROOT {
                return false;
            }
            id = parent;
        }
        true
    }

    /// The key that was meant: rather one that the group lacks.
    fn meant(&self, id: NodeId, known: &'static [&'static str]) -> Option<&'static str> {
        let typed = self.places.key_word(id)?;
        let siblings = self.places.children(self.places.node(id).parent);
        // A group of very many keys is not worth comparing each with each.
        let is_given = |key: &str| siblings.iter().take(100).any(|other| self.places.key_word(*other) == Some(key));
        let lacking = known.iter().copied().filter(|key| !is_given(key));
        nearest(typed, lacking).or_else(|| nearest(typed, known.iter().copied()))
    }

    fn note_once(&self, id: NodeId, problem: impl FnOnce() -> Diagnostic) {
        let mut known = self.known.borrow_mut();
        if !known.filled.insert(id) || known.problems.len() >= MOST_PROBLEMS {
            return;
        }
        drop(known);
        let problem = problem();
        self.known.borrow_mut().problems.push(problem);
    }
}
