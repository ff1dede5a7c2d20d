//! Reading numbers from bytes. The common case, a plain decimal, is read in place without finding the field's end first; it is
//! exact (a mantissa under 2^53 over a power of ten up to 10^15 is correctly rounded by one division). The rest goes the
//! standard library's way.

use crate::locale::TYPESET_MINUS;

/// Powers of ten that a double holds exactly.
const TENS: [f64; 16] = [1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];
/// The longest field that can be a number. Anything longer is text.
const LONGEST: usize = 48;

/// What a field held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Field {
    /// A number.
    Number(f64),
    /// Nothing, or a recorder's sign for nothing.
    Missing,
    /// Something that is no number.
    Text,
}

/// A plain decimal at the start of `line` that ends at `separator` or at the end: the number and the bytes it took without the separator.
#[inline]
pub(super) fn plain(line: &[u8], separator: u8, decimal: u8) -> Option<(f64, usize)> {
    let (negative, mut at) = match line.first() {
        Some(b'-') => (true, 1),
        _ => (false, 0),
    };
    let first = at;
    let mut mantissa: u64 = 0;
    // Nineteen digits fit into 64 bits; what has more is left to the slow way below.
    while let Some(digit) = line.get(at).map(|byte| byte.wrapping_sub(b'0')).filter(|digit| *digit <= 9) {
        mantissa = mantissa.wrapping_mul(10).wrapping_add(u64::from(digit));
        at += 1;
    }
    let mut digits = at - first;
    let mut decimals = 0;
    if line.get(at) == Some(&decimal) {
        at += 1;
        let point = at;
        while let Some(digit) = line.get(at).map(|byte| byte.wrapping_sub(b'0')).filter(|digit| *digit <= 9) {
            mantissa = mantissa.wrapping_mul(10).wrapping_add(u64::from(digit));
            at += 1;
        }
        decimals = at - point;
        digits += decimals;
    }
    if digits == 0 || digits > 15 || line.get(at).is_some_and(|byte| *byte != separator) {
        return None;
    }
    let value = if decimals == 0 { mantissa as f64 } else { mantissa as f64 / TENS[decimals] };
    Some((if negative { -value } else { value }, at))
}

/// A field with a typesetter's minus before it, written as a plain one.
fn with_plain_minus(bytes: &[u8]) -> Option<Vec<u8>> {
    let without = |minus: &char| bytes.strip_prefix(minus.encode_utf8(&mut [0; 4]).as_bytes());
    let behind = TYPESET_MINUS.iter().find_map(without)?;
    Some([b"-", behind].concat())
}

/// Any field: blanks about it, signs, exponents, a unit behind the number, and the ways to say that there is none.
pub(super) fn field(bytes: &[u8], decimal: u8) -> Field {
    let bytes = bytes.trim_ascii();
    if bytes.is_empty() {
        return Field::Missing;
    }
    if bytes.len() > LONGEST {
        return Field::Text;
    }
    if let Some(plain) = with_plain_minus(bytes) {
        return field(&plain, decimal);
    }
    let length = bytes.iter().position(|byte| !is_of_number(*byte, decimal)).unwrap_or(bytes.len());
    let (number, behind) = bytes.split_at(length);
    let unit = behind.trim_ascii();
    // "12.5 V" is a number with its unit; "12.5.7" and "7 of 9" are not.
    let is_unit =
        unit.len() <= 6 && !unit.iter().any(|byte| byte.is_ascii_digit() || *byte == b' ' || *byte == decimal);
    if let Some(value) = parse(number, decimal).filter(|_| is_unit) {
        return Field::Number(value);
    }
    // An exponent's letter may belong to the unit: "3 e" never, but "12.5eV" would be read so.
    if is_nothing(bytes) { Field::Missing } else { Field::Text }
}

fn is_of_number(byte: u8, decimal: u8) -> bool {
    byte.is_ascii_digit() || byte == decimal || matches!(byte, b'+' | b'-' | b'e' | b'E')
}

fn parse(number: &[u8], decimal: u8) -> Option<f64> {
    let mut plain = [0; LONGEST];
    let plain = plain.get_mut(..number.len())?;
    for (to, from) in plain.iter_mut().zip(number) {
        *to = if *from == decimal { b'.' } else { *from };
    }
    std::str::from_utf8(plain).ok()?.parse::<f64>().ok().filter(|value| value.is_finite())
}

fn is_nothing(bytes: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(bytes) else { return false };
    matches!(
        text.to_ascii_lowercase().as_str(),
        "-" | "--" | "---" | "?" | "nan" | "n/a" | "na" | "null" | "none" | "inf" | "-inf" | "#n/a" | "-nan" | "+inf"
    )
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_recorders_write() {
        assert_eq!(field(b" +12,5 ", b','), Field::Number(12.5));
        assert_eq!(field(b"12.5 V", b'.'), Field::Number(12.5));
        assert_eq!(field("41.5°C".as_bytes(), b'.'), Field::Number(41.5));
        assert_eq!(field(b"1.5e3", b'.'), Field::Number(1500.0));
        for minus in ["-12.5", "\u{2212}12.5", "\u{2013}12.5 °C"] {
            assert_eq!(field(minus.as_bytes(), b'.'), Field::Number(-12.5), "{minus}");
        }
        assert_eq!(field("\u{2013}".as_bytes(), b'.'), Field::Missing);
        assert_eq!(field("\u{2212}\u{2212}1".as_bytes(), b'.'), Field::Text);
        for nothing in [&b""[..], b"  ", b"NaN", b"--", b"n/a", b"inf"] {
            assert_eq!(field(nothing, b'.'), Field::Missing);
        }
        for text in [&b"7 of 9"[..], b"1.2.3", b"12:30", b"on", b"\0\0\0", &[b'1'; 60]] {
            assert_eq!(field(text, b'.'), Field::Text);
        }
    }

    proptest! {
        // The standard library's parser is the reference: correctly rounded.
        #[test]
        fn plain_is_exact(whole in 0u64..10_000_000, decimals in 0u64..1_000_000, places in 0usize..7, negative: bool) {
            let places_text = format!("{decimals:06}");
            let text = format!("{}{whole}{}{}", if negative { "-" } else { "" },
                if places > 0 { "." } else { "" }, &places_text[..places]);
            let expected: f64 = text.parse().unwrap();
            let line = format!("{text},7");
            let (value, length) = plain(line.as_bytes(), b',', b'.').unwrap();
            prop_assert_eq!(value.to_bits(), expected.to_bits());
            prop_assert_eq!(length, text.len());
            prop_assert_eq!(field(text.as_bytes(), b'.'), Field::Number(expected));
        }

        #[test]
        fn nothing_panics(bytes: Vec<u8>, decimal in prop_oneof![Just(b'.'), Just(b',')]) {
            let slow = field(&bytes, decimal);
            if let Some((value, length)) = plain(&bytes, b';', decimal) {
                prop_assert_eq!(field(&bytes[..length], decimal), Field::Number(value));
            }
            let _ = slow;
        }
    }
}
