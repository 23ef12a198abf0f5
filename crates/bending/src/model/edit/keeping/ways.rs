//! Ways in which the rest of a path gives way to an edit, tried from the one that changes least of it.

use elbowroom_geometry::{BendPath, Figure, Freedom, HANDLE_LIMIT, PathPlace, Pinned, VertexPath};

use super::asked::{Asked, Set};
use super::places::Places;
use crate::model::edit::rows::along;
use crate::model::keep::Hold;
use crate::model::nodes::NodeId;
use crate::model::part::Part;
use crate::model::path::Path;

/// The most rows that are changed on either side of an edit. What needs more of them is another drawing.
const FARTHEST_ROWS: usize = 64;

/// What was asked for is met to this, mm and radians: far below what is shown.
const AS_ASKED: f64 = 1e-7;

/// The path with everything held where it was and all that was asked for as it was asked for.
///
/// First the whole is moved, where its start is free. Then the straights near by change, those beside it, of one row on either
/// side, of two, of four; angles and rotations stay what they are, and so do the dies and the rest of the tube. Only where no straights
/// do it angles and rotations change as well.
pub(super) fn found(part: &Part, asked: &Asked, path: &Path, ids: &[NodeId]) -> Option<Path> {
    let (before, after) = (Places::of(part), Places::along(path, ids));
    let form = after.form();
    if !form.problems.is_empty() {
        return None;
    }
    let mut pinned: Vec<Pinned> = Vec::new();
    for (id, hold) in part.keep.held() {
        // What carries no bend lies on a leg between two that do.
        let Some(at) = after.along_the_form(*id) else { continue };
        pinned.push(before.lie(*id)?.pinned(at, *hold));
    }
    let start = part.keep.of(*ids.first()?);
    let mut places = Vec::new();
    for (id, point) in &asked.placed {
        let at = after.along_the_form(*id)?;
        places.push(at);
        let condition = Pinned { at, point: Some(*point), into: None, out_of: None };
        match pinned.iter_mut().find(|one| one.at == at) {
            Some(one) => one.point = Some(*point),
            None => pinned.push(condition),
        }
    }
    let rows = form.path.rows().len();
    let (fixed, around) = fixed(asked, &after, rows, &places);
    let moves = !start.place && !places.contains(&PathPlace::Start);
    let fits = |freedom: &Freedom| {
        let kept = form.path.keeping(&pinned, freedom)?;
        let there = in_the_form_of(path, &form.vertex_of_bend, kept)?;
        (is_kept(part, &before, &there, ids) && is_as_asked(&form.path, &there, &fixed)).then_some(there)
    };
    let rigid = Freedom { figures: &[], moves, turns: !start.direction };
    if let Some(there) = (moves || !start.direction).then(|| fits(&rigid)).flatten() {
        return Some(there);
    }
    let windows = || {
        let reaches = std::iter::once(0).chain((0..).map(|power| 1_usize << power));
        let reaches = reaches.take_while(|reach| *reach <= FARTHEST_ROWS);
        // The last one that is tried takes in all there is, and none after it anything more.
        let mut done = false;
        reaches.map_while(move |reach| {
            let (first, last) = (around.0.saturating_sub(reach), (around.1 + reach).min(rows));
            let is_last = std::mem::replace(&mut done, first == 0 && last == rows);
            (!is_last).then_some((first, last))
        })
    };
    let straights = |(first, last): (usize, usize)| (first..=last).map(Figure::Straight).collect::<Vec<_>>();
    let everything = |(first, last): (usize, usize)| {
        let bends = first..last.min(rows);
        let bends = bends.flat_map(|bend| [Figure::Rotation(bend), Figure::Angle(bend)]);
        straights((first, last)).into_iter().chain(bends).collect::<Vec<_>>()
    };
    let is_free =
        |figures: Vec<Figure>| figures.into_iter().filter(|figure| !fixed.contains(figure)).collect::<Vec<_>>();
    let stay = |figures: &[Figure]| fits(&Freedom { figures, moves: false, turns: false });
    windows()
        .find_map(|window| stay(&is_free(straights(window))))
        .or_else(|| windows().find_map(|window| stay(&is_free(everything(window)))))
        .or_else(|| {
            let figures = is_free(everything(windows().last()?));
            fits(&Freedom { figures: &figures, moves, turns: !start.direction })
        })
}

/// The figures that stay as they were asked for, and the first and last straight of what was edited.
fn fixed(asked: &Asked, after: &Places, rows: usize, places: &[PathPlace]) -> (Vec<Figure>, (usize, usize)) {
    let mut fixed = Vec::new();
    let mut around: Option<(usize, usize)> = None;
    let mut touch = |first: usize, last: usize| {
        around = Some(around.map_or((first, last), |(from, to)| (from.min(first), to.max(last))));
    };
    let straight_of = |id: NodeId| match after.along_the_form(id) {
        Some(PathPlace::Bend(bend)) => Some(bend),
        Some(PathPlace::Finish) => Some(rows),
        Some(PathPlace::Start) | None => None,
    };
    for set in &asked.set {
        match *set {
            Set::Straight(id) => {
                if let Some(straight) = straight_of(id) {
                    fixed.push(Figure::Straight(straight));
                    touch(straight, straight);
                }
            }
            Set::Rotation(id) | Set::Angle(id) => {
                if let Some(bend) = straight_of(id) {
                    let is_angle = matches!(set, Set::Angle(_));
                    fixed.push(if is_angle { Figure::Angle(bend) } else { Figure::Rotation(bend) });
                    touch(bend, bend + 1);
                }
            }
            Set::Around(id) => {
                if let Some(bend) = straight_of(id) {
                    touch(bend, bend + 1);
                }
            }
            Set::Rows { first, before, count } => {
                if let Some(at) = straight_of(first) {
                    let first = if before { at.saturating_sub(count) } else { at };
                    for bend in first..(first + count).min(rows) {
                        fixed.extend([Figure::Straight(bend), Figure::Rotation(bend), Figure::Angle(bend)]);
                    }
                    touch(first, first + count);
                }
            }
        }
    }
    for place in places {
        match *place {
            PathPlace::Start => touch(0, 0),
            PathPlace::Bend(bend) => touch(bend, bend + 1),
            PathPlace::Finish => touch(rows, rows),
        }
    }
    (fixed, around.unwrap_or((0, rows)))
}

/// A path that was found, in the form of the one that an edit has led to. Vertices that carry no bend keep their share of
/// the leg that they lie on. `None` where a bend has grown so large that it has no vertex to be drawn with.
fn in_the_form_of(path: &Path, vertex_of_bend: &[usize], found: BendPath) -> Option<Path> {
    let Path::Vertices(drawn) = path else { return Some(Path::Bends(found)) };
    let was_large = drawn.to_bend_form().path.rows().iter().any(|row| row.angle >= HANDLE_LIMIT);
    if !was_large && found.rows().iter().any(|row| row.angle >= HANDLE_LIMIT) {
        return None;
    }
    let corners = found.to_vertex_form().ok()?;
    let last = drawn.points().len().checked_sub(1)?;
    let at: Vec<usize> = std::iter::once(0).chain(vertex_of_bend.iter().copied()).chain([last]).collect();
    let mut points = drawn.points().to_vec();
    for (leg, pair) in at.windows(2).enumerate() {
        let was = [&drawn.points()[pair[0]], &drawn.points()[pair[1]]];
        let is = [&corners.points()[leg], &corners.points()[leg + 1]];
        for point in &mut points[pair[0] + 1..pair[1]] {
            *point = along(point, was, is);
        }
        (points[pair[0]], points[pair[1]]) = (*is[0], *is[1]);
    }
    VertexPath::new(points, drawn.clr().to_vec()).ok().map(Path::Vertices)
}

/// Whether no bend has come or gone and everything that was asked for is as it was asked for.
fn is_as_asked(asked: &BendPath, there: &Path, fixed: &[Figure]) -> bool {
    let now = there.bend_form().path;
    let straight_mm =
        |path: &BendPath, index: usize| path.rows().get(index).map_or(path.tail(), |row| row.straight).mm();
    let angle = |path: &BendPath, bend: usize| path.rows().get(bend).map(|row| row.angle.radians());
    let same = |figure: &Figure| match *figure {
        Figure::Straight(index) => (straight_mm(&now, index) - straight_mm(asked, index)).abs() < AS_ASKED,
        Figure::Angle(bend) => {
            angle(&now, bend).zip(angle(asked, bend)).is_some_and(|(now, asked)| (now - asked).abs() < AS_ASKED)
        }
        Figure::Rotation(_) => true,
    };
    now.rows().len() == asked.rows().len() && fixed.iter().all(same)
}

/// Whether everything held lies where it lay.
fn is_kept(part: &Part, before: &Places, there: &Path, ids: &[NodeId]) -> bool {
    let after = Places::along(there, ids);
    let lies = |(id, hold): &(NodeId, Hold)| {
        before.lie(*id).zip(after.lie(*id)).is_some_and(|(was, is)| was.is_kept(&is, *hold))
    };
    part.keep.held().iter().all(lies)
}
