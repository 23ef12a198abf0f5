//! The hollow solid of one tube: a cylinder or torus face outside and inside for each straight and arc, a plane ring at
//! either end. Each face closes round the tube at a seam edge.

use elbowroom_geometry::{Element, ElementKind, Frame, Point3, Vector3};

use super::records::{Id, Records, list, real, text};

/// Writes the solid of a tube that follows these straights and arcs, radii in mm. It is named, and its volume is
/// π (outer² − inner²) × length, since the middle of each cross-section lies on the centreline (Pappus; from memory).
pub(super) fn solid(records: &mut Records, run: &[Element], outer_mm: f64, inner_mm: f64, name: &str) -> Id {
    let stations = stations(run);
    let mut faces = Vec::with_capacity(2 * run.len() + 2);
    let mut ends = Vec::with_capacity(2);
    for (radius_mm, outside) in [(outer_mm, true), (inner_mm, false)] {
        let rings: Vec<Ring> = stations.iter().map(|station| Ring::put(records, station, radius_mm)).collect();
        for (index, element) in run.iter().enumerate() {
            let seam = seam(records, element, &stations[index], radius_mm);
            let seam = records.edge(rings[index].vertex, rings[index + 1].vertex, seam);
            let mut around =
                vec![(rings[index].edge, true), (seam, true), (rings[index + 1].edge, false), (seam, false)];
            if !outside {
                // Seen from within the bore the same edges run the other way round.
                around.reverse();
                around.iter_mut().for_each(|(_, along)| *along = !*along);
            }
            let bound = records.bound(&around, true);
            let surface = surface(records, element, &stations[index], radius_mm);
            faces.push(records.face(&[bound], surface, outside));
        }
        ends.push([rings[0].edge, rings[run.len()].edge]);
    }
    let [outer, inner] = [ends[0], ends[1]];
    for (end, station) in [&stations[0], &stations[run.len()]].into_iter().enumerate() {
        let is_finish = end == 1;
        let bounds =
            [records.bound(&[(outer[end], is_finish)], true), records.bound(&[(inner[end], !is_finish)], false)];
        let outward = if is_finish { station.frame.tangent } else { -station.frame.tangent };
        let placement = records.placement(&station.frame.origin, &outward, &station.reference);
        let plane = records.put(format_args!("PLANE('',{placement})"));
        faces.push(records.face(&bounds, plane, true));
    }
    let shell = records.put(format_args!("CLOSED_SHELL('',{})", list(&faces)));
    records.put(format_args!("MANIFOLD_SOLID_BREP({},{shell})", text(name)))
}

/// A cross-section between two elements, or at an end.
struct Station {
    frame: Frame,
    /// Where the seam edges meet: carried along without twist, so that each seam edge is a line or a circle.
    reference: Vector3<f64>,
}

/// Both ends of every element, those between two of them once.
fn stations(run: &[Element]) -> Vec<Station> {
    let mut stations = Vec::with_capacity(run.len() + 1);
    let mut reference = run[0].start.normal;
    for element in run {
        let frame = element.start;
        reference = (reference - frame.tangent * frame.tangent.dot(&reference)).normalize();
        stations.push(Station { frame, reference });
        if let ElementKind::Arc { .. } = element.kind {
            let (across, along) = (reference.dot(&frame.normal), reference.dot(&frame.binormal()));
            let end = element.end();
            reference = end.normal * across + end.binormal() * along;
        }
    }
    stations.push(Station { frame: run[run.len() - 1].end(), reference });
    stations
}

/// A circle round the tube with the vertex at which it begins and ends.
struct Ring {
    vertex: Id,
    edge: Id,
}

impl Ring {
    fn put(records: &mut Records, station: &Station, radius_mm: f64) -> Self {
        let Station { frame, reference } = station;
        let vertex = records.vertex(&(frame.origin + reference * radius_mm));
        let circle = records.circle(&frame.origin, &frame.tangent, reference, radius_mm);
        Self { vertex, edge: records.edge(vertex, vertex, circle) }
    }
}

/// The centre of an arc.
fn centre(element: &Element, radius_mm: f64) -> Point3<f64> {
    element.start.origin + element.start.normal * radius_mm
}

/// The curve of the seam edge of an element.
fn seam(records: &mut Records, element: &Element, station: &Station, tube_mm: f64) -> Id {
    let Station { frame, reference } = station;
    match element.kind {
        ElementKind::Straight => {
            let (point, direction) =
                (records.point(&(frame.origin + reference * tube_mm)), records.direction(&frame.tangent));
            let vector = records.put(format_args!("VECTOR('',{direction},1.0)"));
            records.put(format_args!("LINE('',{point},{vector})"))
        }
        ElementKind::Arc { radius_mm, .. } => {
            let axis = frame.binormal();
            let middle = centre(element, radius_mm) + axis * (tube_mm * reference.dot(&axis));
            let seam_mm = radius_mm - tube_mm * reference.dot(&frame.normal);
            records.circle(&middle, &axis, &-frame.normal, seam_mm)
        }
    }
}

/// The surface of an element.
fn surface(records: &mut Records, element: &Element, station: &Station, tube_mm: f64) -> Id {
    let Station { frame, reference } = station;
    match element.kind {
        ElementKind::Straight => {
            let placement = records.placement(&frame.origin, &frame.tangent, reference);
            records.put(format_args!("CYLINDRICAL_SURFACE('',{placement},{})", real(tube_mm)))
        }
        ElementKind::Arc { radius_mm, .. } => {
            let placement = records.placement(&centre(element, radius_mm), &frame.binormal(), &-frame.normal);
            records.put(format_args!("TOROIDAL_SURFACE('',{placement},{},{})", real(radius_mm), real(tube_mm)))
        }
    }
}
