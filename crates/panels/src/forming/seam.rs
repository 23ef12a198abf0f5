//! Where the seam lies at every bend, and the field to pin it.

use std::fmt;

use egui::{CollapsingHeader, RichText, Ui};
use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::{Edit, Part, Shop, Solved};
use elbowroom_geometry::Angle;
use elbowroom_geometry::units::{format_angle, format_angle_exact, parse_angle};
use elbowroom_workbench::Command;

use super::group::percent;
use crate::widgets::{entry_field, figure, figure_text};

/// So many bends are listed; more are counted.
const MOST_LISTED: usize = 24;

/// Clock positions this near to the limit meet it, radians, as the check has it.
const SAME_RAD: f64 = 1e-9;

/// The seam at a bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeamAt {
    /// The bend, counted from 0.
    pub bend: usize,
    /// Clock position from its outside.
    pub clock: Angle,
    /// Strain of the seam, as a share: stretched above 0, gathered below.
    pub strain: f64,
    /// Whether it comes nearer to the outside than the shop wants.
    pub is_near: bool,
}

/// The seam along the part.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamView {
    /// Clock position at the first bend.
    pub start: Angle,
    /// Whether a person has pinned it there.
    pub pinned: bool,
    /// The seam at every bend.
    pub at: Vec<SeamAt>,
    /// The largest strain, as a share, and the bend it is at.
    pub worst: (f64, Option<usize>),
    /// How near to the outside the shop lets it come.
    pub limit: Angle,
    /// What that rests on.
    pub limit_ground: Ground,
}

impl SeamView {
    /// The seam of a part; `None` for seamless tube and where nothing is bent.
    pub(super) fn of(part: &Part, shop: &Shop, solved: &Solved) -> Option<Self> {
        let seam = solved.seam.as_ref()?;
        let limit = shop.limits.seam_from_outside;
        let bends = solved.bends.iter().enumerate();
        let at = bends.filter_map(|(bend, made)| {
            let formed = made.formed?;
            let clock = Angle::from_radians(formed.seam_at_rad?);
            let is_near = clock.abs().radians() < limit.radians() - SAME_RAD;
            Some(SeamAt { bend, clock, strain: formed.outer_stretch() * clock.radians().cos(), is_near })
        });
        Some(Self {
            start: seam.start,
            pinned: part.tooling.seam_start.is_some(),
            at: at.collect(),
            worst: (seam.worst, seam.worst_bend),
            limit,
            limit_ground: shop.limits.basis.into(),
        })
    }

    fn how(&self) -> &'static str {
        if self.pinned { "Pinned there." } else { "The best start: its worst strain is the smallest there is." }
    }

    fn worst_text(&self) -> String {
        let at = self.worst.1.map_or_else(String::new, |bend| format!(" at bend {}", bend + 1));
        format!("{}{at}", percent(self.worst.0))
    }
}

impl SeamAt {
    fn text(&self) -> String {
        let does = if self.strain < 0.0 { "gathered" } else { "stretched" };
        let near = if self.is_near { ", too near the outside" } else { "" };
        format!("{}, {does} by {}{near}", format_angle(self.clock, 1), percent(self.strain.abs()))
    }
}

/// Shows the seam.
pub(super) fn ui(ui: &mut Ui, seam: &SeamView) -> Vec<Command> {
    let mut commands = Vec::new();
    CollapsingHeader::new("Seam").default_open(true).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            ui.label("At bend 1, from the outside");
            let shown = format_angle(seam.start, 1);
            let exact = if seam.pinned { format_angle_exact(seam.start) } else { shown.clone() };
            let shown = if exact.len() <= 8 { exact } else { shown };
            let start = entry_field(ui, "Seam at bend 1", &shown, |text| Ok(parse_angle(text)?));
            commands.extend(start.map(|start| Command::Edit(Edit::PinSeam(Some(start)))));
        });
        ui.label(RichText::new("Clockwise looking from finish to start; 90° is the side.").small().weak());
        ui.horizontal_wrapped(|ui| {
            ui.label(seam.how());
            if seam.pinned && ui.button("Leave it to the best start").clicked() {
                commands.push(Command::Edit(Edit::PinSeam(None)));
            }
        });
        for at in seam.at.iter().take(MOST_LISTED) {
            ui.label(format!("Bend {}: {}", at.bend + 1, at.text()));
        }
        if seam.at.len() > MOST_LISTED {
            ui.label(format!("and {} more bends", seam.at.len() - MOST_LISTED));
        }
        ui.label(format!("Strained most: {}", seam.worst_text()));
        ui.horizontal_wrapped(|ui| {
            ui.label("The shop wants at least");
            figure(ui, &format!("{} from the outside", format_angle(seam.limit, 1)), seam.limit_ground, "");
        });
    });
    commands
}

impl fmt::Display for SeamView {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(out, "Seam")?;
        writeln!(out, "  at bend 1: {}. {}", format_angle(self.start, 1), self.how())?;
        for at in &self.at {
            writeln!(out, "  bend {}: {}", at.bend + 1, at.text())?;
        }
        writeln!(out, "  strained most: {}", self.worst_text())?;
        writeln!(out, "  wanted from the outside: {}", figure_text(&format_angle(self.limit, 1), self.limit_ground))
    }
}
