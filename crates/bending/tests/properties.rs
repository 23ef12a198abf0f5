//! What holds for every part: the solver is total, the bite behaves, edits can be taken back.
#![allow(clippy::unwrap_used, clippy::panic)]

use elbowroom_bending::specimen::judged as solve;
use elbowroom_bending::specimen::{clamp_of, part, part_along, row_at, shop};
use elbowroom_bending::{Edit, EditRefusal, End, NodeId, Part, Path};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{Angle, BendPath, BendRow, Frame, Length, Point3, Vector3, VertexPath};
use nalgebra::{Rotation3, Unit};
use proptest::prelude::*;

fn angle() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), Just(180.0), 0.1..8.0, 8.0..200.0]
}

fn clr() -> impl Strategy<Value = f64> {
    prop_oneof![4 => Just(76.2), 1 => Just(101.6), 1 => Just(0.0), 1 => 5.0..300.0]
}

/// Rows as they come in bad dreams: overlaps, U-bends, radii of nothing.
fn junk_row() -> impl Strategy<Value = BendRow> {
    (prop_oneof![-80.0..400.0, Just(0.0), Just(125.0)], -180.0..180.0, angle(), clr())
        .prop_map(|(straight, rotation, angle, clr)| row_at(straight, rotation, angle, clr))
}

fn junk_rows() -> impl Strategy<Value = Part> {
    (prop::collection::vec(junk_row(), 0..12), -50.0..400.0).prop_map(|(rows, tail)| part(rows, tail).unwrap())
}

/// Vertices on a coarse grid, so that they coincide, line up and fold back often.
fn junk_vertices() -> impl Strategy<Value = Part> {
    let point = (-2..3_i32, -2..3_i32, -1..2_i32);
    (prop::collection::vec(point, 0..12), clr()).prop_map(|(points, clr)| {
        let at = |n: i32| f64::from(n) * 100.0;
        let points: Vec<_> = points.into_iter().map(|(x, y, z)| Point3::new(at(x), at(y), at(z))).collect();
        let radii = vec![Length::from_mm(clr); points.len().saturating_sub(2)];
        part_along(Path::Vertices(VertexPath::new(points, radii).unwrap()))
    })
}

fn junk() -> impl Strategy<Value = Part> {
    prop_oneof![junk_rows(), junk_vertices()]
}

/// Rows that can be built: everything ahead of the last bend may lie under its clamp.
fn fair_rows() -> impl Strategy<Value = Vec<BendRow>> {
    let row = (0.0..60.0, -180.0..180.0, 0.2..60.0, 20.0..150.0)
        .prop_map(|(straight, rotation, angle, clr)| row_at(straight, rotation, angle, clr));
    (prop::collection::vec(row, 1..6), 0.0..125.0, -180.0..180.0).prop_map(|(mut rows, straight, rotation)| {
        rows.push(row_at(straight, rotation, 60.0, 76.2));
        rows
    })
}

/// Parts as they are drawn in a shop, good and bad, in either form.
fn shop_part() -> impl Strategy<Value = Part> {
    let radius = prop_oneof![8 => Just(76.2), 1 => Just(101.6), 1 => Just(80.0)];
    let row = (10.0..200.0, -180.0..180.0, prop_oneof![1.0..10.0, 10.0..160.0], radius)
        .prop_map(|(straight, rotation, angle, clr)| row_at(straight, rotation, angle, clr));
    let clamp = prop_oneof![Just(None), Just(Some(50.0)), Just(Some(80.0)), Just(Some(100.0))];
    let units = prop::sample::select(LengthUnit::ALL.to_vec());
    let rows = prop::collection::vec(row, 1..5);
    (rows, 10.0..300.0, clamp, any::<bool>(), units).prop_map(|(rows, tail, clamp, is_drawn, units)| {
        let mut part = part(rows, tail).unwrap();
        part.units = units;
        part.tooling.clamp = clamp.map(clamp_of);
        if is_drawn {
            part.path = Path::Vertices(part.path.bend_form().path.to_vertex_form().unwrap());
        }
        part
    })
}

fn last_clamp(rows: &[BendRow], straight_mm: f64) -> elbowroom_bending::ClampOnTube {
    let mut rows = rows.to_vec();
    rows.last_mut().unwrap().straight = Length::from_mm(straight_mm);
    solve(&part(rows, 300.0).unwrap(), &shop()).bends.last().unwrap().clamp.unwrap()
}

fn edit() -> impl Strategy<Value = Edit> {
    let length = prop_oneof![-50.0..400.0, Just(f64::NAN), Just(2e9)].prop_map(Length::from_mm);
    let turn = prop_oneof![-30.0..380.0, Just(f64::INFINITY)].prop_map(Angle::from_degrees);
    let point = (-500.0..500.0, -500.0..500.0, -500.0..500.0).prop_map(|(x, y, z)| Point3::new(x, y, z));
    let index = (0..8_u32).prop_map(NodeId::new);
    prop_oneof![
        (index.clone(), length.clone()).prop_map(|(index, length)| Edit::SetStraight(index, length)),
        (index.clone(), turn.clone()).prop_map(|(index, angle)| Edit::SetRotation(index, angle)),
        (index.clone(), turn).prop_map(|(index, angle)| Edit::SetAngle(index, angle)),
        (index.clone(), length.clone()).prop_map(|(index, length)| Edit::SetClr(index, length)),
        (index.clone(), point.clone()).prop_map(|(index, point)| Edit::MoveVertex(index, point)),
        prop::collection::vec((index.clone(), point.clone()), 0..4).prop_map(Edit::MoveVertices),
        (index.clone(), point.clone()).prop_map(|(index, point)| Edit::InsertVertex(
            index,
            point,
            Length::from_mm(76.2)
        )),
        (index.clone(), prop::collection::vec(junk_row(), 0..3))
            .prop_map(|(index, rows)| Edit::InsertRows(index, rows)),
        (index.clone(), prop::collection::vec(junk_row(), 0..3))
            .prop_map(|(index, rows)| Edit::ReplaceRows(index, rows)),
        prop::collection::vec(index.clone(), 0..3).prop_map(Edit::RemoveBends),
        prop::collection::vec(index, 0..3).prop_map(Edit::RemoveVertices),
        point.prop_map(Edit::SetStart),
        length.prop_map(|length| Edit::SetStock(End::Start, length)),
        Just(Edit::SwapEnds),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Every number is finite, findings are in their order, the verdict fits the worst, nothing varies.
    #[test]
    fn solving_is_total_and_deterministic(part in junk()) {
        let shop = shop();
        let solved = solve(&part, &shop);
        prop_assert_eq!(&solved, &solve(&part, &shop));
        prop_assert_eq!(solved.straights_mm.len(), solved.bends.len() + 1);
        prop_assert!(solved.blank_length_mm.is_finite() && solved.lead_trim_mm >= 0.0 && solved.tail_trim_mm >= 0.0);
        for clamp in solved.bends.iter().filter_map(|bend| bend.clamp) {
            for number in [clamp.overlap_mm, clamp.bite_mm, clamp.bite_direction_rad, clamp.bite_at_mm, clamp.gripped_mm] {
                prop_assert!(number.is_finite());
            }
            prop_assert!(clamp.needs_straight_mm >= 0.0 && clamp.needs_straight_mm <= clamp.length_mm);
            prop_assert!(clamp.mark_free_straight_mm >= clamp.needs_straight_mm);
            prop_assert!(clamp.gripped_mm >= 0.0 && clamp.gripped_mm <= clamp.length_mm);
        }
        let findings = &solved.solved.findings;
        prop_assert!(findings.is_sorted_by(|a, b| a.severity >= b.severity));
        // What the verdict speaks of stands first, the others in their total order.
        prop_assert!(findings.iter().skip(1).is_sorted_by(|a, b| a.order(b).is_le()));
        prop_assert_eq!(solved.worst(), solved.findings.iter().map(|finding| finding.severity).max());
        prop_assert!(solved.verdict.text.ends_with('.'));
        for finding in &solved.findings {
            prop_assert!(finding.measured.is_finite() && finding.limit.is_finite(), "{:?}", finding);
            prop_assert!(finding.place.from_mm <= finding.place.to_mm, "{:?}", finding);
            prop_assert!(finding.text.ends_with('.') && finding.verdict.ends_with('.'), "{:?}", finding);
            prop_assert!(!finding.text.contains("NaN") && !finding.text.contains("inf"), "{:?}", finding);
            for cure in &finding.cures {
                // A cure is never a number out of range or a thing that is not there.
                let applied = cure.edit.applied_to(&part);
                prop_assert!(matches!(applied, Ok(_) | Err(EditRefusal::Impossible(_))), "{:?}: {:?}", cure, applied);
            }
        }
    }

    /// The further the clamp reaches over, the larger the bite.
    #[test]
    fn bite_is_monotone_in_overlap(rows in fair_rows(), a in 0.0..125.0, b in 0.0..125.0) {
        let (short, long) = if a < b { (a, b) } else { (b, a) };
        prop_assert!(last_clamp(&rows, short).bite_mm >= last_clamp(&rows, long).bite_mm - 1e-9);
    }

    /// The smallest straight gives just the bite that it was found for, and what it needs does not
    /// depend on what it has.
    #[test]
    fn smallest_straights_invert_the_bite(rows in fair_rows()) {
        let first = last_clamp(&rows, 60.0);
        for (straight_mm, limit_mm) in [(first.needs_straight_mm, 2.0), (first.mark_free_straight_mm, 0.3)] {
            let again = last_clamp(&rows, straight_mm);
            if straight_mm > 0.0 {
                prop_assert!((again.bite_mm - limit_mm).abs() < 1e-6, "{} for {}", again.bite_mm, limit_mm);
            } else {
                prop_assert!(again.bite_mm <= limit_mm + 1e-6);
            }
            prop_assert!((again.needs_straight_mm - first.needs_straight_mm).abs() < 1e-9);
        }
    }

    /// The bite is the worst distance of the drawn centreline from the clamp's axis.
    #[test]
    fn bite_is_what_sampling_finds(rows in fair_rows()) {
        let solved = solve(&part(rows, 300.0).unwrap(), &shop());
        let bend = solved.bends.len() - 1;
        let clamp = solved.bends[bend].clamp.unwrap();
        let axis = solved.centreline.arc(bend).unwrap().start;
        let mut worst = 0.0_f64;
        for step in 0..=4000 {
            let at = clamp.from_mm + clamp.length_mm * f64::from(step) / 4000.0;
            if at < -solved.lead_trim_mm {
                continue;
            }
            let element = solved.centreline.elements().iter().find(|element| at <= element.to_mm()).unwrap();
            let away = element.frame_at(at - element.from_mm).origin - axis.origin;
            worst = worst.max((away - axis.tangent * axis.tangent.dot(&away)).norm());
        }
        prop_assert!(worst <= clamp.bite_mm + 1e-9 && worst >= clamp.bite_mm - 0.04, "{} {}", worst, clamp.bite_mm);
    }

    /// Where the part lies in space makes no difference.
    #[test]
    fn rigid_motion_changes_nothing(
        rows in fair_rows(),
        axis in (-1.0..1.0, -1.0..1.0, 0.1..1.0),
        turn in 0.0..6.0,
        shift in (-3000.0..3000.0, -3000.0..3000.0, -3000.0..3000.0),
    ) {
        let here = part(rows.clone(), 300.0).unwrap();
        let rotation = Rotation3::from_axis_angle(&Unit::new_normalize(Vector3::new(axis.0, axis.1, axis.2)), turn);
        let world = Frame::world();
        let start = Frame {
            origin: Point3::new(shift.0, shift.1, shift.2),
            tangent: rotation * world.tangent,
            normal: rotation * world.normal,
        };
        let there = BendPath::new(start, rows, Length::from_mm(300.0)).unwrap();
        let vertices = there.to_vertex_form().unwrap();
        let here = solve(&here, &shop());
        for (path, tolerance) in [(Path::Bends(there), 0.0), (Path::Vertices(vertices), 1e-6)] {
            let moved = solve(&part_along(path), &shop());
            prop_assert_eq!(here.bends.len(), moved.bends.len());
            for (a, b) in here.bends.iter().zip(&moved.bends) {
                prop_assert_eq!(a.clamp.is_some(), b.clamp.is_some());
                let (Some(a), Some(b)) = (a.clamp, b.clamp) else { continue };
                prop_assert!((a.bite_mm - b.bite_mm).abs() <= tolerance);
                prop_assert!((a.needs_straight_mm - b.needs_straight_mm).abs() <= tolerance.sqrt());
            }
        }
    }

    /// Applying a cure makes its finding go or grow less.
    #[test]
    fn cures_cure(part in shop_part()) {
        let shop = shop();
        for finding in solve(&part, &shop).findings {
            for cure in &finding.cures {
                let Ok(cured) = cure.edit.applied_to(&part) else { continue };
                let after = solve(&cured, &shop);
                let left = after.findings.iter().filter(|one| {
                    one.fault == finding.fault
                        && (one.place.bend, one.place.straight) == (finding.place.bend, finding.place.straight)
                });
                for one in left {
                    let is_less = one.severity < finding.severity
                        || (one.measured - one.limit).abs() < (finding.measured - finding.limit).abs() - 1e-9;
                    prop_assert!(is_less, "\u{201c}{}\u{201d} leaves {:?} as {:?}", cure.label, finding, one);
                }
            }
        }
    }

    /// No edit panics, and whatever it gives can be solved.
    #[test]
    fn edits_are_total(part in junk(), edits in prop::collection::vec(edit(), 0..6)) {
        let mut now = part;
        for edit in edits {
            prop_assert!(!edit.label(&now).is_empty());
            match edit.applied_to(&now) {
                Ok(after) => now = after,
                Err(refusal) => prop_assert!(!refusal.to_string().is_empty()),
            }
            let _ = solve(&now, &shop());
        }
    }

    /// Numbers typed into rows can be typed back to the bit.
    #[test]
    fn row_edits_have_inverses(part in junk_rows(), index in 0..12_usize, value in 1.0..170.0) {
        let Path::Bends(path) = &part.path else { unreachable!() };
        let Some(row) = path.rows().get(index).copied() else { return Ok(()) };
        let bend = part.bend_id(index);
        let pairs = [
            (Edit::SetStraight(bend, Length::from_mm(value)), Edit::SetStraight(bend, row.straight)),
            (Edit::SetAngle(bend, Angle::from_degrees(value)), Edit::SetAngle(bend, row.angle)),
            (Edit::SetClr(bend, Length::from_mm(value)), Edit::SetClr(bend, row.clr)),
            (Edit::ReplaceRows(bend, vec![row_at(value, 0.0, value, value)]), Edit::ReplaceRows(bend, vec![row])),
        ];
        for (there, back) in pairs {
            let changed = there.applied_to(&part).unwrap();
            prop_assert_eq!(&back.applied_to(&changed).unwrap(), &part);
        }
        if index > 0 {
            let changed = Edit::SetRotation(bend, Angle::from_degrees(value)).applied_to(&part).unwrap();
            prop_assert_eq!(&Edit::SetRotation(bend, row.rotation).applied_to(&changed).unwrap(), &part);
        }
    }

    /// In vertices a straight becomes what it is set to: one vertex moves along the leg and all others stay to the bit, or
    /// where none can, everything beyond moves along by the same.
    #[test]
    fn a_straight_in_vertices_is_set_by_one_vertex(rows in fair_rows(), index in 0..6_usize, value in 30.0..400.0) {
        let path = BendPath::new(Frame::world(), rows, Length::from_mm(300.0)).unwrap();
        let part = part_along(Path::Vertices(path.to_vertex_form().unwrap()));
        let was = part.path.bend_form().path;
        if index > was.rows().len() {
            return Ok(());
        }
        let changed = Edit::SetStraight(part.straight_id(index), Length::from_mm(value)).applied_to(&part).unwrap();
        let is = changed.path.bend_form().path;
        let now = is.rows().get(index).map_or(is.tail(), |row| row.straight);
        prop_assert!((now.mm() - value).abs() < 1e-7);
        let (Path::Vertices(a), Path::Vertices(b)) = (&part.path, &changed.path) else { panic!("the form has changed") };
        let by: Vec<_> = a.points().iter().zip(b.points()).map(|(a, b)| b - a).collect();
        let moved: Vec<_> = by.iter().filter(|by| by.norm() > 0.0).collect();
        let leg = a.points()[index + 1] - a.points()[index];
        prop_assert!(moved.iter().all(|by| by.cross(&leg).norm() < 1e-7 * leg.norm() * by.norm().max(1.0)));
        if moved.len() > 1 {
            prop_assert_eq!(moved.len(), by.len() - index - 1, "everything beyond");
            prop_assert!(moved.iter().all(|by| (**by - moved[0]).norm() < 1e-9));
        }
    }
}
