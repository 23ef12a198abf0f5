//! Parts for the tests: a plain one, and random ones in both forms.
#![allow(dead_code, clippy::unwrap_used, clippy::panic)]

pub mod jargon;

use std::sync::Arc;

use elbowroom_bending::first_off::ToleranceChoice;
use elbowroom_bending::first_off::piece::{Piece, PieceFigures, Setting};
use elbowroom_bending::measurement::{MeasuredRow, Measurement};
use elbowroom_bending::text::{harmless, harmless_lines};
use elbowroom_bending::{
    ClampLength, End, ExtraStock, Guard, Hand, Keep, NodeId, Nodes, Part, Path, Seam, SeamStart, StockFigures, System,
    SystemTube, ToolingChoice, Tube, TubeId,
};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3, Vector3, VertexPath};
use proptest::collection::vec;
use proptest::prelude::*;

pub fn tube() -> Tube {
    Tube::new(Length::from_mm(50.8), Length::from_mm(1.5), Tube::USUAL_MATERIAL, Seam::Welded).unwrap()
}

pub fn part_along(path: Path) -> Part {
    Part {
        name: "test part".into(),
        note: String::new(),
        tube: tube(),
        tooling: ToolingChoice::default(),
        path,
        stock: ExtraStock::default(),
        pieces: Vec::new(),
        nodes: Nodes::default(),
        keep: Keep::default(),
        units: LengthUnit::Millimetre,
    }
}

/// Three bends in space, in vertex form, with one vertex on the line of its neighbours: vertex 2.
pub fn zigzag() -> Part {
    let points =
        [[0., 0., 0.], [400., 0., 0.], [400., 150., 0.], [400., 300., 0.], [700., 300., 200.], [900., 500., 200.]];
    let points: Vec<_> = points.into_iter().map(Point3::from).collect();
    let clr = vec![Length::from_mm(76.2); points.len() - 2];
    part_along(Path::Vertices(VertexPath::new(points, clr).unwrap()))
}

fn coordinate() -> impl Strategy<Value = f64> {
    prop_oneof![8 => -5000.0..5000.0, 1 => Just(0.0), 1 => -1e6..1e6]
}

pub fn vertex_path() -> impl Strategy<Value = VertexPath> {
    vec(((coordinate(), coordinate(), coordinate()), 0.0..500.0), 0..12).prop_map(|corners| {
        let clr = corners.iter().skip(2).map(|(_, clr)| Length::from_mm(*clr)).collect();
        let points = corners.iter().map(|((x, y, z), _)| Point3::new(*x, *y, *z)).collect();
        VertexPath::new(points, clr).unwrap()
    })
}

pub fn bend_row() -> impl Strategy<Value = BendRow> {
    (coordinate(), -3.2..3.2, 0.0..6.2, 0.0..500.0).prop_map(|(straight, rotation, angle, clr)| BendRow {
        straight: Length::from_mm(straight),
        rotation: Angle::from_radians(rotation),
        angle: Angle::from_radians(angle),
        clr: Length::from_mm(clr),
    })
}

pub fn bend_path() -> impl Strategy<Value = BendPath> {
    let axis = || (-1.0..1.0, -1.0..1.0, 0.1..1.0).prop_map(|(x, y, z)| Vector3::new(x, y, z));
    let start = ((coordinate(), coordinate(), coordinate()), axis(), axis());
    (start, vec(bend_row(), 0..10), coordinate()).prop_map(|((at, tangent, hint), rows, tail)| {
        let start = Frame::along(Point3::new(at.0, at.1, at.2), tangent, hint).unwrap();
        BendPath::new(start, rows, Length::from_mm(tail)).unwrap()
    })
}

pub fn path() -> impl Strategy<Value = Path> {
    prop_oneof![
        vertex_path().prop_map(Path::Vertices),
        bend_path().prop_map(Path::Bends),
        // What a conversion leaves behind has bits that no one typed.
        vertex_path().prop_map(|path| Path::Bends(path.to_bend_form().path)),
    ]
}

pub fn part() -> impl Strategy<Value = Part> {
    let units = prop_oneof![Just(LengthUnit::Millimetre), Just(LengthUnit::Inch), Just(LengthUnit::Foot)];
    let tooling = (proptest::option::of(".{0,12}"), proptest::option::of(1.0..300.0));
    let order = (end(), proptest::option::of(hand()), proptest::option::of(-179..=180_i16), any::<bool>(), tolerance());
    let rest = (units, path(), vec(piece(), 0..3), order);
    (".{0,20}", ".{0,60}", 10.0..200.0, tooling, (0.0..500.0, 0.0..500.0), rest).prop_map(
        |(
            name,
            note,
            od,
            (die, clamp),
            (lead, tail),
            (units, path, pieces, (from, hand, seam, as_planned, tolerance)),
        )| Part {
            // What a part holds has come through a door that lets in nothing but text.
            name: harmless(&name).into_owned(),
            note: harmless_lines(&note).into_owned(),
            tube: Tube::new(Length::from_mm(od), Length::from_mm(od / 37.0), "mild \"steel\"", Seam::Seamless).unwrap(),
            tooling: ToolingChoice {
                die: die.map(|die: String| harmless(&die).into_owned()),
                clamp: clamp.map(|mm| ClampLength::new(Length::from_mm(mm)).unwrap()),
                seam_start: seam.map(|degrees: i16| SeamStart::new(Angle::from_degrees(f64::from(degrees))).unwrap()),
                from,
                hand,
                as_planned,
                tolerance,
            },
            stock: StockFigures { lead: Length::from_mm(lead), tail: Length::from_mm(tail) }.sound().unwrap(),
            units,
            path,
            pieces,
            nodes: Nodes::default(),
            keep: Keep::default(),
        },
    )
}

fn tolerance() -> impl Strategy<Value = ToleranceChoice> {
    let figures = (proptest::option::of(0.01..20.0), proptest::option::of(0.01..20.0));
    figures.prop_map(|(degrees, mm)| {
        ToleranceChoice::new(degrees.map(Angle::from_degrees), mm.map(Length::from_mm)).unwrap()
    })
}

fn end() -> impl Strategy<Value = End> {
    prop_oneof![Just(End::Start), Just(End::Finish)]
}

fn hand() -> impl Strategy<Value = Hand> {
    prop_oneof![Just(Hand::Left), Just(Hand::Right)]
}

/// Systems of one to five tubes, some hidden, their places known by ids that edits have left in any order.
pub fn system() -> impl Strategy<Value = System> {
    let tube = (part(), any::<bool>(), any::<proptest::sample::Index>());
    let units = prop_oneof![Just(LengthUnit::Millimetre), Just(LengthUnit::Inch)];
    (".{0,20}", units, vec(tube, 1..5), 0..40_u32, any::<proptest::sample::Index>()).prop_map(
        |(name, units, tubes, first, active)| {
            let active = active.index(tubes.len());
            let tube = |(at, (mut part, hidden, turn)): (usize, (Part, bool, proptest::sample::Index))| {
                part.name = format!("{} {at}", part.name);
                let places = part.path.places() as u32;
                if hidden {
                    // As turned round, with an id that is gone between.
                    let gone = turn.index(places.max(1) as usize) as u32;
                    let ids = (0..places).rev().map(|id| NodeId::new(if id >= gone { id + 1 } else { id }));
                    part.nodes = Nodes::from_ids(ids.collect(), 0);
                }
                let id = TubeId::new(first + 3 * (at as u32 ^ 1));
                SystemTube { id, hidden: hidden && at != active, part: Arc::new(part) }
            };
            let tubes: Vec<_> = tubes.into_iter().enumerate().map(tube).collect();
            let active = tubes[active].id;
            System::new(name, units, tubes, active).unwrap()
        },
    )
}

fn angle() -> impl Strategy<Value = Angle> {
    (-3.2..3.2).prop_map(|radians| Angle::from_radians(radians).storable())
}

pub fn piece() -> impl Strategy<Value = Piece> {
    let length = || coordinate().prop_map(Length::from_mm);
    let above = || coordinate().prop_map(|mm| Length::from_mm(mm.abs()));
    let step = (length(), angle(), angle(), (0.01..1e4).prop_map(Length::from_mm));
    let step = step.prop_map(|(feed, rotation, set_angle, die_clr)| Setting { feed, rotation, set_angle, die_clr });
    let row = (length(), angle(), angle());
    let row = row.prop_map(|(straight, rotation, angle)| MeasuredRow { straight, rotation, angle });
    let point = (coordinate(), coordinate(), coordinate()).prop_map(|(x, y, z)| Point3::new(x, y, z));
    let measurement = prop_oneof![
        vec(point, 0..6).prop_map(Measurement::Points),
        (vec(row, 0..4), length()).prop_map(|(rows, tail)| Measurement::Rows(rows, tail)),
    ];
    ((end(), hand()), (above(), above(), above()), vec(step, 0..4), 0..3_usize, measurement).prop_map(
        |((from, hand), (blank, lead_trim, tail_trim), steps, corrected_after, measurement)| {
            PieceFigures {
                from,
                hand,
                tube: tube(),
                blank,
                lead_trim,
                tail_trim,
                steps,
                corrected_after,
                as_measured: corrected_after == 1,
                measurement,
            }
            .sound()
            .unwrap()
        },
    )
}
