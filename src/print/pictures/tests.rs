//! Figures on sheets: where they stand, how large they are, what they say to those who do not see them.

use image::ImageEncoder;
use page_validation::{ValidationOptions, ValidationProfile, validate_pdf_bytes};
use typst::layout::{Frame, FrameItem, Point};
use typst_layout::PagedDocument;

use std::collections::BTreeMap;

use super::*;
use crate::model::client::Client;
use crate::model::exercise::Exercise;
use crate::model::source::{Source, Sources};
use crate::model::vocabulary::{Extent, Paper, Vocabulary};
use crate::model::week::Week;
use crate::print::{Manuscript, Order, Person, Press, Subject, Unprinted, cues, handout};
use crate::review::testing::{with_case, words};
use crate::workspace::sample;
use crate::workspace::theme::Theme;

const HEEL_DROP: &str = "content/exercises/heel-drop.md";

const STANDING: &str = r#"
[[figure]]
description = "She stands tall."
[[figure.pose]]
base = "standing"
"#;

const SQUAT: &str = r#"
[[figure]]
description = "She bends her knees a little at the counter."
caption = "A small squat is enough."
props = ["counter"]
arrows = ["hips"]
labels = [{ at = "right-knee", text = "Over your foot" }, { at = "back", text = "Long all the way up to your head" }]
[[figure.pose]]
base = "standing"
hold = "counter"
[[figure.pose]]
base = "standing"
hold = "counter"
knee.flexion = 45
hip.flexion = 50
"#;

const THREE: &str = r#"
[[figure]]
description = "She stands up from a chair."
props = ["chair"]
labels = [{ at = "feet", text = "Press down through both of your feet" }]
[[figure.pose]]
base = "seated"
[[figure.pose]]
base = "seated"
hip.flexion = 110
[[figure.pose]]
base = "standing"
"#;

const OVER: &str = r#"
[[figure]]
description = "She bends one knee."
layout = "over"
arrows = ["right-heel"]
[[figure.pose]]
base = "standing"
[[figure.pose]]
base = "standing"
weight = "left"
right_foot = "lifted"
right_knee.flexion = 80
"#;

const LYING: &str = r#"
[[figure]]
description = "She lies on her back and lifts her hips."
props = ["floor"]
[[figure.pose]]
base = "lying"
knee.flexion = 90
hip.flexion = 50
[[figure.pose]]
base = "lying"
knee.flexion = 90
hip.flexion = 10
hips_raised = 14
"#;

const PHOTO: &str = r#"
[[figure]]
description = "A sturdy counter."
file = "media/counter.png"
"#;

const ALL: [&str; 6] = [STANDING, SQUAT, THREE, OVER, LYING, PHOTO];

/// The heel drop of the sample with other figures.
fn entry(figures: &str) -> String {
    let text = sample::text(HEEL_DROP).unwrap();
    let start = text.find("[[figure]]").unwrap();
    let end = start + text[start..].find("```").unwrap();
    format!("{}{}{}", &text[..start], figures.trim_start(), &text[end..])
}

/// What a test looks at: the press of the sample, the heel drop, and the week that has it.
struct Look<'l, 'm> {
    press: &'l Press<'m>,
    exercise: &'m Exercise,
    sources: &'m Sources,
}

impl<'m> Look<'_, 'm> {
    fn alone(&self) -> Subject<'m> {
        Subject::Exercises(vec![self.exercise])
    }

    fn week(&self) -> Subject<'m> {
        let uses = |week: &Week| week.exercises.iter().any(|used| used.id.value == "heel-drop");
        let (series, week) = self.press.model.weeks().find(|(_, week)| uses(week)).unwrap();
        Subject::Week(series, week)
    }

    fn handout(&self, subject: Subject<'m>, size: u32, paper: Paper) -> Manuscript {
        self.press.handout(&Order::of(subject, Extent::Full, size, paper)).unwrap()
    }

    fn pdf(&self, manuscript: &Manuscript) -> Vec<u8> {
        self.press
            .print(manuscript)
            .unwrap_or_else(|why| match why {
                Unprinted::Theme(error) => panic!("{error}"),
                Unprinted::Findings(findings) => panic!("{findings:?}"),
            })
            .pdf
    }
}

fn with(figures: &str, look: impl FnOnce(Look<'_, '_>)) {
    with_entry(&entry(figures), look);
}

fn with_entry(entry: &str, look: impl FnOnce(Look<'_, '_>)) {
    let mut png = Vec::new();
    image::codecs::png::PngEncoder::new(&mut png)
        .write_image(&[128; 12 * 16], 12, 16, image::ExtendedColorType::L8)
        .unwrap();
    let photo = Photo { extension: "png", bytes: png };
    let photos = Photos::from_iter([(Shot::whole("media/counter.png"), photo)]);
    with_case(&[(HEEL_DROP, entry), ("content/media/counter.png", "")], |case| {
        let program = blake3::hash(b"test");
        let theme = Theme::built_in();
        let press = Press::new(case.model, case.sources, words(), &theme, &photos, false, &program).unwrap();
        let exercise = &case.model.exercises["heel-drop"];
        look(Look { press: &press, exercise, sources: case.sources });
    });
}

/// A picture or a run of words on a page, in millimeters from its corner.
#[derive(Debug)]
enum Seen {
    Picture { page: usize, left: f64, width: f64, height: f64 },
    Words { page: usize, text: String },
}

fn seen(look: &Look<'_, '_>, manuscript: &Manuscript) -> Vec<Seen> {
    fn walk(frame: &Frame, origin: Point, page: usize, out: &mut Vec<Seen>) {
        for (at, item) in frame.items() {
            let at = origin + *at;
            match item {
                FrameItem::Group(group) => walk(&group.frame, at, page, out),
                FrameItem::Image(_, size, _) => out.push(Seen::Picture {
                    page,
                    left: at.x.to_mm(),
                    width: size.x.to_mm(),
                    height: size.y.to_mm(),
                }),
                FrameItem::Text(text) => out.push(Seen::Words { page, text: text.text.to_string() }),
                _ => {}
            }
        }
    }
    let world = look.press.world(manuscript).unwrap();
    let document = typst::compile::<PagedDocument>(&world).output.unwrap();
    let mut out = Vec::new();
    for (page, laid) in document.pages().iter().enumerate() {
        walk(&laid.frame, Point::zero(), page, &mut out);
    }
    out
}

/// The page that the words are on, and the figure that follows them: the component's shape is no figure.
fn figure_after<'s>(seen: &'s [Seen], title: &str) -> (usize, &'s Seen) {
    let is_title = |seen: &Seen| matches!(seen, Seen::Words { text, .. } if text.starts_with(title));
    // The title stands in the list at a glance, too; the last that a figure follows begins the exercise.
    let figures = |seen: &Seen| matches!(seen, Seen::Picture { height, .. } if *height > 30.0);
    let at = seen.iter().position(figures).unwrap();
    let page = seen[..at].iter().rev().find(|s| is_title(s)).map(|s| match s {
        Seen::Words { page, .. } | Seen::Picture { page, .. } => *page,
    });
    (page.unwrap(), &seen[at])
}

/// The width of the column on a paper, in millimeters.
fn column(paper: Paper) -> f64 {
    let width = match paper {
        Paper::A4 => 210.0,
        Paper::Letter => 215.9,
    };
    width - 2.0 * 25.4
}

#[test]
fn a_figure_stands_below_its_title_as_large_as_its_page_allows() {
    for figures in ALL {
        with(figures, |look| {
            for size in [18, 24, 32] {
                for &paper in Paper::ALL {
                    let sheet = look.handout(look.alone(), size, paper);
                    let seen = seen(&look, &sheet);
                    let (page, figure) = figure_after(&seen, "Heel drop");
                    let Seen::Picture { page: own, left, width, height } = figure else { unreachable!() };
                    let about = format!("{size} point, {}: {figure:?} in {figures}", paper.word());
                    assert_eq!((*own, page), (0, 0), "{about}");
                    assert!((left - 25.4).abs() < 0.5 && *width < column(paper) + 0.1, "{about}");
                    // As high as asked for, unless it fills the column.
                    let low = 38.0 + 1.8 * f64::from(size);
                    let is_wide = *width > column(paper) * 0.75;
                    assert!(is_wide || (low - 1.0..low * 1.52).contains(height), "{about}");
                }
            }
        });
    }
}

#[test]
fn a_figure_of_a_week_stands_on_the_page_that_its_exercise_begins() {
    with(SQUAT, |look| {
        for size in [18, 32] {
            let week = look.week();
            let Subject::Week(_, only) = &week else { unreachable!() };
            assert!(only.exercises.len() > 1);
            let seen = seen(&look, &look.handout(week, size, Paper::A4));
            let (mut pictures, mut of_other_ways) = (0, 0);
            // Where the exercise begins, and whether its other ways have begun.
            let (mut first, mut ways) = (None, false);
            for (at, one) in seen.iter().enumerate() {
                match one {
                    Seen::Words { page, text } if text.starts_with("Exercise ") && text.contains(" of ") => {
                        (first, ways) = (Some((at, *page)), false);
                    }
                    Seen::Words { text, .. } => ways |= text == "Another safe way",
                    // The shape of the component, and the code for phones on the last page.
                    Seen::Picture { height, .. } if *height < 30.0 || *height == 45.0 => {}
                    Seen::Picture { .. } if ways => of_other_ways += 1,
                    Seen::Picture { page, .. } => {
                        pictures += 1;
                        let (begun, on) =
                            first.unwrap_or_else(|| panic!("no exercise begins above page {page}"));
                        assert_eq!(*page, on, "{size} point");
                        assert!(at - begun < 8, "{size} point: {} pieces above the figure", at - begun);
                    }
                }
            }
            assert!(of_other_ways > 1, "{of_other_ways}");
            assert!(pictures > 1, "{pictures}");
        }
    });
}

#[test]
fn sheets_with_every_kind_of_figure_are_pdf_ua_1() {
    let profile = ValidationOptions::default().profile(ValidationProfile::PdfUa1);
    for figures in ALL.into_iter().chain([&*ALL.concat()]) {
        with(figures, |look| {
            for size in [18, 32] {
                let order = Order::of(look.week(), Extent::Full, size, Paper::A4);
                let cues = look.press.cue_sheet(&order).unwrap();
                let handout = look.handout(look.alone(), size, Paper::Letter);
                // A cue sheet of a week has figures where they have room.
                for (sheet, has_it) in [(handout, true), (cues, false)] {
                    let pdf = look.pdf(&sheet);
                    let report = validate_pdf_bytes(&pdf, &profile).unwrap();
                    assert!(report.is_compliant, "{figures}: {:?}", report.failures);
                    let description = figures.split('"').nth(1).unwrap();
                    let told = format!("/Alt({description})");
                    assert!(!has_it || String::from_utf8_lossy(&pdf).contains(&told), "no {told}");
                }
            }
        });
    }
}

#[test]
fn the_words_of_a_figure_lead_to_where_they_were_written() {
    with(SQUAT, |look| {
        let written = handout::write(look.press, &Order::of(look.alone(), Extent::Full, 18, Paper::A4));
        let [figure] = &written.handout.exercises[0].figures[..] else { panic!() };
        assert_eq!(figure.description, "She bends her knees a little at the counter.");
        assert_eq!(figure.caption.as_deref(), Some("A small squat is enough."));
        let labels: Vec<&str> = figure.labels.iter().map(|label| label.text.as_str()).collect();
        assert_eq!(labels, ["Over your foot", "Long all the way up to your head"]);
        for label in &figure.labels {
            let place = written.places.get(label.place).unwrap();
            assert!(look.sources.slice(place).contains(&label.text));
        }
        // All of them stand on the sheet.
        let seen = seen(&look, &look.handout(look.alone(), 18, Paper::A4));
        let words: String = seen
            .iter()
            .filter_map(|s| match s {
                Seen::Words { text, .. } => Some(text.as_str()),
                Seen::Picture { .. } => None,
            })
            .collect();
        for said in labels.into_iter().chain(figure.caption.as_deref()) {
            assert!(said.split(' ').all(|word| words.contains(word)), "`{said}` is not on the sheet");
        }
    });
}

#[test]
fn a_figure_without_words_has_those_of_its_exercise() {
    with(
        &SQUAT.replace("She bends her knees a little at the counter.", "").replace("caption", "#"),
        |look| {
            let written = handout::write(look.press, &Order::of(look.alone(), Extent::Full, 18, Paper::A4));
            assert_eq!(written.handout.exercises[0].figures[0].description, "Heel drop at the counter");
        },
    );
}

#[test]
fn whatever_changes_a_figure_makes_another_sheet() {
    let key = |figures: &str| {
        let mut key = None;
        with(figures, |look| key = Some(look.press.key(&look.handout(look.alone(), 18, Paper::A4))));
        key.unwrap()
    };
    let first = key(SQUAT);
    assert_eq!(key(SQUAT), first);
    let changes = [
        ("hip.flexion = 50", "hip.flexion = 40"),
        ("is enough", "will do"),
        ("Over your foot", "Above your foot"),
        ("a little", "a bit"),
    ];
    for (old, new) in changes {
        assert_ne!(key(&SQUAT.replace(old, new)), first, "{new}");
    }
    // A line of the drawing, and nothing else: neither a word of the sheet nor a size.
    with(SQUAT, |look| {
        let mut sheet = look.handout(look.alone(), 18, Paper::A4);
        let drawing = &mut sheet.pictures.drawings[0];
        let mut svg = std::str::from_utf8(drawing).unwrap().to_string();
        svg.insert(20, ' ');
        *drawing = Bytes::from_string(svg);
        assert_ne!(look.press.key(&sheet), first);
    });
}

fn client(fields: &str, look: &Look<'_, '_>) -> Client {
    let mut sources = look.sources.clone();
    let file = sources.add(Source::new("j.toml".to_string(), fields.to_string()));
    crate::entry::read_client(fields, file, &look.press.model.site.catalogue).0.unwrap()
}

/// The heel drop, of which people with a break in the spine do the seated heel press; without what stands between these.
fn pressed(cuts: &[(&str, &str)]) -> String {
    let mut text = entry(SQUAT).replace("impact-low", "impact-moderate");
    for (from, to) in cuts {
        let start = text.find(from).unwrap();
        let end = start + text[start..].find(to).unwrap();
        text.replace_range(start..end, "");
    }
    text
}

#[test]
fn a_form_that_was_chosen_shows_its_own_figures_and_those_of_the_base_form_only_with_its_steps() {
    const BASE: &str = "She bends her knees a little at the counter.";
    const OWN: &str =
        "She sits tall, holds the seat and lifts both heels. Then she presses them into the floor.";
    let spine = "\"spine-fracture\"";
    let whole = pressed(&[]);
    let without = pressed(&[("[[variation.figure]]", "[[regression]]")]);
    let kept = without.replace("steps = [\n", "keeps_steps = true\nold = [\n");
    let start = kept.find("old = [").unwrap();
    let end = kept[start..].find("]\n").unwrap() + start + 2;
    let kept = format!("{}{}", &kept[..start], &kept[end..]);
    for (entry, precautions, title, figures) in [
        (&whole, "", "Heel drop at the counter", vec![BASE]),
        (&whole, spine, "Seated heel press", vec![OWN]),
        (&without, spine, "Seated heel press", vec![]),
        (&kept, spine, "Seated heel press", vec![BASE]),
    ] {
        with_entry(entry, |look| {
            let client = client(&format!("name = \"J. K.\"\nprecautions = [{precautions}]\n"), &look);
            let mut order = Order::of(look.alone(), Extent::Full, 18, Paper::A4);
            order.person =
                Some(Person::of(&client, &look.alone(), look.press.model, jiff::civil::date(2027, 2, 15)));
            let written = handout::write(look.press, &order);
            let [shown] = &written.handout.exercises[..] else { panic!("{title}") };
            assert_eq!(shown.block.title.value, title);
            let shown: Vec<&str> = shown.figures.iter().map(|figure| figure.description.as_str()).collect();
            assert_eq!(shown, figures, "{title}");
            assert_eq!(written.pictures.files(look.press.photos).count(), figures.len());
        });
    }
}

/// A picture of another form is called as that form is: its readers hear whose picture it is.
#[test]
fn a_figure_of_another_way_without_words_has_the_name_of_that_way() {
    let description =
        "She sits tall, holds the seat and lifts both heels. Then she presses them into the floor.";
    with_entry(&entry(SQUAT).replace(description, ""), |look| {
        let written = handout::write(look.press, &Order::of(look.alone(), Extent::Full, 18, Paper::A4));
        let [shown] = &written.handout.exercises[..] else { panic!("not one exercise") };
        let ways = [&shown.easier, &shown.other_ways, &shown.harder].into_iter().flatten();
        let figures: Vec<&str> = ways.flat_map(|way| &way.figures).map(|f| f.description.as_str()).collect();
        assert_eq!(figures, ["Seated heel press"]);
    });
}

#[test]
fn a_cue_sheet_shows_the_first_figure_small_and_without_numbers() {
    with(&[SQUAT, LYING].concat(), |look| {
        let order = Order::of(look.alone(), Extent::Full, 18, Paper::A4);
        let written = cues::write(look.press, &order);
        let cue = written.sheet.exercises.iter().find(|cue| cue.title.starts_with("Heel drop")).unwrap();
        let figure = cue.figure.as_ref().unwrap();
        assert!(figure.description.starts_with("She bends") && figure.labels.is_empty());
        let files: BTreeMap<_, _> = written.pictures.files(look.press.photos).collect();
        let drawn = String::from_utf8(files[&figure.picture].to_vec()).unwrap();
        // Its poses are numbered, dark; the numbers of labels are light.
        assert!(
            drawn.starts_with("<svg") && !drawn.contains("<circle fill=\"#ffffff\""),
            "there are labels in it"
        );
        let seen = seen(&look, &look.press.cue_sheet(&order).unwrap());
        let heights: Vec<f64> = seen
            .iter()
            .filter_map(|s| match s {
                Seen::Picture { height, .. } => Some(*height),
                Seen::Words { .. } => None,
            })
            .filter(|height| *height > 20.0)
            .collect();
        assert!(!heights.is_empty() && heights.iter().all(|height| *height < 41.0), "{heights:?}");
    });
}

#[test]
fn the_image_of_a_week_shows_its_figures_on_one_floor() {
    let image = |figures: &str| {
        let mut drawn = (0, Vec::new());
        with(figures, |look| {
            let Subject::Week(_, week) = look.week() else { unreachable!() };
            let manuscript = look.press.preview(week).unwrap();
            let count = manuscript.pictures.files(look.press.photos).count();
            drawn = (count, look.press.draw(&manuscript).unwrap());
        });
        drawn
    };
    let (with_squat, squat) = image(SQUAT);
    let (with_photo, photo) = image(PHOTO);
    assert_eq!((with_squat, with_photo), (with_photo + 1, with_squat - 1));
    assert!(squat != photo);
    // The skin of the person, which nothing else on the image has.
    let pixels = image::load_from_memory(&squat).unwrap().to_rgb8();
    let skin = pixels.pixels().filter(|pixel| pixel.0 == [0xde, 0xb6, 0x91]).count();
    assert!(skin > 500, "{skin} pixels");
    // Its feet stand where the floor is, and the floor goes from edge to edge.
    let floor = |x: u32| (500..600).any(|y| pixels.get_pixel(x, y).0 == [0x82, 0x77, 0x6a]);
    assert!(floor(2) && floor(1197));
}
