//! What the tests of the panels share: parts to show, a desk that keeps what was asked for, pictures.
#![allow(dead_code, clippy::unwrap_used, clippy::panic)]

pub mod golden;
pub mod raster;

use egui::{Id, LayerId, Ui, UiBuilder};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use elbowroom_bending::{Part, specimen};
use elbowroom_panels::{PanelState, Shown, install, show};
use elbowroom_workbench::{Command, Theme, Workbench};

/// A workbench, the panels' state, and everything that was asked for so far.
pub struct Desk {
    pub workbench: Workbench,
    pub state: PanelState,
    pub asked: Vec<Command>,
    /// Pixels a point.
    pub scale: f32,
    /// Whether commands are performed, or only kept.
    pub performs: bool,
    pub shown: Option<Shown>,
}

impl Desk {
    pub fn new(workbench: Workbench) -> Self {
        let (state, asked) = (PanelState::default(), Vec::new());
        Self { workbench, state, asked, scale: 1.0, performs: true, shown: None }
    }

    /// What was asked for since the last call, hovering left out.
    pub fn take_asked(&mut self) -> Vec<Command> {
        let asked = std::mem::take(&mut self.asked);
        asked.into_iter().filter(|command| !matches!(command, Command::Hover(_))).collect()
    }
}

/// A workbench with bends of (straight mm, rotation °, angle °) on the specimen shop, and a tail.
pub fn workbench(rows: &[(f64, f64, f64)], tail_mm: f64) -> Workbench {
    let mut part: Part = specimen::part(
        rows.iter().map(|(straight, rotation, angle)| specimen::row(*straight, *rotation, *angle)).collect(),
        tail_mm,
    )
    .unwrap();
    part.name = "Test pipe".into();
    Workbench::new(part, specimen::shop())
}

/// The whole window at so many points.
pub fn window(desk: Desk, width: f32, height: f32) -> Harness<'static, Desk> {
    let frame = |ui: &mut Ui, desk: &mut Desk| {
        install(ui.ctx(), desk.workbench.screen().theme, 1.0);
        // As the window does it: a root of its own over everything, without a margin.
        let whole = UiBuilder::new().layer_id(LayerId::background()).max_rect(ui.ctx().viewport_rect());
        let mut root = Ui::new(ui.ctx().clone(), Id::new("window"), whole);
        let shown = show(&mut root, &desk.workbench, &mut desk.state);
        desk.asked.extend(shown.commands.iter().cloned());
        if desk.performs {
            for command in shown.commands.iter().cloned() {
                desk.workbench.perform(command);
            }
        }
        desk.shown = Some(shown);
    };
    let mut harness =
        Harness::builder().with_size([width, height]).with_pixels_per_point(desk.scale).build_ui_state(frame, desk);
    harness.run_steps(3);
    harness
}

/// Dresses the context of a panel that is drawn alone; false until its fonts are there.
pub fn dressed(ui: &Ui) -> bool {
    install(ui.ctx(), Theme::Light, 1.0);
    ready(ui)
}

/// Whether the fonts are there; asks for another frame if not.
pub fn ready(ui: &Ui) -> bool {
    let ready = ui.ctx().fonts(|fonts| fonts.families().contains(&elbowroom_panels::bold()));
    if !ready {
        ui.ctx().request_repaint();
    }
    ready
}

/// Focuses the field of that name, types over what it holds, and lets a frame pass.
pub fn type_into(harness: &mut Harness<'_, Desk>, label: &str, text: &str) {
    harness.get_by_label(label).focus();
    harness.run_steps(2);
    harness.event(egui::Event::Text(text.to_owned()));
    harness.run_steps(2);
}

/// Writes a picture of the window into cargo's folder for test files, to be looked at.
pub fn write_picture(harness: &Harness<'_, Desk>, size: egui::Vec2, name: &str) {
    let palette = elbowroom_workbench::palette(harness.state().workbench.screen().theme);
    let background = elbowroom_panels::colour(palette.scene_background);
    let picture = raster::draw(&harness.ctx, harness.output(), size, background);
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("pictures");
    golden::write(&folder.join(format!("{name}.png")), &picture);
}
