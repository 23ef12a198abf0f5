//! Lengths and angles as text: what a person types, and what the program prints.

mod cursor;
mod entry_error;
mod gauge;
mod number;
mod print;
mod read;

pub use entry_error::EntryError;
pub use print::{
    format_angle, format_angle_exact, format_inch_fraction, format_length, format_length_exact, format_number,
};
pub use read::{parse_angle, parse_length};

/// The unit in which lengths are shown and typed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum LengthUnit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches.
    Inch,
    /// Feet.
    Foot,
}

impl LengthUnit {
    /// Every unit, smallest first but for the imperial ones, which come last.
    pub const ALL: [Self; 5] = [Self::Millimetre, Self::Centimetre, Self::Metre, Self::Inch, Self::Foot];

    /// Millimetres in one of this unit; an inch is 25.4 mm exactly.
    pub const fn in_mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Centimetre => 10.0,
            Self::Metre => 1000.0,
            Self::Inch => 25.4,
            Self::Foot => 304.8,
        }
    }

    /// The symbol, as printed behind a number.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch => "in",
            Self::Foot => "ft",
        }
    }

    /// The name in the plural, for menus.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Millimetre => "millimetres",
            Self::Centimetre => "centimetres",
            Self::Metre => "metres",
            Self::Inch => "inches",
            Self::Foot => "feet",
        }
    }

    /// How many decimals show about a tenth of a millimetre.
    pub const fn decimals(self) -> usize {
        match self {
            Self::Millimetre => 1,
            Self::Centimetre => 2,
            Self::Metre => 4,
            Self::Inch => 3,
            Self::Foot => 4,
        }
    }
}
