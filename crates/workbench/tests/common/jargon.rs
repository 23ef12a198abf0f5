//! Words of the readers' own trade, which mean nothing in a shop and must not reach a person.

/// The words, as the crates that read files write them.
pub const JARGON: [&str; 18] = [
    "identifier",
    "struct",
    "enum",
    "tuple",
    "sequence",
    "variant",
    "deserial",
    "RON",
    "f64",
    "floating",
    "EOF",
    "parse",
    "std ",
    "token",
    "serde",
    "utf-8 codepoint",
    "Some(",
    "CSV error",
];
