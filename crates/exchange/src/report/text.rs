//! The report as a person reads it: the verdict first, then the rows, the findings with their cures, and
//! the blank.

use std::io;

use elbowroom_bending::setup::UNSURE_LEGEND;
use elbowroom_bending::{DieSet, Part, Seam, Severity, Shop, Solved, SolvedBend, Told, Trials, Words};
use elbowroom_geometry::Length;
use elbowroom_geometry::units::LengthUnit;

use super::around_text;
use super::formed_text::{self, marked, marked_if};
use super::sink::{Sink, text_of};
use super::table::{lines_up, tenth};

/// What the report says beside the part itself.
#[derive(Clone, Copy, Debug)]
pub struct TextContext<'a> {
    /// The shop the part was checked against.
    pub shop: &'a Shop,
    /// Where that shop comes from, such as `built in`.
    pub shop_from: &'a str,
}

/// What every report ends with.
pub(super) const CAUTION: &str = "\
These figures are estimates until a trial bend confirms them. A bender is a power press with a swinging arm:\n\
nobody stands inside the swing, and the machine's own rules and local law come first.\n";

/// What it says where a figure of the shop has not been proved there.
pub(super) const COMMON_PRACTICE: &str = "\
Limits of machine, die set or clamp rest on common practice here, no source: put your shop's own in their place.\n";

/// The report of a solved part as text, lengths in the unit that the part shows, to about a tenth of a millimetre.
pub fn to_text(part: &Part, solved: &Solved, context: TextContext) -> String {
    text_of(|out| write_text(out, part, solved, context))
}

/// The same, written bit by bit: of a long tube it is far longer than what is known of the tube.
///
/// # Errors
/// Those of what is written to.
pub fn write_text(out: &mut dyn io::Write, part: &Part, solved: &Solved, context: TextContext) -> io::Result<()> {
    let unit = part.units;
    let words = Words::new(part, context.shop, solved);
    let mut out = Sink::new(out);
    out.text(&format!("{}\n\n", solved.verdict(&words).text))?;
    out.text(&subject(part, context))?;
    out.text(&format!("\nRows, {} and degrees\n", unit.name()))?;
    rows(&mut out, solved, context.shop, unit)?;
    formed_text::section(&mut out, part, context.shop, solved)?;
    out.text("\nFindings\n")?;
    if solved.findings.is_empty() {
        out.text("None.\n")?;
    }
    let mut trials = Trials::default();
    for index in 0..solved.findings.len() {
        out.text(&told(index + 1, &trials.told(index, solved, &words), unit))?;
    }
    around_text::section(&mut out, solved, unit)?;
    out.text("\nBlank\n")?;
    out.text(&blank(solved, unit))?;
    out.text("\n")?;
    if out.marked {
        out.text(&format!("{UNSURE_LEGEND}\n"))?;
    }
    if rests_on_common_practice(solved, context.shop) {
        out.text(COMMON_PRACTICE)?;
    }
    out.text(CAUTION)
}

/// Whether the machine, or a die set that bends this part or one of its clamps, has figures that nobody has
/// proved in the shop.
fn rests_on_common_practice(solved: &Solved, shop: &Shop) -> bool {
    let mut dies = solved.bends.iter().filter_map(|bend| shop.die_sets.get(bend.die?));
    shop.machine.basis.unsure() || dies.any(is_unproved)
}

/// Whether the machine, or a die set for this diameter or one of its clamps, has figures that nobody has
/// proved in the shop.
pub(super) fn shop_rests_on_common_practice(shop: &Shop, od: Length) -> bool {
    let mut dies = shop.die_sets.iter().filter(|die| die.takes(od));
    shop.machine.basis.unsure() || dies.any(is_unproved)
}

fn is_unproved(die: &DieSet) -> bool {
    die.basis.unsure() || die.clamps.iter().any(|clamp| clamp.basis.unsure())
}

pub(super) fn subject(part: &Part, context: TextContext) -> String {
    let tube = &part.tube;
    let seam = match tube.seam {
        Seam::Welded => "welded",
        Seam::Seamless => "seamless",
    };
    let mut lines = vec![
        ("Part", part.name.clone()),
        ("Tube", format!("{} {}, {seam}", tube.size(part.units), tube.material)),
        ("Shop", format!("{} ({})", context.shop.name, context.shop_from)),
        ("Machine", context.shop.machine.name.clone()),
    ];
    lines.retain(|(_, value)| !value.is_empty());
    lines.iter().map(|(name, value)| format!("{name:<9}{value}\n")).collect()
}

fn rows(out: &mut Sink, solved: &Solved, shop: &Shop, unit: LengthUnit) -> io::Result<()> {
    let head = [
        "Bend",
        "Straight",
        "Rotation",
        "Angle",
        "CLR",
        "Tangent",
        "Arc",
        "Starts at",
        "Clamp",
        "Overlap",
        "Bite",
        "Needs straight",
        "Die",
    ];
    let length = |length_mm: f64| unit.bare(length_mm).to_string();
    let straight = |index: usize| solved.straights_mm.get(index).map_or_else(|| "-".into(), |mm| length(*mm));
    let row = |(index, bend): (usize, &SolvedBend)| {
        let of_clamp = |figure: Option<f64>| figure.map_or_else(|| "-".to_owned(), length);
        vec![
            (index + 1).to_string(),
            straight(index),
            tenth(bend.rotation_rad.to_degrees()),
            tenth(bend.angle_rad.to_degrees()),
            length(bend.clr_mm),
            of_clamp(bend.tangent_mm),
            length(bend.arc_mm),
            length(bend.starts_at_mm),
            of_clamp(bend.clamp.map(|clamp| clamp.length_mm)),
            of_clamp(bend.clamp.map(|clamp| clamp.overlap_mm)),
            of_clamp(bend.clamp.map(|clamp| clamp.bite_mm)),
            bend.clamp.map_or_else(
                || "-".to_owned(),
                |clamp| marked(clamp.straight_basis) + &length(unit.at_least_mm(clamp.needs_straight_mm)),
            ),
            bend.die.and_then(|die| shop.die_sets.get(die)).map_or("none", |die| die.name.as_str()).to_owned(),
        ]
    };
    let tail = || vec!["finish".into(), straight(solved.bends.len())];
    let mut lines = lines_up(&head, solved.bends.iter().enumerate().map(row).chain(std::iter::once_with(tail)));
    lines.try_for_each(|line| out.text(&line))
}

pub(super) fn told(number: usize, finding: &Told, unit: LengthUnit) -> String {
    let severity = match finding.severity {
        Severity::Note => "Note",
        Severity::Caution => "Caution",
        Severity::Stop => "Stop",
    };
    let stretches: Vec<String> =
        finding.places().map(|place| format!("{} to {}", unit.bare(place.from_mm), unit.shown(place.to_mm))).collect();
    let from_to = format!("{} along the tube", stretches.join(" and "));
    let mut text = format!("{number}. {severity}: {} ({}; {from_to})\n", finding.text, finding.title);
    for cure in &finding.cures {
        text += &format!("   Cure: {}", cure.label);
        text += &if cure.risk.is_empty() { "\n".into() } else { format!(" ({})\n", cure.risk) };
        if !cure.outcome.is_empty() {
            text += &format!("   {}\n", cure.outcome);
        }
    }
    if let Some(first) = finding.cured_with {
        text += &format!("   A cure of {} cures this too.\n", first + 1);
    }
    text
}

fn blank(solved: &Solved, unit: LengthUnit) -> String {
    // In the order of the drawing.
    let trims = solved.from.first_before(solved.trim_bases_in_order());
    let trims_mm = solved.from.first_before(solved.trims_in_order_mm());
    // Without a die set nobody knows the springback.
    let blank = if solved.program.is_ok() { "Blank to cut" } else { "Blank as drawn" };
    let lines = [
        ("Developed length", solved.developed_length_mm, None),
        ("Trim at the start", trims_mm[0], trims[0]),
        ("Trim at the finish", trims_mm[1], trims[1]),
        (blank, solved.blank_length_mm, solved.blank_basis()),
    ];
    let line = |name: &str, mark: String, mm: f64| {
        let figure = mark + &unit.bare(mm).to_string();
        format!("{name:<19}{figure:>9} {}\n", unit.symbol())
    };
    lines.iter().map(|(name, mm, basis)| line(name, marked_if(*basis), *mm)).collect()
}
