//! What to be careful of at the machine and after it. None of it replaces the machine's own instructions.

use super::item::length;
use crate::Shop;
use crate::forming::metal::Metal;
use crate::plan::Plan;

/// One caution.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caution {
    /// What it says, one or two plain sentences.
    pub text: String,
    /// Where it comes from.
    pub source: &'static str,
}

/// The cautions of a plan.
pub(super) fn of(plan: &Plan, shop: &Shop) -> Vec<Caution> {
    let mut cautions = vec![Caution {
        text: "The machine's own instructions, the standard for its kind and local law come before this sheet. Its figures are \
               estimates until a trial bend confirms them."
            .into(),
        source: "US: ANSI B11.15 (number from memory) and 29 CFR 1910.212; elsewhere the local rules",
    }];
    if let Some(last) = plan.program.steps.last() {
        cautions.push(Caution {
            text: "Clamp and pressure die are power presses. Keep hands out, start with both hands, keep guards, mat and stops \
                   working, and lock the power off before changing tooling."
                .into(),
            source: "Tube & Pipe Journal, September 2010; 29 CFR 1910.147",
        });
        cautions.push(Caution {
            text: format!(
                "The bend arm and the tube ahead of the die swing together; by the last bend up to {} of tube swings. Nobody \
                 stands or reaches inside the swing, and nobody holds the tube by hand.",
                length(plan, last.mark)
            ),
            source: "common practice, no source",
        });
        cautions.push(Caution {
            text: "The tube springs when the clamp opens. Its ends are sharp and may be hot.".into(),
            source: "common practice, no source",
        });
    }
    cautions.extend(metal(Metal::of_plan(plan, shop)));
    cautions.push(Caution {
        text: "A leaking exhaust carries carbon monoxide into the cabin: test every joint before the engine runs for long, and \
               never run it indoors."
            .into(),
        source: "29 CFR 1910.1000: 50 ppm over 8 hours; local limits may be lower",
    });
    cautions
}

impl Metal {
    /// The metal of a plan's tube.
    fn of_plan(plan: &Plan, shop: &Shop) -> Self {
        Self::of(&plan.part.tube.material, shop.material(&plan.part.tube.material))
    }
}

/// What welding or working this metal gives off.
fn metal(metal: Metal) -> Vec<Caution> {
    let every = Caution {
        text: "All welding fume harms: extract it at the arc or protect your breathing, outdoors too.".into(),
        source: "HSE bulletin STSU1-2019",
    };
    let chromium = Caution {
        text: "Welding stainless makes fume that holds hexavalent chromium, which causes cancer: extract it and keep below the \
               local limit."
            .into(),
        source: "29 CFR 1910.1026: 5 µg/m³ over 8 hours; UK EH40: 10 µg/m³",
    };
    let titanium = Caution {
        text: "Titanium chips and dust burn fiercely: keep them wet or apart, and away from sparks.".into(),
        source: "from memory",
    };
    match metal {
        Metal::Stainless => vec![chromium, every],
        Metal::Titanium => vec![titanium, every],
        // What is not known may hold chromium.
        Metal::Unknown => vec![
            Caution { text: format!("If this metal holds chromium: {}", lower_first(&chromium.text)), ..chromium },
            every,
        ],
        Metal::Steel | Metal::Aluminium => vec![every],
    }
}

fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().into_iter().flat_map(char::to_lowercase).chain(letters).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::plan::plan;
    use crate::specimen::{self, row};

    fn text(material: &str) -> String {
        let shop = specimen::shop();
        let mut part = specimen::part(vec![row(300.0, 0.0, 90.0)], 400.0).unwrap();
        part.tube = part.tube.of_material(material);
        let cautions = of(&plan(&part, &shop).unwrap(), &shop);
        cautions.iter().map(|caution| caution.text.clone()).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn press_swing_and_monoxide_are_always_named() {
        for material in ["304 stainless", "mild steel", "titanium grade 2", "unobtainium"] {
            let text = text(material);
            for word in ["power presses", "swing", "carbon monoxide", "local law", "All welding fume"] {
                assert!(text.contains(word), "{material}: {word}");
            }
        }
    }

    #[test]
    fn chromium_is_named_where_it_is() {
        assert!(text("304 stainless").contains("Welding stainless"));
        assert!(text("unobtainium").contains("If this metal holds chromium"));
        assert!(!text("mild steel").contains("chromium"));
    }
}
