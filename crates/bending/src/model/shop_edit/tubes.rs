//! Tubes taken into stock, changed and taken out. A tube is known by what it is: the same one is in stock once.

use elbowroom_geometry::Refusal;

use crate::model::guarded::Guard;
use crate::model::shop::Shop;
use crate::model::tube::{Tube, TubeFigures};

pub(super) fn add(shop: &mut Shop, tube: &TubeFigures) -> Result<(), Refusal> {
    let tube = new(shop, tube)?;
    shop.tubes.push(tube);
    Ok(())
}

pub(super) fn change(shop: &mut Shop, was: &Tube, to: &TubeFigures) -> Result<(), Refusal> {
    let place = place(shop, was)?;
    if **was != *to {
        shop.tubes[place] = new(shop, to)?;
    }
    Ok(())
}

pub(super) fn place(shop: &Shop, tube: &Tube) -> Result<usize, Refusal> {
    let place = shop.tubes.iter().position(|there| there == tube);
    place.ok_or_else(|| Refusal::new("the tube", "one that is not in stock", "one that the shop has"))
}

fn new(shop: &Shop, tube: &TubeFigures) -> Result<Tube, Refusal> {
    if tube.material.trim().is_empty() {
        return Err(Refusal::new("the material of the tube", "empty", "named, such as 304 stainless"));
    }
    let tube = tube.clone().sound()?;
    if shop.tubes.contains(&tube) {
        return Err(Refusal::new("the tube", "in stock already", "another size, material or seam"));
    }
    Ok(tube)
}
