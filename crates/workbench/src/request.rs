//! What only a window can do for the workbench.

use elbowroom_bending::{MeshUnit, UpAxis};

use crate::ViewCommand;

/// Something only a window can do.
#[derive(Clone, Debug, PartialEq)]
pub enum Request {
    /// Ask for a part, or a file of another format, to open.
    AskOpen,
    /// Ask for a name to save under.
    AskSaveAs,
    /// Ask for a name to export under.
    AskExport,
    /// Ask for a shop file.
    AskShop,
    /// Ask for a table of what was measured on the first-off.
    AskMeasurement,
    /// Ask for the file of a mesh that stands around the tubes, drawn in this unit and with this axis upwards.
    AskObstacle(MeshUnit, UpAxis),
    /// Move the camera.
    View(ViewCommand),
    /// Close the program.
    Quit,
}
