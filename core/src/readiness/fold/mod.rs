//! How the fold takes entries in: [`replay`] goes through them, [`take_in`] hands each to what its kind changes.

mod aircraft;
mod always;
mod elsewhere;
mod evidence;
mod finding;
mod flight;
mod lapse;
mod lock;
mod pack;
mod plan;
mod regret;
mod replay;
mod settings;
mod take_in;
mod touches;
