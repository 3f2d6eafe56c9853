//! What is known to be wrong with a document, from one round of decoding to the next.

use super::super::places::{Kind, NodeId, Places, ROOT};
use super::super::wording::{self, Needs};
use super::fault::{Fault, Why};
use super::shapes::{Shape, Shapes};
use crate::diag::{Diagnostic, MOST_PROBLEMS, is_full, more, nearest, note};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

/// The problems so far, and what is filled in because of them.
pub(super) struct Ledger<'p> {
    pub(super) places: &'p Places<'p>,
    pub(super) shapes: Shapes,
    problems: RefCell<Vec<Diagnostic>>,
    /// By its number, whether a harmless value is read in place of a value.
    filled: RefCell<Vec<bool>>,
    /// Entries that their list does without.
    dropped: RefCell<BTreeSet<NodeId>>,
    /// Keys that are added to a group.
    absent: RefCell<BTreeMap<NodeId, Vec<&'static str>>>,
    /// Keys that a group has under a mistyped name, so that nobody need call them missing as well.
    mistyped: RefCell<BTreeMap<NodeId, Vec<&'static str>>>,
}

impl<'p> Ledger<'p> {
    pub(super) fn new(places: &'p Places<'p>) -> Self {
        let ids = 0..NodeId::try_from(places.len()).unwrap_or(NodeId::MAX);
        let filled = ids.map(|id| places.node(id).kind == Kind::Refused).collect();
        Self {
            places,
            shapes: Shapes::default(),
            problems: RefCell::default(),
            filled: RefCell::new(filled),
            dropped: RefCell::default(),
            absent: RefCell::default(),
            mistyped: RefCell::default(),
        }
    }

    pub(super) fn into_problems(self) -> Vec<Diagnostic> {
        let mut problems = self.problems.into_inner();
        let mistyped = self.mistyped.into_inner();
        for (id, mut keys) in self.absent.into_inner() {
            keys.retain(|key| !mistyped.get(&id).is_some_and(|known| known.contains(key)));
            if !keys.is_empty() {
                problems.push(wording::missing_keys(self.places, id, &keys));
            }
        }
        problems
    }

    /// Whether the value is known to be of no use.
    pub(super) fn is_filled(&self, id: NodeId) -> bool {
        self.filled.borrow().get(id as usize).copied().unwrap_or_default()
    }

    /// Whether its list does without it.
    pub(super) fn is_dropped(&self, id: NodeId) -> bool {
        self.dropped.borrow().contains(&id)
    }

    /// Whether any list does without an entry.
    pub(super) fn has_dropped(&self) -> bool {
        !self.dropped.borrow().is_empty()
    }

    /// The keys that a group needs and doesn't have, which are noted.
    pub(super) fn lacking(&self, id: NodeId, shape: Shape) -> Vec<&'static str> {
        let mut lacking = self.shapes.needed(shape);
        let children = self.places.children(id).iter().filter(|child| !self.places.node(**child).is_refused);
        let is_given = |key: &str| children.clone().any(|child| self.places.key_word(*child) == Some(key));
        lacking.retain(|key| !is_given(key));
        let mut absent = self.absent.borrow_mut();
        // One more than are told shows that there are more.
        if !lacking.is_empty() && absent.len() <= MOST_PROBLEMS {
            absent.insert(id, lacking.clone());
        }
        lacking
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
                self.mistyped.borrow_mut().entry(parent).or_default().push(meant);
            }
            wording::unknown_key(self.places, id, known, meant)
        });
    }

    /// Makes sure that the next round gets past a fault; false when it can't, or when enough is known.
    pub(super) fn settle(&self, fault: Fault) -> bool {
        let id = fault.node.unwrap_or(ROOT);
        match fault.why {
            // Which keys are missing shows in the next round.
            Why::Learned => true,
            _ if is_full(&self.problems.borrow()) => false,
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

    /// Says that nobody looked at what stands behind the place of a fault.
    pub(super) fn give_in(&self, fault: Fault) {
        let id = fault.node.unwrap_or(ROOT);
        self.settle(fault);
        let mut problems = self.problems.borrow_mut();
        if !is_full(&problems) {
            problems.push(more(Some(self.places.value_of(id))));
        }
    }

    /// Fills in a value without a word. One that is filled in and still no use goes with what is around it,
    /// except that a list can do without an entry.
    fn give_up(&self, mut id: NodeId) -> bool {
        while !self.fill_in(id) {
            let parent = self.places.node(id).parent;
            let can_be_dropped = id != ROOT && self.places.node(parent).kind == Kind::List;
            if can_be_dropped && self.dropped.borrow_mut().insert(id) {
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
        if self.fill_in(id) {
            note(&mut self.problems.borrow_mut(), problem);
        }
    }

    /// Whether the value wasn't filled in before.
    fn fill_in(&self, id: NodeId) -> bool {
        let mut filled = self.filled.borrow_mut();
        filled.get_mut(id as usize).is_some_and(|filled| !std::mem::replace(filled, true))
    }
}
