//! The list of verbs.

use elbowroom_bending::{Edit, Hold, Path, SystemEdit};
use elbowroom_geometry::units::LengthUnit;

use super::verb::{Group, Verb, verb};
use super::{Key, Shortcut};
use crate::desk::holding::{hold_or_free, holdable};
use crate::{Command, Sheet, Table, Theme, ViewCommand, ViewFrom, Workbench};

/// A verb that looks from a direction, called by a digit with control: a digit alone would be typed into a row
/// that has the keyboard after Enter.
macro_rules! look {
    ($id:literal, $from:ident, $label:literal, $tooltip:literal, $key:literal) => {
        verb(Group::View, $id, $label, $tooltip, |_| Command::View(ViewCommand::From(ViewFrom::$from)))
            .on(Shortcut::ctrl($key))
    };
}

/// A verb that shows lengths in a unit.
macro_rules! show_in {
    ($id:literal, $unit:ident, $label:literal) => {
        verb(Group::Edit, $id, $label, "Shows lengths in this unit; the part itself stays as it is.", |_| {
            Command::Edit(Edit::ShowUnits(LengthUnit::$unit))
        })
        .when(|bench| bench.part().units != LengthUnit::$unit)
    };
}

/// By how much one step changes the interface scale.
const SCALE_STEP: f32 = 0.1;

fn scaled(bench: &Workbench, steps: f32) -> Command {
    // In tenths, so that steps up and down come back to just where they began.
    let tenths = (bench.screen().scale / SCALE_STEP).round() + steps;
    Command::SetScale(tenths / (1.0 / SCALE_STEP).round())
}

/// Holds this of what is selected, or frees it.
fn held(bench: &Workbench, what: Hold) -> Command {
    let places = holdable(bench.selection_by_id(), &bench.solved().nodes);
    hold_or_free(&places, what, &bench.part().keep).map_or(Command::DropPreview, Command::Edit)
}

fn selects_places(bench: &Workbench) -> bool {
    !holdable(bench.selection_by_id(), &bench.solved().nodes).is_empty()
}

/// Every verb, in the order of the menus.
pub static VERBS: &[Verb] = &[
    verb(Group::File, "new", "New", "Starts a new part: a straight piece of the same tube.", |_| Command::New)
        .on(Shortcut::ctrl('N')),
    verb(Group::File, "open", "Open\u{2026}", "Opens a part, or a file of another format.", |_| Command::AskOpen)
        .on(Shortcut::ctrl('O')),
    verb(Group::File, "save", "Save", "Saves the part to its file.", |_| Command::Save).on(Shortcut::ctrl('S')),
    verb(Group::File, "save-as", "Save as\u{2026}", "Saves the part under another name.", |_| Command::AskSaveAs)
        .on(Shortcut::ctrl_shift('S')),
    verb(
        Group::File,
        "export",
        "Export\u{2026}",
        "Writes the part for other programs: a table of its vertices, a solid, a drawing, a mesh.",
        |_| Command::AskExport,
    )
    .when(|bench| !bench.exporters().is_empty()),
    verb(
        Group::File,
        "take-back",
        "Take back lost work",
        "Opens the work that was not saved when the program last ended.",
        |_| Command::TakeBackRecovery,
    )
    .when(Workbench::recovery_waits),
    verb(Group::File, "quit", "Quit", "Closes the program; asks first where work is unsaved.", |_| Command::Quit)
        .on(Shortcut::ctrl('Q')),
    verb(Group::Edit, "undo", "Undo", "Takes the last step back.", |_| Command::Undo)
        .on(Shortcut::ctrl('Z'))
        .when(|bench| bench.undo_label().is_some() || bench.previewing()),
    verb(Group::Edit, "redo", "Redo", "Makes the step that was taken back again.", |_| Command::Redo)
        .on(Shortcut::ctrl_shift('Z'))
        .or_on(Shortcut::ctrl('Y'))
        .when(|bench| bench.redo_label().is_some()),
    verb(Group::Edit, "select-all", "Select all bends", "Selects every bend of the part.", |_| Command::SelectAll)
        .on(Shortcut::ctrl('A'))
        .when(|bench| bench.solved().centreline.bends() > 0),
    verb(Group::Edit, "delete", "Remove selected", "Removes the bends and vertices that are selected.", |_| {
        Command::DeleteSelection
    })
    .on(Shortcut::plain(Key::Delete))
    .when(|bench| !bench.selection().targets().is_empty()),
    verb(
        Group::Edit,
        "escape",
        "Let go",
        "Drops what is being dragged, puts away what lies on top, then selects nothing.",
        |_| Command::Escape,
    )
    .on(Shortcut::plain(Key::Escape)),
    verb(
        Group::Edit,
        "place",
        "Move, turn, mirror\u{2026}",
        "Moves, turns or mirrors the whole tube or what is selected by typed figures, and lays the floor.",
        |_| Command::TogglePlacing,
    )
    .on(Shortcut::plain(Key::Character('M'))),
    verb(
        Group::View,
        "around",
        "What stands around\u{2026}",
        "Lists the obstacles with their kind and place, and the room that is left to each.",
        |_| Command::ToggleAround,
    )
    .on(Shortcut::plain(Key::Character('O'))),
    verb(
        Group::View,
        "measure",
        "Measure\u{2026}",
        "Measures from one vertex, end, middle line, axis or the floor to another, and what the tube takes up.",
        |_| Command::ToggleMeasuring,
    )
    .on(Shortcut::plain(Key::Character('R'))),
    verb(Group::Edit, "swap-ends", "Swap ends", "Turns the part round, so that the other end is bent first.", |_| {
        Command::Edit(Edit::SwapEnds)
    }),
    verb(
        Group::Edit,
        "vertices-or-rows",
        "Hold as vertices or as rows",
        "Changes between vertices, which suit dragging, and bend rows, which hold a half turn.",
        |_| Command::ChangeForm,
    )
    .when(|bench| match &bench.part().path {
        Path::Vertices(_) => true,
        Path::Bends(path) => path.to_vertex_form().is_ok(),
    }),
    verb(
        Group::Edit,
        "hold",
        "Hold or free",
        "Holds the selected ends and bends where they are, whatever else is edited; frees those that are held.",
        |bench| held(bench, Hold::PLACE),
    )
    .on(Shortcut::plain(Key::Character('H')))
    .when(selects_places),
    verb(
        Group::Edit,
        "hold-direction",
        "Hold or free the direction",
        "Holds the direction of the tube at the selected ends and bends; frees those that are held.",
        |bench| held(bench, Hold::DIRECTION),
    )
    .on(Shortcut::shift(Key::Character('H')))
    .when(selects_places),
    verb(
        Group::Edit,
        "hold-ends",
        "Hold both ends",
        "Holds start and finish with their directions: what is typed or dragged between them leaves them alone.",
        |bench| {
            let nodes = &bench.solved().nodes;
            let ends = [nodes.start(), nodes.finish()].map(|end| Edit::Hold(end, Hold::BOTH));
            Command::Edit(Edit::Together("hold both ends".to_owned(), ends.to_vec()))
        },
    )
    .when(|bench| {
        let (nodes, keep) = (&bench.solved().nodes, &bench.part().keep);
        [nodes.start(), nodes.finish()].iter().any(|end| keep.of(*end) != Hold::BOTH)
    }),
    verb(Group::Edit, "free-all", "Free everything held", "Lets edits move every end and bend again.", |_| {
        Command::Edit(Edit::FreeAll)
    })
    .when(|bench| !bench.part().keep.held().is_empty()),
    verb(
        Group::Edit,
        "side-that-stays",
        "Change the side that stays",
        "Where a row is typed and nothing is held, either what lies towards the start stays or what lies towards the finish.",
        |bench| Command::Edit(Edit::KeepSide(bench.part().keep.side.other())),
    ),
    verb(
        Group::Edit,
        "seam-to-best",
        "Leave the seam to the best start",
        "Lays the weld seam where it is strained least, instead of where it is pinned.",
        |_| Command::Edit(Edit::PinSeam(None)),
    )
    .when(|bench| bench.part().tooling.seam_start.is_some()),
    show_in!("show-millimetres", Millimetre, "Show millimetres"),
    show_in!("show-centimetres", Centimetre, "Show centimetres"),
    show_in!("show-metres", Metre, "Show metres"),
    show_in!("show-inches", Inch, "Show inches"),
    show_in!("show-feet", Foot, "Show feet"),
    verb(
        Group::Tubes,
        "tubes",
        "List of tubes",
        "Opens or closes the list of tubes, where they are named, shown and turned to.",
        |_| Command::ToggleTubes,
    )
    .on(Shortcut::plain(Key::Character('T'))),
    verb(
        Group::Tubes,
        "add-tube",
        "Add a tube",
        "Adds a straight piece of the same tube beside this one, and turns to it.",
        |_| Command::AddTube,
    ),
    verb(
        Group::Tubes,
        "copy-tube",
        "Copy this tube",
        "Lays a copy of the tube you work on beside it, and turns to the copy.",
        |bench| Command::EditSystem(SystemEdit::DuplicateTube(bench.system().active())),
    ),
    verb(Group::Tubes, "remove-tube", "Remove this tube", "Takes the tube you work on out of the system.", |bench| {
        Command::EditSystem(SystemEdit::RemoveTube(bench.system().active()))
    })
    .when(|bench| bench.system().tubes().len() > 1),
    verb(
        Group::Tubes,
        "rename-tube",
        "Rename this tube",
        "Opens the list of tubes with the name of the one you work on, to be typed over.",
        |_| Command::NameTube,
    )
    .on(Shortcut::plain(Key::Function(2))),
    verb(
        Group::Tubes,
        "hide-tube",
        "Hide this tube",
        "Leaves the tube you work on out of the scene, and turns to the next one that is shown.",
        |bench| Command::EditSystem(SystemEdit::HideTube(bench.system().active())),
    )
    .when(|bench| bench.system().tubes().iter().filter(|tube| !tube.hidden).count() > 1),
    verb(Group::Tubes, "show-tubes", "Show every tube", "Brings hidden tubes back into the scene.", |_| {
        Command::EditSystem(SystemEdit::ShowEveryTube)
    })
    .when(|bench| bench.system().tubes().iter().any(|tube| tube.hidden)),
    verb(Group::Tubes, "next-tube", "Next tube", "Turns to the next tube of the list that is shown.", |bench| {
        Command::EditSystem(SystemEdit::Activate(bench.system().next_shown()))
    })
    .on(Shortcut::plain(Key::Character('N')))
    .when(|bench| bench.system().next_shown() != bench.system().active()),
    verb(Group::View, "frame-all", "Show all", "Brings the whole tube into view.", |_| {
        Command::View(ViewCommand::FrameAll)
    })
    .on(Shortcut::plain(Key::Character('F'))),
    verb(Group::View, "frame-selection", "Show selected", "Brings what is selected into view.", |_| {
        Command::View(ViewCommand::FrameSelection)
    })
    .on(Shortcut::shift(Key::Character('F')))
    .when(|bench| !bench.selection().targets().is_empty()),
    look!("from-front", Front, "From the front", "Looks from the front.", '1'),
    look!("from-back", Back, "From the back", "Looks from the back.", '2'),
    look!("from-left", Left, "From the left", "Looks from the left.", '3'),
    look!("from-right", Right, "From the right", "Looks from the right.", '4'),
    look!("from-top", Top, "From above", "Looks from above.", '5'),
    look!("from-bottom", Bottom, "From below", "Looks from below.", '6'),
    look!("from-corner", Isometric, "From a corner", "Looks from a corner, all axes at equal angles.", '7'),
    verb(
        Group::View,
        "projection",
        "Perspective or parallel",
        "Changes between perspective, as the eye sees, and parallel projection, as a drawing shows.",
        |_| Command::View(ViewCommand::ToggleProjection),
    )
    .on(Shortcut::plain(Key::Character('P'))),
    verb(
        Group::View,
        "bend-numbers",
        "Bend numbers",
        "Writes its number beside every bend in the scene, or leaves it.",
        |_| Command::ToggleNumbers,
    )
    .on(Shortcut::plain(Key::Character('D'))),
    verb(
        Group::View,
        "worst-finding",
        "Go to the worst finding",
        "Selects and shows what is first in the way.",
        |_| Command::GoToFinding(0),
    )
    .on(Shortcut::plain(Key::Character('G')))
    .when(|bench| !bench.solved().findings.is_empty()),
    verb(Group::Shop, "bench", "Bench", "Opens or closes the bench: tube, material, die set, clamp, machine.", |_| {
        Command::ToggleBench
    })
    .on(Shortcut::plain(Key::Character('B'))),
    verb(
        Group::Shop,
        "shop",
        "Set up the shop",
        "Opens or closes the page of the shop: machine, die sets, clamps, tubes, limits, and what they rest on.",
        |_| Command::ToggleShop,
    )
    .on(Shortcut::plain(Key::Character('S'))),
    verb(Group::Shop, "forming", "What bending does", "Shows walls, stretch, springback, seam and material.", |_| {
        Command::ShowSheet(Sheet::Forming)
    }),
    verb(Group::Shop, "program", "Bend program", "Shows what to set on the machine, bend by bend.", |_| {
        Command::ShowSheet(Sheet::Program)
    }),
    verb(
        Group::Shop,
        "at-machine",
        "At the machine",
        "Shows the bend program one step at a time in large letters, with what to watch; Space ticks a step off.",
        |_| Command::ToggleAtMachine,
    )
    .on(Shortcut::ctrl('M')),
    verb(Group::Shop, "tooling", "Which tooling makes it", "Compares every die set and clamp of the shop.", |_| {
        Command::ShowSheet(Sheet::Tooling)
    }),
    verb(
        Group::Shop,
        "springback",
        "Springback by trial bends",
        "Shows trial bends and the line fitted to them.",
        |_| Command::ShowSheet(Sheet::Springback),
    ),
    verb(Group::Shop, "first-off", "First-off", "Shows what the pieces measure, and the next program.", |_| {
        Command::ShowSheet(Sheet::FirstOff)
    }),
    verb(
        Group::Shop,
        "open-measurement",
        "Read a measured piece\u{2026}",
        "Reads what was measured on a further piece from a file.",
        |_| Command::AskMeasurement,
    ),
    verb(Group::View, "bends", "Bends and findings", "Shows the bends as rows and what the checks found.", |_| {
        Command::ShowSheet(Sheet::Bends)
    }),
    verb(
        Group::View,
        "rows-or-points",
        "Rows or points",
        "Shows the bends as the machine takes them, or as points: x, y and z of both ends and of each bend.",
        |bench| {
            Command::ShowTable(match bench.screen().table {
                Table::Rows => Table::Points,
                Table::Points => Table::Rows,
            })
        },
    )
    .on(Shortcut::plain(Key::Character('X'))),
    verb(Group::Shop, "choose-shop", "Choose a shop file\u{2026}", "Checks the part against another shop.", |_| {
        Command::AskShop
    }),
    verb(
        Group::Shop,
        "own-shop",
        "Use own shop",
        "Reads your own shop file again, or uses the built-in shop where you have none.",
        |_| Command::UseOwnShop,
    ),
    verb(
        Group::Shop,
        "make-own-shop",
        "Make own shop file",
        "Puts a copy of the built-in shop in your configuration folder, for you to change.",
        |_| Command::MakeOwnShop,
    )
    .when(Workbench::can_make_own_shop),
    verb(Group::Window, "commands", "Command list", "Lists every command, to be found by typing.", |_| {
        Command::ToggleCommandList
    })
    .on(Shortcut::ctrl('K')),
    verb(Group::Window, "help", "Keys and mouse", "Shows what keys and mouse do.", |_| Command::ToggleHelp)
        .on(Shortcut::plain(Key::Function(1))),
    verb(Group::Window, "theme", "Light or dark", "Changes between the light and the dark theme.", |bench| {
        Command::SetTheme(match bench.screen().theme {
            Theme::Light => Theme::Dark,
            Theme::Dark => Theme::Light,
        })
    }),
    verb(Group::Window, "larger", "Larger", "Makes everything in the window larger.", |bench| scaled(bench, 1.0))
        .on(Shortcut::ctrl('='))
        .when(|bench| bench.screen().scale < 2.0),
    verb(Group::Window, "smaller", "Smaller", "Makes everything in the window smaller.", |bench| scaled(bench, -1.0))
        .on(Shortcut::ctrl('-'))
        .when(|bench| bench.screen().scale > 0.8),
    verb(Group::Window, "usual-size", "Usual size", "Shows everything in its usual size.", |_| Command::SetScale(1.0))
        .on(Shortcut::ctrl('0'))
        .when(|bench| bench.screen().scale != 1.0),
];
