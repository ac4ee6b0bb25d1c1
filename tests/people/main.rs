//! People of every kind and the demonstration: which form of each exercise each gets, and that no sheet of any of them
//! says a word of a form that is not on it.
#![allow(clippy::unwrap_used, reason = "a test may stop at the first surprise")]

mod choosing;
mod forms;
mod sheets;

use std::path::Path;
use std::sync::LazyLock;

use steadyleaf::model::Model;
use steadyleaf::model::client::Client;
use steadyleaf::model::source::{FileId, Sources};
use steadyleaf::{entry, workspace};

/// The demonstration of this repository, read.
struct Demonstration {
    model: Model,
    sources: Sources,
}

static DEMONSTRATION: LazyLock<Demonstration> = LazyLock::new(|| {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let texts = workspace::read(root).unwrap();
    let (site, _) = entry::read_site(&texts);
    let theme = workspace::theme::Theme::read(root, &site.theme.value).unwrap();
    let words = words(&theme, "en");
    let (model, findings) = entry::read(&texts, site, &words);
    assert!(findings.is_empty(), "{findings:?}");
    Demonstration { model, sources: texts.sources }
});

fn words(theme: &workspace::theme::Theme, language: &str) -> steadyleaf::model::words::Words {
    let file = theme.text(&format!("words/{language}.ftl")).unwrap();
    steadyleaf::model::words::Words::read(language, file, theme.lists(language)).unwrap()
}

impl Demonstration {
    /// Every precaution, in the order of their names.
    fn precautions(&self) -> Vec<&str> {
        self.model.site.catalogue.precautions.keys().map(String::as_str).collect()
    }

    /// A person with these precautions, and otherwise free to do everything.
    fn person(&self, precautions: &[&str]) -> Client {
        let profile = format!("name = \"Q. R.\"\nprecautions = {precautions:?}\n");
        let (client, findings) = entry::read_client(&profile, FileId(0), &self.model.site.catalogue);
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
