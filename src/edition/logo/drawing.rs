//! A drawn mark: its file is looked through, and what is published is not that file but its shapes, written anew. A file of
//! SVG may hold programs and lead elsewhere, and browsers that open it by itself would run the one and fetch the other.

use usvg::roxmltree::{Document, Node, ParsingOptions};
use usvg::{ImageHrefResolver, Options, Tree, WriteOptions};

/// The names of SVG that a mark is drawn with. None of them can copy others, or a small file would draw without end.
const SHAPES: [&str; 18] = [
    "circle",
    "clipPath",
    "defs",
    "desc",
    "ellipse",
    "g",
    "line",
    "linearGradient",
    "metadata",
    "path",
    "polygon",
    "polyline",
    "radialGradient",
    "rect",
    "stop",
    "style",
    "svg",
    "title",
];
const SVG: &str = "http://www.w3.org/2000/svg";
/// Elements, attributes and texts in one file.
const NODES: u32 = 20_000;
/// Elements inside each other.
const DEPTH: usize = 60;

/// The shapes of a file of SVG.
///
/// # Errors
/// In words, what it holds that a mark may not, or why it cannot be read.
pub(super) fn safe(bytes: &[u8]) -> Result<Vec<u8>, String> {
    let text = std::str::from_utf8(bytes).map_err(|_| "it is no SVG and no PNG".to_string())?;
    let options = ParsingOptions { allow_dtd: true, nodes_limit: NODES, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text.trim_start_matches('\u{feff}'), options)
        .map_err(|why| format!("it cannot be read as SVG: {why}"))?;
    if !document.root_element().has_tag_name((SVG, "svg")) {
        return Err("it is no SVG and no PNG".to_string());
    }
    for node in document.descendants() {
        if node.ancestors().take(DEPTH + 2).count() > DEPTH + 1 {
            return Err(format!("it has more than {DEPTH} elements inside each other"));
        }
        check(node)?;
    }
    // Whatever could still lead elsewhere leads nowhere.
    let image_href_resolver =
        ImageHrefResolver { resolve_data: Box::new(|_, _, _| None), resolve_string: Box::new(|_, _| None) };
    let options = Options { image_href_resolver, ..Options::default() };
    let tree = Tree::from_xmltree(&document, &options).map_err(|why| format!("it cannot be drawn: {why}"))?;
    if !tree.root().has_children() {
        return Err("it draws nothing".to_string());
    }
    Ok(tree.to_string(&WriteOptions::default()).into_bytes())
}

fn check(node: Node<'_, '_>) -> Result<(), String> {
    if !node.is_element() {
        return Ok(());
    }
    let name = node.tag_name();
    // What drawing programs keep for themselves draws nothing, and is not written anew.
    if name.namespace() == Some(SVG) && !SHAPES.contains(&name.name()) {
        return Err(match name.name() {
            "script" => "it holds a program (`<script>`)".to_string(),
            "text" | "tspan" => {
                "it has words as text (`<text>`), for which every reader has another font".to_string()
            }
            other => format!("it has `<{other}>`"),
        });
    }
    for attribute in node.attributes() {
        let name = attribute.name();
        if name.to_ascii_lowercase().starts_with("on") {
            return Err(format!("it holds a program (`{name}`)"));
        }
        if name == "href" && !attribute.value().trim_start().starts_with('#') {
            return Err(format!("it leads out of its file (`{}`)", short(attribute.value())));
        }
        leads_nowhere(attribute.value())?;
    }
    if name.name() == "style" {
        let texts = node.children().filter_map(|child| child.text());
        return texts.collect::<Vec<_>>().iter().try_for_each(|text| {
            leads_nowhere(text)?;
            if text.contains('@') { Err("its style asks for another file (`@`)".to_string()) } else { Ok(()) }
        });
    }
    Ok(())
}

/// A look may be taken from the file itself (`url(#leaf)`) and from nowhere else.
fn leads_nowhere(value: &str) -> Result<(), String> {
    let value = value.to_ascii_lowercase();
    let mut led = value.split("url(").skip(1);
    match led.find(|rest| {
        !rest.trim_start_matches(|c: char| c.is_whitespace() || "'\"".contains(c)).starts_with('#')
    }) {
        Some(rest) => Err(format!("it leads out of its file (`url({}`)", short(rest))),
        // In a style, a letter may be written by its number behind it.
        None if value.contains('\\') => Err("it has `\\` in a style or an attribute".to_string()),
        None => Ok(()),
    }
}

fn short(text: &str) -> String {
    text.chars().take(40).collect()
}
