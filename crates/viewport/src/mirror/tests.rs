//! Entities follow the workbench, without a window or a graphics card.
#![allow(clippy::unwrap_used)]

use bevy::ecs::schedule::{LogLevel, ScheduleBuildSettings};
use bevy::gizmos::GizmoPlugin;
use bevy::input::InputPlugin;
use bevy::mesh::{MeshPlugin, VertexAttributeValues};
use bevy::prelude::*;
use bevy::window::WindowEvent;
use elbowroom_bending::{Edit, NodeId, Part, Severity, specimen};
use elbowroom_geometry::{HandleId, Length, Point3, Vector3};
use elbowroom_workbench::{Command, SelectMode, Target, Workbench};

use super::Shadow;
use super::fixture::Fixture;
use super::seam::SeamLine;
use super::shadow::StretchId;
use super::tube::Marked;
use crate::marks::severity_at;
use crate::place::SceneOrigin;
use crate::{Desk, SceneArea, ViewportPlugin};

/// Two bends with 60 mm between them: too short for the clamp of 125 mm, so there are marks.
pub fn app() -> App {
    let rows = vec![specimen::row(200.0, 0.0, 90.0), specimen::row(60.0, 90.0, 60.0)];
    app_of(specimen::part(rows, 220.0).unwrap())
}

/// The scene with a part on the desk.
pub(super) fn app_of(part: Part) -> App {
    let mut app = App::new();
    app.add_plugins((MinimalPlugins, AssetPlugin::default(), MeshPlugin, GizmoPlugin, InputPlugin));
    app.add_message::<WindowEvent>();
    app.insert_resource(Desk(Workbench::new(part, specimen::shop())));
    app.add_plugins(ViewportPlugin);
    app.insert_resource(SceneArea { size: Vec2::new(1200.0, 700.0), ..default() });
    app.update();
    app
}

pub fn perform(app: &mut App, command: Command) {
    app.world_mut().resource_mut::<Desk>().0.perform(command);
    app.update();
}

fn named(app: &App, target: Target) -> Target<NodeId> {
    app.world().resource::<Desk>().0.named(target)
}

pub(super) fn edit(app: &mut App, edit: Edit) {
    perform(app, Command::Edit(edit));
}

/// Every stretch with its mark and its corners in the scene.
fn stretches(app: &mut App) -> Vec<(StretchId, Option<Severity>, Vec<[f32; 3]>)> {
    let mut query = app.world_mut().query::<(&StretchId, &Marked, &Mesh3d)>();
    let world = app.world();
    let meshes = world.resource::<Assets<Mesh>>();
    let mut found: Vec<_> = query
        .iter(world)
        .map(|(id, marked, mesh)| {
            let mesh = meshes.get(&mesh.0).unwrap();
            let Some(VertexAttributeValues::Float32x3(places)) = mesh.attribute(Mesh::ATTRIBUTE_POSITION) else {
                return (*id, marked.0, Vec::new());
            };
            (*id, marked.0, places.clone())
        })
        .collect();
    let names = world.resource::<Shadow>().names.clone();
    found.sort_by_key(|(id, ..)| names.iter().position(|name| name == id));
    found
}

fn fixtures(app: &mut App) -> Vec<Fixture> {
    let mut query = app.world_mut().query::<&Fixture>();
    query.iter(app.world()).copied().collect()
}

/// What is there is what a fresh start on the same workbench would make.
fn assert_true_to_the_part(app: &mut App) {
    let found = stretches(app);
    let world = app.world();
    let (shadow, desk, origin) =
        (world.resource::<Shadow>(), world.resource::<Desk>(), world.resource::<SceneOrigin>());
    let mut fresh = Shadow::default();
    fresh.follow(desk.0.part(), desk.0.solved());
    assert_eq!(shadow.skin, fresh.skin);
    assert_eq!(found.len(), fresh.skin.stretches.len());
    for ((id, marked, places), stretch) in found.iter().zip(&fresh.skin.stretches) {
        let on = match stretch.element % 2 {
            0 => Target::Straight(stretch.element / 2),
            _ => Target::Bend(stretch.element / 2),
        };
        assert_eq!(id.on, desk.0.named(on));
        assert_eq!(*marked, severity_at(&fresh.marks, (stretch.from_mm + stretch.to_mm) / 2.0));
        let wanted: Vec<_> =
            fresh.skin.positions[stretch.vertices.clone()].iter().map(|place| origin.point(place).to_array()).collect();
        assert_eq!(*places, wanted, "{id:?}");
    }
}

#[test]
fn stretches_follow_every_edit_and_go_when_the_tube_gets_shorter() {
    let mut app = app();
    assert_true_to_the_part(&mut app);
    let straight = app.world().resource::<Desk>().0.solved().nodes.straight(1);
    edit(&mut app, Edit::SetStraight(straight, Length::from_mm(300.0)));
    assert_true_to_the_part(&mut app);
    let bend = app.world().resource::<Desk>().0.solved().nodes.bend(0);
    edit(&mut app, Edit::RemoveBends(vec![bend]));
    assert_true_to_the_part(&mut app);
    perform(&mut app, Command::Undo);
    assert_true_to_the_part(&mut app);
    edit(&mut app, Edit::SetTube(specimen::tube().with(|tube| tube.od = Length::from_mm(38.0)).unwrap()));
    assert_true_to_the_part(&mut app);
}

#[test]
fn a_preview_is_shown_in_the_very_frame_and_gone_when_dropped() {
    let mut app = app();
    let before = stretches(&mut app);
    let straight = app.world().resource::<Desk>().0.solved().nodes.straight(0);
    perform(&mut app, Command::Preview(Edit::SetStraight(straight, Length::from_mm(250.0))));
    assert_true_to_the_part(&mut app);
    assert_ne!(stretches(&mut app), before);
    perform(&mut app, Command::DropPreview);
    assert_eq!(stretches(&mut app), before);
}

#[test]
fn what_is_held_is_drawn_as_held() {
    use elbowroom_bending::Hold;
    let mut app = app();
    let (start, bend) = {
        let nodes = &app.world().resource::<Desk>().0.solved().nodes;
        (nodes.start(), nodes.bend(0))
    };
    let at_start = Target::Handle(HandleId::Start);
    let at_bend = Target::Handle(HandleId::Vertex(bend));
    assert!(fixtures(&mut app).contains(&Fixture::Knob(at_start)));
    edit(&mut app, Edit::Hold(start, Hold::PLACE));
    edit(&mut app, Edit::Hold(bend, Hold::BOTH));
    let shown = fixtures(&mut app);
    for wanted in
        [Fixture::Pin(at_start), Fixture::Pin(at_bend), Fixture::Course(at_bend, false), Fixture::Course(at_bend, true)]
    {
        assert!(shown.contains(&wanted), "{wanted:?} is missing");
    }
    assert!(!shown.contains(&Fixture::Knob(at_start)) && !shown.contains(&Fixture::Course(at_start, true)));
    edit(&mut app, Edit::FreeAll);
    let shown = fixtures(&mut app);
    assert!(shown.contains(&Fixture::Knob(at_bend)));
    assert!(!shown.iter().any(|fixture| matches!(fixture, Fixture::Pin(_) | Fixture::Course(..))));
}

#[test]
fn dropped_entities_are_rebuilt() {
    let mut app = app();
    let before = stretches(&mut app);
    let mut query = app.world_mut().query_filtered::<Entity, Or<(With<StretchId>, With<Fixture>)>>();
    let all: Vec<Entity> = query.iter(app.world()).collect();
    assert!(all.len() > 8);
    let standing = fixtures(&mut app).len();
    for entity in all {
        app.world_mut().despawn(entity);
    }
    app.update();
    assert_eq!(stretches(&mut app), before);
    assert_eq!(fixtures(&mut app).len(), standing);
}

#[test]
fn nothing_is_made_anew_while_nothing_changes() {
    let mut app = app();
    app.update();
    let change = |app: &mut App| {
        let mut query = app.world_mut().query_filtered::<Entity, Changed<Mesh3d>>();
        query.iter(app.world()).count()
    };
    app.world_mut().clear_trackers();
    let target = named(&app, Target::Bend(0));
    perform(&mut app, Command::Hover(Some(target)));
    let target = named(&app, Target::Straight(1));
    perform(&mut app, Command::Select(target, SelectMode::Only));
    assert_eq!(change(&mut app), 0);
}

#[test]
fn marks_end_exactly_where_the_finding_does() {
    let mut app = app();
    let desk = &app.world().resource::<Desk>().0;
    let findings = desk.solved().findings.clone();
    assert!(findings.iter().any(|finding| finding.severity > Severity::Note), "the specimen is to be faulty");
    let shadow = app.world().resource::<Shadow>();
    let edges: Vec<f64> = shadow.skin.stretches.iter().flat_map(|stretch| [stretch.from_mm, stretch.to_mm]).collect();
    let (first_mm, last_mm) = desk.solved().centreline.stations_mm();
    for place in findings.iter().flat_map(|finding| finding.places()).filter(|place| place.to_mm > place.from_mm) {
        for wanted in [place.from_mm.max(first_mm), place.to_mm.min(last_mm)] {
            let nearest = edges.iter().map(|edge| (edge - wanted).abs()).fold(f64::INFINITY, f64::min);
            assert!(nearest < 1e-6, "no skin ends at {wanted}, {nearest} mm off");
        }
    }
    // And the corners of the mesh are on the plane of the cut, to the digits of the scene.
    let mark = shadow.marks[0];
    let frame = desk.solved().centreline.frame_at(mark.from_mm);
    let origin = *app.world().resource::<SceneOrigin>();
    let (at, along) = (origin.point(&frame.origin), crate::place::direction(&frame.tangent));
    let radius = (specimen::OD_MM / 2.0) as f32;
    let on_cut = stretches(&mut app)
        .iter()
        .filter(|(_, marked, _)| *marked == Some(mark.severity))
        .flat_map(|(.., places)| places.clone())
        .filter(|place| {
            let from = Vec3::from_array(*place) - at;
            from.dot(along).abs() < 1e-3 && (from.length() - radius).abs() < 1e-3
        })
        .count();
    assert!(on_cut >= 8, "{on_cut} corners on the cut");
}

#[test]
fn the_rings_of_a_stop_are_seen_from_however_far_away() {
    use crate::camera::Eye;

    let mut app = app();
    let od_mm = specimen::OD_MM as f32;
    let sizes = |app: &mut App| {
        let mut query = app.world_mut().query::<(&Fixture, &Transform)>();
        let rings = query.iter(app.world()).filter(|(fixture, _)| matches!(fixture, Fixture::Ring(..)));
        let sizes: Vec<(f32, f32)> = rings.map(|(_, placed)| (placed.scale.x, placed.scale.y - od_mm / 2.0)).collect();
        assert!(!sizes.is_empty(), "the specimen has a stop");
        sizes
    };
    for distance_mm in [500.0, 5e3, 5e4] {
        app.world_mut().resource_mut::<Eye>().distance_mm = distance_mm;
        app.update();
        let eye = *app.world().resource::<Eye>();
        let area = *app.world().resource::<SceneArea>();
        let pixel_mm = crate::camera::View::new(&eye, &area).unwrap().pixel_mm(&eye.focus).unwrap() as f32;
        for (length, rise) in sizes(&mut app) {
            // The ring lies before or behind the focus by some share of the distance.
            assert!(length > 4.5 * pixel_mm && rise > 1.5 * pixel_mm, "{distance_mm}: {length} {rise} of {pixel_mm}");
        }
    }
}

#[test]
fn the_pattern_of_a_mark_grows_as_the_eye_goes_away() {
    use crate::camera::Eye;
    use crate::look::{Paint, Paints, Wearer};

    let mut app = app();
    let grain = |app: &App| {
        let paint = app.world().resource::<Paints>().of(Wearer::Stretch(Some(Severity::Caution), Default::default()));
        app.world().resource::<Assets<Paint>>().get(&paint).unwrap().uniform.grain
    };
    let mut seen = Vec::new();
    for distance_mm in [200.0, 2e3, 2e4] {
        app.world_mut().resource_mut::<Eye>().distance_mm = distance_mm;
        app.update();
        seen.push(grain(&app));
    }
    assert_eq!(seen[0], Vec4::new(1.0, 1.0, 0.0, 0.0), "near by it is as fine as it is made");
    assert!(seen[1].y < seen[0].y && seen[2].y < seen[1].y, "{seen:?}");
    assert_eq!(seen[2].x, 0.25, "two are left round the tube");
}

#[test]
fn the_clamp_of_the_selected_bend_stands_in_its_true_length_and_place() {
    let mut app = app();
    assert!(!fixtures(&mut app).contains(&Fixture::Clamp));
    let target = named(&app, Target::Bend(1));
    perform(&mut app, Command::Select(target, SelectMode::Only));
    let mut query = app.world_mut().query::<(&Fixture, &Transform)>();
    let placed = query.iter(app.world()).find(|(fixture, _)| **fixture == Fixture::Clamp).map(|(_, at)| *at).unwrap();
    let desk = &app.world().resource::<Desk>().0;
    let (arc, clamp) = (desk.solved().centreline.arc(1).unwrap(), desk.solved().bends[1].clamp.unwrap());
    assert!((f64::from(placed.scale.x) - clamp.length_mm).abs() < 1e-4);
    let origin = app.world().resource::<SceneOrigin>();
    let end = placed.transform_point(Vec3::new(0.5, 0.0, 0.0));
    assert!((end - origin.point(&arc.start.origin)).length() < 1e-2, "it ends where the bend starts");
    let tip = arc.start.origin - arc.start.tangent * clamp.length_mm;
    assert!((placed.transform_point(Vec3::new(-0.5, 0.0, 0.0)) - origin.point(&tip)).length() < 1e-2);
}

#[test]
fn far_from_the_world_s_origin_the_meshes_keep_their_shape() {
    let mut app = app();
    let near = stretches(&mut app);
    let path = app.world().resource::<Desk>().0.solved().form.path.clone();
    let mut start = *path.start();
    start.origin += Vector3::new(9e6, -8e6, 7e6);
    let far = elbowroom_geometry::BendPath::new(start, path.rows().to_vec(), path.tail()).unwrap();
    edit(&mut app, Edit::SetPath(elbowroom_bending::Path::Bends(far)));
    let moved = stretches(&mut app);
    let middle = |places: &[[f32; 3]]| Vec3::from_array(places[0]);
    assert!(app.world().resource::<SceneOrigin>().0 != Point3::origin());
    for ((_, _, a), (_, _, b)) in near.iter().zip(&moved) {
        for (p, q) in a.iter().zip(b) {
            let differ = (Vec3::from_array(*p) - middle(a)) - (Vec3::from_array(*q) - middle(b));
            assert!(differ.length() < 2e-3, "{differ}");
        }
    }
}

#[test]
fn a_vertex_without_a_bend_has_a_handle_and_can_be_deleted() {
    let mut app = app();
    let path = app.world().resource::<Desk>().0.solved().form.path.to_vertex_form().unwrap();
    let (from, to) = (path.points()[0], path.points()[1]);
    edit(&mut app, Edit::SetPath(elbowroom_bending::Path::Vertices(path)));
    let count = fixtures(&mut app).len();
    let straight = app.world().resource::<Desk>().0.solved().nodes.straight(0);
    edit(&mut app, Edit::InsertVertex(straight, from + (to - from) * 0.4, Length::from_mm(specimen::CLR_MM)));
    let knob = Fixture::Knob(named(&app, Target::Vertex(1)));
    assert!(fixtures(&mut app).contains(&knob));
    assert_eq!(app.world().resource::<Desk>().0.selection().targets(), [Target::Vertex(1)]);
    perform(&mut app, Command::DeleteSelection);
    assert!(!fixtures(&mut app).contains(&knob));
    assert_eq!(fixtures(&mut app).len(), count);
}

#[test]
fn the_seam_is_drawn_for_welded_tube_and_anew_only_on_change() {
    let mut app = app();
    let strips = |app: &mut App| {
        let mut query = app.world_mut().query_filtered::<&Gizmo, With<SeamLine>>();
        let handles: Vec<_> = query.iter(app.world()).map(|gizmo| gizmo.handle.clone()).collect();
        assert_eq!(handles.len(), 1);
        app.world().resource::<Assets<GizmoAsset>>().get(&handles[0]).unwrap().buffer().buffer().strip_positions.len()
    };
    let welded = specimen::tube().closed_by(elbowroom_bending::Seam::Welded);
    edit(&mut app, Edit::SetTube(welded));
    assert!(strips(&mut app) > 10);
    let changed = |app: &mut App| {
        let mut query = app.world_mut().query_filtered::<Entity, Changed<SeamLine>>();
        query.iter(app.world()).count()
    };
    app.world_mut().clear_trackers();
    app.update();
    assert_eq!(changed(&mut app), 0);
    let seamless = specimen::tube().closed_by(elbowroom_bending::Seam::Seamless);
    edit(&mut app, Edit::SetTube(seamless));
    assert_eq!(strips(&mut app), 0);
}

#[test]
fn the_systems_have_no_ambiguous_order() {
    let mut app = App::new();
    app.add_plugins((MinimalPlugins, AssetPlugin::default(), MeshPlugin, GizmoPlugin, InputPlugin));
    app.add_message::<WindowEvent>();
    let part = specimen::part(vec![specimen::row(200.0, 0.0, 90.0)], 200.0).unwrap();
    app.insert_resource(Desk(Workbench::new(part, specimen::shop())));
    app.add_plugins(ViewportPlugin);
    let strict = ScheduleBuildSettings { ambiguity_detection: LogLevel::Error, ..default() };
    app.edit_schedule(Update, |schedule| {
        schedule.set_build_settings(strict.clone());
    });
    app.edit_schedule(Startup, |schedule| {
        schedule.set_build_settings(strict.clone());
    });
    // Building a schedule that is ambiguous fails here.
    app.update();
}

#[test]
fn the_ghost_comes_with_a_measurement_and_goes_with_it() {
    use elbowroom_bending::measurement::{MeasuredRow, Measurement};
    use elbowroom_bending::plan::plan;

    use super::ghost::Ghost;

    let corners = |app: &mut App| -> Option<Vec<[f32; 3]>> {
        let mut query = app.world_mut().query_filtered::<&Mesh3d, With<Ghost>>();
        let world = app.world();
        let mesh = world.resource::<Assets<Mesh>>().get(&query.iter(world).next()?.0)?;
        match mesh.attribute(Mesh::ATTRIBUTE_POSITION)? {
            VertexAttributeValues::Float32x3(places) => Some(places.clone()),
            _ => None,
        }
    };
    let mut app = app();
    assert_eq!(corners(&mut app), None);
    let (mut rows, tail) = {
        let bench = &app.world().resource::<Desk>().0;
        let design = plan(bench.part(), bench.shop()).unwrap().program.as_bent;
        let row = |row: &elbowroom_geometry::BendRow| MeasuredRow {
            straight: row.straight,
            rotation: row.rotation,
            angle: row.angle,
        };
        (design.rows().iter().map(row).collect::<Vec<_>>(), design.tail())
    };
    rows[1].straight += Length::from_mm(3.0);
    perform(&mut app, Command::SetMeasurement(Measurement::Rows(rows.clone(), tail)));
    let once = corners(&mut app).unwrap();
    perform(&mut app, Command::MagnifyGhost(20.0));
    let magnified = corners(&mut app).unwrap();
    assert_ne!(once, magnified);
    assert_true_to_the_part(&mut app);
    // Doubtful, then put away: no ghost.
    rows.pop();
    perform(&mut app, Command::SetMeasurement(Measurement::Rows(rows, tail)));
    assert_eq!(corners(&mut app), None);
    perform(&mut app, Command::ClearMeasurement);
    assert_eq!(corners(&mut app), None);
}

#[test]
fn a_change_that_is_pointed_at_is_laid_over_the_tube_and_goes_with_the_pointer() {
    use elbowroom_bending::Edit;

    use super::proposal::Proposed;

    let skins = |app: &mut App| app.world_mut().query::<&Proposed>().iter(app.world()).count();
    let mut app = app();
    let straight = app.world().resource::<Desk>().0.solved().nodes.straight(1);
    let longer = Edit::SetStraight(straight, Length::from_mm(555.0));
    perform(&mut app, Command::PointAtChange(Some(longer.clone())));
    assert_eq!(skins(&mut app), 1);
    assert_true_to_the_part(&mut app);
    // Pointing at it again makes nothing anew, and what leaves the centreline alone lays nothing there.
    let first = app.world_mut().query_filtered::<Entity, With<Proposed>>().single(app.world()).unwrap();
    perform(&mut app, Command::PointAtChange(Some(longer.clone())));
    assert_eq!(app.world_mut().query_filtered::<Entity, With<Proposed>>().single(app.world()).unwrap(), first);
    perform(&mut app, Command::PointAtChange(Some(Edit::ChooseClamp(Some(Length::from_mm(80.0))))));
    assert_eq!(skins(&mut app), 0);
    perform(&mut app, Command::PointAtChange(Some(longer.clone())));
    perform(&mut app, Command::PointAtChange(None));
    assert_eq!(skins(&mut app), 0);
    // Made, it is the tube itself.
    perform(&mut app, Command::PointAtChange(Some(longer.clone())));
    perform(&mut app, Command::Edit(longer));
    assert_eq!(skins(&mut app), 0);
    assert_true_to_the_part(&mut app);
}
