//! Draws the view for the machine.

use egui::{Button, Frame, Label, Margin, RichText, ScrollArea, Ui, vec2};
use elbowroom_bending::program_sheet::{SheetLine, SheetStep};
use elbowroom_bending::setup::SetupItem;
use elbowroom_workbench::{Command, Sheet};

use super::model::{Model, Page, figures};
use super::parts::{clock, said, tick, tile};
use super::sizes::Sizes;
use crate::colours::{colour, colours};
use crate::fonts::bold;

/// Draws it and says what was asked for.
pub(super) fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let sizes = Sizes::of(ui);
    let mut commands = Vec::new();
    head(ui, model, sizes, &mut commands);
    ui.add_space(4.0);
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        for one in &model.ticks {
            tick(ui, *one, sizes.small);
        }
    });
    ui.add_space(4.0);
    for (severity, text) in &model.headlines {
        said(ui, *severity, text, sizes.text);
    }
    if let Some(changed) = &model.changed {
        said(ui, Some(elbowroom_bending::Severity::Stop), changed, sizes.text);
        ui.horizontal(|ui| {
            commands.extend(button(ui, "Begin again with a new blank", sizes.small).then_some(Command::BeginTube));
            commands.extend(button(ui, "Go on by the new figures", sizes.small).then_some(Command::FollowChange));
        });
    }
    let foot = sizes.text * 2.4;
    let body = ui.available_rect_before_wrap();
    let foot_at = egui::Rect::from_min_max(egui::pos2(body.left(), body.bottom() - foot), body.max);
    let body = body.with_max_y(foot_at.top() - 8.0);
    ui.scope_builder(egui::UiBuilder::new().max_rect(body), |ui| page(ui, model, sizes, &mut commands));
    ui.scope_builder(egui::UiBuilder::new().max_rect(foot_at), |ui| next(ui, model, sizes, &mut commands));
    commands
}

fn head(ui: &mut Ui, model: &Model, sizes: Sizes, commands: &mut Vec<Command>) {
    ui.horizontal(|ui| {
        let title = RichText::new(model.page.title(model.steps)).font(egui::FontId::new(sizes.large * 0.8, bold()));
        ui.label(title);
        ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
            commands.extend(button(ui, "Close (Escape)", sizes.small).then_some(Command::ToggleAtMachine));
            if model.ticks.iter().any(|tick| tick.done) {
                commands.extend(button(ui, "Begin again", sizes.small).then_some(Command::BeginTube));
                commands.extend(button(ui, "Back (Page Up)", sizes.small).then_some(Command::StepBack));
            }
            let name = format!("{}, tube {}", model.name, model.tube);
            ui.add(Label::new(RichText::new(name).size(sizes.small).weak()).truncate());
        });
    });
}

fn button(ui: &mut Ui, text: &str, size: f32) -> bool {
    ui.add(Button::new(RichText::new(text).size(size))).clicked()
}

/// The button that ticks off what is to be done; the same as Space.
fn next(ui: &mut Ui, model: &Model, sizes: Sizes, commands: &mut Vec<Command>) {
    let text = match &model.page {
        Page::Nothing(_) => return,
        Page::Load { .. } => "Loaded, on to step 1 (Space)".to_owned(),
        Page::Step(step) if step.number == model.steps => "Done, and that was the last (Space)".to_owned(),
        Page::Step(step) => format!("Done, on to step {} (Space)", step.number + 1),
        Page::Done { .. } => "The next tube (Space)".to_owned(),
    };
    let palette = colours(ui);
    let label = RichText::new(text).size(sizes.text).color(colour(palette.on_accent));
    // A space at either side that grows puts the words in the middle.
    let wide = Button::new((egui::Atom::grow(), label, egui::Atom::grow()))
        .fill(colour(palette.accent))
        .min_size(ui.available_size());
    if ui.add_enabled(model.changed.is_none(), wide).clicked() {
        commands.push(Command::StepOn);
    }
}

fn page(ui: &mut Ui, model: &Model, sizes: Sizes, commands: &mut Vec<Command>) {
    match &model.page {
        Page::Nothing(why) => {
            ui.add(Label::new(RichText::new(why).size(sizes.text)).wrap());
        }
        Page::Load { setup, lines, cautions, seam_deg } => load(ui, (setup, cautions), lines, *seam_deg, sizes),
        Page::Step(step) => one_step(ui, step, model, sizes),
        Page::Done { rest } => {
            for line in rest {
                fact(ui, &line.name, &line.value, sizes.text);
            }
            ui.add_space(8.0);
            if button(ui, "Measure this piece on the sheet First-off", sizes.text) {
                commands.extend([Command::ToggleAtMachine, Command::ShowSheet(Sheet::FirstOff)]);
            }
        }
    }
}

fn fact(ui: &mut Ui, name: &str, value: &str, size: f32) {
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(name).font(egui::FontId::new(size, bold())));
        ui.label(RichText::new(value).size(size));
    });
}

/// What is put on the machine at the left, how the blank goes in at the right.
fn load(
    ui: &mut Ui,
    (setup, cautions): (&[SetupItem], &[String]),
    lines: &[SheetLine],
    seam_deg: Option<f64>,
    sizes: Sizes,
) {
    let height = ui.available_height();
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        ScrollArea::vertical().id_salt("set up").max_height(height).auto_shrink([false, false]).show(left, |ui| {
            ui.label(RichText::new("Set up in this order").size(sizes.small).weak());
            for (index, item) in setup.iter().enumerate() {
                fact(ui, &format!("{}. {}", index + 1, item.what), &item.value, sizes.small);
            }
            ui.add_space(6.0);
            ui.label(RichText::new("Take care").size(sizes.small).weak());
            for caution in cautions {
                ui.label(RichText::new(caution).size(sizes.small * 0.85));
            }
        });
        ScrollArea::vertical().id_salt("load").max_height(height).auto_shrink([false, false]).show(right, |ui| {
            ui.label(RichText::new("Then load the blank").size(sizes.small).weak());
            for line in lines {
                fact(ui, &line.name, &line.value, sizes.text);
            }
            if let Some(degrees) = seam_deg {
                clock(ui, degrees, sizes);
            }
        });
    });
}

fn one_step(ui: &mut Ui, step: &SheetStep, model: &Model, sizes: Sizes) {
    let figures = figures(step, model.unit);
    let (set, rest) = figures.split_at(3);
    let gap = 10.0;
    for (figures, size) in [(set, sizes.huge), (rest, sizes.large)] {
        let width = (ui.available_width() - gap * (figures.len() as f32 - 1.0)) / figures.len() as f32;
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = gap;
            for figure in figures {
                tile(ui, figure, width, size, sizes);
            }
        });
        ui.add_space(4.0);
    }
    let bend = step.bend.map_or_else(String::new, |bend| format!("bend {} as drawn; ", bend + 1));
    ui.label(RichText::new(format!("{bend}die {}", step.die)).size(sizes.small).weak());
    let frame = Frame::new().inner_margin(Margin::symmetric(2, 4));
    ScrollArea::vertical().id_salt("watch").auto_shrink([false, true]).show(ui, |ui| {
        frame.show(ui, |ui| {
            for watch in &step.watch {
                said(ui, watch.severity, &watch.text, sizes.text);
            }
        });
    });
}
