//! The first-off on the desk: the pieces of the job, by what they are judged, and what came of them.

use std::path::Path;
use std::sync::{Arc, OnceLock};

use elbowroom_bending::first_off::job::{Job, tolerance};
use elbowroom_bending::first_off::piece::Piece;
use elbowroom_bending::first_off::{Tolerance, ToleranceChoice};
use elbowroom_bending::measurement::Measurement;
use elbowroom_bending::plan::{Plan, PlanRefusal};
use elbowroom_bending::{Edit, Part};
use elbowroom_geometry::{BendPath, Refusal};

use crate::Workbench;
use crate::desk::judged::{Judged, LARGEST_MAGNIFICATION};
use crate::shelf::file::read_plain_text;
use crate::shelf::measured_table::{Kind, read_measured};
use elbowroom_bending::text::sentence;

impl Workbench {
    /// The pieces that were bent and measured, in the order in which they were bent.
    pub fn pieces(&self) -> &[Piece] {
        &self.part().pieces
    }

    /// What was measured on the piece bent last.
    pub fn measurement(&self) -> Option<&Measurement> {
        self.part().pieces.last().map(|piece| &piece.measurement)
    }

    /// The tolerance by which a first-off is judged: the person's own, else the usual one of the part.
    pub fn tolerance(&self) -> Tolerance {
        let bends = self.solved().bends.iter().filter(|bend| bend.is_bent()).count();
        self.tolerance_choice().over(Tolerance::usual(bends, self.part().tube.od))
    }

    /// What the person has chosen of it.
    pub fn tolerance_choice(&self) -> ToleranceChoice {
        self.part().tooling.tolerance
    }

    /// How many times as large the ghost draws what the first-off strays.
    pub fn ghost_magnification(&self) -> f64 {
        self.first_off.magnification
    }

    /// The pieces judged against the shown part, and the program for the next one, bent from the end and to
    /// the side that are chosen for it. `None` where nothing was measured; an error where the
    /// part has no program.
    pub fn judged(&self) -> Option<Arc<Result<Judged, PlanRefusal>>> {
        let judged = || (!self.part().pieces.is_empty()).then(|| Arc::new(self.judge(self.part())));
        self.first_off.judged.get_or_init(judged).clone()
    }

    fn judge(&self, part: &Part) -> Result<Judged, PlanRefusal> {
        let plan = Plan::of(part, self.shop(), self.solved())?;
        let tolerance = tolerance(&plan, part.tooling.tolerance);
        let job = Job::of(&plan, &part.pieces, &tolerance);
        Ok(Judged { plan, job })
    }

    /// The tube measured last laid over the design, its deviations magnified; `None` where nothing was
    /// measured or the measurement is doubted.
    pub fn ghost(&self) -> Option<BendPath> {
        let ghost = || match self.judged()?.as_ref() {
            Ok(Judged { job, .. }) => job.last()?.found.as_ref()?.ghost(self.first_off.magnification),
            Err(_) => None,
        };
        self.first_off.ghost.get_or_init(ghost).clone()
    }

    /// Takes what was measured on the piece bent last, in place of what was measured on it before; on the
    /// first one where there is none yet.
    pub(crate) fn set_measurement(&mut self, measurement: Measurement) {
        let mut pieces = self.committed_part().pieces.clone();
        match pieces.last_mut() {
            Some(piece) => match piece.measured_again(measurement) {
                Ok(again) => {
                    *piece = again;
                    let label = format!("measure piece {} again", pieces.len());
                    self.edit(&Edit::Together(label, vec![Edit::SetPieces(pieces)]));
                }
                Err(refusal) => self.refuse_figure(refusal.of(format_args!("piece {}", pieces.len()))),
            },
            None => self.add_piece(measurement),
        }
    }

    /// Takes what was measured on a further piece, bent by the program for the next one.
    pub(crate) fn add_piece(&mut self, measurement: Measurement) {
        self.drop_preview();
        match self.judge(self.committed_part()) {
            Ok(Judged { plan, job }) => {
                let piece = match job.next_piece(&plan, measurement) {
                    Ok(piece) => piece,
                    Err(refusal) => return self.refuse_figure(refusal),
                };
                let mut pieces = self.committed_part().pieces.clone();
                pieces.push(piece);
                let label = format!("measure piece {}", pieces.len());
                self.edit(&Edit::Together(label, vec![Edit::SetPieces(pieces)]));
            }
            Err(why) => self.refuse(sentence(&format!("There is no program to judge by: {why}"))),
        }
    }

    /// Says which figure of a piece cannot be, in the unit of the part.
    fn refuse_figure(&mut self, refusal: Refusal) {
        let said = refusal.said(self.committed_part().units);
        self.refuse(sentence(&said));
    }

    /// Puts the piece bent last away.
    pub(crate) fn remove_piece(&mut self) {
        let mut pieces = self.committed_part().pieces.clone();
        if pieces.pop().is_some() {
            let label = format!("put piece {} away", pieces.len() + 1);
            self.edit(&Edit::Together(label, vec![Edit::SetPieces(pieces)]));
        }
    }

    pub(crate) fn open_measurement(&mut self, path: &Path) {
        let name = path.display().to_string();
        let unit = self.committed_part().units;
        let read = read_plain_text(path)
            .map_err(|problem| problem.to_string())
            .and_then(|text| read_measured(&text, Kind::Points, unit).map_err(|problem| format!("{name}, {problem}")));
        match read {
            Ok(measurement) => {
                let before = self.committed_part().pieces.len();
                self.add_piece(measurement);
                if self.committed_part().pieces.len() > before {
                    self.done(format!("Measured on piece {}, from {name}.", before + 1));
                }
            }
            Err(problem) => self.refuse(sentence(&problem)),
        }
    }

    /// Takes a piece as it was measured, whatever speaks against it, or doubts it again.
    pub(crate) fn take_as_measured(&mut self, index: usize, taken: bool) {
        let mut pieces = self.committed_part().pieces.clone();
        let (number, count) = (index + 1, pieces.len());
        let Some(piece) = pieces.get_mut(index) else {
            let measured = if count == 1 { "1 was".to_owned() } else { format!("{count} were") };
            return self.refuse(format!("There is no piece {number}: {measured} measured."));
        };
        *piece = piece.clone().stood_by(taken);
        let label =
            if taken { format!("take piece {number} as measured") } else { format!("doubt piece {number} again") };
        self.edit(&Edit::Together(label, vec![Edit::SetPieces(pieces)]));
    }

    pub(crate) fn magnify_ghost(&mut self, times: f64) {
        if !times.is_finite() {
            return self.refuse("The magnification must be a number from 1 to 100.");
        }
        self.first_off.magnification = times.clamp(1.0, LARGEST_MAGNIFICATION);
        self.first_off.ghost = OnceLock::new();
        self.revision += 1;
    }

    /// Forgets what came of the pieces, and lets every view follow.
    pub(crate) fn judge_again(&mut self) {
        self.first_off.judged = OnceLock::new();
        self.first_off.ghost = OnceLock::new();
        self.revision += 1;
    }
}
