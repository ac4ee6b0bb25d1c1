//! Videos in the preview: however long one is, little of it is in memory, and nobody waits for it. One that says where it
//! was filmed is looked at as soon as it is saved.

use std::fs::{self, File, OpenOptions};
use std::io::{ErrorKind, Read, Write};
use std::net::TcpStream;
use std::os::unix::fs::FileExt;
use std::time::Duration;

use crate::preview::{Preview, Workspace};

/// Many times as much as any machine sends before somebody reads it.
const LENGTH: u64 = 300_000_000;

const VIDEO: &str = "content/media/long.mp4";

/// A workspace with a video in it. The disk keeps no more of it than its last words.
fn workspace() -> Workspace {
    let workspace = Workspace::begun();
    fs::create_dir_all(workspace.path("content/media")).unwrap();
    let video = File::create(workspace.path(VIDEO)).unwrap();
    video.set_len(LENGTH).unwrap();
    video.write_all_at(b"the end", LENGTH - 7).unwrap();
    let page = "content/pages/about.md";
    workspace.edit(page, "\n```\n", "\n```\n[A video](../media/long.mp4)\n\n");
    workspace
}

/// Asks for the whole video. Returns what is said of it, in small letters, and the connection over which it comes.
fn ask(preview: &Preview) -> (String, TcpStream) {
    let mut stream = TcpStream::connect(&preview.address).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
    let host = &preview.address;
    write!(stream, "GET /media/long.mp4 HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").unwrap();
    let mut head = Vec::new();
    while !head.ends_with(b"\r\n\r\n") {
        let mut byte = [0];
        stream.read_exact(&mut byte).unwrap();
        head.extend(byte);
    }
    (String::from_utf8(head).unwrap().to_lowercase(), stream)
}

/// How many bytes come until the connection ends.
fn received(mut stream: TcpStream) -> u64 {
    let mut piece = vec![0; 1 << 16];
    let mut count = 0;
    loop {
        match stream.read(&mut piece) {
            Ok(0) => return count,
            Ok(read) => count += read as u64,
            Err(error) if matches!(error.kind(), ErrorKind::WouldBlock | ErrorKind::TimedOut) => {
                panic!("after {count} bytes nothing comes, and the connection stays open")
            }
            Err(_) => return count,
        }
    }
}

/// The most memory that the preview has had, in kB (proc(5), `VmHWM`).
#[cfg(target_os = "linux")]
fn peak(preview: &Preview) -> u64 {
    let status = fs::read_to_string(format!("/proc/{}/status", preview.child.id())).unwrap();
    let line = status.lines().find(|line| line.starts_with("VmHWM:")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse().unwrap()
}

#[cfg(target_os = "linux")]
#[test]
fn a_long_video_is_sent_whole_and_takes_little_memory() {
    let workspace = workspace();
    let preview = workspace.proof();
    let range = [("Host", preview.address.as_str()), ("Range", "bytes=0-0")];
    assert_eq!(preview.ask("GET", "/media/long.mp4", &range).body, [0]);
    // The panel is there when the first review is done, which takes memory too.
    preview.get("/-/panel/pages/about.html");
    let before = peak(&preview);
    let (head, stream) = ask(&preview);
    assert!(head.starts_with("http/1.1 200 "), "{head}");
    assert!(head.contains("content-type: video/mp4\r\n"), "{head}");
    assert!(head.contains(&format!("content-length: {LENGTH}\r\n")), "{head}");
    assert!(head.contains("accept-ranges: bytes\r\n"), "{head}");
    assert_eq!(received(stream), LENGTH);
    let more = peak(&preview) - before;
    assert!(more < 50_000, "{more} kB");
}

#[test]
fn a_part_of_a_video_is_those_bytes_and_no_others() {
    let workspace = workspace();
    let preview = workspace.proof();
    let ask = |range: &str| {
        let headers = [("Host", preview.address.as_str()), ("Range", range)];
        let answer = preview.ask("GET", "/media/long.mp4", &headers);
        let head = answer.head.to_lowercase();
        let line = head.lines().find_map(|line| line.strip_prefix("content-range: "));
        (answer.status, line.unwrap_or_default().to_string(), answer.body)
    };
    let last = LENGTH - 1;
    for to in ["", "299999999", "300000000", "18446744073709551615"] {
        let expected = (206, format!("bytes {}-{last}/{LENGTH}", LENGTH - 7), b"the end".to_vec());
        assert_eq!(ask(&format!("bytes={}-{to}", LENGTH - 7)), expected, "{to}");
    }
    let expected = (206, format!("bytes {}-{}/{LENGTH}", LENGTH - 7, LENGTH - 5), b"the".to_vec());
    assert_eq!(ask(&format!("bytes={}-{}", LENGTH - 7, LENGTH - 5)), expected);
    for beyond in ["bytes=300000000-", "bytes=300000000-300000001", "bytes=18446744073709551615-"] {
        let (status, range, body) = ask(beyond);
        assert_eq!((status, range, body.len()), (416, format!("bytes */{LENGTH}"), 0), "{beyond}");
    }
}

#[test]
fn whoever_asks_for_the_head_alone_gets_no_byte_of_the_video() {
    let workspace = workspace();
    let preview = workspace.proof();
    let host = ("Host", preview.address.as_str());
    for headers in [&[host][..], &[host, ("Range", "bytes=0-9")]] {
        let answer = preview.ask("HEAD", "/media/long.mp4", headers);
        assert_eq!((answer.status, answer.body.len()), (200, 0));
        let head = answer.head.to_lowercase();
        assert!(head.contains(&format!("content-length: {LENGTH}")), "{head}");
    }
}

#[test]
fn browsers_that_do_not_read_on_keep_nobody_waiting() {
    let workspace = workspace();
    let preview = workspace.proof();
    let _waiting: Vec<_> = (0..5).map(|_| ask(&preview)).collect();
    assert_eq!(preview.get("/pages/about.html").status, 200);
    let host = ("Host", preview.address.as_str());
    let answer = preview.ask("GET", "/media/long.mp4", &[host, ("Range", "bytes=0-9")]);
    assert_eq!((answer.status, answer.body.len()), (206, 10));
}

#[test]
fn a_video_that_is_cut_off_while_it_is_sent_ends_the_connection() {
    let workspace = workspace();
    let preview = workspace.proof();
    let (head, stream) = ask(&preview);
    assert!(head.contains(&format!("content-length: {LENGTH}\r\n")), "{head}");
    let video = OpenOptions::new().write(true).open(workspace.path(VIDEO)).unwrap();
    video.set_len(1_000).unwrap();
    let count = received(stream);
    assert!(count < LENGTH, "{count}");
}

#[test]
fn a_video_that_says_where_it_was_filmed_is_told_when_it_is_saved() {
    /// `moov/udta/©xyz` of the QuickTime File Format and nothing else, with a place in the ocean.
    const FILMED: &[u8] = b"\0\0\0\x2emoov\0\0\0\x26udta\0\0\0\x1e\xa9xyz\0\x12\x15\xc7+10.0000-030.0000/";
    let workspace = workspace();
    let mut preview = workspace.proof();
    let told =
        |preview: &Preview| preview.get("/-/panel/pages/about.html").text().contains("position-in-video");
    assert!(!told(&preview));
    for (bytes, says) in [(FILMED, true), (&FILMED[..40], false)] {
        fs::write(workspace.path(VIDEO), bytes).unwrap();
        preview.says();
        assert_eq!(told(&preview), says);
    }
}
