//! The local server: what is in memory, else what the preview makes when it is asked.

use std::convert::Infallible;
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::sync::mpsc::Sender;

use axum::Router;
use axum::body::Body;
use axum::extract::{Request, State};
use axum::http::{HeaderMap, StatusCode, header};
use axum::response::sse::{self, Sse};
use axum::response::{IntoResponse, Response};
use tokio::net::TcpListener;
use tokio::runtime;
use tokio::sync::oneshot;
use tokio_stream::StreamExt;
use tokio_stream::wrappers::WatchStream;

use super::shown::Shown;
use super::{Event, Wanted, dress, guard};
use crate::outputs::links::decoded;

/// How many ports to try.
const PORTS: u16 = 100;

/// Where the preview's own files are: no page of a site has such an address.
const OWN: &str = "-/";

const SCRIPT: &str = include_str!("page.js");
const STYLE: &str = include_str!("panel.css");

/// The bytes that a player asks for: from, and to where it said so. Both are part of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    pub from: u64,
    pub to: Option<u64>,
}

/// What a browser gets.
#[derive(Debug)]
pub enum Reply {
    /// It is in memory now.
    Shown { path: String },
    /// A file, by its path, whose ending says what it is.
    File { path: String, bytes: Vec<u8> },
    /// A part of a file that has `whole` bytes.
    Part { path: String, from: u64, whole: u64, bytes: Vec<u8> },
    /// A piece of the preview's own panel.
    Piece(String),
    /// There is no such file; a page that says so.
    Missing(String),
    /// It cannot be made, and why.
    Unmade(String),
}

#[derive(Clone)]
struct House {
    shown: Arc<Shown>,
    events: Sender<Event>,
    port: u16,
}

/// Begins to serve on a thread of its own; returns the address.
pub(super) fn start(port: u16, shown: Arc<Shown>, events: Sender<Event>) -> io::Result<SocketAddr> {
    let listener = listen(port)?;
    listener.set_nonblocking(true)?;
    let address = listener.local_addr()?;
    let runtime = runtime::Builder::new_current_thread().enable_io().enable_time().build()?;
    let house = House { shown, events, port: address.port() };
    std::thread::spawn(move || {
        runtime.block_on(async {
            let stop = house.events.clone();
            tokio::spawn(async move {
                if tokio::signal::ctrl_c().await.is_ok() {
                    let _ = stop.send(Event::Stop);
                }
            });
            let router = Router::new().fallback(serve).with_state(house);
            // Serving goes on until the program ends.
            if let Ok(listener) = TcpListener::from_std(listener) {
                let _ = axum::serve(listener, router).await;
            }
        });
    });
    Ok(address)
}

/// The first free port from `port` on.
#[expect(clippy::disallowed_methods, reason = "this is the door that listens, to this machine alone")]
fn listen(port: u16) -> io::Result<std::net::TcpListener> {
    let last = port.saturating_add(PORTS - 1);
    let mut taken = None;
    for port in port..=last {
        match std::net::TcpListener::bind((Ipv4Addr::LOCALHOST, port)) {
            Ok(listener) => return Ok(listener),
            Err(error) => taken = Some(error),
        }
    }
    Err(taken.unwrap_or_else(|| io::ErrorKind::AddrInUse.into()))
}

async fn serve(State(house): State<House>, request: Request) -> Response {
    let (request, _) = request.into_parts();
    let mut response = match guard::refusal(&request, house.port) {
        Some((status, why)) => (status, format!("{why}\n")).into_response(),
        None => answer(&house, request.uri.path(), &request.headers).await,
    };
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CACHE_CONTROL, "no-store"),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (header::REFERRER_POLICY, "no-referrer"),
        // Beside the policy in the page, which cannot say who may frame it.
        (
            header::CONTENT_SECURITY_POLICY,
            "frame-ancestors 'none'; base-uri 'none'; form-action 'none'; object-src 'none'",
        ),
    ] {
        headers.insert(name, header::HeaderValue::from_static(value));
    }
    headers.insert(
        header::HeaderName::from_static("cross-origin-resource-policy"),
        header::HeaderValue::from_static("same-origin"),
    );
    response
}

async fn answer(house: &House, path: &str, headers: &HeaderMap) -> Response {
    let mut path = decoded(path.strip_prefix('/').unwrap_or(path));
    if let Some(own) = path.strip_prefix(OWN) {
        return own_file(house, own).await;
    }
    if path.is_empty() || path.ends_with('/') {
        path.push_str("index.html");
    }
    if let Some(page) = house.shown.page(&path) {
        return typed(kind(&path), page.as_bytes().to_vec());
    }
    let part = headers.get(header::RANGE).and_then(|range| Part::read(range.to_str().ok()?));
    match ask(house, Wanted::File { path: path.clone(), part }).await {
        Some(Reply::Shown { path }) => match house.shown.page(&path) {
            Some(page) => typed(kind(&path), page.as_bytes().to_vec()),
            // It has just been forgotten for a change: the browser asks again for what comes of it.
            None => (StatusCode::SERVICE_UNAVAILABLE, [(header::RETRY_AFTER, "1")]).into_response(),
        },
        // Both follow what is saved, and are a page as soon as there is one.
        Some(Reply::Missing(html)) => sent(Some(Reply::Missing(dress::dressed(&html, &path, "")))),
        Some(Reply::Unmade(why)) => sent(Some(Reply::Unmade(dress::dressed(&unmade(&why), &path, "")))),
        other => sent(other),
    }
}

/// A page in the place of what cannot be made.
fn unmade(why: &str) -> String {
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<title>Not made yet</title>\n</head>\n\
         <body>\n<main>\n<h1>This cannot be made yet</h1>\n<pre>{}</pre>\n</main>\n</body>\n</html>\n",
        dress::escaped(why)
    )
}

async fn own_file(house: &House, name: &str) -> Response {
    match name.split_once('/') {
        None if name == "page.js" => typed("text/javascript; charset=utf-8", SCRIPT.into()),
        None if name == "panel.css" => typed("text/css; charset=utf-8", STYLE.into()),
        Some(("changes", page)) => changes(house, page).await,
        Some(("panel", page)) => sent(ask(house, Wanted::Panel { page: page.to_string() }).await),
        Some(("excerpt", rest)) => {
            let numbers = rest.split_once('/').and_then(|(r, f)| Some((r.parse().ok()?, f.parse().ok()?)));
            match numbers {
                Some((review, finding)) => sent(ask(house, Wanted::Excerpt { review, finding }).await),
                None => StatusCode::NOT_FOUND.into_response(),
            }
        }
        _ => StatusCode::NOT_FOUND.into_response(),
    }
}

/// A stream of what the page should look like, as marks, whenever it changes.
async fn changes(house: &House, page: &str) -> Response {
    let open = house.shown.opened(page);
    let marks = WatchStream::new(house.shown.marks());
    if house.shown.page(page).is_none() {
        // A page that is open is made, so that it can be told from what comes of the next change.
        ask(house, Wanted::File { path: page.to_string(), part: None }).await;
    }
    let mut last = String::new();
    let told = marks.filter_map(move |marks| {
        let told = marks.told(&open.path);
        (told != last).then(|| {
            last.clone_from(&told);
            Ok::<_, Infallible>(sse::Event::default().data(told))
        })
    });
    Sse::new(told).into_response()
}

async fn ask(house: &House, wanted: Wanted) -> Option<Reply> {
    let (reply, answer) = oneshot::channel();
    house.events.send(Event::Wanted(wanted, reply)).ok()?;
    answer.await.ok()
}

fn sent(reply: Option<Reply>) -> Response {
    const HTML: &str = "text/html; charset=utf-8";
    match reply {
        Some(Reply::File { path, bytes }) => {
            let mut response = typed(kind(&path), bytes);
            response.headers_mut().insert(header::ACCEPT_RANGES, header::HeaderValue::from_static("bytes"));
            response
        }
        Some(Reply::Part { path, from, whole, bytes }) if !bytes.is_empty() => {
            let range = format!("bytes {from}-{}/{whole}", from + bytes.len() as u64 - 1);
            let headers = [(header::CONTENT_TYPE, kind(&path).to_string()), (header::CONTENT_RANGE, range)];
            (StatusCode::PARTIAL_CONTENT, headers, Body::from(bytes)).into_response()
        }
        Some(Reply::Part { whole, .. }) => {
            let headers = [(header::CONTENT_RANGE, format!("bytes */{whole}"))];
            (StatusCode::RANGE_NOT_SATISFIABLE, headers).into_response()
        }
        Some(Reply::Piece(html)) => typed(HTML, html.into()),
        Some(Reply::Missing(html)) => {
            (StatusCode::NOT_FOUND, [(header::CONTENT_TYPE, HTML)], html).into_response()
        }
        Some(Reply::Unmade(html)) => {
            (StatusCode::INTERNAL_SERVER_ERROR, [(header::CONTENT_TYPE, HTML)], html).into_response()
        }
        Some(Reply::Shown { .. }) | None => StatusCode::SERVICE_UNAVAILABLE.into_response(),
    }
}

fn typed(kind: &'static str, bytes: Vec<u8>) -> Response {
    ([(header::CONTENT_TYPE, kind)], Body::from(bytes)).into_response()
}

/// The media type of a file by its ending.
fn kind(path: &str) -> &'static str {
    let ending = path.rsplit_once('.').map_or("", |(_, ending)| ending).to_ascii_lowercase();
    match ending.as_str() {
        "html" => "text/html; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "svg" => "image/svg+xml",
        "woff2" => "font/woff2",
        "txt" => "text/plain; charset=utf-8",
        "jpg" | "jpeg" => "image/jpeg",
        "png" => "image/png",
        "webp" => "image/webp",
        "pdf" => "application/pdf",
        "xml" => "application/xml; charset=utf-8",
        "ics" => "text/calendar; charset=utf-8",
        "vtt" => "text/vtt; charset=utf-8",
        "mp4" | "m4v" => "video/mp4",
        "webm" => "video/webm",
        "mp3" => "audio/mpeg",
        "m4a" => "audio/mp4",
        "ogg" => "audio/ogg",
        _ => "application/octet-stream",
    }
}

impl Part {
    /// A header such as `bytes=0-` (RFC 9110, 14.1.2). What is no single range from a first byte is none: the whole
    /// file is a right answer to it.
    fn read(header: &str) -> Option<Part> {
        let (from, to) = header.strip_prefix("bytes=")?.split_once('-')?;
        let from = from.parse().ok()?;
        let to = if to.is_empty() { None } else { Some(to.parse().ok()?) };
        to.is_none_or(|to| from <= to).then_some(Part { from, to })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_is_read_as_players_write_it() {
        assert_eq!(Part::read("bytes=0-"), Some(Part { from: 0, to: None }));
        assert_eq!(Part::read("bytes=5-9"), Some(Part { from: 5, to: Some(9) }));
        for other in ["bytes=9-5", "bytes=-5", "bytes=0-1,4-5", "lines=0-1", "bytes=a-"] {
            assert_eq!(Part::read(other), None, "{other}");
        }
    }

    #[test]
    fn a_port_that_is_taken_gives_way_to_the_next_one() {
        let first = listen(0).unwrap();
        let taken = first.local_addr().unwrap().port();
        // The last port has no next one.
        if taken < u16::MAX {
            let next = listen(taken).unwrap().local_addr().unwrap();
            assert!(next.port() > taken && next.ip().is_loopback(), "{next}");
        }
    }
}
