//! Text broken into lines that fit a width, and fitted into areas.

use super::draw::{Along, Draw, Items};
use super::face::Face;
use super::paper::{Area, At};

/// From baseline to baseline, in sizes.
pub const LINE: f64 = 1.28;

/// How far the first baseline lies under the top, in sizes.
pub const FIRST: f64 = 0.92;

/// Breaks a text at its spaces, and within a word that is wider than the width.
pub fn wrapped(face: Face, size: f64, text: &str, width: f64) -> Vec<String> {
    let text = face.printable(text);
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace().flat_map(|word| pieces(face, size, word, width)) {
        let longer = if line.is_empty() { word.clone() } else { format!("{line} {word}") };
        if face.width(&longer, size) <= width {
            line = longer;
        } else {
            lines.push(std::mem::replace(&mut line, word));
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines.retain(|line| !line.is_empty());
    lines
}

/// A word, or what fits of it and the rest.
fn pieces(face: Face, size: f64, word: &str, width: f64) -> Vec<String> {
    if face.width(word, size) <= width {
        return vec![word.to_owned()];
    }
    let mut pieces = vec![String::new()];
    for letter in word.chars() {
        let last = pieces.len() - 1;
        let longer = format!("{}{letter}", pieces[last]);
        if face.width(&longer, size) <= width || pieces[last].is_empty() {
            pieces[last] = longer;
        } else {
            pieces.push(letter.to_string());
        }
    }
    pieces
}

/// A text fitted into a box.
pub struct Fitted {
    /// The size of the letters.
    pub size: f64,
    /// The lines.
    pub lines: Vec<String>,
    /// Whether all of it is there.
    pub whole: bool,
}

/// Fits a text into a box, in letters from the largest to the smallest size. What does not fit in the smallest ends in
/// an ellipsis, and the caller has to print it elsewhere.
pub fn fitted(face: Face, text: &str, [width, height]: [f64; 2], [largest, smallest]: [f64; 2]) -> Fitted {
    let mut size = largest;
    loop {
        let mut lines = wrapped(face, size, text, width);
        let room = (((height / size - FIRST) / LINE).floor() as usize).saturating_add(1).max(1);
        if lines.len() <= room {
            return Fitted { size, lines, whole: true };
        }
        if size <= smallest {
            lines.truncate(room);
            if let Some(last) = lines.last_mut() {
                while face.width(&format!("{last}…"), size) > width && last.pop().is_some() {}
                last.push('…');
            }
            return Fitted { size, lines, whole: false };
        }
        size = (size - 0.1).max(smallest);
    }
}

/// Draws lines under one another from the top of an area on. How high they are.
pub fn lines(items: &mut Items, area: Area, (face, size): (Face, f64), lines: &[String]) -> f64 {
    for (index, line) in lines.iter().enumerate() {
        let down = (FIRST + LINE * index as f64) * size;
        items.text(At::new(area.x, area.y + down), Along::Begins, (face, size), line);
    }
    high(size, lines.len())
}

/// How high so many lines are.
pub fn high(size: f64, lines: usize) -> f64 {
    LINE * size * lines as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_wider_than_it_may_be_and_no_word_is_lost() {
        let text =
            "Lengthen the straight before bend 4 to 120.0 mm, or take Donaudampfschifffahrtsgesellschaftskapitän";
        for width in [5.0, 12.0, 40.0, 200.0] {
            let lines = wrapped(Face::Regular, 3.0, text, width);
            assert!(lines.iter().all(|line| Face::Regular.width(line, 3.0) <= width), "{width}: {lines:?}");
            let all: String = lines.concat().split_whitespace().collect();
            assert_eq!(all, text.split_whitespace().collect::<String>(), "{width}");
        }
    }

    #[test]
    fn a_box_takes_what_fits() {
        let fits = fitted(Face::Bold, "Hill-climb system", [60.0, 6.0], [5.0, 2.2]);
        assert!(fits.whole && fits.lines.len() == 1);
        let tight = fitted(Face::Bold, &"long ".repeat(80), [60.0, 6.0], [5.0, 2.2]);
        assert!(!tight.whole && tight.lines.last().is_some_and(|line| line.ends_with('…')));
        assert!(high(tight.size, tight.lines.len()) <= 7.0, "{}", tight.lines.len());
    }
}
