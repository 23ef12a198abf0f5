//! The spacing of a U's legs: shown as drawn and as bent, and typed. The radius follows.

use std::fmt;

use egui::{CollapsingHeader, RichText, Ui};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::forming::growth::{leg_spacing, radius_for_spacing};
use elbowroom_bending::{Edit, NodeId, Part, Shop, Solved};
use elbowroom_geometry::units::{LengthUnit, format_length};
use elbowroom_geometry::{Angle, Length};
use elbowroom_workbench::Command;

use crate::widgets::{FieldError, figure, figure_text, length_field, named_row};

/// Width of the names beside the figures, points.
pub(super) const NAMES: f32 = 150.0;

/// So many spacings are offered; a shop with more dies for one tube is rare.
const MOST_OFFERED: usize = 8;

/// The legs of the U that is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct LegsView {
    /// The bend, counted from 0.
    pub bend: usize,
    /// The bend by its id.
    pub id: NodeId,
    /// Its angle.
    pub angle: Angle,
    /// Its radius.
    pub clr: Length,
    /// Outside diameter of the tube.
    pub od: Length,
    /// The unit of lengths.
    pub unit: LengthUnit,
    /// How far apart they are drawn.
    pub drawn: Length,
    /// How far apart they come, and what that rests on; `None` where no die set bends it.
    pub bent: Option<(Length, Ground)>,
    /// Whether a die set of the shop has this radius.
    pub has_die: bool,
    /// The spacings that the shop's die sets for this tube give, with the name of the die set, the smallest first.
    pub offered: Vec<(Length, String)>,
}

impl LegsView {
    /// The legs of a bend; `None` where it is no U.
    pub(crate) fn of(part: &Part, shop: &Shop, solved: &Solved, bend: usize) -> Option<Self> {
        let made = solved.bends.get(bend)?;
        let (angle, clr, od) = (Angle::from_radians(made.angle_rad), Length::from_mm(made.clr_mm), part.tube.od);
        let released = made.formed.and_then(|formed| formed.released);
        let bent = released.and_then(|released| Some((released.leg_spacing()?.bent, released.basis.into())));
        let dies = shop.die_sets.iter().filter(|die| die.takes(od));
        let mut offered: Vec<(Length, String)> =
            dies.filter_map(|die| Some((leg_spacing(die.clr, angle)?, die.name.clone()))).collect();
        offered.sort_by(|a, b| a.0.mm().total_cmp(&b.0.mm()));
        offered.dedup_by(|a, b| a.0 == b.0);
        Some(Self {
            bend,
            id: solved.nodes.bend(bend),
            angle,
            clr,
            od,
            unit: part.units,
            drawn: leg_spacing(clr, angle)?,
            bent,
            has_die: shop.die_for(od, clr).is_some(),
            offered,
        })
    }

    fn shown(&self, length: Length) -> String {
        format_length(length, self.unit, self.unit.decimals())
    }

    /// The edit that a typed spacing asks for: the radius on which the legs lie so far apart.
    ///
    /// # Errors
    /// Refuses legs that would lie within each other.
    pub fn edit(&self, spacing: Length) -> Result<Edit, FieldError> {
        let clr = radius_for_spacing(spacing, self.angle).filter(|clr| clr.is_finite() && spacing >= self.od);
        let refused = || {
            let least = self.shown(self.od);
            FieldError::Refused(format!("The middles of the legs lie at least the outside diameter apart, {least}."))
        };
        Ok(Edit::SetClr(self.id, clr.ok_or_else(refused)?))
    }

    /// What is to be said where no die has the radius; empty where one does.
    pub fn missing(&self) -> String {
        if self.has_die {
            return String::new();
        }
        let clr = self.shown(self.clr);
        let has: Vec<String> = self
            .offered
            .iter()
            .take(MOST_OFFERED)
            .map(|(spacing, die)| format!("{} ({die})", self.shown(*spacing)))
            .collect();
        let has = if has.is_empty() {
            "it has none for this tube".to_owned()
        } else {
            format!("its own set the legs {} apart", has.join(", "))
        };
        format!("That asks for CLR {clr}, and no die set of the shop has it: {has}.")
    }
}

/// Shows the legs.
pub(super) fn ui(ui: &mut Ui, legs: &LegsView) -> Vec<Command> {
    let mut commands = Vec::new();
    CollapsingHeader::new("Legs of the U").default_open(true).show(ui, |ui| {
        let label = format!("Leg spacing of bend {}", legs.bend + 1);
        let typed = named_row(ui, NAMES, "Drawn apart", |ui| {
            length_field(ui, &label, legs.drawn, legs.unit, |spacing| legs.edit(spacing))
        });
        commands.extend(typed.map(Command::Edit));
        if let Some((bent, ground)) = legs.bent {
            named_row(ui, NAMES, "Come apart", |ui| {
                figure(ui, &legs.shown(bent), ground, "The radius grows when the tube is let go.")
            });
        }
        if !legs.has_die {
            ui.label(RichText::new(legs.missing()).color(ui.visuals().error_fg_color));
        }
        ui.label(RichText::new("Middle to middle, where the arc begins and ends. The radius follows.").small().weak());
    });
    commands
}

impl fmt::Display for LegsView {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "Legs of the U")?;
        writeln!(out, "  drawn apart: {}", self.shown(self.drawn))?;
        if let Some((bent, ground)) = self.bent {
            writeln!(out, "  come apart: {}", figure_text(&self.shown(bent), ground))?;
        }
        if self.has_die { Ok(()) } else { writeln!(out, "  {}", self.missing()) }
    }
}
