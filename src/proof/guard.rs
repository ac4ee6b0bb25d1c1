//! Who is served: a browser on this machine that was sent to this address, and nobody whom another site sends.
//!
//! A page of any site can have a browser ask this server, and a name of its own can lead to this machine; neither
//! may read what is being written here, nor send anything.

use axum::http::request::Parts;
use axum::http::{HeaderMap, Method, StatusCode, header};

/// Why a request is refused, with a line for a person; `None` when it is served. Only where something is `taken`, it may
/// be sent.
pub(super) fn refusal(request: &Parts, port: u16, taken: bool) -> Option<(StatusCode, &'static str)> {
    let is_own = |host: &str| {
        // Browsers leave the port out where it is that of the scheme.
        let (name, of) = host.rsplit_once(':').unwrap_or((host, "80"));
        of == port.to_string() && ["127.0.0.1", "localhost"].iter().any(|own| own.eq_ignore_ascii_case(name))
    };
    if !one(&request.headers, header::HOST.as_str()).is_some_and(is_own)
        || request.uri.authority().is_some_and(|a| !is_own(a.as_str()))
    {
        return Some((StatusCode::MISDIRECTED_REQUEST, "the preview answers at its own address only"));
    }
    let same_origin = |origin: &str| origin.strip_prefix("http://").is_some_and(is_own);
    let from_elsewhere = request.headers.contains_key(header::ORIGIN)
        && !one(&request.headers, header::ORIGIN.as_str()).is_some_and(same_origin);
    let site = "sec-fetch-site";
    let sent_from_elsewhere = request.headers.contains_key(site)
        && !one(&request.headers, site).is_some_and(|s| matches!(s, "same-origin" | "none"));
    if from_elsewhere || sent_from_elsewhere {
        return Some((StatusCode::FORBIDDEN, "the preview answers no other site"));
    }
    if !matches!(request.method, Method::GET | Method::HEAD) && (!taken || request.method != Method::POST) {
        return Some((StatusCode::METHOD_NOT_ALLOWED, "the preview only shows"));
    }
    None
}

/// The value of a header that stands once.
pub(super) fn one<'h>(headers: &'h HeaderMap, name: &str) -> Option<&'h str> {
    let mut values = headers.get_all(name).iter();
    let value = values.next()?.to_str().ok()?;
    values.next().is_none().then_some(value)
}

#[cfg(test)]
mod tests {
    use axum::http::Request;

    use super::*;

    fn status(method: &str, uri: &str, headers: &[(&str, &str)]) -> Option<u16> {
        status_at(5323, method, uri, headers)
    }

    fn status_at(port: u16, method: &str, uri: &str, headers: &[(&str, &str)]) -> Option<u16> {
        refused(port, method, uri, headers, false)
    }

    fn refused(port: u16, method: &str, uri: &str, headers: &[(&str, &str)], taken: bool) -> Option<u16> {
        let mut request = Request::builder().method(method).uri(uri);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let (parts, ()) = request.body(()).unwrap().into_parts();
        refusal(&parts, port, taken).map(|(status, _)| status.as_u16())
    }

    #[test]
    fn only_its_own_address_is_answered() {
        for host in ["127.0.0.1:5323", "localhost:5323", "LOCALHOST:5323"] {
            assert_eq!(status("GET", "/", &[("host", host)]), None, "{host}");
        }
        for host in [
            "127.0.0.1",
            "localhost:80",
            "hill.example:5323",
            "127.0.0.1.hill.example:5323",
            "0.0.0.0:5323",
            "",
        ] {
            assert_eq!(status("GET", "/", &[("host", host)]), Some(421), "{host}");
        }
        assert_eq!(status("GET", "/", &[]), Some(421));
        assert_eq!(status("GET", "/", &[("host", "127.0.0.1:5323"), ("host", "hill.example")]), Some(421));
        assert_eq!(status("GET", "http://hill.example/", &[("host", "127.0.0.1:5323")]), Some(421));
    }

    #[test]
    fn at_the_port_of_the_scheme_browsers_name_none() {
        for host in ["127.0.0.1", "localhost", "localhost:80"] {
            assert_eq!(status_at(80, "GET", "/", &[("host", host)]), None, "{host}");
            let origin = format!("http://{host}");
            assert_eq!(status_at(80, "GET", "/", &[("host", host), ("origin", &origin)]), None, "{origin}");
        }
        for host in ["hill.example", "localhost:5323", "127.0.0.1:", ""] {
            assert_eq!(status_at(80, "GET", "/", &[("host", host)]), Some(421), "{host}");
        }
    }

    #[test]
    fn no_other_site_is_answered() {
        let with = |name: &str, value: &str| status("GET", "/", &[("host", "127.0.0.1:5323"), (name, value)]);
        assert_eq!(with("origin", "http://127.0.0.1:5323"), None);
        for origin in ["http://hill.example", "null", "https://127.0.0.1:5323", "http://127.0.0.1:80", ""] {
            assert_eq!(with("origin", origin), Some(403), "{origin}");
        }
        for (site, expected) in
            [("same-origin", None), ("none", None), ("same-site", Some(403)), ("cross-site", Some(403))]
        {
            assert_eq!(with("sec-fetch-site", site), expected, "{site}");
        }
    }

    #[test]
    fn nothing_can_be_sent() {
        for method in ["POST", "PUT", "DELETE", "OPTIONS", "PATCH"] {
            assert_eq!(status(method, "/", &[("host", "localhost:5323")]), Some(405), "{method}");
        }
        assert_eq!(status("HEAD", "/", &[("host", "localhost:5323")]), None);
    }

    #[test]
    fn where_something_is_taken_it_can_be_posted_from_here_alone() {
        let sent = |method: &str, origin: &str| {
            refused(5323, method, "/", &[("host", "localhost:5323"), ("origin", origin)], true)
        };
        assert_eq!(sent("POST", "http://localhost:5323"), None);
        assert_eq!(sent("POST", "http://hill.example"), Some(403));
        for method in ["PUT", "DELETE", "OPTIONS", "PATCH"] {
            assert_eq!(sent(method, "http://localhost:5323"), Some(405), "{method}");
        }
    }
}
