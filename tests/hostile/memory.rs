//! Memory as this program takes it, counted: how much at the most since it was last asked.
#![allow(unsafe_code)]

use std::alloc::{GlobalAlloc, Layout, System};
use std::sync::atomic::{AtomicUsize, Ordering};

/// The system's memory, counted.
pub struct Counted;

static NOW: AtomicUsize = AtomicUsize::new(0);
static MOST: AtomicUsize = AtomicUsize::new(0);

fn took(bytes: usize) {
    let now = NOW.fetch_add(bytes, Ordering::Relaxed) + bytes;
    MOST.fetch_max(now, Ordering::Relaxed);
}

// SAFETY: the system's own does all of it.
unsafe impl GlobalAlloc for Counted {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        took(layout.size());
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, memory: *mut u8, layout: Layout) {
        NOW.fetch_sub(layout.size(), Ordering::Relaxed);
        unsafe { System.dealloc(memory, layout) }
    }

    unsafe fn realloc(&self, memory: *mut u8, layout: Layout, size: usize) -> *mut u8 {
        // Both may be there for a moment.
        took(size);
        NOW.fetch_sub(layout.size(), Ordering::Relaxed);
        unsafe { System.realloc(memory, layout, size) }
    }
}

/// What is done, and how much more memory it took at the most than was taken before, bytes.
pub fn most_of<T>(act: impl FnOnce() -> T) -> (T, usize) {
    let before = NOW.load(Ordering::Relaxed);
    MOST.store(before, Ordering::Relaxed);
    let result = act();
    (result, MOST.load(Ordering::Relaxed) - before)
}
