//! Lengths and angles as text: what a person types, and what the program prints.

mod cursor;
mod entry_error;
mod gauge;
mod harmless;
mod number;
mod print;
mod read;
mod shown;

pub use entry_error::EntryError;
pub use harmless::{harmless, harmless_lines};
pub use print::{
    format_angle, format_angle_exact, format_any, format_inch_fraction, format_length, format_length_exact,
    format_number,
};
pub use read::{parse_angle, parse_length};
pub use shown::Shown;

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

    /// The symbol with the space that parts it from a number before it.
    const fn behind_number(self) -> &'static str {
        match self {
            Self::Millimetre => " mm",
            Self::Centimetre => " cm",
            Self::Metre => " m",
            Self::Inch => " in",
            Self::Foot => " ft",
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

    /// A length in this unit, to about a tenth of a millimetre, with the symbol.
    pub const fn shown(self, length_mm: f64) -> Shown {
        Shown::new(length_mm / self.in_mm(), self.decimals(), self.behind_number())
    }

    /// The same without the symbol, for tables whose head names the unit.
    pub const fn bare(self, length_mm: f64) -> Shown {
        Shown::new(length_mm / self.in_mm(), self.decimals(), "")
    }

    /// A wall or another small length with a decimal more.
    pub const fn finely(self, length_mm: f64) -> Shown {
        Shown::new(length_mm / self.in_mm(), self.decimals() + 1, self.behind_number())
    }

    /// The same without the symbol.
    pub const fn bare_finely(self, length_mm: f64) -> Shown {
        Shown::new(length_mm / self.in_mm(), self.decimals() + 1, "")
    }

    /// The next length upwards that is shown without rounding, mm: what is shown is enough.
    pub fn at_least_mm(self, length_mm: f64) -> f64 {
        self.up_mm(length_mm, self.decimals())
    }

    /// The next round length upwards that a person would set, mm: to a tenth of a millimetre, a hundredth of
    /// an inch, a thousandth of a foot.
    pub fn round_mm(self, length_mm: f64) -> f64 {
        let decimals = match self {
            Self::Millimetre | Self::Centimetre | Self::Metre => self.decimals(),
            Self::Inch | Self::Foot => self.decimals() - 1,
        };
        self.up_mm(length_mm, decimals)
    }

    /// The next length upwards of so many decimals, mm.
    fn up_mm(self, length_mm: f64, decimals: usize) -> f64 {
        /// A millionth of a millimetre is rounding, not need.
        const SAME_MM: f64 = 1e-6;
        let parts = 10.0_f64.powi(decimals as i32);
        let steps = ((length_mm - SAME_MM) / self.in_mm() * parts).ceil();
        if steps == 0.0 { 0.0 } else { steps / parts * self.in_mm() }
    }
}
