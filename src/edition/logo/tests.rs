//! The clinic's own mark: what is taken, what is refused, and where it stands.

use crate::edition::Edition;
use crate::edition::handout::Asked;
use crate::print::{Photos, Subject};
use crate::review::testing::edited;
use crate::workspace::sample;
use crate::workspace::theme::{LOGO_DRAWN, LOGO_PHOTO};

use super::drawing::safe;

const LEAF: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 10"><path fill="#17493a" d="M0 0h30v10z"/></svg>"##;

/// A drawing with this inside.
fn with(inside: &str) -> String {
    LEAF.replace("<path", &format!("{inside}<path"))
}

fn refused(svg: &str) -> String {
    safe(svg.as_bytes()).expect_err(svg)
}

/// The sample with this mark.
#[expect(clippy::disallowed_methods, reason = "a test writes the workspace that it reads")]
fn workspace(name: &str, mark: Option<&[u8]>) -> (tempfile::TempDir, Edition) {
    let root = tempfile::tempdir().unwrap();
    let site = edited("site.toml", &[("[educator]\n", &format!("[educator]\nlogo = \"{name}\"\n"))]);
    let own = [("site.toml".to_string(), site.into_bytes())].into_iter();
    let mark = mark.map(|bytes| (format!("content/{name}"), bytes.to_vec()));
    for (name, bytes) in sample::files().into_iter().chain(own).chain(mark) {
        let path = root.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, bytes).unwrap();
    }
    let edition = Edition::open(root.path().to_path_buf()).unwrap();
    (root, edition)
}

fn told(edition: &Edition) -> Vec<String> {
    let file = edition.model().site.file;
    let own = edition.findings.iter().filter(|finding| finding.span.file == file);
    own.map(|f| format!("{} `{}` {}", f.rule, edition.sources().slice(f.span), f.message)).collect()
}

#[test]
fn the_shapes_of_a_drawing_are_written_anew_and_nothing_else() {
    let own = r##"<!-- mine --><metadata><a xmlns="urn:x">Ada</a></metadata><style>.a { fill: url(#g) }</style><defs><linearGradient id="g"><stop stop-color="#fff"/></linearGradient></defs>"##;
    let written = String::from_utf8(safe(with(own).as_bytes()).unwrap()).unwrap();
    assert!(written.starts_with("<svg ") && written.contains("<path"), "{written}");
    for lost in ["mine", "Ada", "style", "metadata"] {
        assert!(!written.contains(lost), "{lost} in {written}");
    }
    let again = safe(with(own).as_bytes()).unwrap();
    assert_eq!(written.as_bytes(), again);
}

#[test]
fn what_could_run_or_lead_elsewhere_is_refused_and_said() {
    for (inside, said) in [
        ("<script>alert(1)</script>", "it holds a program (`<script>`)"),
        ("<g onload=\"alert(1)\"/>", "it holds a program (`onload`)"),
        ("<g ONCLICK=\"alert(1)\"/>", "it holds a program (`ONCLICK`)"),
        ("<foreignObject/>", "it has `<foreignObject>`"),
        ("<image href=\"https://elsewhere.example/a.png\"/>", "it has `<image>`"),
        ("<use href=\"#a\"/>", "it has `<use>`"),
        ("<animate/>", "it has `<animate>`"),
        ("<text>Clinic</text>", "it has words as text (`<text>`), for which every reader has another font"),
        (
            "<linearGradient href=\"https://elsewhere.example/a.svg#a\"/>",
            "it leads out of its file (`https://elsewhere.example/a.svg#a`)",
        ),
        (
            "<g fill=\"URL( 'https://elsewhere.example')\"/>",
            "it leads out of its file (`url( 'https://elsewhere.example')`)",
        ),
        ("<style>@import 'a.css';</style>", "its style asks for another file (`@`)"),
        ("<style>.a { fill: u\\72l(a.svg#a) }</style>", "it has `\\` in a style or an attribute"),
    ] {
        assert_eq!(refused(&with(inside)), said, "{inside}");
    }
    assert_eq!(refused("<html/>"), "it is no SVG and no PNG");
    assert_eq!(
        refused("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"/>"),
        "it draws nothing"
    );
    assert!(refused("<svg").starts_with("it cannot be read as SVG: "));
}

/// A small file that would take much to draw, or end the program.
#[test]
fn a_drawing_without_end_is_refused() {
    let deep = |times: usize| with(&format!("{}{}", "<g>".repeat(times), "</g>".repeat(times)));
    assert!(safe(deep(50).as_bytes()).is_ok());
    assert_eq!(refused(&deep(100)), "it has more than 60 elements inside each other");
    assert!(!refused(&deep(100_000)).is_empty());
    assert!(refused(&with(&"<g/>".repeat(30_000))).starts_with("it cannot be read as SVG: "));
    let laughs = "<!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>\
        <!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;'><!ENTITY d '&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;'>]>";
    let _ = safe(format!("{laughs}{}", with("<title>&d;&d;&d;&d;</title>")).as_bytes());
}

#[test]
fn a_mark_stands_on_sheets_and_pages_and_is_the_name_of_the_clinic_to_a_screen_reader() {
    let mut png = Vec::new();
    let encoder = image::codecs::png::PngEncoder::new(&mut png);
    image::RgbImage::new(3000, 20).write_with_encoder(encoder).unwrap();
    for (name, bytes, file) in
        [("media/mark.svg", LEAF.as_bytes(), LOGO_DRAWN), ("media/mark.png", &png, LOGO_PHOTO)]
    {
        let (_root, edition) = workspace(name, Some(bytes));
        assert_eq!(told(&edition), [""; 0]);
        assert_eq!(edition.theme().logo(), Some(file));
        let subject = Subject::Exercises(vec![&edition.model().exercises["tall-sit"]]);
        let order = edition.order(&subject, None, Asked::default(), jiff::civil::date(2027, 2, 1));
        let photos = Photos::default();
        let facts = crate::edition::SiteFacts {
            today: jiff::civil::date(2027, 2, 1),
            draft: false,
            program: blake3::hash(b""),
        };
        let press = edition.press(&facts, &photos).unwrap();
        let printed = press.print(&press.handout(&order).unwrap()).unwrap();
        let clinic = edition.model().site.educator.clinic.clone().unwrap();
        let alt = format!("/Alt({clinic})");
        assert!(printed.pdf.windows(alt.len()).any(|bytes| bytes == alt.as_bytes()), "{name}");
        let site = edition.site(&facts, crate::pages::Prepared::default()).unwrap();
        let home = site.pages().render(&crate::outputs::Address::Home).unwrap();
        assert!(home.contains(&format!("src=\"{file}\" alt=\"{clinic}\"")), "{home}");
    }
}

#[test]
fn a_mark_that_cannot_be_shown_is_a_finding_at_its_field_and_nothing_stands_in_its_place() {
    let large = vec![b' '; 2_000_000];
    for (name, bytes, expected) in [
        ("media/mark.svg", None, "broken-link `\"media/mark.svg\"` `media/mark.svg` cannot be read: "),
        (
            "../clients/a.toml",
            None,
            "broken-link `\"../clients/a.toml\"` `../clients/a.toml` cannot be read: ",
        ),
        ("media/mark.svg", Some(&large[..]), "beyond-limit `\"media/mark.svg\"` `media/mark.svg` has 2.0 MB"),
        (
            "media/mark.jpg",
            Some(&[0xff, 0xd8, 0xff, 0xe0][..]),
            "wrong-value `\"media/mark.jpg\"` `media/mark.jpg` cannot stand on pages and handouts: it is no SVG and no PNG",
        ),
        (
            "media/mark.png",
            Some(b"\x89PNG\r\n\x1a\n"),
            "wrong-value `\"media/mark.png\"` `media/mark.png` cannot stand on pages and handouts: it is damaged: ",
        ),
    ] {
        let (_root, edition) = workspace(name, bytes);
        let told = told(&edition);
        assert!(told.len() == 1 && told[0].starts_with(expected), "{told:?}");
        assert_eq!(edition.theme().logo(), None);
    }
}
