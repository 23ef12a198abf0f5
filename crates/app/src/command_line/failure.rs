//! Why a task could not run.

use std::path::PathBuf;

use elbowroom_bending::plan::PlanRefusal;
use elbowroom_bending::text::{harmless, shown_path};
use elbowroom_geometry::Refusal;
use elbowroom_workbench::file::FileProblem;
use thiserror::Error;

/// Why a task could not run, in words that say what would be right.
#[derive(Debug, Error)]
pub enum Failure {
    /// A file could not be read or written.
    #[error(transparent)]
    File(#[from] FileProblem),
    /// A centreline was given without a tube.
    #[error("{}: it holds no tube, only a centreline; name the tube with --tube, outside diameter by wall in mm, such as --tube 60.3x2", shown_path(.0))]
    NoTube(PathBuf),
    /// The file holds several tubes, and the task is about one.
    #[error("{}: it holds {count} tubes: {names}; name one with --only, such as --only \"{first}\"", .file.display())]
    SeveralTubes {
        /// The file.
        file: PathBuf,
        /// How many there are.
        count: usize,
        /// Their names, in words.
        names: String,
        /// The name of the first.
        first: String,
    },
    /// The file holds no tube of that name.
    #[error("--only: {} holds no tube called \"{name}\"; it holds {names}", .file.display())]
    NoSuchTube {
        /// The file.
        file: PathBuf,
        /// The name that was asked for.
        name: String,
        /// The names that there are, in words.
        names: String,
    },
    /// The shop has no die set of that name.
    #[error("--die: the shop \"{shop}\" has no die set named \"{}\"; {known}", harmless(.name))]
    NoSuchDie {
        /// The name that was asked for.
        name: String,
        /// The shop's name.
        shop: String,
        /// The die sets there are, in words.
        known: String,
    },
    /// A number that cannot be: a tolerance that is none, or a figure of a piece.
    #[error("{0}")]
    Figure(Refusal),
    /// There is no measured piece of that number.
    #[error("--as-measured: there is no piece {number}; {}", measured(*.count))]
    NoSuchPiece {
        /// The number that was asked for.
        number: u32,
        /// How many pieces there are.
        count: usize,
    },
    /// There is no program for the part.
    #[error("{}: there is no program: {why}", shown_path(.file))]
    NoProgram {
        /// The file of the part.
        file: PathBuf,
        /// Why not.
        why: PlanRefusal,
    },
    /// There is no check of that name.
    #[error("there is no check named \"{}\"; {known}", harmless(.name))]
    NoSuchFault {
        /// The name that was asked for.
        name: String,
        /// The checks there are, in words.
        known: String,
    },
    /// Both files are of one format.
    #[error("{} and {} are both of the format {format}, so there is nothing to convert; name a file of another format, such as a part (.ron)", shown_path(.from), shown_path(.to))]
    NothingToConvert {
        /// The file to read.
        from: PathBuf,
        /// The file to write.
        to: PathBuf,
        /// The format of both.
        format: &'static str,
    },
    /// Both files are native, and the one that is read is of today's version already.
    #[error("{} is {format}, which is what {} would be, so there is nothing to convert; name a file of another format to write, such as a points table (.csv), or one tube of several with --only", shown_path(.from), shown_path(.to))]
    OfToday {
        /// The file to read.
        from: PathBuf,
        /// The file to write.
        to: PathBuf,
        /// Today's format.
        format: &'static str,
    },
    /// A tube was named for a file that holds it.
    #[error("--tube: {} says itself which tube it is; --tube is for a centreline such as a points table, which does not", shown_path(.0))]
    TubeKnown(PathBuf),
    /// Standard output could not be written.
    #[error("standard output cannot be written: {0}")]
    Output(std::io::Error),
}

fn measured(count: usize) -> String {
    match count {
        0 => "none was measured".to_owned(),
        1 => "1 was measured".to_owned(),
        count => format!("{count} were measured"),
    }
}
