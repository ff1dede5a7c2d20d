//! The pages of a database file and of the write-ahead log beside it, read as bytes.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs::File;
use std::io;
use std::os::unix::fs::FileExt;
use std::path::Path;

/// What SQLite makes its pages where nobody says otherwise, bytes: so it is in every file of ours.
pub(super) const PAGE: usize = 4096;
/// The header of the write-ahead log, and of each frame in it, bytes.
const LOG_HEADER: u64 = 32;
const FRAME_HEADER: u64 = 24;

/// The pages of a file. What the log beside it holds of a page is newer than what the file holds.
pub(super) struct Pages {
    file: File,
    count: u64,
    log: Option<File>,
    /// Every page in the log up to its last commit, in the order in which they were written: the number, and where it begins.
    frames: Vec<(u32, u64)>,
    newest: BTreeMap<u32, u64>,
    failed: RefCell<Option<io::Error>>,
}

impl Pages {
    pub fn open(path: &Path) -> io::Result<Pages> {
        let file = File::open(path)?;
        let count = file.metadata()?.len().div_ceil(PAGE as u64);
        let mut name = path.file_name().unwrap_or_default().to_owned();
        name.push("-wal");
        let log = match File::open(path.with_file_name(name)) {
            Ok(log) => Some(log),
            Err(error) if error.kind() == io::ErrorKind::NotFound => None,
            Err(error) => return Err(error),
        };
        let frames = log.as_ref().map_or(Ok(Vec::new()), committed)?;
        let newest = frames.iter().copied().collect();
        Ok(Pages { file, count, log, frames, newest, failed: RefCell::new(None) })
    }

    /// What the storage did not give since it was last asked: then what is on a page is not known, and it is not gone.
    pub fn failure(&self) -> io::Result<()> {
        self.failed.take().map_or(Ok(()), Err)
    }

    /// How many images of pages there are, in the file and in the log.
    pub fn images(&self) -> u64 {
        self.count + self.frames.len() as u64
    }

    /// How many bytes they are at the most.
    pub fn bytes(&self) -> u64 {
        self.images() * PAGE as u64
    }

    /// An image of a page: first those in the file, then those in the log.
    pub fn image(&self, place: u64) -> Vec<u8> {
        match place.checked_sub(self.count) {
            None => self.read(&self.file, place * PAGE as u64),
            Some(frame) => match (self.frames.get(frame as usize), &self.log) {
                (Some((_, from)), Some(log)) => self.read(log, *from),
                _ => Vec::new(),
            },
        }
    }

    /// A page by its number, from 1, as it was last.
    pub fn page(&self, number: u32) -> Vec<u8> {
        match (self.newest.get(&number), &self.log) {
            (Some(from), Some(log)) => self.read(log, *from),
            _ => {
                let at = u64::from(number).checked_sub(1);
                at.map(|at| self.read(&self.file, at * PAGE as u64)).unwrap_or_default()
            }
        }
    }

    /// A page's bytes, as many as there are.
    fn read(&self, file: &File, from: u64) -> Vec<u8> {
        let mut page = vec![0; PAGE];
        let mut filled = 0;
        while filled < PAGE {
            match file.read_at(&mut page[filled..], from + filled as u64) {
                Ok(0) => break,
                Ok(count) => filled += count,
                Err(error) => {
                    self.failed.replace(Some(error));
                    break;
                }
            }
        }
        page.truncate(filled);
        page
    }
}

/// The frames of a log up to the last that ends a commit, of the run that its header names. What a power cut left behind them, and what
/// an earlier run left, was told to nobody as recorded.
fn committed(log: &File) -> io::Result<Vec<(u32, u64)>> {
    let mut header = [0; LOG_HEADER as usize];
    if !is_whole(log.read_exact_at(&mut header, 0))? {
        return Ok(Vec::new());
    }
    let (mut frames, mut ended) = (Vec::new(), 0);
    let mut at = LOG_HEADER;
    let mut frame = [0; FRAME_HEADER as usize];
    while is_whole(log.read_exact_at(&mut frame, at))? && frame[8..16] == header[16..24] {
        frames.push((number(&frame[0..4]), at + FRAME_HEADER));
        if number(&frame[4..8]) != 0 {
            ended = frames.len();
        }
        at += FRAME_HEADER + PAGE as u64;
    }
    frames.truncate(ended);
    Ok(frames)
}

/// Whether so much was there; where the file ends before, it was not.
fn is_whole(read: io::Result<()>) -> io::Result<bool> {
    match read {
        Ok(()) => Ok(true),
        Err(error) if error.kind() == io::ErrorKind::UnexpectedEof => Ok(false),
        Err(error) => Err(error),
    }
}

fn number(bytes: &[u8]) -> u32 {
    bytes.iter().fold(0, |number, byte| number << 8 | u32::from(*byte))
}
