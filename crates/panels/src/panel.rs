//! What a panel is, and the registry that lists them.

use elbowroom_workbench::{Command, Screen, Sheet, Workbench};

use crate::{
    PanelState, around, at_machine, bar, bench, command_list, findings, first_off, forming, help, here_menu, hints,
    manual, marks_legend, measuring, message, placing, program, question, rows, sheets, shop, shop_in_use, springback,
    strip, tooling, troubles, tubes, verdict, why,
};

/// Where a panel is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// The slim bar on top.
    Bar,
    /// Below the bar, over the full width; there only while something is shown there.
    Notice,
    /// The head of the right column, which stays where it is while the rest is scrolled.
    ColumnHead,
    /// The right column, in the order of the registry.
    Column,
    /// The strip along the bottom.
    Strip,
    /// The drawer at the left.
    Drawer,
    /// Over the whole window, in the place of everything but what is laid over it.
    Whole,
    /// Above everything else; the panel puts up its own window, in the order of the registry.
    Overlay,
}

/// A panel as the layout sees it.
pub struct Panel {
    /// What it is called, in tests and in the memory of egui.
    pub name: &'static str,
    /// Where it is shown.
    pub place: Place,
    /// Whether it is shown.
    pub shown: fn(&Screen) -> bool,
    /// Draws it and returns what was asked for.
    pub show: fn(&mut egui::Ui, &Workbench, &mut PanelState) -> Vec<Command>,
    /// What it says, as text.
    pub snapshot: fn(&Workbench) -> String,
}

fn always(_: &Screen) -> bool {
    true
}

fn on_bends(screen: &Screen) -> bool {
    screen.sheet == Sheet::Bends
}

/// Every panel, in the order in which they are drawn.
pub static REGISTRY: &[Panel] = &[
    Panel {
        name: "bar",
        place: Place::Bar,
        shown: always,
        show: |ui, workbench, _| bar::ui(ui, &bar::Model::of(workbench)),
        snapshot: |workbench| bar::Model::of(workbench).to_string(),
    },
    Panel {
        name: "troubles",
        place: Place::Notice,
        shown: |screen| !screen.troubles.is_empty(),
        show: |ui, workbench, _| troubles::ui(ui, &troubles::Model::of(workbench)),
        snapshot: |workbench| troubles::Model::of(workbench).to_string(),
    },
    Panel {
        name: "verdict",
        place: Place::ColumnHead,
        shown: always,
        show: |ui, workbench, _| verdict::ui(ui, &verdict::Model::of(workbench)),
        snapshot: |workbench| verdict::Model::of(workbench).to_string(),
    },
    Panel {
        name: "shop in use",
        place: Place::ColumnHead,
        shown: always,
        show: |ui, workbench, _| shop_in_use::ui(ui, &shop_in_use::Model::of(workbench)),
        snapshot: |workbench| shop_in_use::Model::of(workbench).to_string(),
    },
    Panel {
        name: "sheets",
        place: Place::ColumnHead,
        shown: |_| Sheet::ALL.len() > 1,
        show: |ui, workbench, _| sheets::ui(ui, &sheets::Model::of(workbench)),
        snapshot: |workbench| sheets::Model::of(workbench).to_string(),
    },
    Panel {
        name: "rows",
        place: Place::Column,
        shown: on_bends,
        show: |ui, workbench, state| rows::ui(ui, &rows::Model::of(workbench), &mut state.rows),
        snapshot: |workbench| rows::Model::of(workbench).to_string(),
    },
    Panel {
        name: "findings",
        place: Place::Column,
        shown: on_bends,
        show: |ui, workbench, state| {
            let told = state.told.first(workbench, state.findings.most());
            findings::ui(ui, &findings::Model::told(workbench, told), &mut state.findings)
        },
        snapshot: |workbench| findings::Model::of(workbench).to_string(),
    },
    Panel {
        name: "why",
        place: Place::Column,
        shown: on_bends,
        show: |ui, workbench, _| why::ui(ui, &why::Model::of(workbench)),
        snapshot: |workbench| why::Model::of(workbench).to_string(),
    },
    Panel {
        name: "forming",
        place: Place::Column,
        shown: |screen| screen.sheet == Sheet::Forming,
        show: |ui, workbench, _| forming::ui(ui, &forming::Model::of(workbench)),
        snapshot: |workbench| forming::Model::of(workbench).to_string(),
    },
    Panel {
        name: "program",
        place: Place::Column,
        shown: |screen| screen.sheet == Sheet::Program,
        show: |ui, workbench, state| program::show(ui, workbench, &mut state.program),
        snapshot: |workbench| program::Model::of(workbench).to_string(),
    },
    Panel {
        name: "tooling",
        place: Place::Column,
        shown: |screen| screen.sheet == Sheet::Tooling,
        show: |ui, workbench, state| tooling::show(ui, workbench, &mut state.tooling),
        snapshot: |workbench| tooling::Model::of(workbench).to_string(),
    },
    Panel {
        name: "springback",
        place: Place::Column,
        shown: |screen| screen.sheet == Sheet::Springback,
        show: |ui, workbench, state| springback::ui(ui, &springback::Model::of(workbench), &mut state.springback),
        snapshot: |workbench| springback::Model::of(workbench).to_string(),
    },
    Panel {
        name: "first-off",
        place: Place::Column,
        shown: |screen| screen.sheet == Sheet::FirstOff,
        show: |ui, workbench, state| first_off::show(ui, workbench, &mut state.first_off),
        snapshot: |workbench| first_off::Model::of(workbench).to_string(),
    },
    Panel {
        name: "strip",
        place: Place::Strip,
        shown: always,
        show: |ui, workbench, state| strip::ui(ui, &strip::Model::told(workbench, &mut state.told)),
        snapshot: |workbench| strip::Model::of(workbench).to_string(),
    },
    Panel {
        name: "at the machine",
        place: Place::Whole,
        shown: |screen| screen.at_machine,
        show: |ui, workbench, state| at_machine::show(ui, workbench, &mut state.at_machine),
        snapshot: |workbench| at_machine::Model::of(workbench, &at_machine::planned(workbench)).to_string(),
    },
    Panel {
        name: "tubes",
        place: Place::Drawer,
        shown: |screen| screen.tubes_open,
        show: |ui, workbench, state| tubes::ui(ui, &tubes::Model::of(workbench), &mut state.tubes),
        snapshot: |workbench| tubes::Model::of(workbench).to_string(),
    },
    Panel {
        name: "bench",
        place: Place::Drawer,
        shown: |screen| screen.bench_open,
        show: |ui, workbench, _| bench::ui(ui, &bench::Model::of(workbench)),
        snapshot: |workbench| bench::Model::of(workbench).to_string(),
    },
    Panel {
        name: "marks legend",
        place: Place::Overlay,
        shown: |screen| !screen.at_machine,
        show: |ui, workbench, _| {
            if let Some(model) = marks_legend::Model::of(workbench) {
                marks_legend::ui(ui, &model);
            }
            Vec::new()
        },
        snapshot: |workbench| marks_legend::Model::of(workbench).map_or_else(String::new, |model| model.to_string()),
    },
    Panel {
        name: "hints",
        place: Place::Overlay,
        shown: |screen| screen.hints_shown && !screen.at_machine,
        show: |ui, workbench, _| hints::Model::of(workbench).map_or_else(Vec::new, |model| hints::ui(ui, &model)),
        snapshot: |workbench| hints::Model::of(workbench).map_or_else(String::new, |model| model.to_string()),
    },
    Panel {
        name: "placing",
        place: Place::Overlay,
        shown: |screen| screen.placing_open && !screen.at_machine,
        show: |ui, workbench, state| placing::ui(ui, workbench, &mut state.placing),
        snapshot: |workbench| placing::Model::of(workbench).to_string(),
    },
    Panel {
        name: "around",
        place: Place::Overlay,
        shown: |screen| screen.around_open && !screen.at_machine,
        show: |ui, workbench, state| around::ui(ui, workbench, &mut state.around),
        snapshot: |workbench| around::Model::of(workbench).to_string(),
    },
    Panel {
        name: "measuring",
        place: Place::Overlay,
        shown: |screen| screen.measuring_open && !screen.at_machine,
        show: |ui, workbench, _| measuring::ui(ui, workbench),
        snapshot: |workbench| measuring::Model::of(workbench).to_string(),
    },
    Panel {
        name: "shop",
        place: Place::Overlay,
        shown: |screen| screen.shop_open,
        show: |ui, workbench, state| shop::ui(ui, &shop::Model::of(workbench), &mut state.shop),
        snapshot: |workbench| shop::Model::of(workbench).to_string(),
    },
    Panel {
        name: "manual",
        place: Place::Overlay,
        shown: |screen| screen.manual.is_some(),
        show: |ui, workbench, _| manual::Model::of(workbench).map_or_else(Vec::new, |model| manual::ui(ui, &model)),
        snapshot: |workbench| manual::Model::of(workbench).map_or_else(String::new, |model| model.to_string()),
    },
    Panel {
        name: "help",
        place: Place::Overlay,
        shown: |screen| screen.help_open,
        show: |ui, workbench, _| help::ui(ui, &help::Model::of(workbench)),
        snapshot: |workbench| help::Model::of(workbench).to_string(),
    },
    Panel {
        name: "command list",
        place: Place::Overlay,
        shown: |screen| screen.command_list_open,
        show: |ui, workbench, state| {
            let told = state.told.first(workbench, command_list::MOST_FINDINGS);
            let model = command_list::Model::told(workbench, told);
            command_list::ui(ui, &model, &mut state.command_list)
        },
        snapshot: |workbench| command_list::Model::of(workbench).to_string(),
    },
    Panel {
        name: "menu of what is here",
        place: Place::Overlay,
        shown: always,
        show: |ui, workbench, state| here_menu::ui(ui, workbench, &mut state.here_menu),
        snapshot: |workbench| here_menu::Model::of(workbench).about,
    },
    Panel {
        name: "message",
        place: Place::Overlay,
        shown: |screen| screen.message.is_some(),
        show: |ui, workbench, _| message::Model::of(workbench).map_or_else(Vec::new, |model| message::ui(ui, &model)),
        snapshot: |workbench| message::Model::of(workbench).map_or_else(String::new, |model| model.to_string()),
    },
    Panel {
        name: "question",
        place: Place::Overlay,
        shown: |screen| screen.question.is_some(),
        show: |ui, workbench, _| question::Model::of(workbench).map_or_else(Vec::new, |model| question::ui(ui, &model)),
        snapshot: |workbench| question::Model::of(workbench).map_or_else(String::new, |model| model.to_string()),
    },
];
