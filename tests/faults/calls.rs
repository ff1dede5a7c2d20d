//! What the app asks of the disk itself, past SQLite: renames, copies, what comes in and lies beside the journal. The standard library asks
//! the C library for it by these names, and this program has its own under the same names, which ask the kernel. What is outside of the
//! watched folder goes through as if they were not there.
#![allow(unsafe_code)]

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::ffi::{CStr, c_char, c_int, c_long, c_uint, c_void};

use libc::{mode_t, off_t, off64_t, size_t, ssize_t};

use super::disk::{Change, FileNumber};
use super::watch::{self, Call, Refusal};

/// What an open file of the app's is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Open {
    File(FileNumber),
    Folder,
}

thread_local! {
    static OPEN: RefCell<BTreeMap<c_int, Open>> = const { RefCell::new(BTreeMap::new()) };
}

fn open_file(fd: c_int) -> Option<Open> {
    if watch::is_inside() {
        return None;
    }
    OPEN.try_with(|open| open.try_borrow().ok()?.get(&fd).copied()).ok().flatten()
}

/// The name of a file in the watched folder, for a call of the app's own.
unsafe fn watched(path: *const c_char) -> Option<String> {
    if watch::is_inside() {
        return None;
    }
    watch::name_of(unsafe { CStr::from_ptr(path) }.to_str().ok()?)
}

/// Whether the call fails: then the caller's error is set.
fn fails(call: Call, grows: bool) -> bool {
    let Some(refusal) = watch::call(call, grows) else { return false };
    let code = if refusal == Refusal::NoRoom { libc::ENOSPC } else { libc::EIO };
    // SAFETY: the thread's own error number.
    unsafe { *libc::__errno_location() = code };
    true
}

fn kernel(asked: c_long) -> c_int {
    asked as c_int
}

#[unsafe(no_mangle)]
unsafe extern "C" fn open64(path: *const c_char, flags: c_int, mode: mode_t) -> c_int {
    let name = unsafe { watched(path) };
    let makes = name.as_ref().is_some_and(|name| flags & libc::O_CREAT != 0 && !watch::is_there(name));
    if name.is_some() && fails(Call::Open, makes) {
        return -1;
    }
    let fd = kernel(unsafe { libc::syscall(libc::SYS_openat, libc::AT_FDCWD, path, flags, mode as c_uint) });
    let Some(name) = name.filter(|_| fd >= 0) else { return fd };
    let open = if name.is_empty() { Open::Folder } else { Open::File(watch::opened(&name)) };
    if let (Open::File(file), true) = (open, flags & libc::O_TRUNC != 0) {
        watch::changed(file, Change::Resized { to: 0 });
    }
    OPEN.with(|all| all.borrow_mut().insert(fd, open));
    fd
}

#[unsafe(no_mangle)]
unsafe extern "C" fn close(fd: c_int) -> c_int {
    if open_file(fd).is_some() {
        OPEN.with(|all| all.borrow_mut().remove(&fd));
    }
    kernel(unsafe { libc::syscall(libc::SYS_close, fd) })
}

#[unsafe(no_mangle)]
unsafe extern "C" fn read(fd: c_int, into: *mut c_void, length: size_t) -> ssize_t {
    if open_file(fd).is_some() && fails(Call::Read, false) {
        return -1;
    }
    unsafe { libc::syscall(libc::SYS_read, fd, into, length) as ssize_t }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn pread64(fd: c_int, into: *mut c_void, length: size_t, at: off64_t) -> ssize_t {
    if open_file(fd).is_some() && fails(Call::Read, false) {
        return -1;
    }
    unsafe { libc::syscall(libc::SYS_pread64, fd, into, length, at) as ssize_t }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn write(fd: c_int, from: *const c_void, length: size_t) -> ssize_t {
    let Some(Open::File(file)) = open_file(fd) else {
        return unsafe { libc::syscall(libc::SYS_write, fd, from, length) as ssize_t };
    };
    let at = unsafe { libc::syscall(libc::SYS_lseek, fd, 0 as off_t, libc::SEEK_CUR) } as usize;
    if fails(Call::Write, at + length > watch::length(file)) {
        return -1;
    }
    let written = unsafe { libc::syscall(libc::SYS_write, fd, from, length) as ssize_t };
    if written > 0 {
        let bytes = unsafe { std::slice::from_raw_parts(from.cast::<u8>(), written as usize) }.to_vec();
        watch::changed(file, Change::Written { at, bytes });
    }
    written
}

#[unsafe(no_mangle)]
unsafe extern "C" fn fsync(fd: c_int) -> c_int {
    let open = open_file(fd);
    if let Some(open) = open {
        let file = if let Open::File(file) = open { Some(file) } else { None };
        let failed = fails(Call::Sync, false);
        watch::synced(file, !failed);
        if failed {
            return -1;
        }
    }
    note_folder(fd);
    kernel(unsafe { libc::syscall(libc::SYS_fsync, fd) })
}

#[unsafe(no_mangle)]
unsafe extern "C" fn fdatasync(fd: c_int) -> c_int {
    note_folder(fd);
    kernel(unsafe { libc::syscall(libc::SYS_fdatasync, fd) })
}

/// SQLite syncs the folder too, behind a log that is new.
fn note_folder(fd: c_int) {
    if !watch::is_inside() {
        return;
    }
    let led_to = std::fs::read_link(format!("/proc/self/fd/{fd}")).ok();
    if led_to.is_some() && led_to == watch::root() {
        watch::synced(None, true);
    }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn rename(from: *const c_char, to: *const c_char) -> c_int {
    let names = unsafe { watched(from).zip(watched(to)) };
    if names.is_some() && fails(Call::Rename, true) {
        return -1;
    }
    let here = libc::AT_FDCWD;
    let result = kernel(unsafe { libc::syscall(libc::SYS_renameat2, here, from, here, to, 0 as c_uint) });
    if let Some((from, to)) = names.filter(|_| result == 0) {
        watch::renamed(&from, &to);
    }
    result
}

#[unsafe(no_mangle)]
unsafe extern "C" fn unlink(path: *const c_char) -> c_int {
    let name = unsafe { watched(path) };
    if name.is_some() && fails(Call::Remove, false) {
        return -1;
    }
    let result = kernel(unsafe { libc::syscall(libc::SYS_unlinkat, libc::AT_FDCWD, path, 0 as c_int) });
    if let Some(name) = name.filter(|name| result == 0 && watch::is_there(name)) {
        watch::removed(&name);
    }
    result
}

/// Copies go byte by byte, so that each write is seen.
#[unsafe(no_mangle)]
unsafe extern "C" fn copy_file_range(
    from: c_int,
    from_at: *mut off64_t,
    to: c_int,
    to_at: *mut off64_t,
    length: size_t,
    flags: c_uint,
) -> ssize_t {
    if open_file(to).is_some() {
        unsafe { *libc::__errno_location() = libc::EXDEV };
        return -1;
    }
    unsafe { libc::syscall(libc::SYS_copy_file_range, from, from_at, to, to_at, length, flags) as ssize_t }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn sendfile64(to: c_int, from: c_int, at: *mut off64_t, length: size_t) -> ssize_t {
    if open_file(to).is_some() {
        unsafe { *libc::__errno_location() = libc::EINVAL };
        return -1;
    }
    unsafe { libc::syscall(libc::SYS_sendfile, to, from, at, length) as ssize_t }
}

/// What is asked about a file before it is opened: whether it is there, and how long it is.
#[unsafe(no_mangle)]
unsafe extern "C" fn statx(
    folder: c_int,
    path: *const c_char,
    flags: c_int,
    mask: c_uint,
    into: *mut libc::statx,
) -> c_int {
    let is_path = folder == libc::AT_FDCWD && !path.is_null();
    if is_path && unsafe { watched(path) }.is_some_and(|name| !name.is_empty()) && fails(Call::Look, false) {
        return -1;
    }
    kernel(unsafe { libc::syscall(libc::SYS_statx, folder, path, flags, mask, into) })
}

/// What lies in a folder.
#[unsafe(no_mangle)]
unsafe extern "C" fn opendir(path: *const c_char) -> *mut libc::DIR {
    if unsafe { watched(path) }.is_some_and(|name| name.is_empty()) && fails(Call::Look, false) {
        return std::ptr::null_mut();
    }
    // SAFETY: the C library's own, of this form.
    unsafe {
        let theirs = libc::dlsym(libc::RTLD_NEXT, c"opendir".as_ptr());
        let theirs: unsafe extern "C" fn(*const c_char) -> *mut libc::DIR = std::mem::transmute(theirs);
        theirs(path)
    }
}

/// Forgets what is open: another folder is watched now.
pub fn forget() {
    OPEN.with(|all| all.borrow_mut().clear());
}
