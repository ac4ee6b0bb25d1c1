//! Runs killed at any moment, for real.

use std::env;
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use super::*;

/// Tells this test, started again as another process, which workspace to publish into.
const WORKSPACE: &str = "STEADYLEAF_TEST_WORKSPACE";
const NAME: &str = "publish::tests::killed::a_run_killed_at_any_moment_leaves_one_whole_site";

#[test]
#[expect(clippy::disallowed_methods, reason = "the test starts itself as another process")]
fn a_run_killed_at_any_moment_leaves_one_whole_site() {
    if let Some(root) = env::var_os(WORKSPACE) {
        publish_without_end(Path::new(&root));
    }
    let root = workspace();
    publish(root.path(), &large_site("old"));
    for round in 0..40 {
        let mut child = Command::new(env::current_exe().unwrap())
            .args([NAME, "--exact"])
            .env(WORKSPACE, root.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        thread::sleep(Duration::from_millis(5 + round * 3));
        assert!(child.try_wait().unwrap().is_none(), "it must die by our hand");
        child.kill().unwrap();
        child.wait().unwrap();
        let found = ready(root.path());
        let whole = ["old", "new"].iter().any(|text| found == large_site(text));
        assert!(whole, "round {round}: neither site is whole");
    }
    open(root.path()).unwrap();
    assert_eq!(names(root.path()), [".ready-lock", "ready"]);
}

fn publish_without_end(root: &Path) -> ! {
    loop {
        publish(root, &large_site("new"));
        publish(root, &large_site("old"));
    }
}

/// Every third file is the same in both sites, so that there are links as well.
fn large_site(text: &str) -> Site {
    (0..60)
        .map(|n| {
            let text = if n % 3 == 0 { "same" } else { text };
            (format!("exercises/{n}/index.html"), text.to_owned())
        })
        .collect()
}
