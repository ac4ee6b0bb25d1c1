//! The preview's server, asked over a socket of this machine as a browser or an attacker would.

use std::fs;
use std::io::{Read, Write};
use std::net::{Ipv4Addr, Shutdown, TcpListener, TcpStream};
use std::sync::LazyLock;
use std::thread::sleep;
use std::time::Duration;

use steadyleaf::workspace::sample;

/// Stands in files that the preview must never serve.
const SECRET: &str = "Q. Quill, whom nobody may read of";

static PORT: LazyLock<u16> = LazyLock::new(open);

/// Starts the preview of a workspace with a person's profile and a film.
fn open() -> u16 {
    let folder = tempfile::tempdir().unwrap().keep();
    let root = folder.join("site");
    for (name, bytes) in sample::files() {
        let path = root.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
    fs::create_dir_all(root.join("clients")).unwrap();
    fs::create_dir_all(root.join("content/media")).unwrap();
    fs::write(root.join("clients/anna.toml"), format!("name = \"{SECRET}\"\nprecautions = []\n")).unwrap();
    fs::write(root.join("content/media/unused.txt"), SECRET).unwrap();
    fs::write(folder.join("beside.txt"), SECRET).unwrap();
    let about = root.join("content/pages/about.md");
    let text = fs::read_to_string(&about).unwrap() + "\n[A film](../media/film.mp4)\n";
    fs::write(about, text).unwrap();
    fs::write(root.join("content/media/film.mp4"), [7; 5000]).unwrap();
    let port = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).unwrap().local_addr().unwrap().port();
    let arguments = [
        "steadyleaf".to_string(),
        "proof".into(),
        "--quiet".into(),
        format!("--workspace={}", root.display()),
        "--today=2026-01-14".into(),
        format!("--port={port}"),
    ];
    std::thread::spawn(move || {
        steadyleaf::cli::run_with(arguments.map(Into::into));
        std::process::abort();
    });
    for _ in 0..600 {
        if TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_ok() {
            return port;
        }
        sleep(Duration::from_millis(100));
    }
    panic!("the preview does not listen");
}

/// Sends one request, or what looks like one, and reads what comes back.
pub(crate) fn answered(data: &[u8]) {
    let port = *PORT;
    let asked = String::from_utf8_lossy(data).replace("PORT", &port.to_string());
    let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, port)).unwrap();
    stream.set_read_timeout(Some(Duration::from_millis(400))).unwrap();
    // Whoever is refused may hear of it before it has said all.
    let _ = stream.write_all(asked.as_bytes());
    let _ = stream.shutdown(Shutdown::Write);
    let mut answer = Vec::new();
    let mut part = [0; 16 * 1024];
    while let Ok(length @ 1..) = stream.read(&mut part) {
        answer.extend_from_slice(&part[..length]);
        assert!(answer.len() < 50_000_000, "an answer without end");
    }
    let text = String::from_utf8_lossy(&answer);
    assert!(!text.contains(SECRET), "what nobody may read was served");
    let Some(status) = text.strip_prefix("HTTP/1.").and_then(|rest| rest.get(2..5)) else {
        assert!(answer.is_empty(), "no answer of HTTP: {text}");
        return;
    };
    let is_served = status.starts_with('2');
    let hosts = asked.lines().filter(|line| line.to_ascii_lowercase().starts_with("host:")).count();
    let is_read = asked.trim_start().starts_with("GET ") || asked.trim_start().starts_with("HEAD ");
    assert!(!is_served || (hosts >= 1 && is_read), "served: {asked}");
    assert!(status != "500" || asked.contains("/-/") || text.contains("cannot be made"), "500 for {asked}");
}
