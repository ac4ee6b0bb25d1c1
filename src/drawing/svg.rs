//! A picture as SVG.

#[cfg(test)]
mod tests;

use std::fmt::Write;

use glam::DVec2;

use super::arrows::Arrow;
use super::canvas::{Shape, Tone};
use super::digits;
use super::outline::{KeptPoints, kept};
use super::picture::{DISC, Mark, Motion, Panel, Picture};
use crate::model::vocabulary::Vocabulary;

/// Where the colors come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colors {
    /// The theme's style sheet, by the classes of the shapes.
    Theme,
    /// Grays, for paper.
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

impl Words<'_> {
    /// The id of the description on its page.
    pub fn description_id(self) -> String {
        format!("{}.text", self.id)
    }
}

/// Tenths of the picture's units, as whole numbers.
const FINE: f64 = 10.0;
/// Half of an outline lies under the shape's own color.
const OUTLINE: f64 = 2.3;
const ARROW: f64 = 1.7;
/// Letters to a unit of the picture: a person who stands is seventeen letters high on a page.
const LETTERS: f64 = 0.17;

/// How large a picture is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// As wide as a column.
    Large,
    /// About 40 mm, in a list: of fewer points.
    Small,
}

/// How far an outline may lie beside its exact place, in the picture's units: less than a pixel at the size of a page.
const CLOSE: f64 = 0.1;
/// The same in a small picture.
const COARSE: f64 = 0.3;

impl Size {
    fn close(self) -> f64 {
        match self {
            Size::Large => CLOSE,
            Size::Small => COARSE,
        }
    }
}

/// The picture as one SVG element, without a declaration. `words` gives it a title and a description; without them it
/// is for a place that says them itself.
pub fn svg(picture: &Picture, colors: Colors, words: Option<Words<'_>>) -> String {
    let mut out = String::from(r#"<svg xmlns="http://www.w3.org/2000/svg""#);
    write_view(&mut out, picture, picture.width);
    write_words(&mut out, words);
    let last = picture.panels.len().saturating_sub(1);
    let mut pen = Pen { out, colors, close: CLOSE };
    for (index, panel) in picture.panels.iter().enumerate() {
        let motion = picture.motion.as_ref().filter(|_| index == last);
        pen.panel(panel, panel.shift, motion);
    }
    pen.out.push_str("</svg>");
    pen.out
}

/// A picture for pages in HTML: an element for each of its panels, so that they can stand beside or below each other as the
/// page has room, in the theme's colors. Each page gives it words of its own.
#[derive(Debug)]
pub struct Panels {
    elements: Vec<Element>,
    /// Wider than high.
    pub wide: bool,
    /// The last panel holds the movement.
    pub moves: bool,
}

impl Panels {
    pub fn of(picture: &Picture, size: Size) -> Panels {
        let last = picture.panels.len().saturating_sub(1);
        let one = |(index, panel): (usize, &Panel)| {
            let motion = picture.motion.as_ref().filter(|_| index == last);
            Element::of(picture, panel, motion, size)
        };
        Panels {
            elements: picture.panels.iter().enumerate().map(one).collect(),
            wide: picture.is_wide(),
            moves: picture.motion.is_some(),
        }
    }

    /// The elements, the first with the words of all.
    pub fn with(&self, words: Words<'_>) -> Vec<String> {
        let each = self.elements.iter().enumerate();
        each.map(|(index, element)| element.with((index == 0).then_some(words))).collect()
    }
}

/// The last panel for a list in HTML that says its words beside it.
pub fn small(picture: &Picture) -> Option<String> {
    // Numbers would stand for words and poses that are not there.
    let last = Panel { labels: Vec::new(), number: None, ..picture.panels.last()?.clone() };
    Some(Element::of(picture, &last, None, Size::Small).with(None))
}

/// A panel as an SVG element that waits for its words.
#[derive(Debug)]
struct Element {
    /// The opening tag, but for what says its words.
    opening: String,
    /// What follows it and its words.
    drawn: String,
}

impl Element {
    fn of(picture: &Picture, panel: &Panel, motion: Option<&Motion>, size: Size) -> Element {
        let mut opening = String::from("<svg");
        let width = picture.panel_width();
        // In letters, so that it grows with them.
        let _ = write!(opening, r#" width="{:.1}em""#, width * LETTERS);
        write_view(&mut opening, picture, width);
        let mut pen = Pen { out: String::new(), colors: Colors::Theme, close: size.close() };
        pen.panel(panel, DVec2::ZERO, motion);
        pen.out.push_str("</svg>");
        Element { opening, drawn: pen.out }
    }

    fn with(&self, words: Option<Words<'_>>) -> String {
        let mut out = self.opening.clone();
        if words.is_none() {
            out.push_str(r#" aria-hidden="true""#);
        }
        write_words(&mut out, words);
        out.push_str(&self.drawn);
        out
    }
}

fn write_view(out: &mut String, picture: &Picture, width: f64) {
    let tenths = |value: f64| (value * FINE).round() as i64;
    let _ = write!(
        out,
        r#" viewBox="{} {} {} {}""#,
        tenths(picture.left),
        tenths(picture.top),
        tenths(width),
        tenths(picture.height),
    );
}

/// Ends the opening tag.
fn write_words(out: &mut String, words: Option<Words<'_>>) {
    let Some(words) = words else { return out.push('>') };
    let _ = write!(
        out,
        r#" role="img" aria-labelledby="{0}.title {3}"><title id="{0}.title">{1}</title><desc id="{3}">{2}</desc>"#,
        words.id,
        escaped(words.title),
        escaped(words.description),
        words.description_id(),
    );
}

/// Writes shapes one after the other.
struct Pen {
    out: String,
    colors: Colors,
    /// How near to its exact place an outline is drawn.
    close: f64,
}

impl Pen {
    fn panel(&mut self, panel: &Panel, shift: DVec2, motion: Option<&Motion>) {
        self.out.push_str(match self.colors {
            // A property that the checkers of style sheets do not know yet.
            Colors::Theme => r#"<g class="drawn" paint-order="stroke""#,
            Colors::Paper => r#"<g stroke-linejoin="round" stroke-linecap="round""#,
        });
        let shift = (shift * FINE).round();
        if shift != DVec2::ZERO {
            let _ = write!(self.out, r#" transform="translate({} {})""#, shift.x, shift.y);
        }
        if let Some(motion) = motion {
            let paces: Vec<&str> = motion.paces.iter().map(|pace| pace.word()).collect();
            let _ = write!(self.out, r#" data-paces="{}""#, paces.join(" "));
        }
        self.out.push('>');
        for shape in &panel.still {
            self.shape(shape, &[]);
        }
        if !panel.start.is_empty() {
            let start = self.attributes("drawn-start", r#"opacity="0.45""#);
            let _ = write!(self.out, "<g{start}>");
            for shape in &panel.start {
                self.shape(shape, &[]);
            }
            self.out.push_str("</g>");
        }
        for (index, shape) in panel.figure.iter().enumerate() {
            let moments = motion.map_or(&[][..], |motion| &motion.moments);
            let at: Vec<&Shape> = moments.iter().filter_map(|m| m.get(index)).collect();
            self.shape(shape, &at);
        }
        if !panel.arrows.is_empty() || !panel.labels.is_empty() {
            self.out.push_str(match self.colors {
                Colors::Theme => r#"<g class="drawn-marks">"#,
                Colors::Paper => "<g>",
            });
            panel.arrows.iter().for_each(|arrow| self.arrow(arrow));
            panel.labels.iter().for_each(|mark| self.mark(mark));
            self.out.push_str("</g>");
        }
        if let Some((number, at)) = panel.number {
            self.number(number, at);
        }
        self.out.push_str("</g>");
    }

    /// The attributes of a shape: the theme's class, or the look on paper.
    fn attributes(&self, class: &str, paper: &str) -> String {
        match self.colors {
            Colors::Theme => format!(r#" class="{class}""#),
            Colors::Paper => format!(" {paper}"),
        }
    }

    fn shape(&mut self, shape: &Shape, moments: &[&Shape]) {
        let attributes = match shape {
            Shape::Solid { tone, .. } => {
                let look = look(*tone);
                let width = OUTLINE * FINE * if matches!(tone, Tone::Thing) { 0.7 } else { 1.0 };
                let paper = match tone {
                    Tone::Seam => format!(r#"fill="{}""#, look.paper),
                    _ => format!(
                        r##"fill="{}" stroke="{INK}" stroke-width="{width}" paint-order="stroke""##,
                        look.paper
                    ),
                };
                self.attributes(look.class, &paper)
            }
            Shape::Line { strong, .. } => {
                let (width, class) = if *strong { (1.2, "drawn-line") } else { (0.8, "drawn-thin") };
                let paper = format!(r##"fill="none" stroke="{INK}" stroke-width="{}""##, width * FINE);
                self.attributes(class, &paper)
            }
            Shape::Band { .. } => {
                let paper = format!(r##"fill="none" stroke="#5a5a5a" stroke-width="{}""##, 1.9 * FINE);
                self.attributes("drawn-band", &paper)
            }
            Shape::Dot { .. } => self.attributes("drawn-dot", &format!(r#"fill="{INK}""#)),
        };
        self.path(shape, &attributes, moments);
    }

    fn path(&mut self, shape: &Shape, attributes: &str, moments: &[&Shape]) {
        let _ = write!(self.out, r#"<path{attributes} d="{}""#, data(shape, &kept(&[shape], self.close)));
        // Points that one moment needs stand in all, so that each turns into the other.
        let kept = kept(moments, self.close);
        let values: Vec<String> = moments.iter().map(|moment| data(moment, &kept)).collect();
        match values.first() {
            Some(first) if values.iter().any(|value| value != first) => {
                let _ = write!(
                    self.out,
                    r#"><animate attributeName="d" begin="indefinite" values="{}"/></path>"#,
                    values.join(";")
                );
            }
            _ => self.out.push_str("/>"),
        }
    }

    fn arrow(&mut self, arrow: &Arrow) {
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
        let edge = ("drawn-arrow-edge", "drawn-tip-edge", "#ffffff", 1.4);
        for (shaft_class, head_class, color, extra) in [edge, ("drawn-arrow", "drawn-tip", INK, 0.0)] {
            let width = (ARROW + extra) * FINE;
            let line = format!(r#"fill="none" stroke="{color}" stroke-width="{width}""#);
            let line = self.attributes(shaft_class, &line);
            let tip = format!(r#"fill="{color}" stroke="{color}" stroke-width="{}""#, extra * FINE);
            let tip = self.attributes(head_class, &tip);
            let _ = write!(self.out, r#"<path{line} d="{shaft}"/><path{tip} d="{head}"/>"#);
        }
    }

    fn mark(&mut self, mark: &Mark) {
        let mut line = String::new();
        polyline(&mut line, &[mark.at, mark.disc], false);
        let thin = format!(r#"fill="none" stroke="{INK}" stroke-width="{}""#, 0.9 * FINE);
        let thin = self.attributes("drawn-thin", &thin);
        let disc = format!(r##"fill="#ffffff" stroke="{INK}" stroke-width="{}""##, 1.0 * FINE);
        let disc = self.attributes("drawn-disc", &disc);
        let (x, y, radius) = (mark.disc.x * FINE, mark.disc.y * FINE, DISC * FINE);
        let _ = write!(
            self.out,
            r#"<path{thin} d="{line}"/><circle{disc} cx="{x:.0}" cy="{y:.0}" r="{radius:.0}"/>"#
        );
        let bold = format!(r#"fill="none" stroke="{INK}" stroke-width="{}""#, 1.1 * FINE);
        let bold = self.attributes("drawn-digit", &bold);
        self.digit(mark.number, mark.disc, &bold);
    }

    /// Which of several poses it is: light on dark, unlike the numbers of labels.
    fn number(&mut self, number: usize, at: DVec2) {
        let disc = self.attributes("drawn-pose", &format!(r#"fill="{INK}""#));
        let (x, y, radius) = (at.x * FINE, at.y * FINE, DISC * FINE);
        let _ = write!(self.out, r#"<circle{disc} cx="{x:.0}" cy="{y:.0}" r="{radius:.0}"/>"#);
        let bold = format!(r##"fill="none" stroke="#ffffff" stroke-width="{}""##, 1.3 * FINE);
        let bold = self.attributes("drawn-pose-digit", &bold);
        self.digit(number, at, &bold);
    }

    fn digit(&mut self, number: usize, at: DVec2, look: &str) {
        for stroke in digits::strokes(number) {
            let points: Vec<DVec2> = stroke.iter().map(|p| at + *p * DISC * 1.15).collect();
            let mut digit = String::new();
            polyline(&mut digit, &points, false);
            let _ = write!(self.out, r#"<path{look} d="{digit}"/>"#);
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
        Tone::FarSkin => ("drawn-far-skin", "#e3e3e3"),
        Tone::Top => ("drawn-top", "#e9e9e9"),
        Tone::FarTop => ("drawn-far-top", "#cfcfcf"),
        Tone::Seam => ("drawn-seam", "#e9e9e9"),
        Tone::Legs => ("drawn-legs", "#b4b4b4"),
        Tone::FarLegs => ("drawn-far-legs", "#979797"),
        Tone::Shoe => ("drawn-shoe", "#4a4a4a"),
        Tone::FarShoe => ("drawn-far-shoe", "#3a3a3a"),
        Tone::Hair => ("drawn-hair", "#c4c4c4"),
        Tone::Thing => ("drawn-thing", "#f4f4f4"),
        Tone::Held => ("drawn-held", "#8a8a8a"),
    };
    Look { class, paper }
}

/// The path of a shape with the points that are kept. Shapes of the same kind have the same commands, whatever they
/// look like.
fn data(shape: &Shape, kept: &KeptPoints) -> String {
    let mut path = String::new();
    match shape {
        Shape::Solid { parts, .. } => {
            parts.iter().enumerate().for_each(|(at, part)| polyline(&mut path, &kept.of(at, part), true));
        }
        Shape::Line { points, .. } | Shape::Band { points } => polyline(&mut path, points, false),
        Shape::Dot { at, radius } => {
            let r = radius * FINE;
            let _ = write!(path, "M{:.0} {:.0}a{r:.1} {r:.1} 0 1 1 0 .1z", at.x * FINE, at.y * FINE - r);
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
        path.push_str(command);
        match index {
            0 => {
                number(path, here.0);
                path.push(' ');
                number(path, here.1);
            }
            _ => {
                number(path, x);
                if y >= 0 {
                    path.push(' ');
                }
                number(path, y);
            }
        }
        at = here;
    }
    if closed {
        path.push('z');
    }
}

/// Writes a whole number: most of a picture is numbers, for which the formatter of the standard library takes too long.
fn number(out: &mut String, value: i64) {
    if value < 0 {
        out.push('-');
    }
    let mut digits = [b'0'; 20];
    let mut first = digits.len();
    let mut rest = value.unsigned_abs();
    while rest > 0 || first == digits.len() {
        first -= 1;
        digits[first] = b'0' + (rest % 10) as u8;
        rest /= 10;
    }
    out.extend(digits[first..].iter().map(|digit| char::from(*digit)));
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
