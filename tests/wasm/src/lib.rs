//! The reviewer for a page: JSON in, JSON out, over plain memory.
//!
//! The page asks for memory with [`allocate`], writes a request there (UTF-8 JSON; see `review_json`), calls [`review`] and
//! gets the place of the reply: its length in four bytes, little-endian, and then the JSON. It gives both back with
//! [`release`].

#![expect(dead_code, reason = "the page uses one door of the two rooms")]

#[path = "../../../src/quantity/mod.rs"]
mod quantity;
#[path = "../../../src/review/mod.rs"]
mod review;

use std::alloc::{Layout, alloc, dealloc};
use std::slice;

/// Bytes before a reply that hold its length.
const HEAD: usize = 4;

/// Memory for so many bytes.
#[unsafe(no_mangle)]
pub extern "C" fn allocate(length: usize) -> *mut u8 {
    match Layout::array::<u8>(length.max(1)) {
        // SAFETY: the layout is of at least one byte.
        Ok(layout) => unsafe { alloc(layout) },
        Err(_) => std::ptr::null_mut(),
    }
}

/// Gives memory of [`allocate`] or a reply (its length and four) back.
///
/// # Safety
/// `place` came from this module with this length, and is not used afterwards.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn release(place: *mut u8, length: usize) {
    if let Ok(layout) = Layout::array::<u8>(length.max(1)) {
        // SAFETY: as the caller promises.
        unsafe { dealloc(place, layout) }
    }
}

/// Reviews the request of this place and length.
///
/// # Safety
/// `length` bytes at `place` are the caller's and hold the request.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn review(place: *const u8, length: usize) -> *mut u8 {
    // SAFETY: as the caller promises.
    let bytes = unsafe { slice::from_raw_parts(place, length) };
    let reply = match std::str::from_utf8(bytes) {
        Ok(request) => review::review_json(request),
        Err(_) => format!("{{\"version\":{},\"error\":\"the request is not UTF-8\"}}", review::VERSION),
    };
    let at = allocate(HEAD + reply.len());
    if !at.is_null() {
        let length = u32::try_from(reply.len()).unwrap_or(0).to_le_bytes();
        // SAFETY: `at` has room for the length and the reply.
        unsafe {
            at.copy_from_nonoverlapping(length.as_ptr(), HEAD);
            at.add(HEAD).copy_from_nonoverlapping(reply.as_ptr(), reply.len());
        }
    }
    at
}
