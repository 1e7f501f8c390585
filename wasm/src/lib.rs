//! The reviewer as WebAssembly: the program's own sources, and three functions by which a page calls them.
//!
//! A page asks for room with [`alloc`], writes a request as UTF-8 JSON there, calls [`review`], reads the reply from the
//! place and length that come back packed in one number, and gives its room back with [`dealloc`].

#[path = "../../src/quantity/mod.rs"]
pub mod quantity;
#[path = "../../src/review/mod.rs"]
pub mod review;

/// Room for so many bytes.
#[unsafe(no_mangle)]
pub extern "C" fn alloc(length: usize) -> *mut u8 {
    Box::into_raw(vec![0_u8; length].into_boxed_slice()).cast()
}

/// Gives room back.
///
/// # Safety
/// `at` and `length` come from [`alloc`], or from a reply of [`review`], and are given back once.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn dealloc(at: *mut u8, length: usize) {
    // SAFETY: as promised by the caller, this is a boxed slice of that length.
    drop(unsafe { Box::from_raw(std::ptr::slice_from_raw_parts_mut(at, length)) });
}

/// Reviews the request that stands in this room, and takes the room back. The reply's place stands in the upper 32 bits,
/// its length in the lower.
///
/// # Safety
/// `at` and `length` come from [`alloc`].
#[unsafe(export_name = "review")]
pub unsafe extern "C" fn review_at(at: *mut u8, length: usize) -> u64 {
    // SAFETY: as promised by the caller, this is a boxed slice of that length, all of it written.
    let request = unsafe { Box::from_raw(std::ptr::slice_from_raw_parts_mut(at, length)) };
    let reply = review::review_json(&String::from_utf8_lossy(&request)).into_bytes().into_boxed_slice();
    let length = reply.len() as u64;
    let place = Box::into_raw(reply).cast::<u8>() as usize as u64;
    place << 32 | length
}
