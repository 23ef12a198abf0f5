//! What everything is judged on: shop, tube, die set and clamp, always in sight below the verdict. Each is a button that
//! lists what there is instead, so that another one is two clicks away.

use std::fmt;
use std::path::{Path, PathBuf};

use egui::containers::menu::{MenuButton, SubMenuButton};
use egui::{Button, RichText, Ui, WidgetInfo, WidgetType, vec2};
use elbowroom_bending::text::shown_path;
use elbowroom_bending::{Edit, Tube};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::{LengthUnit, format_length};
use elbowroom_workbench::{Command, Workbench};

use crate::bench::{ClampChoice, DieChoice, Fit, clamps_in_use, die_choices, dies_in_use, size_text, tube_text};
use crate::colours::{colour, colours};

/// What is in use, and what there is instead.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// What the shop is called.
    pub name: String,
    /// Its file; none for the one that is built in.
    pub file: Option<PathBuf>,
    /// Whether another one was asked for and could not be had.
    pub missed: bool,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The tube in hand.
    pub tube: Tube,
    /// The tubes in stock, those of its diameter first.
    pub tubes: Vec<Tube>,
    /// The die set that is chosen; none where it is left to the shop.
    pub die: Option<String>,
    /// The die sets that bend the part, by name.
    pub taken: Vec<String>,
    /// The die sets of the shop, those that fit first.
    pub dies: Vec<DieChoice>,
    /// The clamp that is chosen; none where the longest is taken.
    pub clamp: Option<Length>,
    /// The clamps of the die sets in use, the longest first.
    pub clamps: Vec<ClampChoice>,
    /// Whether the bench is open.
    pub bench_open: bool,
}

impl Model {
    /// What is in use.
    pub fn of(workbench: &Workbench) -> Self {
        let (part, shop, solved) = (workbench.part(), workbench.shop(), workbench.solved());
        let used = dies_in_use(shop, solved, part.tooling.die.as_deref());
        let (here, others): (Vec<_>, Vec<_>) = shop.tubes.iter().partition(|tube| tube.od == part.tube.od);
        Self {
            name: shop.name.clone(),
            file: workbench.shop_file().cloned(),
            missed: workbench.shop_missed().is_some(),
            unit: part.units,
            tube: part.tube.clone(),
            tubes: here.into_iter().chain(others).cloned().collect(),
            die: part.tooling.die.clone(),
            taken: used.iter().map(|die| die.name.clone()).collect(),
            dies: die_choices(shop, solved, &part.tube, part.units),
            clamp: part.tooling.clamp.map(|clamp| clamp.length()),
            clamps: clamps_in_use(&used, part.units),
            bench_open: workbench.screen().bench_open,
        }
    }

    fn length(&self, length: Length) -> String {
        format_length(length, self.unit, self.unit.decimals())
    }

    fn shop_said(&self) -> String {
        let file = self.file.as_ref().and_then(|file| file.file_name());
        let place = file.map_or("built in".to_owned(), |file| shown_path(Path::new(file)));
        let missed = if self.missed { "; not the one asked for" } else { "" };
        format!("Shop: {}, {place}{missed}", self.name)
    }

    fn tube_said(&self) -> String {
        format!("Tube: {}, {}", size_text(&self.tube, self.unit), self.tube.material)
    }

    fn die_said(&self) -> String {
        match (&self.die, self.taken.as_slice()) {
            (Some(die), []) => format!("Die: {die}, not in this shop"),
            (Some(die), _) => format!("Die: {die}"),
            (None, []) => "Die: none fits".to_owned(),
            (None, taken) => format!("Die: {}", taken.join(", ")),
        }
    }

    fn clamp_said(&self) -> String {
        match (self.clamp, self.clamps.first()) {
            (Some(length), _) => format!("Clamp: {}", self.length(length)),
            (None, Some(longest)) => format!("Clamp: the longest, {}", self.length(longest.length)),
            (None, None) => "Clamp: none".to_owned(),
        }
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "{}", self.shop_said())?;
        writeln!(out, "{}", self.tube_said())?;
        let left = if self.die.is_none() && !self.taken.is_empty() { ", left to the shop" } else { "" };
        writeln!(out, "{}{left}", self.die_said())?;
        writeln!(out, "{}", self.clamp_said())
    }
}

/// Draws the four buttons, two beside each other so that none jumps as a text changes.
pub fn ui(ui: &mut Ui, model: &Model) -> Vec<Command> {
    let mut commands = Vec::new();
    let place = match &model.file {
        Some(file) => shown_path(file),
        None => "The shop that comes with the program; its figures are common practice.".to_owned(),
    };
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.horizontal(|ui| {
            commands.extend(choice(ui, SHARES[0], &model.shop_said(), &place, model.missed, shop));
            let hint = "The tube in hand; another one is judged at once";
            commands.extend(choice(ui, SHARES[1], &model.tube_said(), hint, false, |ui| tubes(ui, model)));
        });
        ui.horizontal(|ui| {
            let hint = if model.die.is_some() { "Chosen for every bend" } else { "Left to the shop, bend by bend" };
            commands.extend(choice(ui, SHARES[0], &model.die_said(), hint, false, |ui| dies(ui, model)));
            let hint = "The clamp that grips the tube";
            commands.extend(choice(ui, SHARES[1], &model.clamp_said(), hint, false, |ui| clamps(ui, model)));
        });
    });
    commands
}

/// Shares of the width: tubes and clamps have more to say.
const SHARES: [f32; 2] = [0.455, 0.545];
/// Height of a button, points.
const HEIGHT: f32 = 20.0;

/// A button of a share of the width that opens a list.
fn choice(
    ui: &mut Ui,
    share: f32,
    said: &str,
    hint: &str,
    loud: bool,
    list: impl FnOnce(&mut Ui) -> Option<Command>,
) -> Option<Command> {
    let palette = colours(ui);
    let ink = if loud { palette.text } else { palette.weak_text };
    let gap = ui.spacing().item_spacing.x;
    let width = ((ui.max_rect().width() - gap) * share).max(80.0);
    let text = RichText::new(said).small().color(colour(ink));
    let button = Button::new(text).truncate().min_size(vec2(width, HEIGHT));
    let (response, given) = ui
        .allocate_ui(vec2(width, HEIGHT), |ui| {
            ui.set_max_width(width);
            ui.spacing_mut().button_padding = vec2(6.0, 1.0);
            ui.spacing_mut().interact_size.y = HEIGHT;
            MenuButton::from_button(button).ui(ui, |ui| {
                ui.set_min_width(240.0);
                list(ui)
            })
        })
        .inner;
    let label = said.to_owned();
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, &label));
    response.on_hover_text(format!("{said}. {hint}"));
    given.and_then(|given| given.inner)
}

/// A line of a list; gives its command where it was clicked and is not what is there.
fn line(ui: &mut Ui, is_now: bool, text: &str, hint: &str, command: Command) -> Option<Command> {
    let mut response = ui.add(Button::selectable(is_now, text));
    if !hint.is_empty() {
        response = response.on_hover_text(hint);
    }
    if !response.clicked() {
        return None;
    }
    ui.close();
    (!is_now).then_some(command)
}

/// A list of its own at the side, which is there where it holds anything.
fn folded<T>(
    ui: &mut Ui,
    name: &str,
    all: &[T],
    mut one: impl FnMut(&mut Ui, &T) -> Option<Command>,
) -> Option<Command> {
    if all.is_empty() {
        return None;
    }
    let button = Button::new(format!("{name} ({})", all.len())).right_text("→");
    let (_, given) = SubMenuButton::from_button(button).ui(ui, |ui| {
        let scroll = egui::ScrollArea::vertical().max_height(ui.ctx().content_rect().height() * 0.7);
        scroll.show(ui, |ui| all.iter().filter_map(|item| one(ui, item)).last()).inner
    });
    given.and_then(|given| given.inner)
}

fn shop(ui: &mut Ui) -> Option<Command> {
    let set_up =
        line(ui, false, "Set up the shop", "Its machine, die sets, clamps, tubes and limits", Command::ToggleShop);
    let choose = line(ui, false, "Choose a shop file\u{2026}", "Judges the part on another shop", Command::AskShop);
    let hint = "Your own shop file, or the built-in shop where you have none";
    set_up.or(choose).or(line(ui, false, "Use own shop", hint, Command::UseOwnShop))
}

fn tubes(ui: &mut Ui, model: &Model) -> Option<Command> {
    let one = |ui: &mut Ui, tube: &Tube| {
        let command = Command::Edit(Edit::SetTube(tube.clone()));
        line(ui, *tube == model.tube, &tube_text(tube, model.unit), "", command)
    };
    let here = model.tubes.iter().take_while(|tube| tube.od == model.tube.od).count();
    let (near, far) = model.tubes.split_at(here);
    let mut chosen: Option<Command> = near.iter().filter_map(|tube| one(ui, tube)).last();
    chosen = chosen.or(folded(ui, "Other diameters", far, one));
    ui.separator();
    // The bench that is open has its fields in sight.
    if !model.bench_open {
        let hint = "Opens the bench, where a tube can be typed";
        chosen = chosen.or(line(ui, false, "Another tube\u{2026}", hint, Command::ToggleBench));
    }
    chosen.or(line(ui, false, "Set up the shop", "", Command::ToggleShop))
}

fn dies(ui: &mut Ui, model: &Model) -> Option<Command> {
    let left = Command::Edit(Edit::ChooseDie(None));
    let mut chosen =
        line(ui, model.die.is_none(), "Left to the shop", "Each bend takes the die set of its radius", left);
    let one = |ui: &mut Ui, die: &DieChoice| {
        let text = format!("{}: {}", die.name, die.fit.words());
        let is_now = model.die.as_ref() == Some(&die.name);
        let alone = line(ui, is_now, &text, &die.size, Command::Edit(die.take()));
        let with_radius = die.clr_for_all.as_ref().and_then(|clr| {
            let text = format!("{}, and every bend at CLR {clr}", die.name);
            line(
                ui,
                false,
                &text,
                "The die set and its radius, in one step",
                Command::Edit(die.take_with_its_radius(clr)),
            )
        });
        alone.or(with_radius)
    };
    let here = model.dies.iter().take_while(|die| die.fit != Fit::Nothing).count();
    let (near, far) = model.dies.split_at(here);
    chosen = chosen.or(near.iter().filter_map(|die| one(ui, die)).last());
    chosen = chosen.or(folded(ui, "Other diameters", far, one));
    ui.separator();
    chosen.or(line(ui, false, "Set up the shop", "", Command::ToggleShop))
}

fn clamps(ui: &mut Ui, model: &Model) -> Option<Command> {
    let longest = Command::Edit(Edit::ChooseClamp(None));
    let mut chosen = line(ui, model.clamp.is_none(), "The longest of the die set", "", longest);
    for clamp in &model.clamps {
        let text = format!("{}, {}", model.length(clamp.length), clamp.proved);
        let command = Command::Edit(Edit::ChooseClamp(Some(clamp.length)));
        chosen = chosen.or(line(ui, model.clamp == Some(clamp.length), &text, "", command));
    }
    ui.separator();
    chosen.or(line(ui, false, "Set up the shop", "", Command::ToggleShop))
}
