//! What the trade computes, as pure functions.
