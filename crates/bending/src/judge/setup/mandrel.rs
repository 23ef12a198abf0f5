//! Mandrel, balls and wiper as starting points, by wall factor OD/t and D of bend CLR/OD (M01).

use elbowroom_geometry::Length;

use super::{COMMON_PRACTICE, Metal, SetupItem, common};
use crate::Shop;
use crate::forming::difficulty::{
    SIMPLE_DIFFICULTY, USUAL_RIGIDITY, bend_diameters, difficulty, mandrel_nose, wall_factor,
};
use crate::plan::Plan;

/// From this wall factor on a wiper is wanted at tight radii. Trade charts (M10): common practice, no source.
const WIPER_WALL_FACTOR: f64 = 30.0;
/// Up to this D of bend. Trade charts (M10): common practice, no source.
const WIPER_DIAMETERS: f64 = 2.0;
/// Figures of one size count as equal within this share: tubes are sold by rounded sizes.
const SAME_SHARE: f64 = 1.0 + 1e-3;

/// Mandrel, wiper and difficulty of a plan that bends something: by its tightest radius.
pub(super) fn items(plan: &Plan, shop: &Shop) -> Vec<SetupItem> {
    let tube = &plan.part.tube;
    let tightest = plan.program.steps.iter().map(|step| step.forming.die_clr.mm()).reduce(f64::min);
    let Some(clr) = tightest.map(Length::from_mm) else { return Vec::new() };
    let (factor, diameters) = (wall_factor(tube.od, tube.wall), bend_diameters(tube.od, clr));
    let metal = Metal::of_plan(plan, shop);
    let mut items = vec![
        SetupItem {
            what: "Mandrel nose",
            value: format!(
                "{} diameter; try it in the tube, weld bead and all.",
                plan.part.units.finely(mandrel_nose(tube.od, tube.wall).mm())
            ),
            source: "tool-maker's published formula, OD - 2.21 × wall".into(),
            unsure: false,
        },
        common("Mandrel balls", format!("{} (OD/wall {factor:.1}, CLR/OD {diameters:.2})", balls(factor, diameters))),
        material(metal),
        common("Wiper", wiper(factor, diameters)),
    ];
    let hardest = plan
        .program
        .steps
        .iter()
        .map(|step| difficulty(tube.od, tube.wall, step.forming.die_clr, step.free_angle, USUAL_RIGIDITY))
        .reduce(f64::max);
    if let Some(hardest) = hardest {
        let word = if hardest <= SIMPLE_DIFFICULTY { "simple" } else { "not simple: expect to try more than once" };
        items.push(SetupItem {
            what: "Difficulty",
            value: format!("{hardest:.1} at the hardest bend, {word} (up to {SIMPLE_DIFFICULTY:.0} is simple)"),
            source: "tool-maker's published rule".into(),
            unsure: false,
        });
    }
    items
}

/// How many balls to start with. Trade charts (M10): common practice, no source. Between the chart's cells
/// the next harder one is taken.
fn balls(factor: f64, diameters: f64) -> &'static str {
    if factor < 20.0 && diameters * SAME_SHARE >= 2.5 {
        "none: a plug mandrel or no mandrel"
    } else if factor <= 40.0 && diameters * SAME_SHARE >= 2.0 {
        "1 or 2, regular pitch"
    } else if factor <= 50.0 && diameters * SAME_SHARE >= 1.5 {
        "2 or 3, regular pitch"
    } else if factor <= 60.0 && diameters * SAME_SHARE >= 1.5 {
        "3 or more, close pitch"
    } else {
        "4 or more, close pitch"
    }
}

fn wiper(factor: f64, diameters: f64) -> &'static str {
    if factor >= WIPER_WALL_FACTOR && diameters <= WIPER_DIAMETERS * SAME_SHARE {
        "Wanted: set its tip just short of the tangent point, and rake it as its maker says."
    } else {
        "Probably not needed; fit one if the inside wrinkles."
    }
}

fn material(metal: Metal) -> SetupItem {
    let published = |value: &str, source: &str| SetupItem {
        what: "Mandrel material",
        value: value.into(),
        source: source.into(),
        unsure: false,
    };
    match metal {
        Metal::Aluminium => published(
            "Chromed steel for mandrel and wiper; aluminium bronze galls on aluminium.",
            "tool-makers' published advice",
        ),
        Metal::Stainless | Metal::Steel | Metal::Titanium => published(
            "Aluminium bronze for mandrel and wiper: it wears, but does not gall.",
            "tool-maker's published advice",
        ),
        Metal::Unknown => SetupItem {
            what: "Mandrel material",
            value: "This material is not known here: ask the tool-maker what does not gall on it.".into(),
            source: COMMON_PRACTICE.into(),
            unsure: true,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cells_of_the_chart() {
        // Trade charts: common practice, no source (M10).
        for (factor, diameters, words) in [
            (15.0, 3.0, "none"),
            (33.9, 2.0, "1 or 2"),
            (33.9, 1.5, "2 or 3"),
            (70.0, 1.5, "4 or more"),
            (70.0, 1.0, "4 or more"),
            (55.0, 1.5, "3 or more"),
        ] {
            assert!(balls(factor, diameters).starts_with(words), "{factor} {diameters}");
        }
        assert!(wiper(33.9, 1.5).starts_with("Wanted"));
        assert!(wiper(20.0, 1.5).starts_with("Probably not"));
        assert!(wiper(33.9, 3.0).starts_with("Probably not"));
    }
}
