//! The setup list: what to put on the machine before the first bend, and what to be careful of.
//!
//! Everything is a starting point that travels with its source. What rests on common practice or memory
//! is unsure and must look so wherever it is shown.

mod cautions;
mod item;
mod mandrel;

use elbowroom_geometry::units::format_angle;
use elbowroom_geometry::{Angle, Length};

pub use crate::forming::metal::Metal;
use crate::model::ground::Ground;
pub use crate::model::ground::UNSURE_MARK;
use crate::plan::Plan;
use crate::{Hand, Seam, Shop};
pub use cautions::Caution;
pub use item::{COMMON_PRACTICE, SetupItem};
use item::{common, computed, length, of_shop};

/// What the mark means, for the foot of a sheet.
pub const UNSURE_LEGEND: &str = "~ rests on theory, common practice or memory, or on trial bends that leave a doubt or are of another wall; your own \
     trial bends and measurements take its place.";

/// Springback is theory here: what to do about it.
pub const TRIAL_ADVICE: &str = "Springback by theory is usually too low: bend two or three trial pieces of this tube on this die, \
     measure them, and enter what you measured.";

/// Trial bends leave a doubt here: what to do about it.
pub const DOUBT_ADVICE: &str = "Springback rests on trial bends in doubt: only one, too close together, or one that closed further when it was \
     released. Bend another at quite another angle and enter what you measured.";

/// The trial bends are of another wall: what to do about it.
pub const WALL_ADVICE: &str = "Springback rests on trial bends of another wall than this tube's, or of one that nobody noted. Note the wall they \
     were bent of, or bend two of this tube at angles far apart and enter what you measured.";

/// The setup list of a plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// What to set, in the order in which a machine is set up.
    pub items: Vec<SetupItem>,
    /// What to be careful of.
    pub cautions: Vec<Caution>,
}

impl Setup {
    /// The setup list of a plan made for a shop. Empty but for blank, tube and cautions where nothing is bent.
    pub fn of(plan: &Plan, shop: &Shop) -> Self {
        let mut items = vec![tube(plan), blank(plan)];
        if !plan.program.steps.is_empty() {
            items.push(hand(plan));
            items.extend(Self::of_machine(plan, shop));
            items.push(common(
                "Lubricant",
                "A mandrel-bending lubricant that its maker names for this metal: inside the tube, on mandrel and wiper; \
                 none on clamp or pressure die.",
            ));
            items.extend(seam(plan));
            items.extend(mandrel::hardest(plan));
        }
        items.push(common(
            "Clean and deburr",
            "Deburr both ends inside and out and blow the tube clean before it goes over the mandrel; wash the lubricant \
             off before anything is welded.",
        ));
        items.extend(trims(plan));
        items.push(common(
            "First piece",
            "Bend one, measure it against the drawing and correct the program before the next is cut.",
        ));
        Self { items, cautions: cautions::of(plan, shop) }
    }

    /// What is put on the machine, in the order in which it is set up: common practice, no source.
    fn of_machine(plan: &Plan, shop: &Shop) -> Vec<SetupItem> {
        let mut items = dies(plan, shop);
        items.extend(mandrel::items(plan, shop));
        items.extend(clamps(plan, shop));
        items.extend(pressure_die(plan));
        for item in &mut items {
            item.on_machine = true;
        }
        items
    }

    /// Whether any line rests on common practice, theory or memory.
    pub fn unsure(&self) -> bool {
        self.items.iter().any(|item| item.unsure)
    }
}

fn tube(plan: &Plan) -> SetupItem {
    let tube = &plan.part.tube;
    let seam = match tube.seam {
        Seam::Welded => "welded",
        Seam::Seamless => "seamless",
    };
    computed("Tube", format!("{} {}, {seam}", tube.size(plan.part.units), tube.material), "drawing")
}

fn blank(plan: &Plan) -> SetupItem {
    let ground = plan.blank_basis();
    let unsure = ground.is_some_and(Ground::unsure);
    let source = match ground {
        Some(Ground::Theory) => "computed, springback by theory",
        Some(Ground::DoubtfulTrials) => "computed, springback by trial bends in doubt",
        Some(Ground::OtherWall) => "computed, springback by trial bends of another wall",
        Some(_) if unsure => "computed; a trim rests on common practice, no source",
        _ => "computed",
    };
    let what = "Blank";
    SetupItem {
        what,
        value: format!("Cut to {}, ends square.", length(plan, plan.program.blank)),
        source: source.into(),
        unsure,
        on_machine: false,
    }
}

fn hand(plan: &Plan) -> SetupItem {
    let side = match plan.hand {
        Hand::Right => "right",
        Hand::Left => "left",
    };
    computed("Machine", format!("Bends to the {side}, seen from the chuck looking to the die."), "chosen")
}

/// The steps of one die or clamp in words, such as `steps 1 to 3 and 5`.
pub(crate) fn steps_in_words(steps: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &step in steps {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == step => *last = step,
            _ => runs.push((step, step)),
        }
    }
    let words: Vec<String> = runs
        .iter()
        .map(|(from, to)| if from == to { (from + 1).to_string() } else { format!("{} to {}", from + 1, to + 1) })
        .collect();
    let noun = if steps.len() == 1 { "step" } else { "steps" };
    match words.split_last() {
        Some((last, [])) => format!("{noun} {last}"),
        Some((last, before)) => format!("{noun} {} and {last}", before.join(", ")),
        None => String::new(),
    }
}

/// The steps by something they share, in the order in which it first comes.
fn grouped<K: PartialEq>(keys: impl Iterator<Item = K>) -> Vec<(K, Vec<usize>)> {
    let mut groups: Vec<(K, Vec<usize>)> = Vec::new();
    for (step, key) in keys.enumerate() {
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, steps)) => steps.push(step),
            None => groups.push((key, vec![step])),
        }
    }
    groups
}

fn dies(plan: &Plan, shop: &Shop) -> Vec<SetupItem> {
    let groups = grouped(plan.die_of_step.iter().map(String::as_str));
    let several = groups.len() > 1;
    let mut items: Vec<SetupItem> = groups
        .iter()
        .map(|(name, steps)| {
            let clr = plan.program.steps[steps[0]].forming.die_clr;
            let which = if several { format!(", {}", steps_in_words(steps)) } else { String::new() };
            let basis = shop.die_named(name).map(|die| die.basis).unwrap_or_default();
            of_shop("Bend die", format!("{name}, CLR {}{which}", length(plan, clr)), basis)
        })
        .collect();
    if several {
        items.push(common(
            "Change-over",
            "More than one radius: stack the dies, or change them between the steps named.",
        ));
    }
    items
}

fn clamps(plan: &Plan, shop: &Shop) -> Vec<SetupItem> {
    let key = |(die, step): (&String, &crate::program::Step)| (die.clone(), step.forming.clamp);
    let groups = grouped(plan.die_of_step.iter().zip(&plan.program.steps).map(key));
    let several = groups.len() > 1;
    let item = |((die, clamp_length), steps): &((String, Length), Vec<usize>)| {
        let which = if several { format!(", {}", steps_in_words(steps)) } else { String::new() };
        let owned = shop.die_named(die).and_then(|die| die.clamps.iter().find(|clamp| clamp.length == *clamp_length));
        match owned {
            Some(clamp) => {
                let value = format!(
                    "{} long{which}, {} to {:.1}°",
                    length(plan, *clamp_length),
                    if clamp.basis == crate::Basis::Shop { "proved" } else { "counted on" },
                    clamp.proved_angle.degrees()
                );
                of_shop("Clamp", value, clamp.basis)
            }
            None => {
                computed("Clamp", format!("{} long{which}: not in the shop", length(plan, *clamp_length)), "chosen")
            }
        }
    };
    groups.iter().map(item).collect()
}

/// The pressure die must follow the longest bend: arc and a grip of twice the diameter (C11, from memory).
fn pressure_die(plan: &Plan) -> Option<SetupItem> {
    let arc = |step: &crate::program::Step| step.forming.die_clr.mm() * step.set_angle.radians();
    let longest = plan.program.steps.iter().map(arc).reduce(f64::max)?;
    let least = Length::from_mm(longest) + plan.part.tube.od * crate::forming::difficulty::USUAL_RIGIDITY;
    Some(SetupItem {
        what: "Pressure die",
        value: format!("Long enough for the longest bend: about {} or more (arc + 2 × OD).", length(plan, least)),
        source: "tool-maker's rule, from memory".into(),
        unsure: true,
        on_machine: false,
    })
}

fn seam(plan: &Plan) -> Option<SetupItem> {
    let lay = plan.seam.as_ref()?;
    let pinned = if plan.part.tooling.seam_start.is_some() { "pinned by hand" } else { "where it is strained least" };
    let side = clock_in_words(lay.start);
    let value = format!(
        "Load the weld seam at {} ({side}), {pinned}. 0° is the outside of the first bend, positive {}. The seam is \
         strained by {:.1} % at worst.",
        format_angle(lay.start, 1),
        crate::program::ROTATION_SENSE,
        lay.worst * 100.0
    );
    Some(SetupItem {
        what: "Weld seam",
        value,
        source: "computed; that the seam belongs near the side of the bend is common practice, no source".into(),
        unsure: true,
        on_machine: false,
    })
}

/// Where a clock position lies, for a person at the machine.
fn clock_in_words(clock: Angle) -> &'static str {
    let from_outside = clock.degrees().abs();
    if from_outside < 22.5 {
        "at the outside of the first bend"
    } else if from_outside < 67.5 {
        "between outside and side of the first bend"
    } else if from_outside <= 112.5 {
        "at the side of the first bend"
    } else if from_outside <= 157.5 {
        "between side and inside of the first bend"
    } else {
        "at the inside of the first bend"
    }
}

fn trims(plan: &Plan) -> Option<SetupItem> {
    let (lead, tail) = (plan.program.lead_trim, plan.program.tail_trim);
    let [first, last] = plan.from.first_before(["start", "finish"]);
    let cut = |trim: Length, end: &str| (trim.mm() > 0.05).then(|| format!("{} at the {end}", length(plan, trim)));
    let cuts: Vec<String> = [cut(lead, first), cut(tail, last)].into_iter().flatten().collect();
    if cuts.is_empty() {
        return None;
    }
    let value = format!("Cut off after bending: {}.", cuts.join(", "));
    let unsure = plan.trim_bases.iter().flatten().find(|ground| ground.unsure());
    Some(match unsure {
        Some(ground) => SetupItem {
            what: "Trim",
            value,
            source: format!("computed; {}", ground.said()),
            unsure: true,
            on_machine: false,
        },
        None => computed("Trim", value, "computed"),
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;
    use crate::Part;
    use crate::plan::plan;
    use crate::specimen::{self, row, row_at};

    fn setup(part: &Part, shop: &Shop) -> Setup {
        Setup::of(&plan(part, shop).unwrap(), shop)
    }

    fn value<'a>(setup: &'a Setup, what: &str) -> &'a SetupItem {
        setup.items.iter().find(|item| item.what == what).unwrap_or_else(|| panic!("no {what}: {:?}", setup.items))
    }

    fn two_radii() -> Part {
        let rows = vec![row(300.0, 0.0, 90.0), row_at(300.0, 30.0, 60.0, 101.6), row(300.0, -40.0, 45.0)];
        specimen::part(rows, 400.0).unwrap()
    }

    #[test]
    fn everything_a_machine_is_set_up_with_is_listed_with_its_source() {
        let setup = setup(&two_radii(), &specimen::shop());
        for what in [
            "Tube",
            "Blank",
            "Machine",
            "Bend die",
            "Change-over",
            "Clamp",
            "Pressure die",
            "Mandrel nose",
            "Mandrel balls",
            "Mandrel material",
            "Wiper",
            "Lubricant",
            "Weld seam",
            "Clean and deburr",
            "First piece",
        ] {
            let item = value(&setup, what);
            assert!(!item.value.is_empty() && !item.source.is_empty(), "{item:?}");
            // What says common practice, theory or memory must look unsure.
            let soft = ["common practice", "theory", "memory"].iter().any(|word| item.source.contains(word));
            assert_eq!(item.unsure, soft, "{item:?}");
        }
        let dies: Vec<&str> =
            setup.items.iter().filter(|item| item.what == "Bend die").map(|item| item.value.as_str()).collect();
        assert_eq!(dies, ["50.8 at 1.5D, CLR 76.2 mm, steps 1 and 3", "50.8 at 2D, CLR 101.6 mm, step 2"]);
    }

    #[test]
    fn the_mandrel_is_the_published_one() {
        // Tool-maker's formula "Md = T - ( W x 2.21 )" (scribd 434459819): 47.485 mm for 50.8 × 1.5 mm.
        let setup = setup(&two_radii(), &specimen::shop());
        assert!(value(&setup, "Mandrel nose").value.contains("47.49 mm"), "{:?}", value(&setup, "Mandrel nose"));
        // Aluminium bronze on stainless (bendtooling.com), chromed steel on aluminium (sharpeproducts.com).
        assert!(value(&setup, "Mandrel material").value.contains("luminium bronze"));
        let mut part = two_radii();
        part.tube = part.tube.of_material("6061-T4 aluminium");
        let aluminium = tests::setup(&part, &specimen::shop());
        assert!(value(&aluminium, "Mandrel material").value.starts_with("Chromed steel"));
    }

    #[test]
    fn the_pressure_die_by_the_remembered_rule() {
        // R θ + 2 OD: 76.2 π/2 + 101.6 = 221.3 mm for 90° on 76.2 mm (row C11, from memory), without springback.
        let mut shop = specimen::shop();
        shop.materials.clear();
        let part = specimen::part(vec![row(300.0, 0.0, 90.0)], 400.0).unwrap();
        assert!(value(&setup(&part, &shop), "Pressure die").value.contains("221.3 mm"));
    }

    #[test]
    fn the_shops_own_figures_lose_the_mark() {
        let mut shop = specimen::shop();
        specimen::prove_dies(&mut shop);
        let setup = setup(&two_radii(), &shop);
        for what in ["Bend die", "Clamp"] {
            assert!(!value(&setup, what).unsure);
        }
    }

    #[test]
    fn a_straight_tube_is_only_cut_and_cleaned() {
        let setup = setup(&specimen::part(vec![], 400.0).unwrap(), &specimen::shop());
        assert!(setup.items.iter().all(|item| item.what != "Bend die" && item.what != "Wiper"));
        assert_eq!(value(&setup, "Blank").value, "Cut to 400.0 mm, ends square.");
    }

    #[test]
    fn steps_are_told_in_runs() {
        for (steps, words) in [
            (&[0][..], "step 1"),
            (&[0, 1, 2], "steps 1 to 3"),
            (&[0, 2], "steps 1 and 3"),
            (&[0, 1, 3, 5, 6], "steps 1 to 2, 4 and 6 to 7"),
        ] {
            assert_eq!(steps_in_words(steps), words);
        }
    }
}
