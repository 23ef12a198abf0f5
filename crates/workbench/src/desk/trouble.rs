//! What went wrong and stays on the screen until it is dealt with, apart from the message that passes.

use std::path::{Path, PathBuf};

use elbowroom_bending::text::shown_path;

/// What a trouble is about. There is one trouble about each at most.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum About {
    /// A shop file that was asked for and cannot be used: the user's own, or one chosen by hand.
    Shop(PathBuf),
    /// The settings, which cannot be read.
    Settings,
    /// The settings, which cannot be written.
    KeepingSettings,
    /// The folder for recovery, which cannot be read or written to: no copy of the work is kept.
    RecoveryFolder,
    /// The recovery copy of the work, which cannot be written at present.
    KeepingWork,
    /// Work that a crash left behind and that cannot be read.
    LeftWork(PathBuf),
    /// Work that a crash left behind, and nobody has said yet what is to become of it.
    WorkWaits,
}

/// How a trouble is dealt with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Deal {
    /// What could not be done is tried again, or what waits is asked about.
    Again,
    /// It is left so, knowingly.
    Accept,
}

/// Something that went wrong and stays on the screen until it is dealt with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trouble {
    /// What it is about.
    pub about: About,
    /// What is wrong, and what follows from it.
    pub text: String,
}

impl About {
    /// What it is about in one line; the whole is the text of its trouble.
    pub fn headline(&self) -> String {
        match self {
            Self::Shop(path) => {
                let name = shown_path(Path::new(path.file_name().unwrap_or(path.as_os_str())));
                format!("The shop file {name} cannot be used: everything is judged on another shop.")
            }
            Self::Settings => "The settings cannot be read: the usual ones are used.".to_owned(),
            Self::KeepingSettings => "The settings are not kept.".to_owned(),
            Self::RecoveryFolder => "No recovery copy of your work can be kept.".to_owned(),
            Self::KeepingWork => "No recovery copy of your work is kept at present.".to_owned(),
            Self::LeftWork(_) => "Work that a crash left behind cannot be read.".to_owned(),
            Self::WorkWaits => "Work that was not saved waits to be taken back.".to_owned(),
        }
    }

    /// The ways out, as buttons: what each says, and what it does.
    pub const fn ways(&self) -> &'static [(&'static str, Deal)] {
        match self {
            Self::Shop(_) => &[("Try again", Deal::Again), ("Use this shop knowingly", Deal::Accept)],
            Self::Settings => &[("Try again", Deal::Again), ("Start afresh, keep a copy", Deal::Accept)],
            Self::KeepingSettings => &[("Try again", Deal::Again), ("Put away", Deal::Accept)],
            Self::RecoveryFolder | Self::KeepingWork => &[("Try again", Deal::Again), ("Go on without", Deal::Accept)],
            Self::LeftWork(_) => &[("Try again", Deal::Again), ("Leave it there", Deal::Accept)],
            Self::WorkWaits => &[("Look at it", Deal::Again)],
        }
    }

    /// Whether something is wrong, or only waits.
    pub const fn is_wrong(&self) -> bool {
        !matches!(self, Self::WorkWaits)
    }
}
