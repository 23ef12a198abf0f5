//! What stands around a tube that is laid out, and how near it comes.

use std::sync::Arc;

use elbowroom_geometry::{Body, Centreline, Frame, Length, NearStretch, Nearness, Point3, TriangleMesh, tubes_apart};

use crate::model::ground::Ground;
use crate::model::surrounding::{ObstacleKind, Wanted};
use crate::{MeshSource, Obstacle, Shape};

/// Something that a tube has to keep clear of.
#[derive(Clone, Debug)]
pub struct Neighbour {
    /// What it is called.
    pub name: Arc<str>,
    /// What it is.
    pub kind: NeighbourKind,
    /// How far the tube keeps clear of it.
    pub wanted: Wanted,
    /// How it stands there; in words why nobody knows.
    pub stands: Result<Stands, Arc<str>>,
    /// What is doubtful about it all the same, in words, such as a file that has changed.
    pub doubt: Option<Arc<str>>,
}

/// What something is that a tube has to keep clear of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NeighbourKind {
    /// An obstacle.
    Obstacle(ObstacleKind),
    /// Another tube of the system.
    Tube,
}

/// How something stands beside a tube.
#[derive(Clone, Debug)]
pub enum Stands {
    /// A body, in a place of its own. It is known again by being the very same.
    Body(Arc<Body>, Frame),
    /// A tube, by its centreline and outside diameter, mm.
    Tube(Arc<Centreline>, f64),
}

/// A mesh as it was read.
#[derive(Clone, Debug)]
pub struct SurveyedMesh {
    /// Its triangles in the obstacle's frame, mm.
    pub mesh: Arc<TriangleMesh>,
    /// By which the bytes of its file are known again: their BLAKE3 hash in hexadecimal.
    pub fingerprint: String,
}

/// A mesh that was read; else in words why it cannot be.
pub type Surveyed = Result<SurveyedMesh, Arc<str>>;

/// How near a tube comes to something.
#[derive(Clone, Debug, PartialEq)]
pub struct Clearance {
    /// What that is called.
    pub to: Arc<str>,
    /// What it is.
    pub kind: NeighbourKind,
    /// How far the tube is to keep clear of it.
    pub wanted: Wanted,
    /// What was measured; in words why nothing was.
    pub measured: Result<Gap, Arc<str>>,
    /// What is doubtful about it all the same, in words.
    pub doubt: Option<Arc<str>>,
}

/// The room between a tube's outside and something else.
#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    /// The least distance, mm: never more than there is. Below zero the tube reaches so far into the other at least.
    pub least_mm: f64,
    /// Where that is, mm along the tube from the start of the drawing.
    pub at_mm: f64,
    /// The place on the tube's outside, mm.
    pub on_tube: Point3<f64>,
    /// The place on the other's, mm.
    pub on_other: Point3<f64>,
    /// Where the tube reaches into the other, if it does; else where it is nearer than is wanted. The stretch with the
    /// least distance comes first.
    pub stretches: Vec<NearStretch>,
}

/// Lengths this near to their limit meet it, mm: a micrometre. An arc may be told a tenth of that nearer than it is, and
/// a drawing that keeps a clearance exactly keeps it.
pub(crate) const MEETS_MM: f64 = 1e-3;

/// Tubes that are farther apart than this say nothing to each other, mm (common practice, no source).
pub(crate) const TUBES_WITHIN_MM: f64 = 100.0;

/// An end that lies no farther than this outside of another tube is joined to it, mm (common practice, no source).
const JOINED_MM: f64 = 1.0;

/// A joint reaches no farther along a tube than this many of the distance at which the two touch: two legs that part at
/// 14.5° are free of each other there (1/sin, derived here). What touches for longer lies side by side.
const LONGEST_JOINT: f64 = 4.0;

impl NeighbourKind {
    /// The word for scripts.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Obstacle(kind) => kind.word(),
            Self::Tube => "tube",
        }
    }

    /// What a person is told.
    pub const fn said(self) -> &'static str {
        match self {
            Self::Obstacle(kind) => kind.said(),
            Self::Tube => "tube",
        }
    }

    /// Whether it is the ground.
    pub fn is_ground(self) -> bool {
        self == Self::Obstacle(ObstacleKind::Ground)
    }
}

impl Clearance {
    /// The clearance that is not kept, mm, and what it rests on: the smaller one that must be kept where not even that
    /// is. `None` where all is clear, where the tube reaches into the other, and where nothing was measured.
    pub fn missed(&self) -> Option<(f64, Option<Ground>)> {
        let gap = self.measured.as_ref().ok().filter(|_| !self.hits())?;
        let misses = |clearance_mm: f64| gap.least_mm < clearance_mm - MEETS_MM;
        let must = self.wanted.must.filter(|(clearance_mm, _)| misses(*clearance_mm));
        let wanted = (self.wanted.clearance_mm, self.wanted.basis);
        must.map(|(clearance_mm, basis)| (clearance_mm, Some(basis))).or(misses(wanted.0).then_some(wanted))
    }

    /// Whether the tube reaches into the other.
    pub fn hits(&self) -> bool {
        self.measured.as_ref().is_ok_and(|gap| gap.least_mm < -MEETS_MM)
    }
}

impl Neighbour {
    /// An obstacle as it stands. `survey` reads its mesh, where it is one, and `clearance` takes the place of what it wants.
    /// One that cannot be read says so in place of standing there: it is not left out.
    pub fn of(obstacle: &Obstacle, clearance: Option<Length>, survey: impl FnOnce(&MeshSource) -> Surveyed) -> Self {
        let mut doubt = None;
        let body = match &obstacle.shape {
            Shape::Mesh(source) => survey(source).map(|read| {
                if read.fingerprint != source.fingerprint {
                    doubt = Some("its file has changed since it was taken in".into());
                }
                Some(Body::mesh(read.mesh))
            }),
            typed => typed.body().map_err(|refusal| refusal.to_string().into()),
        };
        let body = body.and_then(|body| body.map(Arc::new).ok_or_else(|| "it has no body".into()));
        Self {
            name: obstacle.name.as_str().into(),
            kind: NeighbourKind::Obstacle(obstacle.kind),
            wanted: obstacle.kind.wanted(clearance.or(obstacle.clearance)),
            stands: body.map(|body| Stands::Body(body, obstacle.placement)),
            doubt,
        }
    }

    /// The same body under what is said of an obstacle now: another name, place, kind or clearance.
    #[must_use]
    pub fn said_anew(&self, obstacle: &Obstacle) -> Self {
        let stands = match &self.stands {
            Ok(Stands::Body(body, _)) => Ok(Stands::Body(Arc::clone(body), obstacle.placement)),
            other => other.clone(),
        };
        Self {
            name: obstacle.name.as_str().into(),
            kind: NeighbourKind::Obstacle(obstacle.kind),
            wanted: obstacle.kind.wanted(obstacle.clearance),
            stands,
            doubt: self.doubt.clone(),
        }
    }

    /// Its body, unless it is a tube or nobody knows how it stands.
    pub fn body(&self) -> Option<&Arc<Body>> {
        match &self.stands {
            Ok(Stands::Body(body, _)) => Some(body),
            Ok(Stands::Tube(..)) | Err(_) => None,
        }
    }

    /// How near a tube with this centreline and outside diameter (mm) comes to it. `None` of another tube that is far
    /// away. `known` holds what was measured of the two before, so that only what has moved is measured again.
    pub fn measured(&self, centreline: &Centreline, od_mm: f64, known: &mut Nearness) -> Option<Clearance> {
        let measured = match &self.stands {
            Err(why) => Err(Arc::clone(why)),
            Ok(Stands::Body(body, placement)) => {
                let wanted_mm = self.wanted.clearance_mm;
                Ok(to_body(centreline, od_mm / 2.0, (body, placement), wanted_mm, known))
            }
            Ok(Stands::Tube(other, other_od_mm)) => Ok(to_tube([centreline, other], [od_mm, *other_od_mm])?),
        };
        let (to, doubt) = (Arc::clone(&self.name), self.doubt.clone());
        Some(Clearance { to, kind: self.kind, wanted: self.wanted, measured, doubt })
    }
}

fn to_body(
    centreline: &Centreline,
    tube_mm: f64,
    (body, placement): (&Body, &Frame),
    wanted_mm: f64,
    known: &mut Nearness,
) -> Gap {
    let near_mm = wanted_mm + tube_mm;
    let apart = known.measure(centreline, body, placement, near_mm);
    let least_mm = apart.distance_mm - tube_mm;
    let limit_mm = if least_mm < -MEETS_MM { tube_mm } else { near_mm - MEETS_MM };
    let mut stretches = if apart.distance_mm < limit_mm { known.stretches(body, limit_mm) } else { Vec::new() };
    first_at(&mut stretches, apart.station_mm);
    let on_tube = outside(&apart.on_centreline, &apart.on_other, tube_mm);
    Gap { least_mm, at_mm: apart.station_mm, on_tube, on_other: apart.on_other, stretches }
}

/// The point of a tube's outside that faces another place.
fn outside(centre: &Point3<f64>, towards: &Point3<f64>, tube_mm: f64) -> Point3<f64> {
    (towards - centre).try_normalize(0.0).map_or(*centre, |direction| centre + direction * tube_mm)
}

/// Joins stretches that go on from one element to the next, and puts the one about a station first.
fn first_at(stretches: &mut Vec<NearStretch>, station_mm: f64) {
    /// Edges are found to a thousandth of a millimetre.
    const EDGE_MM: f64 = 2e-3;
    let is_at =
        |stretch: &NearStretch| stretch.from_mm - EDGE_MM <= station_mm && station_mm <= stretch.to_mm + EDGE_MM;
    let mut joined: Vec<NearStretch> = Vec::with_capacity(stretches.len());
    for next in stretches.drain(..) {
        match joined.last_mut() {
            Some(last) if next.from_mm - last.to_mm <= EDGE_MM => {
                // It is named after the element with the nearest place.
                let element = if is_at(&next) { next.element } else { last.element };
                *last = NearStretch { from_mm: last.from_mm, to_mm: next.to_mm.max(last.to_mm), element };
            }
            _ => joined.push(next),
        }
    }
    if let Some(place) = joined.iter().position(is_at) {
        joined[..=place].rotate_right(1);
    }
    *stretches = joined;
}

/// How near two tubes come to each other, where that is not far. Where an end of one is drawn onto the other they are
/// joined there, and the stretch on which they touch from that end on is their joint: it counts for nothing.
fn to_tube(tubes: [&Centreline; 2], od_mm: [f64; 2]) -> Option<Gap> {
    let [first, second] = tubes;
    let touch_mm = f64::midpoint(od_mm[0], od_mm[1]);
    let ranges = [beyond_joints(first, second, od_mm[1], touch_mm), beyond_joints(second, first, od_mm[0], touch_mm)];
    let apart = tubes_apart(tubes, ranges, touch_mm + TUBES_WITHIN_MM)?;
    let least_mm = apart.distance_mm - touch_mm;
    let at_mm = apart.stations_mm[0];
    let mut stretches = Vec::new();
    if least_mm < -MEETS_MM {
        let edge = |end_mm: f64| leaves(first, second, (at_mm, end_mm), touch_mm).unwrap_or(end_mm);
        let (from_mm, to_mm) = (edge(ranges[0].0), edge(ranges[0].1));
        stretches.push(NearStretch { from_mm, to_mm, element: apart.elements[0] });
    }
    let on_tube = outside(&apart.points[0], &apart.points[1], od_mm[0] / 2.0);
    let on_other = outside(&apart.points[1], &apart.points[0], od_mm[1] / 2.0);
    Some(Gap { least_mm, at_mm, on_tube, on_other, stretches })
}

/// The stations of a tube between its joints with another one, mm.
fn beyond_joints(tube: &Centreline, other: &Centreline, other_od_mm: f64, touch_mm: f64) -> (f64, f64) {
    let whole = (0.0, tube.length_mm());
    let is_joined =
        |end_mm: f64| other.closest_point(&tube.point_at(end_mm)).distance_mm <= other_od_mm / 2.0 + JOINED_MM;
    let reach_mm = (LONGEST_JOINT * touch_mm).min(whole.1);
    let mut range = whole;
    if is_joined(whole.0) {
        range.0 = leaves(tube, other, (whole.0, reach_mm), touch_mm).unwrap_or(whole.0);
    }
    if is_joined(whole.1) {
        range.1 = leaves(tube, other, (whole.1, whole.1 - reach_mm), touch_mm).unwrap_or(whole.1);
    }
    if range.0 < range.1 { range } else { whole }
}

/// Where a tube, followed from one station to another, is no longer within a distance of another tube, mm; `None`
/// where it stays within. It is followed in steps of a sixteenth of that distance.
fn leaves(tube: &Centreline, other: &Centreline, (from_mm, to_mm): (f64, f64), within_mm: f64) -> Option<f64> {
    let is_within = |at_mm: f64| other.closest_point(&tube.point_at(at_mm)).distance_mm < within_mm;
    let way = if to_mm < from_mm { -1.0 } else { 1.0 };
    let steps = ((to_mm - from_mm).abs() / within_mm * 16.0).ceil() as usize;
    let mut near_mm = from_mm;
    for step in 1..=steps {
        let next_mm = if step == steps { to_mm } else { from_mm + way * step as f64 * within_mm / 16.0 };
        if is_within(next_mm) {
            near_mm = next_mm;
            continue;
        }
        let mut far_mm = next_mm;
        while (far_mm - near_mm).abs() > 1e-4 {
            let middle_mm = near_mm.midpoint(far_mm);
            *(if is_within(middle_mm) { &mut near_mm } else { &mut far_mm }) = middle_mm;
        }
        return Some(far_mm);
    }
    None
}
