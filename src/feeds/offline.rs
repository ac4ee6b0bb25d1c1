//! What lets a device keep the site: the manifest, and the program that keeps its files.

use std::collections::BTreeSet;

use serde_json::json;

use crate::model::Model;
use crate::outputs::Address;
use crate::outputs::offline::{KEEPER, WORKER};

/// The manifest of the site.
pub fn manifest(model: &Model) -> String {
    let site = &model.site;
    let start = Address::Home.path();
    let manifest = json!({
        "name": site.title.value,
        "short_name": site.title.value,
        "description": site.summary.as_ref().map(|summary| &summary.value),
        "lang": site.language.value,
        "id": start,
        "start_url": start,
        "scope": "./",
        "display": "minimal-ui",
        // The light theme's.
        "background_color": "#fcf9f3",
        "theme_color": "#17493a",
        "icons": [{ "src": "style/mark.svg", "sizes": "any", "type": "image/svg+xml" }],
    });
    format!("{manifest:#}\n")
}

/// The program that keeps the files of this version of the site; what it does is in the theme's script.
pub fn worker(version: &str, files: &BTreeSet<String>) -> String {
    let site = json!({ "version": version, "files": files, "page": Address::Saved.path() });
    format!(
        "// {WORKER}: which files of the site a device keeps, and in which version.\nself.site = {site};\nimportScripts(\"{KEEPER}\");\n"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_worker_differs_when_a_file_of_the_site_does() {
        let files = BTreeSet::from(["index.html".to_string()]);
        assert_ne!(worker("1", &files), worker("2", &files));
        assert!(worker("1", &files).contains(r#""files":["index.html"]"#));
    }
}
