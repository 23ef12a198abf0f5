//! The paper that a sheet is printed on, and areas of it. All lengths are mm on paper, from its top left corner, down.

/// The size of the paper.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Paper {
    /// A4, 297 × 210 mm (ISO 216).
    #[default]
    A4,
    /// Letter, 11 × 8½ in.
    Letter,
}

impl Paper {
    /// Its long and its short side, mm.
    pub const fn sides_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [297.0, 210.0],
            Self::Letter => [279.4, 215.9],
        }
    }

    /// The name in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "letter",
        }
    }
}

/// The margin for filing on the left, and that on every other side, mm (ISO 5457, from memory).
const MARGINS_MM: [f64; 2] = [20.0, 10.0];

/// A place on paper, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct At {
    /// From the left.
    pub x: f64,
    /// From the top.
    pub y: f64,
}

impl At {
    /// A place.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The same place moved.
    pub fn moved(self, x: f64, y: f64) -> Self {
        Self { x: self.x + x, y: self.y + y }
    }
}

/// An upright rectangle on paper, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Its left side.
    pub x: f64,
    /// Its top.
    pub y: f64,
    /// How wide it is.
    pub width: f64,
    /// How high it is.
    pub height: f64,
}

impl Area {
    /// An area.
    pub const fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x, y, width, height }
    }

    /// What is inside the frame of a sheet of paper that lies on its long side.
    pub const fn inside_frame(paper: Paper) -> Self {
        let ([long, short], [filing, margin]) = (paper.sides_mm(), MARGINS_MM);
        Self::new(filing, margin, long - filing - margin, short - 2.0 * margin)
    }

    /// Its right side.
    pub fn right(&self) -> f64 {
        self.x + self.width
    }

    /// Its bottom.
    pub fn bottom(&self) -> f64 {
        self.y + self.height
    }

    /// Its middle.
    pub fn centre(&self) -> At {
        At::new(self.x + self.width / 2.0, self.y + self.height / 2.0)
    }

    /// The same less a margin on every side.
    pub fn within(&self, margin: f64) -> Self {
        Self::new(self.x + margin, self.y + margin, self.width - 2.0 * margin, self.height - 2.0 * margin)
    }

    /// Whether another lies inside, give or take a hundredth of a millimetre.
    pub fn holds(&self, other: &Self) -> bool {
        const ROUNDING: f64 = 0.01;
        other.x >= self.x - ROUNDING
            && other.y >= self.y - ROUNDING
            && other.right() <= self.right() + ROUNDING
            && other.bottom() <= self.bottom() + ROUNDING
    }

    /// Whether it shares more than a line with another.
    pub fn meets(&self, other: &Self) -> bool {
        const ROUNDING: f64 = 0.01;
        self.x < other.right() - ROUNDING
            && other.x < self.right() - ROUNDING
            && self.y < other.bottom() - ROUNDING
            && other.y < self.bottom() - ROUNDING
    }
}
