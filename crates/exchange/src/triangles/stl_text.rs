//! STL as text: facets of three vertices between `solid` and `endsolid`, of which a file may hold several.

use elbowroom_geometry::units::harmless;

use super::soup::Soup;
use crate::error::TextError;

/// What has been read of a facet.
#[derive(Clone, Copy, PartialEq)]
enum At {
    Outside,
    Solid,
    Facet,
    Loop(u32),
    LoopEnd,
}

/// Reads STL from text.
///
/// # Errors
/// Says on which line something else stands than has to, or where the file ends too early.
pub(super) fn read(text: &str) -> Result<Soup, TextError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let (mut soup, mut at, mut last) = (Soup::default(), At::Outside, 0);
    for (index, line) in text.lines().enumerate() {
        last = index + 1;
        let mut words = line.split_ascii_whitespace();
        let Some(word) = words.next() else { continue };
        let is = |name: &str| word.eq_ignore_ascii_case(name);
        at = match at {
            At::Outside if is("solid") => At::Solid,
            At::Solid if is("endsolid") => At::Outside,
            At::Solid if is("facet") => At::Facet,
            At::Facet if is("outer") => At::Loop(0),
            At::Loop(3) if is("endloop") => At::LoopEnd,
            At::Loop(corners) if corners < 3 && is("vertex") => {
                soup.point_on(last, point(words, last)?);
                At::Loop(corners + 1)
            }
            At::LoopEnd if is("endfacet") => {
                let first = soup.next_point() - 3;
                soup.triangle(Some(last), [first, first + 1, first + 2])?;
                At::Solid
            }
            _ => return Err(TextError::at(last, format!("\u{201c}{}\u{201d} stands here", shown(word)), wanted(at))),
        };
    }
    if at != At::Outside || soup.triangles.is_empty() {
        let right = format!("{}; take a whole copy of the file", wanted(at));
        return Err(TextError::at(last.max(1), "the file ends too early", right));
    }
    Ok(soup)
}

/// What has to stand there.
fn wanted(at: At) -> &'static str {
    match at {
        At::Outside => "a text STL begins with \u{201c}solid\u{201d}",
        At::Solid => "it must be \u{201c}facet normal\u{201d} with three numbers, or \u{201c}endsolid\u{201d}",
        At::Facet => "it must be \u{201c}outer loop\u{201d}",
        At::Loop(3) => "it must be \u{201c}endloop\u{201d}",
        At::Loop(_) => "it must be \u{201c}vertex\u{201d} with three numbers",
        At::LoopEnd => "it must be \u{201c}endfacet\u{201d}",
    }
}

/// Three coordinates, and nothing behind them.
pub(super) fn point<'a>(mut words: impl Iterator<Item = &'a str>, line: usize) -> Result<[f64; 3], TextError> {
    let mut point = [0.0; 3];
    for (axis, at) in ["x", "y", "z"].into_iter().zip(&mut point) {
        let right = "a vertex needs three numbers such as 120.5";
        let word =
            words.next().ok_or_else(|| TextError::at(line, format!("{axis} of the vertex is missing"), right))?;
        *at = word.parse().map_err(|_| {
            TextError::at(
                line,
                format!("{axis} of the vertex is \u{201c}{}\u{201d}, which is no number", shown(word)),
                right,
            )
        })?;
    }
    Ok(point)
}

/// A word as it can be shown: text, and not too much of it.
pub(super) fn shown(word: &str) -> String {
    const MOST: usize = 40;
    let cut: String = word.chars().take(MOST).collect();
    harmless(&if cut.len() < word.len() { cut + "\u{2026}" } else { cut }).into_owned()
}
