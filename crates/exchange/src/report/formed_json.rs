//! What bending does to the tube, as JSON. Every estimate carries what it rests on: `theory`,
//! `common_practice`, `memory`, `published` or `shop`.

use elbowroom_bending::forming::ground::Ground;
use elbowroom_bending::forming::wall::WallFigure;
use elbowroom_bending::seam::SeamLay;
use elbowroom_bending::{Cut, Formed, Part, Released, Solved};
use serde::Serialize;

/// The rules of [`Formed`] whose source was read: W08, M03, M04 of a tool-maker's published formulas.
const PUBLISHED: &str = Ground::Published.word();

#[derive(Serialize)]
pub(super) struct FormedFields {
    outer_stretch: f64,
    outer_stretch_basis: &'static str,
    walls: Vec<WallFields>,
    wall_factor: f64,
    bend_diameters: f64,
    difficulty: f64,
    difficulty_basis: &'static str,
    mandrel_nose_mm: Option<f64>,
    mandrel_nose_basis: &'static str,
    springback: Option<SpringbackFields>,
    seam_at_deg: Option<f64>,
}

#[derive(Serialize)]
struct WallFields {
    rule: &'static str,
    outside_mm: f64,
    inside_mm: Option<f64>,
    thinning: f64,
    thinning_of: &'static str,
    basis: &'static str,
}

#[derive(Serialize)]
struct SpringbackFields {
    a_deg: f64,
    b: f64,
    from: &'static str,
    basis: &'static str,
    material_unknown: bool,
    usually_opens_deg: Option<[f64; 2]>,
    set_angle_deg: f64,
    free_angle_deg: f64,
    free_clr_mm: f64,
    straight_ahead_mm: f64,
    leg_spacing: Option<LegSpacingFields>,
}

/// How far apart the legs of a U lie, beside the springback that they come apart by.
#[derive(Serialize)]
struct LegSpacingFields {
    drawn_mm: f64,
    bent_mm: f64,
}

#[derive(Serialize)]
pub(super) struct SeamFields {
    start_clock_deg: f64,
    pinned: bool,
    at_bends_deg: Vec<f64>,
    worst_stretch_at_seam: f64,
    worst_bend: Option<usize>,
}

/// The masses, laid flat into the report.
#[derive(Serialize)]
pub(super) struct CutFields {
    blank_mm: f64,
    lead_trim_mm: f64,
    tail_trim_mm: f64,
    basis: &'static str,
}

#[derive(Serialize)]
pub(super) struct MassFields {
    mass_per_metre_kg: Option<f64>,
    mass_kg: Option<f64>,
    blank_mass_kg: Option<f64>,
    mass_basis: Option<&'static str>,
}

impl FormedFields {
    pub(super) fn of(formed: &Formed) -> Self {
        Self {
            outer_stretch: formed.outer_stretch(),
            outer_stretch_basis: PUBLISHED,
            walls: formed.walls().map(|figure| WallFields::of(&figure)).collect(),
            wall_factor: formed.wall_factor(),
            bend_diameters: formed.bend_diameters(),
            difficulty: formed.difficulty(),
            difficulty_basis: PUBLISHED,
            mandrel_nose_mm: formed.mandrel_nose_mm(),
            mandrel_nose_basis: PUBLISHED,
            springback: formed.released.as_ref().map(SpringbackFields::of),
            seam_at_deg: formed.seam_at_rad.map(f64::to_degrees),
        }
    }
}

impl WallFields {
    fn of(figure: &WallFigure) -> Self {
        Self {
            rule: figure.rule.name(),
            outside_mm: figure.outside.mm(),
            inside_mm: figure.inside.map(|inside| inside.mm()),
            thinning: figure.thinning,
            thinning_of: "wall before bending",
            basis: Ground::from(figure.rule).word(),
        }
    }
}

impl SpringbackFields {
    fn of(released: &Released) -> Self {
        Self {
            a_deg: released.line.a().degrees(),
            b: released.line.b(),
            from: released.basis.word(),
            basis: Ground::from(released.basis).word(),
            material_unknown: released.material_unknown,
            usually_opens_deg: released.usually_opens_rad().map(|range| range.map(f64::to_degrees)),
            set_angle_deg: released.set_angle_rad.to_degrees(),
            free_angle_deg: released.free_angle_rad.to_degrees(),
            free_clr_mm: released.free_clr_mm,
            straight_ahead_mm: released.straight_ahead_mm,
            leg_spacing: released
                .leg_spacing()
                .map(|legs| LegSpacingFields { drawn_mm: legs.drawn.mm(), bent_mm: legs.bent.mm() }),
        }
    }
}

impl SeamFields {
    pub(super) fn of(part: &Part, seam: &SeamLay) -> Self {
        Self {
            start_clock_deg: seam.start.degrees(),
            pinned: part.tooling.seam_start.is_some(),
            at_bends_deg: seam.at_bends.iter().map(|at| at.degrees()).collect(),
            worst_stretch_at_seam: seam.worst,
            worst_bend: seam.worst_bend.map(|bend| bend + 1),
        }
    }
}

impl CutFields {
    pub(super) fn of(cut: &Cut, solved: &Solved) -> Self {
        let [lead_trim_mm, tail_trim_mm] = solved.from.first_before([cut.lead_trim_mm, cut.tail_trim_mm]);
        Self { blank_mm: cut.blank_mm, lead_trim_mm, tail_trim_mm, basis: Ground::from(cut.basis).word() }
    }
}

impl MassFields {
    pub(super) fn of(solved: &Solved) -> Self {
        let mass = solved.mass;
        Self {
            mass_per_metre_kg: mass.map(|mass| mass.per_metre_kg),
            mass_kg: mass.map(|mass| mass.part_kg),
            blank_mass_kg: mass.map(|mass| mass.blank_kg),
            mass_basis: mass.map(|mass| Ground::from(mass.certainty).word()),
        }
    }
}
