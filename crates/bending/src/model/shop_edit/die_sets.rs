//! Die sets taken in, changed and taken out. What was found out on one goes by its name, and so along with it.

use std::borrow::Cow;

use elbowroom_geometry::{Angle, Length, Refusal};

use super::named::named;
use crate::model::ground::Basis;
use crate::model::guarded::Guard;
use crate::model::shop::{ClampFigures, DieSet, DieSetFigures, Shop};

pub(super) fn add(shop: &mut Shop, die: &DieSetFigures) -> Result<(), Refusal> {
    named("the name of the die set", &die.name)?;
    let die = die.clone().sound()?;
    shop.die_sets.change(|dies| dies.push(die))
}

pub(super) fn change(shop: &mut Shop, name: &str, to: &DieSetFigures) -> Result<(), Refusal> {
    named("the name of the die set", &to.name)?;
    let (place, die) = (place(shop, name)?, to.clone().sound()?);
    let now = die.name.clone();
    shop.die_sets.change(|dies| dies[place] = die)?;
    for record in shop.springback.iter_mut().filter(|record| record.die == name) {
        record.change(|record| record.die.clone_from(&now))?;
    }
    Ok(())
}

pub(super) fn remove(shop: &mut Shop, names: &[String]) -> Result<(), Refusal> {
    for name in names {
        place(shop, name)?;
    }
    let goes = |name: &str| names.iter().any(|gone| gone == name);
    shop.die_sets.change(|dies| dies.retain(|die| !goes(&die.name)))?;
    shop.springback.retain(|record| !goes(&record.die));
    Ok(())
}

fn place(shop: &Shop, name: &str) -> Result<usize, Refusal> {
    let place = shop.die_sets.iter().position(|die| die.name == name);
    place.ok_or_else(|| Refusal::new("the die set", format!("\"{name}\""), "one that the shop has"))
}

impl DieSetFigures {
    /// What a die set for such tube commonly is, to begin from: clamps of about 1, 1.6 and 2.5 times the outside
    /// diameter in steps of 5 mm, proved to 45°, 90° and 180°, a bite of 0.3 mm that leaves no mark and of 2 mm on which a
    /// clamp no longer closes. Common practice, no source.
    pub fn usual(od: Length, clr: Length) -> Self {
        let length = |diameters: f64| Length::from_mm(((od.mm() * diameters / 5.0).round() * 5.0).max(5.0));
        let mut clamps: Vec<ClampFigures> = Vec::new();
        for (diameters, proved) in [(1.0, 45.0), (1.6, 90.0), (2.5, 180.0)] {
            let length = length(diameters);
            let clamp = ClampFigures {
                length,
                proved_angle: Angle::from_degrees(proved),
                basis: Basis::CommonPractice,
                proved_on: None,
            };
            // Of thin tube two come out alike.
            clamps.retain(|shorter| shorter.length != length);
            clamps.push(clamp);
        }
        Self {
            name: Self::usual_name(od, clr),
            od,
            clr,
            clamps: clamps.into_iter().filter_map(|clamp| clamp.sound().ok()).collect(),
            mark_free_bite: Length::from_mm(0.3),
            largest_bite: Length::from_mm(2.0),
            largest_angle: Angle::from_degrees(190.0),
            basis: Basis::CommonPractice,
        }
    }

    /// What a die set is called where nobody calls it otherwise, such as `50.8 on 76.2`.
    pub fn usual_name(od: Length, clr: Length) -> String {
        let plain = |length: Length| {
            let figure = format!("{:.2}", length.mm());
            figure.trim_end_matches('0').trim_end_matches('.').to_owned()
        };
        format!("{} on {}", plain(od), plain(clr))
    }
}

impl Shop {
    /// A name for a die set that no other one has: the wanted one, or that with a number behind it.
    pub fn free_die_name<'a>(&self, wanted: &'a str) -> Cow<'a, str> {
        let is_free = |name: &str| self.die_named(name).is_none();
        if is_free(wanted) {
            return Cow::Borrowed(wanted);
        }
        let numbered = (2..).map(|number: u32| format!("{wanted} ({number})")).find(|name| is_free(name));
        numbered.map_or(Cow::Borrowed(wanted), Cow::Owned)
    }

    /// A copy of a die set under a name that is free.
    pub fn copy_of(&self, die: &DieSet) -> DieSetFigures {
        let name = self.free_die_name(&die.name).into_owned();
        DieSetFigures { name, ..DieSetFigures::clone(die) }
    }
}
