//! What a camera's file says of itself.

use std::io::Cursor;

use chrono::{NaiveDate, NaiveDateTime};
use exif::{In, Tag, Value};
use jpeg_decoder::{CodingProcess, Decoder};
use thiserror::Error;

/// The longest file that is taken in, bytes: more than a phone's camera writes at its best.
pub const MOST_BYTES: u64 = 24 * 1024 * 1024;
/// The most pixels of a photo that is decoded line by line.
const MOST_PIXELS: u64 = 120_000_000;
/// The most pixels of one whose lines come in several passes: all of them are in memory until the last pass, 6 bytes each at the most.
const MOST_PIXELS_IN_PASSES: u64 = 10_000_000;

/// What a camera's file says of itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Looked {
    /// Pixels from left to right, as it is looked at.
    pub width_px: u32,
    /// Pixels from top to bottom, as it is looked at.
    pub height_px: u32,
    /// When it was taken by the camera's own clock, which nobody vouches for.
    pub taken: Option<NaiveDateTime>,
    /// How it is turned to be looked at.
    pub turn: Turn,
}

/// How a photo is turned to be looked at: the number of Exif 2.32, tag 274.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Turn(u8);

impl Turn {
    /// As it is stored.
    pub const NONE: Turn = Turn(1);

    /// A number that Exif knows.
    pub fn of(number: u32) -> Option<Turn> {
        u8::try_from(number).ok().filter(|number| (1..=8).contains(number)).map(Turn)
    }

    /// Whether width and height change places.
    pub fn lies(self) -> bool {
        self.0 >= 5
    }

    /// Where a pixel of the photo as it is looked at, of this width and height, stands in the stored one.
    pub(super) fn stored_at(self, (x, y): (usize, usize), (width, height): (usize, usize)) -> (usize, usize) {
        let (right, bottom) = (width - 1 - x, height - 1 - y);
        match self.0 {
            2 => (right, y),
            3 => (right, bottom),
            4 => (x, bottom),
            5 => (y, x),
            6 => (y, right),
            7 => (bottom, right),
            8 => (bottom, x),
            _ => (x, y),
        }
    }
}

/// Why a file is no photo that can be kept as one.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum PhotoError {
    /// It is no JPEG file.
    #[error("no JPEG file")]
    NotJpeg,
    /// It is longer than is taken in.
    #[error("longer than {MOST_BYTES} bytes")]
    TooLong,
    /// It has more pixels than are decoded.
    #[error("{0} pixels are more than are decoded")]
    TooManyPixels(u64),
    /// It ends too soon, or holds what no decoder reads.
    #[error("cannot be decoded: {0}")]
    Broken(String),
}

/// What a photo says of itself. Its pixels are not decoded; [`super::small`] does that.
///
/// # Errors
/// Any of [`PhotoError`].
pub fn look(bytes: &[u8]) -> Result<Looked, PhotoError> {
    let decoder = opened(bytes)?;
    let info = decoder.info().ok_or(PhotoError::NotJpeg)?;
    let (width_px, height_px) = (u32::from(info.width), u32::from(info.height));
    let said = said(bytes);
    let turn = said.as_ref().map_or(Turn::NONE, turn_of);
    let (width_px, height_px) = if turn.lies() { (height_px, width_px) } else { (width_px, height_px) };
    Ok(Looked { width_px, height_px, taken: said.as_ref().and_then(taken), turn })
}

/// A decoder that has read as far as the pixels begin, for a photo that it may decode.
pub(super) fn opened(bytes: &[u8]) -> Result<Decoder<&[u8]>, PhotoError> {
    const START_OF_IMAGE: [u8; 3] = [0xff, 0xd8, 0xff];
    if bytes.len() as u64 > MOST_BYTES {
        return Err(PhotoError::TooLong);
    }
    if !bytes.starts_with(&START_OF_IMAGE) {
        return Err(PhotoError::NotJpeg);
    }
    let mut decoder = Decoder::new(bytes);
    decoder.read_info().map_err(|error| PhotoError::Broken(error.to_string()))?;
    let info = decoder.info().ok_or(PhotoError::NotJpeg)?;
    let pixels = u64::from(info.width) * u64::from(info.height);
    let most = match info.coding_process {
        CodingProcess::DctProgressive => MOST_PIXELS_IN_PASSES,
        CodingProcess::DctSequential | CodingProcess::Lossless => MOST_PIXELS,
    };
    if pixels > most { Err(PhotoError::TooManyPixels(pixels)) } else { Ok(decoder) }
}

/// What the camera wrote beside the pixels.
fn said(bytes: &[u8]) -> Option<exif::Exif> {
    exif::Reader::new().read_from_container(&mut Cursor::new(bytes)).ok()
}

/// How a photo is turned to be looked at.
pub(super) fn turn(bytes: &[u8]) -> Turn {
    said(bytes).as_ref().map_or(Turn::NONE, turn_of)
}

fn turn_of(said: &exif::Exif) -> Turn {
    let number = said.get_field(Tag::Orientation, In::PRIMARY).and_then(|field| field.value.get_uint(0));
    number.and_then(Turn::of).unwrap_or(Turn::NONE)
}

fn taken(said: &exif::Exif) -> Option<NaiveDateTime> {
    let Value::Ascii(texts) = &said.get_field(Tag::DateTimeOriginal, In::PRIMARY)?.value else { return None };
    let at = exif::DateTime::from_ascii(texts.first()?).ok()?;
    let day = NaiveDate::from_ymd_opt(i32::from(at.year), u32::from(at.month), u32::from(at.day))?;
    day.and_hms_opt(u32::from(at.hour), u32::from(at.minute), u32::from(at.second))
}
