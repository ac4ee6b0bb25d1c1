//! Pages: the model to HTML, and photos to the sizes that pages show. Never the disk, never the clock.

pub mod photo;
