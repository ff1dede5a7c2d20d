//! A valid input that was changed in a few places.

use arbitrary::{Result, Unstructured};

/// Numbers at which arithmetic breaks off, as they are written in a text.
const ODD_NUMBERS: [&str; 16] = [
    "0",
    "-0.0",
    "-1",
    "1e308",
    "-1e308",
    "1e-320",
    "0.1",
    "2147483648",
    "4294967295",
    "4294967296",
    "9223372036854775807",
    "-9223372036854775808",
    "9007199254740993",
    "18446744073709551615",
    "99999999999999999999",
    "1000000000000000",
];
/// How many changes there are to one input: the more, the less of it is still read.
const CHANGES: [usize; 6] = [1, 1, 1, 1, 2, 6];
/// The longest stretch that is taken out, put in or copied, bytes.
const LONGEST: usize = 48;

/// The input with one to six changes: bytes put in the place of others, a stretch copied elsewhere, a bit the other way round, or a number
/// of its text become an odd one.
pub fn changed(valid: &[u8], u: &mut Unstructured<'_>) -> Result<Vec<u8>> {
    let mut bytes = valid.to_vec();
    for _ in 0..*u.choose(&CHANGES)? {
        if bytes.is_empty() {
            break;
        }
        let from = u.int_in_range(0..=bytes.len() - 1)?;
        let to = (from + u.int_in_range(0..=LONGEST)?).min(bytes.len());
        match u.int_in_range(0..=3)? {
            0 => {
                let length = u.int_in_range(0..=LONGEST)?;
                let others = u.bytes(length.min(u.len()))?.to_vec();
                bytes.splice(from..to, others);
            }
            1 => {
                let stretch = bytes[from..to].to_vec();
                let at = u.int_in_range(0..=bytes.len())?;
                bytes.splice(at..at, stretch);
            }
            2 => bytes[from] ^= 1 << u.int_in_range(0..=7)?,
            _ => odd_number(&mut bytes, from, u)?,
        }
    }
    Ok(bytes)
}

/// Puts an odd number in the place of the first one behind a place.
fn odd_number(bytes: &mut Vec<u8>, from: usize, u: &mut Unstructured<'_>) -> Result<()> {
    let odd = u.choose(&ODD_NUMBERS)?;
    let is_of_number = |byte: &u8| byte.is_ascii_digit() || *byte == b'.';
    let Some(start) = bytes[from..].iter().position(u8::is_ascii_digit).map(|at| from + at) else { return Ok(()) };
    let length = bytes[start..].iter().take_while(|byte| is_of_number(byte)).count();
    bytes.splice(start..start + length, odd.bytes());
    Ok(())
}

/// All bytes that are left.
pub fn rest(u: &mut Unstructured<'_>) -> Vec<u8> {
    u.bytes(u.len()).unwrap_or_default().to_vec()
}
