//! The paints of the current theme, mixed once and shared by everything that wears them.

use bevy::platform::collections::HashMap;
use bevy::prelude::*;
use elbowroom_bending::Severity;
use elbowroom_workbench::{Palette, Theme, palette};

use super::{Floor, Grain, Lit, Paint, repeat_mm};
use crate::camera::{Eye, View};
use crate::{Desk, SceneArea};

/// What wears a paint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Wearer {
    /// A stretch of tube.
    Stretch(Option<Severity>, Lit),
    /// The ring at an end of a stop.
    Ring,
    /// The bright line along that ring.
    RingLine,
    /// A cut face.
    EndFace,
    /// A handle, and whether one sees through it.
    Handle(Lit, bool),
    /// The clamp block.
    Clamp,
    /// The measured first-off.
    Ghost,
    /// The tube as a change would make it.
    Proposal,
    /// Something that stands around the tubes.
    Obstacle,
    /// A tube that is not worked on, and whether it is pointed at.
    OtherTube(bool),
}

/// The paints.
#[derive(Resource)]
pub struct Paints {
    by_wearer: HashMap<Wearer, Handle<Paint>>,
    /// The paint of the floor, which changes with the eye.
    pub floor: Handle<Floor>,
    mixed_for: Option<Theme>,
    grain: Grain,
}

impl FromWorld for Paints {
    fn from_world(world: &mut World) -> Self {
        let floor = world.resource_mut::<Assets<Floor>>().add(Floor::default());
        Self { by_wearer: HashMap::default(), floor, mixed_for: None, grain: Grain::default() }
    }
}

impl Paints {
    /// The paint for a wearer. Paints are mixed in [`follow_theme`], before anything wears them.
    pub fn of(&self, wearer: Wearer) -> Handle<Paint> {
        self.by_wearer.get(&wearer).cloned().unwrap_or_default()
    }

    fn mix(palette: &Palette, wearer: Wearer, grain: Grain) -> Paint {
        match wearer {
            Wearer::Stretch(severity, lit) => Paint::stretch(palette, severity, lit, grain),
            Wearer::RingLine => Paint::ring_line(palette),
            Wearer::Ring => Paint::ring(palette),
            Wearer::EndFace => Paint::end_face(palette),
            Wearer::Handle(lit, hollow) => Paint::handle(palette, lit, hollow),
            Wearer::Clamp => Paint::clamp(palette),
            Wearer::Ghost => Paint::ghost(palette),
            Wearer::Proposal => Paint::proposal(palette),
            Wearer::Obstacle => Paint::obstacle(palette),
            Wearer::OtherTube(hovered) => Paint::other_tube(palette, hovered),
        }
    }
}

fn wearers() -> impl Iterator<Item = Wearer> {
    let severities = [None, Some(Severity::Note), Some(Severity::Caution), Some(Severity::Stop)];
    let lights = [Lit::Plain, Lit::Hovered, Lit::Selected];
    let stretches = severities.into_iter().flat_map(move |severity| lights.map(|lit| Wearer::Stretch(severity, lit)));
    let handles = [false, true].into_iter().flat_map(move |hollow| lights.map(|lit| Wearer::Handle(lit, hollow)));
    let others = [false, true].map(Wearer::OtherTube);
    stretches.chain(handles).chain(others).chain([Wearer::Ring, Wearer::RingLine, Wearer::EndFace]).chain([
        Wearer::Clamp,
        Wearer::Ghost,
        Wearer::Proposal,
        Wearer::Obstacle,
    ])
}

/// Mixes the paints anew when the theme changes.
pub fn follow_theme(desk: Res<Desk>, mut paints: ResMut<Paints>, mut materials: ResMut<Assets<Paint>>) {
    let theme = desk.0.screen().theme;
    if paints.mixed_for == Some(theme) {
        return;
    }
    paints.mixed_for = Some(theme);
    for wearer in wearers() {
        let paint = Paints::mix(palette(theme), wearer, paints.grain);
        if let Some(worn) = paints.by_wearer.get(&wearer) {
            // The handle lives, so its place among the assets does.
            let _ = materials.insert(worn.id(), paint);
        } else {
            let handle = materials.add(paint);
            paints.by_wearer.insert(wearer, handle);
        }
    }
}

/// Makes the patterns of the marks as coarse as the eye is far from what it looks at.
pub fn follow_grain(
    desk: Res<Desk>,
    eye: Res<Eye>,
    area: Res<SceneArea>,
    mut paints: ResMut<Paints>,
    mut materials: ResMut<Assets<Paint>>,
) {
    let Some(pixel_mm) = View::new(&eye, &area).and_then(|view| view.pixel_mm(&eye.focus)) else { return };
    let grain = Grain::for_repeat(repeat_mm(desk.0.part().tube.od.mm()) / pixel_mm);
    if paints.grain == grain {
        return;
    }
    paints.grain = grain;
    let theme = desk.0.screen().theme;
    for wearer in wearers().filter(|wearer| matches!(wearer, Wearer::Stretch(Some(_), _))) {
        if let Some(worn) = paints.by_wearer.get(&wearer) {
            // The handle lives, so its place among the assets does.
            let _ = materials.insert(worn.id(), Paints::mix(palette(theme), wearer, grain));
        }
    }
}
