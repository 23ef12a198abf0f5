//! What a file is asked for.

use std::path::PathBuf;

use elbowroom_bending::text::capital;
use elbowroom_bending::{MeshUnit, UpAxis};
use elbowroom_exchange::triangles::extensions;
use elbowroom_exchange::{FORMATS, Format};
use elbowroom_workbench::Command;
use elbowroom_workbench::file::EXTENSION;

use super::import::exported_extensions;

/// What a file is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// To open a part, or a file of another format.
    Open,
    /// To save the part.
    SaveAs,
    /// To write the part in another format.
    Export,
    /// To use a shop file.
    Shop,
    /// To read what was measured on the first-off.
    Measurement,
    /// To take in a mesh that stands around the tubes, in this unit and with this axis upwards.
    Obstacle(MeshUnit, UpAxis),
}

impl Purpose {
    /// The dialog's heading.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Open => "Open a part, or a file of another format",
            Self::SaveAs => "Save the part as",
            Self::Export => "Export the part as",
            Self::Shop => "Use a shop file",
            Self::Measurement => "Read what was measured on the first-off",
            Self::Obstacle(..) => "Take in a mesh that stands around the tubes",
        }
    }

    /// The word on the button that accepts.
    pub const fn button(self) -> &'static str {
        match self {
            Self::Open => "Open",
            Self::SaveAs => "Save",
            Self::Export => "Export",
            Self::Shop => "Use",
            Self::Measurement => "Read",
            Self::Obstacle(..) => "Take in",
        }
    }

    /// The endings of files that fit.
    pub fn extensions(self) -> Vec<&'static str> {
        match self {
            Self::Open => {
                let read = FORMATS.iter().filter(|format| format.read.is_some());
                read.flat_map(|format| format.extensions).copied().collect()
            }
            Self::Export => exported_extensions(),
            Self::SaveAs | Self::Shop => vec![EXTENSION],
            Self::Measurement => vec!["csv", "txt"],
            Self::Obstacle(..) => extensions().collect(),
        }
    }

    /// What files that fit are called: by the registry of formats, where it knows them.
    pub fn kinds(self) -> String {
        let called = |fits: &dyn Fn(&Format) -> bool| {
            let names: Vec<_> = FORMATS.iter().filter(|format| fits(format)).map(|format| format.name).collect();
            capital(&names.join(", "))
        };
        match self {
            Self::Open => called(&|format| format.read.is_some()),
            Self::SaveAs => called(&Format::is_native),
            Self::Export => called(&|format| !format.is_native() && format.write.is_some()),
            Self::Shop => "Shop".to_owned(),
            Self::Measurement => "Measured table".to_owned(),
            Self::Obstacle(..) => "Mesh".to_owned(),
        }
    }

    /// Whether a file is named that need not be there.
    pub const fn writes(self) -> bool {
        matches!(self, Self::SaveAs | Self::Export)
    }

    /// The command that uses the file given.
    pub fn command(self, path: PathBuf) -> Command {
        match self {
            Self::Open => Command::Open(path),
            Self::SaveAs => Command::SaveAs(path),
            Self::Export => Command::Export(path),
            Self::Shop => Command::UseShop(path),
            Self::Measurement => Command::OpenMeasurement(path),
            Self::Obstacle(unit, up) => Command::AddObstacleMesh(path, unit, up),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_question_leads_to_its_own_command() {
        let path = PathBuf::from("a.ron");
        assert_eq!(Purpose::Open.command(path.clone()), Command::Open(path.clone()));
        assert_eq!(Purpose::SaveAs.command(path.clone()), Command::SaveAs(path.clone()));
        assert_eq!(Purpose::Shop.command(path.clone()), Command::UseShop(path.clone()));
        assert_eq!(Purpose::Export.command(path.clone()), Command::Export(path));
        assert!(Purpose::Open.kinds().starts_with("Part or system, points table, STEP solids"));
        assert!(Purpose::Export.kinds().starts_with("Points table, STEP solids"));
        let (read, written) = (Purpose::Open.extensions(), Purpose::Export.extensions());
        assert!(read.starts_with(&["ron", "csv", "step", "stp"]) && !read.contains(&"stl"), "{read:?}");
        assert!(written.starts_with(&["csv", "step", "stp"]) && written.contains(&"stl"), "{written:?}");
    }
}
