//! Each pattern beside the reader, on texts near what it is for.

use proptest::prelude::*;

use super::*;

/// A field with one text in it, and the findings that tell what a pattern cannot see.
struct Field {
    kind: SchemaKind,
    place: Vec<Step>,
    whole: Value,
    validator: Validator,
    unseen: fn(&str) -> bool,
}

impl Field {
    fn new(kind: SchemaKind, path: &[&str], unseen: fn(&str) -> bool) -> Field {
        let step = |name: &&str| match *name {
            "0" => Step::Item(0),
            name => Step::Field(name.to_string()),
        };
        let place = path.iter().map(step).collect();
        Field { kind, place, whole: whole(kind), validator: Validator::new(schema(kind)), unseen }
    }

    /// What is found out of order when the schema and the reader do not agree on a text.
    fn disagreement(&self, text: &str) -> Option<String> {
        let mut fields = self.whole.clone();
        *at(&mut fields, &self.place) = Value::String(text.to_string());
        let complaint = self.validator.complaint(&fields);
        let findings = read(self.kind, &fields);
        match (&complaint, findings.is_empty()) {
            (Some(_), true) => complaint,
            (None, false) if !(self.unseen)(text) => {
                Some(format!("{text:?} passes the schema: {findings:#?}"))
            }
            _ => None,
        }
    }
}

fn dose(field: &str) -> [&str; 2] {
    ["dose", field]
}

/// Ends of a range that are out of bounds or out of order.
fn is_out_of_bounds(text: &str) -> bool {
    let ends = text.split(['-', '\u{2013}']).map(|n| n.trim().parse::<u32>().unwrap_or(u32::MAX));
    let ends: Vec<u32> = ends.collect();
    ends.iter().any(|n| !(1..=20).contains(n)) || ends.first() > ends.last()
}

/// No time at all, more than two hours, or ends out of order.
fn is_too_long_or_nothing(text: &str) -> bool {
    let numbers = text.trim().trim_end_matches(char::is_alphabetic);
    let minute = if text.trim().ends_with("min") { 60.0 } else { 1.0 };
    let ends: Vec<f64> =
        numbers.split(['-', '\u{2013}']).map(|n| n.trim().parse::<f64>().unwrap() * minute).collect();
    let (low, high) = (ends[0], ends[ends.len() - 1]);
    low > high || !(0.001..=7200.0).contains(&high)
}

fn never(_: &str) -> bool {
    false
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(16) })]

    #[test]
    fn amounts(texts in prop::collection::vec("[ +]{0,1}[0-9]{0,3}[ .]{0,1}[–x-]{0,2} ?[+]?[0-9]{0,2}", 20)) {
        let field = Field::new(SchemaKind::Exercise, &dose("sets"), is_out_of_bounds);
        for text in texts {
            prop_assert_eq!(field.disagreement(&text), None);
        }
    }

    #[test]
    fn times(texts in prop::collection::vec("[ +]{0,1}[0-9.]{0,3} ?[–-]{0,2} ?[0-9.]{0,2}[e ]?(s|min|h|m|sec|S)? ?", 20)) {
        let field = Field::new(SchemaKind::Exercise, &dose("hold"), is_too_long_or_nothing);
        for text in texts {
            prop_assert_eq!(field.disagreement(&text), None);
        }
    }

    #[test]
    fn times_in_a_video(texts in prop::collection::vec("[0-9]{0,4}(:[0-9]{0,3}){0,3} ?", 40)) {
        let field = Field::new(SchemaKind::Week, &["video", "length"], never);
        for text in texts {
            prop_assert_eq!(field.disagreement(&text), None);
        }
    }

    #[test]
    fn addresses(texts in prop::collection::vec("(https?|ftp)?:?//?[a-z/ ?#\u{3000}\u{7}]{0,4}[a-z/.?]{0,4}[\\\\\"'`<>{}|^é]?", 40)) {
        let video = Field::new(SchemaKind::Week, &["video", "address"], never);
        let site = Field::new(SchemaKind::Site, &["address"], never);
        for text in texts {
            prop_assert_eq!(video.disagreement(&text), None);
            prop_assert_eq!(site.disagreement(&text), None);
        }
    }

    #[test]
    fn numbers_to_dial(texts in prop::collection::vec("(javascript:|tel:)?[0-9a +()./;@<\n\u{7}\u{fffe}é-]{0,6}", 40)) {
        let phone = Field::new(SchemaKind::Site, &["educator", "phone"], never);
        let emergency = Field::new(SchemaKind::Site, &["educator", "emergency"], never);
        for text in texts {
            prop_assert_eq!(phone.disagreement(&text), None);
            prop_assert_eq!(emergency.disagreement(&text), None);
        }
    }

    #[test]
    fn addresses_of_mail(texts in prop::collection::vec("[a.é \n\u{7}\u{200b}&]{0,3}@{0,2}[a.é?:;,<>()\"\\\\ ]{0,3}", 40)) {
        let field = Field::new(SchemaKind::Site, &["educator", "email"], never);
        for text in texts {
            prop_assert_eq!(field.disagreement(&text), None);
        }
    }

    #[test]
    fn words(texts in prop::collection::vec("[a \t\n\u{0}\u{7}\u{85}\u{a0}\u{2028}\u{3000}\u{feff}\u{200b}\u{2060}\u{fffe}é]{0,3}", 40)) {
        let field = Field::new(SchemaKind::Page, &["title"], never);
        for text in texts {
            prop_assert_eq!(field.disagreement(&text), None);
        }
    }

    #[test]
    fn ids(texts in prop::collection::vec("[a-z0-9A-Zé _-]{1,4}|everyone", 40)) {
        let field = Field::new(SchemaKind::Site, &["demand", "0", "id"], never);
        for text in texts {
            prop_assert_eq!(field.disagreement(&text), None);
        }
    }
}
