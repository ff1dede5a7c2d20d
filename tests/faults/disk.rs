//! What a disk holds once the power was cut: a model of one folder, fed with all that was done to its files.
//!
//! What was synced is there. Of what was written since, each sector may be as it was or as any of the writes left it; a name that was made,
//! changed or taken away since the folder was last synced may or may not be. Names change in the order in which they were changed, as a
//! file system with a journal keeps them; `Way::AnyName` gives that up too.

use std::collections::BTreeMap;

use liftgate_tests::Spread;

/// What a disk writes whole or not at all, bytes.
pub const SECTOR: usize = 512;

/// A file, whatever its name is at the moment.
pub type FileNumber = u64;

/// Something that was done to the folder.
#[derive(Debug, Clone)]
pub enum Done {
    Named(Naming),
    Changed(FileNumber, Change),
    /// What was written to the file is on the disk.
    Synced(FileNumber),
    /// The disk refused to: what was written since the last time may be lost for good, whatever a later sync says.
    SyncFailed(FileNumber),
    /// Names are on the disk.
    FolderSynced,
}

#[derive(Debug, Clone)]
pub enum Naming {
    Made { name: String, file: FileNumber },
    Renamed { from: String, to: String },
    Removed { name: String },
}

#[derive(Debug, Clone)]
pub enum Change {
    Written { at: usize, bytes: Vec<u8> },
    Resized { to: usize },
}

/// What became of what was not synced.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Way {
    /// Nothing of it is there.
    Dropped,
    /// All of it is there.
    Kept,
    /// It is there up to some moment, and of the last write some sectors.
    Torn,
    /// Each write is there or not, whatever came before or after it.
    Reordered,
    /// Each sector is as any of the writes left it.
    AnySector,
    /// The same, and names did not change in order either.
    AnyName,
}

impl Way {
    pub const ALL: [Way; 6] = [Way::Dropped, Way::Kept, Way::Torn, Way::Reordered, Way::AnySector, Way::AnyName];
}

/// The folder's files by name.
pub type Files = BTreeMap<String, Vec<u8>>;

#[derive(Debug, Clone, Default)]
struct Held {
    /// What is on the disk for sure.
    sure: Vec<u8>,
    /// What came since, with the place of each in all that was done.
    since: Vec<(usize, Change)>,
}

/// A disk, as far as it is known what it holds.
#[derive(Debug, Clone, Default)]
pub struct Disk {
    files: BTreeMap<FileNumber, Held>,
    names: BTreeMap<String, FileNumber>,
    names_since: Vec<(usize, Naming)>,
    /// How much was done.
    done: usize,
}

impl Disk {
    /// One that holds these files for sure, numbered in the order of their names from 1.
    pub fn of(files: &Files) -> Disk {
        let mut disk = Disk::default();
        for (number, (name, bytes)) in (1..).zip(files) {
            disk.files.insert(number, Held { sure: bytes.clone(), since: Vec::new() });
            disk.names.insert(name.clone(), number);
        }
        disk
    }

    pub fn take(&mut self, done: &Done) {
        self.done += 1;
        match done {
            Done::Named(naming) => {
                if let Naming::Made { file, .. } = naming {
                    self.files.entry(*file).or_default();
                }
                self.names_since.push((self.done, naming.clone()));
            }
            Done::Changed(file, change) => {
                self.files.entry(*file).or_default().since.push((self.done, change.clone()));
            }
            Done::Synced(file) => {
                let held = self.files.entry(*file).or_default();
                for (_, change) in std::mem::take(&mut held.since) {
                    apply(&mut held.sure, &change);
                }
            }
            Done::SyncFailed(file) => self.files.entry(*file).or_default().since.clear(),
            Done::FolderSynced => {
                for (_, naming) in std::mem::take(&mut self.names_since) {
                    rename(&mut self.names, &naming);
                }
            }
        }
    }

    /// Whether a power cut now could lose anything.
    pub fn is_unsettled(&self) -> bool {
        !self.names_since.is_empty() || self.files.values().any(|held| !held.since.is_empty())
    }

    /// The files that are there when the power comes back.
    pub fn after_cut(&self, way: Way, spread: &mut Spread) -> Files {
        let until = spread.below(self.done as u64 + 1) as usize;
        let mut names = self.names.clone();
        let many = match way {
            Way::Dropped => 0,
            Way::Kept => self.names_since.len(),
            Way::Torn => self.names_since.iter().filter(|(at, _)| *at <= until).count(),
            _ => spread.below(self.names_since.len() as u64 + 1) as usize,
        };
        for (place, (_, naming)) in self.names_since.iter().enumerate() {
            if if way == Way::AnyName { spread.coin() } else { place < many } {
                rename(&mut names, naming);
            }
        }
        let content = |file: &FileNumber, spread: &mut Spread| {
            self.files.get(file).map_or_else(Vec::new, |held| held.after_cut(way, until, spread))
        };
        names.iter().map(|(name, file)| (name.clone(), content(file, spread))).collect()
    }
}

impl Held {
    fn after_cut(&self, way: Way, until: usize, spread: &mut Spread) -> Vec<u8> {
        let mut bytes = self.sure.clone();
        match way {
            Way::Dropped => {}
            Way::Kept => self.since.iter().for_each(|(_, change)| apply(&mut bytes, change)),
            Way::Torn => {
                let whole = self.since.iter().take_while(|(at, _)| *at < until).count();
                self.since[..whole].iter().for_each(|(_, change)| apply(&mut bytes, change));
                if let Some((_, change)) = self.since.get(whole).filter(|(at, _)| *at == until) {
                    apply(&mut bytes, &torn(change, spread));
                }
            }
            Way::Reordered => {
                self.since.iter().filter(|_| spread.coin()).for_each(|(_, change)| apply(&mut bytes, change));
            }
            Way::AnySector | Way::AnyName => bytes = self.any_sector(spread),
        }
        bytes
    }

    /// Each sector as any of the writes left it, and the file as long as it was at any moment.
    fn any_sector(&self, spread: &mut Spread) -> Vec<u8> {
        let mut versions = vec![self.sure.clone()];
        for (_, change) in &self.since {
            let mut next = versions.last().cloned().unwrap_or_default();
            apply(&mut next, change);
            versions.push(next);
        }
        let length = versions[spread.below(versions.len() as u64) as usize].len();
        // What was never written and is there by its length alone may hold what lay there before.
        let noise = spread.coin();
        let mut bytes: Vec<u8> = (0..length).map(|_| if noise { spread.below(256) as u8 } else { 0 }).collect();
        for from in (0..length).step_by(SECTOR) {
            let version = &versions[spread.below(versions.len() as u64) as usize];
            let to = length.min(from + SECTOR).min(version.len());
            if from < to {
                bytes[from..to].copy_from_slice(&version[from..to]);
            }
        }
        bytes
    }
}

/// The part of a write up to a border between sectors, or from one on.
fn torn(change: &Change, spread: &mut Spread) -> Change {
    let Change::Written { at, bytes } = change else { return change.clone() };
    let borders = bytes.len() / SECTOR + 1;
    let border = ((at / SECTOR + 1 + spread.below(borders as u64) as usize) * SECTOR).saturating_sub(*at);
    let border = border.min(bytes.len());
    match spread.coin() {
        true => Change::Written { at: *at, bytes: bytes[..border].to_vec() },
        false => Change::Written { at: at + border, bytes: bytes[border..].to_vec() },
    }
}

fn apply(file: &mut Vec<u8>, change: &Change) {
    match change {
        Change::Written { bytes, .. } if bytes.is_empty() => {}
        Change::Written { at, bytes } => {
            if file.len() < at + bytes.len() {
                file.resize(at + bytes.len(), 0);
            }
            file[*at..at + bytes.len()].copy_from_slice(bytes);
        }
        Change::Resized { to } => file.resize(*to, 0),
    }
}

fn rename(names: &mut BTreeMap<String, FileNumber>, naming: &Naming) {
    match naming {
        Naming::Made { name, file } => {
            names.insert(name.clone(), *file);
        }
        Naming::Renamed { from, to } => {
            if let Some(file) = names.remove(from) {
                names.insert(to.clone(), file);
            }
        }
        Naming::Removed { name } => {
            names.remove(name);
        }
    }
}

#[test]
fn what_was_synced_is_there_in_every_way_and_what_was_not_only_where_it_may_be() {
    let mut disk = Disk::of(&Files::from([("a".to_owned(), vec![1; 2 * SECTOR])]));
    let written = |at, byte| Done::Changed(1, Change::Written { at, bytes: vec![byte; SECTOR] });
    disk.take(&written(0, 2));
    disk.take(&Done::Synced(1));
    disk.take(&written(0, 3));
    disk.take(&Done::Named(Naming::Renamed { from: "a".to_owned(), to: "b".to_owned() }));
    assert!(disk.is_unsettled());
    let mut spread = Spread::from(7);
    let mut seen = std::collections::BTreeSet::new();
    for way in Way::ALL.repeat(40) {
        let files = disk.after_cut(way, &mut spread);
        assert_eq!(files.len(), 1, "{way:?}");
        let (name, bytes) = files.first_key_value().unwrap();
        assert_eq!(bytes[SECTOR..], [1; SECTOR], "{way:?}");
        seen.insert((name.clone(), bytes[0], bytes[SECTOR - 1]));
    }
    let all = ["a", "b"].into_iter().flat_map(|name| [2, 3].map(|byte| (name.to_owned(), byte, byte)));
    assert_eq!(seen, all.collect());
}
