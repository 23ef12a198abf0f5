//! Wavefront OBJ: lines of vertices, and of faces by the numbers of their vertices. Everything else is passed over.

use super::soup::Soup;
use super::stl_text::{point, shown};
use crate::error::TextError;

/// Reads OBJ from text. A face of more than three corners becomes a fan of triangles about its first one.
///
/// # Errors
/// Says on which line a vertex is none, or a face names a vertex that is not there.
pub(super) fn read(text: &str) -> Result<Soup, TextError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut soup = Soup::default();
    let mut lines = text.lines().enumerate();
    let mut last = 1;
    while let Some((index, line)) = lines.next() {
        let number = index + 1;
        last = number;
        let mut joined = String::new();
        let mut line = line;
        // A backslash at the end goes on with the next line.
        while let Some(begun) = line.trim_ascii_end().strip_suffix('\\') {
            joined.push_str(begun);
            joined.push(' ');
            line = lines.next().map_or("", |(_, next)| next);
        }
        if !joined.is_empty() {
            joined.push_str(line);
            line = &joined;
        }
        let line = line.split('#').next().unwrap_or_default();
        let mut words = line.split_ascii_whitespace();
        match words.next() {
            Some("v") => soup.point_on(number, point(words, number)?),
            Some("f") => face(&mut soup, words, number)?,
            _ => {}
        }
    }
    if soup.triangles.is_empty() {
        let what = format!("there are {} vertices and no faces", soup.points.len());
        return Err(TextError::at(
            last,
            what,
            "an obstacle needs lines that begin with f; take a whole copy of the file",
        ));
    }
    Ok(soup)
}

fn face<'a>(soup: &mut Soup, words: impl Iterator<Item = &'a str>, line: usize) -> Result<(), TextError> {
    let mut corners = [0; 2];
    let mut count = 0;
    for word in words {
        let corner = corner(soup, word, line)?;
        match count {
            0 | 1 => corners[count] = corner,
            _ => {
                soup.triangle(Some(line), [corners[0], corners[1], corner])?;
                corners[1] = corner;
            }
        }
        count += 1;
    }
    if count < 3 {
        let what = format!("a face has {count} corners");
        return Err(TextError::at(line, what, "it must have three at least"));
    }
    Ok(())
}

/// The vertex that a corner names: by its number from 1, or backwards from the last one by a number below 0. Texture
/// and normal behind a slash are passed over.
fn corner(soup: &Soup, word: &str, line: usize) -> Result<u32, TextError> {
    let there = soup.points.len();
    let refuse = |what: String| {
        let right = format!("it must be the number of one of the {there} vertices before it");
        Err(TextError::at(line, what, right))
    };
    let named = word.split('/').next().unwrap_or_default();
    let Ok(number) = named.parse::<i64>() else {
        return refuse(format!("a corner is \u{201c}{}\u{201d}", shown(word)));
    };
    let from_last = i64::try_from(there).unwrap_or(i64::MAX).checked_add(number);
    let place = if number > 0 { number.checked_sub(1) } else { from_last.filter(|_| number < 0) };
    match place.and_then(|place| u32::try_from(place).ok()) {
        Some(place) if (place as usize) < there => Ok(place),
        _ => refuse(format!("a corner names vertex {number}")),
    }
}
