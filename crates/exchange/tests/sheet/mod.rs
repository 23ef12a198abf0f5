//! The printed sheet: nothing overlaps or is cut off, it is true to scale, and other readers read it.

mod codes;
mod golden;
mod layout;
mod parts;
mod pdf;
mod scale;
