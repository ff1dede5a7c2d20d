//! The phone as an instrument: what its microphone and its accelerometer say of a running drive.
//!
//! Pure functions and bounded streams over numbers; nothing here opens a sensor, a file or a clock. A frequency is told with its interval,
//! or not at all: each question has a typed list of reasons why it cannot be answered ([`CannotTell`], [`NoRing`], [`NoShake`]).
//! What a caller got wrong is an [`InstrumentError`].
//!
//! Papers that are named in this module are cited from memory; what is computed is held against simulated truth, scipy and numpy.
//!
//! The Fourier transform is rustfft's, without its processor-dependent forms, so that every phone computes the same numbers, to the last digits of its sine.

mod comb;
mod decimate;
mod ear;
pub mod error;
mod growth;
mod level;
mod lines;
mod listener;
pub mod orders;
mod peak;
mod rank;
mod refine;
mod require;
mod ring;
mod shake;
mod spectrum;
mod track;
mod transform;
mod vectors;
mod velocity;
mod window;

pub use ear::{CannotTell, Estimate, FamilyHeard, HeadSpeed, Hearing};
pub use error::InstrumentError;
pub use growth::{Growth, growth};
pub use level::Level;
pub use listener::{Listener, hear};
pub use orders::{Drive, Family, Mesh, Motor, Order, Shaft, Tail};
pub use peak::{Peak, interpolated_peak};
pub use ring::{Mode, NoRing, RingDown, Tapping, ring_down};
pub use shake::{NoShake, OrderSeen, Readings, Seen, Shake, Shaking, shake};
pub use spectrum::{Scaling, Welch, welch};
pub use vectors::{Correction, TrialRun, Vector, correction};
pub use velocity::{VelocitySpectrum, velocity_spectrum};
pub use window::Window;
