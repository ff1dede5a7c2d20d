//! The signs of a file that is not UTF-8. The tables of East Asian writing that a crate for every encoding brings are as long as the
//! rest of this module's folder, and no recorder's file is read by them.

/// Stands for what is no sign.
const NO_SIGN: char = char::REPLACEMENT_CHARACTER;

/// The longest sign in UTF-8, bytes.
const LONGEST: usize = 4;

/// UTF-16 made into UTF-8, a piece at a time.
pub(super) struct Utf16 {
    unit: fn([u8; 2]) -> u16,
    begun: bool,
}

impl Utf16 {
    /// With units of these two bytes.
    pub fn new(unit: fn([u8; 2]) -> u16) -> Self {
        Utf16 { unit, begun: false }
    }

    /// Decodes what there is of `raw` and room for in `into`, the byte-order mark left out; how many bytes it took and how many it
    /// wrote. `is_end` says that nothing follows: a sign that is cut off there is none.
    pub fn decode(&mut self, raw: &[u8], into: &mut [u8], is_end: bool) -> (usize, usize) {
        let (mut taken, mut written) = (0, 0);
        while into.len() - written >= LONGEST {
            let Some((sign, length)) = self.next(&raw[taken..], is_end) else { break };
            taken += length;
            let is_mark = sign == '\u{FEFF}' && !self.begun;
            self.begun = true;
            if !is_mark {
                written += sign.encode_utf8(&mut into[written..]).len();
            }
        }
        (taken, written)
    }

    /// The first sign and its length in bytes; none where more bytes are needed to tell.
    fn next(&self, raw: &[u8], is_end: bool) -> Option<(char, usize)> {
        let unit_at = |at: usize| Some((self.unit)([*raw.get(at)?, *raw.get(at + 1)?]));
        let cut = || (is_end && !raw.is_empty()).then_some((NO_SIGN, raw.len()));
        let Some(first) = unit_at(0) else { return cut() };
        let is_high = (0xD800..0xDC00).contains(&first);
        let second = if is_high { unit_at(2) } else { None };
        if is_high && second.is_none() && !is_end {
            return None;
        }
        match char::decode_utf16([first].into_iter().chain(second)).next()? {
            Ok(sign) => Some((sign, sign.len_utf16() * 2)),
            // Half a sign. Where a single byte follows at the end, the two are one mistake.
            Err(_) if is_high && second.is_none() => cut(),
            Err(_) => Some((NO_SIGN, 2)),
        }
    }
}

/// What the code page 1252 has in the place of the control signs from 0x80 on (WHATWG Encoding Standard, index windows-1252).
const FROM_80: [char; 32] = [
    '\u{20AC}', '\u{81}', '\u{201A}', '\u{192}', '\u{201E}', '\u{2026}', '\u{2020}', '\u{2021}', '\u{2C6}',
    '\u{2030}', '\u{160}', '\u{2039}', '\u{152}', '\u{8D}', '\u{17D}', '\u{8F}', '\u{90}', '\u{2018}', '\u{2019}',
    '\u{201C}', '\u{201D}', '\u{2022}', '\u{2013}', '\u{2014}', '\u{2DC}', '\u{2122}', '\u{161}', '\u{203A}',
    '\u{153}', '\u{9D}', '\u{17E}', '\u{178}',
];

/// Text of the code page 1252.
pub(super) fn western(bytes: &[u8]) -> String {
    let sign = |byte: &u8| match byte {
        0x80..=0x9F => FROM_80[usize::from(byte - 0x80)],
        byte => char::from(*byte),
    };
    bytes.iter().map(sign).collect()
}

#[cfg(test)]
mod tests {
    use encoding_rs::{UTF_16BE, UTF_16LE, WINDOWS_1252};
    use proptest::prelude::*;

    use super::{LONGEST, Utf16, western};

    #[test]
    fn every_byte_of_the_code_page_reads_as_encoding_rs_has_it() {
        let all: Vec<u8> = (0..=255).collect();
        assert_eq!(western(&all), WINDOWS_1252.decode_without_bom_handling(&all).0);
    }

    fn decoded(unit: fn([u8; 2]) -> u16, bytes: &[u8], piece: usize, room: usize) -> String {
        let mut decoder = Utf16::new(unit);
        let (mut text, mut waiting) = (Vec::new(), Vec::new());
        let mut pieces = bytes.chunks(piece).peekable();
        loop {
            waiting.extend_from_slice(pieces.next().unwrap_or_default());
            let is_end = pieces.peek().is_none();
            loop {
                let mut into = vec![0; room];
                let (taken, written) = decoder.decode(&waiting, &mut into, is_end);
                waiting.drain(..taken);
                text.extend_from_slice(&into[..written]);
                if taken == 0 {
                    break;
                }
            }
            if is_end {
                assert!(waiting.is_empty());
                return String::from_utf8(text).unwrap_or_default();
            }
        }
    }

    /// Units among which halves of signs and byte-order marks are frequent.
    fn units() -> impl Strategy<Value = Vec<u16>> {
        let one = prop_oneof![
            any::<u16>(),
            0x20_u16..0x7F,
            0xD800_u16..0xDC00,
            0xDC00_u16..0xE000,
            Just(0xFEFF_u16),
            Just(0xFFFE_u16)
        ];
        proptest::collection::vec(one, 0..40)
    }

    proptest! {
        #[test]
        fn utf_16_reads_as_encoding_rs_reads_it(units in units(), odd: bool, piece in 1_usize..9, room in LONGEST..12) {
            let mut little: Vec<u8> = units.iter().flat_map(|unit| unit.to_le_bytes()).collect();
            let mut big: Vec<u8> = units.iter().flat_map(|unit| unit.to_be_bytes()).collect();
            if odd {
                little.push(0x41);
                big.push(0x41);
            }
            let of = UTF_16LE.decode_with_bom_removal(&little).0.into_owned();
            prop_assert_eq!(decoded(u16::from_le_bytes, &little, piece, room), of);
            let of = UTF_16BE.decode_with_bom_removal(&big).0.into_owned();
            prop_assert_eq!(decoded(u16::from_be_bytes, &big, piece, room), of);
        }
    }
}
