//! The drawing that explains a finding which is not about the clamp: plain values in mm and degrees.

use std::fmt;

use elbowroom_bending::checks::Drawing;
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{Finding, Part, Path, Shop, Solved, Unit};
use elbowroom_geometry::units::{LengthUnit, Shown, format_length};
use elbowroom_geometry::{Length, Point3};

use super::sketch::Spot;
use crate::widgets::UNSURE;

/// Radii of die sets that are drawn, those nearest to the drawn one; more would lie over one another.
const MOST_RADII: usize = 4;

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// A leg between two vertices: the tangents of the bends at its ends, and where both want the same stretch.
    Leg {
        /// The leg from vertex to vertex, mm.
        leg_mm: f64,
        /// What the bend at its start takes of it and what the one at its end does, each with its name; mm.
        takes: Vec<(String, f64)>,
        /// What is missing, with its unit.
        missing: String,
    },
    /// The tube in section in the bend, its outside up.
    Section {
        /// Outside diameter, mm.
        od_mm: f64,
        /// Wall before bending, mm.
        wall_mm: f64,
        /// Wall outside and, where the rule tells it, inside the bend, mm.
        walls_mm: (f64, Option<f64>),
        /// What stands at the outside and at the inside.
        texts: [String; 2],
    },
    /// The seam round the tube, the outside of the bend up; degrees from there.
    Seam {
        /// Where the seam lies.
        seam_deg: f64,
        /// How near to the outside it may come.
        limit_deg: f64,
        /// The seam and the limit in words.
        texts: [String; 2],
    },
    /// The drawn radius and those of die sets, with their names; mm.
    Radii {
        /// The radius as drawn, with its figure.
        drawn: (f64, String),
        /// The die sets for this tube, nearest first.
        dies: Vec<(f64, String)>,
    },
    /// An angle and the largest there is, in degrees and in words.
    Angle {
        /// The angle of the bend.
        drawn: (f64, String),
        /// The largest angle.
        most: (f64, String),
    },
    /// Two sections of the tube, as far apart as they are.
    Meeting {
        /// Outside diameter, mm.
        od_mm: f64,
        /// From middle to middle, mm.
        apart_mm: f64,
        /// Both in words.
        texts: [String; 2],
    },
    /// The tube in section beside something else.
    Gap {
        /// Outside diameter, mm.
        od_mm: f64,
        /// The room between the two, mm; below zero the tube reaches into it.
        gap_mm: f64,
        /// The room that is wanted, mm.
        wanted_mm: f64,
        /// Both in words.
        texts: [String; 2],
    },
    /// The vertices about the place, in the plane in which they lie best; mm. The one that is meant is the second.
    Vertices(Vec<Spot>),
    /// Lengths beside each other, each with its name and figure; mm. The last is what it may be.
    Lengths(Vec<(String, f64, String)>),
}

/// Figures as the finding shows them.
struct Figures<'a> {
    finding: &'a Finding,
    unit: LengthUnit,
}

impl Figures<'_> {
    fn shown(&self, value: f64, ground: Option<Ground>) -> String {
        let shown = match self.finding.unit {
            Unit::Millimetre => self.unit.shown(value),
            Unit::Degree => Shown::new(value, 1, "°"),
            Unit::Percent => Shown::new(value, 1, " %"),
            Unit::Count => Shown::new(value, 0, ""),
        };
        shown.behind(if ground.is_some_and(Ground::unsure) { UNSURE } else { "" }).to_string()
    }

    fn measured(&self) -> String {
        self.shown(self.finding.measured, self.finding.measured_basis)
    }

    fn limit(&self) -> String {
        self.shown(self.finding.limit, self.finding.limit_basis)
    }
}

impl Picture {
    /// The drawing of a finding; none where it is the clamp's, or where there is nothing to draw.
    pub fn of(part: &Part, shop: &Shop, solved: &Solved, finding: &Finding) -> Option<Self> {
        let figures = Figures { finding, unit: part.units };
        match finding.drawing() {
            Drawing::Clamp => None,
            Drawing::Leg => leg(part, solved, finding),
            Drawing::Section => section(part, shop, solved, &figures),
            Drawing::Seam => {
                let at_rad = solved.bends.get(finding.place.bend?)?.formed?.seam_at_rad?;
                let texts = [format!("seam {}", figures.measured()), format!("clear of {}", figures.limit())];
                Some(Self::Seam { seam_deg: at_rad.to_degrees(), limit_deg: finding.limit, texts })
            }
            Drawing::Radii => Some(radii(part, shop, solved, finding)),
            Drawing::Angle => Some(Self::Angle {
                drawn: (finding.measured, format!("this bend {}", figures.measured())),
                most: (finding.limit, format!("largest {}", figures.limit())),
            }),
            Drawing::Meeting => Some(Self::Meeting {
                od_mm: part.tube.od.mm(),
                apart_mm: finding.measured,
                texts: [format!("apart {}", figures.measured()), format!("needed {}", figures.limit())],
            }),
            Drawing::Gap => Some(Self::Gap {
                od_mm: part.tube.od.mm(),
                gap_mm: finding.measured,
                wanted_mm: finding.limit,
                texts: [format!("room {}", figures.measured()), format!("wanted {}", figures.limit())],
            }),
            Drawing::Nothing => None,
            Drawing::Vertices => vertices(part, solved, finding),
            Drawing::Lengths(measured, limit) => Some(Self::Lengths(vec![
                (measured.to_owned(), finding.measured, figures.measured()),
                (limit.to_owned(), finding.limit, figures.limit()),
            ])),
        }
    }
}

fn leg(part: &Part, solved: &Solved, finding: &Finding) -> Option<Picture> {
    let straight = finding.place.straight?;
    let takes_of = |bend: usize| Some((format!("bend {}", bend + 1), solved.bends.get(bend)?.tangent_mm?));
    let before = straight.checked_sub(1).and_then(takes_of);
    let takes: Vec<_> = before.into_iter().chain(takes_of(straight)).collect();
    let leg_mm = solved.straights_mm.get(straight)? + takes.iter().map(|(_, mm)| mm).sum::<f64>();
    let missing = part.units.shown(-finding.measured).to_string();
    (!takes.is_empty()).then_some(Picture::Leg { leg_mm, takes, missing })
}

fn section(part: &Part, shop: &Shop, solved: &Solved, figures: &Figures) -> Option<Picture> {
    let formed = solved.bends.get(figures.finding.place.bend?)?.formed.as_ref()?;
    let wall = formed.wall(shop.limits.wall_rule)?;
    // A wall has a digit more than other lengths.
    let fine = |mm: f64, ground: Option<Ground>| {
        let mark = if ground.is_some_and(Ground::unsure) { UNSURE } else { "" };
        format!("{mark}{}", format_length(Length::from_mm(mm), part.units, part.units.decimals() + 1))
    };
    let finding = figures.finding;
    let outside = match finding.unit {
        Unit::Percent => format!("outside stretched {}, the metal gives {}", figures.measured(), figures.limit()),
        _ => {
            let (left, wanted) =
                (fine(finding.measured, finding.measured_basis), fine(finding.limit, finding.limit_basis));
            format!("outside {left} left, {wanted} wanted")
        }
    };
    let rule = Some(Ground::from(wall.rule));
    let inside = match wall.inside {
        Some(inside) => {
            format!("inside {}, thicker than the {} before", fine(inside.mm(), rule), fine(part.tube.wall.mm(), None))
        }
        None => format!("before bending {} all round", fine(part.tube.wall.mm(), None)),
    };
    Some(Picture::Section {
        od_mm: part.tube.od.mm(),
        wall_mm: part.tube.wall.mm(),
        walls_mm: (wall.outside.mm(), wall.inside.map(|inside| inside.mm())),
        texts: [outside, inside],
    })
}

fn radii(part: &Part, shop: &Shop, solved: &Solved, finding: &Finding) -> Picture {
    let bend = finding.place.bend.and_then(|bend| solved.bends.get(bend));
    let drawn_mm = bend.map_or(finding.measured, |bend| bend.clr_mm);
    let radius = |mm: f64| part.units.shown(mm).to_string();
    let of_tube = shop.die_sets.iter().filter(|die| die.takes(part.tube.od));
    let mut dies: Vec<_> =
        of_tube.map(|die| (die.clr.mm(), format!("{}: {}", die.name, radius(die.clr.mm())))).collect();
    dies.sort_by(|a, b| (a.0 - drawn_mm).abs().total_cmp(&(b.0 - drawn_mm).abs()));
    dies.truncate(MOST_RADII);
    Picture::Radii { drawn: (drawn_mm, format!("drawn: {}", radius(drawn_mm))), dies }
}

/// The vertices about the place of a finding.
fn vertices(part: &Part, solved: &Solved, finding: &Finding) -> Option<Picture> {
    let Path::Vertices(path) = &part.path else { return None };
    let points = path.points();
    let at_mm = finding.place.from_mm;
    // The vertex nearest to where the finding speaks, counted along the legs.
    let meant = finding.place.bend.and_then(|bend| solved.form.vertex_of_bend.get(bend).copied());
    let meant = meant.unwrap_or_else(|| along(points, at_mm)).clamp(1, points.len().saturating_sub(2).max(1));
    let three = points.get(meant - 1..(meant + 2).min(points.len()))?;
    Some(Picture::Vertices(flat(three)))
}

fn along(points: &[Point3<f64>], at_mm: f64) -> usize {
    let mut gone_mm = 0.0;
    for (index, pair) in points.windows(2).enumerate() {
        gone_mm += (pair[1] - pair[0]).norm();
        if gone_mm >= at_mm {
            return index + 1;
        }
    }
    points.len().saturating_sub(1)
}

/// Points in the plane of the first three, the first leg level.
fn flat(points: &[Point3<f64>]) -> Vec<Spot> {
    let Some(first) = points.first() else { return Vec::new() };
    let along = points.iter().find_map(|point| (point - first).try_normalize(1e-9)).unwrap_or_default();
    let square = |point: &Point3<f64>| {
        let from = point - first;
        from - along * from.dot(&along)
    };
    let up = points.iter().find_map(|point| square(point).try_normalize(1e-9)).unwrap_or_default();
    points.iter().map(|point| [(point - first).dot(&along), (point - first).dot(&up)]).collect()
}

impl fmt::Display for Picture {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Leg { leg_mm, takes, missing } => {
                write!(out, "leg {leg_mm:.1}")?;
                takes.iter().try_for_each(|(name, mm)| write!(out, ", {name} takes {mm:.1}"))?;
                write!(out, ", missing {missing}")
            }
            Self::Section { od_mm, wall_mm, texts, .. } => {
                write!(out, "section {od_mm:.1} × {wall_mm:.2}: {}; {}", texts[0], texts[1])
            }
            Self::Seam { seam_deg, texts, .. } => write!(out, "seam at {seam_deg:.1}: {}; {}", texts[0], texts[1]),
            Self::Radii { drawn, dies } => {
                write!(out, "radii {}", drawn.1)?;
                dies.iter().try_for_each(|(_, name)| write!(out, "; {name}"))
            }
            Self::Angle { drawn, most } => write!(out, "angle: {}; {}", drawn.1, most.1),
            Self::Meeting { texts, .. } => write!(out, "meeting: {}; {}", texts[0], texts[1]),
            Self::Gap { texts, .. } => write!(out, "gap: {}; {}", texts[0], texts[1]),
            Self::Vertices(spots) => write!(out, "vertices {spots:.1?}"),
            Self::Lengths(lengths) => lengths.iter().try_for_each(|(name, _, text)| write!(out, "{name}: {text}; ")),
        }
    }
}
