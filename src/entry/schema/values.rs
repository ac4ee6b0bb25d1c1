//! Values with a grammar of their own: patterns that say what `entry::values` takes.
//!
//! The patterns keep to what every dialect of regular expressions has, so that no editor stumbles over them.

use std::borrow::Cow;
use std::marker::PhantomData;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::Value;

use crate::model::catalogue::Catalogue;
use crate::model::vocabulary::Vocabulary;

/// Some words: not blank, and no control character but tabs and line ends.
pub(super) struct Text;

/// Some words or none, without a control character.
pub(super) struct AnyText;

/// One word of a closed set.
pub(super) struct Word<V>(PhantomData<V>);

/// A whole number.
pub(super) struct Whole<const FROM: u32, const TO: u32>;

/// A count such as 10, or a range such as "8-12".
pub(super) struct Amount<const FROM: u32, const TO: u32>;

/// A length of time, such as "20 s", "10-20 s" or "5 min".
pub(super) struct Time;

/// A day of the calendar. JSON has no dates: there, it is a text.
pub(super) struct Date;

/// A time in a video, such as "8:55".
pub(super) struct Clock;

/// An address of the web.
pub(super) struct WebAddress;

/// The address of the site's first page: folders only, in letters that stand in addresses as they are.
pub(super) struct SiteAddress;

/// A telephone number.
pub(super) struct Phone;
/// An address for mail.
pub(super) struct Email;
/// The name of a parameter in an address.
pub(super) struct ParameterName;

/// A demand of the catalogue or of the workspace.
pub(super) struct Demand;

/// A precaution of the catalogue or of the workspace.
pub(super) struct Precaution;

/// The id of a demand or a precaution.
pub(super) struct NewId;

/// The size of the letters of a handout, in points.
pub(super) struct Points;

/// What an author writes for a range of amounts, as a pattern. A plus sign is read too, though nobody writes it.
const RANGE: &str = r"^\s*\+?\d+(\s*[\-\u2013]\s*\+?\d+)?\s*$";

/// Characters that no page can show, as a class: all control characters but tab and line ends.
macro_rules! control {
    () => {
        r"\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff"
    };
}

/// Blanks and control characters, as a class.
macro_rules! blank {
    () => {
        r"\u0000-\u0020\u007f-\u00a0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000"
    };
}

/// Marks that show nothing themselves, as a class.
macro_rules! unseen {
    () => {
        r"\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\ufeff"
    };
}

/// Blanks, and characters that do not stand in addresses as they are, as a class.
macro_rules! odd {
    () => {
        concat!(blank!(), r##"?#"'`<>\\{}|^"##)
    };
}

/// What stands in no telephone number, as a class.
macro_rules! not_dialled {
    () => {
        r"\u0000-\u001f\u007f-\u009f\ufffe\uffff:;@<>"
    };
}

/// What stands in neither part of a mail address, as a class.
macro_rules! not_of_mail {
    () => {
        concat!(blank!(), unseen!(), r#"\ufffe\uffff@?&:;,<>()"\\"#)
    };
}

macro_rules! number {
    () => {
        r"\+?(\d+\.?\d*|\.\d+)"
    };
}

/// Schemas that stand once in a file, below `$defs`.
macro_rules! defined {
    ($($name:ident { $($json:tt)* })+) => {$(
        impl JsonSchema for $name {
            fn schema_name() -> Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut SchemaGenerator) -> Schema {
                json_schema!({ $($json)* })
            }
        }
    )+};
}

defined! {
    Text {
        "type": "string",
        "pattern": concat!("^[^", control!(), "]*[^", blank!(), unseen!(), "\\ufffe\\uffff][^", control!(), "]*$"),
    }
    AnyText {
        "type": "string",
        "pattern": concat!("^[^", control!(), "]*$"),
    }
    Time {
        "type": "string",
        "pattern": concat!(r"^\s*", number!(), r"(\s*[\-\u2013]\s*", number!(), r")?\s*(s|min)\s*$"),
        "examples": ["20 s", "10-20 s", "5 min"],
    }
    Date {
        "type": "string",
        "format": "date",
        "pattern": r"^(19|20|21)\d{2}-\d{2}-\d{2}$",
        "examples": ["2027-02-15"],
    }
    Clock {
        "type": "string",
        "pattern": r"^(\d{1,3}:(0?[0-5])?\d|\d{1,3}):[0-5]\d$",
        "examples": ["8:55", "1:02:30"],
    }
    WebAddress {
        "type": "string",
        "pattern": concat!("^https?://[^/?#", blank!(), "][^", blank!(), "]*$"),
        "examples": ["https://video.example/7"],
    }
    SiteAddress {
        "type": "string",
        "pattern": concat!("^https?://[^/", odd!(), "](/?[^/", odd!(), "])*/?$"),
        "examples": ["https://lantern-hill.example/"],
    }
    Phone {
        "type": "string",
        "pattern": concat!("^[^", not_dialled!(), "0-9]*[0-9][^", not_dialled!(), "0-9]*[0-9][^", not_dialled!(), "]*$"),
        "examples": ["555 0142"],
    }
    Email {
        "type": "string",
        "pattern": concat!("^[^", not_of_mail!(), "]+@[^", not_of_mail!(), "]+$"),
        "examples": ["hello@lantern-hill.example"],
    }
    ParameterName {
        "type": "string",
        "pattern": r"^[A-Za-z0-9._\-]+$",
        "examples": ["t"],
    }
    Demand {
        "type": "string",
        "anyOf": [{ "enum": built_in_demands() }, { "pattern": "^[a-z0-9\\-]+$" }],
    }
    Precaution {
        "type": "string",
        "anyOf": [
            { "enum": built_in_precautions() },
            { "pattern": "^[a-z0-9\\-]+$", "not": { "const": "everyone" } },
        ],
    }
    NewId {
        "type": "string",
        "pattern": "^[a-z0-9\\-]+$",
        "not": { "const": "everyone" },
        "examples": ["stairs"],
    }
}

/// Schemas that stand at each place they are meant for.
macro_rules! in_place {
    () => {
        fn inline_schema() -> bool {
            true
        }
    };
}

impl<V: Vocabulary> JsonSchema for Word<V> {
    in_place!();

    fn schema_name() -> Cow<'static, str> {
        "Word".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "enum": words::<V>() })
    }
}

impl<const FROM: u32, const TO: u32> JsonSchema for Whole<FROM, TO> {
    in_place!();

    fn schema_name() -> Cow<'static, str> {
        "Whole".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "integer", "minimum": FROM, "maximum": TO })
    }
}

impl<const FROM: u32, const TO: u32> JsonSchema for Amount<FROM, TO> {
    in_place!();

    fn schema_name() -> Cow<'static, str> {
        "Amount".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        amount(FROM, TO)
    }
}

impl JsonSchema for Points {
    in_place!();

    fn schema_name() -> Cow<'static, str> {
        "Points".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "integer", "enum": [18, 24, 32] })
    }
}

/// A whole number or a range within these bounds. Each keyword speaks of the type it fits.
pub(super) fn amount(from: u32, to: u32) -> Schema {
    json_schema!({ "type": ["integer", "string"], "minimum": from, "maximum": to, "pattern": RANGE })
}

/// Every word of a closed set.
pub(super) fn words<V: Vocabulary>() -> Vec<&'static str> {
    V::ALL.iter().map(|value| value.word()).collect()
}

fn built_in_demands() -> Vec<String> {
    Catalogue::built_in().demands.into_keys().collect()
}

pub(super) fn built_in_precautions() -> Vec<Value> {
    Catalogue::built_in().precautions.into_keys().map(Value::from).collect()
}
