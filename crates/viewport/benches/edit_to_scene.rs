//! The whole path from an edit to the scene: applied, solved, checked, swept, and made into the engine's meshes.

use bevy::gizmos::GizmoPlugin;
use bevy::input::InputPlugin;
use bevy::mesh::MeshPlugin;
use bevy::prelude::*;
use elbowroom_bending::{Edit, specimen};
use elbowroom_geometry::{HandleId, Point3, handles};
use elbowroom_viewport::{Desk, SceneArea, ViewportPlugin};
use elbowroom_workbench::{Command, Target, Workbench};

fn main() {
    divan::main();
}

/// An engine without a window, with a part of so many bends in many planes on its desk.
fn engine(bends: usize) -> App {
    let rows = (0..bends)
        .map(|bend| specimen::row(140.0 + 7.0 * (bend % 5) as f64, 37.0 * bend as f64, 40.0 + 5.0 * (bend % 7) as f64));
    let part = specimen::part(rows.collect(), 200.0).expect("the specimen's figures are in range");
    let mut app = App::new();
    app.add_plugins((MinimalPlugins, AssetPlugin::default(), MeshPlugin, GizmoPlugin, InputPlugin));
    app.add_message::<bevy::window::WindowEvent>();
    app.insert_resource(Desk(Workbench::new(part, specimen::shop())));
    app.add_plugins(ViewportPlugin);
    app.insert_resource(SceneArea { size: Vec2::new(1200.0, 700.0), ..default() });
    app.update();
    app.update();
    app
}

/// One pointer move of a drag: a vertex in the first third is moved a little, so that nearly the whole tube moves along,
/// and a frame is run.
#[divan::bench(args = [12, 100, 10_000])]
fn drag_a_vertex(bencher: divan::Bencher, bends: usize) {
    let mut app = engine(bends);
    let bend = bends / 3;
    let path = app.world().resource::<Desk>().0.solved().form.path.clone();
    let id = HandleId::Vertex(bend);
    let held = app.world().resource::<Desk>().0.solved().nodes.handle(id);
    let Some(start) = handles(&path).iter().find(|handle| handle.id == id).map(|handle| handle.point) else { return };
    let mut step = 0.0;
    bencher.bench_local(|| {
        step = if step > 10.0 { 0.1 } else { step + 0.1 };
        let to: Point3<f64> = start + elbowroom_geometry::Vector3::new(step, -step, 0.5 * step);
        app.world_mut().resource_mut::<Desk>().0.perform(Command::Preview(Edit::MoveHandle(held, to)));
        app.update();
    });
}

/// A frame in which nothing has changed.
#[divan::bench(args = [12, 100, 10_000])]
fn rest(bencher: divan::Bencher, bends: usize) {
    let mut app = engine(bends);
    bencher.bench_local(|| app.update());
}

/// A part is opened: everything in the scene is made from nothing.
#[divan::bench(args = [12, 10_000], sample_count = 10)]
fn open(bencher: divan::Bencher, bends: usize) {
    bencher.bench_local(|| engine(bends));
}

/// The pointer goes to another bend, which lights up.
#[divan::bench(args = [12, 10_000])]
fn point_at_a_bend(bencher: divan::Bencher, bends: usize) {
    let mut app = engine(bends);
    let mut bend = 0;
    bencher.bench_local(|| {
        bend = (bend + 7) % bends;
        let target = app.world().resource::<Desk>().0.named(Target::Bend(bend));
        app.world_mut().resource_mut::<Desk>().0.perform(Command::Hover(Some(target)));
        app.update();
    });
}
