//! The pictures of one sheet, as files of its own under fixed names: photos, and figures as they are drawn.

use serde::Serialize;
use typst::foundations::Bytes;

use super::{Photo, Photos};
use crate::drawing::{self, Colors, Picture};
use crate::outputs::Shot;

/// The pictures that a sheet shows.
#[derive(Debug, Default)]
pub(super) struct Pictures {
    photos: Vec<Shot>,
    drawings: Vec<Bytes>,
}

/// A figure as SVG.
#[derive(Clone, Debug)]
pub(super) struct Sketch {
    svg: Bytes,
    drawn: Drawn,
}

/// How large a figure is drawn, in hundredths of the stature of the person in it.
#[derive(Clone, Copy, Debug, Serialize)]
pub(super) struct Drawn {
    pub(super) width: f64,
    pub(super) height: f64,
}

impl Sketch {
    pub(super) fn of(picture: &Picture, colors: Colors) -> Sketch {
        // As exact as the drawing itself.
        let tenth = |value: f64| (value * 10.0).round() / 10.0;
        let drawn = Drawn { width: tenth(picture.width), height: tenth(picture.height) };
        Sketch { svg: Bytes::from_string(drawing::svg(picture, colors, None)), drawn }
    }
}

impl Pictures {
    /// The sheet's file with a photo. Twice the same photo is one file.
    pub(super) fn photo(&mut self, shot: &Shot, photo: &Photo) -> String {
        let number = self.photos.iter().position(|known| known == shot).unwrap_or_else(|| {
            self.photos.push(shot.clone());
            self.photos.len() - 1
        });
        photo_file(number, photo)
    }

    /// The sheet's file with a drawing.
    pub(super) fn drawing(&mut self, sketch: &Sketch) -> (String, Drawn) {
        self.drawings.push(sketch.svg.clone());
        (drawing_file(self.drawings.len() - 1), sketch.drawn)
    }

    /// The names of the files and what is in them, in a fixed order.
    pub(super) fn files(&self, photos: &Photos<'_>) -> impl Iterator<Item = (String, Bytes)> + use<'_> {
        let photo = |(number, shot): (usize, &Shot)| {
            let photo = photos.get(shot)?;
            Some((photo_file(number, photo), Bytes::new(photo.bytes.clone())))
        };
        let photos: Vec<_> = self.photos.iter().enumerate().filter_map(photo).collect();
        let drawing = |(number, svg): (usize, &Bytes)| (drawing_file(number), svg.clone());
        photos.into_iter().chain(self.drawings.iter().enumerate().map(drawing))
    }
}

fn photo_file(number: usize, photo: &Photo) -> String {
    format!("photo-{number}.{}", photo.extension)
}

fn drawing_file(number: usize) -> String {
    format!("drawing-{number}.svg")
}

#[cfg(test)]
mod tests;
