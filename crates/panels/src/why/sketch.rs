//! The clamp on the tube, seen in the plane that shows the bite: the clamp's axis lies level, the bite
//! points up.

use std::fmt;

use elbowroom_bending::{End, Solved};
use elbowroom_geometry::{Frame, Point3, Vector3};

/// A place on the drawing: along the clamp's axis in the direction of travel from the start of the bend,
/// and off the axis in the direction of the bite, mm.
pub type Spot = [f64; 2];

/// A straight or an arc on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// The bend whose arc it is, counted from 0; none for a straight.
    pub bend: Option<usize>,
    /// The centreline from right to left, against the direction of travel.
    pub spots: Vec<Spot>,
}

/// What lies above and below the tube on the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Jaws {
    /// The die above, the clamp below.
    DieAbove,
    /// The clamp above, the die below.
    ClampAbove,
    /// One looks at the clamp, with the die behind the tube: above and below the jaws part.
    Parting,
}

impl Jaws {
    /// Seen with this direction up; `to_die` leads from the tube's middle to the die. Both have length 1.
    fn seen(up: &Vector3<f64>, to_die: &Vector3<f64>) -> Self {
        let share = up.dot(to_die);
        if share >= std::f64::consts::FRAC_1_SQRT_2 {
            Self::DieAbove
        } else if share <= -std::f64::consts::FRAC_1_SQRT_2 {
            Self::ClampAbove
        } else {
            Self::Parting
        }
    }

    /// What the jaw above and the one below are called.
    pub const fn names(self) -> [&'static str; 2] {
        match self {
            Self::DieAbove => ["die", "clamp"],
            Self::ClampAbove => ["clamp", "die"],
            Self::Parting => ["jaws part here", "jaws part here"],
        }
    }

    /// From where one looks.
    pub const fn view(self) -> &'static str {
        match self {
            Self::DieAbove => "Seen along the line where the jaws part, the die above.",
            Self::ClampAbove => "Seen along the line where the jaws part, the clamp above.",
            Self::Parting => "Seen from the clamp towards the die: the jaws part above and below.",
        }
    }
}

/// The drawing, in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Sketch {
    /// The bend being made, counted from 0.
    pub bend: usize,
    /// Outside diameter of the tube.
    pub od_mm: f64,
    /// What lies above and below.
    pub jaws: Jaws,
    /// The tube, from what is just being bent back towards the lead end.
    pub runs: Vec<Run>,
    /// Length of the clamp.
    pub clamp_mm: f64,
    /// The straight ahead of the bend; negative where arcs overlap.
    pub straight_mm: f64,
    /// Whether no bend lies ahead, so that the straight ends at the tip.
    pub at_tip: bool,
    /// How far the clamp reaches past the straight.
    pub overlap_mm: f64,
    /// The bite and where it is largest, where there is any.
    pub bite: Option<Spot>,
    /// Extra stock before the tip that the clamp holds as well.
    pub stock_mm: f64,
}

/// Chord error of the drawing, mm: far below what a screen shows.
const CHORD_MM: f64 = 0.02;

impl Sketch {
    /// Draws the clamp of a bend; none where it has no clamp.
    pub fn of(solved: &Solved, bend: usize, od_mm: f64) -> Option<Self> {
        let made = solved.bends.get(bend)?;
        let clamp = made.clamp?;
        let made_from = solved.made_from(bend)?;
        let before = solved.bend_before(bend);
        let plane = Plane::new(&made_from, offset_direction(solved, bend, before));
        let is_forward = solved.from == End::Start;
        let mut runs =
            vec![Run { bend: Some(bend), spots: plane.sampled(solved, 2 * bend + 1, made.arc_mm.min(od_mm), true) }];
        let mut left_mm = clamp.length_mm + 0.7 * od_mm;
        let elements = solved.centreline.elements();
        let ahead: Box<dyn Iterator<Item = usize>> =
            if is_forward { Box::new((0..=2 * bend).rev()) } else { Box::new(2 * bend + 2..elements.len()) };
        for element in ahead {
            let Some(length_mm) = elements.get(element).map(|element| element.length_mm) else {
                break;
            };
            if length_mm > 0.0 && left_mm > 0.0 {
                let spots = plane.sampled(solved, element, length_mm.min(left_mm), false);
                let of_bend = (element % 2 == 1).then_some(element / 2);
                runs.push(Run { bend: of_bend, spots });
            }
            left_mm -= length_mm;
        }
        let trim_mm = solved.trims_in_order_mm()[0];
        let stock_mm = trim_mm.min(left_mm.max(0.0));
        if stock_mm > 0.0 {
            let (tip, out_mm) = match solved.from {
                End::Start => (elements.first()?.start, -stock_mm),
                End::Finish => (elements.last()?.end(), stock_mm),
            };
            let spots = vec![plane.spot(tip.origin), plane.spot(tip.advanced(out_mm).origin)];
            runs.push(Run { bend: None, spots });
        }
        let bite = (clamp.bite_mm > 0.0).then(|| {
            let at = plane.spot(solved.centreline.point_at(clamp.bite_at_mm));
            [at[0], clamp.bite_mm]
        });
        Some(Self {
            bend,
            od_mm,
            jaws: Jaws::seen(&plane.up, &made_from.normal),
            runs,
            clamp_mm: clamp.length_mm,
            straight_mm: made.straight_ahead_mm,
            at_tip: before.is_none(),
            overlap_mm: clamp.overlap_mm,
            bite,
            stock_mm: trim_mm,
        })
    }

    /// The corners of the drawing: least and most along the axis and off it.
    pub fn bounds_mm(&self) -> (Spot, Spot) {
        let radius = self.od_mm / 2.0;
        let jaw = radius + self.jaw_mm();
        let (mut low, mut high) = ([-self.clamp_mm, -jaw], [0.0, jaw]);
        for spot in self.runs.iter().flat_map(|run| &run.spots) {
            for axis in 0..2 {
                low[axis] = low[axis].min(spot[axis] - radius);
                high[axis] = high[axis].max(spot[axis] + radius);
            }
        }
        (low, high)
    }

    /// Thickness of a jaw on the drawing.
    pub fn jaw_mm(&self) -> f64 {
        self.od_mm * 0.4
    }
}

/// The direction that the drawing turns up: that of the bite, or the way the tube would leave the axis.
fn offset_direction(solved: &Solved, bend: usize, before: Option<usize>) -> Vector3<f64> {
    let Some(made_from) = solved.made_from(bend) else { return Vector3::y() };
    let clamp = solved.bends[bend].clamp;
    if let Some(clamp) = clamp.filter(|clamp| clamp.bite_mm > 0.0) {
        let (sin, cos) = clamp.bite_direction_rad.sin_cos();
        return made_from.normal * cos + made_from.binormal() * sin;
    }
    let ahead = before.and_then(|before| solved.centreline.arc(before));
    // Where the bend before leaves the straight, towards its inside.
    ahead.map_or(made_from.normal, |ahead| match solved.from {
        End::Start => ahead.end().normal,
        End::Finish => ahead.start.normal,
    })
}

/// The plane of the drawing.
struct Plane {
    origin: Point3<f64>,
    along: Vector3<f64>,
    up: Vector3<f64>,
}

impl Plane {
    fn new(start: &Frame, up: Vector3<f64>) -> Self {
        let square = Frame::along(start.origin, start.tangent, up).unwrap_or(*start);
        Self { origin: square.origin, along: square.tangent, up: square.normal }
    }

    fn spot(&self, point: Point3<f64>) -> Spot {
        let from = point - self.origin;
        [from.dot(&self.along), from.dot(&self.up)]
    }

    /// An element of the centreline from where it meets the bend being made, over `length_mm`; of the bend being made
    /// itself, the stretch that leads up to where its clamp lies.
    fn sampled(&self, solved: &Solved, element: usize, length_mm: f64, is_made: bool) -> Vec<Spot> {
        let Some(element) = solved.centreline.elements().get(element) else { return Vec::new() };
        let steps = match element.kind {
            elbowroom_geometry::ElementKind::Straight => 1,
            elbowroom_geometry::ElementKind::Arc { radius_mm, .. } => {
                let step_mm = (8.0 * CHORD_MM * radius_mm.max(1.0)).sqrt();
                ((length_mm / step_mm).ceil() as usize).clamp(2, 200)
            }
        };
        let at = |step: usize| {
            let gone_mm = length_mm * step as f64 / steps as f64;
            let along_mm = match (solved.from, is_made) {
                (End::Start, true) => length_mm - gone_mm,
                (End::Start, false) => element.length_mm - gone_mm,
                (End::Finish, true) => element.length_mm - length_mm + gone_mm,
                (End::Finish, false) => gone_mm,
            };
            self.spot(element.frame_at(along_mm).origin)
        };
        (0..=steps).map(at).collect()
    }
}

impl fmt::Display for Sketch {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "clamp {:.1} on straight {:.1}", self.clamp_mm, self.straight_mm)?;
        if self.overlap_mm > 0.0 {
            write!(out, ", over the arc by {:.1}", self.overlap_mm)?;
        }
        if let Some([at, bite]) = self.bite {
            write!(out, ", bite {bite:.2} at {at:.1}")?;
        }
        write!(out, "\n  {}", self.jaws.view())?;
        for run in &self.runs {
            let name = run.bend.map_or("straight".to_owned(), |bend| format!("bend {}", bend + 1));
            if let (Some(first), Some(last)) = (run.spots.first(), run.spots.last()) {
                let [a, b, c, d] = [first[0], first[1], last[0], last[1]].map(|mm| (mm * 10.0).round() / 10.0 + 0.0);
                write!(out, "\n  {name} from ({a:.1}, {b:.1}) to ({c:.1}, {d:.1})")?;
            }
        }
        Ok(())
    }
}
