//! Photos as evidence: what a camera's file says of itself, and a small copy of it for a screen and a page. The file itself is kept as
//! it came; nothing is written into it.

mod look;
mod small;

pub use look::{Looked, MOST_BYTES, PhotoError, Turn, look};
pub use small::small;
