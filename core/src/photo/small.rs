//! A small copy of a photo, turned as it is looked at, for a screen and a printed page.

use jpeg_decoder::PixelFormat;
use jpeg_encoder::{ColorType, Encoder};

use super::look::{PhotoError, opened, turn};

/// How good the small copy is, of 100.
const QUALITY: u8 = 80;

/// A copy of which neither side is longer than `most_px`, as a JPEG file without anything that the camera wrote beside the pixels.
///
/// # Errors
/// Any of [`PhotoError`]; among them one in four inks, which no camera writes.
pub fn small(bytes: &[u8], most_px: u16) -> Result<Vec<u8>, PhotoError> {
    let broken = |error: jpeg_decoder::Error| PhotoError::Broken(error.to_string());
    let mut decoder = opened(bytes)?;
    // It decodes to an eighth of the steps between the whole and an eighth of it, the next one up: less is in memory, and it is quicker.
    decoder.scale(most_px, most_px).map_err(broken)?;
    let pixels = decoder.decode().map_err(broken)?;
    let info = decoder.info().ok_or(PhotoError::NotJpeg)?;
    let (samples, kind) = match info.pixel_format {
        PixelFormat::L8 => (1, ColorType::Luma),
        PixelFormat::RGB24 => (3, ColorType::Rgb),
        PixelFormat::L16 | PixelFormat::CMYK32 => return Err(PhotoError::Broken("not in light".to_owned())),
    };
    let turn = turn(bytes);
    let stored = Pixels { of: &pixels, width: usize::from(info.width), height: usize::from(info.height), samples };
    let upright = if turn.lies() { (stored.height, stored.width) } else { (stored.width, stored.height) };
    let (width, height) = fitted(upright, usize::from(most_px));
    let mut made = Vec::with_capacity(width * height * samples);
    for y in 0..height {
        for x in 0..width {
            // The middle of the stretch of stored pixels that this one stands for.
            let at = ((2 * x + 1) * upright.0 / (2 * width), (2 * y + 1) * upright.1 / (2 * height));
            made.extend_from_slice(stored.at(turn.stored_at(at, upright)));
        }
    }
    let mut file = Vec::new();
    let side = |pixels: usize| u16::try_from(pixels).unwrap_or(u16::MAX);
    Encoder::new(&mut file, QUALITY)
        .encode(&made, side(width), side(height), kind)
        .map_err(|error| PhotoError::Broken(error.to_string()))?;
    Ok(file)
}

/// The size that fits, at least a pixel each way.
fn fitted((width, height): (usize, usize), most: usize) -> (usize, usize) {
    let longer = width.max(height).max(1);
    if longer <= most {
        return (width, height);
    }
    let side = |pixels: usize| (pixels * most / longer).max(1);
    (side(width), side(height))
}

struct Pixels<'a> {
    of: &'a [u8],
    width: usize,
    height: usize,
    samples: usize,
}

impl Pixels<'_> {
    /// A pixel's samples. What would lie outside is taken as the last one that does not.
    fn at(&self, (x, y): (usize, usize)) -> &[u8] {
        let (x, y) = (x.min(self.width - 1), y.min(self.height - 1));
        let from = (y * self.width + x) * self.samples;
        &self.of[from..from + self.samples]
    }
}
