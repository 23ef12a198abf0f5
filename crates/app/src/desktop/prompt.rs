//! Our own way to ask for a file, where the system offers none: a path is typed, the folder completes it.

use std::path::{Path, PathBuf};

use bevy_egui::egui;
use egui::{Align, Frame, Id, Key, Margin, Modal, Modifiers, RichText, ScrollArea, TextEdit};
use elbowroom_bending::text::shown_path;

use super::prompt_path::{Entry, completed, fitting, list, path_of, split, with_entry};
use super::purpose::Purpose;

/// The prompt while it is open.
pub struct Prompt {
    purpose: Purpose,
    base: PathBuf,
    text: String,
    listed: Option<(PathBuf, Vec<Entry>)>,
    trouble: Option<String>,
    replace: Option<PathBuf>,
    fresh: bool,
}

/// What a frame of the prompt came to.
pub enum Outcome {
    /// It stays open.
    Open,
    /// A path was given.
    Given(PathBuf),
    /// It was put away.
    PutAway,
}

impl Prompt {
    /// Opens in `folder`, with `name` typed in where one is to be given.
    pub fn new(purpose: Purpose, folder: &Path, name: &str) -> Self {
        // Spelt out from the root, so that what is typed is not taken from the folder twice.
        let base = std::path::absolute(folder).unwrap_or_else(|_| folder.to_path_buf());
        let text = format!("{}/{name}", base.display().to_string().trim_end_matches('/'));
        Self { purpose, base, text, listed: None, trouble: None, replace: None, fresh: true }
    }

    /// Draws it over everything else and takes what was typed.
    pub fn show(&mut self, ctx: &egui::Context) -> Outcome {
        self.list_folder();
        let field = Id::new("file prompt path");
        let typing = ctx.memory(|memory| memory.has_focus(field));
        // Heard now, so that nothing else takes them, and acted on once the field has what was typed before them.
        let pressed = |key| typing && ctx.input_mut(|input| input.consume_key(Modifiers::NONE, key));
        let (complete, accept) = (pressed(Key::Tab), pressed(Key::Enter));
        let width = 560.0_f32.min(ctx.viewport_rect().width() - 48.0);
        let frame = Frame::window(&ctx.global_style()).inner_margin(Margin::same(20));
        let shown = Modal::new(Id::new("file prompt")).frame(frame).show(ctx, |ui| {
            ui.set_width(width);
            ui.heading(self.purpose.title());
            ui.label("Type where the file is. The tab key completes a name.");
            if self.fresh {
                // Before it is drawn, so that it hears what is typed in this very frame; again in the next frame, since
                // in the first one it is only measured and cannot have the keyboard.
                ui.memory_mut(|memory| memory.request_focus(field));
                put_caret_at_end(ui.ctx(), field, &self.text);
            }
            let edit = TextEdit::singleline(&mut self.text).id(field).desired_width(f32::INFINITY).lock_focus(true);
            let response = ui.add(edit);
            self.fresh &= !response.has_focus();
            if response.changed() {
                self.trouble = None;
                self.replace = None;
            }
            if complete {
                let entries = self.listed.as_ref().map(|(_, entries)| entries.as_slice()).unwrap_or_default();
                let text = completed(&self.text, entries);
                self.type_in(ui.ctx(), field, text);
            }
            self.entries(ui, field);
            if let Some(trouble) = &self.trouble {
                ui.label(RichText::new(trouble).strong());
            }
            self.buttons(ui)
        });
        match shown.inner {
            Some(false) => Outcome::PutAway,
            Some(true) => self.accept(),
            None if accept => self.accept(),
            None if shown.should_close() => Outcome::PutAway,
            None => Outcome::Open,
        }
    }

    fn entries(&mut self, ui: &mut egui::Ui, field: Id) {
        let entries = self.listed.as_ref().map(|(_, entries)| entries.as_slice()).unwrap_or_default();
        let fitting = fitting(entries, split(&self.text).1);
        let mut taken = None;
        ScrollArea::vertical().max_height(220.0).min_scrolled_height(220.0).auto_shrink([false, false]).show(
            ui,
            |ui| {
                if fitting.is_empty() {
                    ui.weak("No file or folder here has a name that begins like that.");
                }
                for entry in fitting {
                    let name = if entry.is_file { entry.name.clone() } else { format!("{}/", entry.name) };
                    if ui.selectable_label(false, name).clicked() {
                        taken = Some(with_entry(&self.text, entry));
                    }
                }
            },
        );
        if let Some(text) = taken {
            self.type_in(ui.ctx(), field, text);
        }
    }

    /// Some(true) to accept, Some(false) to put the prompt away.
    fn buttons(&self, ui: &mut egui::Ui) -> Option<bool> {
        ui.with_layout(egui::Layout::right_to_left(Align::Center), |ui| {
            let word = if self.replace.is_some() { "Replace the file" } else { self.purpose.button() };
            let accept = ui.button(word).clicked();
            let cancel = ui.button("Cancel").clicked();
            if accept { Some(true) } else { cancel.then_some(false) }
        })
        .inner
    }

    fn accept(&mut self) -> Outcome {
        let mut path = path_of(&self.text, &self.base);
        if path.is_dir() {
            if !self.text.ends_with('/') {
                self.text.push('/');
            }
            return Outcome::Open;
        }
        if !self.purpose.writes() {
            if path.is_file() {
                return Outcome::Given(path);
            }
            self.trouble = Some(format!("There is no file {}.", shown_path(&path)));
            return Outcome::Open;
        }
        if path.extension().is_none() {
            path.set_extension(self.purpose.extensions().first().unwrap_or(&""));
        }
        if !path.parent().is_some_and(Path::is_dir) {
            self.trouble = Some(format!("There is no folder to put {} in.", shown_path(&path)));
            return Outcome::Open;
        }
        if path.exists() && self.replace.as_ref() != Some(&path) {
            self.trouble = Some("A file of this name is there already. Press again to replace it.".into());
            self.replace = Some(path);
            return Outcome::Open;
        }
        Outcome::Given(path)
    }

    fn list_folder(&mut self) {
        let folder = path_of(split(&self.text).0, &self.base);
        if self.listed.as_ref().is_some_and(|(listed, _)| *listed == folder) {
            return;
        }
        let entries = list(&folder, &self.purpose.extensions()).unwrap_or_default();
        self.listed = Some((folder, entries));
    }

    fn type_in(&mut self, ctx: &egui::Context, field: Id, text: String) {
        self.text = text;
        self.trouble = None;
        self.replace = None;
        ctx.memory_mut(|memory| memory.request_focus(field));
        put_caret_at_end(ctx, field, &self.text);
    }
}

fn put_caret_at_end(ctx: &egui::Context, field: Id, text: &str) {
    let mut state = egui::text_edit::TextEditState::load(ctx, field).unwrap_or_default();
    let end = egui::text::CCursor::new(text.chars().count());
    state.cursor.set_char_range(Some(egui::text::CCursorRange::one(end)));
    state.store(ctx, field);
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn prompt(purpose: Purpose, folder: &Path, text: &str) -> Prompt {
        let mut prompt = Prompt::new(purpose, folder, "");
        prompt.text = text.into();
        prompt
    }

    #[test]
    fn a_file_to_open_must_be_there() {
        let folder = tempfile::tempdir().unwrap();
        let mut prompt = prompt(Purpose::Open, folder.path(), "a.ron");
        assert!(matches!(prompt.accept(), Outcome::Open));
        assert!(prompt.trouble.as_ref().unwrap().contains("a.ron"));
        std::fs::write(folder.path().join("a.ron"), "").unwrap();
        assert!(matches!(prompt.accept(), Outcome::Given(path) if path == folder.path().join("a.ron")));
    }

    #[test]
    fn a_file_is_replaced_only_when_asked_twice_and_an_ending_is_added() {
        let folder = tempfile::tempdir().unwrap();
        let mut prompt = prompt(Purpose::SaveAs, folder.path(), "a");
        assert!(matches!(prompt.accept(), Outcome::Given(path) if path == folder.path().join("a.ron")));
        std::fs::write(folder.path().join("a.ron"), "").unwrap();
        assert!(matches!(prompt.accept(), Outcome::Open));
        assert!(matches!(prompt.accept(), Outcome::Given(_)));
    }

    #[test]
    fn a_folder_is_entered_and_a_missing_one_told() {
        let folder = tempfile::tempdir().unwrap();
        std::fs::create_dir(folder.path().join("car")).unwrap();
        let mut prompt = prompt(Purpose::SaveAs, folder.path(), "car");
        assert!(matches!(prompt.accept(), Outcome::Open));
        assert_eq!(prompt.text, "car/");
        prompt.text = "nowhere/a.ron".into();
        assert!(matches!(prompt.accept(), Outcome::Open));
        assert!(prompt.trouble.as_ref().unwrap().contains("no folder"));
    }
}
