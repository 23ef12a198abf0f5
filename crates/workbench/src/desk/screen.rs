//! What the screen shows beside the part: theme, scale, open drawers, messages, questions.

use elbowroom_bending::Fault;

use crate::desk::trouble::Trouble;

/// The colours of the whole interface.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// Light panels.
    #[default]
    Light,
    /// Dark panels.
    Dark,
}

/// A sheet of the right column: what a person is about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Sheet {
    /// Laying the tube out: rows, findings, why.
    #[default]
    Bends,
    /// What bending does to the tube: walls, stretch, springback, seam, material.
    Forming,
    /// The bend program and what else to set on the machine.
    Program,
    /// Which of the shop's tooling makes the part.
    Tooling,
    /// What the shop knows of springback, by trial bends.
    Springback,
    /// The first piece measured, and the program for the next.
    FirstOff,
}

impl Sheet {
    /// Every sheet, in the order of its tabs.
    pub const ALL: &[Self] =
        &[Self::Bends, Self::Forming, Self::Program, Self::Tooling, Self::Springback, Self::FirstOff];

    /// What its tab says.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bends => "Bends",
            Self::Forming => "Forming",
            Self::Program => "Program",
            Self::Tooling => "Tooling",
            Self::Springback => "Springback",
            Self::FirstOff => "First-off",
        }
    }

    /// What its tab's tooltip says.
    pub const fn purpose(self) -> &'static str {
        match self {
            Self::Bends => "The bends as rows, what the checks found, and why.",
            Self::Forming => "What bending does to the tube: walls, stretch, springback, seam, material.",
            Self::Program => "What to set on the machine, bend by bend, from either end and for either hand.",
            Self::Tooling => {
                "Which die set and clamp of the shop makes the part, and what the drawing would have to be."
            }
            Self::Springback => "What trial bends say of springback, and the angle to set for each bend.",
            Self::FirstOff => "What the first piece measures, and the program for the next one.",
        }
    }
}

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
        then: Box<crate::Command>,
    },
    /// The file to save to has been changed by another program or window.
    Changed {
        /// The file.
        file: std::path::PathBuf,
        /// What was asked for and waits, if anything.
        then: Option<Box<crate::Command>>,
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
    /// Whether the bench drawer is open.
    pub bench_open: bool,
    /// Whether the list of tubes is open.
    pub tubes_open: bool,
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
            bench_open: false,
            tubes_open: false,
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
