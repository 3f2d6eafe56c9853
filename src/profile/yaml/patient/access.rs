//! Walks the entries of a list and the members of a group.

use super::super::places::NodeId;
use super::decoder::Decoder;
use super::fault::{Fault, Why};
use super::filler::Filler;
use super::shapes::Shape;
use serde::de::value::StrDeserializer;
use serde::de::{DeserializeSeed, MapAccess, SeqAccess};
use std::slice::Iter;

/// The entries of a list.
pub(super) struct Entries<'p> {
    list: Decoder<'p>,
    children: Iter<'p, NodeId>,
    can_drop: bool,
}

/// The members of a group, and then the keys that it lacks.
pub(super) struct Members<'p> {
    group: Decoder<'p>,
    children: Iter<'p, NodeId>,
    /// The struct that it is read into; none where any key will do.
    shape: Option<Shape>,
    /// The keys that are still to be added, known once all members were met.
    lacking: Option<std::vec::IntoIter<&'static str>>,
    /// The member whose value comes next; none for an added key.
    next: Option<NodeId>,
}

impl<'p> Entries<'p> {
    /// Leaves out the entries that are of no use, so that the others are still looked at.
    pub(super) fn without_dropped(list: Decoder<'p>) -> Self {
        Self { list, children: list.ledger.places.children(list.node).iter(), can_drop: true }
    }

    /// For a list of a fixed length.
    pub(super) fn all(list: Decoder<'p>) -> Self {
        Self { can_drop: false, ..Self::without_dropped(list) }
    }
}

impl<'p> Members<'p> {
    pub(super) fn of_any_key(group: Decoder<'p>) -> Self {
        let children = group.ledger.places.children(group.node).iter();
        Self { group, children, shape: None, lacking: None, next: None }
    }

    pub(super) fn of_keys(group: Decoder<'p>, shape: Shape) -> Self {
        Self { shape: Some(shape), ..Self::of_any_key(group) }
    }

    /// The next key that the type can use; the others are noted on the way.
    fn next_key(&mut self) -> Option<&'p str> {
        let ledger = self.group.ledger;
        for child in self.children.by_ref().copied() {
            if ledger.places.node(child).is_refused {
                continue;
            }
            let key = ledger.places.key_word(child).unwrap_or_default();
            match self.shape {
                Some((_, fields)) if !fields.contains(&key) => ledger.unknown_key(child, fields),
                None if ledger.is_filled(child) => {}
                _ => {
                    self.next = Some(child);
                    return Some(key);
                }
            }
        }
        self.next = None;
        let (group, shape) = (self.group, self.shape);
        let lacking = self
            .lacking
            .get_or_insert_with(|| shape.map_or_else(Vec::new, |shape| ledger.lacking(group.node, shape)).into_iter());
        lacking.next()
    }
}

impl<'de> SeqAccess<'de> for Entries<'_> {
    type Error = Fault;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, Fault> {
        let ledger = self.list.ledger;
        let can_drop = self.can_drop;
        let next = self.children.by_ref().copied().find(|child| !(can_drop && ledger.is_dropped(*child)));
        next.map(|child| seed.deserialize(Decoder::new(ledger, child)).map_err(|fault| fault.at(child))).transpose()
    }
}

impl<'de> MapAccess<'de> for Members<'_> {
    type Error = Fault;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, Fault> {
        let Some(key) = self.next_key() else { return Ok(None) };
        let at_member = self.next;
        let read = seed.deserialize(StrDeserializer::<Fault>::new(key));
        read.map(Some).map_err(|fault| at_member.map_or_else(Fault::stuck, |child| fault.at(child)))
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Fault> {
        match self.next {
            Some(child) => seed.deserialize(Decoder::new(self.group.ledger, child)).map_err(|fault| fault.at(child)),
            // The words of a type that refuses what is filled in would be about nothing in the file.
            None => seed.deserialize(Filler).map_err(|fault| Fault { why: Why::Stuck, ..fault }),
        }
    }
}
