//! What the shop knows of springback on one die set in one material, as a plain value.

use std::fmt;

use elbowroom_bending::first_off::as_trials;
use elbowroom_bending::first_off::job::JudgedPiece;
use elbowroom_bending::first_off::piece::Piece;
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::forming::springback::{SpringbackBasis, SpringbackFit, SpringbackLine, TrialBend};
use elbowroom_bending::text::shown_path;
use elbowroom_bending::{DieSet, Knowledge, KnowledgeEdit};
use elbowroom_geometry::units::{LengthUnit, format_angle, format_length};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::{Command, Workbench};

use crate::widgets::figure_text;

/// What the sheet shows; nothing where no die set is in use.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// What is known; none where no die set of the shop bends this part.
    pub known: Option<Known>,
}

/// What is known of one die set in one material.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    /// The die set, by name.
    pub die: String,
    /// The tube's material.
    pub material: String,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// The line that is used.
    pub line: SpringbackLine,
    /// Where it comes from.
    pub basis: SpringbackBasis,
    /// Where it comes from, in words.
    pub from: String,
    /// Why the trial bends could not be used, where they could not.
    pub refused: Option<String>,
    /// Whether the line was typed in by the shop.
    pub line_typed: bool,
    /// The wall of the tube in hand, of which a new trial bend is taken to be.
    pub wall: Length,
    /// What theory says and what is usual, in words; empty where it is not theory that speaks.
    pub range: String,
    /// The trial bends.
    pub trials: Vec<TrialBend>,
    /// The line fitted to them, whether or not it is used.
    pub fit: Option<SpringbackFit>,
    /// Share by which bends take less blank.
    pub stretch: f64,
    /// Where the stretch comes from, in words.
    pub stretch_from: &'static str,
    /// Whether the stretch was typed in.
    pub stretch_typed: bool,
    /// The bends on this die set.
    pub bends: Vec<SetBend>,
    /// The measured pieces of the part that bent on this die set.
    pub pieces: Vec<PieceTrials>,
    /// Where a change is kept, in words.
    pub kept: String,
}

/// A measured piece whose bends can be taken as trial bends.
#[derive(Clone, Debug, PartialEq)]
pub struct PieceTrials {
    /// Its number, counted from 1.
    pub number: usize,
    /// Those of its bends on this die set that are no trial bends yet.
    pub trials: Vec<TrialBend>,
}

/// What is to be set for one bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetBend {
    /// Its number, counted from 1.
    pub number: usize,
    /// The angle that is drawn.
    pub drawn: Angle,
    /// The angle to set.
    pub set: Angle,
    /// The radius that is left when the tube is released.
    pub free_clr: Length,
}

impl Model {
    /// The die set of the selected bend, else of the first one, and what the shop knows of it.
    pub fn of(workbench: &Workbench) -> Self {
        Self { known: die_in_use(workbench).map(|die| Known::of(workbench, die)) }
    }
}

/// The die set of the selected bend, else of the first bend that has one, else the chosen one.
fn die_in_use(workbench: &Workbench) -> Option<&DieSet> {
    let (shop, solved) = (workbench.shop(), workbench.solved());
    let selected = workbench.selection().bend().into_iter();
    let index = selected.chain(0..solved.bends.len()).find_map(|bend| solved.bends.get(bend)?.die);
    let chosen = || shop.die_named(workbench.part().tooling.die.as_deref()?);
    index.and_then(|index| shop.die_sets.get(index)).or_else(chosen)
}

/// What a line of theory says of a right angle, and between what such a bend usually opens.
fn range(line: &SpringbackLine) -> String {
    let right_angle = Angle::from_degrees(90.0);
    let by_theory = line.set(right_angle) - right_angle;
    let [least, most] = SpringbackLine::usually_opens(by_theory);
    let shown = |angle: Angle| figure_text(&format_angle(angle, 1), Ground::Theory);
    format!(
        "A bend of 90° opens by {} in theory, and usually by {} to {} (from memory).",
        figure_text(&format_angle(by_theory, 2), Ground::Theory),
        shown(least),
        shown(most)
    )
}

/// The measured pieces of the part with bends on a die set that are not among its trial bends.
fn pieces(workbench: &Workbench, die: &DieSet, there: &[TrialBend]) -> Vec<PieceTrials> {
    let Some(judged) = workbench.judged() else { return Vec::new() };
    let Ok(judged) = judged.as_ref() else { return Vec::new() };
    let material = &workbench.part().tube.material;
    let of = |(index, (judged, piece)): (usize, (&JudgedPiece, &Piece))| {
        if piece.tube.material != *material {
            return None;
        }
        let mut trials = as_trials::trials(judged, piece, die);
        trials.retain(|trial| !there.contains(trial));
        (!trials.is_empty()).then_some(PieceTrials { number: index + 1, trials })
    };
    judged.job.pieces.iter().zip(workbench.pieces()).enumerate().filter_map(of).collect()
}

impl Known {
    fn of(workbench: &Workbench, die: &DieSet) -> Self {
        let (shop, part) = (workbench.shop(), workbench.part());
        let found = shop.springback_of(die, &part.tube);
        let record = shop.springback_record(&die.name, &part.tube.material);
        let trials = record.map(|record| record.trials.clone()).unwrap_or_default();
        let fit = SpringbackLine::fit_for(&trials, part.tube.wall).ok().map(|mut fit| {
            fit.check_radii(die.clr, &trials);
            fit
        });
        let from = match found.basis {
            SpringbackBasis::Shop => "typed in by the shop".to_owned(),
            SpringbackBasis::DoubtfulTrials if trials.len() == 1 => "fitted to one trial bend".to_owned(),
            SpringbackBasis::OtherWall => {
                format!("fitted to {} trial bends, not all of this wall", trials.len())
            }
            SpringbackBasis::Trials | SpringbackBasis::DoubtfulTrials => {
                let counted = fit.as_ref().map_or(trials.len(), |fit| fit.counted.iter().filter(|one| **one).count());
                let odd = fit.as_ref().and_then(SpringbackFit::odd);
                let left = trials.len() - counted - usize::from(odd.is_some());
                let odd = odd.map_or(String::new(), |odd| format!("; trial {} does not fit", odd + 1));
                let left = if left > 0 { format!("; {left} of another wall not counted") } else { String::new() };
                format!("fitted to {counted} trial bends{left}{odd}")
            }
            SpringbackBasis::Theory if found.material_unknown => {
                "no springback at all is assumed: the material is not in the library".to_owned()
            }
            SpringbackBasis::Theory => {
                let start = "theory, only a start: real springback is usually 2 to 5 times as much";
                match &found.yield_stress {
                    Some((mpa, source)) => format!("{start}; from a yield stress of {mpa:.0} MPa ({source})"),
                    None => start.to_owned(),
                }
            }
        };
        let range = match found.basis {
            SpringbackBasis::Theory if !found.material_unknown => range(&found.line),
            _ => String::new(),
        };
        let stretch_typed = record.is_some_and(|record| record.stretch.is_some());
        let stretch_from = match (stretch_typed, found.stretch_measured) {
            (true, _) => "typed in by the shop",
            (false, true) => "from the trial bends",
            (false, false) => "nothing measured; the blank comes out long enough",
        };
        let index = shop.die_sets.iter().position(|other| other.name == die.name);
        let bends = workbench.solved().bends.iter().enumerate();
        let bends = bends.filter(|(_, bend)| bend.is_bent() && bend.die == index).map(|(number, bend)| {
            let drawn = Angle::from_radians(bend.angle_rad);
            let (set, free_clr) = (found.line.set(drawn), found.line.free_radius(die.clr, drawn));
            SetBend { number: number + 1, drawn, set, free_clr }
        });
        let pieces = pieces(workbench, die, &trials);
        let kept = match workbench.shop_file() {
            Some(file) => format!("Kept in {}.", shown_path(file)),
            None => "The built-in shop is in use: the first change makes a shop file of your own.".to_owned(),
        };
        Self {
            die: die.name.clone(),
            material: part.tube.material.clone(),
            unit: part.units,
            line: found.line,
            basis: found.basis,
            from,
            refused: found.refused.map(|refusal| refusal.to_string()),
            wall: part.tube.wall,
            range,
            line_typed: record.is_some_and(|record| record.line.is_some()),
            bends: bends.collect(),
            pieces,
            trials,
            fit,
            stretch: found.stretch,
            stretch_from,
            stretch_typed,
            kept,
        }
    }

    /// Whether the line rests on theory and must look unsure.
    pub fn unsure(&self) -> bool {
        self.ground().unsure()
    }

    /// What the line rests on.
    pub fn ground(&self) -> Ground {
        self.basis.into()
    }

    /// What is to be remarked, in words.
    pub fn warnings(&self) -> Vec<String> {
        let refused = self.refused.iter().map(|why| format!("The trial bends cannot be used: {why}."));
        let remarks = self.fit.iter().flat_map(|fit| fit.warnings.iter().map(|warning| warning.words()));
        refused.chain(remarks).collect()
    }

    /// The line in words, such as `0.70° + 0.0210 × set angle`.
    pub fn line_text(&self) -> String {
        format!("{} + {:.4} × set angle", format_angle(self.line.a(), 2), self.line.b())
    }

    /// The command that changes what is known.
    pub(super) fn change(&self, what: Knowledge) -> Command {
        Command::EditShop(KnowledgeEdit { die: self.die.clone(), material: self.material.clone(), what }.into())
    }
}

impl fmt::Display for Model {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Some(known) = &self.known else { return writeln!(out, "no die set of the shop bends this part") };
        let length = |length: Length| format_length(length, known.unit, known.unit.decimals());
        writeln!(out, "{} in {}", known.die, known.material)?;
        let marked = |text: &str| figure_text(text, known.ground());
        writeln!(out, "springback: {}, {}", marked(&known.line_text()), known.from)?;
        if !known.range.is_empty() {
            writeln!(out, "{}", known.range)?;
        }
        for (index, trial) in known.trials.iter().enumerate() {
            write!(out, "trial {}: set {}, ", index + 1, format_angle(trial.set, 1))?;
            write!(out, "measured {}", format_angle(trial.measured, 1))?;
            if let Some(radius) = trial.measured_radius {
                write!(out, ", radius {}", length(radius))?;
            }
            if let Some(drawn) = trial.drawn_length {
                write!(out, ", drawn {}", length(drawn))?;
            }
            match trial.wall {
                Some(wall) => write!(out, ", wall {}", format_length(wall, known.unit, known.unit.decimals() + 1))?,
                None => write!(out, ", wall not noted")?,
            }
            if known.fit.as_ref().is_some_and(|fit| !fit.counted[index]) {
                write!(out, ", not counted")?;
            }
            match &known.fit {
                Some(fit) => writeln!(out, ", off the line {}", format_angle(fit.residuals[index], 2))?,
                None => writeln!(out)?,
            }
        }
        for warning in known.warnings() {
            writeln!(out, "mind: {warning}")?;
        }
        writeln!(out, "stretch: {:.2} %, {}", known.stretch * 100.0, known.stretch_from)?;
        for bend in &known.bends {
            let (drawn, set) = (format_angle(bend.drawn, 1), marked(&format_angle(bend.set, 2)));
            let free = marked(&length(bend.free_clr));
            writeln!(out, "bend {}: drawn {drawn}, set {set}, free CLR {free}", bend.number)?;
        }
        writeln!(out, "{}", known.kept)
    }
}
