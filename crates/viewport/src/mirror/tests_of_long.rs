//! Long parts: what stands in the scene is bounded, true to the part, and made anew only where something changed.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::collections::BTreeMap;

use bevy::mesh::VertexAttributeValues;
use bevy::prelude::*;
use elbowroom_bending::{Edit, Part, Path, Severity, specimen};
use elbowroom_geometry::{HandleId, Length, Point3, SkinMesh, SkinOptions, VertexPath, skin_into};
use elbowroom_workbench::{Command, SelectMode, Target};

use super::fixture::Fixture;
use super::long::{CHUNK, ChunkPiece};
use super::shadow::{LONG_BENDS, StretchId};
use super::tests::{app_of, edit, perform};
use super::{LongSkin, Shadow};
use crate::look::{Lit, Paint, Wearer};
use crate::marks::severity_at;
use crate::pick::CROWD;
use crate::place::SceneOrigin;
use crate::{Desk, SceneLabels};

/// A zigzag that climbs, every seventh of its legs too short for the clamp and every ninth arc over the next.
fn zigzag(bends: usize) -> Part {
    let rows = (0..bends).map(|bend| {
        let straight_mm = if bend % 9 == 4 {
            -10.0
        } else if bend % 7 == 3 {
            60.0
        } else {
            220.0
        };
        specimen::row(straight_mm, if bend % 2 == 0 { 170.0 } else { -170.0 }, 60.0)
    });
    specimen::part(rows.collect(), 200.0).unwrap()
}

/// The same in vertices, nothing in its way.
fn stair(points: usize) -> Part {
    let at = |n: usize| Point3::new((n / 2) as f64 * 400.0, n.div_ceil(2) as f64 * 400.0, 0.0);
    let clr = vec![Length::from_mm(specimen::CLR_MM); points - 2];
    let mut part = specimen::part(vec![specimen::row(300.0, 0.0, 90.0)], 300.0).unwrap();
    part.path = Path::Vertices(VertexPath::new((0..points).map(at).collect(), clr).unwrap());
    part
}

fn count<Kind: Component>(app: &mut App) -> usize {
    app.world_mut().query::<&Kind>().iter(app.world()).count()
}

/// Every triangle of some meshes, by its corners; how often it is there and what it wears.
type Triangles = BTreeMap<Vec<[u32; 3]>, (usize, Wearer)>;

fn bits(corner: [f32; 3]) -> [u32; 3] {
    // Adding 0 makes one zero of the two.
    corner.map(|value| (value + 0.0).to_bits())
}

fn standing(app: &mut App) -> (Triangles, usize) {
    let mut query = app.world_mut().query::<(&ChunkPiece, &Mesh3d)>();
    let world = app.world();
    let meshes = world.resource::<Assets<Mesh>>();
    let (mut found, mut bytes) = (Triangles::new(), 0);
    for (piece, mesh) in query.iter(world) {
        let mesh = meshes.get(&mesh.0).unwrap();
        let Some(VertexAttributeValues::Float32x3(places)) = mesh.attribute(Mesh::ATTRIBUTE_POSITION) else { panic!() };
        let indices: Vec<usize> = mesh.indices().unwrap().iter().collect();
        bytes += mesh.get_vertex_buffer_size() + mesh.get_index_buffer_bytes().unwrap().len();
        for corners in indices.chunks(3) {
            let corners = corners.iter().map(|corner| bits(places[*corner])).collect();
            found.entry(corners).or_insert((0, piece.wearer)).0 += 1;
        }
    }
    (found, bytes)
}

/// What stands is what one sweep of the whole tube gives, each stretch in the paint of its mark.
fn assert_true_to_the_part(app: &mut App) {
    let (found, _) = standing(app);
    let world = app.world();
    let (shadow, desk, origin) =
        (world.resource::<Shadow>(), &world.resource::<Desk>().0, world.resource::<SceneOrigin>());
    assert!(shadow.is_long);
    let cuts: Vec<f64> = shadow.marks.iter().flat_map(|mark| [mark.from_mm, mark.to_mm]).collect();
    let (od_mm, chord_tolerance_mm) = (desk.part().tube.od.mm(), shadow.chord_tolerance_mm);
    let options = SkinOptions { od_mm, chord_tolerance_mm, cuts: &cuts, ..SkinOptions::default() };
    let mut skin = SkinMesh::default();
    skin_into(&desk.solved().centreline, &options, &mut skin);
    let mut severities: BTreeMap<Option<Severity>, usize> = BTreeMap::new();
    for piece in found.values() {
        if let Wearer::Stretch(severity, _) = piece.1 {
            *severities.entry(severity).or_default() += piece.0;
        }
    }
    let mut wanted: BTreeMap<Option<Severity>, usize> = BTreeMap::new();
    let mut missing = 0;
    for stretch in &skin.stretches {
        let severity = severity_at(&shadow.marks, (stretch.from_mm + stretch.to_mm) / 2.0);
        *wanted.entry(severity).or_default() += stretch.triangles.len();
        for corners in &skin.triangles[stretch.triangles.clone()] {
            let corners = corners.iter().map(|at| bits(origin.point_array(&skin.positions[*at as usize]))).collect();
            let is_there = found.get::<Vec<[u32; 3]>>(&corners).is_some_and(|(times, worn)| {
                *times == 1 && matches!(worn, Wearer::Stretch(worn, _) if *worn == severity)
            });
            missing += usize::from(!is_there);
        }
    }
    assert_eq!(severities, wanted);
    // Where two chunks meet, a place may be rounded otherwise.
    assert!(missing * 200 < skin.triangles.len(), "{missing} of {} triangles are others", skin.triangles.len());
}

fn swept(app: &App) -> u64 {
    app.world().resource::<LongSkin>().swept
}

#[test]
fn an_everyday_part_has_a_mesh_for_every_stretch_and_a_handle_for_every_bend() {
    let mut app = app_of(zigzag(LONG_BENDS));
    let stretches = app.world().resource::<Shadow>().skin.stretches.len();
    assert!(stretches > LONG_BENDS, "{stretches}");
    assert_eq!(count::<StretchId>(&mut app), stretches);
    assert_eq!(count::<ChunkPiece>(&mut app), 0);
    let mut query = app.world_mut().query::<&Fixture>();
    let knobs = query.iter(app.world()).filter(|fixture| matches!(fixture, Fixture::Knob(_))).count();
    assert_eq!(knobs, LONG_BENDS + 2);
}

#[test]
fn a_long_part_stands_in_few_meshes_that_take_little_memory() {
    const BENDS: usize = 10_000;
    let mut app = app_of(zigzag(BENDS));
    let chunks = (2 * BENDS + 1).div_ceil(CHUNK);
    let pieces = count::<ChunkPiece>(&mut app);
    assert!(pieces >= chunks && pieces <= 4 * chunks, "{pieces} meshes for {chunks} chunks");
    assert_eq!(count::<StretchId>(&mut app), 0);
    let fixtures = count::<Fixture>(&mut app);
    assert!(fixtures <= 2 * CROWD + 3, "{fixtures} handles and rings");
    let (_, bytes) = standing(&mut app);
    assert!(bytes < BENDS * 2300, "{} bytes of mesh a bend", bytes / BENDS);
    let shadow = app.world().resource::<Shadow>();
    assert!(shadow.skin.positions.capacity() + shadow.before.positions.capacity() == 0, "the skin is kept as well");
    assert!(app.world().resource::<SceneLabels>().0.len() < 10);
}

#[test]
fn chunks_follow_every_edit_and_go_when_the_part_is_long_no_more() {
    let mut app = app_of(zigzag(700));
    assert_true_to_the_part(&mut app);
    let straight = app.world().resource::<Desk>().0.solved().nodes.straight(300);
    edit(&mut app, Edit::SetStraight(straight, Length::from_mm(333.0)));
    assert_true_to_the_part(&mut app);
    edit(&mut app, Edit::SetTube(specimen::tube().with(|tube| tube.od = Length::from_mm(38.0)).unwrap()));
    assert_true_to_the_part(&mut app);
    let nodes = app.world().resource::<Desk>().0.solved().nodes.clone();
    edit(&mut app, Edit::RemoveBends((0..100).map(|bend| nodes.bend(bend)).collect()));
    assert_true_to_the_part(&mut app);
    edit(&mut app, Edit::RemoveBends((100..300).map(|bend| nodes.bend(bend)).collect()));
    assert_eq!(count::<ChunkPiece>(&mut app), 0);
    assert_eq!(count::<StretchId>(&mut app), app.world().resource::<Shadow>().skin.stretches.len());
    perform(&mut app, Command::Undo);
    assert_eq!(count::<StretchId>(&mut app), 0);
    assert_true_to_the_part(&mut app);
}

#[test]
fn dropped_chunks_are_rebuilt() {
    let mut app = app_of(zigzag(700));
    let (before, _) = standing(&mut app);
    let one = app.world_mut().query_filtered::<Entity, With<ChunkPiece>>().iter(app.world()).next().unwrap();
    app.world_mut().despawn(one);
    app.update();
    assert!(standing(&mut app).0 == before);
}

#[test]
fn what_is_pointed_at_or_selected_lights_up_and_nothing_else_is_swept_anew() {
    let mut app = app_of(zigzag(2000));
    let lit = |app: &mut App| {
        let mut found: BTreeMap<String, usize> = BTreeMap::new();
        let mut query = app.world_mut().query::<(&ChunkPiece, &Mesh3d, &MeshMaterial3d<Paint>)>();
        let meshes = app.world().resource::<Assets<Mesh>>();
        for (piece, mesh, _) in query.iter(app.world()) {
            if let Wearer::Stretch(_, light @ (Lit::Hovered | Lit::Selected)) = piece.wearer {
                let place = format!("{light:?} in {}", piece.chunk);
                *found.entry(place).or_default() += meshes.get(&mesh.0).unwrap().indices().unwrap().len() / 3;
            }
        }
        found.into_keys().collect::<Vec<_>>()
    };
    let named = |app: &App, target: Target| app.world().resource::<Desk>().0.named(target);
    assert!(lit(&mut app).is_empty());
    let before = swept(&app);
    let far = named(&app, Target::Bend(1500));
    perform(&mut app, Command::Hover(Some(far)));
    assert_eq!(lit(&mut app), [format!("Hovered in {}", (2 * 1500 + 1) / CHUNK)]);
    assert_eq!(swept(&app), before + 1);
    let straight = named(&app, Target::Straight(3));
    perform(&mut app, Command::Select(straight, SelectMode::Only));
    assert_eq!(lit(&mut app), [format!("Hovered in {}", 3001 / CHUNK), "Selected in 0".to_owned()]);
    assert_eq!(swept(&app), before + 2);
    perform(&mut app, Command::Hover(None));
    assert_eq!(lit(&mut app), ["Selected in 0"]);
    assert_eq!(swept(&app), before + 3);
    // A bend has its handles while it is selected; a crowd has none.
    let handle = |app: &mut App, bend: usize| {
        let knob = Fixture::Knob(named(app, Target::Handle(HandleId::Vertex(bend))));
        app.world_mut().query::<&Fixture>().iter(app.world()).any(|fixture| *fixture == knob)
    };
    assert!(!handle(&mut app, 1500));
    perform(&mut app, Command::Select(far, SelectMode::Only));
    assert!(handle(&mut app, 1500) && handle(&mut app, 1501) && !handle(&mut app, 1600));
    let before = swept(&app);
    app.update();
    assert_eq!(swept(&app), before, "nothing has changed");
}

#[test]
fn moving_a_vertex_of_a_long_part_sweeps_what_moved_alone() {
    let mut app = app_of(stair(2000));
    assert_eq!(
        app.world().resource::<Shadow>().marks.len(),
        2,
        "it is longer than the machine takes, which marks its ends"
    );
    let before = swept(&app);
    let desk = &app.world().resource::<Desk>().0;
    let vertex = desk.solved().nodes.handle(HandleId::Vertex(700));
    let Path::Vertices(path) = &desk.part().path else { panic!() };
    let to = path.points()[701] + elbowroom_geometry::Vector3::new(3.0, -2.0, 0.0);
    perform(&mut app, Command::Preview(Edit::MoveHandle(vertex, to)));
    let moved = swept(&app) - before;
    assert!((1..=3).contains(&moved), "{moved} chunks");
    assert_true_to_the_part(&mut app);
    perform(&mut app, Command::DropPreview);
    assert!(swept(&app) - before <= 6, "{} chunks there and back", swept(&app) - before);
}
