//! Reads one value of the tree, by the rules of `serde_yaml`, and fills in what doesn't fit.

use super::super::places::{Kind, NodeId};
use super::super::scalars;
use super::super::wording::Needs;
use super::access::{Entries, Members};
use super::fault::Fault;
use super::filler::Filler;
use super::ledger::Ledger;
use serde::de::{Deserializer, IntoDeserializer, Visitor};
use serde::forward_to_deserialize_any;

/// One value of the tree.
#[derive(Clone, Copy)]
pub(super) struct Decoder<'p> {
    pub(super) ledger: &'p Ledger<'p>,
    pub(super) node: NodeId,
}

impl<'p> Decoder<'p> {
    pub(super) fn new(ledger: &'p Ledger<'p>, node: NodeId) -> Self {
        Self { ledger, node }
    }

    /// What kind of value can be read here; none where one is filled in already.
    fn kind(self) -> Kind {
        if self.ledger.is_filled(self.node) { Kind::Refused } else { self.ledger.places.node(self.node).kind }
    }

    fn word(self) -> &'p str {
        self.ledger.places.word(self.node)
    }

    /// The text of a scalar without quotes.
    fn plain(self) -> Option<&'p str> {
        (self.kind() == Kind::Plain).then(|| self.word())
    }

    /// The text of any scalar.
    fn text(self) -> Option<&'p str> {
        matches!(self.kind(), Kind::Plain | Kind::Quoted).then(|| self.word())
    }

    fn is_empty(self) -> bool {
        self.plain().is_some_and(str::is_empty)
    }

    /// Notes that the value doesn't fit, and stands in for it.
    fn fill(self, needs: Needs) -> Filler {
        self.ledger.misfit(self.node, needs);
        Filler
    }
}

/// Whole numbers of each width are read alike.
macro_rules! whole {
    ($($method:ident => $visit:ident($kind:ty);)*) => {$(
        fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
            let word = self.plain().filter(|word| i128::from(<$kind>::MIN) < 0 || !word.starts_with('-'));
            match word.and_then(scalars::whole).and_then(|number| <$kind>::try_from(number).ok()) {
                Some(number) => visitor.$visit(number),
                None => self
                    .fill(Needs::Whole { least: i128::from(<$kind>::MIN), most: i128::from(<$kind>::MAX) })
                    .$method(visitor),
            }
        }
    )*};
}

impl<'de> Deserializer<'de> for Decoder<'_> {
    type Error = Fault;

    whole! {
        deserialize_i8 => visit_i8(i8);
        deserialize_i16 => visit_i16(i16);
        deserialize_i32 => visit_i32(i32);
        deserialize_i64 => visit_i64(i64);
        deserialize_u8 => visit_u8(u8);
        deserialize_u16 => visit_u16(u16);
        deserialize_u32 => visit_u32(u32);
        deserialize_u64 => visit_u64(u64);
    }

    fn deserialize_f32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_f64(visitor)
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.plain().and_then(scalars::number) {
            Some(number) if number.is_finite() => visitor.visit_f64(number),
            // The type would say so as well, but not go on.
            Some(_) => self.fill(Needs::Finite).deserialize_f64(visitor),
            None => self.fill(Needs::Number).deserialize_f64(visitor),
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.plain().and_then(scalars::truth) {
            Some(truth) => visitor.visit_bool(truth),
            None => self.fill(Needs::Truth).deserialize_bool(visitor),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.text() {
            Some(text) => visitor.visit_str(text),
            None => self.fill(Needs::Text).deserialize_str(visitor),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_str(visitor)
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.kind() {
            Kind::Refused => visitor.visit_none(),
            Kind::Plain if scalars::is_null(self.word()) => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(self, _: &'static str, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        if self.kind() == Kind::List || self.is_empty() {
            return visitor.visit_seq(Entries::without_dropped(self));
        }
        self.fill(Needs::List).deserialize_seq(visitor)
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        let count = self.ledger.places.children(self.node).len();
        if self.kind() == Kind::List && count == length {
            return visitor.visit_seq(Entries::all(self));
        }
        self.fill(Needs::Entries(length)).deserialize_tuple(length, visitor)
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_tuple(length, visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        if self.kind() == Kind::Group || self.is_empty() {
            return visitor.visit_map(Members::of_any_key(self));
        }
        self.fill(Needs::Group).deserialize_map(visitor)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        if self.kind() == Kind::Group || self.is_empty() {
            let read = visitor.visit_map(Members::of_keys(self, (name, fields)));
            return read.map_err(|fault| self.ledger.shapes.learn((name, fields), fault));
        }
        self.fill(Needs::Keys(fields)).deserialize_struct(name, fields, visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match self.text().filter(|text| variants.contains(text)) {
            Some(word) => visitor.visit_enum(word.into_deserializer()),
            None => self.fill(Needs::Word(variants)).deserialize_enum(name, variants, visitor),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_unit()
    }

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        let word = self.word();
        match self.kind() {
            Kind::Group => self.deserialize_map(visitor),
            Kind::List => self.deserialize_seq(visitor),
            Kind::Quoted => visitor.visit_str(word),
            Kind::Refused => visitor.visit_unit(),
            Kind::Plain if scalars::is_null(word) => visitor.visit_unit(),
            Kind::Plain => match (scalars::truth(word), scalars::whole(word), scalars::number(word)) {
                (Some(truth), ..) => visitor.visit_bool(truth),
                (_, Some(_), _) if word.starts_with('-') => self.deserialize_i64(visitor),
                (_, Some(_), _) => self.deserialize_u64(visitor),
                (.., Some(number)) => visitor.visit_f64(number),
                _ => visitor.visit_str(word),
            },
        }
    }

    forward_to_deserialize_any! { i128 u128 char bytes byte_buf unit unit_struct }
}
