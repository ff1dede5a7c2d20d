//! Centre of gravity.
