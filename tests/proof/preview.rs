//! A preview that runs, and a browser of a few lines that asks it.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};
use std::time::Duration;

use tempfile::TempDir;

pub(crate) const TODAY: &str = "2026-01-12";

/// A workspace in a folder of its own, so that there is something beside it.
pub(crate) struct Workspace {
    folder: TempDir,
}

impl Workspace {
    /// The sample that `begin` writes.
    pub(crate) fn begun() -> Workspace {
        let workspace = Workspace { folder: tempfile::tempdir().unwrap() };
        let output =
            steadyleaf().arg("begin").arg(workspace.root()).args(["--today", TODAY]).output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{output:?}");
        workspace
    }

    /// The folder that the workspace stands in.
    pub(crate) fn beside(&self) -> &Path {
        self.folder.path()
    }

    pub(crate) fn root(&self) -> PathBuf {
        self.folder.path().join("workspace")
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.root().join(name)
    }

    pub(crate) fn write(&self, name: &str, text: &str) {
        fs::create_dir_all(self.path(name).parent().unwrap()).unwrap();
        fs::write(self.path(name), text).unwrap();
    }

    /// Replaces words of a file; they must be there.
    pub(crate) fn edit(&self, name: &str, old: &str, new: &str) {
        let before = fs::read_to_string(self.path(name)).unwrap();
        assert!(before.contains(old), "{name} does not say `{old}`");
        self.write(name, &before.replace(old, new));
    }

    /// Starts a preview of it.
    pub(crate) fn proof(&self) -> Preview {
        let mut command = steadyleaf();
        command.args(["proof", "--today", TODAY, "--workspace"]).arg(self.root());
        let mut child = command.stdout(Stdio::piped()).spawn().unwrap();
        let mut says = BufReader::new(child.stdout.take().unwrap());
        let mut line = String::new();
        says.read_line(&mut line).unwrap();
        let address = line.split("http://").nth(1).and_then(|rest| rest.split('/').next());
        let address = address.unwrap_or_else(|| panic!("no address in {line:?}")).to_string();
        Preview { child, says, address }
    }
}

pub(crate) fn steadyleaf() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_steadyleaf"));
    command.stdin(Stdio::null());
    command
}

/// A preview; it ends with the test.
pub(crate) struct Preview {
    pub(crate) child: Child,
    says: BufReader<ChildStdout>,
    /// Host and port.
    pub(crate) address: String,
}

impl Preview {
    /// The next line on the terminal.
    pub(crate) fn says(&mut self) -> String {
        let mut line = String::new();
        self.says.read_line(&mut line).unwrap();
        line
    }

    /// Asks for a file as a browser does that was sent here.
    pub(crate) fn get(&self, path: &str) -> Answer {
        self.ask("GET", path, &[("Host", &self.address)])
    }

    /// Sends exactly this request.
    pub(crate) fn ask(&self, method: &str, target: &str, headers: &[(&str, &str)]) -> Answer {
        let mut stream = self.connect();
        let headers: String = headers.iter().map(|(name, value)| format!("{name}: {value}\r\n")).collect();
        write!(stream, "{method} {target} HTTP/1.1\r\n{headers}Connection: close\r\n\r\n").unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n").expect("no end of the headers");
        let head = String::from_utf8(bytes[..end].to_vec()).unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        Answer { status, head, body: bytes[end + 4..].to_vec() }
    }

    /// Opens a page, and listens for its changes as its script does.
    pub(crate) fn open(&self, page: &str) -> OpenPage {
        let mut stream = self.connect();
        write!(stream, "GET /-/changes/{page} HTTP/1.1\r\nHost: {}\r\n\r\n", self.address).unwrap();
        let mut open = OpenPage { stream: BufReader::new(stream) };
        open.told();
        open
    }

    fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(&self.address).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        stream
    }
}

impl Drop for Preview {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) head: String,
    pub(crate) body: Vec<u8>,
}

impl Answer {
    pub(crate) fn text(&self) -> String {
        String::from_utf8(self.body.clone()).unwrap()
    }
}

/// A page in a browser.
pub(crate) struct OpenPage {
    stream: BufReader<TcpStream>,
}

impl OpenPage {
    /// Waits until the page is told something.
    pub(crate) fn told(&mut self) -> String {
        loop {
            let mut line = String::new();
            assert!(self.stream.read_line(&mut line).unwrap() > 0, "the stream has ended");
            if let Some(told) = line.strip_prefix("data: ") {
                return told.trim().to_string();
            }
        }
    }
}
