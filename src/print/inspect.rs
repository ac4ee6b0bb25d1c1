//! The last look at a sheet as it was set: nothing runs off the page, nothing is torn apart, no letter
//! is missing. The typesetter itself reports none of these.
//!
//! The theme's sheet leaves marks, which are metadata with a `mark`:
//!
//! | mark | fields | says |
//! | --- | --- | --- |
//! | `area` | `margin` (a length, or points) | text stays this far from the edges of the page |
//! | `place` | `place` | what follows was written there |
//! | `keep` | `place`, `part` | from `start` to `end`, all on one page |
//! | `number` | | the number of the step that is kept next |
//! | `heading` | `place`, `part` | never the last on its page |
//! | `exercise` | `place`, `part` | begins a page, or stands on one page whole |
//! | `card` | `place`, `part` | from `start` to `end`, on no more sides than a card has |
//! | `movement` | | a picture of the movement of the card: its steps are on the same side, or facing it |
//! | `overflow` | `place`, `lines`, `set_up`, `steps`, `cautions` | a card is so many lines too long for its sides; how many lines its parts have |
//! | `write` | | a line to write on, which counts as a line of its page |
//! | `tall-foot` | `place` | what stands in the foot of the page, written there, leaves too little of the page |
//! | `margin` | `place`, `part` | a header or footer, which may stand nearer to the edge; what it says was written there |

mod card;
mod faults;
mod stranded;

use std::collections::BTreeSet;

use typst::foundations::{Content, Dict, Value};
use typst::introspection::{MetadataElem, Tag};
use typst::layout::{Frame, FrameItem, Point, Transform};
use typst::text::TextItem;
use typst_layout::PagedDocument;

use faults::{Fault, FaultKind, together};

use super::places::{Place, Places};
use crate::model::finding::Finding;
use crate::model::source::{Sources, Span};

/// How far words and pictures may stick out, in points: rounding, and the overhang of a letter.
const TOLERANCE: f64 = 1.0;

/// How far a box or a line may stick out, in points: half of its own width, with the words inside it.
const FRAME: f64 = 4.0;

/// What is wrong with a sheet, at the author's lines. `whole` is the place of what has none; a card has so many sides.
pub(super) fn inspect(
    document: &PagedDocument,
    places: &Places,
    sources: &Sources,
    whole: Span,
    sides: usize,
) -> Vec<Finding> {
    let mut walk = Walk { cards: card::Cards::of(sides), ..Walk::default() };
    for (number, page) in document.pages().iter().enumerate() {
        walk.page(number + 1, &page.frame);
    }
    let mut findings = Vec::new();
    let mut told = BTreeSet::new();
    let span_of = |fault: &Fault| fault.place.and_then(|place| places.get(place)).unwrap_or(whole);
    for fault in together(walk.faults(), span_of) {
        let finding = fault.kind.tell(span_of(&fault), sources);
        if told.insert((finding.rule, finding.span, finding.message.clone())) {
            findings.push(finding);
        }
    }
    findings
}

/// What was met on the pages, in reading order.
#[derive(Default)]
struct Walk {
    page: usize,
    width: f64,
    height: f64,
    margin: f64,
    place: Option<Place>,
    /// Inside a header or footer.
    in_margin: bool,
    /// The place of what stood before the header or footer, which goes on after it.
    outside: Option<Place>,
    met: Vec<Met>,
    faults: Vec<Fault>,
    cards: card::Cards,
    /// Between the start and the end of a card.
    on_card: bool,
    lines: stranded::Lines,
    /// Words on the page being walked, to see whether any lie on others.
    words: Vec<(Rect, Option<Place>, String)>,
}

struct Met {
    page: usize,
    what: What,
}

enum What {
    Content,
    Number,
    Mark { name: String, place: Option<Place>, ends: bool },
}

#[derive(Clone, Copy)]
struct Rect {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Walk {
    fn page(&mut self, number: usize, frame: &Frame) {
        self.page = number;
        self.width = frame.width().to_pt();
        self.height = frame.height().to_pt();
        self.in_margin = false;
        self.words.clear();
        if self.on_card {
            self.lines.on_card();
        }
        self.frame(frame, Transform::identity());
        self.overlaps();
        if let Some((place, stranded)) = std::mem::take(&mut self.lines).stranded(number) {
            self.faults.push(Fault { place, kind: FaultKind::Stranded(stranded) });
        }
    }

    fn frame(&mut self, frame: &Frame, ts: Transform) {
        for (at, item) in frame.items() {
            let ts = ts.pre_concat(Transform::translate(at.x, at.y));
            let rect = |width: f64, top: f64, bottom: f64| rect(ts, width, top, bottom);
            match item {
                FrameItem::Group(group) => self.frame(&group.frame, ts.pre_concat(group.transform)),
                FrameItem::Tag(Tag::Start(content, _)) => self.mark(content),
                FrameItem::Text(text) => self.text(text, ts),
                FrameItem::Shape(shape, _) => {
                    let own = shape.bbox(false);
                    let ts = ts.pre_concat(Transform::translate(own.min.x, own.min.y));
                    let size = own.max - own.min;
                    let rect = self::rect(ts, size.x.to_pt(), 0.0, size.y.to_pt());
                    self.content(rect, "a box or a line", FRAME);
                }
                FrameItem::Image(_, size, _) => {
                    self.lines.picture(size.y.to_pt());
                    self.content(rect(size.x.to_pt(), 0.0, size.y.to_pt()), "a picture", TOLERANCE);
                }
                FrameItem::Tag(Tag::End(..)) | FrameItem::Link(..) => {}
            }
        }
    }

    fn text(&mut self, text: &TextItem, ts: Transform) {
        let size = text.size.to_pt();
        for glyph in text.glyphs.iter().filter(|glyph| glyph.id == 0) {
            if let Some(letter) = text.text.get(glyph.range()).and_then(|cluster| cluster.chars().next()) {
                let letters = vec![letter];
                self.faults.push(Fault { place: self.place, kind: FaultKind::NoGlyph { letters } });
            }
        }
        // From the height of a small letter to the baseline: what lies on other words is seen there first.
        let core = rect(ts, text.width().to_pt(), -0.5 * size, 0.0);
        if !self.in_margin {
            self.words.push((core, self.place, text.text.to_string()));
            self.lines.text(core.bottom, size, self.place, &text.text);
        }
        self.content(rect(ts, text.width().to_pt(), -0.7 * size, 0.2 * size), &text.text, TOLERANCE);
    }

    fn content(&mut self, rect: Rect, words: &str, tolerance: f64) {
        if !self.in_margin {
            self.met.push(Met { page: self.page, what: What::Content });
        }
        let margin = if self.in_margin { 0.0 } else { self.margin };
        let margin = margin - tolerance;
        let wide = rect.left < margin || rect.right > self.width - margin;
        let tall = rect.top < margin || rect.bottom > self.height - margin;
        if wide || tall {
            let (page, words) = (self.page, words.to_string());
            let kind = match self.in_margin {
                true => FaultKind::OffTheMargin { page, words },
                false => FaultKind::OffThePage { page, words, wide },
            };
            self.faults.push(Fault { place: self.place, kind });
        }
    }

    fn mark(&mut self, content: &Content) {
        let Some(metadata) = content.to_packed::<MetadataElem>() else { return };
        let Value::Dict(fields) = &metadata.value else { return };
        let text = |key: &str| match fields.get(key) {
            Ok(Value::Str(text)) => Some(text.to_string()),
            _ => None,
        };
        let Some(name) = text("mark") else { return };
        let place = number(fields, "place");
        let ends = text("part").as_deref() == Some("end");
        match name.as_str() {
            "area" => {
                self.margin = match fields.get("margin") {
                    Ok(Value::Float(margin)) => *margin,
                    Ok(Value::Int(margin)) => *margin as f64,
                    Ok(Value::Length(margin)) => margin.abs.to_pt(),
                    _ => self.margin,
                };
            }
            "margin" if ends => {
                self.in_margin = false;
                self.place = self.outside.take();
            }
            "margin" => {
                self.in_margin = true;
                self.outside = std::mem::replace(&mut self.place, place);
            }
            "write" => self.lines.ruled(),
            "tall-foot" => self.faults.push(Fault { place, kind: FaultKind::TallFoot { page: self.page } }),
            "number" => {
                self.cards.step(self.page);
                self.met.push(Met { page: self.page, what: What::Number });
            }
            "movement" => self.cards.movement(self.page),
            "overflow" => {
                self.cards.told();
                let kind = FaultKind::CardTooLong(self.cards.too_long(|key| number(fields, key)));
                self.faults.push(Fault { place, kind });
            }
            "card" if !ends => {
                self.on_card = true;
                self.lines.on_card();
                self.cards.begin(place, self.page);
            }
            "card" => {
                self.on_card = false;
                let faults = self
                    .cards
                    .end(self.page)
                    .map(|(place, parted)| Fault { place, kind: FaultKind::CardParted(parted) });
                self.faults.extend(faults);
            }
            _ => {
                if place.is_some() {
                    self.place = place;
                }
                self.met.push(Met { page: self.page, what: What::Mark { name, place, ends } });
            }
        }
    }

    /// Words that lie on other words of the same page.
    fn overlaps(&mut self) {
        let mut words = std::mem::take(&mut self.words);
        words.sort_by(|(a, ..), (b, ..)| a.top.total_cmp(&b.top));
        for (i, (a, _, _)) in words.iter().enumerate() {
            let below = words[i + 1..].iter().take_while(|(b, ..)| b.top < a.bottom - TOLERANCE);
            for (b, place, text) in below {
                let beside = b.left >= a.right - TOLERANCE || b.right <= a.left + TOLERANCE;
                if !beside && !text.trim().is_empty() {
                    let kind = FaultKind::Overlap { page: self.page, words: text.clone() };
                    self.faults.push(Fault { place: *place, kind });
                }
            }
        }
    }

    /// What the pages show, and what the marks say of it.
    fn faults(self) -> Vec<Fault> {
        let mut open: Vec<(&str, Option<Place>, usize, bool)> = Vec::new();
        let mut number: Option<usize> = None;
        // The last page on which something stood, and the heading that waits for what it is about.
        let mut last_content = 0;
        let mut waiting: Option<(Option<Place>, usize)> = None;
        let mut faults = Vec::new();
        for met in &self.met {
            match &met.what {
                What::Content => {
                    last_content = met.page;
                    let in_heading = open.iter().any(|(name, ..)| *name == "heading");
                    if let Some((place, page)) = waiting.take_if(|_| !in_heading)
                        && page != met.page
                    {
                        faults.push(Fault { place, kind: FaultKind::HeadingLast { page } });
                    }
                }
                What::Number => number = Some(met.page),
                What::Mark { name, place, ends: false } => {
                    if name == "keep"
                        && let Some(from) = number.take()
                        && from != met.page
                    {
                        let kind = FaultKind::StepFromNumber { from, to: met.page };
                        faults.push(Fault { place: *place, kind });
                    }
                    if name == "heading"
                        && let Some((place, page)) = waiting.take()
                        && page != met.page
                    {
                        faults.push(Fault { place, kind: FaultKind::HeadingLast { page } });
                    }
                    open.push((name, *place, met.page, last_content == met.page));
                }
                What::Mark { name, ends: true, .. } => {
                    let Some(at) = open.iter().rposition(|(opened, ..)| opened == name) else { continue };
                    let (_, place, from, in_the_middle) = open.remove(at);
                    let to = met.page;
                    match name.as_str() {
                        "keep" if from != to => {
                            faults.push(Fault { place, kind: FaultKind::Torn { from, to } });
                        }
                        "heading" => waiting = Some((place, to)),
                        "exercise" if from != to && in_the_middle => {
                            faults.push(Fault { place, kind: FaultKind::ExerciseTorn { from, to } });
                        }
                        _ => {}
                    }
                }
            }
        }
        if let Some((place, page)) = waiting {
            faults.push(Fault { place, kind: FaultKind::HeadingLast { page } });
        }
        // A page with nothing but a heading is told once.
        let of_heading: BTreeSet<usize> = faults
            .iter()
            .filter_map(|fault| match fault.kind {
                FaultKind::HeadingLast { page } => Some(page),
                _ => None,
            })
            .collect();
        let is_told = |fault: &Fault| matches!(&fault.kind, FaultKind::Stranded(stranded) if of_heading.contains(&stranded.page));
        faults.extend(self.faults.into_iter().filter(|fault| !is_told(fault)));
        faults
    }
}

/// A whole number of a mark.
fn number(fields: &Dict, key: &str) -> Option<usize> {
    match fields.get(key) {
        Ok(Value::Int(number)) => usize::try_from(*number).ok(),
        _ => None,
    }
}

/// A piece from the point that the transform leads to: its width to the right, from `top` to `bottom`.
fn rect(ts: Transform, width: f64, top: f64, bottom: f64) -> Rect {
    use typst::layout::Abs;
    let corner = |x: f64, y: f64| Point::new(Abs::pt(x), Abs::pt(y)).transform(ts);
    let corners = [corner(0.0, top), corner(width, top), corner(0.0, bottom), corner(width, bottom)];
    let x = corners.map(|c| c.x.to_pt());
    let y = corners.map(|c| c.y.to_pt());
    let least = |v: [f64; 4]| v.into_iter().fold(f64::INFINITY, f64::min);
    let most = |v: [f64; 4]| v.into_iter().fold(f64::NEG_INFINITY, f64::max);
    Rect { left: least(x), top: least(y), right: most(x), bottom: most(y) }
}

#[cfg(test)]
mod tests;
