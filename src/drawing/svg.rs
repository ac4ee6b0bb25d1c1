//! A picture as SVG.

#[cfg(test)]
mod tests;

use std::fmt::{Arguments, Write};

use glam::DVec2;

use super::arrows::Arrow;
use super::canvas::{Shape, Tone};
use super::digits;
use super::outline::{FINE, Kept, Spot, Trace, tenths};
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

/// How far an outline may lie beside its place, in tenths of the picture's units: less than a pixel at the size of a page.
const CLOSE: i64 = 1;
/// The same in a small picture.
const COARSE: i64 = 3;

impl Size {
    fn close(self) -> i64 {
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
    let mut pen = Pen { out, colors, close: CLOSE };
    for panel in &picture.panels {
        pen.panel(panel, panel.shift);
    }
    pen.out.push_str("</svg>");
    pen.out
}

/// A picture for pages in HTML: an element for each of its panels, so that they can stand beside or below each other as the
/// page has room, in the theme's colors. Each page gives it words of its own, and one of them its movement.
#[derive(Debug)]
pub struct Panels {
    elements: Vec<Element>,
    /// Wider than high.
    pub wide: bool,
}

impl Panels {
    pub fn of(picture: &Picture, size: Size) -> Panels {
        let one = |panel: &Panel| Element::of(picture, panel, size);
        Panels { elements: picture.panels.iter().map(one).collect(), wide: picture.is_wide() }
    }

    /// The elements, the first with the words of all, the last with the movement.
    pub fn with(&self, words: Words<'_>, motion: Option<&Motion>) -> Vec<String> {
        let last = self.elements.len().saturating_sub(1);
        let one = |(index, element): (usize, &Element)| {
            element.with((index == 0).then_some(words), motion.filter(|_| index == last))
        };
        self.elements.iter().enumerate().map(one).collect()
    }
}

/// A figure in few bytes, for a page that has many: its last panel alone, whose movement leads through all its poses.
#[derive(Debug)]
pub struct Counted {
    still: Element,
    moving: Option<Element>,
    /// Wider than high.
    pub wide: bool,
}

impl Counted {
    /// The figure of a picture that has a panel.
    pub fn of(picture: &Picture, motion: Option<&Motion>) -> Option<Counted> {
        // Which pose it is, is for those that stand beside others.
        Counted::of_panel(picture, Panel { number: None, ..picture.panels.last()?.clone() }, motion)
    }

    /// The same for a page that shows the other poses beside it.
    pub fn beside_others(picture: &Picture, motion: Option<&Motion>) -> Option<Counted> {
        Counted::of_panel(picture, picture.panels.last()?.clone(), motion)
    }

    fn of_panel(picture: &Picture, last: Panel, motion: Option<&Motion>) -> Option<Counted> {
        let element = || Element::of(picture, &last, Size::Small);
        let moving = motion.map(|motion| element().moved(motion));
        Some(Counted { still: element(), moving, wide: picture.is_wide() })
    }

    /// The element, with its movement where it is asked for and there is one. `words` are none where another has said them.
    pub fn with(&self, words: Option<Words<'_>>, moving: bool) -> String {
        let moving = self.moving.as_ref().filter(|_| moving);
        moving.unwrap_or(&self.still).with(words, None)
    }

    /// True for a figure with a movement.
    pub fn moves(&self) -> bool {
        self.moving.is_some()
    }
}

/// The last panel for a list in HTML that says its words beside it.
pub fn small(picture: &Picture) -> Option<String> {
    // Numbers would stand for words and poses that are not there.
    let last = Panel { labels: Vec::new(), number: None, ..picture.panels.last()?.clone() };
    Some(Element::of(picture, &last, Size::Small).with(None, None))
}

/// A panel as an SVG element that waits for its words and its movement.
#[derive(Debug)]
struct Element {
    /// The opening tag, but for what says its words.
    opening: String,
    /// What follows it and its words.
    drawn: String,
    /// Where in it the path of each shape of the figure ends, with `ENDS`.
    ends: Vec<usize>,
    /// How near to its place an outline is drawn, in tenths of the picture's units.
    close: i64,
}

/// Opens what is drawn on a page, with a property that the checkers of style sheets do not know yet.
const OPENING: &str = r#"<g class="drawn" paint-order="stroke""#;

/// Ends a path that does not move.
const ENDS: &str = "/>";

impl Element {
    fn of(picture: &Picture, panel: &Panel, size: Size) -> Element {
        let mut opening = String::from("<svg");
        let width = picture.panel_width();
        // In letters, so that it grows with them.
        let _ = write!(opening, r#" width="{:.1}em""#, width * LETTERS);
        write_view(&mut opening, picture, width);
        let mut pen = Pen { out: String::new(), colors: Colors::Theme, close: size.close() };
        let ends = pen.panel(panel, DVec2::ZERO);
        pen.out.push_str("</svg>");
        Element { opening, drawn: pen.out, ends, close: size.close() }
    }

    /// The same with its movement in what is drawn.
    fn moved(self, motion: &Motion) -> Element {
        let mut drawn = String::new();
        self.write_moving(&mut drawn, motion);
        Element { drawn, ends: Vec::new(), ..self }
    }

    fn with(&self, words: Option<Words<'_>>, motion: Option<&Motion>) -> String {
        let mut out = self.opening.clone();
        if words.is_none() {
            out.push_str(r#" aria-hidden="true""#);
        }
        write_words(&mut out, words);
        match motion {
            Some(motion) => self.write_moving(&mut out, motion),
            None => out.push_str(&self.drawn),
        }
        out
    }

    /// Writes what is drawn, with its moments in the path of each shape that moves.
    fn write_moving(&self, out: &mut String, motion: &Motion) {
        let mut from = OPENING.len();
        let paces: Vec<&str> = motion.paces.iter().map(|pace| pace.word()).collect();
        let _ = write!(out, r#"{OPENING} data-paces="{}""#, paces.join(" "));
        for (index, end) in self.ends.iter().enumerate() {
            let moments = || motion.moments.iter().filter_map(move |shapes| shapes.get(index));
            let traces: Vec<Trace> = moments().map(Trace::of).collect();
            if let Some(shape) = moments().next().filter(|_| moves(&traces)) {
                out.push_str(&self.drawn[from..*end]);
                write_moments(out, shape, &traces, self.close);
                from = end + ENDS.len();
            }
        }
        out.push_str(&self.drawn[from..]);
    }
}

fn write_view(out: &mut String, picture: &Picture, width: f64) {
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
    /// How near to its place an outline is drawn, in tenths of the picture's units.
    close: i64,
}

impl Pen {
    /// Draws a panel; where the paths of its figure end.
    fn panel(&mut self, panel: &Panel, shift: DVec2) -> Vec<usize> {
        self.out.push_str(match self.colors {
            Colors::Theme => OPENING,
            Colors::Paper => r#"<g stroke-linejoin="round" stroke-linecap="round""#,
        });
        let shift = (shift * FINE).round();
        if shift != DVec2::ZERO {
            let _ = write!(self.out, r#" transform="translate({} {})""#, shift.x, shift.y);
        }
        self.out.push('>');
        panel.still.iter().for_each(|shape| self.shape(shape));
        if !panel.start.is_empty() {
            self.out.push_str("<g");
            self.attributes("drawn-start", format_args!(r#"opacity="0.45""#));
            self.out.push('>');
            panel.start.iter().for_each(|shape| self.shape(shape));
            self.out.push_str("</g>");
        }
        let mut ends = Vec::with_capacity(panel.figure.len());
        for shape in &panel.figure {
            self.shape(shape);
            ends.push(self.out.len() - ENDS.len());
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
        ends
    }

    /// The look of a shape: the theme's class, or attributes on paper.
    fn attributes(&mut self, class: &str, paper: Arguments<'_>) {
        self.out.push(' ');
        match self.colors {
            Colors::Theme => self.out.extend(["class=\"", class, "\""]),
            Colors::Paper => self.out.write_fmt(paper).unwrap_or_default(),
        }
    }

    fn shape(&mut self, shape: &Shape) {
        self.out.push_str("<path");
        match shape {
            Shape::Solid { tone, .. } => {
                let look = look(*tone);
                let width = OUTLINE * FINE * if matches!(tone, Tone::Thing) { 0.7 } else { 1.0 };
                match tone {
                    Tone::Seam => self.attributes(look.class, format_args!(r#"fill="{}""#, look.paper)),
                    _ => self.attributes(
                        look.class,
                        format_args!(
                            r##"fill="{}" stroke="{INK}" stroke-width="{width}" paint-order="stroke""##,
                            look.paper
                        ),
                    ),
                }
            }
            Shape::Line { strong, .. } => {
                let (width, class) = if *strong { (1.2, "drawn-line") } else { (0.8, "drawn-thin") };
                self.line(class, INK, width);
            }
            Shape::Band { .. } => self.line("drawn-band", "#5a5a5a", 1.9),
            Shape::Dot { .. } => self.attributes("drawn-dot", format_args!(r#"fill="{INK}""#)),
        }
        let still = [Trace::of(shape)];
        self.out.push_str(r#" d=""#);
        data(&mut self.out, shape, &still[0], &kept(shape, &still, self.close));
        self.out.push('"');
        self.out.push_str(ENDS);
    }

    /// The look of a line that is so wide, in the picture's units.
    fn line(&mut self, class: &str, color: &str, width: f64) {
        let width = width * FINE;
        self.attributes(class, format_args!(r#"fill="none" stroke="{color}" stroke-width="{width}""#));
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
        let head = [*tip + way * 0.6, foot + aside * 3.0, foot - aside * 3.0];
        let edge = ("drawn-arrow-edge", "drawn-tip-edge", "#ffffff", 1.4);
        for (shaft_class, head_class, color, extra) in [edge, ("drawn-arrow", "drawn-tip", INK, 0.0)] {
            self.out.push_str("<path");
            self.line(shaft_class, color, ARROW + extra);
            self.drawn(&line, false);
            self.out.push_str("<path");
            let width = extra * FINE;
            self.attributes(
                head_class,
                format_args!(r#"fill="{color}" stroke="{color}" stroke-width="{width}""#),
            );
            self.drawn(&head, true);
        }
    }

    fn mark(&mut self, mark: &Mark) {
        self.out.push_str("<path");
        self.line("drawn-thin", INK, 0.9);
        self.drawn(&[mark.at, mark.disc], false);
        self.out.push_str("<circle");
        let width = 1.0 * FINE;
        self.attributes(
            "drawn-disc",
            format_args!(r##"fill="#ffffff" stroke="{INK}" stroke-width="{width}""##),
        );
        let (at, radius) = (Spot::of(mark.disc), tenths(DISC));
        let _ = write!(self.out, r#" cx="{}" cy="{}" r="{radius}"/>"#, at.x, at.y);
        self.digit(mark.number, mark.disc, ("drawn-digit", INK, 1.1));
    }

    /// Which of several poses it is: light on dark, unlike the numbers of labels.
    fn number(&mut self, number: usize, at: DVec2) {
        self.out.push_str("<circle");
        self.attributes("drawn-pose", format_args!(r#"fill="{INK}""#));
        let (middle, radius) = (Spot::of(at), tenths(DISC));
        let _ = write!(self.out, r#" cx="{}" cy="{}" r="{radius}"/>"#, middle.x, middle.y);
        self.digit(number, at, ("drawn-pose-digit", "#ffffff", 1.3));
    }

    /// A digit around this place, in lines of this class, color and width.
    fn digit(&mut self, number: usize, at: DVec2, (class, color, width): (&str, &str, f64)) {
        for stroke in digits::strokes(number) {
            let points: Vec<DVec2> = stroke.iter().map(|p| at + *p * DISC * 1.15).collect();
            self.out.push_str("<path");
            self.line(class, color, width);
            self.drawn(&points, false);
        }
    }

    /// Ends a path with a line through these points.
    fn drawn(&mut self, points: &[DVec2], closed: bool) {
        self.out.push_str(r#" d=""#);
        polyline(&mut self.out, points.iter().map(|point| Spot::of(*point)), closed);
        self.out.push_str(r#""/>"#);
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

/// True when a shape is not the same at all moments, and can turn from each into the next.
fn moves(moments: &[Trace]) -> bool {
    let Some(first) = moments.first() else { return false };
    moments.iter().all(|moment| moment.matches(first)) && moments.iter().any(|moment| moment != first)
}

/// Ends the path of a shape with what it looks like at each moment.
fn write_moments(out: &mut String, shape: &Shape, moments: &[Trace], close: i64) {
    // Points that one moment needs stand in all, so that each turns into the other.
    let kept = kept(shape, moments, close);
    out.push_str(r#"><animate attributeName="d" begin="indefinite" values=""#);
    for (index, moment) in moments.iter().enumerate() {
        if index > 0 {
            out.push(';');
        }
        data(out, shape, moment, &kept);
    }
    out.push_str(r#""/></path>"#);
}

/// The points of a shape that are drawn at each of its moments.
fn kept(shape: &Shape, moments: &[Trace], close: i64) -> Kept {
    match shape {
        Shape::Solid { .. } => Kept::needed(moments, close),
        _ => Kept::all(moments),
    }
}

/// The path of a shape with the points that are kept. Shapes of the same kind have the same commands, whatever they
/// look like.
fn data(path: &mut String, shape: &Shape, trace: &Trace, kept: &Kept) {
    let closed = matches!(shape, Shape::Solid { .. });
    for part in trace.kept(kept) {
        match shape {
            Shape::Dot { radius, .. } => part.for_each(|middle| dot(path, middle, *radius)),
            _ => polyline(path, part, closed),
        }
    }
}

/// A circle, from its top around.
fn dot(path: &mut String, middle: Spot, radius: f64) {
    let r = radius * FINE;
    let _ = write!(path, "M{} {}a{r:.1} {r:.1} 0 1 1 0 .1z", middle.x, middle.y - tenths(radius));
}

fn polyline(path: &mut String, spots: impl Iterator<Item = Spot>, closed: bool) {
    let mut before = None;
    for (index, spot) in spots.enumerate() {
        let (x, y) = match before {
            None => (spot.x, spot.y),
            Some(Spot { x, y }) => (spot.x - x, spot.y - y),
        };
        match index {
            0 => path.push('M'),
            1 => path.push('l'),
            _ if x >= 0 => path.push(' '),
            // A minus parts two numbers by itself.
            _ => {}
        }
        number(path, x);
        if y >= 0 {
            path.push(' ');
        }
        number(path, y);
        before = Some(spot);
    }
    if closed {
        path.push('z');
    }
}

/// Writes a whole number: most of a picture is numbers, for which the formatter of the standard library takes too long.
fn number(out: &mut String, value: i32) {
    if value < 0 {
        out.push('-');
    }
    digits_of(out, value.unsigned_abs());
}

fn digits_of(out: &mut String, value: u32) {
    if value >= 10 {
        digits_of(out, value / 10);
    }
    out.push(char::from(b'0' + (value % 10) as u8));
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
