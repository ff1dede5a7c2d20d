//! Who watches a folder: every call that reaches one of its files is written down, and one of them, or all from one on, can fail.
//!
//! What SQLite does comes through [`super::vfs`], what the app does itself through [`super::calls`].

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::disk::{Change, Disk, Done, FileNumber, Files, Naming};

/// What is asked of the disk.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Call {
    Open,
    Read,
    Write,
    Resize,
    Sync,
    Rename,
    Remove,
    /// Whether a file is there, how long it is, what lies in a folder.
    Look,
    /// Memory that SQLite shares between those who have a file open.
    Share,
}

/// How a call fails.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Failing {
    /// An error of input or output at this call alone.
    Once,
    /// The same at this call and all behind it.
    FromThenOn,
    /// The disk is full from this call on: nothing grows, nothing is made anew.
    Full,
}

/// What is told to whoever called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    InputOutput,
    NoRoom,
}

#[derive(Default)]
struct Watch {
    root: PathBuf,
    names: BTreeMap<String, FileNumber>,
    newest: FileNumber,
    lengths: BTreeMap<FileNumber, usize>,
    done: Vec<Done>,
    calls: BTreeMap<Call, u64>,
    counting_from: u64,
    failing: Option<(u64, Failing)>,
    failed: u64,
    first_failed: Option<Call>,
}

thread_local! {
    static WATCH: RefCell<Option<Watch>> = const { RefCell::new(None) };
    /// Whether SQLite's own way to the disk is at work: what it calls was counted already.
    static INSIDE: Cell<bool> = const { Cell::new(false) };
}

/// Watches a folder, in this thread, until [`end`].
pub fn begin(root: &Path) {
    let mut watch = Watch { root: root.to_owned(), ..Watch::default() };
    for (name, bytes) in files(root) {
        watch.newest += 1;
        watch.names.insert(name, watch.newest);
        watch.lengths.insert(watch.newest, bytes.len());
    }
    super::calls::forget();
    WATCH.with(|cell| *cell.borrow_mut() = Some(watch));
}

/// How much was done so far.
pub fn so_far() -> usize {
    with(|watch| watch.done.len()).unwrap_or(0)
}

/// Counts calls from nothing, and lets one fail; none where there is none to fail.
pub fn count_anew(failing: Option<(u64, Failing)>) {
    with(|watch| {
        watch.counting_from = watch.calls.values().sum();
        watch.failing = failing;
    });
}

/// Calls since they were counted anew, and how many of them failed.
pub fn counted() -> (u64, u64) {
    with(|watch| (watch.calls.values().sum::<u64>() - watch.counting_from, watch.failed)).unwrap_or((0, 0))
}

/// The kind of the first call that failed.
pub fn first_failed() -> Option<Call> {
    with(|watch| watch.first_failed)?
}

/// Calls of each kind so far.
pub fn kinds() -> BTreeMap<Call, u64> {
    with(|watch| watch.calls.clone()).unwrap_or_default()
}

/// What the disk may hold now of a folder that held these files when it was first watched.
pub fn disk_now(begun: &Files) -> Disk {
    disk(begun, &with(|watch| watch.done.clone()).unwrap_or_default())
}

/// Ends it; all that was done to the folder.
pub fn end() -> Vec<Done> {
    WATCH.with(|cell| cell.borrow_mut().take()).unwrap_or_default().done
}

/// What the disk may hold of what was done up to now in a folder that held these files.
pub fn disk(begun: &Files, done: &[Done]) -> Disk {
    let mut disk = Disk::of(begun);
    done.iter().for_each(|done| disk.take(done));
    disk
}

/// The files of a folder, without what SQLite shares in memory.
pub fn files(root: &Path) -> Files {
    let found = std::fs::read_dir(root).into_iter().flatten().flatten();
    let named = found.filter_map(|file| file.file_name().into_string().ok());
    let kept = named.filter(|name| !name.ends_with("-shm"));
    kept.map(|name| (name.clone(), std::fs::read(root.join(&name)).unwrap_or_default())).collect()
}

fn with<T>(act: impl FnOnce(&mut Watch) -> T) -> Option<T> {
    WATCH.try_with(|cell| cell.try_borrow_mut().ok()?.as_mut().map(act)).ok().flatten()
}

/// Whether SQLite's own way to the disk is at work.
pub fn is_inside() -> bool {
    INSIDE.try_with(Cell::get).unwrap_or(true)
}

/// Does what SQLite's own way to the disk does, uncounted.
pub fn inside<T>(act: impl FnOnce() -> T) -> T {
    let before = INSIDE.replace(true);
    let result = act();
    INSIDE.set(before);
    result
}

/// The name of a file in the watched folder.
pub fn name_of(path: &str) -> Option<String> {
    with(|watch| {
        let inside = Path::new(path).strip_prefix(&watch.root).ok()?.to_str()?;
        Some(inside.to_owned()).filter(|name| !name.contains('/'))
    })?
}

/// Counts a call, and says whether and how it fails. `grows` says that it needs room.
pub fn call(call: Call, grows: bool) -> Option<Refusal> {
    with(|watch| {
        let number = watch.calls.values().sum::<u64>() - watch.counting_from;
        *watch.calls.entry(call).or_default() += 1;
        let (at, failing) = watch.failing?;
        let refusal = match failing {
            Failing::Once => (number == at).then_some(Refusal::InputOutput),
            Failing::FromThenOn => (number >= at).then_some(Refusal::InputOutput),
            Failing::Full => (number >= at && grows).then_some(Refusal::NoRoom),
        };
        if refusal.is_some() {
            watch.failed += 1;
            watch.first_failed.get_or_insert(call);
        }
        refusal
    })?
}

/// A file was opened; its number.
pub fn opened(name: &str) -> FileNumber {
    with(|watch| {
        if let Some(file) = watch.names.get(name) {
            return *file;
        }
        watch.newest += 1;
        watch.names.insert(name.to_owned(), watch.newest);
        watch.done.push(Done::Named(Naming::Made { name: name.to_owned(), file: watch.newest }));
        watch.newest
    })
    .unwrap_or(0)
}

/// Whether there is a file of this name.
pub fn is_there(name: &str) -> bool {
    with(|watch| watch.names.contains_key(name)).unwrap_or(false)
}

/// How long a file is.
pub fn length(file: FileNumber) -> usize {
    with(|watch| watch.lengths.get(&file).copied()).flatten().unwrap_or(0)
}

pub fn changed(file: FileNumber, change: Change) {
    with(|watch| {
        let length = watch.lengths.entry(file).or_default();
        *length = match &change {
            Change::Written { at, bytes } => (*length).max(at + bytes.len()),
            Change::Resized { to } => *to,
        };
        watch.done.push(Done::Changed(file, change));
    });
}

pub fn renamed(from: &str, to: &str) {
    with(|watch| {
        if let Some(file) = watch.names.remove(from) {
            watch.names.insert(to.to_owned(), file);
        }
        watch.done.push(Done::Named(Naming::Renamed { from: from.to_owned(), to: to.to_owned() }));
    });
}

pub fn removed(name: &str) {
    with(|watch| {
        watch.names.remove(name);
        watch.done.push(Done::Named(Naming::Removed { name: name.to_owned() }));
    });
}

/// A file, or the folder where none is named, was synced or could not be.
pub fn synced(file: Option<FileNumber>, well: bool) {
    with(|watch| {
        watch.done.extend(match (file, well) {
            (Some(file), true) => Some(Done::Synced(file)),
            (Some(file), false) => Some(Done::SyncFailed(file)),
            (None, true) => Some(Done::FolderSynced),
            (None, false) => None,
        });
    });
}

/// The watched folder.
pub fn root() -> Option<PathBuf> {
    with(|watch| watch.root.clone())
}
