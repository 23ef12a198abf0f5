//! Mandrel, balls and wiper as starting points, by wall factor OD/t and D of bend CLR/OD (M01).

use crate::text::capital;
use elbowroom_geometry::Length;

use super::item::{COMMON_PRACTICE, SetupItem};
use crate::Shop;
use crate::forming::difficulty::{SIMPLE_DIFFICULTY, USUAL_RIGIDITY, bend_diameters, difficulty, shown, wall_factor};
use crate::forming::mandrel::{self, Advice};
use crate::material::Material;
use crate::plan::Plan;

/// Wiper and mandrel of a plan that bends something, by its tightest radius, in the order in which they are set up.
pub(super) fn items(plan: &Plan, shop: &Shop) -> Vec<SetupItem> {
    let tube = &plan.part.tube;
    let tightest = plan.program.steps.iter().map(|step| step.forming.die_clr.mm()).reduce(f64::min);
    let Some(clr) = tightest.map(Length::from_mm) else { return Vec::new() };
    let (factor, diameters) = (wall_factor(tube.od, tube.wall), bend_diameters(tube.od, clr));
    let wiper = mandrel::wiper(tube.od, tube.wall, clr);
    let mut items = vec![charted("Wiper", wiper, format!("{}.", capital(wiper.text)))];
    match mandrel::nose(tube.od, tube.wall) {
        Some(nose) => {
            items.push(SetupItem {
                what: "Mandrel nose",
                value: format!(
                    "{} diameter; try it in the tube, weld bead and all.",
                    plan.part.units.finely(nose.mm())
                ),
                source: "tool-maker's published formula, OD - 2.21 × wall".into(),
                unsure: false,
                on_machine: false,
            });
            let balls = mandrel::balls(tube.od, tube.wall, clr);
            let sizes = format!("{} (OD/wall {factor:.1}, CLR/OD {diameters:.2})", balls.text);
            items.push(charted("Mandrel balls", balls, sizes));
            items.push(material(&tube.material, shop.material(&tube.material)));
        }
        None => items.push(SetupItem {
            what: "Mandrel nose",
            value: format!(
                "No mandrel fits: the bore is {}. Bend it empty or filled.",
                plan.part.units.finely(mandrel::bore(tube.od, tube.wall).mm())
            ),
            source: "tool-maker's published formula, OD - 2.21 × wall; the least nose is common practice, no source"
                .into(),
            unsure: true,
            on_machine: false,
        }),
    }
    items
}

/// How difficult the hardest bend of a plan is.
pub(super) fn hardest(plan: &Plan) -> Option<SetupItem> {
    let tube = &plan.part.tube;
    let hardest = plan
        .program
        .steps
        .iter()
        .map(|step| difficulty(tube.od, tube.wall, step.forming.die_clr, step.free_angle, USUAL_RIGIDITY))
        .reduce(f64::max)?;
    let word = if hardest <= SIMPLE_DIFFICULTY { "simple" } else { "not simple: expect to try more than once" };
    Some(SetupItem {
        what: "Difficulty",
        value: format!("{} at the hardest bend, {word} (up to {SIMPLE_DIFFICULTY:.0} is simple)", shown(hardest)),
        source: "tool-maker's published rule".into(),
        unsure: false,
        on_machine: false,
    })
}

/// A line of the one chart of balls and wiper.
fn charted(what: &'static str, advice: Advice, value: String) -> SetupItem {
    SetupItem { what, value, source: mandrel::CHART.into(), unsure: advice.ground.unsure(), on_machine: false }
}

/// What mandrel and wiper are made of, by the one chart; the tool-maker is asked of what the shop does not know.
fn material(name: &str, known: Option<&Material>) -> SetupItem {
    let what = "Mandrel material";
    match mandrel::made_of(name, known) {
        Some(advice) => SetupItem {
            what,
            value: format!("{}.", capital(advice.text)),
            source: mandrel::MADE_OF.into(),
            unsure: advice.ground.unsure(),
            on_machine: false,
        },
        None => SetupItem {
            what,
            value: "This material is not known here: ask the tool-maker what does not gall on it.".into(),
            source: COMMON_PRACTICE.into(),
            unsure: true,
            on_machine: false,
        },
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::Tube;
    use crate::plan::plan;
    use crate::specimen::{self, row_at};

    fn items_for(od_mm: f64, wall_mm: f64, clr_mm: f64) -> Vec<SetupItem> {
        let mut shop = specimen::shop();
        specimen::change(&mut shop.die_sets, |dies| dies.push(specimen::die_set("odd", od_mm, clr_mm)));
        let mut part = specimen::part(vec![row_at(300.0, 0.0, 45.0, clr_mm)], 400.0).unwrap();
        part.tube = Tube::usual(Length::from_mm(od_mm), Length::from_mm(wall_mm)).unwrap();
        items(&plan(&part, &shop).unwrap(), &shop)
    }

    #[test]
    fn the_sheet_says_what_the_chart_says() {
        // The sheet said "3 or more" once where the panel said "2 to 3".
        for (od, wall, diameters) in [(76.2, 1.5, 1.5), (50.8, 1.5, 1.5), (50.8, 1.5, 2.0), (60.3, 2.0, 3.0)] {
            let clr = od * diameters;
            let found = items_for(od, wall, clr);
            let value = |what: &str| found.iter().find(|item| item.what == what).unwrap().value.clone();
            let [od, wall, clr] = [od, wall, clr].map(Length::from_mm);
            assert!(value("Mandrel balls").starts_with(mandrel::balls(od, wall, clr).text));
            assert!(value("Wiper").to_lowercase().starts_with(mandrel::wiper(od, wall, clr).text));
        }
    }

    #[test]
    fn mandrel_and_wiper_are_made_of_what_the_chart_says() {
        for density in [7.9, 4.51, 2.7] {
            let mut shop = specimen::shop();
            specimen::change(&mut shop.materials[0], |metal| {
                metal.density[0].value = density;
                (metal.name, metal.also) = ("a metal".into(), Vec::new());
            });
            let mut part = specimen::part(vec![row_at(300.0, 0.0, 45.0, 76.2)], 400.0).unwrap();
            part.tube = part.tube.of_material("a metal");
            let found = items(&plan(&part, &shop).unwrap(), &shop);
            let said = &found.iter().find(|item| item.what == "Mandrel material").unwrap().value;
            let chart = mandrel::made_of("a metal", shop.materials.first()).unwrap().text;
            assert_eq!(said.to_lowercase(), format!("{chart}.").to_lowercase());
        }
    }

    #[test]
    fn a_bore_too_small_for_a_mandrel_is_told_as_such() {
        let found = items_for(60.3, 30.1, 90.5);
        let nose = found.iter().find(|item| item.what == "Mandrel nose").unwrap();
        assert!(nose.value.starts_with("No mandrel fits: the bore is 0.10 mm."), "{}", nose.value);
        assert!(nose.unsure && found.iter().all(|item| !item.value.contains('-') && item.what != "Mandrel balls"));
    }
}
