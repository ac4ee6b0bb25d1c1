//! A page as the preview serves it: what `make` would write, and the script and style that follow changes.

use lol_html::html_content::ContentType;
use lol_html::{RewriteStrSettings, element, rewrite_str};

/// Adds the preview's own script and style to the head, lets the page's policy allow what the script asks for, and
/// takes out the script by which a device keeps the site.
pub(super) fn dressed(html: &str, path: &str, mark: &str) -> String {
    let added = format!(
        "<link rel=\"stylesheet\" href=\"/-/panel.css\" data-proof>\n\
         <script src=\"/-/page.js\" defer data-proof data-page=\"{}\" data-mark=\"{mark}\"></script>\n",
        escaped(path)
    );
    let settings = RewriteStrSettings::new()
        .append_element_content_handler(element!("meta[http-equiv='Content-Security-Policy']", |meta| {
            let policy = meta.get_attribute("content").unwrap_or_default();
            if !policy.contains("connect-src") {
                meta.set_attribute("content", &format!("{policy}; connect-src 'self'"))?;
            }
            Ok(())
        }))
        // A device that keeps pages would show the kept ones and not what was saved just now.
        .append_element_content_handler(element!("script[src$='script/saved.js']", |script| {
            script.remove();
            Ok(())
        }))
        .append_element_content_handler(element!("head", |head| {
            head.append(&added, ContentType::Html);
            Ok(())
        }));
    // The only errors are of memory; a page without the script is still a page.
    rewrite_str(html, settings).unwrap_or_else(|_| html.to_string())
}

/// Text for HTML and for the values of attributes.
pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_keeps_every_byte_but_its_policy_and_the_end_of_its_head() {
        let page = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'\">\n</head>\n<body>\n<p>Größe &amp; 'x'\n</body>\n</html>\n";
        let dressed = dressed(page, "exercises/a.html", "0f");
        let (head, rest) = dressed.split_once("<link rel=\"stylesheet\" href=\"/-/panel.css\"").unwrap();
        assert!(
            rest.ends_with("</script>\n</head>\n<body>\n<p>Größe &amp; 'x'\n</body>\n</html>\n"),
            "{rest}"
        );
        assert!(head.contains("content=\"default-src 'none'; connect-src 'self'\""), "{head}");
        assert!(dressed.contains("data-page=\"exercises/a.html\" data-mark=\"0f\""));
    }
}
