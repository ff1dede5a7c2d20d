use std::io::Read;

use serde::{Deserialize, Serialize};

use super::error::TelemetryError;
use super::signs::{Utf16, western};

/// How the file's text is encoded.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Encoding {
    /// UTF-8, with or without a byte-order mark; plain ASCII is that too.
    Utf8,
    /// UTF-16, little end first.
    Utf16Le,
    /// UTF-16, big end first.
    Utf16Be,
    /// One byte a sign, of the Western European code page 1252, of which Latin 1 is a part.
    Western,
}

impl Encoding {
    /// From a file's first bytes: the byte-order mark, else the zeros that UTF-16 has beside every digit, else whether it is UTF-8.
    pub(super) fn of(head: &[u8]) -> Encoding {
        for (mark, encoding) in [
            (b"\xEF\xBB\xBF".as_slice(), Encoding::Utf8),
            (b"\xFF\xFE", Encoding::Utf16Le),
            (b"\xFE\xFF", Encoding::Utf16Be),
        ] {
            if head.starts_with(mark) {
                return encoding;
            }
        }
        let zeros = |from: usize| head.iter().skip(from).step_by(2).take(256).filter(|byte| **byte == 0).count();
        let pairs = (head.len() / 2).min(256);
        if pairs >= 4 && zeros(1) * 10 > pairs * 6 && zeros(0) * 10 < pairs {
            return Encoding::Utf16Le;
        }
        if pairs >= 4 && zeros(0) * 10 > pairs * 6 && zeros(1) * 10 < pairs {
            return Encoding::Utf16Be;
        }
        match std::str::from_utf8(head) {
            Ok(_) => Encoding::Utf8,
            // The head may end within a sign.
            Err(error) if error.error_len().is_none() => Encoding::Utf8,
            Err(_) => Encoding::Western,
        }
    }

    fn decoder(self) -> Option<Utf16> {
        match self {
            Encoding::Utf16Le => Some(Utf16::new(u16::from_le_bytes)),
            Encoding::Utf16Be => Some(Utf16::new(u16::from_be_bytes)),
            // Numbers, separators and line ends are the same bytes in these two: nothing needs decoding but names.
            Encoding::Utf8 | Encoding::Western => None,
        }
    }

    /// A short text of the file for a person.
    pub(super) fn show(self, bytes: &[u8]) -> String {
        match self {
            Encoding::Western => western(bytes),
            _ => String::from_utf8_lossy(bytes).into_owned(),
        }
    }
}

/// A file's bytes with UTF-16 made into UTF-8, the byte-order mark taken off, and bare carriage returns made into line ends.
///
/// It holds no reader, so that it can stop in the middle and go on later: each call brings the reader along, where it stood.
pub(super) struct Source {
    decoder: Option<Utf16>,
    raw: Vec<u8>,
    raw_filled: usize,
    raw_ended: bool,
    bare_returns: bool,
    begun: bool,
    /// Bytes of the file read so far.
    pub(super) read_bytes: u64,
}

/// Raw bytes that wait for the decoder.
const RAW_BYTES: usize = 32 * 1024;

impl Source {
    pub(super) fn new(encoding: Encoding, bare_returns: bool) -> Self {
        let decoder = encoding.decoder();
        let raw = if decoder.is_some() { vec![0; RAW_BYTES] } else { Vec::new() };
        Self { decoder, raw, raw_filled: 0, raw_ended: false, bare_returns, begun: false, read_bytes: 0 }
    }

    /// Fills some of `into`, which must have room for at least four bytes; zero at the end of the file.
    pub(super) fn fill(&mut self, from: &mut dyn Read, into: &mut [u8]) -> Result<usize, TelemetryError> {
        let mut filled = match self.decoder.take() {
            None => self.read(from, into)?,
            Some(mut decoder) => {
                let filled = self.decode(from, &mut decoder, into);
                self.decoder = Some(decoder);
                filled?
            }
        };
        if !self.begun && filled > 0 {
            self.begun = true;
            // A first read of one or two bytes would hide the mark; readers of files do not do that, others are asked again.
            while filled < 3 {
                match self.read(from, &mut into[filled..])? {
                    0 => break,
                    more => filled += more,
                }
            }
            if into[..filled].starts_with(b"\xEF\xBB\xBF") {
                into.copy_within(3..filled, 0);
                filled -= 3;
                if filled == 0 {
                    return self.fill(from, into);
                }
            }
        }
        if self.bare_returns {
            for byte in into[..filled].iter_mut().filter(|byte| **byte == b'\r') {
                *byte = b'\n';
            }
        }
        Ok(filled)
    }

    fn read(&mut self, from: &mut dyn Read, into: &mut [u8]) -> Result<usize, TelemetryError> {
        if self.decoder.is_some() {
            return Ok(0);
        }
        read_some(from, into, &mut self.read_bytes)
    }

    fn decode(&mut self, from: &mut dyn Read, decoder: &mut Utf16, into: &mut [u8]) -> Result<usize, TelemetryError> {
        loop {
            if !self.raw_ended && self.raw_filled < RAW_BYTES / 2 {
                let read = read_some(from, &mut self.raw[self.raw_filled..], &mut self.read_bytes)?;
                self.raw_ended = read == 0;
                self.raw_filled += read;
            }
            if self.raw_ended && self.raw_filled == 0 {
                return Ok(0);
            }
            let (taken, written) = decoder.decode(&self.raw[..self.raw_filled], into, self.raw_ended);
            self.raw.copy_within(taken..self.raw_filled, 0);
            self.raw_filled -= taken;
            if written > 0 {
                return Ok(written);
            }
        }
    }
}

fn read_some(from: &mut dyn Read, into: &mut [u8], read_bytes: &mut u64) -> Result<usize, TelemetryError> {
    loop {
        match from.read(into) {
            Ok(read) => {
                *read_bytes += read as u64;
                return Ok(read);
            }
            Err(error) if error.kind() == std::io::ErrorKind::Interrupted => {}
            Err(error) => {
                return Err(TelemetryError::Unreadable { at_bytes: *read_bytes, reason: error.to_string() });
            }
        }
    }
}
