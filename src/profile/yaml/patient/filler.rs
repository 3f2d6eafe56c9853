//! Stands in for any value that can't be read: one, a short text, an empty list, the first known word.
//! A type with rules of its own takes these more often than nothing and an empty text.

use super::fault::Fault;
use serde::de::value::{MapDeserializer, SeqDeserializer};
use serde::de::{Deserializer, IntoDeserializer, Visitor};
use serde::forward_to_deserialize_any;
use std::iter;

/// Reads as whatever is asked for.
#[derive(Debug, Clone, Copy)]
pub(super) struct Filler;

impl IntoDeserializer<'_, Fault> for Filler {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

/// One method for each type of which one value is as good as another.
macro_rules! fill {
    ($($method:ident => $visit:ident($($value:expr)?);)*) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
            visitor.$visit($($value)?)
        }
    )*};
}

impl<'de> Deserializer<'de> for Filler {
    type Error = Fault;

    fill! {
        deserialize_bool => visit_bool(false);
        deserialize_i8 => visit_i8(1);
        deserialize_i16 => visit_i16(1);
        deserialize_i32 => visit_i32(1);
        deserialize_i64 => visit_i64(1);
        deserialize_u8 => visit_u8(1);
        deserialize_u16 => visit_u16(1);
        deserialize_u32 => visit_u32(1);
        deserialize_u64 => visit_u64(1);
        deserialize_f32 => visit_f32(1.0);
        deserialize_f64 => visit_f64(1.0);
        deserialize_char => visit_char('a');
        deserialize_str => visit_str("a");
        deserialize_string => visit_str("a");
        deserialize_identifier => visit_str("a");
        deserialize_any => visit_str("a");
        deserialize_unit => visit_unit();
        deserialize_ignored_any => visit_unit();
        deserialize_seq => visit_seq(SeqDeserializer::new(iter::empty::<Self>()));
        deserialize_map => visit_map(MapDeserializer::new(iter::empty::<(Self, Self)>()));
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_none()
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_seq(SeqDeserializer::new(iter::repeat_n(self, length)))
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_map(MapDeserializer::new(fields.iter().map(|field| (*field, self))))
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let first = variants.first().ok_or_else(Fault::stuck)?;
        visitor.visit_enum((*first).into_deserializer())
    }

    fn deserialize_unit_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    forward_to_deserialize_any! { i128 u128 bytes byte_buf }
}
