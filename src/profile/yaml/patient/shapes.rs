//! Which keys the structs of a type can't do without, as far as they were asked.

use super::fault::{Fault, Why};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// A struct, by its name and its keys.
pub(super) type Shape = (&'static str, &'static [&'static str]);

/// What is known of each struct.
#[derive(Default)]
pub(super) struct Shapes(RefCell<BTreeMap<Shape, Known>>);

#[derive(Default)]
struct Known {
    needed: Vec<&'static str>,
    /// Whether it was read with the needed keys alone, so that there are no others.
    is_complete: bool,
}

impl Shapes {
    /// The keys that a struct is known to need.
    pub(super) fn needed(&self, shape: Shape) -> Vec<&'static str> {
        self.0.borrow().get(&shape).map_or_else(Vec::new, |known| known.needed.clone())
    }

    /// Whether these are all that it needs.
    pub(super) fn is_complete(&self, shape: Shape) -> bool {
        self.0.borrow().get(&shape).is_some_and(|known| known.is_complete)
    }

    pub(super) fn complete(&self, shape: Shape) {
        self.0.borrow_mut().entry(shape).or_default().is_complete = true;
    }

    /// Takes from a fault of a struct itself which key it needs. Nothing is learned of a key that was known already:
    /// then the struct means something else.
    pub(super) fn learn(&self, shape: Shape, fault: Fault) -> Fault {
        let (Why::MissingKey(key), None) = (&fault.why, fault.node) else { return fault };
        let mut shapes = self.0.borrow_mut();
        let needed = &mut shapes.entry(shape).or_default().needed;
        if needed.contains(key) {
            return fault;
        }
        needed.push(key);
        Fault { why: Why::Learned, ..fault }
    }
}
