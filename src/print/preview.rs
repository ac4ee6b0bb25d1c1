//! The image that stands for a week where its address is shared: its number, its title, its figures and the shapes of
//! its components, as PNG.

use image::ImageEncoder;
use image::codecs::png::PngEncoder;
use serde::Serialize;
use typst::utils::Scalar;
use typst_layout::PagedDocument;
use typst_render::RenderOptions;

use super::pictures::{Drawn, Pictures, Sketch};
use super::{Manuscript, Places, Press, SheetError};
use crate::drawing::{Colors, Picture};
use crate::model::source::Span;
use crate::model::vocabulary::{Component, Vocabulary};
use crate::model::week::Week;
use crate::outputs::blocks::week::number_line;
use crate::reckon::figure::Scene;

/// Pixels: the ratio of 1.91 to 1 at which shared addresses are most often shown (common practice, no source).
pub const WIDTH: u32 = 1200;
pub const HEIGHT: u32 = 630;

#[derive(Serialize)]
struct Preview {
    width: u32,
    height: u32,
    language: String,
    site: String,
    number_line: String,
    title: String,
    components: Vec<&'static str>,
    figures: Vec<PosedFigure>,
}

/// The last pose of an exercise, in a row with the others on one floor. Lengths are hundredths of the stature of the
/// person in it.
#[derive(Serialize)]
struct PosedFigure {
    component: &'static str,
    picture: String,
    drawn: Drawn,
    below_floor: f64,
}

impl Press<'_> {
    /// Writes what stands on the image of a week.
    ///
    /// # Errors
    /// When its data cannot be written as JSON, which no text of an author leads to.
    pub fn preview(&self, week: &Week) -> Result<Manuscript, SheetError> {
        let components = self.model.exercises_of(week).map(|(_, e)| e.component.value);
        let used: std::collections::BTreeSet<Component> = components.collect();
        let mut pictures = Pictures::default();
        let figures = self
            .model
            .exercises_of(week)
            .filter_map(|(_, exercise)| {
                let drawing = exercise.figures.iter().find_map(|figure| figure.drawing())?;
                let finish = Picture::finish(&Scene::of(drawing));
                let (picture, drawn) = pictures.drawing(&Sketch::of(&finish, Colors::Theme));
                let component = exercise.component.value.word();
                Some(PosedFigure { component, picture, drawn, below_floor: finish.below_floor() })
            })
            .collect();
        let preview = Preview {
            width: WIDTH,
            height: HEIGHT,
            language: self.words.language.clone(),
            site: self.model.site.title.value.clone(),
            number_line: number_line(week, self.say()),
            title: week.title.value.clone(),
            components: used.into_iter().map(Vocabulary::word).collect(),
            figures,
        };
        Ok(Manuscript {
            sides: 1,
            absent: Vec::new(),
            main: "sheet/preview.typ",
            data: serde_json::to_vec(&preview).map_err(|e| SheetError::new(e.to_string()))?,
            code: None,
            file_title: None,
            untranslated: 0,
            pictures,
            places: Places::default(),
            whole: Span::start_of(week.file),
            about: format!("the image of `{}`", week.title.value),
            ident: String::new(),
        })
    }

    /// Draws it.
    ///
    /// # Errors
    /// When the theme's image has a mistake.
    pub fn draw(&self, manuscript: &Manuscript) -> Result<Vec<u8>, SheetError> {
        let job = self
            .job(manuscript)
            .ok_or_else(|| SheetError::new("the typesetter takes none of our file names".to_string()))?;
        let told = |diagnostics: &[_]| SheetError::of(&job, &manuscript.about, diagnostics);
        let set = typst::compile::<PagedDocument>(&job);
        let document = set.output.map_err(|errors| told(&errors))?;
        if !set.warnings.is_empty() {
            return Err(told(&set.warnings));
        }
        let wrong = |what: &str| SheetError::new(format!("the theme's sheet/preview.typ {what}"));
        let page = document.pages().first().ok_or_else(|| wrong("has no page"))?;
        let options = RenderOptions { pixel_per_pt: Scalar::ONE, ..RenderOptions::default() };
        let drawn = typst_render::render(page, &options);
        if (drawn.width(), drawn.height()) != (WIDTH, HEIGHT) {
            return Err(wrong("has a page of another size than asked for"));
        }
        // Nothing of it is see-through, so that the colors are what they are.
        let colors: Vec<u8> =
            drawn.data().chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
        let mut png = Vec::new();
        PngEncoder::new(&mut png)
            .write_image(&colors, WIDTH, HEIGHT, image::ExtendedColorType::Rgb8)
            .map_err(|e| SheetError::new(e.to_string()))?;
        Ok(png)
    }
}
