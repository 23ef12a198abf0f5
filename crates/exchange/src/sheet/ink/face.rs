//! The letters of a sheet: how wide a text runs, so that nothing overruns.

use std::sync::LazyLock;

use skrifa::instance::{LocationRef, Size};
use skrifa::{FontRef, GlyphId, MetadataProvider};

/// A face of the B612 family.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// For text and figures.
    Regular,
    /// For headings and what must be seen first.
    Bold,
}

/// What stands for a letter that a face lacks.
const LACKING: char = '?';

/// A letter as it is drawn: its place in the face and how far it carries on, in ems.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drawn {
    /// Its place in the face.
    pub glyph: u32,
    /// How far the next letter stands, ems.
    pub advance: f64,
}

/// A face with the widths of the letters up to that number worked out: all that most texts are made of.
struct Loaded {
    bytes: &'static [u8],
    common: Vec<Option<Drawn>>,
}

const COMMON: u32 = 0x180;

static FACES: LazyLock<[Loaded; 2]> = LazyLock::new(|| {
    [
        load(include_bytes!("../../../../../assets/fonts/B612-Regular.otf")),
        load(include_bytes!("../../../../../assets/fonts/B612-Bold.otf")),
    ]
});

fn load(bytes: &'static [u8]) -> Loaded {
    let common = (0..COMMON).map(|number| char::from_u32(number).and_then(|letter| look_up(bytes, letter)));
    Loaded { bytes, common: common.collect() }
}

fn look_up(bytes: &[u8], letter: char) -> Option<Drawn> {
    let font = FontRef::new(bytes).ok()?;
    let glyph = font.charmap().map(letter).filter(|glyph| *glyph != GlyphId::NOTDEF)?;
    let advance = font.glyph_metrics(Size::new(1.0), LocationRef::default()).advance_width(glyph)?;
    Some(Drawn { glyph: glyph.to_u32(), advance: f64::from(advance) })
}

impl Face {
    /// Every face.
    pub const ALL: [Self; 2] = [Self::Regular, Self::Bold];

    fn loaded(self) -> &'static Loaded {
        match self {
            Self::Regular => &FACES[0],
            Self::Bold => &FACES[1],
        }
    }

    /// The font file.
    pub fn bytes(self) -> &'static [u8] {
        self.loaded().bytes
    }

    /// A letter as it is drawn; `None` where the face lacks it.
    pub fn drawn(self, letter: char) -> Option<Drawn> {
        let loaded = self.loaded();
        match loaded.common.get(letter as usize) {
            Some(common) => *common,
            None => look_up(loaded.bytes, letter),
        }
    }

    /// A text with a question mark for each letter that the face lacks.
    pub fn printable(self, text: &str) -> String {
        text.chars().map(|letter| if self.drawn(letter).is_some() { letter } else { LACKING }).collect()
    }

    /// How wide a printable text runs at a size, mm.
    pub fn width(self, text: &str, size: f64) -> f64 {
        text.chars().filter_map(|letter| self.drawn(letter)).map(|drawn| drawn.advance).sum::<f64>() * size
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn figures_are_equally_wide_and_lengths_grow_with_size() {
        for face in Face::ALL {
            let widths: Vec<f64> = "0123456789".chars().map(|digit| face.drawn(digit).unwrap().advance).collect();
            assert!(widths.iter().all(|width| *width == widths[0] && *width > 0.4), "{widths:?}");
            assert!((face.width("12.5 mm", 6.0) - 2.0 * face.width("12.5 mm", 3.0)).abs() < 1e-12);
        }
    }

    #[test]
    fn what_the_face_lacks_is_a_question_mark() {
        assert_eq!(Face::Regular.printable("Rohr Ø 60,3 × 2 ±1° µ 管"), "Rohr Ø 60,3 × 2 ±1° µ ?");
        assert_eq!(Face::Regular.drawn('管'), None);
    }
}
