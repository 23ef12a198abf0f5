//! What may stand on the command line, with its help.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};
use elbowroom_bending::{ClampLength, End, Hand};
use elbowroom_geometry::{Angle, Length};

use super::sizes::{TubeSize, angle_tolerance, clamp_length, clearance, length_tolerance, tube_size};

const EXAMPLES: &str = "\
Examples:
  elbowroom                                    open the window on a demo part
  elbowroom system.ron                         open the window on a system of tubes
  elbowroom check system.ron                   can this part be bent?
  elbowroom check points.csv --tube 60.3x2     the same for a table of points
  elbowroom program system.ron                 the bend program: what to set, bend by bend
  elbowroom compare system.ron                 which of the shop's tooling makes it, best first
  elbowroom first-off system.ron measured.csv  what the first piece measures, and the next program
  elbowroom sheet system.ron sheet.pdf         drawing, program and inspection list on paper
  elbowroom explain clamp-across-arc           what that finding means and what cures it
  elbowroom convert system.ron points.csv      write the part's vertices as a table

Exit codes: 0 no finding at stop, 1 at least one, 2 it could not run.";

const CHECK_EXAMPLES: &str = "\
Examples:
  elbowroom check system.ron
  elbowroom check system.ron --clamp 80
  elbowroom check system.ron --only Downpipe
  elbowroom check points.csv --tube 60.3x2 --format json
  elbowroom check points.csv --tube 60.3x2.0 --die \"60.3 on 120.6\" --shop workshop.ron
  elbowroom check system.ron --around chassis.stl --around-unit mm
  elbowroom check system.ron --around chassis.glb --clearance 30

A points table is comma-separated text: the header x_mm,y_mm,z_mm,clr_mm, then one vertex a
line, the last column empty on the first and last row.

Of a system of several tubes each is reported in turn, and the worst makes the exit code; what is named here of die,
clamp, end and hand holds for every tube that is reported.

Each tube is measured against what stands around it: the meshes that are named here and the other tubes. A tube that
runs into one of them is a stop, and so is one that comes nearer than what is laid down by --clearance here.

Exit codes: 0 no finding at stop, 1 at least one, 2 it could not run.";

const PROGRAM_EXAMPLES: &str = "\
Examples:
  elbowroom program system.ron
  elbowroom program system.ron --from finish --hand left
  elbowroom program points.csv --tube 60.3x2 --format json
  elbowroom program system.ron --format csv > steps.csv
  elbowroom program system.ron --only Downpipe
  elbowroom program points.csv --tube 60.3x2 --measured first.csv    corrected by the first piece
  elbowroom program system.ron --figures planned     as planned, whatever was measured

Rotations are positive clockwise seen from the chuck looking to the die. Figures that rest on theory,
common practice or memory carry a ~; your own trial bends take their place.

Exit codes: 0 a program and no finding at stop, 1 a program and at least one (told on standard error),
2 it could not run, such as a bend without a die.";

const SHEET_EXAMPLES: &str = "\
Examples:
  elbowroom sheet system.ron sheet.pdf
  elbowroom sheet system.ron sheet.pdf --paper letter --units in --customer Workshop --revision B
  elbowroom sheet system.ron sheet.pdf --only Downpipe --templates
  elbowroom sheet points.csv sheet.pdf --tube 60.3x2 --shop workshop.ron
  elbowroom sheet system.ron drawing.svg       the drawing alone, for the screen
  elbowroom sheet system.ron list.csv          all of it as a list, for a spreadsheet

Drawing to a standard scale with its sizes, blank with bend marks, bend program, setup, findings, points, inspection list
with boxes to fill in, bend rows as a code for a phone, cautions; as many sheets as it takes. Of a system of several tubes
an overview with a parts list comes first, then each tube. Print at 100 %, without fitting to the page.

Exit codes: 0 it is written and no finding at stop, 1 it is written and at least one (told on standard error),
2 it could not run, and nothing is written.";

const COMPARE_EXAMPLES: &str = "\
Examples:
  elbowroom compare system.ron
  elbowroom compare points.csv --tube 60.3x2 --shop workshop.ron
  elbowroom compare system.ron --clamp 80 --format json
  elbowroom compare system.ron --from finish   what the drawing would have to be, bent from its finish

Every die set that takes the tube, with each of its clamps, bent from either end. Below it, bend by bend, what
straight, angle before and CLR would have to be on the tooling that --die and --clamp choose.

Exit codes: 0 some tooling makes it without a finding at stop, 1 none does, 2 it could not run.";

const FIRST_OFF_EXAMPLES: &str = "\
Examples:
  elbowroom first-off system.ron measured.csv
  elbowroom first-off points.csv measured.csv --tube 60.3x2 --format json
  elbowroom first-off system.ron first.csv --measured second.csv --from finish
  elbowroom first-off system.ron rows.csv --angle-tolerance 1 --length-tolerance 1.5
  elbowroom first-off system.ron measured.csv --as-measured 1    measured again: take it though it is doubted

What was measured is comma-separated text, from the start of the drawing to its finish. Either points, in any
axes: the header x_mm,y_mm,z_mm, then one point a line: both ends, and for each bend the point where the middles
of its straights would meet. A bend of 150° or more has that point far off or nowhere: give two points on those
middles instead, where its arc begins and where it ends. Or bend rows: the header
straight_mm,rotation_deg,angle_deg, then one bend a line, and the tail alone on the last.

The first piece is taken as bent by the plan, each further one by the correction from those before it. The
report is about the last one. Pieces that a part file holds come before those that are named here.

Exit codes: 0 the last piece is within tolerance, 1 it is out or its measurement is doubted, 2 it could not run.";

const EXPLAIN_EXAMPLES: &str = "\
Examples:
  elbowroom explain                            list every check
  elbowroom explain straight-too-short         the manual page of one";

const CONVERT_EXAMPLES: &str = "\
Examples:
  elbowroom convert system.ron points.csv
  elbowroom convert points.csv system.ron --tube 60.3x2
  elbowroom convert system.ron downpipe.csv --only Downpipe
  elbowroom convert system.ron downpipe.ron --only Downpipe    one tube in a file of its own
  elbowroom convert older.ron system.ron                       what an older Elbowroom wrote, as it is written today
  elbowroom convert system.ron system.step                     exact solids; several tubes as an assembly
  elbowroom convert system.ron system.step --finished          with the radii that springback leaves
  elbowroom convert drawn.step system.ron                      the tubes that a STEP file holds

A table holds no tube, so --tube is needed to make a part of it. A part with a bend beyond
179.999° has no vertices and cannot become a table.

Exit codes: 0 it is written, 2 it could not run, and nothing is.";

/// Lay out a bent tube and see whether your bender can make it.
///
/// Without a task the window opens. The tasks check, program, compare, first-off, sheet, explain
/// and convert work without one.
#[derive(Debug, Parser)]
#[command(name = "elbowroom", version, after_help = EXAMPLES, args_conflicts_with_subcommands = true)]
pub struct Arguments {
    /// The part or system (.ron), or a file of another format that is read, to open in the window.
    pub file: Option<PathBuf>,
    /// What to do without a window.
    #[command(subcommand)]
    pub task: Option<Task>,
}

/// A task that needs no window.
#[derive(Debug, Subcommand)]
pub enum Task {
    /// Check whether a part can be bent on the tooling.
    Check(Check),
    /// Write the bend program: what to set on the machine, bend by bend.
    Program(Program),
    /// Compare the shop's tooling on a part, best first.
    Compare(Compare),
    /// Judge measured pieces against their design, and correct the program for the next.
    FirstOff(FirstOff),
    /// Print a tube or a system: drawing, program, setup and inspection list as PDF, or the drawing as SVG.
    Sheet(Sheet),
    /// List the checks, or show the manual page of one.
    Explain(Explain),
    /// Turn a part into another format, another format into a part, or an older file into one of today.
    Convert(Convert),
}

/// How a report is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ReportFormat {
    /// For people.
    Text,
    /// For scripts.
    Json,
}

/// A part, the shop that bends it, and what takes the place of the part's own tooling.
#[derive(Debug, Args)]
pub struct Subject {
    /// The part or system (.ron), points table (.csv) or STEP file (.step, .stp).
    pub file: PathBuf,
    /// The tube of a system of several, by its name. Left out, check reports every one; the other tasks are about one
    /// tube and want it named.
    #[arg(long, value_name = "NAME")]
    pub only: Option<String>,
    /// The shop file to check against, or `built-in`. Else your own shop file where you keep one, and the
    /// built-in shop where you do not.
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
    /// The tube, outside diameter by wall, mm unless a unit is named: 60.3x2. Needed for a points table; on
    /// a part it takes the place of the part's own.
    #[arg(long, value_name = "ODxWALL", value_parser = tube_size)]
    pub tube: Option<TubeSize>,
    /// The die set by its name in the shop. Else the one that fits outside diameter and radius.
    #[arg(long, value_name = "NAME")]
    pub die: Option<String>,
    /// The clamp by its length, mm unless a unit is named. Else the longest of the die set.
    #[arg(long, value_name = "MM", value_parser = clamp_length, allow_hyphen_values = true)]
    pub clamp: Option<ClampLength>,
    /// The end of the drawing that is bent first. Else the one that the part holds, and the start where it holds none.
    #[arg(long, value_enum)]
    pub from: Option<FirstEnd>,
    /// The side to which the machine bends. Else the one that the part holds, and that of the shop's machine where it
    /// holds none.
    #[arg(long, value_enum)]
    pub hand: Option<Side>,
}

/// Check whether a part can be bent on the tooling.
#[derive(Debug, Args)]
#[command(after_help = CHECK_EXAMPLES)]
pub struct Check {
    /// What is checked.
    #[command(flatten)]
    pub subject: Subject,
    /// What stands around it.
    #[command(flatten)]
    pub around: Around,
    /// How the report is written.
    #[arg(long, value_enum, default_value = "text")]
    pub format: ReportFormat,
}

/// Meshes that stand around a tube.
#[derive(Debug, Args)]
pub struct Around {
    /// A mesh that the tube has to keep clear of (.stl, .obj, .glb, .gltf), where it stands in the drawing. May be given
    /// several times.
    #[arg(long, value_name = "MESH")]
    pub around: Vec<PathBuf>,
    /// The unit that these meshes are drawn in. STL and OBJ do not say, and want it named; glTF is in metres.
    #[arg(long, value_enum)]
    pub around_unit: Option<Unit>,
    /// The axis of these meshes that points upwards, as z does in the drawing. Else y of glTF, and z of the others.
    #[arg(long, value_enum)]
    pub around_up: Option<Up>,
    /// How far the tube keeps clear of every obstacle, mm unless a unit is named. Else what is usual for its kind, and for
    /// these meshes what is usual for bodywork.
    #[arg(long, value_name = "MM", value_parser = clearance, allow_hyphen_values = true)]
    pub clearance: Option<Length>,
}

/// The unit of a mesh.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Unit {
    /// Millimetres.
    Mm,
    /// Inches.
    In,
    /// Metres.
    M,
}

/// The axis of a mesh that points upwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Up {
    /// x.
    X,
    /// y.
    Y,
    /// z.
    Z,
}

/// The end of the drawing that is bent first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum FirstEnd {
    /// The end at which the drawing starts: its first bend is made first.
    Start,
    /// The end at which the drawing finishes: its last bend is made first.
    Finish,
}

/// The side to which the machine bends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Side {
    /// To the left, seen from the chuck looking to the die.
    Left,
    /// To the right.
    Right,
}

impl From<FirstEnd> for End {
    fn from(end: FirstEnd) -> Self {
        match end {
            FirstEnd::Start => Self::Start,
            FirstEnd::Finish => Self::Finish,
        }
    }
}

impl From<Side> for Hand {
    fn from(side: Side) -> Self {
        match side {
            Side::Left => Self::Left,
            Side::Right => Self::Right,
        }
    }
}

/// How a program is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ProgramFormat {
    /// A sheet for people.
    Text,
    /// For scripts, with everything.
    Json,
    /// The steps as a table.
    Csv,
}

/// Write the bend program: what to set on the machine, bend by bend.
#[derive(Debug, Args)]
#[command(after_help = PROGRAM_EXAMPLES)]
pub struct Program {
    /// What is bent.
    #[command(flatten)]
    pub subject: Subject,
    /// What was measured on a piece (.csv): the program is corrected by it, as first-off does. May be given several
    /// times, in the order in which the pieces were bent; those that a part file holds come before.
    #[arg(long, value_name = "FILE")]
    pub measured: Vec<PathBuf>,
    /// Whether the figures are corrected by what was measured. Else as the part holds it: corrected, unless the person
    /// has put that aside.
    #[arg(long, value_enum)]
    pub figures: Option<Figures>,
    /// How far pieces may stray before the program is corrected.
    #[command(flatten)]
    pub allowed: Allowed,
    /// How the program is written.
    #[arg(long, value_enum, default_value = "text")]
    pub format: ProgramFormat,
}

/// Which figures a program has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Figures {
    /// Those that measured pieces ask for.
    Corrected,
    /// Those of the plan, whatever was measured.
    Planned,
}

/// By what measured pieces are judged.
#[derive(Clone, Debug, Args)]
pub struct Allowed {
    /// How far an angle or rotation may stray, degrees. Else as the part holds it, and what is usual for it where it holds
    /// nothing.
    #[arg(long, value_name = "DEGREES", value_parser = angle_tolerance, allow_hyphen_values = true)]
    pub angle_tolerance: Option<Angle>,
    /// How far a point or straight may stray, mm unless a unit is named. Else likewise.
    #[arg(long, value_name = "MM", value_parser = length_tolerance, allow_hyphen_values = true)]
    pub length_tolerance: Option<Length>,
    /// Takes the piece of this number as it was measured, though it is doubted: you have measured it again and stand by it.
    /// Pieces that the part holds are counted first, from 1. May be given several times.
    #[arg(long, value_name = "PIECE", value_parser = clap::value_parser!(u32).range(1..))]
    pub as_measured: Vec<u32>,
}

/// Compare the shop's tooling on a part, best first.
#[derive(Debug, Args)]
#[command(after_help = COMPARE_EXAMPLES)]
pub struct Compare {
    /// What is to be bent.
    #[command(flatten)]
    pub subject: Subject,
    /// How the comparison is written.
    #[arg(long, value_enum, default_value = "text")]
    pub format: ReportFormat,
}

/// Judge measured pieces against their design, and correct the program for the next.
#[derive(Debug, Args)]
#[command(after_help = FIRST_OFF_EXAMPLES)]
pub struct FirstOff {
    /// What was bent.
    #[command(flatten)]
    pub subject: Subject,
    /// What was measured on the first piece: points or bend rows (.csv). May be left out where the part file
    /// holds measured pieces.
    #[arg(value_name = "MEASURED")]
    pub first: Option<PathBuf>,
    /// What was measured on a further piece, bent by the correction from those before it. May be given
    /// several times, in the order in which the pieces were bent.
    #[arg(long, value_name = "FILE")]
    pub measured: Vec<PathBuf>,
    /// By what they are judged.
    #[command(flatten)]
    pub allowed: Allowed,
    /// How the report is written.
    #[arg(long, value_enum, default_value = "text")]
    pub format: ReportFormat,
}

/// The paper of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SheetPaper {
    /// 297 × 210 mm.
    A4,
    /// 11 × 8½ in.
    Letter,
}

/// The unit of the lengths on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum SheetUnits {
    /// Millimetres.
    Mm,
    /// Inches.
    In,
}

/// Print a tube or a system: drawing, program, setup and inspection list as PDF, or the drawing as SVG.
#[derive(Debug, Args)]
#[command(after_help = SHEET_EXAMPLES)]
pub struct Sheet {
    /// What is printed.
    #[command(flatten)]
    pub subject: Subject,
    /// The file to write: a .pdf, an .svg for the drawing alone, or a .csv for all of it as a list. One that is there already is
    /// replaced.
    #[arg(value_name = "OUT")]
    pub out: PathBuf,
    /// The paper.
    #[arg(long, value_enum, default_value = "a4")]
    pub paper: SheetPaper,
    /// The unit of every length. Else that of the part.
    #[arg(long, value_enum)]
    pub units: Option<SheetUnits>,
    /// Adds full-size templates of ends and bends, as far as they fit the paper.
    #[arg(long)]
    pub templates: bool,
    /// For whom it is made.
    #[arg(long, value_name = "TEXT")]
    pub customer: Option<String>,
    /// The revision of the drawing.
    #[arg(long, value_name = "TEXT")]
    pub revision: Option<String>,
    /// Who has drawn it.
    #[arg(long, value_name = "TEXT")]
    pub drawn_by: Option<String>,
    /// The date on it. Else today's.
    #[arg(long, value_name = "TEXT")]
    pub date: Option<String>,
}

/// List the checks, or show the manual page of one.
#[derive(Debug, Args)]
#[command(after_help = EXPLAIN_EXAMPLES)]
pub struct Explain {
    /// The fault as a report names it, such as clamp-across-arc.
    pub fault: Option<String>,
}

/// Turn a part into another format, another format into a part, or an older file into one of today.
#[derive(Debug, Args)]
#[command(after_help = CONVERT_EXAMPLES)]
pub struct Convert {
    /// The file to read.
    #[arg(value_name = "IN")]
    pub from: PathBuf,
    /// The file to write; one that is there already is replaced.
    #[arg(value_name = "OUT")]
    pub to: PathBuf,
    /// The tube of a system of several, by its name: a table holds one, and a file may.
    #[arg(long, value_name = "NAME")]
    pub only: Option<String>,
    /// The tube, outside diameter by wall, mm unless a unit is named: 60.3x2. Needed to make a part of a
    /// centreline: of a points table, a drawing, or solid rods.
    #[arg(long, value_name = "ODxWALL", value_parser = tube_size)]
    pub tube: Option<TubeSize>,
    /// Writes the tube as it comes off the machine: each bend on the radius that springback leaves, its straights given
    /// way as in the program. Else as it is drawn.
    #[arg(long)]
    pub finished: bool,
    /// The shop whose springback and checks count, or `built-in`. Else your own shop file where you keep one, and the
    /// built-in shop where you do not.
    #[arg(long, value_name = "FILE")]
    pub shop: Option<PathBuf>,
}
