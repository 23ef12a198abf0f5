//! `stretch-beyond-material`: the outside of a bend is drawn out further than the material is known to give.

use elbowroom_geometry::Length;

use super::check::{About, Check, Drawing, Said, Tell};
use super::cure::Cures;
use super::cures::larger_radius;
use super::finding::{Facts, Severity, Unit};
use super::subject::Subject;
use super::words::{Marked, Words, percent};
use crate::model::nearly::SAME_SHARE;
use crate::forming::ground::Ground;
use crate::forming::wall::outer_stretch;
use crate::material::{Figure, Material};
use crate::{Part, Shop};

/// The check.
pub(super) const CHECK: Check<Evidence> = Check {
    fault: "stretch-beyond-material",
    title: "Stretch beyond the material",
    severity: "A stop, a caution or a note, by how far the figures that are known of the material are exceeded.",
    summary: "The outside of a bend is stretched further than the material's elongation at break.",
    manual: MANUAL,
    about: About::Rest,
    drawing: Drawing::Section,
    run,
};

/// A bend in everyday use is stretched up to so many times the elongation of a straight test piece: it is held by
/// mandrel and dies, and a test piece is not. Common practice, no source.
const EVERYDAY: f64 = 1.5;

/// So many times every elongation known no tool makes up for. Common practice, no source.
const HOPELESS: f64 = 2.0;

const MANUAL: &str = "\
What it looks for
  A bend whose outer fibre is stretched more than the lowest elongation at break that is known of the
  material.

Why it matters
  Metal that is drawn out beyond what it gives necks and cracks at the outside of the bend.

How it is measured
  The stretch of the outer fibre is OD/2R (\"Pe = ( Ro / R ) - 1\", a published shop formula), with the
  neutral line on the centreline. It is compared with the elongation at break of a straight test piece.
  Both are rough. Elongation is a mean over 50 or 80 mm with the neck in it, and the metal beside the neck
  gives more than that. A pressure die that pushes takes some of the stretch away, and the neutral line
  lies a little inside the centreline, which adds some.

Limit and its source
  Every elongation that the material library knows, each with its source; look at the forming sheet. It is
  that of a tensile strip, not of a bend on a mandrel, so more than the lowest is a note: tube is bent so every
  day. More than one and a half times the lowest is a caution, more than twice the highest a stop. Both are
  common practice, no source. What the shop has bent in this material without a crack, by its own records,
  takes their place: nothing is said up to there. Beyond it a bend is judged as if there were no record, since
  a gentle bend that held says nothing against a tighter one. Of a material that the library does not know
  nothing can be said.

Example
  50.8 mm tube on a radius of 76.2 mm is stretched by 33.3 %. 304 stainless gives 40 % at the least and
  passes. Aluminised steel gives 30 %: a note. 6063-T6 aluminium gives 12 %: a stop.

Cure and its risk
  A larger radius, which takes more room. A softer temper of the same metal, bent and then hardened again
  by somebody who knows how. A push on the pressure die helps by a few per cent.

Caution
  A tube that breaks in the bender lets go at once, with the force of the press behind it. Try a doubtful
  bend on scrap, guards closed, with nobody inside the swing.
";

/// A bend that is stretched so far. The stretch is what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Evidence {
    /// The bend, by its number.
    bend: u32,
    /// The stretch, as a share.
    stretch: f64,
    /// What the shop has bent without a crack, as a share.
    proved: Option<f64>,
    /// The same where it is more than the test piece gives, so that it is the limit.
    stands: Option<f64>,
}

/// What is known of the elongation at break of a part's material.
struct Known<'a> {
    material: &'a Material,
    lowest: &'a Figure,
    highest: &'a Figure,
}

impl<'a> Known<'a> {
    fn of(part: &Part, shop: &'a Shop) -> Option<Self> {
        let material = shop.material(&part.tube.material)?;
        let by_value = |a: &&Figure, b: &&Figure| a.value.total_cmp(&b.value);
        let figures = &material.elongation_percent;
        let (lowest, highest) = (figures.iter().min_by(by_value)?, figures.iter().max_by(by_value)?);
        Some(Self { material, lowest, highest })
    }

    /// The figures in words, from the lowest to the highest.
    fn gives(&self) -> [String; 2] {
        let share = |figure: &Figure| percent(figure.value / 100.0).resting_on(figure.certainty);
        let is_range = self.highest.value > self.lowest.value;
        let up_to = if is_range { format!(" to {}", share(self.highest)) } else { String::new() };
        [share(self.lowest).to_string(), up_to]
    }
}

fn run(subject: &Subject, tell: Tell<Evidence>) {
    let tube = &subject.part.tube;
    let Some(Known { lowest, highest, .. }) = Known::of(subject.part, subject.shop) else { return };
    let least = lowest.value / 100.0;
    for (index, made) in subject.solved.bends.iter().enumerate() {
        let Some(formed) = &made.formed else { continue };
        let stretch = formed.outer_stretch();
        if stretch <= least + SAME_SHARE {
            continue;
        }
        let proved = subject.die_of(made).and_then(|die| subject.shop.proved_stretch(&tube.material, die));
        if proved.is_some_and(|proved| stretch <= proved + SAME_SHARE) {
            continue;
        }
        let is_hopeless = stretch * 100.0 > HOPELESS * highest.value + SAME_SHARE;
        let severity = if is_hopeless {
            Severity::Stop
        } else if stretch > EVERYDAY * least + SAME_SHARE {
            Severity::Caution
        } else {
            Severity::Note
        };
        // What has proved itself here stands where it is more than the test piece gives.
        let stands = proved.filter(|proved| *proved > least);
        let facts = Facts {
            fault: CHECK.fault,
            severity,
            place: subject.arc_place(index),
            also: Vec::new(),
            measured: stretch * 100.0,
            limit: stands.map_or(lowest.value, |proved| proved * 100.0),
            unit: Unit::Percent,
            measured_basis: Some(Ground::Published),
            limit_basis: Some(stands.map_or(lowest.certainty.into(), |_| Ground::Shop)),
        };
        tell(facts, Evidence { bend: subject.number(index), stretch, proved, stands });
    }
}

impl Said for Evidence {
    fn text(&self, facts: &Facts, words: &Words) -> String {
        let (bend, stretch) = (self.bend, percent(self.stretch));
        let known = Known::of(words.part, words.shop);
        let [gives, up_to] = known.as_ref().map_or_else(Default::default, Known::gives);
        let (material, source) =
            known.map_or(("the material", ""), |known| (known.material.name.as_str(), known.lowest.source.as_str()));
        let told = match self.proved {
            Some(proved) => format!("; this shop has bent up to {} without a crack", percent(proved)),
            None if facts.severity == Severity::Note => {
                " as a tensile strip; a bend on a mandrel is held and mostly takes it, so try one on scrap".into()
            }
            None => String::new(),
        };
        format!(
            "Bend {bend}: the outside is stretched by {stretch}, and {material} gives {gives}{up_to} before it breaks \
             ({source}){told}."
        )
    }

    fn verdict(&self, facts: &Facts, words: &Words) -> String {
        let (bend, stretch) = (self.bend, percent(self.stretch));
        let [gives, up_to] = Known::of(words.part, words.shop).as_ref().map_or_else(Default::default, Known::gives);
        match (facts.severity, self.stands) {
            (Severity::Stop, _) => format!(
                "Cannot be bent as drawn: bend {bend} is stretched by {stretch}, and the material gives {gives}{up_to}."
            ),
            (Severity::Caution, Some(proved)) => format!(
                "Bends, but bend {bend} may crack: it is stretched by {stretch}, and the shop has proved {}.",
                percent(proved)
            ),
            (Severity::Caution, None) => format!(
                "Bends, but bend {bend} may crack: it is stretched by {stretch}, and the material gives {gives}{up_to}."
            ),
            (Severity::Note, _) => {
                format!("Bends as drawn; bend {bend} is stretched by {stretch}, more than the {gives} of a tensile strip.")
            }
        }
    }

    fn cures(&self, facts: &Facts, subject: &Subject) -> Option<Cures> {
        let least = Known::of(subject.part, subject.shop)?.lowest.value / 100.0;
        let enough = self.stands.unwrap_or(least);
        let suffices = |clr: Length| outer_stretch(subject.part.tube.od, clr) <= enough + SAME_SHARE;
        larger_radius(subject, facts.place.bend?, suffices).map(Cures::from)
    }
}
