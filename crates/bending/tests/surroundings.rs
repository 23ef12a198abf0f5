//! What the checks say of what stands around a tube.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::sync::Arc;

use elbowroom_bending::around::{Clearance, Neighbour, NeighbourKind, Stands};
use elbowroom_bending::specimen::{part, row, shop};
use elbowroom_bending::surrounding::{ObstacleKind, Wanted};
use elbowroom_bending::{Part, Severity, Solved, Words, solve};
use elbowroom_geometry::{BendPath, Body, Centreline, Frame, Length, Nearness, Point3};

fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

/// 300 along x, a quarter bend, 300 along y.
fn corner() -> Part {
    part(vec![row(300.0, 0.0, 90.0)], 300.0).unwrap()
}

/// Ground that lies so far below the middle of the tube.
fn ground(below_mm: f64, kind: ObstacleKind) -> Neighbour {
    let placement = Frame { origin: Point3::new(0.0, 0.0, -below_mm), ..Frame::world() };
    Neighbour {
        name: "Road".into(),
        kind: NeighbourKind::Obstacle(kind),
        wanted: kind.usual(),
        stands: Ok(Stands::Body(Arc::new(Body::below()), placement)),
        doubt: None,
    }
}

fn clearance(part: &Part, solved: &Solved, neighbour: &Neighbour) -> Clearance {
    neighbour.measured(&solved.centreline, part.tube.od.mm(), &mut Nearness::default()).unwrap()
}

fn beside(neighbour: &Neighbour) -> (Part, Solved) {
    let (part, shop) = (corner(), shop());
    let solved = solve(&part, &shop);
    let clearance = clearance(&part, &solved, neighbour);
    let solved = solved.beside(&part, &shop, vec![clearance]);
    (part, solved)
}

fn around(solved: &Solved) -> Vec<(&str, Severity)> {
    let of_it = solved.findings.iter().filter(|finding| finding.is_of_surroundings());
    of_it.map(|finding| (finding.fault, finding.severity)).collect()
}

/// Every limit from both sides, and exactly met, by the published and common figures themselves: T05, T07, T09.
#[test]
fn each_kind_has_its_own_limit() {
    let half = corner().tube.od.mm() / 2.0;
    let body = ("too-close", Severity::Caution);
    let cases = [
        (ObstacleKind::Body, 25.0, body),
        (ObstacleKind::Wiring, 100.0, body),
        (ObstacleKind::FuelLine, 38.1, ("too-close", Severity::Stop)),
        (ObstacleKind::Moving { travel: mm(12.0) }, 37.0, body),
        (ObstacleKind::Ground, 100.0, ("ground-too-near", Severity::Caution)),
    ];
    for (kind, limit_mm, wanted) in cases {
        let (_, below) = beside(&ground(half + limit_mm - 0.01, kind));
        assert_eq!(around(&below), [wanted], "{kind:?}");
        assert_eq!(below.findings.iter().find(|finding| finding.fault == wanted.0).unwrap().limit, limit_mm);
        let (_, met) = beside(&ground(half + limit_mm, kind));
        let left = around(&met);
        // Beside a fuel line more is usual than must be.
        assert!(if kind == ObstacleKind::FuelLine { left == [body] } else { left.is_empty() }, "{kind:?}: {left:?}");
        let (_, into) = beside(&ground(half - 0.01, kind));
        assert_eq!(around(&into), [("hits", Severity::Stop)], "{kind:?}");
    }
}

#[test]
fn what_was_found_beside_one_thing_goes_with_it() {
    let (part, shop) = (corner(), shop());
    let alone = solve(&part, &shop);
    let near = clearance(&part, &alone, &ground(40.0, ObstacleKind::Body));
    let beside = alone.clone().beside(&part, &shop, vec![near]);
    assert_eq!(around(&beside).len(), 1);
    assert_eq!(beside.findings.len(), alone.findings.len() + 1);
    let verdict = beside.verdict(&Words::new(&part, &shop, &beside));
    assert_eq!(verdict.severity, Some(Severity::Caution));
    assert!(verdict.text.contains("of \u{201c}Road\u{201d}, where ~25.0 mm are usual."), "{}", verdict.text);
    assert_eq!(beside.beside(&part, &shop, Vec::new()), alone, "alone again it says what it said");
}

#[test]
fn stretches_are_marked_where_they_are() {
    // A rod upright beside the second leg, 20 from the outside of the tube.
    let (part, shop) = (corner(), shop());
    let solved = solve(&part, &shop);
    let half = part.tube.od.mm() / 2.0;
    let leg = solved.centreline.point_at(solved.developed_length_mm - 150.0);
    let placement = Frame {
        origin: Point3::new(leg.x + half + 20.0 + 5.0, leg.y, 0.0),
        tangent: nalgebra::Vector3::z(),
        normal: nalgebra::Vector3::x(),
    };
    let rod = Neighbour {
        name: "Rod".into(),
        kind: NeighbourKind::Obstacle(ObstacleKind::Body),
        wanted: Wanted::own(mm(30.0)),
        stands: Ok(Stands::Body(Arc::new(Body::cylinder(mm(10.0), mm(900.0)).unwrap()), placement)),
        doubt: None,
    };
    let gap = clearance(&part, &solved, &rod).measured.unwrap();
    assert!((gap.least_mm - 20.0).abs() < 1e-6 && (gap.on_other - gap.on_tube).norm() - 20.0 < 1e-6, "{gap:?}");
    let near = clearance(&part, &solved, &rod);
    let beside = solved.beside(&part, &shop, vec![near]);
    let finding = &beside.findings[0];
    assert_eq!((finding.fault, finding.severity, finding.place.straight), ("too-close", Severity::Stop, Some(1)));
    // From the middle line to the rod's: half + 25; within half + 30 + 5 of it: a chord of that circle.
    let reach = ((half + 35.0).powi(2) - (half + 25.0).powi(2)).sqrt();
    let middle = beside.developed_length_mm - 150.0;
    let edges = (finding.place.from_mm - middle + reach, finding.place.to_mm - middle - reach);
    assert!(edges.0.abs() < 0.01 && edges.1.abs() < 0.01, "{edges:?}");
}

#[test]
fn what_was_not_measured_never_looks_clear() {
    let unknown = Neighbour { stands: Err("it is gone".into()), ..ground(1000.0, ObstacleKind::Body) };
    let (part, solved) = beside(&unknown);
    assert_eq!(around(&solved), [("not-measured", Severity::Stop)]);
    let text = solved.findings[0].found(&Words::new(&part, &shop(), &solved));
    assert_eq!(text, "Nothing is known of the room between the tube and \u{201c}Road\u{201d}: it is gone.");
    let doubtful = Neighbour { doubt: Some("it has changed".into()), ..ground(1000.0, ObstacleKind::Body) };
    assert_eq!(around(&beside(&doubtful).1), [("not-measured", Severity::Caution)]);
}

#[test]
fn joints_end_where_tubes_part() {
    let path = |origin: [f64; 3], along: [f64; 3], length_mm: f64| {
        let start = Frame::along(origin.into(), along.into(), nalgebra::Vector3::z()).unwrap();
        Centreline::of(&BendPath::new(start, vec![], mm(length_mm)).unwrap())
    };
    let first = path([0.0; 3], [1.0, 0.0, 0.0], 500.0);
    let gap = |other: Centreline| {
        let other = Neighbour {
            name: "Other".into(),
            kind: NeighbourKind::Tube,
            wanted: Wanted::apart(),
            stands: Ok(Stands::Tube(Arc::new(other), 50.0)),
            doubt: None,
        };
        other.measured(&first, 50.0, &mut Nearness::default()).map(|clearance| clearance.measured.unwrap())
    };
    let hits = |other: Centreline| gap(other).is_some_and(|gap| gap.least_mm < -1e-3);
    // On in line, on at an angle, a branch at right angles and one at 30° are joints.
    for (origin, along) in [
        ([500.0, 0.0, 0.0], [1.0, 0.0, 0.0]),
        ([500.0, 0.0, 0.0], [1.0, 1.0, 0.0]),
        ([250.0, 0.0, 0.0], [0.0, 1.0, 0.0]),
        ([100.0, 0.0, 0.0], [0.866, 0.5, 0.0]),
    ] {
        assert!(!hits(path(origin, along, 400.0)), "{origin:?} {along:?}");
    }
    // Back along it, along beside it, and through it are none; nor is an end that stops 2 mm outside.
    assert!(hits(path([500.0, 0.0, 0.0], [-1.0, 0.05, 0.0], 400.0)));
    assert!(hits(path([0.0, 30.0, 0.0], [1.0, 0.0, 0.0], 400.0)));
    assert!(hits(path([250.0, -200.0, 10.0], [0.0, 1.0, 0.0], 400.0)));
    assert!(hits(path([250.0, 27.0, 0.0], [0.0, 1.0, 0.0], 400.0)));
    assert!((gap(path([0.0, 80.0, 0.0], [1.0, 0.0, 0.0], 400.0)).unwrap().least_mm - 30.0).abs() < 1e-5);
    assert_eq!(gap(path([0.0, 180.0, 0.0], [1.0, 0.0, 0.0], 400.0)), None, "far away");
}
