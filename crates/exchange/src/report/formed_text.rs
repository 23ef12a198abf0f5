//! What bending does to the tube, as text. A figure that rests on theory, common practice or memory has
//! the mark [`UNSURE`] before it.

use std::io;

use elbowroom_bending::forming::difficulty;
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::forming::wall::WallRule;
use elbowroom_bending::{Formed, Part, Shop, Solved};

use elbowroom_geometry::units::LengthUnit;

use super::sink::Sink;
use super::table::{lines_up, tenth};

/// The mark of an unsure figure.
const UNSURE: &str = elbowroom_bending::setup::UNSURE_MARK;

/// Writes the section, with its heading; nothing where no bend is formed.
///
/// # Errors
/// Those of what is written to.
pub(super) fn section(out: &mut Sink, part: &Part, shop: &Shop, solved: &Solved) -> io::Result<()> {
    let rule = shop.limits.wall_rule;
    if formed(solved).next().is_some() {
        out.text(&format!("\nForming, {} and degrees\n", part.units.name()))?;
        table(out, solved, rule, part.units)?;
        out.text(&rules(part, rule))?;
        legs(out, solved, part.units)?;
    }
    if let Some(seam) = &solved.seam {
        let start = tenth(seam.start.degrees());
        let how = if part.tooling.seam_start.is_some() { "pinned" } else { "best start" };
        let bend = seam.worst_bend.map_or_else(String::new, |bend| format!(" at bend {}", bend + 1));
        out.text(&format!(
            "Seam at bend 1: {start} from the outside, clockwise looking from finish to start ({how}); strained most{bend}, \
             {} %.\n",
            tenth(seam.worst * 100.0)
        ))?;
    }
    if let Some(mass) = &solved.mass {
        let mark = mark(Ground::from(mass.certainty));
        out.text(&format!(
            "Mass: {mark}{:.2} kg part, {mark}{:.2} kg blank, {mark}{:.3} kg/m.\n",
            mass.part_kg, mass.blank_kg, mass.per_metre_kg
        ))?;
    }
    Ok(())
}

/// The bends that are formed, by their places.
fn formed(solved: &Solved) -> impl Iterator<Item = (usize, &Formed)> + Clone {
    solved.bends.iter().enumerate().filter_map(|(index, bend)| Some((index, bend.formed.as_ref()?)))
}

/// The mark of an unsure figure, to stand right before it.
pub(super) fn marked(ground: impl Into<Ground>) -> String {
    mark(ground.into()).to_owned()
}

/// The same where it may rest on nothing that could be unsure.
pub(super) fn marked_if(ground: Option<Ground>) -> String {
    ground.map_or_else(String::new, marked)
}

fn mark(ground: Ground) -> &'static str {
    if ground.unsure() { UNSURE } else { "" }
}

fn table(out: &mut Sink, solved: &Solved, rule: WallRule, unit: LengthUnit) -> io::Result<()> {
    let mut head = vec!["Bend", "Stretch %"];
    head.extend(["Wall left", "by all rules", "Difficulty", "Mandrel nose", "Set angle", "Free CLR", "Seam at"]);
    let rows = formed(solved).map(|(index, formed)| {
        let mut row = vec![(index + 1).to_string(), tenth(formed.outer_stretch() * 100.0)];
        row.extend(wall(formed, rule, unit));
        row.push(difficulty::shown(formed.difficulty()).to_string());
        row.push(
            formed.mandrel_nose_mm().map_or_else(|| "none fits".to_owned(), |nose| unit.bare_finely(nose).to_string()),
        );
        match &formed.released {
            Some(released) => {
                let mark = mark(released.basis.into());
                row.push(format!("{mark}{}", tenth(released.set_angle_rad.to_degrees())));
                row.push(format!("{mark}{}", unit.bare(released.free_clr_mm)));
            }
            None => row.extend(["-".to_owned(), "-".to_owned()]),
        }
        row.push(formed.seam_at_rad.map_or_else(|| "-".to_owned(), |at| tenth(at.to_degrees())));
        row
    });
    lines_up(&head, rows).try_for_each(|line| out.text(&line))
}

/// The wall that is left by the rule that the shop goes by, and from where to where it lies by all rules.
fn wall(formed: &Formed, rule: WallRule, unit: LengthUnit) -> [String; 2] {
    let walls = || formed.walls();
    let mm = || walls().map(|figure| figure.outside.mm());
    let (least, most) = (mm().fold(f64::INFINITY, f64::min), mm().fold(0.0, f64::max));
    let by_shop = walls().find(|figure| figure.rule == rule);
    let left = by_shop.map(|figure| format!("{}{}", mark(figure.rule.into()), unit.bare_finely(figure.outside.mm())));
    [left.unwrap_or_else(|| "-".into()), format!("{} to {}", unit.bare_finely(least), unit.bare_finely(most))]
}

/// A line for each U: how far its legs lie apart.
fn legs(out: &mut Sink, solved: &Solved, unit: LengthUnit) -> io::Result<()> {
    let line = |(index, formed): (usize, &Formed)| {
        let released = formed.released?;
        let legs = released.leg_spacing()?;
        let bent = format!("{}{}", mark(released.basis.into()), unit.shown(legs.bent.mm()));
        Some(format!("Legs of bend {}: {} apart as drawn, {bent} as bent.\n", index + 1, unit.shown(legs.drawn.mm())))
    };
    formed(solved).filter_map(line).try_for_each(|line| out.text(&line))
}

fn rules(part: &Part, rule: WallRule) -> String {
    format!(
        "Wall left is what remains at the outside of {}, by the rule {}; all rules that are known here disagree, and none is a \
         measurement. The JSON report has each.\n",
        part.units.finely(part.tube.wall.mm()),
        rule.name()
    )
}
