//! A workspace of `steadyleaf begin` to try things on, and its output as a value.

use std::collections::BTreeMap;
use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

/// The day that every run reckons with.
const TODAY: &str = "2026-01-12";

/// Every file of a folder with its bytes, by its path in it.
pub(crate) type Tree = BTreeMap<String, Vec<u8>>;

pub(crate) struct Workspace {
    folder: TempDir,
    /// The program by a name of its own: a site is made anew when the program changes, and a build may
    /// change it while a test runs.
    program: TempDir,
}

impl Workspace {
    /// The sample that `begin` writes.
    pub(crate) fn begun() -> Workspace {
        let program = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
        fs::hard_link(env!("CARGO_BIN_EXE_steadyleaf"), program.path().join("steadyleaf")).unwrap();
        let workspace = Workspace { folder: tempfile::tempdir().unwrap(), program };
        let mut begin = workspace.steadyleaf();
        let output = begin.arg("begin").arg(workspace.root()).args(["--today", TODAY]).output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{}", text(&output));
        workspace
    }

    pub(crate) fn root(&self) -> &Path {
        self.folder.path()
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.root().join(name)
    }

    pub(crate) fn write(&self, name: &str, text: impl AsRef<[u8]>) {
        fs::create_dir_all(self.path(name).parent().unwrap()).unwrap();
        fs::write(self.path(name), text).unwrap();
    }

    /// Replaces words of a file; they must be there.
    pub(crate) fn edit(&self, name: &str, old: &str, new: &str) {
        let before = fs::read_to_string(self.path(name)).unwrap();
        assert!(before.contains(old), "{name} does not say `{old}`");
        self.write(name, before.replace(old, new));
    }

    /// Adds as many exercises, each with its own title.
    pub(crate) fn grow(&self, exercises: usize) {
        let pattern = fs::read_to_string(self.path("content/exercises/tall-sit.md")).unwrap();
        for number in 1..=exercises {
            let one = pattern.replacen("title = \"", &format!("title = \"No. {number}: "), 1);
            self.write(&format!("content/exercises/one-of-many-{number}.md"), one);
        }
    }

    pub(crate) fn steadyleaf(&self) -> Command {
        let mut command = Command::new(self.program.path().join("steadyleaf"));
        command.stdin(Stdio::null());
        command
    }

    /// A command in this workspace, not started yet.
    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = self.steadyleaf();
        command.args(arguments).args(["--today", TODAY, "--workspace"]).arg(self.root());
        command
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Output {
        self.command(arguments).output().unwrap()
    }

    /// Makes the site, which must be possible.
    pub(crate) fn make(&self) -> Tree {
        let output = self.run(&["make"]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output));
        self.ready()
    }

    /// What is published.
    pub(crate) fn ready(&self) -> Tree {
        tree(&self.path("ready"))
    }

    /// Which file each published path is, and when it was last written or changed in any way.
    pub(crate) fn marks(&self) -> BTreeMap<String, (u64, i64, i64)> {
        let ready = self.path("ready");
        let mark = |path: &String| {
            let found = fs::metadata(ready.join(path)).unwrap();
            (found.ino(), found.mtime_nsec() + found.mtime() * 1_000_000_000, found.ctime_nsec())
        };
        tree(&ready).keys().map(|path| (path.clone(), mark(path))).collect()
    }

    /// The names in the workspace's own folder, sorted.
    pub(crate) fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = fs::read_dir(self.root())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }
}

/// What a run said, for a person.
pub(crate) fn text(output: &Output) -> String {
    let both = [output.stdout.as_slice(), output.stderr.as_slice()].concat();
    String::from_utf8(both).unwrap()
}

/// Every file of a folder.
pub(crate) fn tree(folder: &Path) -> Tree {
    walkdir::WalkDir::new(folder)
        .into_iter()
        .map(Result::unwrap)
        .filter(|entry| !entry.file_type().is_dir())
        .map(|entry| {
            let name = entry.path().strip_prefix(folder).unwrap().to_str().unwrap().to_owned();
            (name, fs::read(entry.path()).unwrap())
        })
        .collect()
}
