//! A picture as SVG.

use std::fmt::Write;

use glam::DVec2;

use super::canvas::{Shape, Tone};
use super::digits;
use super::picture::{Arrow, DISC, Mark, Panel, Picture};

/// Where the colours come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colours {
    /// The theme's style sheet, by the classes of the shapes.
    Theme,
    /// Greys, for paper.
    Paper,
}

/// Words that a picture has for those who do not see it.
#[derive(Clone, Copy, Debug)]
pub struct Words<'w> {
    /// Unlike the id of anything else on the page.
    pub id: &'w str,
    pub title: &'w str,
    pub description: &'w str,
}

/// Tenths of the picture's units, as whole numbers.
const FINE: f64 = 10.0;
/// Half of an outline lies under the shape's own colour.
const OUTLINE: f64 = 2.3;
const ARROW: f64 = 1.7;

/// The picture as one SVG element, without a declaration. `words` gives it a title and a description; without them it
/// is for a place that says them itself.
pub fn svg(picture: &Picture, colours: Colours, words: Option<Words<'_>>, moving: bool) -> String {
    let mut out = String::new();
    let tenths = |value: f64| (value * FINE).round() as i64;
    let _ = write!(
        out,
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="{} {} {} {}""#,
        tenths(picture.left),
        tenths(picture.top),
        tenths(picture.width),
        tenths(picture.height),
    );
    match words {
        Some(words) => {
            let _ = write!(
                out,
                r#" role="img" aria-labelledby="{0}-title {0}-text"><title id="{0}-title">{1}</title><desc id="{0}-text">{2}</desc>"#,
                words.id,
                escaped(words.title),
                escaped(words.description),
            );
        }
        None => out.push('>'),
    }
    let last = picture.panels.len().saturating_sub(1);
    for (index, panel) in picture.panels.iter().enumerate() {
        let motion = picture.motion.as_ref().filter(|_| moving && index == last);
        write_panel(&mut out, panel, colours, motion.map(|m| &m.moments[..]));
    }
    out.push_str("</svg>");
    out
}

fn write_panel(out: &mut String, panel: &Panel, colours: Colours, moments: Option<&[Vec<Shape>]>) {
    let _ = write!(
        out,
        r#"<g transform="translate({} 0)" stroke-linejoin="round" stroke-linecap="round">"#,
        (panel.shift * FINE).round()
    );
    for shape in &panel.still {
        write_shape(out, shape, colours, false, &[]);
    }
    if !panel.start.is_empty() {
        let _ = write!(out, r#"<g{}>"#, attributes(colours, "drawn-start", r#"opacity="0.45""#));
        for shape in &panel.start {
            write_shape(out, shape, colours, true, &[]);
        }
        out.push_str("</g>");
    }
    for (index, shape) in panel.figure.iter().enumerate() {
        let at: Vec<&Shape> = moments.unwrap_or(&[]).iter().filter_map(|m| m.get(index)).collect();
        write_shape(out, shape, colours, false, &at);
    }
    panel.arrows.iter().for_each(|arrow| write_arrow(out, arrow, colours));
    panel.labels.iter().for_each(|mark| write_mark(out, mark, colours));
    out.push_str("</g>");
}

/// The attributes of a shape: the theme's class, or the look on paper.
fn attributes(colours: Colours, class: &str, paper: &str) -> String {
    match colours {
        Colours::Theme => format!(r#" class="{class}""#),
        Colours::Paper => format!(" {paper}"),
    }
}

fn write_shape(out: &mut String, shape: &Shape, colours: Colours, _start: bool, moments: &[&Shape]) {
    match shape {
        Shape::Solid { tone, .. } => {
            let look = look(*tone);
            let paper = format!(
                r##"fill="{}" stroke="{INK}" stroke-width="{}" paint-order="stroke""##,
                look.paper,
                OUTLINE * FINE * if matches!(tone, Tone::Thing) { 0.7 } else { 1.0 }
            );
            write_path(out, shape, &attributes(colours, &format!("drawn {}", look.class), &paper), moments);
        }
        Shape::Line { strong, .. } => {
            let width = if *strong { 1.2 } else { 0.8 };
            let paper = format!(r##"fill="none" stroke="{INK}" stroke-width="{}""##, width * FINE);
            let class = if *strong { "drawn-line" } else { "drawn-line drawn-thin" };
            write_path(out, shape, &attributes(colours, class, &paper), moments);
        }
        Shape::Band { .. } => {
            let paper = format!(r##"fill="none" stroke="#5a5a5a" stroke-width="{}""##, 1.9 * FINE);
            write_path(out, shape, &attributes(colours, "drawn-band", &paper), moments);
        }
        Shape::Dot { .. } => {
            let paper = format!(r#"fill="{INK}""#);
            write_path(out, shape, &attributes(colours, "drawn-dot", &paper), moments);
        }
    }
}

/// Black on paper.
const INK: &str = "#1c1c1c";

struct Look {
    class: &'static str,
    paper: &'static str,
}

fn look(tone: Tone) -> Look {
    let (class, paper) = match tone {
        Tone::Skin => ("drawn-skin", "#ffffff"),
        Tone::FarSkin => ("drawn-skin drawn-far", "#e3e3e3"),
        Tone::Top => ("drawn-top", "#e9e9e9"),
        Tone::FarTop => ("drawn-top drawn-far", "#cfcfcf"),
        Tone::Legs => ("drawn-legs", "#b4b4b4"),
        Tone::FarLegs => ("drawn-legs drawn-far", "#979797"),
        Tone::Shoe => ("drawn-shoe", "#4a4a4a"),
        Tone::FarShoe => ("drawn-shoe drawn-far", "#3a3a3a"),
        Tone::Hair => ("drawn-hair", "#c4c4c4"),
        Tone::Thing => ("drawn-thing", "#f4f4f4"),
        Tone::Held => ("drawn-held", "#8a8a8a"),
    };
    Look { class, paper }
}

fn write_path(out: &mut String, shape: &Shape, attributes: &str, moments: &[&Shape]) {
    let still = data(shape);
    let _ = write!(out, r#"<path{attributes} d="{still}""#);
    let others: Vec<String> = moments.iter().map(|s| data(s)).collect();
    if others.iter().all(|d| *d == still) {
        out.push_str("/>");
        return;
    }
    // There and back again, with a rest at each end.
    let there = others.iter();
    let back = others.iter().rev();
    let ends = (others.first(), others.last());
    let values: Vec<&str> =
        ends.0.into_iter().chain(there).chain(ends.1).chain(back).map(String::as_str).collect();
    let _ = write!(
        out,
        r#"><animate attributeName="d" begin="indefinite" dur="5s" repeatCount="3" values="{}"/></path>"#,
        values.join(";")
    );
}

/// The path of a shape. Shapes of the same kind have the same commands, whatever they look like.
fn data(shape: &Shape) -> String {
    let mut path = String::new();
    match shape {
        Shape::Solid { parts, .. } => parts.iter().for_each(|part| polyline(&mut path, part, true)),
        Shape::Line { points, .. } | Shape::Band { points } => polyline(&mut path, points, false),
        Shape::Dot { at, radius } => {
            let r = radius * FINE;
            let _ = write!(path, "M{:.0} {:.0}a{r:.1} {r:.1} 0 1 1 0 .1z", at.x * FINE, at.y * FINE - r,);
        }
    }
    path
}

fn polyline(path: &mut String, points: &[DVec2], closed: bool) {
    let mut at = (0_i64, 0_i64);
    for (index, point) in points.iter().enumerate() {
        let here = ((point.x * FINE).round() as i64, (point.y * FINE).round() as i64);
        let (x, y) = (here.0 - at.0, here.1 - at.1);
        let command = match index {
            0 => "M",
            1 => "l",
            _ if x < 0 => "",
            _ => " ",
        };
        let space = if y < 0 { "" } else { " " };
        let _ = match index {
            0 => write!(path, "M{} {}", here.0, here.1),
            _ => write!(path, "{command}{x}{space}{y}"),
        };
        at = here;
    }
    if closed {
        path.push('z');
    }
}

fn write_arrow(out: &mut String, arrow: &Arrow, colours: Colours) {
    let [.., before, tip] = &arrow.points[..] else { return };
    let way = (*tip - *before).normalize_or(DVec2::X);
    let aside = way.perp();
    let foot = *tip - way * 4.6;
    let mut line = arrow.points.clone();
    if let Some(end) = line.last_mut() {
        *end = foot;
    }
    let mut shaft = String::new();
    polyline(&mut shaft, &line, false);
    let mut head = String::new();
    polyline(&mut head, &[*tip + way * 0.6, foot + aside * 3.0, foot - aside * 3.0], true);
    for (class, colour, extra) in [("drawn-arrow-edge", "#ffffff", 1.4), ("drawn-arrow", INK, 0.0)] {
        let width = (ARROW + extra) * FINE;
        let line = format!(r#"fill="none" stroke="{colour}" stroke-width="{width}""#);
        let _ = write!(out, r#"<path{} d="{shaft}"/>"#, attributes(colours, class, &line));
        let tip = format!(r#"fill="{colour}" stroke="{colour}" stroke-width="{}""#, extra * FINE);
        let _ = write!(
            out,
            r#"<path{} d="{head}"/>"#,
            attributes(colours, &format!("{class} drawn-arrow-head"), &tip)
        );
    }
}

fn write_mark(out: &mut String, mark: &Mark, colours: Colours) {
    let mut line = String::new();
    polyline(&mut line, &[mark.at, mark.disc], false);
    let thin = format!(r#"fill="none" stroke="{INK}" stroke-width="{}""#, 0.9 * FINE);
    let _ = write!(out, r#"<path{} d="{line}"/>"#, attributes(colours, "drawn-line drawn-thin", &thin));
    let disc = format!(r##"fill="#ffffff" stroke="{INK}" stroke-width="{}""##, 1.0 * FINE);
    let _ = write!(
        out,
        r#"<circle{} cx="{:.0}" cy="{:.0}" r="{:.0}"/>"#,
        attributes(colours, "drawn-disc", &disc),
        mark.disc.x * FINE,
        mark.disc.y * FINE,
        DISC * FINE
    );
    for stroke in digits::strokes(mark.number) {
        let points: Vec<DVec2> = stroke.iter().map(|p| mark.disc + *p * DISC * 1.15).collect();
        let mut digit = String::new();
        polyline(&mut digit, &points, false);
        let bold = format!(r#"fill="none" stroke="{INK}" stroke-width="{}""#, 1.1 * FINE);
        let _ = write!(out, r#"<path{} d="{digit}"/>"#, attributes(colours, "drawn-digit", &bold));
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
