//! What a browser asks the desk, and what it gets.

/// The most bytes that a form may send: the longest entry and what it was before, each letter written as three.
pub const MOST: usize = 4 << 20;

/// The field by which a form of the desk is known.
pub const KEY: &str = "key";

/// A question of a browser that has been let in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// Below the desk's own address, without its first `/`.
    pub path: String,
    pub query: Fields,
    /// What a form sent.
    pub form: Option<Fields>,
    /// What the forms of the page have to carry.
    pub key: String,
}

/// Named values in the order in which a form has them; a name may come more than once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fields(Vec<(String, String)>);

impl Fields {
    /// Reads what a form or an address says. Line ends become `\n`.
    pub fn read(bytes: &[u8]) -> Fields {
        let line_ends = |text: &str| text.replace("\r\n", "\n").replace('\r', "\n");
        Fields::of(form_urlencoded::parse(bytes).map(|(name, value)| (name.into_owned(), line_ends(&value))))
    }

    pub fn of(pairs: impl IntoIterator<Item = (String, String)>) -> Fields {
        Fields(pairs.into_iter().collect())
    }

    /// The first value of that name.
    pub fn get(&self, name: &str) -> Option<&str> {
        self.0.iter().find(|(known, _)| known == name).map(|(_, value)| value.as_str())
    }

    pub fn all<'f>(&'f self, name: &'f str) -> impl Iterator<Item = &'f str> {
        self.0.iter().filter(move |(known, _)| known == name).map(|(_, value)| value.as_str())
    }
}

/// What a browser gets.
#[derive(Debug)]
pub enum Response {
    Page {
        status: u16,
        html: String,
    },
    /// Another page of the desk, by its path below the desk's address.
    Go(String),
    /// A file, by a path whose ending says what it is.
    File {
        path: String,
        bytes: Vec<u8>,
    },
}

impl Request {
    /// The button that sent the form, such as `add:caution`, in its two parts.
    pub(super) fn pressed(&self) -> Option<(&str, &str)> {
        let press = self.form.as_ref()?.get("do")?;
        Some(press.split_once(':').unwrap_or((press, "")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_form_is_read_as_browsers_send_it() {
        let fields = Fields::read(b"a=1&b=two+words&a=%C3%A9&c=x%0D%0Ay&d");
        assert_eq!(fields.all("a").collect::<Vec<_>>(), ["1", "é"]);
        assert_eq!(fields.get("b"), Some("two words"));
        assert_eq!(fields.get("c"), Some("x\ny"));
        assert_eq!(fields.get("d"), Some(""));
        assert_eq!(fields.get("e"), None);
    }
}
