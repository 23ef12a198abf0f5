//! A change to a die set, as the fields of it and of its clamps make it.

use elbowroom_bending::{Basis, DieSet, DieSetFigures, ShopEdit};

use super::model::Model;

/// What figures rest on that somebody has ticked as the shop's own, or not.
pub(super) const fn basis(is_own: bool) -> Basis {
    if is_own { Basis::Shop } else { Basis::CommonPractice }
}

/// The die set with a change. One that is called by its sizes goes on being called so.
pub(super) fn changed(model: &Model, die: &DieSet, change: &dyn Fn(&mut DieSetFigures)) -> ShopEdit {
    let name = die.name.clone();
    let mut to = die.clone().into_figures();
    change(&mut to);
    let called_so = DieSetFigures::usual_name(die.od, die.clr);
    let calls_now = DieSetFigures::usual_name(to.od, to.clr);
    let by_size = name == called_so || name.strip_prefix(&called_so).is_some_and(|number| number.starts_with(" ("));
    if by_size && to.name == name && calls_now != called_so && to.od.is_finite() && to.clr.is_finite() {
        to.name = model.shop.free_die_name(&calls_now).into_owned();
    }
    ShopEdit::ChangeDie { name, to }
}
