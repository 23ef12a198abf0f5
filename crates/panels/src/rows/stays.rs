//! What stays where it is while rows and points are typed: the side of a changed row, and what is held.

use egui::containers::menu::{MenuButton, MenuConfig};
use egui::{
    Align, Button, Checkbox, Layout, PopupCloseBehavior, Rect, RichText, Ui, UiBuilder, WidgetInfo, WidgetType, vec2,
};
use elbowroom_bending::{Edit, End, Hold, NodeId, Numbering};
use elbowroom_workbench::catalogue::verb;
use elbowroom_workbench::{Command, Workbench, holdable};

/// A place that is held, or can be.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Its id.
    pub id: NodeId,
    /// What it is called.
    pub name: String,
    /// What is held of it.
    pub hold: Hold,
}

/// What stays.
#[derive(Clone, Debug, PartialEq)]
pub struct Stays {
    /// The side that stays where nothing is held.
    pub side: End,
    /// Both ends, what is held, and what is selected, along the tube.
    pub places: Vec<Place>,
}

impl Stays {
    /// What stays of the part that is shown.
    pub fn of(workbench: &Workbench) -> Self {
        let (nodes, keep) = (&workbench.solved().nodes, &workbench.part().keep);
        let mut ids = vec![nodes.start(), nodes.finish()];
        ids.extend(keep.held().iter().map(|(id, _)| *id));
        ids.extend(holdable(workbench.selection_by_id(), nodes));
        let mut along: Vec<(usize, NodeId)> = ids.into_iter().filter_map(|id| Some((nodes.place(id)?, id))).collect();
        along.sort_unstable();
        along.dedup();
        let place = |(_, id): (usize, NodeId)| Place { id, name: name(id, nodes), hold: keep.of(id) };
        Self { side: keep.side, places: along.into_iter().map(place).collect() }
    }

    /// How many places are held.
    pub fn held(&self) -> usize {
        self.places.iter().filter(|place| !place.hold.is_nothing()).count()
    }
}

fn name(id: NodeId, nodes: &Numbering) -> String {
    match id {
        start if start == nodes.start() => "start".to_owned(),
        finish if finish == nodes.finish() => "finish".to_owned(),
        other => match (nodes.bend_at(other), nodes.place(other)) {
            (Some(bend), _) => format!("bend {}", bend + 1),
            (None, Some(place)) => format!("vertex {}", place + 1),
            (None, None) => "nothing".to_owned(),
        },
    }
}

/// What is held, in words; empty where nothing is.
pub fn in_words(hold: Hold) -> &'static str {
    match (hold.place, hold.direction) {
        (true, true) => "held with its direction",
        (true, false) => "held",
        (false, true) => "direction held",
        (false, false) => "",
    }
}

/// Draws the button that opens what stays into a place, which says how much is held.
pub(super) fn ui(ui: &mut Ui, place: Rect, stays: &Stays) -> Vec<Command> {
    let mut commands = Vec::new();
    let held = stays.held();
    let text = if held == 0 { "Hold\u{2026}".to_owned() } else { format!("Held: {held}") };
    let builder = UiBuilder::new().max_rect(place).layout(Layout::left_to_right(Align::Center));
    ui.scope_builder(builder, |ui| {
        ui.spacing_mut().button_padding = vec2(4.0, 0.0);
        ui.spacing_mut().interact_size.y = place.height();
        // Who holds one end mostly holds the other too.
        let stays_open = MenuConfig::new().close_behavior(PopupCloseBehavior::CloseOnClickOutside);
        let button = Button::new(RichText::new(text).small()).min_size(vec2(0.0, place.height()));
        let (button, _) = MenuButton::from_button(button).config(stays_open).ui(ui, |ui| {
            commands.extend(sides(ui, stays));
            commands.extend(choices(ui, stays));
        });
        button.on_hover_text("What stays while rows and points are typed: hold ends and bends, or choose a side");
    });
    commands
}

/// Which side stays of a typed row, where nothing is held.
fn sides(ui: &mut Ui, stays: &Stays) -> Vec<Command> {
    let mut commands = Vec::new();
    ui.label("While a row is typed, what stays is");
    let is_free = stays.held() == 0;
    ui.add_enabled_ui(is_free, |ui| {
        ui.horizontal(|ui| {
            for (end, text, hint) in [
                (End::Start, "start side", "A typed row moves what lies behind it, towards the finish"),
                (End::Finish, "finish side", "A typed row moves what lies ahead of it, towards the start"),
            ] {
                let chosen = is_free && stays.side == end;
                if ui.selectable_label(chosen, text).on_hover_text(hint).clicked() && stays.side != end {
                    commands.push(Command::Edit(Edit::KeepSide(end)));
                }
            }
        });
    });
    if is_free {
        ui.label("or what is held here:");
    } else {
        ui.label("what is held here; the rest moves, the least:");
    }
    commands
}

/// What can be held, each with place and direction.
fn choices(ui: &mut Ui, stays: &Stays) -> Vec<Command> {
    let mut commands = Vec::new();
    egui::Grid::new("holds").num_columns(3).show(ui, |ui| {
        for place in &stays.places {
            ui.label(&place.name);
            let (mut at, mut direction) = (place.hold.place, place.hold.direction);
            let tick = |ui: &mut Ui, on: &mut bool, text: &str, hint: &str| {
                let response = ui.add(Checkbox::new(on, text)).on_hover_text(hint);
                let (on, label) = (*on, format!("{text} of {}", place.name));
                response.widget_info(|| WidgetInfo::selected(WidgetType::Checkbox, true, on, &label));
                response.clicked()
            };
            let mut asked = tick(ui, &mut at, "place", "It stays at its coordinates");
            asked |= tick(ui, &mut direction, "direction", "The tube runs there as it does now");
            if asked {
                commands.push(Command::Edit(Edit::Hold(place.id, Hold { place: at, direction })));
            }
            ui.end_row();
        }
    });
    ui.label(RichText::new("Select a bend or vertex to hold it too.").weak());
    ui.separator();
    for (id, is_possible) in [
        ("hold-ends", stays.places.iter().filter(|place| place.hold == Hold::BOTH).count() < 2),
        ("free-all", stays.held() > 0),
    ] {
        let Some(verb) = verb(id) else { continue };
        let button = ui.add_enabled(is_possible, Button::new(verb.label)).on_hover_text(verb.tooltip);
        if button.clicked() {
            commands.push(match id {
                "free-all" => Command::Edit(Edit::FreeAll),
                _ => Command::Edit(Edit::Together(
                    "hold both ends".to_owned(),
                    stays
                        .places
                        .iter()
                        .filter(|place| is_end(place))
                        .map(|place| Edit::Hold(place.id, Hold::BOTH))
                        .collect(),
                )),
            });
            ui.close();
        }
    }
    commands
}

fn is_end(place: &Place) -> bool {
    matches!(place.name.as_str(), "start" | "finish")
}
