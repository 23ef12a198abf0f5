//! What a page is made of: lines, fills and texts, each a plain value in mm on paper. Paper and screen formats draw these.

use super::face::Face;
use super::paper::{Area, At, Paper};

/// A kind of line (ISO 128-2, line group 0.35: wide to narrow is 2 to 1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Pen {
    /// Visible outlines and frames.
    Wide,
    /// Dimensions, leaders, tables.
    Narrow,
    /// Hidden outlines: narrow, dashed.
    Hidden,
    /// Centrelines: narrow, long dashes and dots.
    Centre,
}

impl Pen {
    /// How wide the line is, mm.
    pub const fn width(self) -> f64 {
        match self {
            Self::Wide => 0.35,
            Self::Narrow | Self::Hidden | Self::Centre => 0.18,
        }
    }

    /// Dashes and gaps in turn, mm; none for a line that is whole. ISO 128-2 counts them in widths: a dash of 12 and a gap
    /// of 3, a long dash of 24 with a dot of half a width between gaps of 3.
    pub fn dashes(self) -> Vec<f64> {
        let width = self.width();
        let widths: &[f64] = match self {
            Self::Wide | Self::Narrow => &[],
            Self::Hidden => &[12.0, 3.0],
            Self::Centre => &[24.0, 3.0, 0.5, 3.0],
        };
        widths.iter().map(|count| count * width).collect()
    }
}

/// A step of a path.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Begins a line.
    Move(At),
    /// A straight line on.
    Line(At),
    /// A cubic Bézier curve on, by its two handles and its end.
    Cubic(At, At, At),
    /// Back to where it began.
    Close,
}

/// A text on one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// Where its baseline begins.
    pub at: At,
    /// Whether it runs upwards, to be read from the right.
    pub upright: bool,
    /// The size of its face, mm.
    pub size: f64,
    /// The face.
    pub face: Face,
    /// What it says, of letters that the face has.
    pub text: String,
    /// How long it runs, mm.
    pub width: f64,
}

impl Label {
    /// How far letters reach over the baseline, and under it, in sizes.
    const REACH: [f64; 2] = [0.76, 0.24];

    /// The room that it takes.
    pub fn area(&self) -> Area {
        let [over, under] = Self::REACH.map(|reach| reach * self.size);
        if self.upright {
            Area::new(self.at.x - over, self.at.y - self.width, over + under, self.width)
        } else {
            Area::new(self.at.x, self.at.y - over, self.width, over + under)
        }
    }
}

/// Something on a page.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A line.
    Stroke(Vec<Segment>, Pen),
    /// An area filled with black to a share from 0, white, to 1.
    Fill(Vec<Segment>, f64),
    /// A text.
    Text(Label),
}

/// One page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// How wide and how high the paper is, mm.
    pub size: [f64; 2],
    /// What is on it, in the order in which it is drawn.
    pub items: Vec<Item>,
}

impl Page {
    /// An empty page that lies on its long side.
    pub const fn lying(paper: Paper) -> Self {
        Self { size: paper.sides_mm(), items: Vec::new() }
    }

    /// An empty page that stands on its short side.
    pub const fn standing(paper: Paper) -> Self {
        let [long, short] = paper.sides_mm();
        Self { size: [short, long], items: Vec::new() }
    }

    /// Its texts.
    pub fn labels(&self) -> impl Iterator<Item = &Label> {
        self.items.iter().filter_map(|item| if let Item::Text(label) = item { Some(label) } else { None })
    }
}

impl Item {
    /// The same moved.
    #[must_use]
    pub fn moved(&self, x: f64, y: f64) -> Self {
        let path = |path: &[Segment]| {
            let each = |segment: &Segment| match *segment {
                Segment::Move(at) => Segment::Move(at.moved(x, y)),
                Segment::Line(at) => Segment::Line(at.moved(x, y)),
                Segment::Cubic(a, b, c) => Segment::Cubic(a.moved(x, y), b.moved(x, y), c.moved(x, y)),
                Segment::Close => Segment::Close,
            };
            path.iter().map(each).collect()
        };
        match self {
            Self::Stroke(segments, pen) => Self::Stroke(path(segments), *pen),
            Self::Fill(segments, shade) => Self::Fill(path(segments), *shade),
            Self::Text(label) => Self::Text(Label { at: label.at.moved(x, y), ..label.clone() }),
        }
    }

    /// The room that it takes, the width of its line left out; `None` where it draws nothing.
    pub fn area(&self) -> Option<Area> {
        let path = match self {
            Self::Text(label) => return Some(label.area()),
            Self::Stroke(path, _) | Self::Fill(path, _) => path,
        };
        let each = |segment: &Segment| match *segment {
            Segment::Move(at) | Segment::Line(at) => vec![at],
            Segment::Cubic(a, b, c) => vec![a, b, c],
            Segment::Close => Vec::new(),
        };
        let mut spots = path.iter().flat_map(each);
        let first = spots.next()?;
        let [mut least, mut most] = [first, first];
        for spot in spots {
            least = At::new(least.x.min(spot.x), least.y.min(spot.y));
            most = At::new(most.x.max(spot.x), most.y.max(spot.y));
        }
        Some(Area::new(least.x, least.y, most.x - least.x, most.y - least.y))
    }
}
