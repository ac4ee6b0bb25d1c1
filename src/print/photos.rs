//! Photos as sheets show them, each made when the first sheet asks for it: where no sheet with a photo is set anew, none
//! is decoded.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::model::reads::{Read, note};
use crate::outputs::Shot;

/// A photo as it is printed.
#[derive(Clone, Debug)]
pub struct Photo {
    /// `jpg` or `png`.
    pub extension: &'static str,
    pub bytes: Vec<u8>,
}

/// Makes a photo; `None` for one that cannot be shown.
type Make<'a> = dyn Fn(&Shot) -> Option<Photo> + Sync + Send + 'a;

/// The photos that can stand on sheets.
#[derive(Default)]
pub struct Photos<'a> {
    photos: BTreeMap<Shot, OnceLock<Option<Photo>>>,
    make: Option<Box<Make<'a>>>,
}

impl<'a> Photos<'a> {
    /// These photos, each of which `make` makes when it is asked for; `None` for one that cannot be shown.
    pub fn when_asked(
        shots: impl IntoIterator<Item = Shot>,
        make: impl Fn(&Shot) -> Option<Photo> + Sync + Send + 'a,
    ) -> Photos<'a> {
        let photos = shots.into_iter().map(|shot| (shot, OnceLock::new())).collect();
        Photos { photos, make: Some(Box::new(make)) }
    }

    /// Takes in a photo that is made already.
    pub fn insert(&mut self, shot: Shot, photo: Photo) {
        self.photos.insert(shot, OnceLock::from(Some(photo)));
    }

    /// A photo, if it is there and can be shown.
    pub fn get(&self, shot: &Shot) -> Option<&Photo> {
        note(|| Read::Bytes(shot.file.clone()));
        let make = || self.make.as_ref().and_then(|make| make(shot));
        self.photos.get(shot)?.get_or_init(make).as_ref()
    }
}

impl FromIterator<(Shot, Photo)> for Photos<'_> {
    fn from_iter<I: IntoIterator<Item = (Shot, Photo)>>(photos: I) -> Self {
        let mut all = Photos::default();
        photos.into_iter().for_each(|(shot, photo)| all.insert(shot, photo));
        all
    }
}
