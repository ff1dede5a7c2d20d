//! Line drawings with the limit drawn in and the margin written on it, for the phone and for the dossier alike.

mod chart;
mod picture;
mod sheet;
mod steps;
mod svg;

pub(crate) use chart::{Bar, Curve, bars, curve};
pub use picture::{Anchor, Ink, LabelSize, Picture, PictureLabel, Point, Stroke};
pub(crate) use sheet::Sheet;
pub(crate) use steps::{Step, steps};
pub(crate) use svg::svg;
