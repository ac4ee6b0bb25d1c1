//! The local server: what is in memory, else what the preview makes when it is asked.

use std::convert::Infallible;
use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use std::net::{Ipv4Addr, SocketAddr};
use std::ops::Range;
use std::sync::Arc;
use std::sync::mpsc::Sender;
use std::time::Duration;

use axum::Router;
use axum::body::{Body, to_bytes};
use axum::extract::{Request, State};
use axum::http::request::Parts;
use axum::http::{Method, StatusCode, header};
use axum::response::sse::{self, Sse};
use axum::response::{IntoResponse, Response};
use tokio::net::TcpListener;
use tokio::runtime;
use tokio::sync::{mpsc, oneshot};
use tokio_stream::StreamExt;
use tokio_stream::wrappers::{ReceiverStream, WatchStream};

use super::admission::{Admission, DESK};
use super::shown::Shown;
use super::{Event, Wanted, dress, guard};
use crate::desk::{self, Fields};
use crate::model::link::decoded;

/// How many ports to try.
const PORTS: u16 = 100;

/// Where the preview's own files are: no page of a site has such an address.
const OWN: &str = "-/";

const STYLE: &str = include_str!("panel.css");

/// How much of a media file is read at a time, in bytes. For each browser that gets one, three times as much is in
/// memory at most: a piece is sent, one waits, one is read.
const PIECE: u64 = 256 * 1024;

/// How long a browser may take to send a form.
const PATIENCE: Duration = Duration::from_secs(20);

/// Pages of the desk load nothing from anywhere else, and nothing that an entry says runs in them.
const DESK_POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; \
                           font-src 'self'; connect-src 'self'; frame-src 'self'; form-action 'self'; \
                           base-uri 'none'; frame-ancestors 'none'";

/// The bytes that a player asks for: from, and to where it said so. Both are part of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct ByteRange {
    from: u64,
    to: Option<u64>,
}

/// What a browser gets.
#[derive(Debug)]
pub enum Reply {
    /// It is in memory now.
    Shown { path: String },
    /// A file, by its path, whose ending says what it is.
    File { path: String, bytes: Vec<u8> },
    /// A media file of `whole` bytes, open: it is read while it is sent.
    Media { path: String, file: File, whole: u64 },
    /// A piece of the preview's own panel.
    Piece(String),
    /// There is no such file; a page that says so.
    Missing(String),
    /// It cannot be made, and why.
    Unmade(String),
    /// What the desk answers.
    Desk(desk::Response),
}

#[derive(Clone)]
struct House {
    shown: Arc<Shown>,
    events: Sender<Event>,
    port: u16,
    admission: Option<Arc<Admission>>,
}

/// Begins to serve on a thread of its own; returns the address.
pub(super) fn start(
    port: u16,
    shown: Arc<Shown>,
    events: Sender<Event>,
    admission: Option<Admission>,
) -> io::Result<SocketAddr> {
    let listener = listen(port)?;
    listener.set_nonblocking(true)?;
    let address = listener.local_addr()?;
    let runtime = runtime::Builder::new_current_thread().enable_io().enable_time().build()?;
    let house = House { shown, events, port: address.port(), admission: admission.map(Arc::new) };
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
    let (request, body) = request.into_parts();
    let path = request.uri.path();
    let desk = house.admission.as_deref().filter(|_| path.starts_with(DESK));
    let mut response = match guard::refusal(&request, house.port, desk.is_some()) {
        Some(refused) => refusal(refused),
        None => match house.admission.as_deref().and_then(|a| a.cookie(&request, house.port)) {
            Some(cookie) => {
                (StatusCode::SEE_OTHER, [(header::LOCATION, DESK.to_string()), (header::SET_COOKIE, cookie)])
                    .into_response()
            }
            None => match house.admission.as_deref().and_then(|a| a.refusal(&request, house.port)) {
                Some(refused) => refusal(refused),
                None => match desk {
                    Some(admission) => at_desk(&house, admission, &request, body).await,
                    None => answer(&house, &request).await,
                },
            },
        },
    };
    let is_desk = desk.is_some();
    let headers = response.headers_mut();
    for (name, value) in [
        (header::CACHE_CONTROL, "no-store"),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        // The desk shows a page beside its entry; nobody else may.
        (header::X_FRAME_OPTIONS, if house.admission.is_some() && !is_desk { "SAMEORIGIN" } else { "DENY" }),
        (header::REFERRER_POLICY, if is_desk { "same-origin" } else { "no-referrer" }),
        // Beside the policy in the page, which cannot say who may frame it.
        (
            header::CONTENT_SECURITY_POLICY,
            match (is_desk, house.admission.is_some()) {
                (true, _) => DESK_POLICY,
                (false, true) => {
                    "frame-ancestors 'self'; base-uri 'none'; form-action 'none'; object-src 'none'"
                }
                (false, false) => {
                    "frame-ancestors 'none'; base-uri 'none'; form-action 'none'; object-src 'none'"
                }
            },
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

fn refusal((status, why): (StatusCode, &'static str)) -> Response {
    (status, format!("{why}\n")).into_response()
}

/// What the desk answers: it is asked with what a form sent, once that is known to be from the desk itself.
async fn at_desk(house: &House, admission: &Admission, request: &Parts, body: Body) -> Response {
    let path = request.uri.path();
    let path = decoded(path.strip_prefix(DESK).unwrap_or(path));
    let query = Fields::read(request.uri.query().unwrap_or_default().as_bytes());
    let form = match request.method {
        Method::POST => match sent_form(body).await {
            Ok(form) => Some(form),
            Err(refused) => return refusal(refused),
        },
        _ => None,
    };
    let asked = desk::Request { path, query, form, key: admission.key().to_string() };
    if let Some(refused) = asked.form.is_some().then(|| admission.refusal_of(request, &asked)).flatten() {
        return refusal(refused);
    }
    match ask(house, Wanted::Desk(asked)).await {
        Some(Reply::Desk(desk::Response::Page { status, html })) => {
            let status = StatusCode::from_u16(status).unwrap_or(StatusCode::OK);
            (status, [(header::CONTENT_TYPE, kind(".html"))], html).into_response()
        }
        Some(Reply::Desk(desk::Response::Go(to))) => {
            (StatusCode::SEE_OTHER, [(header::LOCATION, format!("{DESK}{to}"))]).into_response()
        }
        Some(Reply::Desk(desk::Response::File { path, bytes })) => typed(kind(&path), bytes),
        other => sent(other),
    }
}

async fn sent_form(body: Body) -> Result<Fields, (StatusCode, &'static str)> {
    let bytes = tokio::time::timeout(PATIENCE, to_bytes(body, desk::MOST)).await;
    match bytes {
        Ok(Ok(bytes)) => Ok(Fields::read(&bytes)),
        Ok(Err(_)) => Err((StatusCode::PAYLOAD_TOO_LARGE, "this is more than a form of the desk can hold")),
        Err(_) => Err((StatusCode::REQUEST_TIMEOUT, "the rest of what was sent never came")),
    }
}

async fn answer(house: &House, request: &Parts) -> Response {
    let path = request.uri.path();
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
    match ask(house, Wanted::File { path: path.clone() }).await {
        Some(Reply::Shown { path }) => match house.shown.page(&path) {
            Some(page) => typed(kind(&path), page.as_bytes().to_vec()),
            // It has just been forgotten for a change: the browser asks again for what comes of it.
            None => (StatusCode::SERVICE_UNAVAILABLE, [(header::RETRY_AFTER, "1")]).into_response(),
        },
        Some(Reply::Media { path, file, whole }) => media(&path, file, whole, request),
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
        ask(house, Wanted::File { path: page.to_string() }).await;
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
        Some(Reply::File { path, bytes }) => typed(kind(&path), bytes),
        Some(Reply::Piece(html)) => typed(HTML, html.into()),
        Some(Reply::Missing(html)) => {
            (StatusCode::NOT_FOUND, [(header::CONTENT_TYPE, HTML)], html).into_response()
        }
        Some(Reply::Unmade(html)) => {
            (StatusCode::INTERNAL_SERVER_ERROR, [(header::CONTENT_TYPE, HTML)], html).into_response()
        }
        // These are sent where they are asked for.
        Some(Reply::Shown { .. } | Reply::Media { .. } | Reply::Desk(_)) | None => {
            StatusCode::SERVICE_UNAVAILABLE.into_response()
        }
    }
}

/// A media file, or the part of it that is asked for; for HEAD what would be said of it, and not a byte of it is read.
fn media(path: &str, file: File, whole: u64, request: &Parts) -> Response {
    let head = request.method == Method::HEAD;
    // A range is a matter of GET alone (RFC 9110, 14.2).
    let range = request.headers.get(header::RANGE).filter(|_| !head);
    let asked = range.and_then(|range| ByteRange::read(range.to_str().ok()?));
    let part = asked.map(|part| part.of(whole));
    if part == Some(None) {
        let range = format!("bytes */{whole}");
        return (StatusCode::RANGE_NOT_SATISFIABLE, [(header::CONTENT_RANGE, range)]).into_response();
    }
    let part = part.flatten();
    let bytes = part.clone().unwrap_or(0..whole);
    let headers = [
        (header::CONTENT_TYPE, kind(path).to_string()),
        (header::CONTENT_LENGTH, (bytes.end - bytes.start).to_string()),
        (header::ACCEPT_RANGES, "bytes".to_string()),
    ];
    let body = if head { Body::empty() } else { streamed(file, bytes) };
    match part {
        Some(Range { start, end }) => {
            let range = format!("bytes {start}-{}/{whole}", end - 1);
            (StatusCode::PARTIAL_CONTENT, headers, [(header::CONTENT_RANGE, range)], body).into_response()
        }
        None => (headers, body).into_response(),
    }
}

/// These bytes of a file, read piece by piece as they are sent, on a thread where waiting for the disk or for the
/// browser keeps nobody else waiting. A file that ends before them ends the connection: its length was promised.
fn streamed(mut file: File, bytes: Range<u64>) -> Body {
    let (pieces, sent) = mpsc::channel(1);
    tokio::task::spawn_blocking(move || {
        let mut at = bytes.start;
        while at < bytes.end {
            let piece = piece(&mut file, at..bytes.end);
            let read = piece.as_ref().map_or(0, Vec::len) as u64;
            // Whoever asked may be gone again.
            if pieces.blocking_send(piece).is_err() || read == 0 {
                return;
            }
            at += read;
        }
    });
    Body::from_stream(ReceiverStream::new(sent))
}

/// The first of these bytes of a file, as many as are read at a time.
fn piece(file: &mut File, bytes: Range<u64>) -> io::Result<Vec<u8>> {
    let mut piece = vec![0; (bytes.end - bytes.start).min(PIECE) as usize];
    file.seek(SeekFrom::Start(bytes.start))?;
    file.read_exact(&mut piece)?;
    Ok(piece)
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

impl ByteRange {
    /// A header such as `bytes=0-` (RFC 9110, 14.1.2). What is no single range from a first byte is none: the whole
    /// file is a right answer to it.
    fn read(header: &str) -> Option<ByteRange> {
        let (from, to) = header.strip_prefix("bytes=")?.split_once('-')?;
        let from = position(from)?;
        let to = if to.is_empty() { None } else { Some(position(to)?) };
        to.is_none_or(|to| from <= to).then_some(ByteRange { from, to })
    }

    /// The bytes that it means of a file of `whole` bytes; none where it begins after the last of them.
    fn of(self, whole: u64) -> Option<Range<u64>> {
        let end = self.to.map_or(whole, |to| to.saturating_add(1).min(whole));
        (self.from < end).then_some(self.from..end)
    }
}

/// Digits and nothing else. A number that is too large for any file stands for its end.
fn position(text: &str) -> Option<u64> {
    let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    digits.then(|| text.parse().unwrap_or(u64::MAX))
}

#[cfg(test)]
mod tests {
    use std::io::Write;

    use super::*;

    #[test]
    fn a_range_is_read_as_players_write_it() {
        assert_eq!(ByteRange::read("bytes=0-"), Some(ByteRange { from: 0, to: None }));
        assert_eq!(ByteRange::read("bytes=5-9"), Some(ByteRange { from: 5, to: Some(9) }));
        for other in ["bytes=9-5", "bytes=-5", "bytes=0-1,4-5", "lines=0-1", "bytes=a-", "bytes=+0-"] {
            assert_eq!(ByteRange::read(other), None, "{other}");
        }
    }

    #[test]
    fn a_range_ends_with_the_file_however_large_its_numbers() {
        let of = |header: &str, whole| ByteRange::read(header).unwrap().of(whole);
        for to in ["", "9", "10", "18446744073709551615", "99999999999999999999999999"] {
            assert_eq!(of(&format!("bytes=4-{to}"), 10), Some(4..10), "{to}");
        }
        assert_eq!(of("bytes=0-0", 10), Some(0..1));
        assert_eq!(of("bytes=9-", 10), Some(9..10));
        for header in ["bytes=10-", "bytes=10-12", "bytes=18446744073709551615-"] {
            assert_eq!(of(header, 10), None, "{header}");
        }
        assert_eq!(of("bytes=0-", 0), None);
    }

    fn received(file: &File, bytes: Range<u64>) -> Result<Vec<u8>, axum::Error> {
        let file = file.try_clone().unwrap();
        let runtime = runtime::Builder::new_current_thread().build().unwrap();
        let received = runtime.block_on(async { to_bytes(streamed(file, bytes), usize::MAX).await });
        received.map(|bytes| bytes.to_vec())
    }

    #[test]
    fn a_file_is_sent_in_pieces_from_byte_to_byte() {
        let all: Vec<u8> = (0..3 * PIECE + 7).map(|n| (n % 251) as u8).collect();
        let mut file = tempfile::tempfile().unwrap();
        file.write_all(&all).unwrap();
        let whole = all.len() as u64;
        for bytes in [0..whole, 1..whole, 0..PIECE, PIECE - 1..PIECE + 1, whole - 1..whole, 5..5] {
            let expected = &all[bytes.start as usize..bytes.end as usize];
            assert!(received(&file, bytes.clone()).unwrap() == expected, "{bytes:?}");
        }
    }

    #[test]
    fn a_file_that_is_shorter_than_was_promised_is_no_whole_answer() {
        let mut file = tempfile::tempfile().unwrap();
        file.write_all(b"ten bytes.").unwrap();
        assert_eq!(received(&file, 0..10).unwrap(), b"ten bytes.");
        file.set_len(9).unwrap();
        assert!(received(&file, 0..10).is_err());
        assert!(received(&file, 20..30).is_err());
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
