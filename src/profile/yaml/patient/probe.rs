//! Asks a type which keys its structs can't do without, by giving it as little as it takes.
//!
//! Each round gives every struct only the keys that it is known to need. When one complains, a key is learned; when
//! none does, it is given all its keys from then on, so that what lies behind the others is asked too. All this
//! happens on a few dozen made-up values, however long the document is.

use super::fault::{Fault, Why};
use super::filler::Filler;
use super::shapes::{Shape, Shapes};
use serde::de::value::{MapDeserializer, SeqDeserializer};
use serde::de::{DeserializeOwned, Deserializer, IntoDeserializer, Visitor};
use serde::forward_to_deserialize_any;
use std::iter;

/// More rounds than any file of profiles takes.
const MOST_ROUNDS: usize = 1000;

/// How deep structs may lie in each other.
const MOST_DEPTH: usize = 32;

/// Fills in what is known of the structs in `T`. A type that takes no made-up value is asked as far as possible.
pub(super) fn ask<T: DeserializeOwned>(shapes: &Shapes) {
    for _ in 0..MOST_ROUNDS {
        match T::deserialize(Probe { shapes, depth: 0 }) {
            Err(Fault { why: Why::Learned, .. }) => {}
            _ => break,
        }
    }
}

/// A made-up value.
#[derive(Clone, Copy)]
struct Probe<'s> {
    shapes: &'s Shapes,
    depth: usize,
}

impl Probe<'_> {
    fn within(self) -> Result<Self, Fault> {
        if self.depth == MOST_DEPTH { Err(Fault::stuck()) } else { Ok(Self { depth: self.depth + 1, ..self }) }
    }
}

impl IntoDeserializer<'_, Fault> for Probe<'_> {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

/// What holds no struct is filled in.
macro_rules! fill {
    ($($method:ident)*) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
            Filler.$method(visitor)
        }
    )*};
}

impl<'de> Deserializer<'de> for Probe<'_> {
    type Error = Fault;

    fill! {
        deserialize_bool deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64 deserialize_u8 deserialize_u16
        deserialize_u32 deserialize_u64 deserialize_f32 deserialize_f64 deserialize_char deserialize_str
        deserialize_string deserialize_identifier deserialize_any deserialize_unit deserialize_ignored_any
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let shape: Shape = (name, fields);
        let within = self.within()?;
        if self.shapes.is_complete(shape) {
            return visitor.visit_map(MapDeserializer::new(fields.iter().map(|field| (*field, within))));
        }
        let needed = self.shapes.needed(shape);
        let read = visitor.visit_map(MapDeserializer::new(needed.into_iter().map(|field| (field, Filler))));
        match read {
            Ok(_) => self.shapes.complete(shape),
            Err(fault) => return Err(self.shapes.learn(shape, fault)),
        }
        Err(Fault { why: Why::Learned, node: None })
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_some(self)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_seq(SeqDeserializer::new(iter::once(self.within()?)))
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_map(MapDeserializer::new(iter::once(("a", self.within()?))))
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_seq(SeqDeserializer::new(iter::repeat_n(self.within()?, length)))
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        Filler.deserialize_enum(name, variants, visitor)
    }

    fn deserialize_unit_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! { i128 u128 bytes byte_buf }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde::Deserialize;

    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    #[expect(dead_code, reason = "only asked")]
    struct Outer {
        first: u32,
        #[serde(default)]
        list: Vec<Inner>,
        second: Option<[Inner; 2]>,
        third: String,
    }

    #[derive(Deserialize)]
    #[serde(deny_unknown_fields)]
    #[expect(dead_code, reason = "only asked")]
    struct Inner {
        kind: Kind,
        note: Option<String>,
        size: f64,
    }

    #[derive(Deserialize)]
    enum Kind {
        Round,
    }

    #[test]
    fn every_struct_says_what_it_needs() {
        let shapes = Shapes::default();
        ask::<Outer>(&shapes);
        assert_eq!(shapes.needed(("Outer", &["first", "list", "second", "third"])), ["first", "third"]);
        assert_eq!(shapes.needed(("Inner", &["kind", "note", "size"])), ["kind", "size"]);
    }
}
