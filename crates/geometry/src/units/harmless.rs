//! Text that came from a person, a file or another program: shown as text, whatever stands in it.

use std::borrow::Cow;

/// What stands in place of a sign that could do something.
const IN_PLACE: char = '\u{fffd}';

/// The text without anything that a terminal, a window or a spreadsheet would act upon: control characters with
/// line breaks and escapes, signs that turn the direction of writing, and signs that cannot be seen. Each becomes
/// `\u{fffd}`, so that it is seen that something stood there.
pub fn harmless(text: &str) -> Cow<'_, str> {
    if !text.contains(acts) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.chars().map(|sign| if acts(sign) { IN_PLACE } else { sign }).collect())
}

/// The same for text of several lines, whose line breaks and tabs stay.
pub fn harmless_lines(text: &str) -> Cow<'_, str> {
    let acts = |sign: char| !matches!(sign, '\n' | '\t') && acts(sign);
    if !text.contains(acts) {
        return Cow::Borrowed(text);
    }
    Cow::Owned(text.chars().map(|sign| if acts(sign) { IN_PLACE } else { sign }).collect())
}

/// Whether a sign does something other than being seen.
fn acts(sign: char) -> bool {
    sign.is_control()
        || matches!(sign,
            // Soft hyphen, Arabic letter mark, Mongolian vowel separator, zero widths and direction marks.
            '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}'
            // Line and paragraph separators, embeddings, overrides, isolates and invisible operators.
            | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}'
            // Byte order mark, interlinear marks, tags.
            | '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_acts_is_seen_and_does_nothing() {
        for sign in
            ['\0', '\u{1b}', '\n', '\r', '\t', '\u{7f}', '\u{9b}', '\u{202e}', '\u{2066}', '\u{200b}', '\u{feff}']
        {
            assert_eq!(harmless(&format!("a{sign}b")), "a\u{fffd}b", "{sign:?}");
            let kept = if matches!(sign, '\n' | '\t') { sign } else { '\u{fffd}' };
            assert_eq!(harmless_lines(&format!("a{sign}b")), format!("a{kept}b"), "{sign:?}");
        }
        for plain in ["60.3 × 2 mm", "größer, Ø 50 °", "管 60", "~ “quoted” −1", ""] {
            assert!(matches!(harmless(plain), Cow::Borrowed(same) if same == plain));
            assert!(matches!(harmless_lines(plain), Cow::Borrowed(same) if same == plain));
        }
    }
}
