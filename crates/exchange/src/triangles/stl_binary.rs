//! Binary STL: 80 bytes of anything, the number of triangles, and 50 bytes for each.

use super::soup::Soup;
use crate::error::TextError;

const HEAD: usize = 84;
const TRIANGLE: usize = 50;

/// Whether bytes are binary STL and no text: their length is what the head says, or they do not begin as a text does.
pub(super) fn is_binary(bytes: &[u8]) -> bool {
    let says = claimed(bytes).and_then(|count| count.checked_mul(TRIANGLE)?.checked_add(HEAD));
    says == Some(bytes.len()) || !begins_as_text(bytes)
}

fn begins_as_text(bytes: &[u8]) -> bool {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes).trim_ascii_start();
    let word = bytes.get(..5).is_some_and(|word| word.eq_ignore_ascii_case(b"solid"));
    word || (bytes.len() < HEAD && std::str::from_utf8(bytes).is_ok())
}

/// The number of triangles that the head claims.
fn claimed(bytes: &[u8]) -> Option<usize> {
    let count: [u8; 4] = bytes.get(HEAD - 4..HEAD)?.try_into().ok()?;
    Some(u32::from_le_bytes(count) as usize)
}

/// Reads binary STL.
///
/// # Errors
/// Says how much is missing or too much, and which vertex is no number.
pub(super) fn read(bytes: &[u8]) -> Result<Soup, TextError> {
    let count = claimed(bytes).ok_or_else(|| {
        let what = format!("it ends after {} bytes, before the number of its triangles", bytes.len());
        TextError::whole(what, "take a whole copy of the file")
    })?;
    let body = &bytes[HEAD..];
    let there = body.len() / TRIANGLE;
    if there < count || body.len() != count * TRIANGLE {
        let what = format!("it says that it holds {count} triangles, and there is room for {there}");
        let right = format!("{count} triangles take {} bytes; take a whole copy of the file", HEAD + count * TRIANGLE);
        return Err(TextError::whole(what, right));
    }
    let mut soup = Soup::default();
    soup.points.reserve_exact(3 * count);
    soup.triangles.reserve_exact(count);
    for triangle in body.chunks_exact(TRIANGLE) {
        let first = soup.next_point();
        // The normal comes first; it follows from the corners.
        for corner in triangle[12..48].chunks_exact(12) {
            let at = |axis: usize| f64::from(f32::from_le_bytes([0, 1, 2, 3].map(|byte| corner[4 * axis + byte])));
            soup.points.push([at(0), at(1), at(2)]);
        }
        soup.triangle(None, [first, first + 1, first + 2])?;
    }
    Ok(soup)
}
