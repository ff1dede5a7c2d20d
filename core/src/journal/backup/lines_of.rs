//! Lines of a stream, read on in steps: none longer than an entry can be.

use std::io::{BufRead, BufReader, Read};

use super::BackupError;

/// Longer than any entry: the longest holds a whole plan.
const LONGEST_LINE: u64 = 4 << 20;
/// More commas than the text of any plan has. Each could stand between two things that take more memory than they take in the line.
const MOST_COMMAS: usize = 200_000;

/// The lines of a file of the container.
pub(super) struct LinesOf<R: Read> {
    reader: BufReader<R>,
    file: &'static str,
    /// Lines that were read.
    pub count: i64,
}

impl<R: Read> LinesOf<R> {
    pub fn new(reader: R, file: &'static str) -> LinesOf<R> {
        LinesOf { reader: BufReader::new(reader), file, count: 0 }
    }

    /// The next line with its end, none behind the last.
    pub fn next(&mut self) -> Result<Option<Vec<u8>>, BackupError> {
        let mut line = Vec::new();
        let read = (&mut self.reader).take(LONGEST_LINE).read_until(b'\n', &mut line);
        let length = read.map_err(BackupError::reading(self.file, Some(self.count + 1)))?;
        if length == 0 {
            return Ok(None);
        }
        self.count += 1;
        match line.last() {
            Some(b'\n') if memchr::memchr_iter(b',', &line).count() > MOST_COMMAS => {
                Err(BackupError::TooMuch { file: self.file.to_owned() })
            }
            Some(b'\n') => Ok(Some(line)),
            _ if length as u64 == LONGEST_LINE => Err(BackupError::TooMuch { file: self.file.to_owned() }),
            _ => Err(BackupError::damaged(self.file, Some(self.count))),
        }
    }
}
