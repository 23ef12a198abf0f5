//! What the screen shows beside the part: theme, scale, open drawers, messages, questions.

use elbowroom_bending::Fault;

use crate::Command;
use crate::desk::palette::Theme;
use crate::desk::sheet::{Sheet, Table};
use crate::desk::trouble::Trouble;

/// How a message is meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MessageKind {
    /// It went well.
    Done,
    /// It could not be done.
    Refused,
    /// It is being done.
    Busy,
}

/// A message to the person, shown until put away or overtaken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// How it is meant.
    pub kind: MessageKind,
    /// What it says.
    pub text: String,
}

/// A question that must be answered before the program goes on.
#[derive(Clone, Debug, PartialEq)]
pub enum Question {
    /// There is unsaved work and the command would lose it.
    Unsaved {
        /// What was asked for and waits.
        then: Box<Command>,
    },
    /// The file to save to has been changed by another program or window.
    Changed {
        /// The file.
        file: std::path::PathBuf,
        /// What was asked for and waits, if anything.
        then: Option<Box<Command>>,
    },
    /// A crash left work behind.
    Recovery {
        /// What the work is called.
        name: String,
        /// How long ago it was written, in words.
        age: String,
    },
}

/// The state of the screen that is not the part.
#[derive(Clone, Debug, PartialEq)]
pub struct Screen {
    /// Light or dark.
    pub theme: Theme,
    /// Interface scale, 0.8 to 2.0.
    pub scale: f32,
    /// The sheet that lies on top in the right column.
    pub sheet: Sheet,
    /// Whether the sheet of bends says them as rows or as points.
    pub table: Table,
    /// Whether the bench drawer is open.
    pub bench_open: bool,
    /// Whether the view for the machine is open.
    pub at_machine: bool,
    /// Whether the page of the shop is open.
    pub shop_open: bool,
    /// Whether the list of tubes is open.
    pub tubes_open: bool,
    /// Whether what moves and turns by typed figures is open.
    pub placing_open: bool,
    /// Whether the list of what stands around is open.
    pub around_open: bool,
    /// Whether what measures between two landmarks is open.
    pub measuring_open: bool,
    /// Whether the scene numbers the bends.
    pub numbers_shown: bool,
    /// How often the name of a tube was asked for: the list of tubes takes the keyboard to its field once for each.
    pub names_asked: u32,
    /// Whether the command list is open.
    pub command_list_open: bool,
    /// Whether the help is open.
    pub help_open: bool,
    /// The manual page that is open.
    pub manual: Option<Fault>,
    /// Whether the hints of the first start are shown.
    pub hints_shown: bool,
    /// The message that is shown.
    pub message: Option<Message>,
    /// What went wrong and has not been dealt with.
    pub troubles: Vec<Trouble>,
    /// The question that waits for an answer.
    pub question: Option<Question>,
}

impl Default for Screen {
    fn default() -> Self {
        Self {
            theme: Theme::default(),
            scale: 1.0,
            sheet: Sheet::default(),
            table: Table::default(),
            bench_open: false,
            at_machine: false,
            shop_open: false,
            tubes_open: false,
            placing_open: false,
            around_open: false,
            measuring_open: false,
            numbers_shown: false,
            names_asked: 0,
            command_list_open: false,
            help_open: false,
            manual: None,
            hints_shown: false,
            message: None,
            troubles: Vec::new(),
            question: None,
        }
    }
}
