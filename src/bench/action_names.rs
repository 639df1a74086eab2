//! How an action is read. Records and action files from before knobs were written `set(engine_rpm(1500))` name the knob
//! alone, `engine_rpm(1500)`; they are read as what they mean. Nothing is written that way.

use std::fmt;
use std::sync::LazyLock;

use serde::de::value::StringDeserializer;
use serde::de::{DeserializeSeed, Deserializer, EnumAccess, Error, IntoDeserializer, VariantAccess, Visitor};
use serde::{Deserialize, Serialize, Serializer, forward_to_deserialize_any};
use strum::VariantNames;

use super::Action;
use crate::knobs::{Change, Knob};

impl Serialize for Action {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Self::serialize(self, serializer)
    }
}

impl<'de> Deserialize<'de> for Action {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_enum("Action", &[], OldOrNew)
    }
}

/// What can stand at the head of an action: actions, and knobs as they were written.
static NAMES: LazyLock<Vec<&'static str>> = LazyLock::new(|| {
    Action::VARIANTS.iter().copied().chain(Knob::ALL.iter().map(|k| k.info().key)).collect()
});

struct OldOrNew;

impl<'de> Visitor<'de> for OldOrNew {
    type Value = Action;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an action")
    }

    fn visit_enum<A: EnumAccess<'de>>(self, data: A) -> Result<Action, A::Error> {
        let (Name(name), rest) = data.variant()?;
        let old = Knob::by_key(&name).is_some();
        if !old && !Action::VARIANTS.contains(&name.as_str()) {
            return Err(A::Error::unknown_variant(&name, &NAMES));
        }
        let named = Named { name, rest };
        if old { Change::deserialize(named).map(Action::Set) } else { Action::deserialize(named) }
    }
}

/// The name at the head of an action.
struct Name(String);

impl<'de> Deserialize<'de> for Name {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Letters;
        impl Visitor<'_> for Letters {
            type Value = Name;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("the name of an action")
            }

            fn visit_str<E>(self, name: &str) -> Result<Name, E> {
                Ok(Name(name.to_owned()))
            }
        }
        deserializer.deserialize_identifier(Letters)
    }
}

/// An action whose name was looked at already.
struct Named<R> {
    name: String,
    rest: R,
}

impl<'de, R: VariantAccess<'de>> EnumAccess<'de> for Named<R> {
    type Error = R::Error;
    type Variant = R;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, R), R::Error> {
        let name: StringDeserializer<R::Error> = self.name.into_deserializer();
        Ok((seed.deserialize(name)?, self.rest))
    }
}

impl<'de, R: VariantAccess<'de>> Deserializer<'de> for Named<R> {
    type Error = R::Error;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, R::Error> {
        visitor.visit_enum(self)
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char str string bytes byte_buf option unit unit_struct
        newtype_struct seq tuple tuple_struct map struct enum identifier ignored_any
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario::parse;

    #[test]
    fn a_knob_named_alone_is_read_as_a_turn_of_it() {
        for &knob in Knob::ALL {
            let change = crate::knobs::Controls::default().get(knob);
            let alone = ron::to_string(&change).unwrap();
            let set = ron::to_string(&Action::Set(change)).unwrap();
            assert_eq!(set, format!("set({alone})"));
            for text in [&alone, &set] {
                assert_eq!(parse::<Action>("a.ron", text), Ok(Action::Set(change)));
            }
            let json = serde_json::to_string(&change).unwrap();
            assert_eq!(serde_json::from_str::<Action>(&json).unwrap(), Action::Set(change));
        }
        let stopped: Action = parse("a.ron", "stopped(engine_on(true))").unwrap();
        assert_eq!(stopped, Action::Stopped(Box::new(Action::Set(Change::EngineOn(true)))));
    }

    #[test]
    fn a_slip_is_shown_where_it_is() {
        for (text, at, words) in [
            ("[hint,\n set(engine_rp(1500))]", (2, 6), "nearest valid name: engine_rpm"),
            ("[hint,\n set(engine_rpm(true))]", (2, 17), "a number was expected"),
            ("[hint,\n engine_rpm(true)]", (2, 13), "a number was expected"),
            ("[hint,\n sett(engine_rpm(1500))]", (2, 2), "nearest valid name: set"),
        ] {
            let problem = parse::<Vec<Action>>("a.ron", text).unwrap_err().problems.remove(0);
            let found = problem.at.unwrap();
            assert!(problem.to_string().contains(words), "{problem}");
            assert_eq!((found.line, found.column), at, "{problem}");
        }
    }
}
