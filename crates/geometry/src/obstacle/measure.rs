//! How near a tube's centreline comes to a body: the least of all, and every stretch that is nearer than is wanted.

use super::body::Body;
use super::search::{Found, SETTLED_MM, Search};
use crate::clearance::place;
use crate::{Centreline, Element, ElementKind, Frame, Point3};

/// Where the centreline is nearest to a body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Apart {
    /// The distance of the centreline from the surface, mm: never more than it is, and at most a tenth of a micrometre
    /// less. Zero where it goes through triangles, below zero by the depth where it lies inside.
    pub distance_mm: f64,
    /// The place on the centreline, mm along the tube.
    pub station_mm: f64,
    /// Its element: even for straights, odd for arcs.
    pub element: usize,
    /// The place itself, mm.
    pub on_centreline: Point3<f64>,
    /// The place of the body nearest to it, mm.
    pub on_other: Point3<f64>,
}

/// A stretch on which the centreline is nearer than a limit, about its nearest place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NearStretch {
    /// Where it begins, mm along the tube.
    pub from_mm: f64,
    /// Where it ends, mm along the tube.
    pub to_mm: f64,
    /// The element that it lies on.
    pub element: usize,
}

/// What was measured of a tube and a body, kept so that only elements that have moved are measured again.
#[derive(Clone, Debug, Default)]
pub struct Nearness {
    known: Vec<Known>,
    placement: Option<Frame>,
    measured: usize,
}

/// What is known of one element, which lies in the frame of the body and counts its stations from its own start.
#[derive(Clone, Copy, Debug)]
struct Known {
    element: Element,
    /// Its number among all elements of the centreline.
    number: usize,
    /// Where it begins along the whole tube, mm.
    from_mm: f64,
    /// No place of it is nearer, mm.
    at_least_mm: f64,
    found: Option<Found>,
}

/// An element that has moved no farther than this is where it was, mm: a tenth of a nanometre, far above what rounding
/// does to the elements behind a vertex that is dragged. It is held against where it was measured, so that it cannot creep.
const STAYS_MM: f64 = 1e-7;

/// Whether no place of an element lies farther than [`STAYS_MM`] from where it was.
fn is_where_it_was(was: &Element, is: &Element) -> bool {
    let (curve_mm, reach_mm) = match (was.kind, is.kind) {
        (ElementKind::Straight, ElementKind::Straight) => (0.0, is.length_mm.abs()),
        (
            ElementKind::Arc { radius_mm: r_was, angle_rad: a_was },
            ElementKind::Arc { radius_mm: r_is, angle_rad: a_is },
        ) => (2.0 * (r_is - r_was).abs() + r_is * (a_is - a_was).abs(), 2.0 * r_is),
        _ => return false,
    };
    let turned = (is.start.tangent - was.start.tangent).norm() + (is.start.normal - was.start.normal).norm();
    let moved_mm = (is.start.origin - was.start.origin).norm() + (is.length_mm - was.length_mm).abs();
    moved_mm + curve_mm + turned * reach_mm <= STAYS_MM
}

impl Known {
    fn is_settled(&self) -> bool {
        self.found.is_some_and(|found| found.distance_mm - self.at_least_mm <= 2.0 * SETTLED_MM)
    }

    /// Takes the bounds of a search where they tell more.
    fn take(&mut self, search: &Search) {
        self.at_least_mm = self.at_least_mm.max(search.at_least_mm);
        if let Some(found) = search.found
            && self.found.is_none_or(|known| found.distance_mm < known.distance_mm)
        {
            self.found = Some(found);
        }
        // Rounding may put a bound above what was found.
        self.at_least_mm = self.found.map_or(self.at_least_mm, |found| self.at_least_mm.min(found.distance_mm));
    }
}

impl Nearness {
    /// Measures a centreline against a body that stands at `placement`. What this value knows from before of elements
    /// that are the same is kept, which presumes that the body is the same. `near_mm` is the distance of
    /// centreline and surface below which every element's own least is wanted, for [`Nearness::stretches`].
    pub fn measure(&mut self, centreline: &Centreline, body: &Body, placement: &Frame, near_mm: f64) -> Apart {
        self.look(centreline, body, placement);
        let mut limit_mm = self.least_found_mm();
        // What is bound the least comes first: what it finds spares the others.
        let mut order: Vec<usize> = (0..self.known.len()).collect();
        order.sort_unstable_by(|&a, &b| self.known[a].at_least_mm.total_cmp(&self.known[b].at_least_mm));
        for index in order {
            let known = &mut self.known[index];
            let reach_mm = limit_mm.max(near_mm);
            if known.is_settled() || known.at_least_mm >= reach_mm {
                continue;
            }
            // A little further than what was found, so that a place as near as that is found again.
            let element = known.element;
            let mut search = Search::new(&element, body, reach_mm + SETTLED_MM);
            search.run();
            self.measured += 1;
            known.take(&search);
            if let Some(found) = known.found {
                limit_mm = limit_mm.min(found.distance_mm);
            }
        }
        self.nearest(body, placement)
    }

    /// The first look at what has moved: a bound and one place of each element.
    fn look(&mut self, centreline: &Centreline, body: &Body, placement: &Frame) {
        if self.placement != Some(*placement) {
            self.known.clear();
            self.placement = Some(*placement);
        }
        let elements = centreline.elements();
        let with_length = elements.iter().any(|element| element.length_mm > 0.0);
        let is_drawn = |(_, element): &(usize, &Element)| element.length_mm > 0.0 || !with_length;
        let mut next = Vec::with_capacity(elements.len());
        for (place, (number, element)) in elements.iter().enumerate().filter(is_drawn).enumerate() {
            let local = Element { from_mm: 0.0, start: placement.local(&element.start), ..*element };
            let same = self.known.get(place).filter(|known| is_where_it_was(&known.element, &local));
            next.push(match same {
                Some(known) => Known { number, from_mm: element.from_mm, ..*known },
                None => {
                    let mut search = Search::new(&local, body, f64::INFINITY);
                    search.look();
                    self.measured += 1;
                    let (from_mm, at_least_mm) = (element.from_mm, f64::NEG_INFINITY);
                    let mut known = Known { element: local, number, from_mm, at_least_mm, found: None };
                    known.take(&search);
                    known
                }
            });
        }
        self.known = next;
    }

    fn least_found_mm(&self) -> f64 {
        self.known.iter().filter_map(|known| known.found).map(|found| found.distance_mm).fold(f64::INFINITY, f64::min)
    }

    /// The least of all elements, or how deep the whole lies inside of a body that its surface alone tells nothing of.
    fn nearest(&self, body: &Body, placement: &Frame) -> Apart {
        let found = |known: &Known| known.found.map_or(f64::INFINITY, |found| found.distance_mm);
        let best = self.known.iter().min_by(|a, b| found(a).total_cmp(&found(b)));
        let Some(Known { found: Some(nearest), from_mm, number, .. }) = best else {
            let origin = placement.origin;
            let (distance_mm, station_mm) = (f64::INFINITY, 0.0);
            return Apart { distance_mm, station_mm, element: 0, on_centreline: origin, on_other: origin };
        };
        let at_least_mm = self.known.iter().map(|known| known.at_least_mm).fold(nearest.distance_mm, f64::min);
        let is_inside = !body.tells_depth() && at_least_mm > 0.0 && body.holds(&nearest.centre);
        Apart {
            distance_mm: if is_inside { -nearest.distance_mm } else { at_least_mm },
            station_mm: from_mm + nearest.along_mm,
            element: *number,
            on_centreline: placement.world_point(&nearest.centre),
            on_other: placement.world_point(&nearest.on),
        }
    }

    /// The stretches on which the centreline is nearer than `near_mm` to the body that was measured, or inside of it,
    /// along the tube, each to a thousandth of a millimetre: of every element the one about its nearest place.
    pub fn stretches(&self, body: &Body, near_mm: f64) -> Vec<NearStretch> {
        let mut stretches = Vec::new();
        for known in &self.known {
            let is_near = |along_mm: f64| {
                let at = place(&known.element, along_mm);
                body.to_point(&at, near_mm).is_some() || body.holds(&at)
            };
            let Some(found) = known.found.filter(|found| found.distance_mm < near_mm || is_near(found.along_mm)) else {
                continue;
            };
            let edge = |end: f64| {
                if is_near(end) {
                    return end;
                }
                let (mut near, mut far) = (found.along_mm, end);
                while (far - near).abs() > 1e-3 {
                    let middle = near.midpoint(far);
                    if middle == near || middle == far {
                        break;
                    }
                    *(if is_near(middle) { &mut near } else { &mut far }) = middle;
                }
                near
            };
            let (from_mm, to_mm) = (known.from_mm + edge(0.0), known.from_mm + edge(known.element.length_mm));
            stretches.push(NearStretch { from_mm, to_mm, element: known.number });
        }
        stretches
    }

    /// How many searches were made in all, for tests that what stays is not measured again.
    pub fn measured(&self) -> usize {
        self.measured
    }
}
