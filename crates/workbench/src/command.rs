//! Everything a person can ask for, as values.

use std::path::PathBuf;

use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::{Edit, Fault, MeshUnit, Motion, NodeId, ShopEdit, SystemEdit, TubeId, UpAxis};

use crate::{About, Deal, Measured, SelectMode, Sheet, Table, Target, Theme};

/// A direction to look from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ViewFrom {
    /// From the front, along +y.
    Front,
    /// From the back.
    Back,
    /// From the left.
    Left,
    /// From the right.
    Right,
    /// From above.
    Top,
    /// From below.
    Bottom,
    /// From a corner, all three axes at equal angles.
    Isometric,
}

/// What the camera is asked to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ViewCommand {
    /// Shows every tube that is not hidden, whole.
    FrameAll,
    /// Shows what is selected.
    FrameSelection,
    /// Looks from a direction, keeping the whole in view.
    From(ViewFrom),
    /// Changes between perspective and parallel projection.
    ToggleProjection,
}

/// One thing a person asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Makes a change to the tube that is worked on, as one step of history.
    Edit(Edit),
    /// Makes a change to the system, as one step of history.
    EditSystem(SystemEdit),
    /// Takes in a further tube, a straight piece of the same kind, and turns to it.
    AddTube,
    /// Shows a change without making it, while dragging or typing. Replaces the last preview.
    Preview(Edit),
    /// Makes the previewed change, as one step of history.
    CommitPreview,
    /// Drops the previewed change.
    DropPreview,
    /// Takes the last step back.
    Undo,
    /// Makes the step taken back again.
    Redo,
    /// Selects something.
    Select(Target<NodeId>, SelectMode),
    /// Selects these, alone or beside what is selected.
    SelectThese(Vec<Target<NodeId>>, SelectMode),
    /// Selects every bend.
    SelectAll,
    /// Selects nothing, and leaves all that is open as it is.
    SelectNothing,
    /// Escape: drops a preview, closes what is open on top, else clears the selection.
    Escape,
    /// Says what lies under the pointer.
    Hover(Option<Target<NodeId>>),
    /// Says which tube lies under the pointer, of those that are not worked on.
    PointAtTube(Option<TubeId>),
    /// Says which change is pointed at, to show what it would make of the tube.
    PointAtChange(Option<Edit>),
    /// Goes to a finding: selects its place and shows it. Counted from 0 in the solved order.
    GoToFinding(usize),
    /// Moves what is selected, the whole tube where nothing is: vertices together, as one step.
    MoveSelection(Motion),
    /// Opens or closes what moves, turns and mirrors by typed figures, and lays the floor.
    TogglePlacing,
    /// Opens or closes the list of what stands around the tubes.
    ToggleAround,
    /// Opens or closes what measures: of what is selected where it opens.
    ToggleMeasuring,
    /// Measures between two landmarks.
    Measure(Measured),
    /// Measures between the two things that were selected last.
    MeasureSelected,
    /// Removes what is selected.
    DeleteSelection,
    /// Holds the path in its other form: vertices as bend rows, or bend rows as vertices.
    ChangeForm,
    /// Starts a new part.
    New,
    /// Asks for a file and opens it.
    AskOpen,
    /// Opens a part, or a file of another format.
    Open(PathBuf),
    /// Opens a demo part by its name.
    OpenDemo(String),
    /// Saves to the part's own file, or asks for a name.
    Save,
    /// Asks for a name and saves.
    AskSaveAs,
    /// Saves under this name.
    SaveAs(PathBuf),
    /// Asks for a name and exports.
    AskExport,
    /// Writes the part under this name, in the format that its ending tells.
    Export(PathBuf),
    /// Asks for a shop file and uses it.
    AskShop,
    /// Uses this shop file.
    UseShop(PathBuf),
    /// Goes back to the user's own shop file, or the built-in shop.
    UseOwnShop,
    /// Puts a copy of the built-in shop in the user's configuration folder, and uses it.
    MakeOwnShop,
    /// Changes the shop, as one step of history, and writes it to the shop's file; on the built-in shop to one of the
    /// user's own.
    EditShop(ShopEdit),
    /// Takes what was measured on the piece bent last, in place of what was measured on it before; on the first
    /// piece where there is none yet, bent by the program as it is chosen now.
    SetMeasurement(Measurement),
    /// Takes what was measured on a further piece, bent by the program for the next one as it stands.
    AddPiece(Measurement),
    /// Asks for a file with what was measured on a further piece.
    AskMeasurement,
    /// Reads what was measured on a further piece from a file.
    OpenMeasurement(PathBuf),
    /// Asks for the file of a mesh that stands around the tubes, drawn in this unit and with this axis upwards.
    AskObstacle(MeshUnit, UpAxis),
    /// Takes in such a mesh from a file, as an obstacle where it stands in its file.
    AddObstacleMesh(PathBuf, MeshUnit, UpAxis),
    /// Puts the piece bent last away.
    ClearMeasurement,
    /// Takes a measured piece, counted from 0, as it was measured whatever speaks against it, or doubts it again.
    TakeAsMeasured(usize, bool),
    /// Draws what the first-off strays so many times as large, 1 to 100.
    MagnifyGhost(f64),
    /// Takes back the work that a crash left behind.
    TakeBackRecovery,
    /// Throws that work away.
    DiscardRecovery,
    /// Moves the camera.
    View(ViewCommand),
    /// Lays another sheet on top in the right column.
    ShowSheet(Sheet),
    /// Shows the bends as rows or as points, on their sheet.
    ShowTable(Table),
    /// Opens or closes the page of the shop: its machine, die sets, clamps, tubes and limits.
    ToggleShop,
    /// Opens or closes the bench drawer.
    ToggleBench,
    /// Opens or closes the view for the machine: the bend program step by step.
    ToggleAtMachine,
    /// What is to be done at the machine is done: the next step.
    StepOn,
    /// The step done last at the machine is to be done again.
    StepBack,
    /// Begins a tube at the machine anew, its loading first.
    BeginTube,
    /// Goes on at the machine by a program that has changed since.
    FollowChange,
    /// Numbers the bends in the scene, or leaves it.
    ToggleNumbers,
    /// Opens or closes the list of tubes.
    ToggleTubes,
    /// Opens the list of tubes, with the name of the one that is worked on to be typed over.
    NameTube,
    /// Opens or closes the command list.
    ToggleCommandList,
    /// Opens or closes the help: keys and mouse.
    ToggleHelp,
    /// Shows a check's manual page.
    ShowManual(Fault),
    /// Closes the manual page.
    CloseManual,
    /// Changes the theme.
    SetTheme(Theme),
    /// Changes the interface scale, 0.8 to 2.0.
    SetScale(f32),
    /// Says that something was put on the clipboard, and in which units it stands there.
    TellCopied(String),
    /// Puts away the message that is shown.
    DismissMessage,
    /// Deals with something that went wrong and stays on the screen.
    Deal(About, Deal),
    /// Puts away the hints of the first start.
    DismissHints,
    /// Closes the program; asks first where work is unsaved.
    Quit,
    /// Answers the question that is asked: save first.
    AnswerSave,
    /// Answers the question about a file that somebody else has changed: save under another name.
    AnswerOtherName,
    /// Answers the question that is asked: lose the changes.
    AnswerDiscard,
    /// Answers the question that is asked: go back to work.
    AnswerCancel,
}
