//! Files that were made to do harm: each is refused within two seconds and 64 MB, in words, and the live record is as it was, byte for byte.
//! A program of its own, since it counts all of its memory.
//!
//! Both bounds are the project's own. Time is the processor's of this machine, which is busy with other tests, on the code as tests build
//! it; what the storage takes is not in it.
#![cfg(target_os = "linux")]
#![allow(missing_docs, clippy::unwrap_used)]

mod archives;
mod memory;
mod texts;

use std::path::Path;
use std::time::Duration;

use liftgate_core::view::{Block, Work};
use liftgate_tests::Person;
use memory::{Counted, most_of};

#[global_allocator]
static MEMORY: Counted = Counted;

const MOST_MEMORY: usize = 64 << 20;
const MOST_TIME: Duration = Duration::from_secs(2);

/// A file that was made to do harm.
pub struct Hostile {
    pub what: &'static str,
    pub bytes: Vec<u8>,
}

/// What is done, the processor's time that it took, and the memory at the most.
fn measured<T>(act: impl FnOnce() -> T) -> (T, Duration, usize) {
    let began = processor_time();
    let (result, most) = most_of(act);
    (result, processor_time() - began, most)
}

/// The processor's time that this thread has taken: the first number there, in nanoseconds.
fn processor_time() -> Duration {
    let account = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap();
    Duration::from_nanos(account.split(' ').next().unwrap().parse().unwrap())
}

/// The journal's files as they are.
fn live(person: &Person) -> Vec<(String, Vec<u8>)> {
    let path = person.journal();
    let name = path.file_name().unwrap().to_str().unwrap().to_owned();
    let ends = ["", "-wal"].map(|end| format!("{name}{end}"));
    ends.map(|name| (name.clone(), std::fs::read(path.with_file_name(name)).unwrap_or_default())).into()
}

/// What lies in the folder of the journal.
fn names(path: &Path) -> Vec<String> {
    let files = std::fs::read_dir(path.parent().unwrap()).unwrap().flatten();
    let mut names: Vec<String> = files.map(|file| file.file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

/// Brings a file in as a backup, and gives back what its page says.
fn bring_in(person: &mut Person, bytes: &[u8]) -> Vec<String> {
    person.pick("Bring a backup in", "it.zip", bytes);
    let mut screen = person.screen();
    while let Some(Work::Touch { token }) = screen.work {
        screen = person.phone.pilot().unwrap().tap(&token, &person.now).unwrap().screen;
    }
    let verdict = screen.blocks.into_iter().find_map(|block| match block {
        Block::Verdict { text, detail, .. } => Some(vec![text, detail.unwrap_or_default()]),
        _ => None,
    });
    verdict.unwrap_or_default()
}

#[allow(clippy::print_stdout)] // what was measured
fn told(what: &str, length: usize, took: Duration, most: usize, said: &str) {
    println!(
        "{what:45} {:8} KB, {:5} ms, {:6} KB of memory: {}",
        length / 1000,
        took.as_millis(),
        most / 1000,
        said.chars().take(90).collect::<String>()
    );
}

/// One test: a second one beside it would be counted too.
#[test]
fn what_was_made_to_do_harm_is_refused_in_time_and_the_live_record_is_as_it_was() {
    let mut person = Person::new();
    person.to_the_backup();
    let (before, beside) = (live(&person), names(&person.journal()));
    for hostile in archives::all() {
        let (said, took, most) = measured(|| bring_in(&mut person, &hostile.bytes));
        told(hostile.what, hostile.bytes.len(), took, most, &said[1]);
        assert_eq!(said[0], "This file cannot be brought in.", "{}: {said:?}", hostile.what);
        assert!(took <= MOST_TIME, "{}: {took:?}", hostile.what);
        assert!(most <= MOST_MEMORY, "{}: {} KB", hostile.what, most / 1000);
        assert_eq!(live(&person)[0], before[0], "{}", hostile.what);
        person.killed();
        person.to_the_backup();
        assert_eq!(names(&person.journal()), beside, "{}: nothing is left beside the journal", hostile.what);
    }
    assert!(!Path::new("/tmp/liftgate-was-here").exists());
    for hostile in texts::plans() {
        let (said, took, most) = measured(|| texts::refusal_of_plan(&hostile.bytes));
        told(hostile.what, hostile.bytes.len(), took, most, &said);
        assert!(took <= MOST_TIME && most <= MOST_MEMORY, "{}: {took:?}, {} KB", hostile.what, most / 1000);
    }
    for hostile in texts::logs() {
        let (said, took, most) = measured(|| texts::refusal_of_log(&hostile.bytes));
        told(hostile.what, hostile.bytes.len(), took, most, &said);
        assert!(took <= MOST_TIME && most <= MOST_MEMORY, "{}: {took:?}, {} KB", hostile.what, most / 1000);
    }
}
