//! People of every kind and the demonstration: which form of each exercise each gets, and that no sheet of any of them
//! says a word of a form that is not on it.
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod choosing;
mod forms;
mod sheets;

use std::path::Path;
use std::sync::LazyLock;

use steadyleaf::edition::Edition;
use steadyleaf::entry;
use steadyleaf::model::Model;
use steadyleaf::model::client::Client;
use steadyleaf::model::source::FileId;

/// The demonstration of this repository, read.
struct Demonstration(Edition);

static DEMONSTRATION: LazyLock<Demonstration> = LazyLock::new(|| {
    let edition = Edition::open(Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()).unwrap();
    let findings = edition.found_while_reading();
    assert!(findings.is_empty(), "{findings:?}");
    Demonstration(edition)
});

impl Demonstration {
    fn model(&self) -> &Model {
        self.0.model()
    }

    /// Every precaution, in the order of their names.
    fn precautions(&self) -> Vec<&str> {
        self.model().site.catalogue.precautions.keys().map(String::as_str).collect()
    }

    /// A person with these precautions, and otherwise free to do everything.
    fn person(&self, precautions: &[&str]) -> Client {
        let profile = format!("name = \"Q. R.\"\nprecautions = {precautions:?}\n");
        let (client, findings) = entry::read_client(&profile, FileId(0), &self.model().site.catalogue);
        assert!(findings.is_empty(), "{findings:?}");
        client.unwrap()
    }

    /// Nobody's, each single precaution, and each pair of them.
    fn everybody(&self) -> Vec<Vec<&str>> {
        let all = self.precautions();
        let mut people = vec![Vec::new()];
        for (at, one) in all.iter().enumerate() {
            people.push(vec![*one]);
            people.extend(all[..at].iter().map(|other| vec![*other, *one]));
        }
        people
    }
}
