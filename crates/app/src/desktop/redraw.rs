//! When a frame is drawn: only where something changed, so that an idle window costs nothing.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use bevy::prelude::*;
use bevy::render::render_resource::PipelineCache;
use bevy::render::{Render, RenderApp, RenderSystems};
use bevy::window::RequestRedraw;
use bevy::winit::{EventLoopProxyWrapper, UpdateMode, WinitSettings, WinitUserEvent};
use elbowroom_viewport::Desk;
use elbowroom_workbench::Waker;

/// Nothing is due by itself; this only bounds a sleep that some system might otherwise overlook.
const LONGEST_SLEEP: Duration = Duration::from_secs(3600);

/// Whether everything that the last frame wanted to draw could be drawn, or some of it was still being
/// prepared for the graphics card.
#[derive(Resource, Clone, Default)]
pub struct Prepared(Arc<AtomicBool>);

impl Prepared {
    /// Whether the last frame was whole.
    pub fn whole(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

#[derive(Resource)]
struct Wake(bevy::winit::EventLoopProxy<WinitUserEvent>);

/// Sleeps between events, whether the window has the keyboard or not. Only what happens in the window
/// wakes it: movements of the mouse elsewhere do not.
pub fn sleep_between_events() -> WinitSettings {
    let mode = UpdateMode::reactive_low_power(LONGEST_SLEEP);
    WinitSettings { focused_mode: mode, unfocused_mode: mode }
}

/// Wakes the window from any thread; `None` where there is no window.
pub fn waker(app: &App) -> Option<Waker> {
    let window = (**app.world().get_resource::<EventLoopProxyWrapper>()?).clone();
    // The proxy may be used by one thread at a time.
    let window = Mutex::new(window);
    Some(Arc::new(move || {
        // The loop is gone where this fails, and there is nobody to wake.
        let _ = window.lock().unwrap_or_else(PoisonError::into_inner).send_event(WinitUserEvent::WakeUp);
    }))
}

/// Draws again while pipelines are still being prepared, and once more after each change.
pub fn plugin(app: &mut App) {
    let prepared = Prepared::default();
    app.insert_resource(prepared.clone()).add_systems(Last, settle);
    let window = app.world().get_resource::<EventLoopProxyWrapper>().map(|window| (**window).clone());
    if let (Some(render), Some(window)) = (app.get_sub_app_mut(RenderApp), window) {
        render
            .insert_resource(prepared)
            .insert_resource(Wake(window))
            .add_systems(Render, draw_again_while_preparing.in_set(RenderSystems::Cleanup));
    }
}

fn draw_again_while_preparing(cache: Res<PipelineCache>, prepared: Res<Prepared>, wake: Res<Wake>) {
    let whole = cache.waiting_pipelines().next().is_none();
    prepared.0.store(whole, Ordering::Relaxed);
    if !whole {
        // The loop is gone where this fails, and nothing is drawn any more.
        let _ = wake.0.send_event(WinitUserEvent::WakeUp);
    }
}

/// What a view shows of the workbench; a change of it is drawn twice, since assets and layout take a
/// frame to settle.
fn settle(desk: Res<Desk>, mut last: Local<Option<u64>>, mut redraw: MessageWriter<RequestRedraw>) {
    let revision = desk.0.revision();
    if last.replace(revision) != Some(revision) {
        redraw.write(RequestRedraw);
    }
}
