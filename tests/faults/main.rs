//! What the phone does to a journal: the power is cut, the process is killed, the disk fails or is full. A program of its own, since it
//! stands between the app and its disk.
//!
//! `LIFTGATE_FAULTS=N` asks for N power cuts, a tenth as many kills, and every call to the disk, or every twentieth for less than a
//! thousand; a short form runs without.
//! `LIFTGATE_ACT=WORDS` keeps to the acts whose names begin so.
#![cfg(target_os = "linux")]
#![allow(missing_docs, clippy::unwrap_used)]

mod calls;
mod disk;
mod errors;
mod hand;
mod killed;
mod power;
mod scene;
mod vfs;
mod watch;

/// What is tried.
fn wanted_acts() -> impl Iterator<Item = &'static scene::Act> {
    let begins = std::env::var("LIFTGATE_ACT").unwrap_or_default();
    let is_short = asked_for().is_none() && begins.is_empty();
    scene::ACTS.iter().filter(move |act| act.name.starts_with(&begins) && !(is_short && act.is_long))
}

/// How many power cuts are asked for; none in the short form.
fn asked_for() -> Option<u64> {
    std::env::var("LIFTGATE_FAULTS").ok()?.parse().ok()
}
