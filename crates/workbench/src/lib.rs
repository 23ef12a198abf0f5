//! The program without a screen: the open part, its edits with undo and preview, selection, commands and
//! the native file format.
//!
//! Panels read a [`Workbench`] and return [`Command`]s; [`Workbench::perform`] is the only way in. What
//! the workbench cannot do without a window (asking for a file name, moving the camera, quitting) comes
//! out again as [`Request`]s.

pub mod catalogue;
mod command;
mod deeds;
mod desk;
mod document;
mod request;
mod screen;
mod shelf;
mod waker;
mod workbench;

pub use command::{Command, ViewCommand, ViewFrom};
pub use desk::holding::{hold_or_free, holdable};
pub use desk::judged::{Judged, LARGEST_MAGNIFICATION};
pub use desk::measuring::{Landmark, Measured, Named};
pub use desk::palette::{Colour, Palette, Theme, palette};
pub use desk::proposal::Proposal;
pub use desk::run::{Changed, Standing};
pub use desk::selection::{SelectMode, Selection, Target};
pub use desk::sheet::{Sheet, Table};
pub use desk::trouble::{About, Deal, Trouble};
pub use desk::vertices::vertices_under;
pub use document::SurveyMesh;
pub use request::Request;
pub use screen::{Message, MessageKind, Question, Screen};
pub use shelf::home::{HOME_VARIABLE, Home};
pub use shelf::other_formats::{Exporter, Imported, Importer, ReadSystem, WritePart};
pub use shelf::{file, measured_table};
pub use waker::Waker;
pub use workbench::Workbench;
