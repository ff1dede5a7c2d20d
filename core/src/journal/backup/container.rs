//! The container of a backup that is brought in: which files are in it, and each as a stream that can be read on in steps.
//!
//! It comes from anywhere, so nothing that it says of itself is believed: the directory has to be short, names are looked up and never
//! used as paths, and no file gives more than it says.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{self, BufReader, Read, Seek, SeekFrom};
use std::path::{Path, PathBuf};

use flate2::bufread::DeflateDecoder;
use zip::result::ZipError;
use zip::{CompressionMethod, ZipArchive};

use super::BackupError;
use super::manifest::MANIFEST;

/// More files than a lifetime has logs.
const MOST_FILES: u64 = 20_000;
/// Their directory at its longest, bytes.
const LONGEST_DIRECTORY: u64 = 4 << 20;
/// Logs shrink to a tenth or a hundredth (common practice, no source); what would grow more than this was made to.
const MOST_GROWTH: u64 = 400;
/// What a small file may grow to all the same, bytes.
const ALWAYS_ALLOWED: u64 = 1 << 20;

/// Where a file lies in the container.
#[derive(Debug, Clone, Copy)]
struct Lies {
    from: u64,
    packed_bytes: u64,
    is_deflated: bool,
    bytes: u64,
}

pub(super) struct Container {
    path: PathBuf,
    files: BTreeMap<String, Lies>,
}

/// A file of the container, as it is unpacked.
pub(super) enum Unpacked {
    Stored(io::Take<BufReader<File>>),
    Deflated(Box<io::Take<DeflateDecoder<io::Take<BufReader<File>>>>>),
}

impl Read for Unpacked {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        match self {
            Unpacked::Stored(reader) => reader.read(into),
            Unpacked::Deflated(reader) => reader.read(into),
        }
    }
}

impl Container {
    pub fn open(path: &Path) -> Result<Container, BackupError> {
        let mut file = File::open(path)?;
        let length = file.metadata()?.len();
        directory_is_short(&mut file)?;
        let mut archive = ZipArchive::new(file).map_err(no_container)?;
        let is_ambiguous = archive.has_duplicate_names() || archive.has_overlapping_files().unwrap_or(true);
        if is_ambiguous {
            return Err(BackupError::NoContainer);
        }
        let mut files = BTreeMap::new();
        let mut all = 0_u64;
        for place in 0..archive.len() {
            let found = archive.by_index_raw(place).map_err(no_container)?;
            if found.encrypted() {
                return Err(BackupError::NoContainer);
            }
            let is_deflated = match found.compression() {
                CompressionMethod::Stored => false,
                CompressionMethod::Deflated => true,
                _ => return Err(BackupError::NoContainer),
            };
            let from = found.data_start().ok_or(BackupError::NoContainer)?;
            let lies = Lies { from, packed_bytes: found.compressed_size(), is_deflated, bytes: found.size() };
            all = all.saturating_add(lies.bytes);
            files.insert(String::from_utf8_lossy(found.name_raw()).into_owned(), lies);
        }
        if all > ALWAYS_ALLOWED && all / MOST_GROWTH > length {
            return Err(BackupError::TooMuch { file: MANIFEST.to_owned() });
        }
        Ok(Container { path: path.to_owned(), files })
    }

    /// The file of this name as a stream, and how long it says that it is.
    pub fn read(&self, name: &str) -> Result<(Unpacked, u64), BackupError> {
        let lies = self.files.get(name).ok_or_else(|| BackupError::NotOurs { file: name.to_owned() })?;
        if lies.bytes > ALWAYS_ALLOWED && lies.bytes / MOST_GROWTH > lies.packed_bytes {
            return Err(BackupError::TooMuch { file: name.to_owned() });
        }
        let mut file = File::open(&self.path)?;
        file.seek(SeekFrom::Start(lies.from))?;
        let packed = BufReader::new(file).take(lies.packed_bytes);
        let unpacked = match lies.is_deflated {
            false => Unpacked::Stored(packed),
            true => Unpacked::Deflated(Box::new(DeflateDecoder::new(packed).take(lies.bytes))),
        };
        Ok((unpacked, lies.bytes))
    }
}

fn no_container(error: ZipError) -> BackupError {
    match error {
        ZipError::Io(error) if error.raw_os_error().is_some() => error.into(),
        _ => BackupError::NoContainer,
    }
}

/// Reads the end record of the container alone (PKWARE APPNOTE 6.3.10, 4.3.16): the directory is brought into memory by what it says.
fn directory_is_short(file: &mut File) -> Result<(), BackupError> {
    /// The end record without its comment, and the longest comment, bytes.
    const END: usize = 22;
    const LONGEST_COMMENT: u64 = u16::MAX as u64;
    let length = file.seek(SeekFrom::End(0))?;
    let mut tail = Vec::new();
    file.seek(SeekFrom::Start(length.saturating_sub(END as u64 + LONGEST_COMMENT)))?;
    file.read_to_end(&mut tail)?;
    let mark = *b"PK\x05\x06";
    let end = tail.windows(END).rev().find(|window| window[..4] == mark).ok_or(BackupError::NoContainer)?;
    let files = u64::from(u16::from_le_bytes([end[10], end[11]]));
    let directory = u64::from(u32::from_le_bytes([end[12], end[13], end[14], end[15]]));
    let is_long = end[16..20] == [0xFF; 4];
    file.seek(SeekFrom::Start(0))?;
    // The long form says all of it elsewhere: only a container past the reach of the short one has it.
    let is_needless = is_long && length < u64::from(u32::MAX);
    let is_too_much = files > MOST_FILES || directory > LONGEST_DIRECTORY.min(length);
    if is_needless || is_too_much { Err(BackupError::NoContainer) } else { Ok(()) }
}
