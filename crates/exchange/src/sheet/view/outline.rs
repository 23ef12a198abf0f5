//! The outline of a tube in a parallel view: what is seen, what is hidden, its centreline, and where bends begin.
//!
//! A tube is what a ball of its radius r sweeps along the centreline. In a parallel view balls are discs of radius r, so the
//! outline lies r beside the centreline *as it is seen*, square to it (derived here): at C ± r (T × k)/|T × k|, T being the
//! direction of the tube and k that of sight, and as far away as C. Of a straight that is two straights. Of an arc, which is seen
//! as part of an ellipse, it is a curve that runs beside an ellipse, which is none itself. Where T points along k the whole
//! ring of the tube is outline. What other parts of the tube cover is found by looking along k from there.

use elbowroom_geometry::{Centreline, Element, ElementKind, Frame};

use super::cover::Cover;
use super::eye::{Eye, Seen};

/// A line in a view, mm of the tube, to the right and upwards.
pub type Line = Vec<[f64; 2]>;

/// What is drawn of a tube in a view.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outline {
    /// Visible outlines and end rings.
    pub visible: Vec<Line>,
    /// What is hidden of the end rings.
    pub hidden: Vec<Line>,
    /// Across the tube where a bend begins or ends, as far as it is seen.
    pub bend_lines: Vec<Line>,
    /// The centreline.
    pub centre: Line,
}

/// The largest turn of the direction of an outline between two of its places, radians.
const SMOOTH_RAD: f64 = 0.05;
/// How often a stretch is halved to become smooth, and to find where it vanishes.
const HALVINGS: usize = 14;
/// How nearly the tube points along the line of sight to count as doing so.
const ALONG_SIGHT: f64 = 1e-9;
/// How thick a wall is at least to be drawn by two lines, in what curves may stray: twice the width of a wide line.
const THIN_WALL: f64 = 70.0;
/// Sides of a ring.
const RING: usize = 72;

/// What outlines are worked out with.
struct Drawer<'a> {
    eye: &'a Eye,
    cover: &'a Cover,
    radius: f64,
    smooth_mm: f64,
    outline: Outline,
}

/// A place that a curve passes, and the frame of it that tells how it runs; `None` where the tube points along the sight.
type Curve<'a> = &'a dyn Fn(f64) -> Option<Seen>;

impl Outline {
    /// The outline of a tube of that outside diameter and wall, mm. Curves are within `smooth_mm` of what they stand for.
    pub fn of(centreline: &Centreline, eye: &Eye, sizes_mm: [f64; 2], smooth_mm: f64) -> Self {
        let mut cover = Cover::default();
        cover.add(centreline, eye, sizes_mm[0] / 2.0);
        Self::among(centreline, eye, sizes_mm, smooth_mm, &cover)
    }

    /// The same where other tubes cover it too. The cover holds the tube itself.
    pub fn among(
        centreline: &Centreline,
        eye: &Eye,
        [od_mm, wall_mm]: [f64; 2],
        smooth_mm: f64,
        cover: &Cover,
    ) -> Self {
        let radius_mm = od_mm / 2.0;
        let mut drawer = Drawer { eye, cover, radius: radius_mm, smooth_mm, outline: Self::default() };
        for element in centreline.elements().iter().filter(|element| element.length_mm > 0.0) {
            drawer.sides(element);
            drawer.centre(element);
            if let ElementKind::Arc { angle_rad, .. } = element.kind {
                drawer.rings_along_sight(element, angle_rad);
                drawer.bend_line(&element.start);
                drawer.bend_line(&element.end());
            }
        }
        let mut drawn = centreline.elements().iter().filter(|element| element.length_mm > 0.0);
        if let Some(first) = drawn.next() {
            let last = drawn.next_back().unwrap_or(first);
            let finish = last.end();
            // A wall that is thinner than its two lines is drawn as one.
            let bore = if wall_mm > THIN_WALL * smooth_mm { radius_mm - wall_mm } else { 0.0 };
            drawer.end(&Frame { tangent: -first.start.tangent, ..first.start }, bore);
            drawer.end(&finish, bore);
        }
        drawer.outline
    }

    /// Every line that is drawn in full.
    pub fn lines(&self) -> impl Iterator<Item = &Line> {
        self.visible.iter().chain(&self.hidden).chain(&self.bend_lines)
    }

    /// The least and the greatest of it, to the right and upwards, mm of the tube; `None` where there is no tube.
    pub fn extent(&self) -> Option<[[f64; 2]; 2]> {
        let mut places = self.lines().chain(std::iter::once(&self.centre)).flatten();
        let first = *places.next()?;
        Some(places.fold([first, first], |[least, most], place| {
            [[least[0].min(place[0]), least[1].min(place[1])], [most[0].max(place[0]), most[1].max(place[1])]]
        }))
    }
}

impl Drawer<'_> {
    /// Both outlines of a straight or an arc.
    fn sides(&mut self, element: &Element) {
        let steps = self.steps(element);
        for side in [-1.0, 1.0] {
            let beside = |share: f64| self.beside(&element.turned(share), side);
            let places = self.places(&beside, steps, element.kind != ElementKind::Straight);
            let seen = self.runs(&beside, &places, true);
            let straight = element.kind == ElementKind::Straight;
            let lines = seen.into_iter().map(|line| if straight { ends_of(&line) } else { line });
            self.outline.visible.extend(lines.collect::<Vec<_>>());
        }
    }

    /// The outline beside a frame, on one side.
    fn beside(&self, frame: &Frame, side: f64) -> Option<Seen> {
        let (at, way) = (self.eye.seen(&frame.origin), self.eye.turned(&frame.tangent));
        let length = way.x.hypot(way.y);
        if length < ALONG_SIGHT {
            return None;
        }
        let reach = side * self.eye.length(self.radius) / length;
        Some(Seen { x: at.x - way.y * reach, y: at.y + way.x * reach, near: at.near })
    }

    /// Into how many steps a straight or an arc is cut to begin with: so that an arc is smooth, and so that what covers a
    /// straight is not missed.
    fn steps(&self, element: &Element) -> usize {
        match element.kind {
            ElementKind::Straight => (element.length_mm / self.radius * 3.0).ceil().clamp(8.0, 400.0) as usize,
            ElementKind::Arc { radius_mm, angle_rad } => {
                let step = (8.0 * self.smooth_mm / (radius_mm + self.radius)).sqrt().min(0.1);
                (angle_rad / step).ceil().clamp(6.0, 400.0) as usize
            }
        }
    }

    /// Shares of an element at which its outline is looked at, finer where it turns fast.
    fn places(&self, curve: Curve, steps: usize, curved: bool) -> Vec<f64> {
        let mut places = vec![0.0];
        for step in 0..steps {
            let (from, to) = (step as f64 / steps as f64, (step + 1) as f64 / steps as f64);
            if curved {
                self.finer(curve, [from, to], HALVINGS, &mut places);
            }
            places.push(to);
        }
        places
    }

    fn finer(&self, curve: Curve, [from, to]: [f64; 2], halvings: usize, places: &mut Vec<f64>) {
        let (Some(a), Some(b)) = (curve(from), curve(to)) else { return };
        let far = (a.x - b.x).hypot(a.y - b.y);
        if halvings == 0 || far < self.eye.length(self.radius) * SMOOTH_RAD {
            return;
        }
        let half = (from + to) / 2.0;
        let off = curve(half)
            .map_or(f64::INFINITY, |middle| (middle.x - (a.x + b.x) / 2.0).hypot(middle.y - (a.y + b.y) / 2.0));
        if off > self.smooth_mm {
            self.finer(curve, [from, half], halvings - 1, places);
            places.push(half);
            self.finer(curve, [half, to], halvings - 1, places);
        }
    }

    /// The stretches of a curve that are seen, or those that are hidden.
    fn runs(&self, curve: Curve, places: &[f64], wanted: bool) -> Vec<Line> {
        let shows = |share: f64| curve(share).filter(|seen| self.cover.hides(*seen) != wanted);
        let mut lines: Vec<Line> = Vec::new();
        let mut open = false;
        let mut last: Option<(f64, bool)> = None;
        for &share in places {
            let shown = shows(share);
            if let Some((before, was)) = last
                && was != shown.is_some()
                && curve(before).is_some()
                && curve(share).is_some()
            {
                // Where it vanishes or comes out.
                let (mut seen, mut gone) = if was { (before, share) } else { (share, before) };
                for _ in 0..HALVINGS {
                    let half = (seen + gone) / 2.0;
                    if shows(half).is_some() { seen = half } else { gone = half }
                }
                if let Some(edge) = shows(seen) {
                    if was {
                        push(&mut lines, edge);
                    } else {
                        lines.push(vec![[edge.x, edge.y]]);
                        open = true;
                    }
                }
            }
            last = Some((share, shown.is_some()));
            match shown {
                Some(seen) if open => push(&mut lines, seen),
                Some(seen) => {
                    lines.push(vec![[seen.x, seen.y]]);
                    open = true;
                }
                None => open = false,
            }
        }
        lines.retain(|line| line.len() > 1);
        lines
    }

    /// The ring of the tube where an arc points along the line of sight, which is outline all round.
    fn rings_along_sight(&mut self, element: &Element, angle_rad: f64) {
        let start = element.start;
        if self.eye.towards(&start.binormal()).abs() > ALONG_SIGHT {
            return;
        }
        let first = self.eye.towards(&start.normal).atan2(self.eye.towards(&start.tangent));
        for turn in [first, first + std::f64::consts::PI, first - std::f64::consts::PI] {
            if (-ALONG_SIGHT..=angle_rad + ALONG_SIGHT).contains(&turn) {
                let frame = element.turned((turn / angle_rad).clamp(0.0, 1.0));
                let seen = self.ring(&frame, self.radius, true);
                self.outline.visible.extend(seen);
            }
        }
    }

    /// What is seen, or hidden, of a ring square to a frame.
    fn ring(&self, frame: &Frame, radius: f64, wanted: bool) -> Vec<Line> {
        let on_ring = |share: f64| {
            let (sin, cos) = (share * std::f64::consts::TAU).sin_cos();
            Some(self.eye.seen(&(frame.origin + (frame.normal * cos + frame.binormal() * sin) * radius)))
        };
        let places: Vec<f64> = (0..=RING).map(|side| side as f64 / RING as f64).collect();
        self.runs(&on_ring, &places, wanted)
    }

    /// An end of the tube, its frame pointing outwards: its ring, the hidden part dashed, and the bore where it is looked into.
    fn end(&mut self, frame: &Frame, bore: f64) {
        /// How nearly an end is seen from its side to be a line.
        const FROM_THE_SIDE: f64 = 0.01;
        let facing = self.eye.towards(&frame.tangent);
        let seen = self.ring(frame, self.radius, true);
        self.outline.visible.extend(seen);
        if facing < -FROM_THE_SIDE {
            let hidden = self.ring(frame, self.radius, false);
            self.outline.hidden.extend(hidden);
        }
        if facing > FROM_THE_SIDE && bore > 0.0 {
            let seen = self.ring(frame, bore, true);
            self.outline.visible.extend(seen);
        }
    }

    /// The half of a ring that faces the eye, where a bend begins or ends, short of the outline as ISO 128 wants it.
    fn bend_line(&mut self, frame: &Frame) {
        const SHORT_OF_OUTLINE: f64 = 0.12;
        let (normal, binormal) = (frame.normal, frame.binormal());
        let nearest = self.eye.towards(&binormal).atan2(self.eye.towards(&normal));
        if self.eye.towards(&frame.tangent).abs() > 0.99 {
            return;
        }
        let half = std::f64::consts::FRAC_PI_2 * (1.0 - SHORT_OF_OUTLINE);
        let across = |share: f64| {
            let (sin, cos) = (nearest + half * (2.0 * share - 1.0)).sin_cos();
            Some(self.eye.seen(&(frame.origin + (normal * cos + binormal * sin) * self.radius)))
        };
        let places: Vec<f64> = (0..=RING / 4).map(|side| side as f64 / (RING / 4) as f64).collect();
        let seen = self.runs(&across, &places, true);
        self.outline.bend_lines.extend(seen);
    }

    /// The centreline of a straight or an arc.
    fn centre(&mut self, element: &Element) {
        let steps = if element.kind == ElementKind::Straight { 1 } else { self.steps(element) };
        for step in 0..=steps {
            let at = self.eye.seen(&element.turned(step as f64 / steps as f64).origin);
            if self.outline.centre.last() != Some(&[at.x, at.y]) {
                self.outline.centre.push([at.x, at.y]);
            }
        }
    }
}

fn push(lines: &mut [Line], seen: Seen) {
    if let Some(line) = lines.last_mut() {
        line.push([seen.x, seen.y]);
    }
}

/// The two ends of a straight line.
fn ends_of(line: &Line) -> Line {
    line.first().into_iter().chain(line.last()).copied().collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use elbowroom_bending::specimen::{part, part_along, row_at, shop};
    use elbowroom_bending::{Part, Path, solve};
    use elbowroom_geometry::{Point3, VertexPath};
    use proptest::prelude::*;

    use super::*;

    fn solved_centreline(part: &Part) -> Centreline {
        solve(part, &shop()).centreline.clone()
    }

    fn of(rows: Vec<elbowroom_geometry::BendRow>, tail: f64, eye: &Eye) -> Outline {
        Outline::of(&solved_centreline(&part(rows, tail).unwrap()), eye, [50.0, 2.0], 0.01)
    }

    #[test]
    fn a_straight_tube_is_a_rectangle_from_the_side_and_a_ring_from_its_end() {
        let side = of(vec![], 300.0, &Eye::front());
        let [least, most] = side.extent().unwrap();
        assert!((most[0] - least[0] - 300.0).abs() < 1e-9 && (most[1] - least[1] - 50.0).abs() < 1e-9);
        let end = of(vec![], 300.0, &Eye::left());
        let [least, most] = end.extent().unwrap();
        assert!((most[0] - least[0] - 50.0).abs() < 1e-9 && (most[1] - least[1] - 50.0).abs() < 1e-9);
        assert!(end.hidden.is_empty() || end.visible.len() >= 2, "outside and bore are seen");
    }

    #[test]
    fn the_outline_of_a_bend_seen_square_is_two_true_arcs() {
        // CLR 100, tube 50: arcs of 75 and 125 mm about the centre of the bend.
        let bend = of(vec![row_at(200.0, 0.0, 90.0, 100.0)], 200.0, &Eye::top());
        let centre = [200.0, 100.0];
        let mut found = [0, 0];
        for place in bend.visible.iter().filter(|line| line.len() > 4).flatten() {
            let away = (place[0] - centre[0]).hypot(place[1] - centre[1]);
            if (away - 75.0).abs() < 1e-6 {
                found[0] += 1;
            } else if (away - 125.0).abs() < 1e-6 {
                found[1] += 1;
            }
        }
        assert!(found[0] > 5 && found[1] > 5, "{found:?}");
    }

    #[test]
    fn the_extent_is_that_of_the_tube_in_every_view() {
        let part = part(vec![row_at(200.0, 0.0, 70.0, 100.0), row_at(80.0, 65.0, 120.0, 100.0)], 150.0).unwrap();
        let centreline = solved_centreline(&part);
        let size = centreline.tube_bounding_box(50.0).size();
        for (eye, wanted) in [
            (Eye::front(), [size.x, size.z]),
            (Eye::top(), [size.x, size.y]),
            (Eye::left(), [size.y, size.z]),
            (Eye::right(), [size.y, size.z]),
        ] {
            let outline = Outline::of(&centreline, &eye, [50.0, 2.0], 0.001);
            let [least, most] = outline.extent().unwrap();
            for axis in 0..2 {
                assert!(
                    (most[axis] - least[axis] - wanted[axis]).abs() < 0.1,
                    "{eye:?} {axis}: {:?}",
                    outline.extent()
                );
            }
        }
    }

    /// One tube along x, and another that crosses 100 mm over it along y: from the top 50 mm of the lower one are hidden.
    #[test]
    fn what_lies_behind_is_not_drawn() {
        let straight = |from: [f64; 3], to: [f64; 3]| {
            let points = [from, to].map(|[x, y, z]| Point3::new(x, y, z)).to_vec();
            solved_centreline(&part_along(Path::Vertices(VertexPath::new(points, Vec::new()).unwrap())))
        };
        let (lower, upper) =
            (straight([0.0; 3], [300.0, 0.0, 0.0]), straight([150.0, -150.0, 100.0], [150.0, 150.0, 100.0]));
        let eye = Eye::top();
        let mut cover = Cover::default();
        cover.add(&lower, &eye, 25.0);
        cover.add(&upper, &eye, 25.0);
        let sides = |tube: &Centreline| -> f64 {
            let outline = Outline::among(tube, &eye, [50.0, 2.0], 0.01, &cover);
            let long = outline.visible.iter().filter(|line| line.len() == 2);
            long.map(|line| (line[0][0] - line[1][0]).hypot(line[0][1] - line[1][1])).sum()
        };
        // Both sides of each; what covers counts as 2 % thinner than it is.
        assert!((sides(&upper) - 600.0).abs() < 0.1, "{}", sides(&upper));
        assert!((sides(&lower) - 2.0 * (300.0 - 49.0)).abs() < 0.2, "{}", sides(&lower));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(40))]

        /// Nothing that is drawn lies farther from the centreline, as it is seen, than the tube reaches.
        #[test]
        fn outlines_keep_within_the_tube(
            rows in prop::collection::vec((0.0..200.0f64, -180.0..180.0f64, 1.0..185.0f64), 1..5),
        ) {
            let rows = rows.iter().map(|(straight, rotation, angle)| row_at(*straight, *rotation, *angle, 90.0));
            let centreline = solved_centreline(&part(rows.collect(), 120.0).unwrap());
            let eye = Eye::isometric();
            let outline = Outline::of(&centreline, &eye, [50.0, 2.0], 0.01);
            let reach = eye.length(25.0);
            let near = |place: &[f64; 2]| {
                let far = outline.centre.windows(2).map(|pair| {
                    let way = [pair[1][0] - pair[0][0], pair[1][1] - pair[0][1]];
                    let square = way[0] * way[0] + way[1] * way[1];
                    let off = [place[0] - pair[0][0], place[1] - pair[0][1]];
                    let share = ((off[0] * way[0] + off[1] * way[1]) / square.max(1e-12)).clamp(0.0, 1.0);
                    (off[0] - way[0] * share).hypot(off[1] - way[1] * share)
                });
                far.fold(f64::INFINITY, f64::min)
            };
            for place in outline.lines().flatten() {
                prop_assert!(near(place) <= reach + 0.1, "{:?} lies {} off", place, near(place));
            }
            // And the sides of straights that nothing covers lie just as far.
            prop_assert!(outline.visible.iter().flatten().any(|place| near(place) > reach - 0.1));
        }
    }
}
