//! The panels in the window: drawn from the workbench, and what they ask for performed at once.

use bevy::ecs::system::SystemParam;
use bevy::prelude::*;
use bevy::window::{PrimaryWindow, RequestRedraw};
use bevy_egui::EguiContexts;
use bevy_egui::egui::{Id, LayerId, Order, Pos2, Ui, UiBuilder};
use elbowroom_panels::PanelState;
use elbowroom_viewport::{Compass, Desk, MenuWish, SceneArea, SceneBox, SceneLabels, SceneSigns};

use super::dialogs::Dialogs;
use super::{compass, labels};

/// What a person is in the midst of typing in the panels.
#[derive(Resource, Default)]
pub struct Typing(PanelState);

/// What the scene asks to have drawn over it.
#[derive(SystemParam)]
pub struct OverScene<'w> {
    labels: Res<'w, SceneLabels>,
    signs: Res<'w, SceneSigns>,
    compass: Res<'w, Compass>,
    boxed: Res<'w, SceneBox>,
    menu: ResMut<'w, MenuWish>,
}

/// Gives the interface its fonts, colours and scale.
pub fn dress(desk: Res<Desk>, mut contexts: EguiContexts) {
    if let Ok(ctx) = contexts.ctx_mut() {
        elbowroom_panels::install(ctx, desk.0.screen().theme, desk.0.screen().scale);
    }
}

/// Says anew whether the pointer is over the scene, before the scene hears of what it did: in a slow frame it
/// may have come from a panel and pressed already.
pub fn freshen_area(
    mut contexts: EguiContexts,
    window: Single<&Window, With<PrimaryWindow>>,
    dialogs: Res<Dialogs>,
    mut area: ResMut<SceneArea>,
) {
    let Ok(ctx) = contexts.ctx_mut() else { return };
    let Some(at) = window.cursor_position() else { return };
    let within = Rect::from_corners(area.min, area.min + area.size).contains(at);
    let top = ctx.layer_id_at(Pos2::new(at.x, at.y) / ctx.zoom_factor());
    let nothing_above = top.is_none_or(|layer| layer.order == Order::Background);
    let inside = within && nothing_above && dialogs.prompt.is_none() && !ctx.egui_is_using_pointer();
    if area.pointer_inside != inside {
        area.pointer_inside = inside;
    }
}

/// Draws everything but the scene, and performs what the panels ask for.
pub fn show(
    mut contexts: EguiContexts,
    mut desk: ResMut<Desk>,
    mut area: ResMut<SceneArea>,
    mut dialogs: ResMut<Dialogs>,
    mut typing: ResMut<Typing>,
    mut over: OverScene,
    mut redraw: MessageWriter<RequestRedraw>,
) {
    let Ok(ctx) = contexts.ctx_mut() else { return };
    let ctx = ctx.clone();
    let mut commands = Vec::new();
    // The prompt comes first, so that the keys it uses are taken before the panels' shortcuts see them.
    let prompting = dialogs.prompt.is_some();
    commands.extend(dialogs.show_prompt(&ctx));
    let whole = UiBuilder::new().layer_id(LayerId::background()).max_rect(ctx.viewport_rect());
    let mut root = Ui::new(ctx.clone(), Id::new("window"), whole);
    if over.menu.0.is_some()
        && let Some(at) = over.menu.0.take()
    {
        elbowroom_panels::here_menu::ask(&ctx, Pos2::new(at.x, at.y) / ctx.zoom_factor());
        redraw.write(RequestRedraw);
    }
    let shown = elbowroom_panels::show(&mut root, &desk.0, &mut typing.bypass_change_detection().0);
    commands.extend(shown.commands);
    labels::paint(&ctx, shown.scene, ctx.zoom_factor(), &over.labels.0, &over.signs.0);
    labels::paint_box(&ctx, shown.scene, ctx.zoom_factor(), over.boxed.0);
    commands.extend(compass::show(&ctx, shown.scene, &over.compass));

    let zoom = ctx.zoom_factor();
    let found = SceneArea {
        min: Vec2::new(shown.scene.min.x, shown.scene.min.y) * zoom,
        size: Vec2::new(shown.scene.width(), shown.scene.height()) * zoom,
        pointer_inside: shown.scene_hovered && !prompting,
        keyboard_free: !shown.text_focused && !prompting,
        arrows_free: ctx.memory(|memory| memory.focused().is_none()) && !prompting,
    };
    if (area.min, area.size) != (found.min, found.size) {
        redraw.write(RequestRedraw);
    }
    area.set_if_neq(found);
    if commands.is_empty() {
        return;
    }
    for command in commands {
        desk.0.perform(command);
    }
    // The panels show the change in this very frame; the scene follows in the next one.
    ctx.request_discard("the workbench has changed");
    redraw.write(RequestRedraw);
}
