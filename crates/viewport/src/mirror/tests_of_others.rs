//! The tubes that are not worked on: which stand in the scene, and when their skins are made anew.
#![allow(clippy::unwrap_used, clippy::panic)]

use bevy::prelude::*;
use elbowroom_bending::{Edit, SystemEdit, TubeId, specimen};
use elbowroom_geometry::units::LengthUnit;
use elbowroom_geometry::{BendPath, Length, Vector3};
use elbowroom_workbench::{Command, ViewCommand};

use super::others::{OtherTube, Others};
use super::tests::{app, edit, perform};
use crate::camera::{Eye, View};
use crate::look::{Paint, Paints, Wearer};
use crate::place::SceneOrigin;
use crate::{Desk, SceneArea, SceneLabels, ViewWishes};

/// The specimen, a copy of it and a straight piece, which is worked on.
fn three() -> (App, [TubeId; 3]) {
    let mut app = app();
    let first = app.world().resource::<Desk>().0.system().active();
    perform(&mut app, Command::EditSystem(SystemEdit::DuplicateTube(first)));
    perform(&mut app, Command::AddTube);
    let ids: Vec<_> = app.world().resource::<Desk>().0.system().tubes().iter().map(|tube| tube.id).collect();
    let [first, copy, new] = ids[..] else { panic!("{ids:?}") };
    (app, [first, copy, new])
}

/// The tubes whose skins are seen, in the order of their ids.
fn seen(app: &mut App) -> Vec<TubeId> {
    let mut query = app.world_mut().query::<(&OtherTube, &Visibility)>();
    let shown = query.iter(app.world()).filter(|(_, visibility)| **visibility != Visibility::Hidden);
    let mut seen: Vec<_> = shown.map(|(tube, _)| tube.id).collect();
    seen.sort_unstable();
    seen
}

/// How many skins were made since this was asked last.
fn made(app: &App, last: &mut u64) -> u64 {
    let made = app.world().resource::<Others>().made;
    made - std::mem::replace(last, made)
}

#[test]
fn every_tube_that_is_not_hidden_is_seen() {
    let (mut app, [first, copy, new]) = three();
    assert_eq!(seen(&mut app), [first, copy]);
    perform(&mut app, Command::EditSystem(SystemEdit::HideTube(copy)));
    assert_eq!(seen(&mut app), [first]);
    perform(&mut app, Command::EditSystem(SystemEdit::Activate(copy)));
    assert_eq!(seen(&mut app), [first, new]);
    perform(&mut app, Command::EditSystem(SystemEdit::RemoveTube(first)));
    assert_eq!(seen(&mut app), [new]);
    perform(&mut app, Command::Undo);
    assert_eq!(seen(&mut app), [first, new]);
    let mut query = app.world_mut().query_filtered::<Entity, With<OtherTube>>();
    let all: Vec<Entity> = query.iter(app.world()).collect();
    for entity in all {
        app.world_mut().despawn(entity);
    }
    app.update();
    assert_eq!(seen(&mut app), [first, new], "what was dropped is built again");
}

#[test]
fn a_skin_is_made_anew_only_when_that_tube_is_drawn_otherwise() {
    let (mut app, [first, copy, new]) = three();
    let mut last = 0;
    assert_eq!(made(&app, &mut last), 2, "the first and its copy");
    let straight = |tube: TubeId, length_mm: f64, app: &App| {
        let id = app.world().resource::<Desk>().0.solved_tube(tube).unwrap().nodes.straight(0);
        SystemEdit::ChangeTube(tube, Edit::SetStraight(id, Length::from_mm(length_mm)))
    };
    let change = |app: &mut App, edit: SystemEdit| perform(app, Command::EditSystem(edit));
    let active = straight(new, 321.0, &app);
    change(&mut app, active);
    change(&mut app, SystemEdit::Rename("Hill".into()));
    change(&mut app, SystemEdit::ChangeTube(first, Edit::Rename("Downpipe".into())));
    change(&mut app, SystemEdit::ChangeTube(new, Edit::ShowUnits(LengthUnit::Inch)));
    perform(&mut app, Command::PointAtTube(Some(first)));
    assert_eq!(made(&app, &mut last), 0, "nothing that is drawn of the other tubes has changed");
    let other = straight(copy, 250.0, &app);
    change(&mut app, other);
    assert_eq!(made(&app, &mut last), 1, "the copy alone");
    perform(&mut app, Command::Undo);
    assert_eq!(made(&app, &mut last), 1, "the copy alone goes back");
    change(&mut app, SystemEdit::HideTube(first));
    change(&mut app, SystemEdit::ShowTube(first));
    assert_eq!(made(&app, &mut last), 0, "it was only out of sight");
    change(&mut app, SystemEdit::Activate(first));
    assert_eq!(made(&app, &mut last), 1, "the new tube is seen from outside for the first time");
    change(&mut app, SystemEdit::Activate(new));
    change(&mut app, SystemEdit::Activate(first));
    assert_eq!(made(&app, &mut last), 0, "nothing was changed in between");
    let own = straight(first, 260.0, &app);
    change(&mut app, own);
    change(&mut app, SystemEdit::Activate(new));
    assert_eq!(made(&app, &mut last), 1, "it was changed while it was worked on");
    for _ in 0..3 {
        app.update();
    }
    assert_eq!(made(&app, &mut last), 0);
}

#[test]
fn a_drag_of_one_tube_leaves_the_others_alone_and_they_stay_in_their_place() {
    let (mut app, [first, copy, _]) = three();
    let mut last = 0;
    made(&app, &mut last);
    let corner = |app: &mut App, tube: TubeId| {
        let mut query = app.world_mut().query::<(&OtherTube, &Mesh3d, &Transform)>();
        let world = app.world();
        let (_, mesh, place) = query.iter(world).find(|(other, ..)| other.id == tube).unwrap();
        let mesh = world.resource::<Assets<Mesh>>().get(&mesh.0).unwrap();
        let corners = mesh.attribute(Mesh::ATTRIBUTE_POSITION).unwrap().as_float3().unwrap();
        let origin = world.resource::<SceneOrigin>();
        let corner = place.transform_point(Vec3::from_array(corners[0])).as_dvec3();
        // Back in the world.
        [origin.0.x + corner.x, origin.0.y + corner.y, origin.0.z + corner.z]
    };
    let before = corner(&mut app, copy);
    let path = app.world().resource::<Desk>().0.solved().form.path.clone();
    let mut start = *path.start();
    start.origin += Vector3::new(9e6, -8e6, 7e6);
    let far = BendPath::new(start, path.rows().to_vec(), path.tail()).unwrap();
    edit(&mut app, Edit::SetPath(elbowroom_bending::Path::Bends(far)));
    assert_eq!(made(&app, &mut last), 0, "the scene's origin moves without them");
    let after = corner(&mut app, copy);
    for (one, other) in before.iter().zip(after) {
        // Seen from 9 km away; in f32 that is a millimetre.
        assert!((one - other).abs() < 2.0, "{before:?} {after:?}");
    }
    perform(&mut app, Command::EditSystem(SystemEdit::Activate(first)));
    let near = corner(&mut app, copy);
    for (one, other) in before.iter().zip(near) {
        assert!((one - other).abs() < 2e-3, "{before:?} {near:?}");
    }
}

#[test]
fn they_lie_where_they_are_drawn_and_reach_to_half_the_diameter() {
    let (mut app, [first, ..]) = three();
    let mut query = app.world_mut().query::<(&OtherTube, &Mesh3d, &Transform)>();
    let world = app.world();
    let (_, mesh, place) = query.iter(world).find(|(other, ..)| other.id == first).unwrap();
    let mesh = world.resource::<Assets<Mesh>>().get(&mesh.0).unwrap();
    let origin = *world.resource::<SceneOrigin>();
    let solved = world.resource::<Desk>().0.solved_tube(first).unwrap();
    let axis: Vec<Vec3> = (0..=2000)
        .map(|step| {
            let (from_mm, to_mm) = solved.centreline.stations_mm();
            origin.point(&solved.centreline.point_at(from_mm + (to_mm - from_mm) * f64::from(step) / 2000.0))
        })
        .collect();
    let radius = (specimen::OD_MM / 2.0) as f32;
    let corners = mesh.attribute(Mesh::ATTRIBUTE_POSITION).unwrap().as_float3().unwrap();
    assert!(corners.len() > 100);
    for corner in corners {
        let at = place.transform_point(Vec3::from_array(*corner));
        let away = axis.iter().map(|point| point.distance(at)).fold(f32::INFINITY, f32::min);
        assert!((away - radius).abs() < 0.1, "{away} from the axis instead of {radius}");
    }
}

#[test]
fn the_one_that_is_pointed_at_is_lit_up_and_told_by_its_name() {
    let (mut app, [first, copy, new]) = three();
    perform(&mut app, Command::EditSystem(SystemEdit::ChangeTube(copy, Edit::Rename("Tail".into()))));
    perform(&mut app, Command::PointAtTube(Some(copy)));
    let mut query = app.world_mut().query::<(&OtherTube, &MeshMaterial3d<Paint>)>();
    let lit = app.world().resource::<Paints>().of(Wearer::OtherTube(true));
    let lit: Vec<_> = query.iter(app.world()).filter(|(_, paint)| paint.0 == lit).map(|(tube, _)| tube.id).collect();
    assert_eq!(lit, [copy]);
    // The room between tubes is told beside it, weakly.
    let strong = |app: &App| {
        app.world().resource::<SceneLabels>().0.iter().filter(|label| label.strong).cloned().collect::<Vec<_>>()
    };
    let said = |app: &App| strong(app).into_iter().map(|label| label.text).collect();
    let told: Vec<String> = said(&app);
    assert_eq!(told, ["Tail"]);
    perform(&mut app, Command::EditSystem(SystemEdit::HideTube(copy)));
    let told: Vec<String> = said(&app);
    assert!(told.is_empty(), "a hidden tube has no label: {told:?}");
    perform(&mut app, Command::EditSystem(SystemEdit::ShowTube(copy)));
    perform(&mut app, Command::EditSystem(SystemEdit::Activate(copy)));
    assert_eq!(app.world().resource::<Desk>().0.tube_hover(), None, "it is worked on now");
    perform(&mut app, Command::PointAtTube(Some(copy)));
    assert_eq!(app.world().resource::<Desk>().0.tube_hover(), None);
    for tube in [first, new] {
        perform(&mut app, Command::PointAtTube(Some(tube)));
        assert_eq!(app.world().resource::<Desk>().0.tube_hover(), Some(tube));
    }
}

#[test]
fn the_whole_in_view_is_every_tube_that_is_shown() {
    let (mut app, [first, copy, _]) = three();
    let away = |app: &App, tube: TubeId| {
        let desk = &app.world().resource::<Desk>().0;
        let to = desk.system().tube(tube).unwrap().part.start() + Vector3::new(900.0, 2500.0, 400.0);
        SystemEdit::ChangeTube(tube, Edit::SetStart(to))
    };
    let moved = away(&app, copy);
    perform(&mut app, Command::EditSystem(moved));
    let frame = |app: &mut App| {
        app.world_mut().resource_mut::<ViewWishes>().0.push(ViewCommand::FrameAll);
        app.update();
    };
    let inside = |app: &App, tube: TubeId| {
        let world = app.world();
        let area = *world.resource::<SceneArea>();
        let view = View::new(world.resource::<Eye>(), &area).unwrap();
        let centreline = &world.resource::<Desk>().0.solved_tube(tube).unwrap().centreline;
        let (from_mm, to_mm) = centreline.stations_mm();
        (0..=20).all(|step| {
            let at = view.project(&centreline.point_at(from_mm + (to_mm - from_mm) * f64::from(step) / 20.0));
            at.is_some_and(|at| at.cmpge(area.min).all() && at.cmple(area.min + area.size).all())
        })
    };
    frame(&mut app);
    assert!(inside(&app, first) && inside(&app, copy));
    let wide = app.world().resource::<Eye>().distance_mm;
    perform(&mut app, Command::EditSystem(SystemEdit::HideTube(copy)));
    frame(&mut app);
    assert!(inside(&app, first) && !inside(&app, copy), "what is hidden needs no room");
    assert!(app.world().resource::<Eye>().distance_mm < wide);
}
