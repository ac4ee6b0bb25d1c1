//! A page as the preview serves it: what `make` would write, and the script and style that follow changes.

use std::sync::LazyLock;

use lol_html::html_content::ContentType;
use lol_html::{RewriteStrSettings, element, rewrite_str};

use crate::pages::scripts;

const SCRIPT: &str = include_str!("page.js");

/// What a policy calls it.
static SOURCE: LazyLock<String> = LazyLock::new(|| scripts::source(SCRIPT));

/// Adds the preview's own style to the head and its script to the end of the page, lets the page's policy allow that
/// script and what it asks for, and takes out the script by which a device keeps the site.
pub(super) fn dressed(html: &str, path: &str, mark: &str) -> String {
    let style = "<link rel=\"stylesheet\" href=\"/-/panel.css\" data-proof>\n";
    let script = format!(
        "<script id=\"proof.script\" data-proof data-page=\"{}\" data-mark=\"{mark}\">{SCRIPT}</script>\n",
        escaped(path)
    );
    let settings = RewriteStrSettings::new()
        .append_element_content_handler(element!("meta[http-equiv='Content-Security-Policy']", |meta| {
            let policy = meta.get_attribute("content").unwrap_or_default();
            meta.set_attribute("content", &opened(&policy))?;
            Ok(())
        }))
        // A device that keeps pages would show the kept ones and not what was saved just now.
        .append_element_content_handler(element!("script[data-name='saved']", |script| {
            script.remove();
            Ok(())
        }))
        .append_element_content_handler(element!("head", |head| {
            head.append(style, ContentType::Html);
            Ok(())
        }))
        .append_element_content_handler(element!("body", |body| {
            body.append(&script, ContentType::Html);
            Ok(())
        }));
    // The only errors are of memory; a page without the script is still a page.
    rewrite_str(html, settings).unwrap_or_else(|_| html.to_string())
}

/// A policy that allows what it allowed before, the preview's own script, and questions to the preview.
fn opened(policy: &str) -> String {
    let own = SOURCE.as_str();
    let mut opened = match policy.split_once("script-src ") {
        Some((before, after)) => format!("{before}script-src {own} {after}"),
        None => format!("{policy}; script-src {own}"),
    };
    if !opened.contains("connect-src") {
        opened.push_str("; connect-src 'self'");
    }
    opened
}

/// Text for HTML and for the values of attributes.
pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;
    use crate::outputs::Address;
    use crate::pages::inspect::inspect;
    use crate::review::testing::page;

    #[test]
    fn a_page_keeps_every_byte_but_its_policy_and_the_ends_of_its_head_and_body() {
        let page = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src 'sha256-x'\">\n</head>\n<body>\n<p>Größe &amp; 'x'\n</body>\n</html>\n";
        let dressed = dressed(page, "exercises/a.html", "0f");
        let (head, rest) = dressed.split_once("<link rel=\"stylesheet\" href=\"/-/panel.css\"").unwrap();
        let source = &*SOURCE;
        let policy = format!("\"default-src 'none'; script-src {source} 'sha256-x'; connect-src 'self'\"");
        assert!(head.contains(&policy), "{head}");
        let (body, script) = rest.split_once("<script id=\"proof.script\"").unwrap();
        assert!(body.ends_with(">\n</head>\n<body>\n<p>Größe &amp; 'x'\n"), "{body}");
        let start = " data-proof data-page=\"exercises/a.html\" data-mark=\"0f\">";
        assert!(script.starts_with(start), "{script}");
        assert!(script.ends_with("</script>\n</body>\n</html>\n"), "{script}");
    }

    #[test]
    fn the_preview_s_script_stands_whole_in_the_page_and_the_one_that_keeps_the_site_is_gone() {
        assert_eq!(scripts::breaks_out(SCRIPT), None);
        let html = page(&Address::Library);
        assert!(html.contains("<script data-name=\"saved\">"));
        let dressed = dressed(&html, "exercises/index.html", "0f");
        assert!(!dressed.contains("data-name=\"saved\"") && !dressed.contains("serviceWorker"));
        let (_, script) = dressed.split_once("data-mark=\"0f\">").unwrap();
        assert_eq!(script.split("</script>").next(), Some(SCRIPT));
        assert!(dressed.contains("<script data-name=\"library\">"));
        assert_eq!(inspect("exercises/index.html", &dressed, "/", &HashSet::new()).faults, []);
    }

    #[test]
    fn a_policy_without_scripts_allows_the_preview_s_alone() {
        let source = &*SOURCE;
        let expected = format!("default-src 'none'; script-src {source}; connect-src 'self'");
        assert_eq!(opened("default-src 'none'"), expected);
    }
}
