//! Prints the entries of a journal file, one a line: who made it, and its kind. The shell's tests look with it at what was left.

use std::io::Write;
use std::path::PathBuf;

use liftgate_core::journal::Journal;
use liftgate_core::record::Author;

fn main() {
    let file = PathBuf::from(std::env::args().nth(1).expect("a journal file"));
    let entries = Journal::open(&file).and_then(|journal| journal.entries()).expect("the entries");
    let mut out = std::io::stdout().lock();
    for entry in entries {
        let who = match entry.author {
            Author::Pilot => "pilot",
            Author::Spotter { .. } => "spotter",
        };
        let told = format!("{:?}", entry.body);
        let kind = told.split(' ').next().unwrap_or_default();
        writeln!(out, "{who} {kind}").expect("a line");
    }
}
