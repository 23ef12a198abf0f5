//! What is wrong with the writing of a native file, for the person who wrote it: line, what stands there, what
//! would be right.

use ron::error::{Error, SpannedError};

use super::problem::FileProblem;

/// Puts an error of the reader into words.
pub(super) fn in_words(error: SpannedError, text: &str, file: &str) -> FileProblem {
    let line = error.span.end.line;
    let ends_there = is_end(&error, text);
    let stands = Place::of(&error, text);
    let list = |known: &[&str]| known.join(", ");
    let (what, right) = match error.code {
        // An own refusal says what stands there and what it may be.
        Error::Message(text) => (text, String::new()),
        // Where a file is cut off, the reader misses whatever would have come next.
        ref code if ends_there && !names_a_field(code) => {
            ("the file ends too early".to_owned(), "take a whole copy of it".to_owned())
        }
        _ if stands.decimal_comma.is_some() => {
            let number = stands.decimal_comma.unwrap_or_default();
            let right = format!("write decimals with a point: {}", number.replace(',', "."));
            (format!("{number} stands where a number must stand"), right)
        }
        Error::NoSuchStructField { expected, found, .. } => {
            (format!("there is no field {found}"), format!("the fields here are {}", list(expected)))
        }
        Error::MissingStructField { field, .. } => {
            (format!("the field {field} is missing"), "it must stand before this place".to_owned())
        }
        Error::DuplicateStructField { field, .. } => {
            (format!("the field {field} stands twice"), "remove one of the two".to_owned())
        }
        Error::NoSuchEnumVariant { expected, found, .. } => {
            (format!("{found} is not known"), format!("it must be one of {}", list(expected)))
        }
        Error::InvalidValueForType { expected, found } => {
            (format!("{} stands where it cannot", plain(&found)), format!("it must be {}", plain(&expected)))
        }
        Error::ExpectedDifferentLength { expected, found } => {
            (format!("there are {found} values here"), format!("it must be {}", plain(&expected)))
        }
        Error::TrailingCharacters => (
            format!("after the end there is more: {}", stands.quoted()),
            "the file ends with its last closing bracket".to_owned(),
        ),
        Error::ExpectedComma | Error::ExpectedStructLikeEnd | Error::ExpectedArrayEnd if stands.is_fraction => {
            (format!("{} is no whole number", stands.quoted()), "it must be one such as 3".to_owned())
        }
        Error::ExpectedFloat | Error::ExpectedInteger => {
            (stands.words(), "a number must stand there, such as 50.8".to_owned())
        }
        Error::ExpectedString => (stands.words(), "write text between double quotes there".to_owned()),
        other => (stands.words(), right_of(&other).to_owned()),
    };
    FileProblem::on_line(file, line, what, right)
}

/// What would be right where the writing itself is wrong.
fn right_of(error: &Error) -> &'static str {
    match error {
        Error::ExpectedArray => "a list begins with [",
        Error::ExpectedArrayEnd => "a list ends with ], and commas part what is in it",
        Error::ExpectedComma => "a comma parts two fields or two values",
        Error::ExpectedMapColon => "a colon stands between the name of a field and its value, such as od_mm: 60.3",
        Error::ExpectedBoolean => "write true or false",
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) | Error::ExpectedStructName(_) => {
            "fields stand between round brackets, such as (od_mm: 60.3, wall_mm: 2.0)"
        }
        Error::ExpectedStructLikeEnd => "fields end with ), and commas part them",
        Error::ExpectedStringEnd => "text ends with a double quote",
        Error::ExpectedOption | Error::ExpectedOptionEnd => "write a value, or leave the field out",
        Error::ExpectedIdentifier | Error::InvalidIdentifier(_) | Error::SuggestRawIdentifier(_) => {
            "the name of a field must stand here, such as od_mm, or the closing bracket"
        }
        Error::InvalidEscape(_) => "in a text write \\\\ for one \\, and \\\" for a double quote",
        Error::FloatUnderscore | Error::UnderscoreAtBeginning | Error::InvalidIntegerDigit { .. } => {
            "write a plain number such as 50.8"
        }
        Error::IntegerOutOfBounds => "write a smaller number",
        Error::UnclosedBlockComment => "a comment that begins with /* ends with */",
        Error::ExceededRecursionLimit => "it has too many brackets one in the other: take a whole copy of it",
        _ => "compare it with a file that the program wrote",
    }
}

/// Words of the reader about what it wanted, without its own terms.
fn plain(words: &str) -> String {
    let has = |what: &str| words.contains(what);
    if has("floating point") || has("f64") || has("integer") || has("u32") || has("usize") {
        let number = words.split('`').nth(1).map_or(String::new(), |number| format!("the number {number}"));
        return if number.is_empty() { "a plain number such as 50.8".to_owned() } else { number };
    }
    if has("a string") || has("string ") {
        let text = words.split_once("string \"").map(|(_, text)| format!("the text \"{text}"));
        return text.unwrap_or_else(|| "text between double quotes".to_owned());
    }
    if has("struct") || has("map") {
        return "fields between round brackets".to_owned();
    }
    if has("sequence") || has("seq") {
        return "a list between square brackets".to_owned();
    }
    if has("tuple") || has("array") {
        let count: String = words.chars().filter(char::is_ascii_digit).collect();
        return format!("{} values between round brackets", if count.is_empty() { "several" } else { &count });
    }
    if has("enum") || has("identifier") {
        return "one of the known words".to_owned();
    }
    if has("unit") || has("option") {
        return "a value".to_owned();
    }
    words.to_owned()
}

/// Whether an error names the field that it is about, wherever the reader was by then.
const fn names_a_field(error: &Error) -> bool {
    matches!(error, Error::MissingStructField { .. } | Error::NoSuchStructField { .. })
}

/// What stands where the reader stopped.
#[derive(Default)]
struct Place {
    /// The word or sign there; empty at the end of a line.
    word: String,
    /// The whole number, where a comma was taken for a decimal point.
    decimal_comma: Option<String>,
    /// Whether a number was read up to its point or exponent: a whole one was wanted.
    is_fraction: bool,
}

impl Place {
    fn of(error: &SpannedError, text: &str) -> Self {
        const LONGEST: usize = 30;
        let Some(line) = text.lines().nth(error.span.end.line.saturating_sub(1)) else { return Self::default() };
        let signs: Vec<char> = line.chars().collect();
        let of_word = |sign: &char| sign.is_alphanumeric() || "_.+-".contains(*sign);
        let digit = |place: usize| signs.get(place).is_some_and(char::is_ascii_digit);
        let at = error.span.end.col.saturating_sub(1).min(signs.len());
        // The reader stops before or after the digits behind the comma.
        let comma = (at.saturating_sub(4)..=at.saturating_add(1))
            .find(|place| signs.get(*place) == Some(&',') && *place > 0 && digit(place - 1) && digit(place + 1));
        let decimal_comma = comma.map(|comma| {
            let before = signs[..comma].iter().rev().take_while(|sign| sign.is_ascii_digit() || **sign == '-').count();
            let after = signs[comma + 1..].iter().take_while(|sign| sign.is_ascii_digit()).count();
            signs[comma - before..=comma + after].iter().take(LONGEST).collect()
        });
        // A reader that stopped within a word has read its beginning.
        let read = signs
            .get(at)
            .filter(|sign| of_word(sign))
            .map_or(0, |_| signs[..at].iter().rev().take_while(|sign| of_word(sign)).count());
        let rest = signs[at - read..].iter().skip_while(|sign| **sign == ' ');
        let word: String = rest.take_while(|sign| of_word(sign)).take(LONGEST).collect();
        let sign = || signs[at..].iter().find(|sign| **sign != ' ').map(char::to_string).unwrap_or_default();
        let is_fraction = read > 0 && matches!(signs.get(at), Some('.' | 'e')) && word.parse::<f64>().is_ok();
        Self { word: if word.is_empty() { sign() } else { word }, decimal_comma, is_fraction }
    }

    fn words(&self) -> String {
        match self.word.as_str() {
            "" => "something is missing at the end of the line".to_owned(),
            _ => format!("{} stands where it cannot", self.quoted()),
        }
    }

    fn quoted(&self) -> String {
        format!("\u{201c}{}\u{201d}", self.word)
    }
}

/// Whether an error lies at the very end of a text.
fn is_end(error: &SpannedError, text: &str) -> bool {
    let text = text.trim_end();
    let (line, last) = text.lines().enumerate().last().unwrap_or((0, ""));
    let end = (line + 1, last.chars().count());
    (error.span.end.line, error.span.end.col) >= end
}
