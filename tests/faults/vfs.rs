//! SQLite's way to the disk, as these tests stand in it: a VFS of their own over SQLite's, which writes down what is done and lets it
//! fail where that is asked for. It is the default of the whole program, so that the journal is opened as the app opens it.
//!
//! SQLite's documentation: "The SQLite OS Interface or VFS". Files are SQLite's own behind it, in a folder in memory.
#![allow(unsafe_code)]

use std::ffi::{CStr, c_char, c_int, c_void};
use std::sync::Once;

use rusqlite::ffi::{self, sqlite3_file, sqlite3_int64, sqlite3_io_methods, sqlite3_vfs};

use super::disk::{Change, FileNumber};
use super::watch::{self, Call, Refusal, inside};

/// A file as SQLite holds it; SQLite's own lies behind it in the same memory.
#[repr(C)]
struct Held {
    methods: *const sqlite3_io_methods,
    /// None of a file that is not watched.
    number: Option<FileNumber>,
}

/// Takes the place of SQLite's way to the disk, once.
pub fn stand_in() {
    static ONCE: Once = Once::new();
    // SAFETY: SQLite keeps the pointer for as long as the program runs, and what it points to is never given back.
    ONCE.call_once(|| unsafe {
        let real = real();
        let own = Box::leak(Box::new(*real));
        own.zName = c"watched".as_ptr();
        own.pAppData = real.cast();
        own.szOsFile = (size_of::<Held>() as c_int) + (*real).szOsFile;
        own.pNext = std::ptr::null_mut();
        own.xOpen = Some(open);
        own.xDelete = Some(delete);
        own.xAccess = Some(access);
        own.xFullPathname = Some(full_path);
        assert_eq!(ffi::sqlite3_vfs_register(own, 1), ffi::SQLITE_OK);
    });
}

/// SQLite's own.
fn real() -> *mut sqlite3_vfs {
    // SAFETY: SQLite sets itself up when it is asked for it; the name is a text of C's.
    let found = unsafe { ffi::sqlite3_vfs_find(c"unix".as_ptr()) };
    assert!(!found.is_null(), "SQLite brings its own way to the disk");
    found
}

static METHODS: sqlite3_io_methods = sqlite3_io_methods {
    // The second version: no file is mapped into memory as a whole.
    iVersion: 2,
    xClose: Some(close),
    xRead: Some(read),
    xWrite: Some(write),
    xTruncate: Some(truncate),
    xSync: Some(sync),
    xFileSize: Some(file_size),
    xLock: Some(lock),
    xUnlock: Some(unlock),
    xCheckReservedLock: Some(check_reserved_lock),
    xFileControl: Some(file_control),
    xSectorSize: Some(sector_size),
    xDeviceCharacteristics: Some(device_characteristics),
    xShmMap: Some(shm_map),
    xShmLock: Some(shm_lock),
    xShmBarrier: Some(shm_barrier),
    xShmUnmap: Some(shm_unmap),
    xFetch: None,
    xUnfetch: None,
};

/// The name of a watched file.
fn name_of(path: *const c_char) -> Option<String> {
    if path.is_null() {
        return None;
    }
    // SAFETY: SQLite's paths end with a zero.
    let path = unsafe { CStr::from_ptr(path) };
    watch::name_of(path.to_str().ok()?)
}

/// SQLite's own file behind one of these.
unsafe fn behind(file: *mut sqlite3_file) -> *mut sqlite3_file {
    unsafe { file.cast::<Held>().add(1).cast() }
}

unsafe fn number(file: *mut sqlite3_file) -> Option<FileNumber> {
    unsafe { (*file.cast::<Held>()).number }
}

/// Asks SQLite's own file, where the disk does not refuse.
macro_rules! ask {
    ($file:expr, $method:ident $(, $argument:expr)*) => {
        // SAFETY: SQLite calls this with an open file, whose own methods it has set.
        inside(|| unsafe {
            let behind = behind($file);
            (*(*behind).pMethods).$method.expect("SQLite's own files have it")(behind $(, $argument)*)
        })
    };
}

/// What SQLite is told of a call that fails.
fn refused(file: Option<FileNumber>, call: Call, grows: bool, as_told: c_int) -> Option<c_int> {
    file?;
    match watch::call(call, grows)? {
        Refusal::InputOutput => Some(as_told),
        Refusal::NoRoom => Some(ffi::SQLITE_FULL),
    }
}

unsafe extern "C" fn open(
    _: *mut sqlite3_vfs,
    path: ffi::sqlite3_filename,
    file: *mut sqlite3_file,
    flags: c_int,
    out_flags: *mut c_int,
) -> c_int {
    let name = name_of(path);
    let held = file.cast::<Held>();
    unsafe { held.write(Held { methods: std::ptr::null(), number: None }) };
    if let Some(name) = &name {
        let makes = flags & ffi::SQLITE_OPEN_CREATE != 0 && !watch::is_there(name);
        if watch::call(Call::Open, makes).is_some() {
            return ffi::SQLITE_CANTOPEN;
        }
    }
    let real = real();
    let result =
        inside(|| unsafe { (*real).xOpen.expect("SQLite's own opens")(real, path, behind(file), flags, out_flags) });
    if result == ffi::SQLITE_OK {
        let number = name.map(|name| watch::opened(&name));
        unsafe { held.write(Held { methods: &METHODS, number }) };
    }
    result
}

unsafe extern "C" fn delete(_: *mut sqlite3_vfs, path: *const c_char, sync_folder: c_int) -> c_int {
    let name = name_of(path);
    if name.is_some() && watch::call(Call::Remove, false).is_some() {
        return ffi::SQLITE_IOERR_DELETE;
    }
    let real = real();
    // Written down before SQLite's own syncs the folder behind it.
    if let Some(name) = name.filter(|name| watch::is_there(name)) {
        watch::removed(&name);
    }
    inside(|| unsafe { (*real).xDelete.expect("SQLite's own deletes")(real, path, sync_folder) })
}

unsafe extern "C" fn access(_: *mut sqlite3_vfs, path: *const c_char, flags: c_int, found: *mut c_int) -> c_int {
    if name_of(path).is_some() && watch::call(Call::Look, false).is_some() {
        return ffi::SQLITE_IOERR_ACCESS;
    }
    let real = real();
    inside(|| unsafe { (*real).xAccess.expect("SQLite's own looks")(real, path, flags, found) })
}

unsafe extern "C" fn full_path(_: *mut sqlite3_vfs, path: *const c_char, length: c_int, into: *mut c_char) -> c_int {
    let real = real();
    inside(|| unsafe { (*real).xFullPathname.expect("SQLite's own names")(real, path, length, into) })
}

unsafe extern "C" fn close(file: *mut sqlite3_file) -> c_int {
    ask!(file, xClose)
}

unsafe extern "C" fn read(file: *mut sqlite3_file, into: *mut c_void, length: c_int, at: sqlite3_int64) -> c_int {
    let number = unsafe { number(file) };
    refused(number, Call::Read, false, ffi::SQLITE_IOERR_READ).unwrap_or_else(|| ask!(file, xRead, into, length, at))
}

unsafe extern "C" fn write(file: *mut sqlite3_file, from: *const c_void, length: c_int, at: sqlite3_int64) -> c_int {
    let number = unsafe { number(file) };
    let (begin, end) = (at as usize, at as usize + length as usize);
    let grows = number.is_some_and(|number| end > watch::length(number));
    if let Some(refused) = refused(number, Call::Write, grows, ffi::SQLITE_IOERR_WRITE) {
        return refused;
    }
    let result = ask!(file, xWrite, from, length, at);
    if let Some(number) = number.filter(|_| result == ffi::SQLITE_OK) {
        let bytes = unsafe { std::slice::from_raw_parts(from.cast::<u8>(), length as usize) }.to_vec();
        watch::changed(number, Change::Written { at: begin, bytes });
    }
    result
}

unsafe extern "C" fn truncate(file: *mut sqlite3_file, to: sqlite3_int64) -> c_int {
    let number = unsafe { number(file) };
    if let Some(refused) = refused(number, Call::Resize, false, ffi::SQLITE_IOERR_TRUNCATE) {
        return refused;
    }
    let result = ask!(file, xTruncate, to);
    if let Some(number) = number.filter(|_| result == ffi::SQLITE_OK) {
        watch::changed(number, Change::Resized { to: to as usize });
    }
    result
}

unsafe extern "C" fn sync(file: *mut sqlite3_file, flags: c_int) -> c_int {
    let number = unsafe { number(file) };
    if let Some(refused) = refused(number, Call::Sync, false, ffi::SQLITE_IOERR_FSYNC) {
        watch::synced(number, false);
        return refused;
    }
    // SQLite's own syncs the folder behind a log that is new, which `calls` sees.
    if number.is_some() {
        watch::synced(number, true);
    }
    ask!(file, xSync, flags)
}

unsafe extern "C" fn file_size(file: *mut sqlite3_file, size: *mut sqlite3_int64) -> c_int {
    let number = unsafe { number(file) };
    refused(number, Call::Look, false, ffi::SQLITE_IOERR_FSTAT).unwrap_or_else(|| ask!(file, xFileSize, size))
}

unsafe extern "C" fn lock(file: *mut sqlite3_file, level: c_int) -> c_int {
    ask!(file, xLock, level)
}

unsafe extern "C" fn unlock(file: *mut sqlite3_file, level: c_int) -> c_int {
    ask!(file, xUnlock, level)
}

unsafe extern "C" fn check_reserved_lock(file: *mut sqlite3_file, found: *mut c_int) -> c_int {
    ask!(file, xCheckReservedLock, found)
}

unsafe extern "C" fn file_control(file: *mut sqlite3_file, what: c_int, with: *mut c_void) -> c_int {
    ask!(file, xFileControl, what, with)
}

unsafe extern "C" fn sector_size(file: *mut sqlite3_file) -> c_int {
    ask!(file, xSectorSize)
}

unsafe extern "C" fn device_characteristics(file: *mut sqlite3_file) -> c_int {
    ask!(file, xDeviceCharacteristics)
}

unsafe extern "C" fn shm_map(
    file: *mut sqlite3_file,
    region: c_int,
    size: c_int,
    extend: c_int,
    into: *mut *mut c_void,
) -> c_int {
    let number = unsafe { number(file) };
    let refused = match number.and_then(|_| watch::call(Call::Share, extend != 0)) {
        Some(Refusal::InputOutput) => Some(ffi::SQLITE_IOERR_SHMMAP),
        Some(Refusal::NoRoom) => Some(ffi::SQLITE_IOERR_SHMSIZE),
        None => None,
    };
    refused.unwrap_or_else(|| ask!(file, xShmMap, region, size, extend, into))
}

unsafe extern "C" fn shm_lock(file: *mut sqlite3_file, offset: c_int, count: c_int, flags: c_int) -> c_int {
    ask!(file, xShmLock, offset, count, flags)
}

unsafe extern "C" fn shm_barrier(file: *mut sqlite3_file) {
    ask!(file, xShmBarrier);
}

unsafe extern "C" fn shm_unmap(file: *mut sqlite3_file, delete: c_int) -> c_int {
    ask!(file, xShmUnmap, delete)
}
