use std::io::Read;

use memchr::{memchr, memrchr};

use super::columns::ColumnMap;
use super::error::TelemetryError;
use super::layout::Layout;
use super::recording::Recording;
use super::rows::{BUFFER, RowReader};
use super::text::Source;

/// How much is kept, and what is known of the file.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settings {
    /// Bytes that the kept columns may take: past that, rows are joined into cells that keep their least, mean and greatest.
    pub kept_bytes: usize,
    /// The file's length, where it is known: columns are then made as long as they will be.
    pub file_bytes: Option<u64>,
}

impl Default for Settings {
    /// 128 MiB: ten minutes of sixty channels at 1000 rows a second, or 5.5 million rows of four.
    fn default() -> Self {
        Self { kept_bytes: 128 * 1024 * 1024, file_bytes: None }
    }
}

/// How far an import is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Progress {
    /// Bytes of the file that were read.
    pub bytes: u64,
    /// Rows that were read.
    pub rows: u64,
}

/// An import that is ready to read.
pub struct Import {
    layout: Layout,
    map: ColumnMap,
    settings: Settings,
}

impl Import {
    /// An import of a file that is laid out so, under this map.
    ///
    /// # Errors
    /// The map does not fit the layout.
    pub fn new(layout: &Layout, map: &ColumnMap, settings: Settings) -> Result<Self, TelemetryError> {
        map.check(layout)?;
        Ok(Self { layout: layout.clone(), map: map.clone(), settings })
    }

    /// Reads the file from its first byte to its last. `watch` is told about every quarter of a mebibyte; false stops it.
    ///
    /// Memory beyond the kept columns is under a mebibyte and does not grow with the file.
    ///
    /// # Errors
    /// Stopped, not readable to its end, or no row of use.
    pub fn read(
        self,
        from: &mut dyn Read,
        watch: &mut dyn FnMut(Progress) -> bool,
    ) -> Result<Recording, TelemetryError> {
        let mut importing = self.begin();
        while importing.go_on(from, 1)? == Importing::MORE {
            if !watch(importing.progress()) {
                return Err(TelemetryError::Stopped);
            }
        }
        importing.finish()
    }

    /// Begins to read, to go on in steps: whoever reads can do something else in between, or stop.
    pub fn begin(self) -> Importing {
        Importing {
            source: Source::new(self.layout.encoding, self.layout.bare_returns),
            reader: RowReader::new(&self.layout, &self.map, self.settings.kept_bytes),
            map: self.map,
            file_bytes: self.settings.file_bytes,
            buffer: vec![0_u8; BUFFER],
            filled: 0,
            too_long: false,
        }
    }
}

/// An import under way.
pub struct Importing {
    source: Source,
    reader: RowReader,
    map: ColumnMap,
    file_bytes: Option<u64>,
    /// What was read and not yet taken: the beginning of a row.
    buffer: Vec<u8>,
    filled: usize,
    /// A row was too long, and its rest is still to be passed over.
    too_long: bool,
}

impl Importing {
    /// What [`Importing::go_on`] gives back while the file has not ended.
    pub const MORE: bool = true;

    /// How far it is.
    pub fn progress(&self) -> Progress {
        Progress { bytes: self.source.read_bytes, rows: self.reader.rows.found }
    }

    /// Reads on until `bytes` more of the file are read, or a few more, or it has ended. `from` goes on where the last call stopped: at
    /// byte [`Progress::bytes`] of the file.
    ///
    /// # Errors
    /// Not readable on.
    pub fn go_on(&mut self, from: &mut dyn Read, bytes: u64) -> Result<bool, TelemetryError> {
        let enough = self.source.read_bytes.saturating_add(bytes);
        while self.source.read_bytes < enough {
            if !self.fill_and_take(from)? {
                return Ok(!Self::MORE);
            }
        }
        Ok(Self::MORE)
    }

    /// Fills the buffer once and takes the whole rows in it; false at the end of the file.
    fn fill_and_take(&mut self, from: &mut dyn Read) -> Result<bool, TelemetryError> {
        let read = self.source.fill(from, &mut self.buffer[self.filled..])?;
        self.filled += read;
        let ended = read == 0;
        if self.too_long {
            // The rest of a row that was too long is passed over.
            let rest = memchr(b'\n', &self.buffer[..self.filled]).map_or(self.filled, |end| end + 1);
            self.too_long = rest == self.filled && self.buffer[..self.filled].last() != Some(&b'\n');
            self.drop_first(rest);
            if self.too_long && !ended {
                return Ok(true);
            }
        }
        let whole = memrchr(b'\n', &self.buffer[..self.filled]).map_or(0, |end| end + 1);
        let full = self.filled + 4 > BUFFER;
        let mut taken = self.reader.take(&self.buffer[..whole], ended, full);
        if taken == 0 && full {
            self.reader.too_long(&self.buffer[..self.filled]);
            (taken, self.too_long) = (self.filled, true);
        }
        self.drop_first(taken);
        if !ended && !self.reader.expected && self.reader.rows.found > 100 {
            self.reader.expect(self.source.read_bytes, self.file_bytes);
        }
        Ok(!ended)
    }

    fn drop_first(&mut self, bytes: usize) {
        self.buffer.copy_within(bytes..self.filled, 0);
        self.filled -= bytes;
    }

    /// Takes the last row, which may be torn, and closes the columns.
    ///
    /// # Errors
    /// No row of use.
    pub fn finish(mut self) -> Result<Recording, TelemetryError> {
        self.reader.last(&self.buffer[..self.filled]);
        self.reader.finish(self.map, self.source.read_bytes)
    }
}
