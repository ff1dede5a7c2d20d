//! A camera's file: what it says of itself, its small copy, and what no camera wrote. How a photo is turned is held against Exif 2.32, tag
//! 274 (its figure of the eight positions); tests/outside holds the small copy against Pillow.

#![allow(clippy::unwrap_used)]

use std::time::Instant;

use chrono::NaiveDate;
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use liftgate_core::photo::{Looked, MOST_BYTES, PhotoError, Turn, look, small};

/// Width and height of the stored photo.
const STORED: (usize, usize) = (96, 64);
/// Its corners from the top left one on, as a clock goes: how bright each is.
const CORNERS: [u8; 4] = [0, 90, 170, 250];

/// An Exif segment with a turn and the moment at which it was taken.
fn said(turn: u16) -> Vec<u8> {
    let mut tiff = b"Exif\0\0II*\0\x08\0\0\0\x02\0".to_vec();
    tiff.extend_from_slice(&[0x12, 0x01, 3, 0, 1, 0, 0, 0]);
    tiff.extend_from_slice(&u32::from(turn).to_le_bytes());
    // The pointer to the camera's own list, which stands behind this one: 8 + 2 + 2 * 12 + 4.
    tiff.extend_from_slice(&[0x69, 0x87, 4, 0, 1, 0, 0, 0]);
    tiff.extend_from_slice(&38u32.to_le_bytes());
    tiff.extend_from_slice(&0u32.to_le_bytes());
    tiff.extend_from_slice(&[1, 0, 0x03, 0x90, 2, 0]);
    tiff.extend_from_slice(&20u32.to_le_bytes());
    tiff.extend_from_slice(&56u32.to_le_bytes());
    tiff.extend_from_slice(&0u32.to_le_bytes());
    tiff.extend_from_slice(b"2026:03:07 09:58:12\0");
    tiff
}

/// A photo of four grounds, one for each corner.
fn photo(turn: Option<u16>, progressive: bool) -> Vec<u8> {
    let (width, height) = STORED;
    let mut pixels = Vec::new();
    for y in 0..height {
        for x in 0..width {
            let corner = match (x < width / 2, y < height / 2) {
                (true, true) => 0,
                (false, true) => 1,
                (false, false) => 2,
                (true, false) => 3,
            };
            pixels.extend_from_slice(&[CORNERS[corner]; 3]);
        }
    }
    let mut file = Vec::new();
    let mut encoder = Encoder::new(&mut file, 95);
    encoder.set_progressive(progressive);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    if let Some(turn) = turn {
        encoder.add_app_segment(1, said(turn)).unwrap();
    }
    encoder.encode(&pixels, STORED.0 as u16, STORED.1 as u16, ColorType::Rgb).unwrap();
    file
}

/// The brightness of the four corners of a decoded photo, as a clock goes, and its size.
fn corners(jpeg: &[u8]) -> ([u8; 4], (usize, usize)) {
    let mut decoder = jpeg_decoder::Decoder::new(jpeg);
    let pixels = decoder.decode().unwrap();
    let info = decoder.info().unwrap();
    let (width, height) = (usize::from(info.width), usize::from(info.height));
    let at = |x: usize, y: usize| pixels[(y * width + x) * 3];
    let (right, bottom) = (width - 1, height - 1);
    ([at(0, 0), at(right, 0), at(right, bottom), at(0, bottom)], (width, height))
}

#[test]
fn it_is_turned_as_it_is_looked_at() {
    // Which stored corner stands at the top left, and which is next as a clock goes: Exif 2.32, the figure beside tag 274.
    let seen = [
        (1, [0, 1, 2, 3]),
        (2, [1, 0, 3, 2]),
        (3, [2, 3, 0, 1]),
        (4, [3, 2, 1, 0]),
        (5, [0, 3, 2, 1]),
        (6, [3, 0, 1, 2]),
        (7, [2, 1, 0, 3]),
        (8, [1, 2, 3, 0]),
    ];
    for (turn, wanted) in seen {
        let file = photo(Some(turn), turn % 2 == 0);
        let looked = look(&file).unwrap();
        let lies = turn >= 5;
        let size = if lies { (64, 96) } else { (96, 64) };
        assert_eq!(
            (looked.width_px, looked.height_px, looked.turn),
            (size.0, size.1, Turn::of(turn.into()).unwrap())
        );
        assert_eq!(looked.taken, NaiveDate::from_ymd_opt(2026, 3, 7).and_then(|day| day.and_hms_opt(9, 58, 12)));
        let (found, size) = corners(&small(&file, 48).unwrap());
        assert_eq!(size, if lies { (32, 48) } else { (48, 32) });
        for (found, wanted) in found.into_iter().zip(wanted) {
            assert!(found.abs_diff(CORNERS[wanted]) < 12, "turn {turn}: {found} for {}", CORNERS[wanted]);
        }
    }
}

#[test]
fn what_says_nothing_of_itself_is_looked_at_as_it_is_stored() {
    let file = photo(None, false);
    assert_eq!(look(&file), Ok(Looked { width_px: 96, height_px: 64, taken: None, turn: Turn::NONE }));
    assert_eq!(corners(&small(&file, 4_000).unwrap()).1, (96, 64), "never larger than it is");
    // A turn that Exif does not know is none.
    assert_eq!(look(&photo(Some(9), false)).unwrap().turn, Turn::NONE);
}

#[test]
fn what_no_camera_wrote_is_refused_and_never_more_than_that() {
    assert_eq!(look(b"\x89PNG\r\n\x1a\n"), Err(PhotoError::NotJpeg));
    assert_eq!(look(b""), Err(PhotoError::NotJpeg));
    let mut long = vec![0xff, 0xd8, 0xff];
    long.resize(MOST_BYTES as usize + 1, 0);
    assert_eq!(look(&long), Err(PhotoError::TooLong));
    for file in [photo(Some(6), false), photo(Some(6), true)] {
        for end in 0..file.len() {
            let _ = (look(&file[..end]), small(&file[..end], 48));
        }
        for at in 0..file.len() {
            let mut changed = file.clone();
            changed[at] ^= 0x5a;
            let _ = (look(&changed), small(&changed, 48));
        }
    }
}

/// A head that promises 65,000 by 65,000 pixels: refused before any of them has a place in memory.
#[test]
fn a_file_that_promises_more_pixels_than_there_are_is_refused_at_once() {
    for (progressive, marker) in [(false, 0xc0), (true, 0xc2)] {
        let mut file = photo(None, progressive);
        let head = file.windows(2).position(|two| two == [0xff, marker]).unwrap();
        file[head + 5..head + 9].copy_from_slice(&[0xfd, 0xe8, 0xfd, 0xe8]);
        let began = Instant::now();
        assert_eq!(small(&file, 640), Err(PhotoError::TooManyPixels(65_000 * 65_000)));
        assert!(began.elapsed().as_millis() < 200, "{:?}", began.elapsed());
    }
}
