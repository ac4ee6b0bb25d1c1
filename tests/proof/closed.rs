//! What stays closed: to other sites, to other names of this machine, and everything that is not of the site.

use std::fs;
use std::os::unix::fs::symlink;

use crate::preview::Workspace;

const SECRET: &str = "what nobody may read";

#[test]
fn only_a_browser_that_was_sent_to_its_address_is_answered() {
    let workspace = Workspace::begun();
    let preview = workspace.proof();
    let port = preview.address.split(':').nth(1).unwrap();
    let own = preview.address.as_str();
    let localhost = format!("localhost:{port}");
    let ask = |method, headers: &[(&str, &str)]| {
        let answer = preview.ask(method, "/", headers);
        assert!(answer.status == 200 || !answer.text().contains("<html"), "{headers:?}");
        answer.status
    };
    assert!(own.starts_with("127.0.0.1:"));
    assert_eq!(ask("GET", &[("Host", own)]), 200);
    assert_eq!(ask("GET", &[("Host", &localhost)]), 200);
    assert_eq!(ask("GET", &[("Host", own), ("Origin", &format!("http://{own}"))]), 200);
    assert_eq!(ask("GET", &[("Host", own), ("Sec-Fetch-Site", "none")]), 200);
    for host in ["hill.example", &format!("hill.example:{port}"), "127.0.0.1", "127.0.0.1:1"] {
        assert_eq!(ask("GET", &[("Host", host)]), 421, "{host}");
    }
    for origin in ["https://hill.example", "null", "http://127.0.0.1"] {
        assert_eq!(ask("GET", &[("Host", own), ("Origin", origin)]), 403, "{origin}");
    }
    for site in ["cross-site", "same-site"] {
        assert_eq!(ask("GET", &[("Host", own), ("Sec-Fetch-Site", site)]), 403, "{site}");
    }
    for method in ["POST", "PUT", "DELETE"] {
        assert_eq!(ask(method, &[("Host", own)]), 405, "{method}");
    }
    let head = preview.get("/").head.to_lowercase();
    for header in [
        "x-content-type-options: nosniff",
        "cross-origin-resource-policy: same-origin",
        "x-frame-options: deny",
        "content-security-policy: frame-ancestors 'none'; base-uri 'none'; form-action 'none'; object-src 'none'",
    ] {
        assert!(head.contains(header), "{head}");
    }
}

#[test]
fn no_way_of_writing_an_address_leads_out_of_the_site() {
    let workspace = Workspace::begun();
    let beside = workspace.beside();
    fs::create_dir(beside.join("private")).unwrap();
    for name in ["secret.txt", "secret.pdf", "private/secret.pdf"] {
        fs::write(beside.join(name), SECRET).unwrap();
    }
    workspace.write("clients/j.toml", &format!("name = \"{SECRET}\"\nprecautions = []\n"));
    workspace.write("clients/j.pdf", SECRET);
    workspace.write("content/media/in.pdf", "what everybody may read");
    workspace.write("content/media/unnamed.pdf", SECRET);
    symlink(beside.join("secret.pdf"), workspace.path("content/media/out.pdf")).unwrap();
    symlink(workspace.path("clients/j.pdf"), workspace.path("content/media/person.pdf")).unwrap();
    symlink(beside.join("private"), workspace.path("content/media/folder")).unwrap();
    let links =
        "[a](../media/in.pdf) [b](../media/out.pdf) [c](../media/folder/secret.pdf) [d](../media/person.pdf)";
    workspace.edit("content/pages/about.md", "\n```\n", &format!("\n```\n{links}\n\n"));

    let preview = workspace.proof();
    assert_eq!(preview.get("/media/in.pdf").text(), "what everybody may read");
    let ways = [
        "/media/out.pdf",
        "/media/folder/secret.pdf",
        "/media/person.pdf",
        "/media/unnamed.pdf",
        "/secret.txt",
        "/../secret.txt",
        "/../../secret.txt",
        "/%2e%2e/secret.txt",
        "/%2E%2E/secret.txt",
        "/..%2fsecret.txt",
        "/%2e%2e%2fsecret.txt",
        "/%252e%252e/secret.txt",
        "/..\\secret.txt",
        "/..%5csecret.txt",
        "/.%2e/secret.txt",
        "/media/../../../secret.txt",
        "/media/..%2f..%2f..%2fsecret.txt",
        "/./../secret.txt",
        "//etc/passwd",
        "/%2fetc/passwd",
        "/etc/passwd",
        "/site.toml",
        "/content/site.toml",
        "/../workspace/site.toml",
        "/content/pages/about.md",
        "/clients/j.toml",
        "/../clients/j.toml",
        "/media/../clients/j.toml",
        "/media/in.pdf%00.html",
        "/-/../site.toml",
        "/-/%2e%2e/site.toml",
        "/-/panel.css/../../site.toml",
        "/-/panel/../../site.toml",
        "/-/excerpt/../../site.toml",
        "/-/excerpt/99/0",
        "/file:///etc/passwd",
        "/C:/secret.txt",
        "/media/",
        "/media",
        "/themes/wideleaf/words/en.ftl",
    ];
    let full = beside.join("secret.txt").display().to_string();
    for way in ways.iter().copied().chain([full.as_str(), &format!("/{full}")]) {
        let answer = preview.get(way);
        let said = String::from_utf8_lossy(&answer.body).into_owned();
        for outside in [SECRET, "root:", "[educator]", "```toml"] {
            assert!(!said.contains(outside), "{way} leads to `{outside}`");
        }
        let panel = way.starts_with("/-/panel/");
        assert!(answer.status != 200 || panel, "{way}: {}", answer.status);
    }

    // The link comes after the workspace was read, and is asked for before anything is read again.
    fs::remove_file(workspace.path("content/media/in.pdf")).unwrap();
    symlink(beside.join("secret.pdf"), workspace.path("content/media/in.pdf")).unwrap();
    let answer = preview.get("/media/in.pdf");
    assert!(!String::from_utf8_lossy(&answer.body).contains(SECRET));
}
