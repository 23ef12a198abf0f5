//! The program without a screen: the open part, its edits with undo and preview, selection, commands and
//! the native file format.
//!
//! Panels read a [`Workbench`] and return [`Command`]s; [`Workbench::perform`] is the only way in. What
//! the workbench cannot do without a window (asking for a file name, moving the camera, quitting) comes
//! out again as [`Request`]s.

mod at_home;
pub mod catalogue;
mod command;
mod documents;
mod editing;
pub mod file;
mod first_off;
mod follow;
mod history;
mod home;
mod keeper;
pub mod measured_table;
mod palette;
mod perform;
mod recovery;
mod screen;
mod selection;
mod settings;
mod shop_editing;
mod workbench;

pub use command::{Command, ViewCommand, ViewFrom};
pub use documents::Importer;
pub use first_off::{Judged, LARGEST_MAGNIFICATION};
pub use home::{HOME_VARIABLE, Home};
pub use palette::{Colour, Palette, palette};
pub use screen::{Message, MessageKind, Question, Screen, Sheet, Theme};
pub use selection::{SelectMode, Selection, Target};
pub use workbench::{Request, Workbench};
