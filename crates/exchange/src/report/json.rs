//! The report as JSON: the contract that scripts rely on, described in README.md.
//!
//! Fields are never taken away or changed in meaning under one report name; a change of that kind makes
//! it `elbowroom/2`. Numbers carry full double precision; what has no value is `null`.

use elbowroom_bending::first_off::job::{end_word, hand_word};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{ClampOnTube, Part, Place, Severity, Shop, Solved, SolvedBend, Told, Trials, Words};
use serde::{Serialize, Serializer};

use super::around_json::{ClearanceFields, clearances};
use super::formed_json::{CutFields, FormedFields, MassFields, SeamFields};

/// The name and version of the report.
const REPORT: &str = "elbowroom/1";

#[derive(Serialize)]
pub(super) struct Report<'a> {
    report: &'static str,
    verdict: Verdict,
    from: &'static str,
    hand: &'static str,
    tube: Tube<'a>,
    straights_mm: &'a [f64],
    bends: Bends<'a>,
    developed_length_mm: f64,
    lead_trim_mm: f64,
    lead_trim_basis: Option<&'static str>,
    tail_trim_mm: f64,
    tail_trim_basis: Option<&'static str>,
    blank_length_mm: f64,
    blank_length_basis: Option<&'static str>,
    cut: Option<CutFields>,
    findings: Founds<'a>,
    seam: Option<SeamFields>,
    clearances: Vec<ClearanceFields<'a>>,
    #[serde(flatten)]
    mass: MassFields,
}

/// The bends, each made when it is written: of a long tube they would take much room all at once.
struct Bends<'a>(&'a [SolvedBend]);

impl Serialize for Bends<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(self.0.iter().enumerate().map(Bend::of))
    }
}

/// The findings, likewise.
struct Founds<'a> {
    solved: &'a Solved,
    words: Words<'a>,
}

impl Serialize for Founds<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut trials = Trials::default();
        let told = (0..self.solved.findings.len()).map(|index| trials.told(index, self.solved, &self.words));
        serializer.collect_seq(told.map(Found::of))
    }
}

/// A verdict in one sentence.
#[derive(Serialize)]
pub(super) struct Verdict {
    pub severity: &'static str,
    pub text: String,
}

#[derive(Serialize)]
struct Tube<'a> {
    od_mm: f64,
    wall_mm: f64,
    material: &'a str,
}

#[derive(Serialize)]
struct Bend {
    number: usize,
    rotation_deg: f64,
    angle_deg: f64,
    clr_mm: f64,
    tangent_mm: Option<f64>,
    arc_mm: f64,
    starts_at_mm: f64,
    clamp: Option<Clamp>,
    formed: Option<FormedFields>,
}

#[derive(Serialize)]
struct Clamp {
    length_mm: f64,
    overlap_mm: f64,
    bite_mm: f64,
    needs_straight_mm: f64,
    needs_straight_basis: &'static str,
}

#[derive(Serialize)]
struct Stretch {
    bend: Option<usize>,
    from_mm: f64,
    to_mm: f64,
}

#[derive(Serialize)]
struct Found {
    fault: &'static str,
    severity: &'static str,
    bend: Option<usize>,
    from_mm: f64,
    to_mm: f64,
    also: Vec<Stretch>,
    measured: f64,
    measured_basis: Option<&'static str>,
    limit: f64,
    limit_basis: Option<&'static str>,
    unit: &'static str,
    text: String,
}

/// The word for what a figure rests on; `null` where it follows from the drawing and what the shop owns.
pub(super) fn basis_word(basis: Option<Ground>) -> Option<&'static str> {
    basis.map(Ground::word)
}

impl Bend {
    fn of((index, bend): (usize, &SolvedBend)) -> Self {
        Self {
            number: index + 1,
            rotation_deg: bend.rotation_rad.to_degrees(),
            angle_deg: bend.angle_rad.to_degrees(),
            clr_mm: bend.clr_mm,
            tangent_mm: bend.tangent_mm,
            arc_mm: bend.arc_mm,
            starts_at_mm: bend.starts_at_mm,
            clamp: bend.clamp.as_ref().map(Clamp::of),
            formed: bend.formed.as_ref().map(FormedFields::of),
        }
    }
}

impl Clamp {
    fn of(clamp: &ClampOnTube) -> Self {
        Self {
            length_mm: clamp.length_mm,
            overlap_mm: clamp.overlap_mm,
            bite_mm: clamp.bite_mm,
            needs_straight_mm: clamp.needs_straight_mm,
            needs_straight_basis: Ground::from(clamp.straight_basis).word(),
        }
    }
}

impl Stretch {
    fn of(place: &Place) -> Self {
        Self { bend: place.bend.map(|bend| bend + 1), from_mm: place.from_mm, to_mm: place.to_mm }
    }
}

impl Found {
    fn of(finding: Told) -> Self {
        Self {
            fault: finding.fault,
            severity: finding.severity.word(),
            bend: finding.place.bend.map(|bend| bend + 1),
            from_mm: finding.place.from_mm,
            to_mm: finding.place.to_mm,
            also: finding.also.iter().map(Stretch::of).collect(),
            measured: finding.measured,
            measured_basis: basis_word(finding.measured_basis),
            limit: finding.limit,
            limit_basis: basis_word(finding.limit_basis),
            unit: finding.unit.sign(),
            text: finding.text,
        }
    }
}

impl<'a> Report<'a> {
    /// The report of a part that is solved against a shop, to be written by itself or among others.
    pub(super) fn of(part: &'a Part, shop: &'a Shop, solved: &'a Solved) -> Self {
        let (tube, words) = (&part.tube, Words::new(part, shop, solved));
        let verdict = solved.verdict(&words);
        let ([lead, tail], [lead_mm, tail_mm]) = (solved.trim_bases_in_order(), solved.trims_in_order_mm());
        Self {
            report: REPORT,
            verdict: Verdict { severity: verdict.severity.map_or("none", Severity::word), text: verdict.text },
            from: end_word(solved.from),
            hand: hand_word(solved.hand),
            tube: Tube { od_mm: tube.od.mm(), wall_mm: tube.wall.mm(), material: &tube.material },
            straights_mm: &solved.straights_mm,
            bends: Bends(&solved.bends),
            developed_length_mm: solved.developed_length_mm,
            lead_trim_mm: lead_mm,
            lead_trim_basis: basis_word(lead),
            tail_trim_mm: tail_mm,
            tail_trim_basis: basis_word(tail),
            blank_length_mm: solved.blank_length_mm,
            blank_length_basis: basis_word(solved.blank_basis()),
            cut: solved.cut().map(|cut| CutFields::of(&cut, solved)),
            findings: Founds { solved, words },
            seam: solved.seam.as_ref().map(|seam| SeamFields::of(part, seam)),
            clearances: clearances(part, solved).collect(),
            mass: MassFields::of(solved),
        }
    }
}

/// The report of a part that is solved against a shop as one line of JSON, without a line ending. Lengths are mm, angles
/// degrees, bends counted from 1; places are mm along the tube from the tip as drawn.
///
/// # Errors
/// None that is known: every value has a JSON form. The type is that of the writer.
pub fn to_json(part: &Part, shop: &Shop, solved: &Solved) -> Result<String, serde_json::Error> {
    serde_json::to_string(&Report::of(part, shop, solved))
}

/// The same, written bit by bit: of a long tube it is far longer than what is known of the tube.
///
/// # Errors
/// Those of what is written to.
pub fn write_json(
    out: impl std::io::Write,
    part: &Part,
    shop: &Shop,
    solved: &Solved,
) -> Result<(), serde_json::Error> {
    serde_json::to_writer(out, &Report::of(part, shop, solved))
}
