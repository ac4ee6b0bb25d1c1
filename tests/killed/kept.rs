//! An entry that is changed over and over until the run is killed: it is one of its texts, and so is each state that is
//! kept. The desk changes entries so; here the test starts itself as a program that does nothing else.
//! `STEADYLEAF_KILLS` says how many kills (few here).

use std::env;
use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use jiff::Timestamp;
use steadyleaf::publish::Keeper;
use tempfile::TempDir;

use crate::case::paths;
use crate::draw::Draw;

/// How many kills `cargo test` does, and the variable that says how many else.
const FEW: usize = 25;
const KILLS: &str = "STEADYLEAF_KILLS";

/// Tells the test, started again as another process, in which workspace to change the entry.
const WORKSPACE: &str = "STEADYLEAF_TEST_WORKSPACE";

const NAME: &str = "content/exercises/heel-drop.md";

/// How long the longest way is from a change to the kill.
const SPAN: usize = 30_000;

#[test]
fn an_entry_that_is_replaced_is_one_of_two_texts_and_so_is_what_is_kept() {
    kill("kept::an_entry_that_is_replaced_is_one_of_two_texts_and_so_is_what_is_kept", |keeper, path| {
        let found = fs::read(path).unwrap();
        keeper.replace(NAME, &found, &other(&found), Timestamp::UNIX_EPOCH).unwrap();
    });
}

#[test]
fn an_entry_that_is_deleted_is_there_or_kept() {
    kill("kept::an_entry_that_is_deleted_is_there_or_kept", |keeper, path| match fs::read(path) {
        Ok(found) => keeper.remove(NAME, &found, Timestamp::UNIX_EPOCH).unwrap(),
        Err(_) => {
            let last = keeper.earlier(NAME).unwrap()[0].number;
            keeper.create(NAME, &other(&keeper.bytes(NAME, last).unwrap())).unwrap();
        }
    });
}

/// Files may be of 64 blocks and no longer, which is an error and not the end of the run.
const NO_ROOM: &str = "trap '' XFSZ && ulimit -f 64 && exec \"$@\"";

#[test]
fn an_entry_is_not_changed_where_there_is_no_room_for_what_it_was() {
    if let Some(root) = env::var_os(WORKSPACE) {
        let keeper = Keeper::open(Path::new(&root)).unwrap();
        let [long, _] = texts();
        keeper.replace(NAME, &long, b"short", Timestamp::UNIX_EPOCH).unwrap_err();
        keeper.remove(NAME, &long, Timestamp::UNIX_EPOCH).unwrap_err();
        return;
    }
    let root = tempfile::tempdir().unwrap();
    let path = root.path().join(NAME);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(&path, &texts()[0]).unwrap();
    let test = "kept::an_entry_is_not_changed_where_there_is_no_room_for_what_it_was";
    let mut limited = Command::new("sh");
    limited.args(["-c", NO_ROOM, "sh"]).arg(env::current_exe().unwrap()).args([test, "--exact"]);
    let output = limited.env(WORKSPACE, root.path()).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stdout));
    assert!(fs::read(&path).unwrap() == texts()[0]);
    assert!(litter(root.path()).is_empty());
    assert!(Keeper::open(root.path()).unwrap().earlier(NAME).unwrap().is_empty());
}

/// Long enough to be written in several steps.
fn texts() -> [Vec<u8>; 2] {
    [b"light thud\n".repeat(20_000), b"lighter\n".repeat(40_000)]
}

fn other(text: &[u8]) -> Vec<u8> {
    let [one, other] = texts();
    if text == one { other } else { one }
}

/// Starts the test as a run that changes the entry without end, and kills it; as often as it is told to.
fn kill(test: &str, change: fn(&Keeper, &Path)) {
    if let Some(root) = env::var_os(WORKSPACE) {
        let root = Path::new(&root);
        let keeper = Keeper::open(root).unwrap();
        loop {
            change(&keeper, &root.join(NAME));
        }
    }
    let kills = env::var(KILLS).map_or(FEW, |kills| kills.parse().unwrap());
    let root = tempfile::tempdir().unwrap();
    let path = root.path().join(NAME);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(&path, &texts()[0]).unwrap();
    let keeper = Keeper::open(root.path()).unwrap();
    let mut draw = Draw::seeded(test);
    let mut seen = Seen::default();
    for round in 0..kills {
        let last = keeper.earlier(NAME).unwrap().first().map(|last| last.number);
        let mut child = start(test, root.path());
        while child.try_wait().unwrap().is_none()
            && keeper.earlier(NAME).unwrap().first().map(|last| last.number) == last
        {
            sleep(Duration::from_micros(100));
        }
        sleep(Duration::from_micros(draw.below(SPAN) as u64));
        assert!(child.try_wait().unwrap().is_none(), "round {round}: it must die by our hand");
        child.kill().unwrap();
        child.wait().unwrap();
        seen.look(&root, &keeper, round);
        // Each of them sweeps what it writes beside.
        change(&keeper, &path);
        change(&keeper, &path);
        change(&keeper, &path);
        assert!(litter(root.path()).is_empty(), "round {round}: {:?}", litter(root.path()));
    }
    let Seen { litter, ahead } = seen;
    println!(
        "{test}: {kills} kills, {litter} while a file was written, {ahead} with a state kept and no change yet"
    );
    assert!(litter + ahead > 0, "no kill came in the middle of a change");
}

fn start(test: &str, root: &Path) -> Child {
    let mut command = Command::new(env::current_exe().unwrap());
    command.args([test, "--exact"]).env(WORKSPACE, root).stdout(Stdio::null()).stderr(Stdio::null());
    command.spawn().unwrap()
}

/// How far runs were when they were killed.
#[derive(Default)]
struct Seen {
    litter: usize,
    ahead: usize,
}

impl Seen {
    fn look(&mut self, root: &TempDir, keeper: &Keeper, round: usize) {
        let found = fs::read(root.path().join(NAME)).ok();
        let states = keeper.earlier(NAME).unwrap();
        for state in &states {
            let bytes = keeper.bytes(NAME, state.number).unwrap();
            assert!(texts().contains(&bytes), "round {round}: {} bytes are kept of a text", bytes.len());
        }
        let last = keeper.bytes(NAME, states[0].number).unwrap();
        match &found {
            Some(found) => assert!(texts().contains(found), "round {round}: neither text is whole"),
            None => assert!(keeper.gone().unwrap() == [NAME], "round {round}: it is neither there nor kept"),
        }
        // More than 100 only before the oldest goes.
        assert!(states.len() <= 101, "round {round}: {} states", states.len());
        self.litter += usize::from(!litter(root.path()).is_empty());
        self.ahead += usize::from(found.is_some_and(|found| found == last));
    }
}

fn litter(root: &Path) -> Vec<String> {
    let mut litter = paths(root);
    litter.retain(|path| path.contains(".begun-"));
    litter
}
