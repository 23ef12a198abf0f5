//! How a selection follows the part through an edit: targets keep to what they were put on, by vertex or
//! row, and those that are gone drop out.

use elbowroom_bending::{Part, Path, Solved};
use elbowroom_geometry::{BendPath, HandleId};

use crate::Target;

/// What is needed to tell corners apart: one line of numbers for each vertex or row.
struct Corners {
    /// The numbers of each vertex (vertex form) or row (bend form).
    keys: Vec<[f64; 4]>,
    /// For each bend, the corner it sits at.
    of_bend: Vec<usize>,
    /// Whether the corners are vertices.
    vertices: bool,
}

impl Corners {
    fn of(part: &Part, solved: &Solved) -> Self {
        match &part.path {
            Path::Vertices(path) => Self {
                keys: path.points().iter().map(|point| [point.x, point.y, point.z, 0.0]).collect(),
                of_bend: solved.form.vertex_of_bend.clone(),
                vertices: true,
            },
            Path::Bends(path) => Self {
                keys: path
                    .rows()
                    .iter()
                    .map(|row| [row.straight.mm(), row.rotation.radians(), row.angle.radians(), row.clr.mm()])
                    .collect(),
                of_bend: (0..path.rows().len()).collect(),
                vertices: false,
            },
        }
    }

    fn bend_at(&self, corner: usize) -> Option<usize> {
        self.of_bend.binary_search(&corner).ok()
    }
}

/// Leads from the targets of one part to those of another.
pub(crate) struct Follow {
    before: Corners,
    after: Corners,
    /// For each corner before, the same corner after.
    moved_to: Vec<Option<usize>>,
    turned_round: bool,
}

impl Follow {
    /// From a part to the part that an edit, or taking one back, made of it.
    pub fn new(before: (&Part, &Solved), after: (&Part, &Solved)) -> Self {
        let turned_round = is_turned_round(&before.1.form.path, &after.1.form.path);
        let (before, after) = (Corners::of(before.0, before.1), Corners::of(after.0, after.1));
        let count = before.keys.len();
        let moved_to = if before.vertices != after.vertices {
            // Another form of the same path: bends keep their numbers, and the corners follow them.
            (0..count).map(|corner| after.of_bend.get(before.bend_at(corner)?).copied()).collect()
        } else if turned_round && count == after.keys.len() {
            (0..count).rev().map(Some).collect()
        } else {
            matched(&before.keys, &after.keys)
        };
        Self { before, after, moved_to, turned_round }
    }

    /// The same target after the edit; `None` where it is gone.
    pub fn target(&self, target: Target) -> Option<Target> {
        match target {
            Target::Bend(bend) => self.corner(*self.before.of_bend.get(bend)?),
            Target::Vertex(vertex) if self.before.vertices => self.corner(vertex),
            Target::Vertex(_) => None,
            Target::Straight(straight) => self.straight(straight).map(Target::Straight),
            Target::Handle(handle) => self.handle(handle).map(Target::Handle),
        }
    }

    /// The bends and vertices that were put in between those of before; none where others are gone, or
    /// where the path has taken another form.
    pub fn newcomers(&self) -> Vec<Target> {
        if self.before.vertices != self.after.vertices || self.moved_to.iter().any(Option::is_none) {
            return Vec::new();
        }
        let mut fresh = vec![true; self.after.keys.len()];
        self.moved_to.iter().flatten().for_each(|&corner| fresh[corner] = false);
        let corners = fresh.into_iter().enumerate().filter(|(_, fresh)| *fresh);
        corners.filter_map(|(corner, _)| self.target_at(corner)).collect()
    }

    fn corner(&self, corner: usize) -> Option<Target> {
        self.target_at((*self.moved_to.get(corner)?)?)
    }

    fn target_at(&self, corner: usize) -> Option<Target> {
        let last = self.after.keys.len().checked_sub(1)?;
        match self.after.bend_at(corner) {
            Some(bend) => Some(Target::Bend(bend)),
            None if !self.after.vertices => None,
            None if corner == 0 => Some(Target::Handle(HandleId::Start)),
            None if corner == last => Some(Target::Handle(HandleId::Finish)),
            None => Some(Target::Vertex(corner)),
        }
    }

    fn bend(&self, bend: usize) -> Option<usize> {
        match self.target(Target::Bend(bend))? {
            Target::Bend(bend) => Some(bend),
            _ => None,
        }
    }

    /// A straight is known by the bend before it, the first one by the lead end.
    fn straight(&self, straight: usize) -> Option<usize> {
        let bends = self.before.of_bend.len();
        if straight > bends {
            None
        } else if self.turned_round {
            Some(bends - straight)
        } else if straight == 0 {
            Some(0)
        } else {
            self.bend(straight - 1).map(|bend| bend + 1)
        }
    }

    fn handle(&self, handle: HandleId) -> Option<HandleId> {
        let turned = self.turned_round;
        Some(match handle {
            HandleId::Start if turned => HandleId::Finish,
            HandleId::Finish if turned => HandleId::Start,
            HandleId::Start | HandleId::Finish => handle,
            HandleId::Vertex(bend) => HandleId::Vertex(self.bend(bend)?),
            HandleId::ArcStart(bend) if turned => HandleId::ArcEnd(self.bend(bend)?),
            HandleId::ArcEnd(bend) if turned => HandleId::ArcStart(self.bend(bend)?),
            HandleId::ArcStart(bend) => HandleId::ArcStart(self.bend(bend)?),
            HandleId::ArcEnd(bend) => HandleId::ArcEnd(self.bend(bend)?),
        })
    }
}

/// Whether one path is the other from its other end. Straights are compared to a micrometre and angles to
/// a microradian, far below anything a person tells apart.
fn is_turned_round(before: &BendPath, after: &BendPath) -> bool {
    let (old, new) = (before.rows(), after.rows());
    let straights = |path: &BendPath| {
        path.rows().iter().map(|row| row.straight.mm()).chain([path.tail().mm()]).collect::<Vec<f64>>()
    };
    old.len() == new.len()
        && before.start().tangent != after.start().tangent
        && old
            .iter()
            .zip(new.iter().rev())
            .all(|(a, b)| (a.angle - b.angle).radians().abs() < 1e-6 && (a.clr - b.clr).mm().abs() < 1e-3)
        && straights(before).iter().zip(straights(after).iter().rev()).all(|(a, b)| (a - b).abs() < 1e-3)
}

/// For each corner before the same one after: all of them where their number is the same, else those of
/// the longest common head and tail.
fn matched(before: &[[f64; 4]], after: &[[f64; 4]]) -> Vec<Option<usize>> {
    let (old, new) = (before.len(), after.len());
    if old == new {
        return (0..old).map(Some).collect();
    }
    let head = before.iter().zip(after).take_while(|(a, b)| a == b).count();
    let room = old.min(new) - head;
    let tail = before.iter().rev().zip(after.iter().rev()).take(room).take_while(|(a, b)| a == b).count();
    let place = |corner: usize| {
        if corner < head {
            Some(corner)
        } else if corner + tail >= old {
            Some(corner + new - old)
        } else {
            None
        }
    };
    (0..old).map(place).collect()
}
