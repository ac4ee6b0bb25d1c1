//! A command that writes, what stands in its workspace before and after it, and what a killed run leaves.

use std::fs;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use crate::workspace::{Tree, Workspace, text, tree};

/// What stands where a sheet will.
const EARLIER: &[u8] = b"an earlier sheet";

/// How what a command makes comes to be there.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    /// A file or a folder where nothing stands yet, at once.
    New,
    /// A file, at once, also in the place of an earlier one.
    InPlace,
    /// A folder that is there and empty, one thing after the other and its `site.toml` last.
    Filled,
}

pub(crate) struct Case {
    pub(crate) name: &'static str,
    workspace: Workspace,
    arguments: Vec<String>,
    way: Way,
    /// Where the run begins what it makes, by its path in the workspace.
    folder: &'static str,
    /// What a run finds; where it replaces, in every other round with an earlier one in the place of its file.
    before: Vec<Tree>,
    after: Tree,
    /// The last of what it makes to be there.
    target: String,
    /// How long a whole run took.
    pub(crate) took: Duration,
}

/// What a killed run has left.
pub(crate) struct Left {
    /// All that the command makes is there.
    pub(crate) done: bool,
    /// How many files and folders that are nobody's.
    pub(crate) litter: usize,
}

impl Case {
    /// Runs the command twice, with the same outcome, to know what it makes.
    pub(crate) fn new(
        name: &'static str,
        workspace: Workspace,
        arguments: &[&str],
        way: Way,
        folder: &'static str,
    ) -> Case {
        let before = tree(workspace.root());
        let mut case = Case {
            name,
            workspace,
            arguments: arguments.iter().map(|argument| argument.to_string()).collect(),
            way,
            folder,
            before: vec![before],
            after: Tree::new(),
            target: String::new(),
            took: Duration::ZERO,
        };
        case.reset(0);
        case.run();
        case.after = tree(case.workspace.root());
        case.target = case.made().last().unwrap_or_else(|| panic!("{name}: nothing is made")).0.clone();
        if way == Way::InPlace {
            let earlier = [(case.target.clone(), EARLIER.to_vec())];
            case.before.push(case.before[0].clone().into_iter().chain(earlier).collect());
        }
        case.took = case.next(1);
        case
    }

    /// The command, not started yet.
    pub(crate) fn command(&self) -> Command {
        let arguments: Vec<&str> = self.arguments.iter().map(String::as_str).collect();
        let mut command = self.workspace.command(&arguments);
        command.stdout(Stdio::null()).stderr(Stdio::null());
        command
    }

    /// Runs it to its end; how long that took.
    fn run(&self) -> Duration {
        let start = Instant::now();
        let output = self.command().stdout(Stdio::piped()).stderr(Stdio::piped()).output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{}: {}", self.name, text(&output));
        start.elapsed()
    }

    fn before(&self, round: u32) -> &Tree {
        &self.before[round as usize % self.before.len()]
    }

    /// What only a whole run makes, by its paths.
    fn made(&self) -> impl Iterator<Item = (&String, &Vec<u8>)> {
        self.after.iter().filter(move |(path, _)| !self.before[0].contains_key(*path))
    }

    /// The bytes of the longest file that is made.
    pub(crate) fn longest(&self) -> usize {
        self.made().map(|(_, bytes)| bytes.len()).max().unwrap_or_default()
    }

    /// Puts the workspace back to what a round finds. What is nobody's stays: it is the program's to remove.
    pub(crate) fn reset(&self, round: u32) {
        let (before, found) = (self.before(round), tree(self.workspace.root()));
        for path in found.keys().filter(|path| !before.contains_key(*path) && !is_litter(path)) {
            fs::remove_file(self.workspace.path(path)).unwrap();
        }
        for (path, bytes) in before.iter().filter(|(path, bytes)| found.get(*path) != Some(*bytes)) {
            self.workspace.write(path, bytes);
        }
        for path in self.others().iter().rev() {
            // No folder that holds something is removed, and no file.
            let _ = fs::remove_dir(self.workspace.path(path));
        }
        if self.way == Way::Filled {
            fs::create_dir_all(self.workspace.path(self.folder)).unwrap();
        }
    }

    /// A whole run from what a round finds and from what killed runs have left, which it removes; how long it took.
    pub(crate) fn next(&self, round: u32) -> Duration {
        if self.way == Way::Filled && !self.again() {
            fs::remove_dir_all(self.workspace.path(self.folder)).unwrap();
        }
        self.reset(round);
        let took = self.run();
        self.assert_whole();
        took
    }

    /// What a whole run makes is there, and nothing that is nobody's.
    pub(crate) fn assert_whole(&self) {
        let litter = self.litter();
        assert!(litter.is_empty(), "{}: a whole run leaves {litter:?}", self.name);
        assert!(tree(self.workspace.root()) == self.after, "{}: a run makes something else", self.name);
    }

    /// True when a second run completes what stands in the folder. Else it says so, and changes nothing.
    fn again(&self) -> bool {
        let found = self.others();
        let site = self.workspace.path(&self.target).exists();
        let output = self.command().stdout(Stdio::piped()).stderr(Stdio::piped()).output().unwrap();
        if output.status.code() == Some(0) {
            self.assert_whole();
            return true;
        }
        assert_eq!(output.status.code(), Some(3), "{}: {}", self.name, text(&output));
        assert!(text(&output).contains("is not empty and stays as it is"), "{}", text(&output));
        assert_eq!(self.others(), found, "{}", self.name);
        // What lacks its `site.toml` is not taken for a workspace.
        let mut review = self.workspace.steadyleaf();
        review.arg("review").arg("--workspace").arg(self.workspace.path(self.folder));
        assert_eq!(review.output().unwrap().status.code() == Some(2), !site, "{}", self.name);
        false
    }

    /// Looks at what a killed run has left, all of which is as it was or wholly new.
    pub(crate) fn look(&self, round: u32) -> Left {
        let mut found = tree(self.workspace.root());
        found.retain(|path, _| !is_litter(path));
        let before = self.before(round);
        let done = found == self.after;
        let part_of_whole = || found.iter().all(|(path, bytes)| self.after.get(path) == Some(bytes));
        let half = self.way == Way::Filled
            && !found.contains_key(&self.target)
            && before.keys().all(|path| found.contains_key(path))
            && part_of_whole();
        if !done && !half && found != *before {
            let all = found.keys().chain(before.keys());
            let other = |path: &&String| found.get(*path) != before.get(*path);
            let other: Vec<&String> = all.filter(other).collect();
            panic!("{}, round {round}: neither as before nor wholly new: {other:?}", self.name);
        }
        let litter = self.litter();
        for path in litter.iter().filter(|path| path.starts_with("clients/")) {
            let mode = fs::metadata(self.workspace.path(path)).unwrap().permissions().mode();
            assert_eq!(mode & 0o077, 0, "{}: others can read {path}", self.name);
        }
        Left { done, litter: litter.len() }
    }

    /// The files and folders that are nobody's, without what is in them.
    fn litter(&self) -> Vec<String> {
        let mut litter = paths(self.workspace.root());
        litter.retain(|path| is_litter_name(path.rsplit('/').next().unwrap_or(path)));
        litter
    }

    /// All other files and folders.
    fn others(&self) -> Vec<String> {
        let mut others = paths(self.workspace.root());
        others.retain(|path| !is_litter(path));
        others
    }

    /// True once a run has begun to write.
    pub(crate) fn is_begun(&self) -> bool {
        let Ok(mut entries) = fs::read_dir(self.workspace.path(self.folder)) else { return false };
        entries.any(|entry| entry.is_ok_and(|e| e.file_name().to_str().is_some_and(is_litter_name)))
    }

    /// Which file stands where the command makes its last one.
    pub(crate) fn mark(&self) -> Option<u64> {
        fs::metadata(self.workspace.path(&self.target)).ok().map(|found| found.ino())
    }

    /// What the review says of the workspace.
    pub(crate) fn review(&self) -> String {
        text(&self.workspace.run(&["review", "--format", "json"]))
    }
}

/// True for the path of what is nobody's, and of what stands in a folder that is.
fn is_litter(path: &str) -> bool {
    path.split('/').any(is_litter_name)
}

fn is_litter_name(name: &str) -> bool {
    name.starts_with(".begun-") || name.starts_with(".ready-")
}

/// Every file and folder in a folder, sorted; a folder before what is in it.
pub(crate) fn paths(folder: &Path) -> Vec<String> {
    let entries = walkdir::WalkDir::new(folder).min_depth(1).sort_by_file_name().into_iter();
    entries.map(|e| e.unwrap().path().strip_prefix(folder).unwrap().to_str().unwrap().to_owned()).collect()
}
