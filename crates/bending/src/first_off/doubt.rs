//! What speaks against a measurement. It is told, and not followed.

use elbowroom_geometry::{Point3, Refusal};
use thiserror::Error;

use super::plausible::{BentFigure, Beyond};
use super::points::BY_ARC_ENDS_FROM;
use crate::rigid_fit::rigid_fit;

/// Why a measurement is doubted. It is told, and not followed.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum MeasurementDoubt {
    /// The number of points differs.
    #[error("{measured} points were measured and the design has {design}{}{}", two_each(*.by_arc_ends), hint(*missing))]
    Count {
        /// How many the design has.
        design: usize,
        /// How many were measured.
        measured: usize,
        /// How many of the bends give two points.
        by_arc_ends: usize,
        /// The point that seems to be missing, or measured twice, counted from 0.
        missing: Option<usize>,
    },
    /// A coordinate is not a number.
    #[error("point {} has a coordinate that is not a number", .0 + 1)]
    NotANumber(usize),
    /// Two points seem to have changed places.
    #[error("points {} and {} seem to have changed places", .0 + 1, .1 + 1)]
    Swapped(usize, usize),
    /// Two rows seem to have changed places.
    #[error("rows {} and {} seem to have changed places", .0 + 1, .1 + 1)]
    SwappedRows(usize, usize),
    /// One point seems wrong.
    #[error("{}", point_words(.0))]
    Point(WrongPoint),
    /// One figure of a row seems wrong.
    #[error("{}", figure_words(.0))]
    Row(WrongFigure),
    /// Any one of these would explain it, and what was measured does not tell which; the likeliest comes first.
    #[error("{}", any_of_words(.0))]
    AnyOf(Vec<Self>),
    /// A figure strays further than a machine does, and no one thing explains it.
    #[error("{}", beyond_words(.0))]
    Beyond(Beyond),
    /// The list seems to run from the other end.
    #[error("the points seem to have been measured from the other end")]
    FromTheOtherEnd,
    /// The part is the mirror image of the design.
    #[error(
        "the points describe the mirror image of the design; check the signs of the axes and the rotation sense of the machine"
    )]
    Mirrored,
    /// The part is so far off that no correction should be made from it.
    #[error(
        "the best fit is still {worst_mm:.1} mm off; check that this is the part and that every point was measured"
    )]
    NotThisPart {
        /// The largest distance that is left, mm.
        worst_mm: f64,
    },
    /// The number of measured bends differs.
    #[error("{measured} bends were measured and the program bends {design}")]
    Bends {
        /// How many the design has.
        design: usize,
        /// How many were measured.
        measured: usize,
    },
    /// A measured number was turned away.
    #[error(transparent)]
    Number(#[from] Refusal),
    /// The measured points make no sense as a tube.
    #[error(
        "the measured points make no tube: two of them coincide, a bend turns nothing, or the path turns back on itself"
    )]
    NoTube,
}

impl MeasurementDoubt {
    /// The only one of these, or any of them. They must not be empty.
    pub(super) fn any_of(mut doubts: Vec<Self>) -> Self {
        if doubts.len() == 1 { doubts.remove(0) } else { Self::AnyOf(doubts) }
    }

    /// What would explain it each by itself, the likeliest first.
    pub fn candidates(&self) -> &[Self] {
        match self {
            Self::AnyOf(doubts) => doubts,
            one => std::slice::from_ref(one),
        }
    }

    /// Whether a person who has measured again can stand by the measurement: it can be compared as it is.
    pub const fn can_be_overruled(&self) -> bool {
        match self {
            Self::Swapped(..)
            | Self::SwappedRows(..)
            | Self::Point(_)
            | Self::Row(_)
            | Self::AnyOf(_)
            | Self::Beyond(_)
            | Self::FromTheOtherEnd
            | Self::Mirrored
            | Self::NotThisPart { .. } => true,
            Self::Count { .. } | Self::NotANumber(_) | Self::Bends { .. } | Self::Number(_) | Self::NoTube => false,
        }
    }

    /// Whether both are about the same point or figure.
    pub(super) fn is_of_the_same(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Point(one), Self::Point(other)) => one.point == other.point,
            (Self::Row(one), Self::Row(other)) => one.figure == other.figure,
            (one, other) => one == other,
        }
    }
}

/// A point that the others speak against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrongPoint {
    /// The point, counted from 0 in the order of the measurement.
    pub point: usize,
    /// How far it lies from where the others put it, mm.
    pub off_mm: f64,
    /// Where one coordinate explains it: which one (0 to 2), what it is, and about what would fit, mm.
    pub axis: Option<(usize, f64, f64)>,
}

/// A figure of a row that the others speak against.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrongFigure {
    /// Which one, rows counted from 0 in the order of the measurement.
    pub figure: BentFigure,
    /// What it is, mm or degrees.
    pub was: f64,
    /// About what would fit, mm or degrees.
    pub fits: f64,
}

/// The names of the axes of a measurement.
pub const AXES: [&str; 3] = ["x", "y", "z"];

fn any_of_words(doubts: &[MeasurementDoubt]) -> String {
    let each: Vec<String> = doubts.iter().map(ToString::to_string).collect();
    format!("one thing is wrong, and what was measured does not tell which: {}", each.join("; or "))
}

fn point_words(wrong: &WrongPoint) -> String {
    let number = wrong.point + 1;
    match wrong.axis {
        Some((axis, was, fits)) => {
            let axis = AXES.get(axis).copied().unwrap_or_default();
            format!(
                "point {number} seems wrong: its {axis} is {was:.1} mm, and about {fits:.1} mm would fit the others{}",
                turned_over(was, fits, 15.0)
            )
        }
        None => {
            format!("point {number} seems wrong: it lies about {:.1} mm from where the others put it", wrong.off_mm)
        }
    }
}

/// Where a figure fits with its sign turned over, to so much.
fn turned_over(was: f64, fits: f64, about: f64) -> &'static str {
    if was.abs() > about && (was + fits).abs() <= about.min(was.abs() / 2.0) { "; check its sign" } else { "" }
}

fn figure_words(wrong: &WrongFigure) -> String {
    let (WrongFigure { figure, was, fits }, sign) = (wrong, turned_over(wrong.was, wrong.fits, 5.0));
    match figure {
        BentFigure::Straight(row) => {
            format!("the straight of row {} seems wrong: it is {was:.1} mm, and about {fits:.1} mm would fit", row + 1)
        }
        BentFigure::Rotation(row) => {
            let row = row + 1;
            format!("the rotation of row {row} seems wrong: it is {was:.1}°, and about {fits:.1}° would fit{sign}")
        }
        BentFigure::Angle(row) => {
            format!("the angle of row {} seems wrong: it is {was:.1}°, and about {fits:.1}° would fit", row + 1)
        }
    }
}

fn beyond_words(beyond: &Beyond) -> String {
    let Beyond { figure, off, most } = beyond;
    let more = if *off > 0.0 { "more" } else { "less" };
    let degrees = |radians: f64| format!("{:.1}°", radians.abs().to_degrees());
    let (what, off, most) = match figure {
        BentFigure::Straight(at) => {
            (format!("straight {}", at + 1), format!("{:.1} mm", off.abs()), format!("{most:.1} mm"))
        }
        BentFigure::Rotation(bend) => (format!("the rotation before bend {}", bend + 1), degrees(*off), degrees(*most)),
        BentFigure::Angle(bend) => (format!("the angle of bend {}", bend + 1), degrees(*off), degrees(*most)),
    };
    format!(
        "{what}, counted as measured, is {off} {more} than its settings give, and a machine strays no more than {most} there; \
         check what was set and what was measured"
    )
}

fn hint(missing: Option<usize>) -> String {
    missing.map_or_else(String::new, |point| format!("; point {} seems to be the odd one", point + 1))
}

fn two_each(by_arc_ends: usize) -> String {
    let from = BY_ARC_ENDS_FROM.degrees();
    match by_arc_ends {
        0 => String::new(),
        1 => format!(", with two for the bend of {from:.0}° or more: where its arc begins and where it ends"),
        _ => format!(", with two for each bend of {from:.0}° or more: where its arc begins and where it ends"),
    }
}

/// A list with one point more or less fits well where it is off by less than this share of the part's size.
const FITS: f64 = 0.02;
/// The point without which the longer list fits the shorter one best, where it then fits well.
pub(super) fn odd_one_out(design: &[Point3<f64>], measured: &[Point3<f64>]) -> Option<usize> {
    let (longer, shorter) = if design.len() == measured.len() + 1 {
        (design, measured)
    } else if measured.len() == design.len() + 1 {
        (measured, design)
    } else {
        return None;
    };
    let size = design.iter().map(|point| (point - design[0]).norm()).fold(0.0, f64::max);
    (0..longer.len())
        .filter_map(|without| {
            let mut rest = longer.to_vec();
            rest.remove(without);
            Some((without, rigid_fit(&rest, shorter)?.rms_mm))
        })
        .filter(|(_, rms_mm)| *rms_mm <= FITS * size)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(without, _)| without)
}
