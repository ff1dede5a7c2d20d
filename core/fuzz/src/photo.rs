//! A photo of any bytes is shown small or refused.

use std::sync::LazyLock;

use arbitrary::{Result, Unstructured};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};
use liftgate_core::photo::{look, small};

use super::changed::{changed, rest};

/// The longest side of the small copy, pixels.
const MOST_PX: u16 = 48;
/// The longest segment of a JPEG file, bytes, less its length and what says that it is Exif.
const LONGEST_EXIF: usize = 0xFFFF - 2 - 6;

/// A photo one line after the other, and in several passes.
static PHOTOS: LazyLock<[Vec<u8>; 2]> =
    LazyLock::new(|| [false, true].map(|in_passes| photo_with(Some(b"II*\0\x08\0\0\0\0\0\0\0\0\0"), in_passes)));

/// Bytes as a camera's file: any, as what a camera says beside the pixels of a valid file, or a valid file with changes. Whether it is
/// shown small.
pub fn photo(bytes: &[u8]) -> bool {
    file(&mut Unstructured::new(bytes)).is_ok_and(|file| is_shown(&file))
}

fn file(u: &mut Unstructured<'_>) -> Result<Vec<u8>> {
    let in_passes = u.arbitrary()?;
    Ok(match u.int_in_range(0..=3)? {
        0 => rest(u),
        1 => photo_with(Some(&rest(u)), in_passes),
        2 => photo_with(Some(&changed(&camera_words(), u)?), in_passes),
        _ => changed(&PHOTOS[usize::from(in_passes)], u)?,
    })
}

/// What holds of any file.
fn is_shown(bytes: &[u8]) -> bool {
    let looked = look(bytes);
    let Ok(copy) = small(bytes, MOST_PX) else { return false };
    let looked = looked.expect("what is shown small says how large it is");
    assert!(looked.width_px > 0 && looked.height_px > 0);
    let seen = look(&copy).expect("the small copy is a photo");
    assert!(seen.width_px.max(seen.height_px) <= MOST_PX.into(), "{seen:?}");
    assert_eq!(seen.taken, None, "nothing that the camera wrote is in the small copy");
    let decoded = jpeg_decoder::Decoder::new(&copy[..]).decode().expect("the small copy can be decoded");
    assert!(!decoded.is_empty());
    true
}

/// What a camera says: how it was held, and when, as Exif 2.32 has it.
fn camera_words() -> Vec<u8> {
    let number = |number: u32| number.to_le_bytes();
    let field = |tag: u16, kind: u16, count: u32, value: u32| {
        [&tag.to_le_bytes()[..], &kind.to_le_bytes(), &number(count), &number(value)].concat()
    };
    [
        b"II*\0\x08\0\0\0\x02\0".to_vec(),
        field(0x0112, 3, 1, 6),
        field(0x8769, 4, 1, 38),
        number(0).to_vec(),
        b"\x01\0".to_vec(),
        field(0x9003, 2, 20, 56),
        number(0).to_vec(),
        b"2026:03:07 09:58:12\0".to_vec(),
    ]
    .concat()
}

fn photo_with(said: Option<&[u8]>, in_passes: bool) -> Vec<u8> {
    let (width, height) = (40_u16, 24_u16);
    let pixels: Vec<u8> = (0..usize::from(width) * usize::from(height) * 3).map(|at| (at % 251) as u8).collect();
    let mut file = Vec::new();
    let mut encoder = Encoder::new(&mut file, 80);
    encoder.set_progressive(in_passes);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    if let Some(said) = said {
        let segment = [b"Exif\0\0", &said[..said.len().min(LONGEST_EXIF)]].concat();
        encoder.add_app_segment(1, segment).unwrap();
    }
    encoder.encode(&pixels, width, height, ColorType::Rgb).unwrap();
    file
}
