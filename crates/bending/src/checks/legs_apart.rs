//! `legs-apart`: the legs of a U come off the machine further apart, or closer together, than they are drawn.

use elbowroom_geometry::Length;

use super::check::{About, Check, Drawing, Said, Tell};
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words, degrees};
use crate::Released;
use crate::forming::ground::Ground;

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "legs-apart",
    title: "Legs apart",
    severity: "A caution beyond the wider of its two limits, a note beyond the narrower.",
    summary: "The legs of a U come off the machine further apart than drawn, because its radius grows when it is let go.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Lengths("Legs apart as bent", "Legs apart at most or least"),
    run,
};

const MANUAL: &str = "\
What it looks for
  A bend from 150 to 210 degrees, a U, whose legs come to lie further apart than they are drawn, or closer
  together, once it has sprung back.

Why it matters
  A U goes back into a box, a flange or a hanger beside the one that it came from, and what it meets there
  is as far apart as the drawing says. The machine can make up for the angle that springs back. It cannot
  make up for the radius: a die bends one radius, and the released arc is a little wider. In other bends
  the straights give way; a U has none between its legs.

How it is measured
  Across the U, between the middles of its legs where the arc begins and ends: 2 CLR sin(half the angle),
  the chord of the arc, which is twice the radius at 180 degrees. Once as drawn, and once as the program
  lays the released tube: the arc keeps its length, so its radius grows to the die's radius times set angle
  over free angle, and its crown is held where it is drawn. From 150 to 170 degrees the program goes over
  from holding the vertex to holding the crown, and the legs move little.

Limit and its source
  The general tolerances of ISO 2768-1 for the spacing as drawn, from memory of the table: beyond the
  coarse class (0.8 mm from 30 to 120 mm, 1.2 mm to 400 mm, 2 mm to 1000 mm) it is worth knowing, beyond
  the very coarse class (1.5, 2.5 and 4 mm) it is a caution. Where the springback rests on theory it is a
  note at most, because theory is only a start.

Example
  A U of 180 degrees on a 90.5 mm die, springback of 1 degree and 0.025 of the set angle: it is set to
  185.6 degrees, the released radius is 93.3 mm, and legs drawn 181.0 mm apart come 186.7 mm apart.

Cure and its risk
  Let what the legs go to follow: set box, flange or hanger by the spacing as bent, which the report
  gives. Or type another spacing: the radius follows, and the program says whether a die of the shop has it.
  A U of two bends with a straight between them can be set to any spacing, and needs that straight to be as
  long as the clamp. Do not spring the legs together to fit: what is welded in under strain cracks at the weld.

Caution
  A tube that is forced to fit jumps when it is cut or comes loose. Keep face and hands out of its way.
";

/// General tolerances of ISO 2768-1 for linear dimensions, from memory of the table: up to so many mm the coarse class
/// and the very coarse class leave so many mm either way.
const TOLERANCES_MM: [(f64, f64, f64); 5] =
    [(30.0, 0.5, 1.0), (120.0, 0.8, 1.5), (400.0, 1.2, 2.5), (1000.0, 2.0, 4.0), (2000.0, 3.0, 6.0)];
/// The same beyond the sizes of the table.
const BEYOND_MM: (f64, f64) = (4.0, 8.0);

/// What is worth knowing and what misses, for a spacing of legs.
fn tolerances(spacing: Length) -> [Length; 2] {
    let listed = TOLERANCES_MM.iter().find(|(up_to, ..)| spacing.mm() <= *up_to);
    let (coarse, very_coarse) = listed.map_or(BEYOND_MM, |(_, coarse, very_coarse)| (*coarse, *very_coarse));
    [coarse, very_coarse].map(Length::from_mm)
}

/// Legs that come off elsewhere than drawn. The spacing as bent is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// The bend, by its number.
    bend: u32,
    /// The spacing as drawn.
    drawn: Length,
    /// How much further apart they come; negative where closer together.
    off: Length,
    /// How far off such work may be either way.
    allowed: Length,
    /// The angle that the bend has to be set to, radians.
    set_angle_rad: f64,
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    for (index, made) in subject.solved.bends.iter().enumerate() {
        let Some(released) = made.formed.as_ref().and_then(|formed| formed.released) else { continue };
        if let Some((facts, evidence)) = found(subject, index, &released) {
            tell(facts, evidence);
        }
    }
}

fn found(subject: &Subject, index: usize, released: &Released) -> Option<(Facts, Evidence)> {
    let spacing = released.leg_spacing()?;
    let off = spacing.bent - spacing.drawn;
    let [worth_knowing, misses] = tolerances(spacing.drawn);
    let (allowed, measured) = if off.abs() > misses {
        (misses, Severity::Caution)
    } else if off.abs() > worth_knowing {
        (worth_knowing, Severity::Note)
    } else {
        return None;
    };
    let facts = Facts {
        fault: CHECK.fault,
        severity: measured.by_springback(released.basis),
        place: subject.arc_place(index),
        also: Vec::new(),
        measured: spacing.bent.mm(),
        limit: if off > Length::ZERO { spacing.drawn + allowed } else { spacing.drawn - allowed }.mm(),
        unit: Unit::Millimetre,
        measured_basis: Some(released.basis.into()),
        limit_basis: Some(Ground::Memory),
    };
    let set_angle_rad = released.set_angle_rad;
    Some((facts, Evidence { bend: subject.number(index), drawn: spacing.drawn, off, allowed, set_angle_rad }))
}

impl Evidence {
    /// How far and to which side the legs are off, in words.
    fn off(&self, facts: &Facts, words: &Words) -> String {
        let side = if self.off > Length::ZERO { "further apart" } else { "closer together" };
        format!("{} {side}", words.length(self.off.abs().mm()).resting(facts.measured_basis))
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let ground = facts.measured_basis;
        format!(
            "Bend {}: the legs are drawn {} apart and come {} apart, {}; {} either way is what such work is allowed (set \
             {}, {}).",
            self.bend,
            words.length(self.drawn.mm()),
            words.length(facts.measured).resting(ground),
            self.off(facts, words),
            words.length(self.allowed.mm()).resting(facts.limit_basis),
            degrees(self.set_angle_rad).resting(ground),
            ground.map_or("", Ground::said),
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let legs = format!("the legs of bend {} come {} than drawn", self.bend, self.off(facts, words));
        match facts.severity {
            Severity::Note => format!("Bends as drawn; {legs}."),
            Severity::Caution | Severity::Stop => format!("Bends, but {legs}."),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::specimen::{self, judged, row};
    use crate::{Part, Shop, Told};
    use elbowroom_geometry::Angle;

    fn shop_by(a_deg: f64, b: f64) -> Shop {
        let mut shop = specimen::shop();
        shop.springback.push(specimen::own_line(&shop.die_sets[0], a_deg, b));
        shop
    }

    fn u(degrees: f64) -> Part {
        specimen::part(vec![row(300.0, 0.0, 45.0), row(300.0, 90.0, degrees)], 400.0).unwrap()
    }

    fn found(part: &Part, shop: &Shop) -> Option<Told> {
        judged(part, shop).findings.into_iter().find(|finding| finding.fault == CHECK.fault)
    }

    #[test]
    fn an_everyday_u_says_how_far_apart_its_legs_come() {
        // Set (180 + 1)/0.975 = 185.641°, so R = 76.2 × 185.641/180 = 78.588 mm: legs 157.176 mm apart, drawn 152.4.
        let finding = found(&u(180.0), &shop_by(1.0, 0.025)).unwrap();
        assert_eq!((finding.severity, finding.place.bend), (Severity::Caution, Some(1)));
        assert!((finding.measured - 157.176).abs() < 5e-4 && (finding.limit - 154.9).abs() < 1e-9);
        assert_eq!((finding.measured_basis, finding.limit_basis), (Some(Ground::Shop), Some(Ground::Memory)));
        for said in ["Bend 2: ", "drawn 152.4 mm apart", "come 157.2 mm apart", "4.8 mm further apart", "~2.5 mm"] {
            assert!(finding.text.contains(said), "{said}: {}", finding.text);
        }
    }

    #[test]
    fn it_is_as_grave_as_it_is_far() {
        // Twice the growth of the radius: 2 × 76.2 × b/(1 - b), against 1.2 and 2.5 mm.
        for (b, severity) in [
            (0.0, None),
            (0.0078, None),
            (0.0079, Some(Severity::Note)),
            (0.016, Some(Severity::Note)),
            (0.0162, Some(Severity::Caution)),
            (-0.0162, Some(Severity::Note)),
            (-0.03, Some(Severity::Caution)),
        ] {
            let finding = found(&u(180.0), &shop_by(0.0, b));
            assert_eq!(finding.as_ref().map(|finding| finding.severity), severity, "{b}");
            if let Some(finding) = finding {
                assert_eq!(finding.text.contains("closer together"), b < 0.0, "{}", finding.text);
            }
        }
    }

    #[test]
    fn theory_is_no_more_than_worth_knowing() {
        let mut shop = specimen::shop();
        specimen::change(&mut shop.materials[0], |metal| metal.yield_mpa[0].value = 1500.0);
        let finding = found(&u(180.0), &shop).unwrap();
        assert_eq!(finding.severity, Severity::Note);
        assert!(finding.text.contains("come ~") && finding.verdict.starts_with("Bends as drawn; "));
    }

    #[test]
    fn only_the_legs_of_a_u_have_a_spacing() {
        let mut shop = shop_by(2.0, 0.05);
        specimen::change_die(&mut shop, 0, |die| die.largest_angle = Angle::from_degrees(220.0));
        for degrees in [90.0, 145.0, 150.0, 211.0] {
            assert_eq!(found(&u(degrees), &shop), None, "{degrees}");
        }
        for degrees in [165.0, 170.0, 180.0, 185.0, 210.0] {
            assert!(found(&u(degrees), &shop).is_some(), "{degrees}");
        }
    }

    #[test]
    fn what_is_allowed_grows_with_the_spacing() {
        let allowed = |mm: f64| tolerances(Length::from_mm(mm)).map(Length::mm);
        assert_eq!(allowed(30.0), [0.5, 1.0]);
        assert_eq!(allowed(120.0), [0.8, 1.5]);
        assert_eq!(allowed(120.1), [1.2, 2.5]);
        assert_eq!(allowed(5000.0), [4.0, 8.0]);
    }
}
