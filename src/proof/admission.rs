//! Who may use the desk: the browser that was sent to the first address, which only the person at the terminal has seen.
//! From then on a cookie stands for it, and every change carries a key of its own, so that no other page can send one.

use std::fmt::Write;

use axum::http::request::Parts;
use axum::http::{StatusCode, header};

use super::guard::one;
use crate::desk::{KEY, Request};

/// Where the first address begins.
const ENTER: &str = "/-/enter/";

/// Where the desk begins; only there something can be sent.
pub(super) const DESK: &str = "/-/desk/";

/// The secrets of one run. None of them can be guessed, and none tells another.
#[derive(Clone)]
pub(super) struct Admission {
    enter: Secret,
    session: Secret,
    key: Secret,
}

/// 32 bytes from the system, as letters.
#[derive(Clone)]
struct Secret(String);

impl Admission {
    /// Draws new secrets.
    ///
    /// # Errors
    /// When the system has no randomness to give.
    pub(super) fn draw() -> std::io::Result<Admission> {
        Ok(Admission { enter: Secret::draw()?, session: Secret::draw()?, key: Secret::draw()? })
    }

    /// The path of the first address.
    pub(super) fn first(&self) -> String {
        format!("{ENTER}{}", self.enter.0)
    }

    /// What every form carries.
    pub(super) fn key(&self) -> &str {
        &self.key.0
    }

    /// The cookie for whoever came to the first address.
    pub(super) fn cookie(&self, request: &Parts, port: u16) -> Option<String> {
        let said = request.uri.path().strip_prefix(ENTER)?;
        let cookie = format!("{}={}; Path=/; HttpOnly; SameSite=Strict", name(port), self.session.0);
        self.enter.is(said).then_some(cookie)
    }

    /// Why a request is refused; `None` for the browser that has come in.
    pub(super) fn refusal(&self, request: &Parts, port: u16) -> Option<(StatusCode, &'static str)> {
        let name = name(port);
        let cookies = request.headers.get_all(header::COOKIE).iter().filter_map(|c| c.to_str().ok());
        let mut pairs =
            cookies.flat_map(|line| line.split(';')).filter_map(|pair| pair.trim().split_once('='));
        let is_in = pairs.any(|(known, value)| known == name && self.session.is(value));
        let closed =
            "this desk is open in another browser: use the address that the program showed when it started";
        (!is_in).then_some((StatusCode::FORBIDDEN, closed))
    }

    /// Why what a form sent is refused.
    pub(super) fn refusal_of(&self, headers: &Parts, sent: &Request) -> Option<(StatusCode, &'static str)> {
        // A browser names where a form stands whenever it sends one.
        let named = one(&headers.headers, header::ORIGIN.as_str()).is_some();
        let has_key = sent.form.as_ref().and_then(|form| form.get(KEY)).is_some_and(|key| self.key.is(key));
        let why = "this form is not from the desk that runs now: open the page again, then send it once more";
        (!named || !has_key).then_some((StatusCode::FORBIDDEN, why))
    }
}

/// Cookies of a machine are shared by all ports.
fn name(port: u16) -> String {
    format!("desk-{port}")
}

impl Secret {
    fn draw() -> std::io::Result<Secret> {
        let mut bytes = [0; 32];
        getrandom::fill(&mut bytes).map_err(std::io::Error::other)?;
        let mut letters = String::new();
        for byte in bytes {
            let _ = write!(letters, "{byte:02x}");
        }
        Ok(Secret(letters))
    }

    /// Takes as long for every wrong word.
    fn is(&self, said: &str) -> bool {
        blake3::hash(self.0.as_bytes()) == blake3::hash(said.as_bytes())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::Fields;

    fn parts(uri: &str, headers: &[(&str, &str)]) -> Parts {
        let mut request = axum::http::Request::builder().uri(uri);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        request.body(()).unwrap().into_parts().0
    }

    #[test]
    fn only_the_first_address_gives_the_cookie_and_only_the_cookie_lets_in() {
        let (desk, other) = (Admission::draw().unwrap(), Admission::draw().unwrap());
        let cookie = desk.cookie(&parts(&desk.first(), &[]), 80).unwrap();
        assert!(cookie.ends_with("; Path=/; HttpOnly; SameSite=Strict"), "{cookie}");
        for path in [other.first().as_str(), "/-/enter/", "/-/enter", "/", &format!("{}a", desk.first())] {
            assert_eq!(desk.cookie(&parts(path, &[]), 80), None, "{path}");
        }
        let pair = cookie.split(';').next().unwrap();
        let let_in = |cookies: &[&str], port| {
            let headers: Vec<_> = cookies.iter().map(|value| ("cookie", *value)).collect();
            desk.refusal(&parts("/", &headers), port).is_none()
        };
        assert!(let_in(&[pair], 80));
        assert!(let_in(&["a=b", &format!("c=d; {pair}; e=f")], 80));
        let theirs = other.cookie(&parts(&other.first(), &[]), 80).unwrap();
        let shown = desk.first().replace(ENTER, "desk-80=");
        for wrong in
            ["", "desk-80=", "desk-80", theirs.split(';').next().unwrap(), &shown, &format!("{pair}0")]
        {
            assert!(!let_in(&[wrong], 80), "{wrong}");
        }
        assert!(!let_in(&[], 80));
        assert!(!let_in(&[pair], 81));
    }

    #[test]
    fn a_change_needs_the_key_and_says_where_it_comes_from() {
        let desk = Admission::draw().unwrap();
        let status = |key: Option<&str>, origin: bool| {
            let headers: &[_] = if origin { &[("origin", "http://127.0.0.1")] } else { &[] };
            let fields = Fields::of(key.map(|key| (KEY.to_string(), key.to_string())));
            let sent = Request {
                path: String::new(),
                query: Fields::default(),
                form: Some(fields),
                key: String::new(),
            };
            desk.refusal_of(&parts("/", headers), &sent).map(|(status, _)| status.as_u16())
        };
        assert_eq!(status(Some(desk.key()), true), None);
        assert_eq!(status(Some(desk.key()), false), Some(403));
        assert_eq!(status(None, true), Some(403));
        assert_eq!(status(Some(""), true), Some(403));
        assert_eq!(status(Some(Admission::draw().unwrap().key()), true), Some(403));
        assert_eq!(status(desk.first().strip_prefix(ENTER), true), Some(403));
    }
}
