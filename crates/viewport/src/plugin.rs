//! Puts the scene together: resources, systems and their order.

use bevy::prelude::*;
use bevy::render::RenderApp;

use crate::camera::{Eye, Framing, follow_compass, follow_requests, place_camera, spawn_camera};
use crate::input::{Hand, read_hand};
use crate::labels::write_labels;
use crate::look::{Floor, Paint, Paints, embed_shaders, follow_grain, follow_theme};
use crate::mirror::{
    LinesOnTop, LongSkin, Others, SceneLines, Shadow, Shapes, draw_lines, dress_others, dress_stretches,
    follow_fixtures, follow_floor, follow_ghost, follow_long_part, follow_obstacles, follow_others, follow_part,
    follow_proposal, follow_seam, set_up_lines, spawn_floor,
};
use crate::pick::{Knobs, choose_knobs, follow_knobs};
use crate::place::SceneOrigin;
use crate::signs::{draw_direction, write_signs};
use crate::{Compass, MenuWish, SceneArea, SceneBox, SceneKeys, SceneLabels, SceneSigns, Step, ViewWishes, Wishes};

/// The scene. Needs a [`Desk`](crate::Desk) before the first update; draws where the engine renders, and keeps its
/// entities true to the workbench everywhere.
pub struct ViewportPlugin;

impl Plugin for ViewportPlugin {
    fn build(&self, app: &mut App) {
        if app.get_sub_app(RenderApp).is_some() {
            embed_shaders(app);
            app.add_plugins((MaterialPlugin::<Paint>::default(), MaterialPlugin::<Floor>::default()));
        } else {
            app.init_asset::<Mesh>().init_asset::<Paint>().init_asset::<Floor>();
        }
        app.init_gizmo_group::<SceneLines>()
            .init_gizmo_group::<LinesOnTop>()
            .init_resource::<Wishes>()
            .init_resource::<ViewWishes>()
            .init_resource::<SceneArea>()
            .init_resource::<SceneLabels>()
            .init_resource::<SceneSigns>()
            .init_resource::<Compass>()
            .init_resource::<SceneBox>()
            .init_resource::<MenuWish>()
            .init_resource::<SceneKeys>()
            .init_resource::<SceneOrigin>()
            .init_resource::<Eye>()
            .init_resource::<Framing>()
            .init_resource::<Hand>()
            .init_resource::<Shadow>()
            .init_resource::<Others>()
            .init_resource::<LongSkin>()
            .init_resource::<Knobs>()
            .init_resource::<Paints>()
            .init_resource::<Shapes>()
            .configure_sets(Update, (Step::Input, Step::Perform, Step::Mirror).chain())
            .add_systems(Startup, (spawn_camera, spawn_floor, set_up_lines).chain())
            .add_systems(Update, read_hand.in_set(Step::Input))
            .add_systems(
                Update,
                (
                    follow_theme,
                    follow_part,
                    follow_long_part,
                    follow_knobs,
                    follow_others,
                    follow_ghost,
                    follow_proposal,
                    follow_obstacles,
                    dress_stretches,
                    dress_others,
                    follow_seam,
                    follow_requests,
                    follow_grain,
                    choose_knobs,
                    follow_fixtures,
                    follow_floor,
                    place_camera,
                    draw_lines,
                    write_labels,
                    (follow_compass, write_signs, draw_direction).chain(),
                )
                    .chain()
                    .in_set(Step::Mirror),
            );
    }
}
