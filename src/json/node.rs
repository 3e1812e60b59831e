//! One place in a tree, for serde's derived readers.

use super::{Tree, Unread};
use serde::de::{self, DeserializeSeed, Error, Unexpected, Visitor};
use serde_json::map;
use std::slice;

impl de::Error for Unread {
    fn custom<T: std::fmt::Display>(message: T) -> Self {
        Self(message.to_string())
    }
}

/// A text, which may also be a key or a variant's name, or what else there is.
#[derive(Clone, Copy)]
pub(super) enum Node<'a> {
    Text(&'a str),
    Other(&'a Tree),
}

impl<'a> Node<'a> {
    pub fn of(tree: &'a Tree) -> Self {
        match tree {
            Tree::String(text) => Self::Text(text),
            _ => Self::Other(tree),
        }
    }

    /// It is not what was looked for.
    fn other_than(self, looked_for: &dyn de::Expected) -> Unread {
        let there = match self {
            Self::Text(text) => Unexpected::Str(text),
            Self::Other(Tree::Bool(yes)) => Unexpected::Bool(*yes),
            Self::Other(Tree::Number(number)) => {
                Unexpected::Float(number.as_f64().unwrap_or(f64::NAN))
            }
            Self::Other(Tree::Array(_)) => Unexpected::Seq,
            Self::Other(Tree::Object(_)) => Unexpected::Map,
            Self::Other(_) => Unexpected::Unit,
        };
        Unread::invalid_type(there, looked_for)
    }
}

impl<'a> de::Deserializer<'a> for Node<'a> {
    type Error = Unread;

    fn deserialize_any<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        match self {
            Self::Text(text) => visitor.visit_borrowed_str(text),
            Self::Other(Tree::Bool(yes)) => visitor.visit_bool(*yes),
            Self::Other(Tree::Number(number)) => {
                if let Some(whole) = number.as_u64() {
                    visitor.visit_u64(whole)
                } else if let Some(whole) = number.as_i64() {
                    visitor.visit_i64(whole)
                } else {
                    visitor.visit_f64(number.as_f64().unwrap_or(f64::NAN))
                }
            }
            Self::Other(Tree::Array(_)) => self.deserialize_seq(visitor),
            Self::Other(Tree::Object(_)) => self.deserialize_map(visitor),
            Self::Other(_) => visitor.visit_unit(),
        }
    }

    fn deserialize_str<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        match self {
            Self::Text(text) => visitor.visit_borrowed_str(text),
            Self::Other(_) => Err(self.other_than(&visitor)),
        }
    }

    fn deserialize_string<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        self.deserialize_str(visitor)
    }

    fn deserialize_identifier<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        match self {
            Self::Other(Tree::Null) => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'a>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Unread> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        let Self::Other(Tree::Array(items)) = self else {
            return Err(self.other_than(&visitor));
        };
        let mut left = Items(items.iter());
        let value = visitor.visit_seq(&mut left)?;
        if left.0.len() > 0 {
            return Err(Unread::invalid_length(items.len(), &"fewer elements"));
        }
        Ok(value)
    }

    fn deserialize_tuple<V: Visitor<'a>>(self, _: usize, visitor: V) -> Result<V::Value, Unread> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_map<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        match self {
            Self::Other(Tree::Object(entries)) => visitor.visit_map(Entries {
                left: entries.iter(),
                value: None,
            }),
            _ => Err(self.other_than(&visitor)),
        }
    }

    fn deserialize_struct<V: Visitor<'a>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Unread> {
        self.deserialize_map(visitor)
    }

    fn deserialize_enum<V: Visitor<'a>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Unread> {
        visitor.visit_enum(self.variant()?)
    }

    fn deserialize_ignored_any<V: Visitor<'a>>(self, visitor: V) -> Result<V::Value, Unread> {
        visitor.visit_unit()
    }

    serde::forward_to_deserialize_any! {
        <W: Visitor<'a>>
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char bytes byte_buf unit unit_struct tuple_struct
    }
}

/// What is left of a list.
struct Items<'a>(slice::Iter<'a, Tree>);

impl<'a> de::SeqAccess<'a> for &mut Items<'a> {
    type Error = Unread;

    fn next_element_seed<T: DeserializeSeed<'a>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Unread> {
        match self.0.next() {
            Some(item) => seed.deserialize(Node::of(item)).map(Some),
            None => Ok(None),
        }
    }
}

/// What is left of an object, and the value of the key that was read last.
struct Entries<'a> {
    left: map::Iter<'a>,
    value: Option<&'a Tree>,
}

impl<'a> de::MapAccess<'a> for Entries<'a> {
    type Error = Unread;

    fn next_key_seed<K: DeserializeSeed<'a>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Unread> {
        let Some((key, value)) = self.left.next() else {
            return Ok(None);
        };
        self.value = Some(value);
        seed.deserialize(Node::Text(key)).map(Some)
    }

    fn next_value_seed<T: DeserializeSeed<'a>>(&mut self, seed: T) -> Result<T::Value, Unread> {
        seed.deserialize(Node::of(self.value.take().unwrap_or(&Tree::Null)))
    }
}

/// A variant of an enum: its name, and what it holds.
struct Variant<'a> {
    name: &'a str,
    holds: &'a Tree,
}

impl<'a> Node<'a> {
    fn variant(self) -> Result<Variant<'a>, Unread> {
        match self {
            Self::Text(name) => Ok(Variant {
                name,
                holds: &Tree::Null,
            }),
            Self::Other(Tree::Object(entries)) if entries.len() == 1 => {
                let mut entries = entries.iter();
                let one = entries.next().map(|(name, holds)| Variant { name, holds });
                one.ok_or_else(|| self.other_than(&VARIANT))
            }
            Self::Other(_) => Err(self.other_than(&VARIANT)),
        }
    }
}

/// How a variant is written.
const VARIANT: &str = "a word, or an object of one entry";

impl<'a> de::EnumAccess<'a> for Variant<'a> {
    type Error = Unread;
    type Variant = Node<'a>;

    fn variant_seed<V: DeserializeSeed<'a>>(self, seed: V) -> Result<(V::Value, Node<'a>), Unread> {
        let variant = seed.deserialize(Node::Text(self.name))?;
        Ok((variant, Node::of(self.holds)))
    }
}

impl<'a> de::VariantAccess<'a> for Node<'a> {
    type Error = Unread;

    fn unit_variant(self) -> Result<(), Unread> {
        match self {
            Self::Other(Tree::Null) => Ok(()),
            _ => Err(self.other_than(&"nothing")),
        }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'a>>(self, seed: T) -> Result<T::Value, Unread> {
        seed.deserialize(self)
    }

    fn tuple_variant<V: Visitor<'a>>(self, _: usize, visitor: V) -> Result<V::Value, Unread> {
        de::Deserializer::deserialize_seq(self, visitor)
    }

    fn struct_variant<V: Visitor<'a>>(
        self,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Unread> {
        de::Deserializer::deserialize_map(self, visitor)
    }
}
