//! A window that shows one panel, performs what it asks for, and keeps a list of it.

use std::path::PathBuf;

use egui::{Event, Modifiers, PointerButton, Pos2, Vec2};
use egui_kittest::Harness;
use elbowroom_panels::panel::{Panel, Place, REGISTRY};
use elbowroom_panels::{PanelState, colour, install};
use elbowroom_workbench::{Command, Theme, Workbench};

use crate::support::raster::{Picture, draw};

/// What the window holds.
pub struct Held {
    /// The workbench the panel shows.
    pub workbench: Workbench,
    /// Half-typed text.
    pub state: PanelState,
    /// Everything the panel has asked for but hovering.
    pub asked: Vec<Command>,
    theme: Theme,
    installed: bool,
}

/// A window with one panel.
pub struct Window {
    /// The harness, for clicks and keys.
    pub harness: Harness<'static, Held>,
}

/// The panel of that name.
pub fn panel(name: &str) -> &'static Panel {
    REGISTRY.iter().find(|panel| panel.name == name).unwrap()
}

/// A window that shows a panel in the light theme at plain scale.
pub fn shown(name: &'static str, workbench: Workbench, size: impl Into<Vec2>) -> Window {
    Window::new(name, workbench, size.into(), Theme::Light, 1.0)
}

impl Window {
    /// A window of `size` points.
    pub fn new(name: &'static str, workbench: Workbench, size: Vec2, theme: Theme, scale: f32) -> Self {
        let held = Held { workbench, state: PanelState::default(), asked: Vec::new(), theme, installed: false };
        let panel = panel(name);
        let show = move |ui: &mut egui::Ui, held: &mut Held| {
            install(ui.ctx(), held.theme, 1.0);
            if !held.installed {
                // Fonts are there from the next frame on.
                held.installed = true;
                ui.ctx().request_repaint();
                return;
            }
            let margin = if panel.place == Place::Overlay { 0 } else { 8 };
            let commands = egui::Frame::new()
                .inner_margin(margin)
                .show(ui, |ui| (panel.show)(ui, &held.workbench, &mut held.state));
            for command in commands.inner {
                held.workbench.perform(command.clone());
                if !matches!(command, Command::Hover(_)) {
                    held.asked.push(command);
                }
            }
        };
        let harness = Harness::builder().with_size(size).with_pixels_per_point(scale).build_ui_state(show, held);
        let mut window = Self { harness };
        window.harness.run_steps(3);
        window
    }

    /// The workbench as it is now.
    pub fn workbench(&self) -> &Workbench {
        &self.harness.state().workbench
    }

    /// What has been asked for since last time.
    pub fn asked(&mut self) -> Vec<Command> {
        std::mem::take(&mut self.harness.state_mut().asked)
    }

    /// Presses the left button at one place, moves to another in steps, and keeps it pressed.
    pub fn drag(&mut self, from: Pos2, to: Pos2) {
        self.harness.hover_at(from);
        self.harness.step();
        self.harness.drag_at(from);
        self.harness.step();
        for step in 1..=4 {
            self.harness.hover_at(from + (to - from) * (step as f32 / 4.0));
            self.harness.step();
        }
    }

    /// Lets the left button go.
    pub fn release(&mut self, at: Pos2) {
        let (button, modifiers) = (PointerButton::Primary, Modifiers::NONE);
        self.harness.event(Event::PointerButton { pos: at, button, pressed: false, modifiers });
        self.harness.step();
        self.harness.step();
    }

    /// The place of a thing by its label in the accessibility tree.
    pub fn place(&self, label: &str) -> egui::Rect {
        use egui_kittest::kittest::Queryable as _;
        self.harness.get_by_label(label).rect()
    }

    /// Clicks what has that label.
    pub fn click(&mut self, label: &str) {
        use egui_kittest::kittest::Queryable as _;
        self.harness.get_by_label(label).click();
        self.harness.run_steps(3);
    }

    /// Types over what the field of that label holds, and enters it.
    pub fn enter(&mut self, label: &str, text: &str) {
        use egui_kittest::kittest::Queryable as _;
        self.harness.get_by_label(label).focus();
        self.harness.run_steps(2);
        self.harness.key_press_modifiers(Modifiers::COMMAND, egui::Key::A);
        self.harness.event(Event::Text(text.to_owned()));
        self.harness.run_steps(2);
        self.harness.key_press(egui::Key::Enter);
        self.harness.run_steps(3);
    }

    /// A picture of what is shown.
    pub fn picture(&self) -> Picture {
        let context = &self.harness.ctx;
        let ground = elbowroom_workbench::palette(self.harness.state().theme).panel;
        draw(context, self.harness.output(), context.content_rect().size(), colour(ground))
    }

    /// How many different colours the picture has.
    pub fn colours(&self) -> usize {
        self.picture().bytes.chunks_exact(3).collect::<std::collections::HashSet<_>>().len()
    }

    /// Saves a picture where `ELBOWROOM_PICTURES` names a folder, for whoever wants to look at it.
    pub fn keep_picture(&self, name: &str) {
        let Some(folder) = std::env::var_os("ELBOWROOM_PICTURES") else { return };
        let picture = self.picture();
        let file = std::fs::File::create(PathBuf::from(folder).join(format!("{name}.png"))).unwrap();
        let mut encoder = png::Encoder::new(std::io::BufWriter::new(file), picture.width as u32, picture.height as u32);
        encoder.set_color(png::ColorType::Rgb);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.write_header().unwrap().write_image_data(&picture.bytes).unwrap();
    }
}
